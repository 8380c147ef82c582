//! How much memory the app takes with a long record: the largest of the browser's processes.

use super::records::over_years;
use super::table::Table;
use super::{begun, of};
use std::fs;
use std::path::Path;
use std::time::Duration;
use stillwood_core::record::Log;
use stillwood_tests::browser::{Device, Folder, Server, downloaded, steps};

/// Entries of a record, in thousands, and the MB that the largest process may take.
const RECORDS: [(usize, f64); 2] = [(100, 450.0), (400, 1300.0)];
/// Entries of one plank over the years.
const ENTRIES_A_PLANK: usize = 20;

/// MB of the largest process of the browser with this profile: now, and at most since it began.
fn largest_process(profile: &Path) -> (f64, f64) {
    let profile = profile.to_str().expect("a path of letters");
    let mut of_the_browser: Vec<u32> = Vec::new();
    let mut others = Vec::new();
    for folder in fs::read_dir("/proc").expect("processes").flatten() {
        let Some(id) = folder.file_name().to_str().and_then(|id| id.parse().ok()) else {
            continue;
        };
        // A process may end while it is looked at.
        let (Ok(command), Ok(status)) = (
            fs::read_to_string(folder.path().join("cmdline")),
            fs::read_to_string(folder.path().join("status")),
        ) else {
            continue;
        };
        if command.contains(profile) {
            of_the_browser.push(id);
        }
        others.push((id, status));
    }
    let number = |status: &str, name: &str| {
        let line = status.lines().find(|line| line.starts_with(name))?;
        line.split_whitespace().nth(1)?.parse::<u32>().ok()
    };
    loop {
        let before = of_the_browser.len();
        for (id, status) in &others {
            let parent = number(status, "PPid:").expect("a parent");
            if of_the_browser.contains(&parent) && !of_the_browser.contains(id) {
                of_the_browser.push(*id);
            }
        }
        if of_the_browser.len() == before {
            break;
        }
    }
    let largest = |name: &str| {
        let own = others.iter().filter(|(id, _)| of_the_browser.contains(id));
        let most = own.filter_map(|(_, status)| number(status, name)).max();
        f64::from(most.expect("a process of the browser")) / 1024.0
    };
    (largest("VmRSS:"), largest("VmHWM:"))
}

/// Once it has come to rest.
async fn rested(profile: &Folder) -> (f64, f64) {
    tokio::time::sleep(Duration::from_secs(of(5, 0) as u64)).await;
    largest_process(profile.path())
}

/// Each figure now, and the most that the process ever took.
pub(super) async fn memory(table: &mut Table) {
    let server = Server::start();
    for (thousands, most) in RECORDS.into_iter().take(of(2, 1)) {
        let (profile, files) = (Folder::new("memory"), Folder::new("files"));
        let mut log = Log::new();
        log.merge(over_years(of(thousands * 1000 / ENTRIES_A_PLANK, 50)));
        let path = files.put("long.json", log.to_file("0.1.0", ""));
        let entries = log.len();
        drop(log);
        let mut row = |what: &str, (now, peak): (f64, f64)| {
            table.row(format!("{entries} entries: {what}"), now, "MB", Some(most));
            table.row(
                format!("{entries} entries: {what}, at most"),
                peak,
                "MB",
                Some(most),
            );
        };

        let browser = begun(Device::Phone, &profile, &server).await;
        let page = browser.page();
        row("an empty app", rested(&profile).await);
        steps::look_at(&page, &path).await;
        row("a file looked at", rested(&profile).await);
        steps::press(&page, "Bring in").await;
        page.see("#brought-in", "long.json").await;
        row("a file added", rested(&profile).await);
        browser.close().await;

        let browser = begun(Device::Phone, &profile, &server).await;
        let page = browser.page();
        page.wait_for("the first screen", "window.__drawn", vec![])
            .await;
        row("started", rested(&profile).await);
        let loads = Folder::new("loads");
        page.download_into(loads.path()).await;
        page.go_to("#/carry").await;
        steps::save_record(&page).await;
        downloaded(loads.path()).await;
        row("saved as a file", rested(&profile).await);
        browser.close().await;
    }
}
