//! A device that runs full: the browser's profile on a file system of some megabytes, filled until writes
//! fail, then freed. Skipped, by name, where a file system can't be mounted.

use serde_json::json;
use std::collections::BTreeSet;
use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::Command;
use stillwood_tests::browser::{Browser, Device, Engine, Folder, Page, Server, run, skipped};

/// A small file system; it goes with the value.
struct Small(Folder);

impl Small {
    /// `None` where this machine does not let tests mount.
    fn mount(megabytes: u32) -> Option<Self> {
        let folder = Folder::new("small");
        let mounted = Command::new("mount")
            .args(["-t", "tmpfs", "-o", &format!("size={megabytes}m"), "tmpfs"])
            .arg(folder.path())
            .status();
        mounted
            .is_ok_and(|status| status.success())
            .then(|| Self(folder))
    }
}

impl Drop for Small {
    fn drop(&mut self) {
        // Lazily: a browser that is just going may still have files open.
        let _ = Command::new("umount").arg("-l").arg(self.0.path()).status();
    }
}

/// Fills the file system to the last byte.
fn fill(folder: &Path) {
    let mut file = fs::File::create(folder.join("filler")).expect("a file");
    for size in [1 << 20, 4 << 10, 1] {
        while file.write_all(&vec![7; size]).is_ok() {}
    }
}

/// The planks that are not in the store, asked after a new start.
async fn missing(page: &Page, acknowledged: &BTreeSet<String>) -> Vec<String> {
    page.go_to("#/planks").await;
    page.see("header.top h1", "All planks").await;
    page.wait_for(
        "all planks",
        "document.querySelectorAll('#planks tbody .mark').length >= arguments[0]",
        vec![json!(acknowledged.len())],
    )
    .await;
    let found: BTreeSet<String> = page
        .texts("#planks tbody .mark")
        .await
        .into_iter()
        .collect();
    acknowledged.difference(&found).cloned().collect()
}

#[test]
fn a_full_device_loses_nothing_that_was_acknowledged() {
    let Some(small) = Small::mount(64) else {
        skipped(
            Engine::Chromium,
            "a full device: this machine lets no test mount a file system",
        );
        return;
    };
    run(async {
        let server = Server::start();
        let mut browser = Browser::start(Device::Phone, &small.0).await;
        let mut page = browser.page();
        page.set_up(server.address()).await;
        page.begin_plank().await;
        let mut acknowledged = BTreeSet::new();
        let (mut failures, mut kept_unasked) = (0, 0);
        for round in 0..3 {
            let before = failures;
            for _ in 0..3 {
                page.wait_for("the keys", "document.querySelector('.keypad')", vec![])
                    .await;
                acknowledged.insert(page.quick_plank("2620").await);
            }
            fill(small.0.path());
            // Until it is told that something is not kept.
            for _ in 0..40 {
                page.wait_for("the keys", "document.querySelector('.keypad')", vec![])
                    .await;
                let mark = page.mark().await;
                page.keys("2480 next 210").await;
                page.tap("#take").await;
                page.see(".toast", &format!("{mark} taken")).await;
                let saved = page
                    .wait_for(
                        "saved or not",
                        "(t => t === 'saved' || t === 'NOT SAVED' ? t : null)\
                            (document.querySelector('#saving')?.innerText.trim())",
                        vec![],
                    )
                    .await;
                acknowledged.insert(mark);
                if saved != "saved" {
                    failures += 1;
                    break;
                }
            }
            fs::remove_file(small.0.path().join("filler")).expect("room again");
            if failures > before {
                let said = "document.querySelector('#not-saved')?.checkVisibility() ? 'refused'\
                    : document.querySelector('#saving')?.innerText.trim() === 'saved' ? 'kept' : null";
                let came = page.wait_for("what came of what was refused", said, vec![]);
                if came.await == "refused" {
                    page.press("Try again").await;
                    page.gone("#not-saved").await;
                } else {
                    // A store that the browser emptied meanwhile is written again unasked.
                    kept_unasked += 1;
                }
            } else {
                assert!(!page.shows("#not-saved").await, "nothing was refused");
            }
            page.saved().await;
            println!(
                "round {round}: {} planks, {failures} failures, {kept_unasked} kept unasked",
                acknowledged.len()
            );
        }
        if kept_unasked > 0 {
            skipped(
                Engine::Chromium,
                &format!(
                    "{kept_unasked} of {failures} times that it is asked to try again: kept unasked"
                ),
            );
        }
        assert!(failures > 0, "the device never was full");
        page.reload().await;
        assert_eq!(missing(&page, &acknowledged).await, Vec::<String>::new());
        browser.kill().await;
        browser = Browser::start(Device::Phone, &small.0).await;
        page = browser.page();
        page.open(server.address()).await;
        // The first screen lists the visits, or offers the example where there is none.
        let begins = "document.querySelector('#visits a') ? 'visits'\
            : document.querySelector('#open-demo') ? 'nothing' : null";
        if page.wait_for("the visits, or none", begins, vec![]).await == "nothing" {
            // It found its own files damaged and threw all of them away, as it may at any start after a full
            // disk. The app says to save a file.
            skipped(
                Engine::Chromium,
                "a start after a full disk: the browser threw its store away",
            );
        } else {
            assert_eq!(missing(&page, &acknowledged).await, Vec::<String>::new());
        }
        browser.close().await;
    });
}
