//! A browser with a profile of its own, as a phone or as a laptop. The driver and the browser are
//! ended by their own process ids, never by a name.

use super::driver::Driver;
use super::engine::Engine;
use super::page::Page;
use super::place::Folder;
use super::until;
use std::fs;
use std::path::Path;
use thirtyfour::prelude::*;

/// What the browser runs as.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Device {
    /// 390 x 844, touched.
    Phone,
    /// 1280 x 800, with a mouse and a keyboard.
    Laptop,
}

/// Words of a page that broke, in its own log; a network that is gone is said there too, and is well.
pub const BROKEN: [&str; 4] = [
    "panicked",
    "unreachable",
    "Uncaught",
    "Content Security Policy",
];

/// A browser on one profile. Dropping it ends it; the profile goes when its folder does.
pub struct Browser {
    driver: Driver,
    web: Option<WebDriver>,
    device: Device,
    engine: Engine,
}

impl Browser {
    /// Starts Chromium on a profile, a new one or one that was used before.
    pub async fn start(device: Device, profile: &Folder) -> Self {
        Self::start_in(Engine::Chromium, device, profile).await
    }

    /// The same in another engine. Only Chromium can be a phone.
    pub async fn start_in(engine: Engine, device: Device, profile: &Folder) -> Self {
        let driver = Driver::start(engine);
        let web = driver.open(device, profile.path(), &[]).await;
        let web = web.unwrap_or_else(|why| panic!("{} starts: {why}", engine.name()));
        Self {
            driver,
            web: Some(web),
            device,
            engine,
        }
    }

    pub fn page(&self) -> Page {
        let web = self.web.as_ref().expect("it runs");
        Page::new(web.clone(), self.device, self.engine)
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
            if self.engine.takes_commands() {
                let broken = broken(&web).await;
                assert!(broken.is_empty(), "a page broke: {}", broken.join("\n"));
            }
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
        self.driver.end();
    }
}

/// What the pages' own log has of things that broke, since it was last asked.
pub async fn broken(web: &WebDriver) -> Vec<String> {
    let said = web.browser_log().await.expect("the pages' own log");
    said.into_iter()
        .map(|entry| entry.message)
        .filter(|said| BROKEN.iter().any(|word| said.contains(word)))
        .collect()
}

impl Drop for Browser {
    fn drop(&mut self) {
        self.end();
    }
}

/// Waits for a download to be whole and reads it.
pub async fn downloaded(folder: &Path) -> (String, Vec<u8>) {
    let found = until(async || {
        let files: Vec<_> = fs::read_dir(folder).ok()?.flatten().collect();
        let whole = files.iter().all(|file| {
            let name = file.file_name().to_string_lossy().into_owned();
            let under_way = [".crdownload", ".part"];
            let begun = under_way.iter().any(|end| name.ends_with(end));
            !begun && !name.starts_with(".org.chromium")
        });
        let file = files.first().filter(|_| whole && files.len() == 1)?;
        let bytes = fs::read(file.path())
            .ok()
            .filter(|bytes| !bytes.is_empty())?;
        Some((file.file_name().to_string_lossy().into_owned(), bytes))
    });
    found.await.expect("one file downloaded")
}
