//! From the saw to the blank in one story: a plank is cut by its plan, laminates are matched and glued,
//! the blank is kept for somebody and its history read; and what came of the wood is told.

use stillwood_tests::browser::{Browser, Device, Folder, Page, Server, run};
use stillwood_tests::workshop::laminates_ready;

/// The screen that is open breaks no rule of axe.
async fn accessible(page: &Page, screen: &str) {
    let found = page.by_the_rules().await;
    assert!(found.is_empty(), "{screen}: {}", found.join("\n"));
}

async fn bring_in(page: &Page, file: &str) {
    let files = Folder::new("files");
    let path = files.put("workshop.json", file);
    page.go_to("#/carry").await;
    page.choose_file("#import-file", &path).await;
    page.see(".incoming", "workshop.json").await;
    page.tap("#merge").await;
    page.see("#merged", "workshop.json:").await;
}

#[test]
fn a_plank_is_cut_laminates_are_glued_and_the_blank_is_kept() {
    run(async {
        let profile = Folder::new("blank");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        let (phone, plank, _) = laminates_ready();
        bring_in(&page, &phone.file()).await;

        // The saw: the plan follows what is wanted, and what sprang is thrown out.
        page.go_to(&format!("#/plank/{plank}")).await;
        page.press("Cut").await;
        // The spec has laminates straight off the plank.
        page.see("#comes-out", "laminates:").await;
        page.press("pieces").await;
        page.see("#comes-out", "piece").await;
        accessible(&page, "cut, pieces").await;
        page.press("laminates").await;
        let all = page.see("#comes-out", "laminates:").await;
        page.press("quartered only").await;
        page.see("#comes-out", "quartersawn.").await;
        assert_ne!(page.text("#comes-out").await, all);
        page.fill("#in-it-sprang-by", "9").await;
        page.see("#sprang", "beyond your limit").await;
        page.fill("#in-it-sprang-by", "0.5").await;
        page.gone("#sprang").await;
        page.tap("#off-the-saw .chip").await;
        page.see("#off-the-saw", "sprang: throw out").await;
        accessible(&page, "cut, laminates").await;
        page.tap("#save-cut").await;
        page.see(".toast", "B1 cut:").await;
        page.see("#history", "cut to B1").await;
        page.saved().await;

        // The clamps: the best of what has rested, then a swap by hand.
        page.go_to("#/glue").await;
        page.fill("#in-laminates-in-the-blank", "3").await;
        page.tap("#seek").await;
        page.see("#sought", "looked through").await;
        page.tap("#proposals button").await;
        page.see("#in-hand", "Weight at 12 %").await;
        let crook = page.figure("Crook it is left with", "").await;
        assert!(!crook.contains("was"), "{crook}");
        page.tap_named("#places button", "Place 1: rolled").await;
        page.figure("Crook it is left with", "").await;
        page.fill("#in-adhesive", "epoxy").await;
        page.press("yes").await;
        page.see("#brings-water", "brings water").await;
        page.press("no").await;
        page.gone("#brings-water").await;
        page.press("yes").await;
        page.fill("#in-clamped--hours", "8").await;
        page.fill("#in-mark-of-the-blank", "N1").await;
        accessible(&page, "glue").await;
        page.tap("#save-glued").await;

        // The rack: kept for somebody, with its whole history.
        page.see("#blanks", "N1").await;
        page.tap(".keep").await;
        page.fill("#in-for-whom", "Bo").await;
        page.tap("#deed-save").await;
        page.see("#blanks", "kept for Bo").await;
        page.press("Its history").await;
        page.see("#members", "from plank A7").await;
        assert_eq!(page.figure("Clamped", "").await, "8 h");
        assert_eq!(page.figure("The glue brings water", "").await, "yes");
        page.see("#brings-water", "longer rest").await;
        page.see("#paper", "the glue brings water; clamped “8” (h)")
            .await;
        page.see("#paper", "Trade control").await;
        accessible(&page, "blanks, history").await;
        page.press("Shelf card").await;
        page.see("#shelf-card", "N1").await;
        accessible(&page, "blanks, card").await;
        page.saved().await;
        page.reload().await;
        page.see("#blanks", "kept for Bo").await;
        page.tap(".release").await;
        page.see(".toast", "N1 is free again").await;
        page.go_to("#/workshop").await;
        page.tap_with("#waiting a", "N1").await;
        page.figure("Clamped", "8 h").await;
        page.see("#brings-water", "longer rest").await;

        // What came of it: the laminate that sprang is counted, and one plank is no sign.
        page.go_to("#/learn").await;
        let came = page.see("#came", "came through").await;
        assert!(came.contains("1 sprang at the saw"), "{came}");
        page.see("#signs", "nothing to compare yet").await;
        page.see("#to-start", "Start").await;
        page.see("#lasts", "thrown out").await;
        page.see("#money", "left out: no price").await;
        accessible(&page, "learn").await;

        // The plan: what is in hand, lot by lot, and a wish that is kept.
        page.go_to("#/workshop").await;
        page.press("Plan").await;
        page.see("#lots", "1 blank").await;
        page.fill("#in-good-blanks-wanted", "2").await;
        page.set_day("#in-ready-by", "2035-05-01").await;
        page.see("#latest", "Laminates glued by").await;
        page.see("#enough", "by 2035-05-01").await;
        accessible(&page, "plan").await;
        page.tap("#keep-wish").await;
        page.see("#wish-kept", "The yard buys for it").await;
        page.saved().await;
        page.reload().await;
        page.see("#wish-kept", "The yard buys for it").await;
        page.holds("#in-good-blanks-wanted", "2").await;
        browser.close().await;
    });
}
