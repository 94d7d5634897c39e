//! `pegline-server <folder> [port]`: serves the built app until stopped.

use std::io;
use std::path::Path;
use std::process::ExitCode;

use pegline_server::Server;

/// The first port tried, and how many after it, when none is asked for.
const PORTS: std::ops::Range<u16> = 8080..8100;

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let started = match arguments.as_slice() {
        [folder] => start_on_a_free_port(Path::new(folder)),
        [folder, port] => match port.parse() {
            Ok(port) => Server::start(Path::new(folder), port),
            Err(_) => return fail("The port must be a whole number up to 65535."),
        },
        _ => return fail("Use: pegline-server <folder> [port]"),
    };
    match started {
        Ok(server) => {
            let port = server.address().port();
            println!("Pegline is at http://localhost:{port}/ (stop with Ctrl+C)");
            println!(
                "On a phone a page works without signal only from https or from the phone's own \
                 localhost: connect an Android phone by USB, run `adb reverse tcp:{port} \
                 tcp:{port}` and open that address on it, or put dist/ on any https host."
            );
            match server.wait() {
                Ok(()) => ExitCode::SUCCESS,
                Err(error) => fail(&format!("The server stopped: {error}")),
            }
        }
        Err(error) => fail(&format!("The port cannot be used: {error}; name another one")),
    }
}

fn start_on_a_free_port(folder: &Path) -> io::Result<Server> {
    let mut last = io::Error::other("no port tried");
    for port in PORTS {
        match Server::start(folder, port) {
            Err(error) if error.kind() == io::ErrorKind::AddrInUse => last = error,
            other => return other,
        }
    }
    Err(last)
}

fn fail(sentence: &str) -> ExitCode {
    eprintln!("{sentence}");
    ExitCode::FAILURE
}
