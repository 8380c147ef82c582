//! The program that drives a browser. One serves many browsers, one after the other: to start it anew
//! for each would cost more than the browser does.

use super::chrome::Device;
use super::engine::Engine;
use super::processes::{below, kill, wait_for_end};
use std::io::{BufRead, BufReader};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::Path;
use std::process::{Child, Stdio};
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};
use thirtyfour::WebDriver;
use thirtyfour::error::WebDriverResult;

/// How long a driver may take to listen.
const START: Duration = Duration::from_secs(30);

/// A running driver. Dropping it ends it and every browser of it.
#[derive(Debug)]
pub struct Driver {
    child: Option<Child>,
    address: String,
    engine: Engine,
}

impl Driver {
    /// Starts the driver of an engine on a free port.
    pub fn start(engine: Engine) -> Self {
        let (child, address) = match engine {
            Engine::Chromium => with_named_port(engine),
            Engine::Firefox | Engine::WebKit => with_chosen_port(engine),
        };
        Self {
            child: Some(child),
            address,
            engine,
        }
    }

    /// Starts a browser on a profile, with `more` flags where it takes any.
    pub async fn open(
        &self,
        device: Device,
        profile: &Path,
        more: &[&str],
    ) -> WebDriverResult<WebDriver> {
        let wanted = self.engine.capabilities(device, profile, more);
        let web = WebDriver::builder(&self.address, wanted)
            .request_timeout(Duration::from_secs(90))
            .await?;
        // A script may wait until a whole version of the app has been fetched.
        web.set_script_timeout(Duration::from_secs(80)).await?;
        Ok(web)
    }

    /// Kills every browser that it has started, and leaves it running.
    pub fn kill_browsers(&self) {
        if let Some(child) = &self.child {
            let mut below = below(child.id());
            if self.engine == Engine::WebKit {
                // The script that brings the display, and the driver, are among them.
                below.clear();
            }
            kill(&below);
            wait_for_end(&below);
        }
    }

    /// Ends it and all that belongs to it at once.
    pub fn end(&mut self) {
        let Some(mut child) = self.child.take() else {
            return;
        };
        let below = below(child.id());
        kill(&below);
        // Gone already, or killed here: in both cases it is waited for.
        let _ = child.kill();
        let _ = child.wait();
        wait_for_end(&below);
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        self.end();
    }
}

/// A driver that takes a free port and names it.
fn with_named_port(engine: Engine) -> (Child, String) {
    let mut driver = engine
        .driver(0)
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("the driver starts");
    let stdout = driver.stdout.take().expect("its output");
    let port = BufReader::new(stdout)
        .lines()
        .map_while(Result::ok)
        .find_map(|line| {
            let (_, port) = line.split_once("started successfully on port ")?;
            Some(port.trim_end_matches('.').to_owned())
        });
    match port {
        Some(port) => (driver, format!("http://127.0.0.1:{port}")),
        None => {
            let ended = driver.kill().and_then(|()| driver.wait());
            panic!("the driver named no port; it ended with {ended:?}");
        }
    }
}

/// Two that start at the same time might choose the same port, and the same number for a display.
static ONE_STARTS: Mutex<()> = Mutex::new(());

/// A driver that has to be told its port: one that was free a moment ago.
fn with_chosen_port(engine: Engine) -> (Child, String) {
    let _turn = ONE_STARTS.lock().unwrap_or_else(PoisonError::into_inner);
    let free = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).and_then(|free| free.local_addr());
    let port = free.expect("a free port").port();
    let mut driver = engine
        .driver(port)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .unwrap_or_else(|why| panic!("the driver of {} starts: {why}", engine.name()));
    let end = Instant::now() + START;
    while TcpStream::connect((Ipv4Addr::LOCALHOST, port)).is_err() {
        if Instant::now() > end {
            let ended = driver.kill().and_then(|()| driver.wait());
            panic!("the driver does not listen; it ended with {ended:?}");
        }
        std::thread::sleep(Duration::from_millis(50));
    }
    (driver, format!("http://127.0.0.1:{port}"))
}
