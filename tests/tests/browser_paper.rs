//! What is on paper, and texts that try to hide or turn something.

use serde_json::json;
use stillwood_core::plank::Field;
use stillwood_core::record::{Event, Noted};
use stillwood_tests::browser::{Browser, Device, Folder, Page, Server, run};
use stillwood_tests::yard::Phone;

/// The page as it would be printed, or as it is seen.
async fn media(page: &Page, of: &str) {
    page.cdp("Emulation.setEmulatedMedia", json!({ "media": of }))
        .await;
}

#[test]
fn on_paper_every_mark_and_heading_is_a_text_and_a_folded_lot_names_all_in_it() {
    run(async {
        let profile = Folder::new("paper");
        let server = Server::start();
        let browser = Browser::start(Device::Laptop, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        page.tap("#open-demo").await;
        page.see("#demo-note", "invented example").await;
        page.go_to("#/planks").await;
        page.see("#planks tbody", "Plumlatch").await;
        let marks = page.texts("#planks tbody .mark").await;
        let headings = page.texts("#planks thead th").await;
        assert!(marks.len() > 3 && headings.len() > 5);
        media(&page, "print").await;
        assert_eq!(page.texts("#planks tbody .mark").await, marks);
        let printed = page.texts("#planks thead th").await;
        assert_eq!(printed, headings);
        page.gone("header.top").await;
        page.gone("#show-more").await;
        media(&page, "screen").await;

        page.go_to("#/workshop").await;
        page.see("#shelves .lot", "of").await;
        page.gone(".print-only").await;
        let folded = page.texts("#shelves .lot > .card .mark-small").await;
        media(&page, "print").await;
        assert_eq!(
            page.texts("#shelves .lot > .card .mark-small").await,
            folded
        );
        let named = page.texts("#shelves .lot .print-only").await;
        assert_eq!(named.len(), folded.len());
        media(&page, "screen").await;
        // A lot that is open prints its members, and does not name them twice.
        let first = page.texts("#shelves .lot .print-only").await;
        assert!(first.is_empty());
        page.tap(".lot > [aria-expanded='false']").await;
        let members = page.texts("#shelves .lot.open .members .mark-small").await;
        media(&page, "print").await;
        assert_eq!(members.join(", "), named[0]);
        assert_eq!(
            page.texts("#shelves .lot.open .members .mark-small").await,
            members
        );
        page.gone("#shelves .lot.open .print-only").await;
        browser.close().await;
    });
}

#[test]
fn what_hides_or_turns_the_writing_is_shown_and_turns_nothing_beside_it() {
    run(async {
        let (profile, files) = (Folder::new("hidden"), Folder::new("files"));
        let server = Server::start();
        let browser = Browser::start(Device::Laptop, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        let mut phone = Phone::new("M4");
        let (_, pile) = phone.pile();
        let plank = phone.plank(pile, "M4-3", &[(Field::Length, "2620")]);
        let text = "turned \u{202e}round and hid\u{200b}den".to_owned();
        let note = Noted { text };
        phone.record(plank, Event::Noted(note));
        let file = phone.file();
        assert!(file.contains('\u{202e}'), "it goes out as it was written");
        let path = files.put("turned\u{202e}nosj.json", &file);
        page.go_to("#/carry").await;
        page.choose_file("#import-file", &path).await;
        page.see(".incoming h3", "turned‹U+202E›nosj.json").await;
        page.tap("#merge").await;
        page.see("#merged", "turned‹U+202E›nosj.json:").await;
        page.go_to(&format!("#/plank/{plank}")).await;
        page.see("main", "turned ‹U+202E›round and hid‹U+200B›den")
            .await;
        let isolated = "return getComputedStyle(document.querySelector('main span, main small, main a')).unicodeBidi";
        assert_eq!(page.js(isolated, vec![]).await, "isolate");
        browser.close().await;
    });
}
