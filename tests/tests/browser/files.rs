//! From the phone to the laptop and back in the app: a file among the downloads, in a second
//! profile, twice and damaged; a share that was called off; a file that is dropped on the page.

use serde_json::json;
use std::collections::BTreeSet;
use std::path::Path;
use std::time::Duration;
use stillwood_core::plank::Field;
use stillwood_core::record::sealed;
use stillwood_tests::browser::{
    Browser, Device, Folder, HOPPLE, Page, Pile, Server, downloaded, run, steps,
};
use stillwood_tests::yard::Phone;

/// Saves the whole record to the downloads; its name and text.
async fn save(page: &Page) -> (String, String) {
    let loads = Folder::new("next-loads");
    page.download_into(loads.path()).await;
    page.go_to("#/carry").await;
    steps::save_record(page).await;
    let (name, bytes) = downloaded(loads.path()).await;
    (name, String::from_utf8(bytes).expect("text"))
}

/// The entries of a file, without its first line, which says when it was written.
fn entries(file: &str) -> &str {
    file.split_once("\"entries\":").expect("a file of ours").1
}

/// A phone that recorded planks of these lengths.
fn recorded(by: &str, planks: &[(&str, &str)]) -> String {
    let mut phone = Phone::new(by);
    let (_, pile) = phone.pile();
    for (mark, length) in planks {
        let texts = [
            (Field::Length, *length),
            (Field::WidthNear, "205"),
            (Field::ThicknessNear, "52"),
        ];
        phone.plank(pile, mark, &texts);
    }
    phone.file()
}

/// The marks in the table of a wide screen, none of them twice.
async fn marks_in_table(page: &Page) -> BTreeSet<String> {
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

/// A profile whose platform hands files to other programs, which ends as `window.shareEnds` has it.
async fn with_share(page: &Page) {
    let source = "Navigator.prototype.canShare = () => true;\
        Navigator.prototype.share = () => window.shareEnds\
            ? Promise.reject(new DOMException('no', window.shareEnds)) : Promise.resolve();";
    page.cdp(
        "Page.addScriptToEvaluateOnNewDocument",
        json!({ "source": source }),
    )
    .await;
}

/// Notes for another window what is kept elsewhere.
const NOTE_ELSEWHERE: &str = "const [noted] = arguments;\
    const open = indexedDB.open('stillwood');\
    open.onsuccess = () => {\
        const change = open.result.transaction('settings', 'readwrite');\
        change.objectStore('settings').put(JSON.stringify(noted), 'kept_elsewhere');\
        change.oncomplete = () => { open.result.close(); done(true); };\
    };";

/// Waits until all of this is noted of what is kept elsewhere.
async fn noted_elsewhere(page: &Page, parts: &[&str]) {
    let script = "const open = indexedDB.open('stillwood');\
        open.onsuccess = () => {\
            const kept = open.result.transaction('settings').objectStore('settings').get('kept_elsewhere');\
            kept.onsuccess = () => { open.result.close(); done(kept.result); };\
        };";
    let mut noted = String::new();
    for _ in 0..100 {
        let text = page.js_async(script, vec![]).await;
        noted = text.as_str().unwrap_or_default().to_owned();
        if parts.iter().all(|part| noted.contains(part)) {
            return;
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    panic!("not all of {parts:?} is noted: {noted}");
}

#[test]
fn the_record_goes_to_the_laptop_and_comes_back_unaltered() {
    run(async {
        let (pocket, desk, files) = (
            Folder::new("next-pocket"),
            Folder::new("next-desk"),
            Folder::new("next-files"),
        );
        let server = Server::start();
        let phone = Browser::start(Device::Phone, &pocket).await;
        let page = phone.page();
        steps::set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        let mut marks = BTreeSet::new();
        for length in ["2620", "2480"] {
            marks.insert(steps::quick_plank(&page, length).await);
        }
        // Another window has noted since that a third device keeps something.
        page.js_async(
            NOTE_ELSEWHERE,
            vec![json!({ "entries": { "ZZ-AAAAAAAAAA": [[1, 3]] } })],
        )
        .await;
        let (name, file) = save(&page).await;
        assert!(
            name.starts_with("stillwood-") && name.ends_with(".json"),
            "{name}"
        );
        noted_elsewhere(&page, &["ZZ-AAAAAAAAAA", "\"saved\""]).await;
        // A file among the downloads is not elsewhere.
        page.see("#only-here", "2 planks stand on this phone only")
            .await;
        page.see(
            "#last-saved",
            "A file in this device's downloads is not elsewhere",
        )
        .await;
        phone.close().await;

        let laptop = Browser::start(Device::Laptop, &desk).await;
        let page = laptop.page();
        page.open(server.address()).await;
        let path = files.put("phone.json", &file);
        let said = steps::bring_in(&page, &path).await;
        assert!(said.contains("2 planks"), "{said}");
        // The same again brings nothing.
        let said = steps::look_at(&page, &files.put("again.json", &file)).await;
        assert!(
            said.contains("New planks 0") && said.contains("New entries 0"),
            "{said}"
        );
        page.see("#body .incoming [disabled]", "Nothing new").await;
        steps::press(&page, "Leave it").await;
        page.gone("#body .incoming").await;
        let (_, back) = save(&page).await;
        assert_eq!(entries(&back), entries(&file), "byte for byte");
        assert_eq!(marks_in_table(&page).await, marks);
        page.reload().await;
        assert_eq!(marks_in_table(&page).await, marks);
        laptop.close().await;

        // The laptop's own file shows the phone that it stands there too, and brings nothing twice.
        let phone = Browser::start(Device::Phone, &pocket).await;
        let page = phone.page();
        page.open(server.address()).await;
        let said = steps::look_at(&page, &files.put("laptop.json", &back)).await;
        assert!(said.contains("New entries 0"), "{said}");
        steps::press_with(&page, "kept there").await;
        page.see("#only-here", "Everything here is kept elsewhere too")
            .await;
        assert_eq!(steps::marks_once(&page).await, marks);
        phone.close().await;
    });
}

#[test]
fn a_damaged_or_hostile_file_is_named_and_alters_nothing() {
    run(async {
        let (desk, files) = (Folder::new("next-desk"), Folder::new("next-files"));
        let server = Server::start();
        let laptop = Browser::start(Device::Laptop, &desk).await;
        let page = laptop.page();
        page.open(server.address()).await;
        let own = recorded("K7", &[("K7-2-2", "2620")]);
        steps::bring_in(&page, &files.put("own.json", &own)).await;
        let (_, before) = save(&page).await;

        let other = recorded("M4", &[("M4-2-K", "3010"), ("M4-3-3", "2222")]);
        let photo: Vec<u8> = (0..50_000u32)
            .map(|n| (n.wrapping_mul(2_654_435_761) >> 24) as u8)
            .collect();
        // Not ours at all: one sentence, nothing to add.
        for (name, bytes) in [
            ("foreign.json", b"{\"planks\": [1, 2, 3]}".to_vec()),
            ("photo.json", [b"\xff\xd8\xff\xe0".to_vec(), photo].concat()),
            ("empty.json", Vec::new()),
        ] {
            let said = steps::look_at(&page, &files.put(name, bytes)).await;
            assert!(said.contains("can't be brought in"), "{name}: {said}");
            assert!(said.contains("Nothing has changed"), "{name}: {said}");
            steps::press(&page, "Put it away").await;
            page.gone("#body .incoming").await;
        }
        // Ours, but damaged: what is not whole is told with its place.
        let cut = other.as_bytes()[..other.len() * 6 / 10].to_vec();
        let huge = other.replacen("\"value\":3010", "\"value\":1e999", 1);
        assert_ne!(huge, other);
        let cut_short = "This file is cut short";
        let unreadable = "Can't be read 1";
        for (name, bytes, tells) in [
            ("cut.json", cut, cut_short),
            ("huge.json", huge.into_bytes(), unreadable),
        ] {
            let said = steps::look_at(&page, &files.put(name, bytes)).await;
            assert!(said.contains(tells), "{name}: {said}");
            if tells == unreadable {
                let told = page.text("#body .incoming .problems").await;
                assert!(told.len() > 10, "{name}: {told}");
            }
            steps::press(&page, "Leave it").await;
            page.gone("#body .incoming").await;
        }
        let (_, after) = save(&page).await;
        assert_eq!(entries(&after), entries(&before), "nothing is altered");

        // Markup in the name of a file and in a mark is text, wherever it is shown.
        let script = "<img src=x onerror=window.__run=1>";
        let marked = resealed(&other.replace("M4-2-K", script));
        let name = format!("a{script}.json");
        steps::bring_in(&page, &files.put(&name, marked)).await;
        page.go_to("#/planks").await;
        page.see("#planks tbody", script).await;
        let found = page
            .js(
                "return [window.__run ?? null, document.querySelectorAll('#app img').length]",
                vec![],
            )
            .await;
        assert_eq!(
            found,
            json!([null, 0]),
            "markup of the file became part of the page"
        );
        laptop.close().await;
    });
}

/// The file with checksums that fit what was changed in its lines.
fn resealed(file: &str) -> String {
    let line = |line: &str| {
        let entry = line.trim_end_matches(',');
        let comma = &line[entry.len()..];
        match entry
            .starts_with("{\"about\"")
            .then(|| sealed(entry))
            .flatten()
        {
            Some(entry) => format!("{entry}{comma}\n"),
            None => format!("{line}\n"),
        }
    };
    file.lines().map(line).collect()
}

#[test]
fn a_share_that_was_called_off_hands_nothing_over() {
    run(async {
        let pocket = Folder::new("next-share");
        let server = Server::start();
        let phone = Browser::start(Device::Phone, &pocket).await;
        let page = phone.page();
        with_share(&page).await;
        steps::set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
        steps::quick_plank(&page, "2620").await;
        page.go_to("#/carry").await;
        for ends in ["AbortError", "NotAllowedError"] {
            page.js("window.shareEnds = arguments[0]", vec![json!(ends)])
                .await;
            steps::press(&page, "Share the record").await;
            if ends == "NotAllowedError" {
                page.see(".toast", "It could not be handed over").await;
            }
            page.see("#only-here", "1 plank stands on this phone only")
                .await;
            page.reads("#last-saved", "Last saved: never.").await;
            page.gone("#only-here .keys").await;
        }
        page.js("window.shareEnds = null", vec![]).await;
        steps::press(&page, "Share the record").await;
        page.see("#last-saved", "Handed over on").await;
        // Handed over is not kept elsewhere.
        page.see("#only-here", "1 plank stands on this phone only")
            .await;
        page.reload().await;
        page.see("#last-saved", "Handed over on").await;
        steps::press(&page, "It is on the laptop").await;
        page.see("#only-here", "Everything here is kept elsewhere too")
            .await;
        phone.close().await;
    });
}

/// Drops a file on the page, as from the system's own folders.
async fn drop_file(page: &Page, path: &Path) {
    for kind in ["dragEnter", "dragOver", "drop"] {
        let event = json!({
            "type": kind, "x": 600, "y": 400,
            "data": { "items": [], "files": [path.to_str()], "dragOperationsMask": 1 },
        });
        page.cdp("Input.dispatchDragEvent", event).await;
    }
}

#[test]
fn a_file_dropped_on_any_screen_is_put_before_the_maker() {
    run(async {
        let (desk, files) = (Folder::new("next-drop"), Folder::new("next-files"));
        let server = Server::start();
        let laptop = Browser::start(Device::Laptop, &desk).await;
        let page = laptop.page();
        page.open(server.address()).await;
        page.go_to("#/yard").await;
        page.text("#title").await;
        let path = files.put("dropped.json", recorded("K7", &[("K7-2-2", "2620")]));
        drop_file(&page, &path).await;
        page.see("#body .incoming", "New planks 1").await;
        page.see("#body .incoming", "dropped.json").await;
        steps::press(&page, "Bring in").await;
        page.see("#brought-in", "dropped.json").await;
        assert_eq!(
            marks_in_table(&page).await,
            BTreeSet::from(["K7-2-2".to_owned()])
        );
        laptop.close().await;
    });
}
