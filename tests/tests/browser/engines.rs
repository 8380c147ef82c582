//! One compact story of the app in three engines: the start, a day in the yard, a kill, no network,
//! files in and out. What an engine lacks is skipped by name, printed and counted.

use std::collections::BTreeSet;
use stillwood_core::plank::Field;
use stillwood_tests::browser::{
    Browser, Device, Engine, Folder, HOPPLE, Page, Pile, Server, downloaded, run, skipped, steps,
};
use stillwood_tests::yard::Phone;

/// The marks in the list of planks, each once.
async fn marks(page: &Page) -> BTreeSet<String> {
    page.go_to("#/planks").await;
    page.text("#planks tbody").await;
    let marks = page.texts("#planks tbody th a").await;
    let once: BTreeSet<String> = marks.iter().cloned().collect();
    assert_eq!(
        once.len(),
        marks.len(),
        "a plank stands there twice: {marks:?}"
    );
    once
}

/// The whole record leaves as a file.
async fn save_file(page: &Page, profile: &Folder, mark: &str) {
    let loads = profile.path().join("loads");
    std::fs::create_dir_all(&loads).expect("a folder");
    match page.engine() {
        Engine::Chromium => page.download_into(&loads).await,
        Engine::Firefox => {}
        Engine::WebKit => {
            return skipped(
                page.engine(),
                "a saved file is read (its driver says not where)",
            );
        }
    }
    page.go_to("#/carry").await;
    steps::save_record(page).await;
    let (name, file) = downloaded(&loads).await;
    let file = String::from_utf8(file).expect("text");
    assert!(name.ends_with(".json"), "{name}");
    assert!(file.contains(&format!("\"mark\":\"{mark}\"")), "{mark}");
}

/// A file of another phone comes in; the mark in it.
async fn open_file(page: &Page) -> String {
    let mut phone = Phone::new("B4");
    let (_, pile) = phone.pile();
    phone.plank(pile, "B4-1-C", &[(Field::Length, "2480")]);
    let files = Folder::new("next-files");
    steps::bring_in(page, &files.put("other.json", phone.file())).await;
    "B4-1-C".to_owned()
}

async fn story(engine: Engine) {
    let profile = Folder::new("next-engine");
    let mut server = Server::start();
    let mut browser = Browser::start_in(engine, Device::Laptop, &profile).await;
    let mut page = browser.page();

    // The start, and a day in the yard.
    steps::set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
    let pile = steps::address(&page).await;
    let ready = "navigator.serviceWorker.controller";
    page.wait_for("the worker in charge", ready, vec![]).await;
    steps::press(&page, "No").await;
    steps::turned_over(&page, 1).await;
    let mut all = BTreeSet::from([steps::quick_plank(&page, "2620").await]);
    page.reload().await;
    assert_eq!(marks(&page).await, all);

    // A plank half typed; where a browser can be killed, it is.
    page.go_to(&pile).await;
    let second = steps::begin_plank(&page).await;
    steps::keys(&page, "2480").await;
    steps::kept(&page, steps::OWN, "2480").await;
    if engine == Engine::WebKit {
        skipped(
            engine,
            "a killed browser (under its driver it keeps nothing)",
        );
        page.reload().await;
    } else {
        let half = page.js("return location.href", vec![]).await;
        let half = half.as_str().unwrap_or_default().to_owned();
        browser.kill().await;
        browser = Browser::start_in(engine, Device::Laptop, &profile).await;
        page = browser.page();
        page.open(&half).await;
    }
    page.see("#drawing", "2480").await;

    // No network: it opens, and a plank is decided on.
    server.stop();
    page.reload().await;
    page.see("#drawing", "2480").await;
    assert_eq!(steps::title(&page).await, second);
    steps::keys(&page, "next 205").await;
    steps::to_verdict(&page).await;
    steps::hold(&page).await;
    page.reload().await;
    all.insert(second.clone());
    assert_eq!(marks(&page).await, all);
    server.start_again();

    // Files out and in.
    save_file(&page, &profile, &second).await;
    all.insert(open_file(&page).await);
    assert_eq!(marks(&page).await, all);
    browser.close().await;
}

#[test]
fn the_story_in_chromium() {
    run(story(Engine::Chromium));
}

#[test]
fn the_story_in_firefox() {
    run(story(Engine::Firefox));
}

#[test]
fn the_story_in_webkit() {
    run(story(Engine::WebKit));
}
