//! A device that runs full: the browser's profile on a file system of some megabytes, filled until writes
//! fail, then freed. Skipped, by name, where a file system can't be mounted.

use serde_json::json;
use std::collections::BTreeSet;
use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::Command;
use stillwood_tests::browser::steps::{
    address, begin_plank, keys, press, quick_plank, set_up, to_verdict,
};
use stillwood_tests::browser::{
    Browser, Device, Engine, Folder, HOPPLE, Page, Pile, Server, run, skipped,
};

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

/// Fills the file system to the last byte; what came free since it was filled before is taken as well.
fn fill(folder: &Path) {
    let mut how = fs::OpenOptions::new();
    how.create(true).append(true);
    let mut file = how.open(folder.join("filler")).expect("a file");
    for size in [1 << 20, 4 << 10, 1] {
        while file.write_all(&vec![7; size]).is_ok() {}
    }
}

/// Whether it is told that something is not kept, on whatever screen.
async fn is_told(page: &Page) -> bool {
    page.text("#app").await.contains("Not saved")
}

/// Waits until a plank is said to be held, or what stands in the way is told; and until another screen stands.
async fn held_or_told(page: &Page, mark: &str) {
    let script = "document.querySelector('#title')?.innerText !== arguments[0] &&\
        (document.querySelector('.toast')?.innerText.startsWith(`${arguments[0]} held.`) ||\
         !!document.querySelector('#notices .notice.bad'))";
    page.wait_for("the plank to be held, or not", script, vec![json!(mark)])
        .await;
}

/// The planks that are not in the store, asked after a new start.
async fn missing(page: &Page, acknowledged: &BTreeSet<String>) -> Vec<String> {
    page.go_to("#/planks").await;
    page.see("#head", &format!("{} planks", acknowledged.len()))
        .await;
    // The list draws only the rows that are in view: all of them stand in the store.
    let script = "const open = indexedDB.open('stillwood');\
        open.onsuccess = () => {\
            const all = open.result.transaction('pages').objectStore('pages').getAll();\
            all.onsuccess = () => {\
                open.result.close();\
                const texts = all.result.map((page) => new TextDecoder().decode(page)).join('\\n');\
                done([...new Set([...texts.matchAll(/\"mark\":\"([^\"]+)\"/g)].map((found) => found[1]))]);\
            };\
        };";
    let found = page.js_async(script, vec![]).await;
    let found: BTreeSet<String> = serde_json::from_value(found).expect("marks");
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
        set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        let pile = address(&page).await;
        let mut acknowledged = BTreeSet::new();
        let (mut failures, mut kept_unasked) = (0, 0);
        for round in 0..2 {
            let before = failures;
            for _ in 0..3 {
                acknowledged.insert(quick_plank(&page, "2620").await);
            }
            // Until it is told that something is not kept. What the browser gives back is taken again at once.
            for _ in 0..40 {
                fill(small.0.path());
                let mark = begin_plank(&page).await;
                keys(&page, "2480 next 210").await;
                to_verdict(&page).await;
                press(&page, "Hold").await;
                held_or_told(&page, &mark).await;
                let saved = !is_told(&page).await;
                page.go_to(&pile).await;
                page.text("#body .count").await;
                acknowledged.insert(mark);
                if !saved {
                    failures += 1;
                    break;
                }
            }
            fs::remove_file(small.0.path().join("filler")).expect("room again");
            if failures > before {
                // A store that the browser emptied meanwhile is written again unasked.
                if is_told(&page).await {
                    press(&page, "Try again").await;
                    page.see(".toast", "Kept now").await;
                    assert!(!is_told(&page).await);
                } else {
                    kept_unasked += 1;
                }
            } else {
                assert!(!is_told(&page).await, "nothing was refused");
            }
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
        let begins = "document.querySelector('#body .start') ? 'nothing'\
            : document.querySelector('#head h1') ? 'visits' : null";
        if page.wait_for("the visits, or none", begins, vec![]).await == "nothing" {
            // It found its own files damaged and threw all of them away, as it may at any start after a full
            // disk. Where it kept the second copy the record is taken from there, a page loaded anew or not.
            let copy = "caches.has('stillwood-second-copy').then(done)";
            let copy_is_there = page.js_async(copy, vec![]).await;
            assert_eq!(copy_is_there, json!(false), "the second copy was not taken");
            skipped(
                Engine::Chromium,
                "a start after a full disk: the browser threw its store and its cached files away",
            );
        } else {
            assert_eq!(missing(&page, &acknowledged).await, Vec::<String>::new());
        }
        browser.close().await;
    });
}
