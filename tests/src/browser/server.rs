//! The static host that the app comes from: the build tool's own, stopped with the value.

use super::place::program;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};

#[derive(Debug)]
pub struct Server {
    child: Option<Child>,
    folder: PathBuf,
    address: String,
}

impl Server {
    /// Serves the built app on a free port.
    pub fn start() -> Self {
        Self::of(&program("STILLWOOD_DIST"))
    }

    /// Serves another folder.
    pub fn of(folder: &Path) -> Self {
        let (child, address) = start(folder, "0");
        Self {
            child: Some(child),
            folder: folder.to_owned(),
            address,
        }
    }

    /// The app's address, with the stroke at its end.
    pub fn address(&self) -> &str {
        &self.address
    }

    /// Stops it: from now on there is no network as far as the app can tell.
    pub fn stop(&mut self) {
        if let Some(mut child) = self.child.take() {
            // It may have ended by itself; then there is nothing to stop.
            let _ = child.kill();
            let _ = child.wait();
        }
    }

    /// Starts it again at the same address.
    pub fn start_again(&mut self) {
        self.stop();
        let port = self.address.trim_end_matches('/').rsplit(':').next();
        let (child, address) = start(&self.folder, port.unwrap_or("0"));
        assert_eq!(address, self.address, "the same address again");
        self.child = Some(child);
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.stop();
    }
}

fn start(folder: &Path, port: &str) -> (Child, String) {
    let mut child = Command::new(program("STILLWOOD_XTASK"))
        .args(["serve", "--port", port, "--from"])
        .arg(folder)
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .spawn()
        .expect("the build tool starts");
    let mut said = String::new();
    let stdout = child.stdout.take().expect("its output");
    BufReader::new(stdout)
        .read_line(&mut said)
        .expect("a line with the address");
    let address = said
        .split_whitespace()
        .find(|word| word.starts_with("http://"))
        .unwrap_or_else(|| panic!("the server named no address: {said:?}"));
    (child, address.to_owned())
}
