//! What was acknowledged stays: through a browser killed at any moment, through a second window on the same record,
//! through writes that fail, and where the browser keeps nothing at all.

use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::time::Duration;
use stillwood_tests::browser::steps::{self, OWN};
use stillwood_tests::browser::{
    Browser, Device, Folder, HOPPLE, Page, Pile, Server, downloaded, run,
};

/// Rounds of killing, half of them right after a plank was said to be held, half in the midst of typing. The siege
/// goes on with many more.
const ROUNDS: u32 = 8;
/// What tells that something is not saved.
const UNSAVED: &str = "#notices .notice.bad";
/// Fields of a plank by their names on the screen.
const LENGTH: &str = "Length";
const WIDTH: &str = "Width near";

/// Waits until a typed text of a half-typed plank is in the store.
async fn draft_has(page: &Page, text: &str) {
    steps::kept(page, OWN, &format!("\"text\":\"{text}\"")).await;
}

/// Opens another address of the app that runs at this one.
async fn open_at(page: &Page, server: &Server, address: &str) {
    page.open(&format!("{}{address}", server.address())).await;
}

#[test]
fn a_kill_at_any_moment_loses_nothing_that_was_acknowledged() {
    run(async {
        let profile = Folder::new("next-killed");
        let server = Server::start();
        let mut browser = Browser::start(Device::Phone, &profile).await;
        let mut page = browser.page();
        steps::set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        let pile = steps::address(&page).await;
        steps::begin_plank(&page).await;
        let mut acknowledged = BTreeSet::new();

        for round in 0..ROUNDS {
            let measuring = steps::address(&page).await;
            let half = match round % 4 {
                // Right after it was said to be held.
                0 | 2 => {
                    let mark = steps::title(&page).await;
                    steps::keys(&page, "2620 next 205").await;
                    steps::to_verdict(&page).await;
                    steps::hold(&page).await;
                    acknowledged.insert(mark);
                    None
                }
                // With a plank half typed and its last key kept.
                1 => {
                    let typed = format!("2{round:02}1");
                    steps::keys(&page, &format!("{typed} next 1 / 2 space")).await;
                    draft_has(&page, "1/2 ").await;
                    Some((typed, "1/2 ".to_owned(), true))
                }
                // In the midst of typing: a key may still be on its way to the disk.
                _ => {
                    let typed = format!("3{round:02}1");
                    steps::keys(&page, &format!("{typed} next 214")).await;
                    Some((typed, "214".to_owned(), false))
                }
            };
            browser.kill().await;

            browser = Browser::start(Device::Phone, &profile).await;
            page = browser.page();
            let Some((length, width, settled)) = half else {
                open_at(&page, &server, &pile).await;
                steps::turned_over(&page, acknowledged.len() as u32).await;
                steps::begin_plank(&page).await;
                continue;
            };
            open_at(&page, &server, &measuring).await;
            let back = steps::typed(&page, WIDTH).await;
            assert_eq!(
                steps::typed(&page, LENGTH).await,
                length,
                "round {round}: the very characters"
            );
            if settled {
                assert_eq!(back, width, "round {round}: the very characters");
            } else {
                let nearly = width.starts_with(&back) && back.len() + 1 >= width.len();
                assert!(nearly, "round {round}: {back} of {width} came back");
            }
            // It goes on where it stood, and is emptied for the next round.
            for name in [WIDTH, LENGTH] {
                steps::into_field(&page, name).await;
                steps::keys_named(&page, &["not looked at"]).await;
            }
            steps::into_field(&page, LENGTH).await;
        }
        assert_eq!(
            steps::marks_once(&page).await,
            acknowledged,
            "none missing, none doubled"
        );
        browser.close().await;
    });
}

#[test]
fn two_windows_on_one_record_neither_lose_nor_double() {
    run(async {
        let profile = Folder::new("next-windows");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        steps::set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        let pile = steps::address(&page).await;
        let one = page.web().window().await.expect("a window");
        let two = page.web().new_tab().await.expect("a second window");
        page.to_window(two.clone()).await;
        open_at(&page, &server, &pile).await;
        steps::turned_over(&page, 0).await;

        // Both begin before either has saved.
        steps::begin_plank(&page).await;
        steps::keys(&page, "2100").await;
        page.to_window(one.clone()).await;
        steps::begin_plank(&page).await;
        steps::keys(&page, "2200").await;
        let mut marks = Vec::new();
        for (turn, window) in [&two, &one, &one, &two, &two, &one].into_iter().enumerate() {
            page.to_window((*window).clone()).await;
            if turn > 1 {
                page.go_to(&pile).await;
                steps::begin_plank(&page).await;
                steps::keys(&page, "2300").await;
            }
            marks.push(steps::title(&page).await);
            steps::to_verdict(&page).await;
            steps::hold(&page).await;
        }
        let apart: BTreeSet<String> = marks.iter().cloned().collect();
        assert_eq!(
            apart.len(),
            marks.len(),
            "a mark was given out twice: {marks:?}"
        );
        for window in [one, two] {
            page.to_window(window).await;
            page.go_to(&pile).await;
            steps::turned_over(&page, 6).await;
            assert_eq!(steps::marks_once(&page).await, apart);
        }
        page.reload().await;
        page.go_to(&pile).await;
        steps::turned_over(&page, 6).await;
        assert_eq!(steps::marks_once(&page).await, apart);
        browser.close().await;
    });
}

#[test]
fn a_mark_that_one_window_has_given_no_other_window_gives() {
    run(async {
        let profile = Folder::new("next-marks");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        steps::set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        let pile = steps::address(&page).await;
        // Begun, its mark chalked on the plank, and nothing typed yet.
        let first = steps::begin_plank(&page).await;
        steps::kept(&page, OWN, &format!("\"mark\":\"{first}\"")).await;
        let two = page.web().new_tab().await.expect("a second window");
        page.to_window(two).await;
        open_at(&page, &server, &pile).await;
        assert_ne!(
            steps::begin_plank(&page).await,
            first,
            "another window is at that plank"
        );
        browser.close().await;
    });
}

#[test]
fn what_another_window_has_decided_is_half_typed_no_more() {
    run(async {
        let profile = Folder::new("next-decided-elsewhere");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        steps::set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        let mark = steps::begin_plank(&page).await;
        steps::keys(&page, "2620").await;
        draft_has(&page, "2620").await;
        let one = page.web().window().await.expect("a window");
        let two = page.web().new_tab().await.expect("a second window");
        page.to_window(two.clone()).await;
        page.open(server.address()).await;
        page.see("#body", &mark).await;
        page.to_window(one).await;
        steps::to_verdict(&page).await;
        steps::hold(&page).await;
        page.to_window(two).await;
        let decided = "!document.querySelector('#body')?.innerText.includes(arguments[0])";
        page.wait_for("no plank to be half typed", decided, vec![json!(mark)])
            .await;
        browser.close().await;
    });
}

#[test]
fn what_was_typed_for_a_discarded_plank_comes_back_under_a_mark_of_its_own() {
    run(async {
        let profile = Folder::new("next-discarded");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        steps::set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        let pile = steps::address(&page).await;
        let discarded = steps::begin_plank(&page).await;
        steps::keys(&page, "2620").await;
        steps::press(&page, "Discard").await;
        page.tap_named("#dialog [data-press]", "Discard").await;
        steps::turned_over(&page, 0).await;
        let other = steps::begin_plank(&page).await;
        assert_ne!(other, discarded, "its mark can still be brought back");
        steps::keys(&page, "2100").await;
        page.go_to(&pile).await;
        steps::press(&page, &format!("Bring back what was typed for {discarded}")).await;
        assert_eq!(steps::measuring(&page).await, discarded);
        assert_eq!(steps::typed(&page, LENGTH).await, "2620");
        browser.close().await;
    });
}

/// Waits until the second copy of the record holds a plank.
async fn second_copy_holds(page: &Page, mark: &str) {
    let script = "caches.open('stillwood-second-copy')\
        .then(kept => kept.match('./second-copy-of-record'))\
        .then(copy => copy ? copy.text() : '')\
        .then(done)";
    let mut copy = String::new();
    for _ in 0..100 {
        let text = page.js_async(script, vec![]).await;
        copy = text.as_str().unwrap_or_default().to_owned();
        if copy.contains(&format!("\"mark\":\"{mark}\"")) {
            return;
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    panic!("{mark} is not in the second copy:\n{copy}");
}

#[test]
fn a_write_that_fails_is_said_exported_and_tried_again() {
    run(async {
        let (profile, loads) = (Folder::new("next-failing"), Folder::new("loads"));
        let server = Server::start();
        let mut browser = Browser::start(Device::Phone, &profile).await;
        let mut page = browser.page();
        steps::set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        let pile = steps::address(&page).await;
        page.download_into(loads.path()).await;
        steps::quick_plank(&page, "2500").await;
        page.gone(UNSAVED).await;

        let mark = steps::begin_plank(&page).await;
        steps::keys(&page, "2620 next 205").await;
        draft_has(&page, "205").await;
        steps::to_verdict(&page).await;
        steps::refuse_writes(&page, true).await;
        steps::press(&page, "Hold").await;
        let said = page.see(UNSAVED, "Not saved").await;
        assert!(said.contains("still here, in this window"), "{said}");
        page.gone(".toast").await;
        // It is told in the midst of the sort as well, and a No is not acknowledged either.
        page.go_to(&pile).await;
        steps::turned_over(&page, 2).await;
        page.see(UNSAVED, "Not saved").await;
        steps::press(&page, "No").await;
        steps::turned_over(&page, 3).await;
        page.gone(".toast").await;

        // The file has the plank in it, though the browser does not.
        page.tap_named(&format!("{UNSAVED} [data-press]"), "Save as a file")
            .await;
        steps::save_record(&page).await;
        let (name, file) = downloaded(loads.path()).await;
        let file = String::from_utf8(file).expect("text");
        assert!(
            name.starts_with("stillwood-") && name.ends_with(".json"),
            "{name}"
        );
        assert!(
            file.contains(&format!("\"mark\":\"{mark}\"")),
            "{mark} is in the file"
        );
        assert_eq!(
            file.matches("\"happening\":\"judged\"").count(),
            2,
            "both planks"
        );

        steps::press(&page, "Try again").await;
        // It is over when it may be pressed once more.
        let again = format!("{UNSAVED} [data-press]:not([disabled])");
        page.see(&again, "Try again").await;
        page.see(UNSAVED, "Not saved").await;
        steps::refuse_writes(&page, false).await;
        steps::press(&page, "Try again").await;
        page.gone(UNSAVED).await;
        // From now on all is kept once more beside the database, what was written last among it.
        page.go_to(&pile).await;
        let newest = steps::quick_plank(&page, "2400").await;
        second_copy_holds(&page, &mark).await;
        second_copy_holds(&page, &newest).await;
        page.reload().await;
        page.go_to(&pile).await;
        steps::turned_over(&page, 4).await;
        assert!(steps::marks_once(&page).await.contains(&mark));
        // It stays: what a browser does to its store after a full disk it does when it is started.
        second_copy_holds(&page, &newest).await;

        // What was refused and not tried again is half typed after a kill: the sizes are not lost.
        page.go_to(&pile).await;
        let mark = steps::begin_plank(&page).await;
        let measuring = steps::address(&page).await;
        steps::keys(&page, "2710 next 199").await;
        draft_has(&page, "199").await;
        steps::to_verdict(&page).await;
        steps::refuse_writes(&page, true).await;
        steps::press(&page, "Hold").await;
        page.see(UNSAVED, "Not saved").await;
        steps::refuse_writes(&page, false).await;
        browser.kill().await;
        browser = Browser::start(Device::Phone, &profile).await;
        page = browser.page();
        open_at(&page, &server, &measuring).await;
        assert_eq!(steps::measuring(&page).await, mark);
        assert_eq!(steps::typed(&page, LENGTH).await, "2710");
        assert_eq!(steps::typed(&page, WIDTH).await, "199");
        browser.close().await;
    });
}

#[test]
fn where_the_browser_keeps_nothing_the_app_opens_and_gives_files() {
    run(async {
        let (profile, loads) = (Folder::new("next-nothing"), Folder::new("loads"));
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        let broken = "Object.defineProperty(IDBFactory.prototype, 'open', { value() {\
            throw new DOMException('denied', 'SecurityError'); } })";
        page.cdp(
            "Page.addScriptToEvaluateOnNewDocument",
            json!({ "source": broken }),
        )
        .await;
        page.open(server.address()).await;
        let said = page.see(UNSAVED, "Not saved").await;
        assert!(!said.contains("undefined"), "{said}");

        steps::start_visit(&page, HOPPLE).await;
        page.see(UNSAVED, "Not saved").await;
        steps::new_pile(&page, Pile::MAPLE).await;
        let mark = steps::begin_plank(&page).await;
        steps::keys(&page, "2620 next 80").await;
        page.see(UNSAVED, "Not saved").await;
        steps::to_verdict(&page).await;
        steps::press(&page, "Hold").await;
        steps::titled(&page, "hard maple, 8/4").await;
        page.see("#body", &mark).await;
        page.see(UNSAVED, "Not saved").await;

        page.download_into(loads.path()).await;
        page.tap_named(&format!("{UNSAVED} [data-press]"), "Save as a file")
            .await;
        steps::save_record(&page).await;
        let (_, file) = downloaded(loads.path()).await;
        let file: Value = serde_json::from_slice(&file).expect("JSON");
        let kinds: Vec<&str> = file["entries"]
            .as_array()
            .into_iter()
            .flatten()
            .filter_map(|entry| entry["happening"].as_str())
            .collect();
        for kind in [
            "visit_opened",
            "pile_opened",
            "marked",
            "measured",
            "judged",
        ] {
            assert!(kinds.contains(&kind), "no {kind} among {kinds:?}");
        }
        browser.close().await;
    });
}
