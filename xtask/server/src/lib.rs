//! Serves the built app on this machine only, with the headers a host should send.
//!
//! The server runs on a thread of its own and can be stopped and started again on the same port,
//! so that a test can take the network away from a browser.
#![cfg_attr(test, allow(clippy::unwrap_used, clippy::indexing_slicing))]

use std::io;
use std::net::{Ipv4Addr, SocketAddr, TcpListener};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread::JoinHandle;

use axum::Router;
use axum::extract::Request;
use axum::http::StatusCode;
use axum::http::header::{
    CACHE_CONTROL, CONTENT_SECURITY_POLICY, HeaderName, HeaderValue, REFERRER_POLICY,
    X_CONTENT_TYPE_OPTIONS,
};
use axum::middleware::{self, Next};
use axum::response::IntoResponse;
use tokio::sync::oneshot;
use tower_http::services::ServeDir;
use tower_http::set_header::SetResponseHeaderLayer;

/// What the app may load: its own files, and nothing from anywhere else.
///
/// Source of the syntax: W3C, Content Security Policy Level 3; `'wasm-unsafe-eval'` allows
/// compiling WebAssembly and no other evaluation. The page repeats all but the last part, which
/// only a header can carry.
pub const CONTENT_POLICY: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; \
     style-src 'self'; img-src 'self'; connect-src 'self'; manifest-src 'self'; \
     worker-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

/// Sent with every answer. `no-cache` lets browsers keep files but makes them ask each time.
const HEADERS: [(HeaderName, &str); 4] = [
    (CONTENT_SECURITY_POLICY, CONTENT_POLICY),
    (CACHE_CONTROL, "no-cache"),
    (X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (REFERRER_POLICY, "no-referrer"),
];

/// A running server; stops when dropped.
#[derive(Debug)]
pub struct Server {
    address: SocketAddr,
    asked: Asked,
    fails: Fails,
    stop: Option<oneshot::Sender<()>>,
    thread: Option<JoinHandle<io::Result<()>>>,
}

/// Paths asked for so far, in order.
type Asked = Arc<Mutex<Vec<String>>>;

/// Paths answered by 500.
type Fails = Arc<Mutex<Vec<String>>>;

impl Server {
    /// Serves a folder on a port of this machine; port 0 takes any free one.
    ///
    /// # Errors
    /// When the port is taken, or threads are not to be had.
    pub fn start(folder: &Path, port: u16) -> io::Result<Self> {
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port))?;
        listener.set_nonblocking(true)?;
        let address = listener.local_addr()?;
        let (asked, fails) = (Asked::default(), Fails::default());
        let (stop, stopped) = oneshot::channel();
        let thread = std::thread::Builder::new().name("server".into()).spawn({
            let app = app(folder.to_path_buf(), Arc::clone(&asked), Arc::clone(&fails));
            move || serve(listener, app, stopped)
        })?;
        Ok(Self { address, asked, fails, stop: Some(stop), thread: Some(thread) })
    }

    /// Where it listens.
    #[must_use]
    pub fn address(&self) -> SocketAddr {
        self.address
    }

    /// Paths asked for so far, in order, with their query.
    #[must_use]
    pub fn asked(&self) -> Vec<String> {
        self.asked.lock().unwrap_or_else(PoisonError::into_inner).clone()
    }

    /// Answers these paths by 500 from now on, and all others as always.
    pub fn fail(&self, paths: &[&str]) {
        let paths = paths.iter().map(|path| (*path).to_owned()).collect();
        *self.fails.lock().unwrap_or_else(PoisonError::into_inner) = paths;
    }

    /// Serves until the process ends.
    ///
    /// # Errors
    /// When the connection to the network breaks.
    pub fn wait(mut self) -> io::Result<()> {
        match self.thread.take().map(JoinHandle::join) {
            Some(Ok(outcome)) => outcome,
            _ => Err(io::Error::other("the server's thread ended")),
        }
    }
}

impl Drop for Server {
    /// Closes the port and every open connection before it returns.
    fn drop(&mut self) {
        drop(self.stop.take());
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
    }
}

fn serve(listener: TcpListener, app: Router, stopped: oneshot::Receiver<()>) -> io::Result<()> {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_io().build()?;
    // Dropping the runtime afterwards drops the connections too; a graceful end would wait for
    // browsers, which keep theirs open.
    runtime.block_on(async {
        let listener = tokio::net::TcpListener::from_std(listener)?;
        let serving = tokio::spawn(axum::serve(listener, app).into_future());
        let _ = stopped.await;
        serving.abort();
        Ok(())
    })
}

fn app(folder: PathBuf, asked: Asked, fails: Fails) -> Router {
    let mut app = Router::new()
        .fallback_service(ServeDir::new(folder).precompressed_br().precompressed_gzip());
    for (name, text) in HEADERS {
        app = app.layer(SetResponseHeaderLayer::overriding(name, HeaderValue::from_static(text)));
    }
    app.layer(middleware::from_fn(move |request: Request, next: Next| {
        asked.lock().unwrap_or_else(PoisonError::into_inner).push(request.uri().to_string());
        let fails = fails.lock().unwrap_or_else(PoisonError::into_inner);
        let fails = fails.iter().any(|path| path == request.uri().path());
        async move {
            if fails {
                StatusCode::INTERNAL_SERVER_ERROR.into_response()
            } else {
                next.run(request).await
            }
        }
    }))
}

#[cfg(test)]
mod tests {
    use std::fs;
    use std::io::{Read, Write};
    use std::net::TcpStream;

    use super::*;

    fn get(address: SocketAddr, path: &str) -> String {
        let mut stream = TcpStream::connect(address).unwrap();
        write!(stream, "GET {path} HTTP/1.1\r\nHost: {address}\r\nConnection: close\r\n\r\n")
            .unwrap();
        let mut answer = String::new();
        stream.read_to_string(&mut answer).unwrap();
        answer
    }

    /// Without the exact type browsers do not compile wasm as it streams in.
    /// Source: W3C, WebAssembly Web API, sec. "Streaming Module Compilation and Instantiation".
    #[test]
    fn each_kind_of_file_has_its_type_and_every_answer_its_headers() {
        let folder = tempfile::tempdir().unwrap();
        let types = [
            ("app_bg.wasm", "application/wasm"),
            ("app.js", "text/javascript"),
            ("app.css", "text/css"),
            ("manifest.webmanifest", "application/manifest+json"),
            ("icon.svg", "image/svg+xml"),
            ("icon.png", "image/png"),
            ("index.html", "text/html"),
        ];
        for (name, _) in types {
            fs::write(folder.path().join(name), "x").unwrap();
        }
        let server = Server::start(folder.path(), 0).unwrap();
        for (name, kind) in types {
            let answer = get(server.address(), &format!("/{name}")).to_ascii_lowercase();
            assert!(answer.starts_with("http/1.1 200"), "{name}: {answer}");
            assert!(answer.contains(&format!("content-type: {kind}")), "{name}: {answer}");
            for (header, text) in HEADERS {
                let line = format!("{header}: {text}\r\n").to_ascii_lowercase();
                assert!(answer.contains(&line), "{name} lacks {line}: {answer}");
            }
        }
        assert!(get(server.address(), "/").contains("text/html"), "the folder serves its page");
        assert!(get(server.address(), "/no-such-file").starts_with("HTTP/1.1 404"));
        assert!(get(server.address(), "/../Cargo.toml").starts_with("HTTP/1.1 4"));
        assert_eq!(server.asked()[0], "/app_bg.wasm");
    }

    #[test]
    fn what_is_packed_is_sent_so_to_those_who_take_it() {
        let folder = tempfile::tempdir().unwrap();
        for (name, text) in
            [("app.js", "plain"), ("app.js.br", "as brotli"), ("app.js.gz", "as gzip")]
        {
            fs::write(folder.path().join(name), text).unwrap();
        }
        let server = Server::start(folder.path(), 0).unwrap();
        for (takes, gets) in [("br, gzip", "as brotli"), ("gzip", "as gzip"), ("identity", "plain")]
        {
            let path = format!("/app.js HTTP/1.1\r\nAccept-Encoding: {takes}\r\nX:");
            let answer = get(server.address(), &path);
            assert!(answer.ends_with(gets), "{takes}: {answer}");
            assert!(answer.contains("text/javascript"), "{answer}");
        }
        server.fail(&["/app.js"]);
        assert!(get(server.address(), "/app.js").starts_with("HTTP/1.1 500"));
        server.fail(&[]);
        assert!(get(server.address(), "/app.js").ends_with("plain"));
    }

    #[test]
    fn a_stopped_server_drops_its_connections_and_can_start_again_on_its_port() {
        let folder = tempfile::tempdir().unwrap();
        fs::write(folder.path().join("index.html"), "x").unwrap();
        let server = Server::start(folder.path(), 0).unwrap();
        let address = server.address();
        let mut open = TcpStream::connect(address).unwrap();
        write!(open, "GET / HTTP/1.1\r\nHost: {address}\r\n\r\n").unwrap();
        let mut first = [0; 8];
        open.read_exact(&mut first).unwrap();
        drop(server);
        let mut rest = Vec::new();
        // Either a clean end or a reset: what matters is that it does not stay open.
        let _ = open.read_to_end(&mut rest);
        assert!(TcpStream::connect(address).is_err());
        let again = Server::start(folder.path(), address.port()).unwrap();
        assert!(get(again.address(), "/").starts_with("HTTP/1.1 200"));
    }

    /// The page's own policy protects it on hosts that send no such header.
    #[test]
    fn the_page_repeats_the_policy() {
        let page = fs::read_to_string(
            Path::new(env!("CARGO_MANIFEST_DIR")).join("../../static/index.html"),
        )
        .unwrap();
        let only_in_a_header = "; frame-ancestors 'none'";
        let expected = CONTENT_POLICY.replace(only_in_a_header, "");
        let found = page
            .split("http-equiv=\"Content-Security-Policy\"")
            .nth(1)
            .and_then(|rest| rest.split("content=\"").nth(1)?.split('"').next())
            .unwrap();
        assert_eq!(found.split_whitespace().collect::<Vec<_>>().join(" "), expected);
    }
}
