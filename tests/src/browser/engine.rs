//! The three engines that a maker's browser may have, and what a test asks of each.

use super::place::program;
use serde_json::{Value, json};
use std::fs::OpenOptions;
use std::io::Write;
use std::path::Path;
use thirtyfour::{
    Capabilities, ChromeCapabilities, ChromiumLikeCapabilities, LoggingPrefsLogLevel,
};

use super::chrome::Device;

/// A browser's engine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Engine {
    /// Chromium by chromedriver. Only here the browser's own commands (CDP) can be sent.
    Chromium,
    Firefox,
    /// WebKitGTK's small browser by its own driver.
    WebKit,
}

/// Says by name what is not shown in an engine. The harness keeps what a test prints to itself, so it is
/// written past it, and where the test command counts it.
pub fn skipped(engine: Engine, what: &str) {
    let line = format!("skipped in {}: {what}", engine.name());
    writeln!(std::io::stdout(), "{line}").expect("a line");
    if let Some(list) = std::env::var_os("STILLWOOD_SKIPPED") {
        let list = OpenOptions::new().append(true).open(list);
        writeln!(list.expect("the list"), "{line}").expect("a line");
    }
}

/// The same for every profile of Chromium: no window, nothing that reaches out.
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

impl Engine {
    pub const ALL: [Engine; 3] = [Engine::Chromium, Engine::Firefox, Engine::WebKit];

    pub fn name(self) -> &'static str {
        match self {
            Engine::Chromium => "Chromium",
            Engine::Firefox => "Firefox",
            Engine::WebKit => "WebKitGTK",
        }
    }

    /// Whether the browser's own commands can be sent to it.
    pub fn takes_commands(self) -> bool {
        self == Engine::Chromium
    }

    /// The command that starts its driver on a port, where 0 is a free one that it names itself.
    pub(super) fn driver(self, port: u16) -> std::process::Command {
        let mut command = match self {
            Engine::Chromium => std::process::Command::new(program("CHROMEDRIVER")),
            Engine::Firefox => std::process::Command::new(program("GECKODRIVER")),
            Engine::WebKit => {
                // Its window needs a display, though nobody looks at it.
                let mut command = std::process::Command::new("xvfb-run");
                command.arg("-a").arg(program("WEBKIT_DRIVER"));
                command
            }
        };
        match self {
            Engine::Chromium | Engine::WebKit => command.arg(format!("--port={port}")),
            Engine::Firefox => command.args(["--port", &port.to_string()]),
        };
        command
    }

    /// What is asked of the driver for a browser on a profile.
    pub(super) fn capabilities(
        self,
        device: Device,
        profile: &Path,
        more: &[&str],
    ) -> Capabilities {
        match self {
            Engine::Chromium => chromium(device, profile, more).into(),
            Engine::Firefox => firefox(profile),
            Engine::WebKit => plain(json!({
                "browserName": "MiniBrowser",
                "webkitgtk:browserOptions": {
                    "binary": program("WEBKIT_BROWSER"),
                    "args": ["--automation"],
                },
            })),
        }
    }
}

fn plain(wanted: Value) -> Capabilities {
    serde_json::from_value(wanted).expect("capabilities")
}

fn firefox(profile: &Path) -> Capabilities {
    let loads = profile.join("loads");
    plain(json!({
        "browserName": "firefox",
        "moz:firefoxOptions": {
            "args": ["-headless", "-profile", profile, "--width=1280", "--height=800"],
            "prefs": {
                "app.update.auto": false,
                "browser.download.dir": loads,
                "browser.download.folderList": 2,
                "browser.download.useDownloadDir": true,
                "browser.helperApps.neverAsk.saveToDisk": "application/json,text/plain",
                "datareporting.policy.dataSubmissionEnabled": false,
                "dom.serviceWorkers.testing.enabled": true,
                "intl.accept_languages": "en-GB",
            },
        },
    }))
}

fn chromium(device: Device, profile: &Path, more: &[&str]) -> ChromeCapabilities {
    let mut wanted = thirtyfour::DesiredCapabilities::chrome();
    wanted
        .set_browser_log_level(LoggingPrefsLogLevel::Warning)
        .expect("a level");
    let mut add = |flag: &str| wanted.add_arg(flag).expect("a flag");
    for flag in FLAGS.iter().chain(more) {
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
