//! What is kept elsewhere, said honestly; what is to be settled, on the first screen; an import undone as a
//! whole; an entry of two texts; a device with a name.

use serde_json::json;
use std::fs;
use stillwood_core::plank::Field;
use stillwood_tests::browser::{Browser, Device, Folder, Page, Server, downloaded, run};
use stillwood_tests::yard::Phone;

/// Saves the whole record as a file; its text.
async fn export(page: &Page) -> String {
    let loads = Folder::new("loads");
    page.download_into(loads.path()).await;
    page.go_to("#/carry").await;
    page.tap("#export-all").await;
    let (_, bytes) = downloaded(loads.path()).await;
    String::from_utf8(bytes).expect("text")
}

/// Opens a file under "Save and share".
async fn look_at(page: &Page, folder: &Folder, name: &str, bytes: impl AsRef<[u8]>) {
    let path = folder.put(name, bytes);
    page.go_to("#/carry").await;
    page.choose_file("#import-file", &path).await;
    page.see(".incoming", name).await;
}

async fn bring_in(page: &Page, folder: &Folder, name: &str, bytes: impl AsRef<[u8]>) {
    look_at(page, folder, name, bytes).await;
    page.tap("#merge").await;
    page.see("#merged", &format!("{name}:")).await;
}

/// The record of a phone with one plank of this length.
fn recorded(by: &str, mark: &str, length: &str) -> String {
    let mut phone = Phone::new(by);
    let (_, pile) = phone.pile();
    let texts = [
        (Field::Length, length),
        (Field::WidthNear, "205"),
        (Field::ThicknessNear, "52"),
        (Field::WeightWhole, "19.7"),
    ];
    phone.plank(pile, mark, &texts);
    phone.file()
}

/// From now on the browser's share ends like this: `null` is a share that went through.
async fn share_ends(page: &Page, error: Option<&str>) {
    let script = "const error = arguments[0];\
        for (const [name, value] of [['canShare', () => true], ['share', () => error\
            ? Promise.reject(new DOMException('no', error)) : Promise.resolve()]])\
            Object.defineProperty(navigator, name, { value, configurable: true });";
    page.js(script, vec![json!(error)]).await;
    // Built anew, so that the browser is asked anew whether it shares.
    page.go_to("#/settings").await;
    page.see("header.top h1", "Settings").await;
    page.go_to("#/carry").await;
    page.tap("#share").await;
}

/// What is in view is put beside the tests' other output, to be looked at.
async fn picture(page: &Page, name: &str) {
    let Ok(folder) = std::env::var("STILLWOOD_PICTURES") else {
        return;
    };
    let shot = page
        .cdp(
            "Page.captureScreenshot",
            json!({ "format": "png", "captureBeyondViewport": true }),
        )
        .await;
    let text = shot["data"].as_str().unwrap_or_default().to_owned();
    fs::write(format!("{folder}/{name}.base64"), text).expect("a picture");
}

#[test]
fn only_what_another_device_showed_or_the_maker_said_is_kept_elsewhere() {
    run(async {
        let (pocket, desk, files) = (
            Folder::new("pocket"),
            Folder::new("desk"),
            Folder::new("files"),
        );
        let server = Server::start();
        let phone = Browser::start(Device::Phone, &pocket).await;
        let page = phone.page();
        page.set_up(server.address()).await;
        page.begin_plank().await;
        page.quick_plank("2620").await;
        page.home().await;
        page.see("#only-here", "1 plank stands on this phone only")
            .await;
        page.see("#only-here", "Last saved: never").await;

        // A share that was called off and one that failed are nothing.
        for (error, says) in [
            ("AbortError", "Last saved: never"),
            ("NotAllowedError", "Last saved: never"),
        ] {
            share_ends(&page, Some(error)).await;
            if error != "AbortError" {
                page.see(".toast", "could not be shared").await;
            }
            page.see("#only-here", "1 plank stands on this phone only")
                .await;
            page.see("#last-saved", says).await;
            page.gone("#it-is-there").await;
        }
        // One that went through is handed over, no more.
        share_ends(&page, None).await;
        page.see("#last-saved", "Handed over on").await;
        page.see("#only-here", "1 plank stands on this phone only")
            .await;
        page.reload().await;
        page.see("#last-saved", "Handed over on").await;
        // Its own file brought back in says nothing new.
        let own = export(&page).await;
        page.see("#last-saved", "downloads is not elsewhere").await;
        look_at(&page, &files, "own.json", &own).await;
        page.see("#merge", "Nothing new to add").await;
        page.tap("#leave-file").await;
        page.see("#only-here", "1 plank stands on this phone only")
            .await;

        // The laptop's file holds it.
        let laptop = Browser::start(Device::Laptop, &desk).await;
        let there = laptop.page();
        there.open(server.address()).await;
        bring_in(&there, &files, "phone.json", &own).await;
        there.see("#only-here", "is kept elsewhere too").await;
        let back = export(&there).await;
        laptop.close().await;
        look_at(&page, &files, "laptop.json", &back).await;
        page.see("#merge", "Nothing new: note that").await;
        page.tap("#merge").await;
        page.see("#merged", "as kept elsewhere").await;
        page.see(
            "#only-here",
            "Everything recorded here is kept elsewhere too",
        )
        .await;
        page.home().await;
        page.gone("#only-here").await;

        // What is recorded from then on is on this phone only, until the maker says otherwise.
        page.tap("#visits a").await;
        page.tap("#piles a").await;
        page.begin_plank().await;
        page.quick_plank("2480").await;
        page.home().await;
        page.see("#only-here", "1 plank stands on this phone only")
            .await;
        export(&page).await;
        page.see("#it-is-there", "It is on the laptop").await;
        page.tap("#it-is-there").await;
        page.see(
            "#only-here",
            "Everything recorded here is kept elsewhere too",
        )
        .await;
        page.reload().await;
        page.see(
            "#only-here",
            "Everything recorded here is kept elsewhere too",
        )
        .await;
        phone.close().await;
    });
}

#[test]
fn an_import_is_undone_as_a_whole_and_put_back() {
    run(async {
        let (pocket, files) = (Folder::new("pocket"), Folder::new("files"));
        let server = Server::start();
        let phone = Browser::start(Device::Phone, &pocket).await;
        let page = phone.page();
        page.open(server.address()).await;
        let wrong = recorded("M4", "M4-2", "2620");
        bring_in(&page, &files, "right.json", recorded("K7", "K7-2", "2480")).await;
        bring_in(&page, &files, "wrong.json", &wrong).await;
        page.go_to("#/planks").await;
        page.see("main", "2 planks").await;
        // What was recorded since is told first; nothing changes before the second press.
        page.tap("#planks tbody .mark").await;
        page.go_to("#/carry").await;
        page.reload().await;
        page.see("#brought", "wrong.json").await;
        page.tap(".import[aria-label='wrong.json'] .undo-import")
            .await;
        page.see(".recorded-since", "Nothing was recorded since")
            .await;
        picture(&page, "brought").await;
        page.tap(".undo-import-really").await;
        page.see(".import[aria-label='wrong.json']", "undone").await;
        page.go_to("#/planks").await;
        page.see("main", "1 plank").await;
        page.see("#planks tbody", "2480").await;
        page.reload().await;
        page.see("main", "1 plank").await;
        // The same file again asks, and puts it back.
        look_at(&page, &files, "again.json", &wrong).await;
        page.see("#was-undone", "Put it back?").await;
        picture(&page, "undone").await;
        page.tap("#was-undone .put-back").await;
        page.gone("#was-undone").await;
        page.tap("#leave-file").await;
        page.go_to("#/planks").await;
        page.see("main", "2 planks").await;
        // And from the list, after a restart.
        page.go_to("#/carry").await;
        page.tap(".import[aria-label='wrong.json'] .undo-import")
            .await;
        page.tap(".undo-import-really").await;
        page.see(".import[aria-label='wrong.json']", "undone").await;
        page.reload().await;
        page.tap(".import[aria-label='wrong.json'] .put-back").await;
        page.gone(".import[aria-label='wrong.json'] .put-back")
            .await;
        page.go_to("#/planks").await;
        page.see("main", "2 planks").await;
        assert_eq!(page.by_the_rules().await, Vec::<String>::new());
        phone.close().await;
    });
}

#[test]
fn an_entry_of_two_texts_is_settled_by_the_maker() {
    run(async {
        let (pocket, files) = (Folder::new("pocket"), Folder::new("files"));
        let server = Server::start();
        let phone = Browser::start(Device::Phone, &pocket).await;
        let page = phone.page();
        page.open(server.address()).await;
        for (name, length) in [("one.json", "2620"), ("other.json", "2480")] {
            bring_in(&page, &files, name, recorded("K7", "K7-2", length)).await;
        }
        page.go_to("#/planks").await;
        page.see("main", "1 plank").await;
        let before = if page.text("#planks tbody").await.contains("2620") {
            "2620"
        } else {
            "2480"
        };
        let other = if before == "2620" { "2480" } else { "2620" };
        // The first screen says so, and one press leads there.
        page.home().await;
        page.see("#to-settle", "1 entry has two texts").await;
        picture(&page, "to-settle").await;
        assert_eq!(page.by_the_rules().await, Vec::<String>::new());
        page.tap_with("#to-settle a", "1 entry has two texts").await;
        page.see(".conflict", "Which one is right?").await;
        let told = page.text(".conflict").await;
        assert!(told.contains("2620") && told.contains("2480"), "{told}");
        picture(&page, "conflict").await;
        assert_eq!(page.by_the_rules().await, Vec::<String>::new());
        page.tap_with(".choose-one", other).await;
        page.tap(".settle-conflict").await;
        page.gone("#open-conflicts .conflict").await;
        page.go_to("#/planks").await;
        page.see("#planks tbody", other).await;
        page.reload().await;
        page.see("#planks tbody", other).await;
        page.home().await;
        page.gone("#to-settle").await;
        phone.close().await;
    });
}

#[test]
fn a_device_has_a_name_that_its_maker_gives() {
    run(async {
        let pocket = Folder::new("pocket");
        let server = Server::start();
        let phone = Browser::start(Device::Phone, &pocket).await;
        let page = phone.page();
        page.open(server.address()).await;
        page.go_to("#/settings").await;
        page.fill("#in-name-of-this-device", "The shop's phone")
            .await;
        page.tap("#save-device-name").await;
        page.see(".toast", "This device is called The shop's phone")
            .await;
        page.reload().await;
        page.holds("#in-name-of-this-device", "The shop's phone")
            .await;
        page.figure("Its marks begin with", "").await;
        picture(&page, "device").await;
        assert_eq!(page.by_the_rules().await, Vec::<String>::new());
        phone.close().await;
    });
}
