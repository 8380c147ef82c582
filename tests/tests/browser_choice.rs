//! A customer chooses: blanks are tapped on their cards, stand side by side without what is the maker's own,
//! and one of them is kept. By touch, on a phone.

use stillwood_tests::browser::{Browser, Device, Folder, Page, Server, run};
use stillwood_tests::workshop::laminates_ready;

/// The screen that is open breaks no rule of axe, and the page does not scroll sideways.
async fn accessible(page: &Page, screen: &str) {
    let found = page.by_the_rules().await;
    assert!(found.is_empty(), "{screen}: {}", found.join("\n"));
    let over = "return document.documentElement.scrollWidth - innerWidth";
    assert_eq!(page.js(over, vec![]).await.as_i64(), Some(0), "{screen}");
}

/// Taps "side by side" on the card at a place.
async fn choose(page: &Page, card: usize) {
    page.tap(&format!("#blanks li:nth-child({card}) .choose"))
        .await;
}

#[test]
fn a_blank_is_chosen_beside_others_and_kept() {
    run(async {
        let profile = Folder::new("choice");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.clock("2026-11-25").await;
        page.open_example(server.address()).await;
        page.go_to("#/choice").await;
        page.see("#none-chosen", "tap “Side by side”").await;
        page.go_to("#/blanks").await;
        page.see(
            "#blanks",
            "checked twice in 6 months, largest change 0.1 mm",
        )
        .await;
        // Found by what it has to be: three laminates are softer and narrower than five.
        page.fill("#in-stiffness-at-least", "5000").await;
        page.reads("#blank-count", "2 of 4 blanks").await;
        page.fill("#in-stiffness-at-least", "7000,5").await;
        page.reads("#blank-count", "1 of 4 blanks").await;
        page.see("#blanks", "H3-10-Y").await;
        page.fill("#in-stiffness-at-least", "").await;
        page.fill("#in-width-at-least", "80 mm").await;
        page.reads("#blank-count", "2 of 4 blanks").await;
        page.fill("#in-width-at-least", "").await;
        page.reads("#blank-count", "3 of 4 blanks").await;
        choose(&page, 1).await;
        page.see(".chosen", "1 blank chosen: take others").await;
        choose(&page, 2).await;
        choose(&page, 3).await;
        page.see(".chosen", "3 blanks chosen").await;
        accessible(&page, "blanks, chosen").await;
        page.tap("#to-choice").await;

        // What was measured of each; nothing of the maker's own.
        page.see("#choice", "H3-10-Y").await;
        let marks = page.texts("#choice thead a").await;
        assert_eq!(marks, ["H3-10-Y", "H3-11-W", "H3-12-U"]);
        let all = page.text("#choice").await;
        for told in [
            "N m²",
            "0.10 ± 0.16 mm, bow",
            "months ago",
            "kept until 2027-01-31",
            "free",
        ] {
            assert!(all.contains(told), "{told}: {all}");
        }
        assert!(!all.contains("Alma") && !all.contains("EUR"), "{all}");
        accessible(&page, "side by side").await;
        page.press("✓ hide what is ours").await;
        page.see("#choice", "kept for Alma").await;
        page.see("#choice", "EUR").await;
        page.press("hide what is ours").await;

        // It is as it was after a reload; one is left out, one is kept.
        page.reload().await;
        page.see("#choice", "H3-12-U").await;
        page.tap_with("#choice td:nth-child(4) button", "Leave out")
            .await;
        page.see("#choice", "H3-11-W").await;
        assert_eq!(page.texts("#choice thead a").await.len(), 2);
        page.tap_with("#choice .keep", "Keep H3-11-W for").await;
        page.fill("#in-for-whom", "Bo").await;
        accessible(&page, "side by side, keeping").await;
        page.tap("#deed-save").await;
        page.gone("#choice .keep").await;
        page.saved().await;
        page.go_to("#/blanks").await;
        page.see("#blanks", "kept for Bo").await;

        // Its history opens with its section, the woods beside it.
        page.tap("#blanks li:nth-child(1) .stretch button:nth-of-type(1)")
            .await;
        page.see("#section", "sycamore maple").await;
        let drawn = "return document.querySelectorAll('#section svg rect').length";
        assert_eq!(page.js(drawn, vec![]).await.as_i64(), Some(5));
        accessible(&page, "a blank's history").await;
        browser.close().await;
    });
}

#[test]
fn six_stand_side_by_side_at_most() {
    run(async {
        let profile = Folder::new("six");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        let (mut phone, _, laminates) = laminates_ready();
        for (n, laminate) in laminates[..7].iter().enumerate() {
            phone.glue(&format!("N{n}"), &[*laminate], "0417");
        }
        let files = Folder::new("files");
        let path = files.put("workshop.json", phone.file());
        page.go_to("#/carry").await;
        page.choose_file("#import-file", &path).await;
        page.see(".incoming", "workshop.json").await;
        page.tap("#merge").await;
        page.see("#merged", "workshop.json:").await;
        page.go_to("#/blanks").await;
        for card in 1..=6 {
            choose(&page, card).await;
        }
        page.see(".chosen", "6 blanks chosen").await;
        choose(&page, 7).await;
        page.see(".toast", "6 at most").await;
        page.see(".chosen", "6 blanks chosen").await;
        page.tap("#to-choice").await;
        page.see("#choice", "N5").await;
        assert_eq!(page.texts("#choice thead a").await.len(), 6);
        accessible(&page, "six side by side").await;
        browser.close().await;
    });
}
