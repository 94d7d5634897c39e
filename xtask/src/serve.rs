//! The app on this machine, for a look.

use crate::command::{self, Outcome};
use crate::dist;

/// Where to serve.
#[derive(clap::Args)]
pub(crate) struct Options {
    /// Port on this machine [default: 8080, or the next free one].
    #[arg(long)]
    port: Option<u16>,
}

/// Builds the app and serves it until stopped.
pub(crate) fn run(options: &Options) -> Outcome {
    dist::run()?;
    let mut server = dist::tool("pegline-server")?;
    server.arg(dist::folder());
    if let Some(port) = options.port {
        server.arg(port.to_string());
    }
    command::run(&mut server, "The app is no longer served")
}
