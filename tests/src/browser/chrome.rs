//! Chromium with a profile of its own, as a phone or as a laptop. The driver and the browser are
//! ended by their own process ids, never by a name.

use super::page::Page;
use super::place::{Folder, program};
use super::until;
use serde_json::json;
use std::fs;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;
use thirtyfour::prelude::*;
use thirtyfour::{ChromeCapabilities, ChromiumLikeCapabilities, LoggingPrefsLogLevel};

/// What the browser runs as.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Device {
    /// 390 x 844, touched.
    Phone,
    /// 1280 x 800, with a mouse and a keyboard.
    Laptop,
}

/// The same for every profile: no window, nothing that reaches out.
const FLAGS: [&str; 11] = [
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-crash-reporter",
    "--disable-dev-shm-usage",
    "--lang=en-GB",
];

/// Words of a page that broke, in its own log; a network that is gone is said there too, and is well.
const BROKEN: [&str; 4] = [
    "panicked",
    "unreachable",
    "Uncaught",
    "Content Security Policy",
];

/// A browser on one profile. Dropping it ends it; the profile goes when its folder does.
pub struct Browser {
    driver: Option<Child>,
    web: Option<WebDriver>,
    device: Device,
}

impl Browser {
    /// Starts one on a profile, a new one or one that was used before.
    pub async fn start(device: Device, profile: &Folder) -> Self {
        let (driver, address) = start_driver();
        let mut browser = Self {
            driver: Some(driver),
            web: None,
            device,
        };
        let web = WebDriver::builder(address, capabilities(device, profile.path()))
            .request_timeout(Duration::from_secs(90))
            .await;
        let web = web.expect("Chromium starts");
        // A script may wait until a whole version of the app has been fetched.
        let patient = web.set_script_timeout(Duration::from_secs(80)).await;
        browser.web = Some(web);
        patient.expect("a limit for scripts");
        browser
    }

    /// The page in front.
    pub fn page(&self) -> Page {
        let web = self.web.as_ref().expect("it runs");
        Page::new(web.clone(), self.device)
    }

    /// Kills the browser and all that belongs to it at once, as when a battery dies.
    pub async fn kill(mut self) {
        self.end();
        // The system takes a moment to clear away what it killed.
        tokio::task::yield_now().await;
    }

    /// Closes it in good order. Fails when a page broke while it was open: what is drawn may look well
    /// after a panic.
    pub async fn close(mut self) {
        if let Some(web) = self.web.take() {
            let said = web.browser_log().await.expect("the pages' own log");
            let broken: Vec<String> = said
                .into_iter()
                .map(|entry| entry.message)
                .filter(|said| BROKEN.iter().any(|word| said.contains(word)))
                .collect();
            assert!(broken.is_empty(), "a page broke: {}", broken.join("\n"));
            // What goes wrong here ends with the processes just after.
            let _ = web.quit().await;
        }
        self.end();
    }

    fn end(&mut self) {
        if let Some(web) = self.web.take() {
            // The session ends with its processes; the client must not wait for an answer.
            let _ = web.leak();
        }
        let Some(mut driver) = self.driver.take() else {
            return;
        };
        let below = below(driver.id());
        kill(&below);
        // Gone already, or killed here: in both cases it is waited for.
        let _ = driver.kill();
        let _ = driver.wait();
        for _ in 0..100 {
            if !below.iter().any(|pid| runs(*pid)) {
                break;
            }
            std::thread::sleep(Duration::from_millis(20));
        }
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        self.end();
    }
}

fn start_driver() -> (Child, String) {
    let mut driver = Command::new(program("CHROMEDRIVER"))
        .arg("--port=0")
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("chromedriver starts");
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
            panic!("chromedriver named no port; it ended with {ended:?}");
        }
    }
}

fn capabilities(device: Device, profile: &Path) -> ChromeCapabilities {
    let mut wanted = DesiredCapabilities::chrome();
    wanted
        .set_browser_log_level(LoggingPrefsLogLevel::Warning)
        .expect("a level");
    let mut add = |flag: &str| wanted.add_arg(flag).expect("a flag");
    for flag in FLAGS {
        add(flag);
    }
    add(&format!("--user-data-dir={}", profile.display()));
    match device {
        Device::Laptop => add("--window-size=1280,800"),
        Device::Phone => {
            add("--window-size=390,844");
            // The driver carries this out by the browser's own emulation of devices, on every tab.
            let phone = json!({
                "deviceMetrics": {
                    "width": 390, "height": 844, "pixelRatio": 3.0, "touch": true, "mobile": true
                },
                "clientHints": { "platform": "Android", "mobile": true },
            });
            wanted
                .add_experimental_option("mobileEmulation", phone)
                .expect("an option");
        }
    }
    wanted
}

/// A process with its parent.
fn processes() -> Vec<(u32, u32)> {
    if let Ok(folder) = fs::read_dir("/proc") {
        let known: Vec<(u32, u32)> = folder
            .flatten()
            .filter_map(|entry| {
                let pid: u32 = entry.file_name().to_str()?.parse().ok()?;
                let stat = fs::read_to_string(entry.path().join("stat")).ok()?;
                // The name, in brackets, may hold anything; after it come the state and the parent.
                let parent = stat.rsplit_once(')')?.1.split_whitespace().nth(1)?;
                Some((pid, parent.parse().ok()?))
            })
            .collect();
        if !known.is_empty() {
            return known;
        }
    }
    let listed = Command::new("ps").args(["-A", "-o", "pid=,ppid="]).output();
    let text = listed.map(|listed| String::from_utf8_lossy(&listed.stdout).into_owned());
    text.unwrap_or_default()
        .lines()
        .filter_map(|line| {
            let mut numbers = line.split_whitespace().map(str::parse);
            Some((numbers.next()?.ok()?, numbers.next()?.ok()?))
        })
        .collect()
}

/// All processes that descend from one.
fn below(top: u32) -> Vec<u32> {
    let all = processes();
    let mut found = vec![top];
    let mut at = 0;
    while let Some(parent) = found.get(at).copied() {
        found.extend(
            all.iter()
                .filter(|(_, p)| *p == parent)
                .map(|(pid, _)| *pid),
        );
        at += 1;
    }
    found.remove(0);
    found
}

fn kill(pids: &[u32]) {
    if pids.is_empty() {
        return;
    }
    let pids: Vec<String> = pids.iter().map(u32::to_string).collect();
    let command = format!("kill -KILL {} 2>/dev/null", pids.join(" "));
    // Those that ended meanwhile make it fail; the rest is killed all the same.
    let _ = Command::new("sh").args(["-c", &command]).status();
}

fn runs(pid: u32) -> bool {
    fs::read_to_string(format!("/proc/{pid}/stat")).is_ok_and(|stat| {
        // A zombie waits for its parent and does nothing more.
        stat.rsplit_once(')')
            .is_some_and(|(_, rest)| !rest.trim_start().starts_with('Z'))
    })
}

/// Waits for a download to be whole and reads it.
pub async fn downloaded(folder: &Path) -> (String, Vec<u8>) {
    let found = until(async || {
        let files: Vec<_> = fs::read_dir(folder).ok()?.flatten().collect();
        let whole = files.iter().all(|file| {
            let name = file.file_name().to_string_lossy().into_owned();
            !name.ends_with(".crdownload") && !name.starts_with(".org.chromium")
        });
        let file = files.first().filter(|_| whole && files.len() == 1)?;
        let bytes = fs::read(file.path())
            .ok()
            .filter(|bytes| !bytes.is_empty())?;
        Some((file.file_name().to_string_lossy().into_owned(), bytes))
    });
    found.await.expect("one file downloaded")
}
