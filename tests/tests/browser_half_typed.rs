//! Forms that are left half typed: a browser killed in the midst of them, a way to start afresh, odd
//! values that are asked about once, what was recorded and is undone, and choices that are there again.

use stillwood_core::record::State;
use stillwood_tests::browser::{Browser, Device, Folder, Page, Server, run};
use stillwood_tests::workshop::laminates_ready;

/// Waits until a text of a half-typed form is in the store.
async fn kept(page: &Page, field: &str, text: &str) {
    page.kept(&format!("\"{field}\":\"{text}\"")).await;
}

async fn bring_in(page: &Page, file: &str) {
    let files = Folder::new("files");
    let path = files.put("workshop.json", file);
    page.go_to("#/carry").await;
    page.choose_file("#import-file", &path).await;
    page.tap("#merge").await;
    page.see("#merged", "workshop.json:").await;
}

#[test]
fn three_forms_outlive_a_killed_browser() {
    run(async {
        let profile = Folder::new("half-typed");
        let server = Server::start();
        let mut browser = Browser::start(Device::Phone, &profile).await;
        let mut page = browser.page();
        page.open(server.address()).await;
        let (phone, plank, _) = laminates_ready();
        bring_in(&page, &phone.file()).await;

        // A weighing, killed with a digit still to come.
        page.go_to(&format!("#/wood/{plank}")).await;
        page.open_deed("Weigh").await;
        page.fill("#in-scale", "by the door").await;
        page.fill("#in-weight", "19,").await;
        kept(&page, "Weight", "19,").await;
        browser.kill().await;
        browser = Browser::start(Device::Phone, &profile).await;
        page = browser.page();
        page.open(server.address()).await;
        page.see(".half-typed", "B1: weigh").await;
        page.tap(".half-typed").await;
        page.see("#deed .begun", "You had begun this").await;
        page.holds("#in-weight", "19,").await;
        page.holds("#in-scale", "by the door").await;
        page.fill("#in-weight", "19,7 kg").await;
        page.tap("#deed-save").await;
        page.figure("Weight", "19,7 kg").await;
        page.gone("#deed").await;
        page.reload().await;
        page.figure("Weight", "19,7 kg").await;
        page.home().await;
        page.gone(".half-typed").await;

        // The reading of a room, killed and begun afresh.
        page.go_to("#/rests").await;
        page.press("Read a room").await;
        page.fill("#in-room", "loft").await;
        page.fill("#in-humidity-of-the-air", "4").await;
        kept(&page, "Humidity of the air", "4").await;
        browser.kill().await;
        browser = Browser::start(Device::Phone, &profile).await;
        page = browser.page();
        page.open(server.address()).await;
        page.press("Workshop: what is due").await;
        page.see(".half-typed", "reading of a room").await;
        page.tap(".half-typed").await;
        page.see("#deed .begun", "You had begun this").await;
        page.holds("#in-humidity-of-the-air", "4").await;
        page.tap(".afresh").await;
        page.gone("#deed .begun").await;
        // The only room that was ever read stands there.
        page.holds("#in-room", "shop").await;

        // A cut, killed with a mark of the maker's own and a strip that sprang.
        page.go_to(&format!("#/cut/{plank}")).await;
        page.press("pieces").await;
        page.see("#comes-out", "piece").await;
        page.holds("#off-the-saw .mark-given", "B1 a").await;
        page.fill("#off-the-saw .mark-given", "A7a").await;
        page.see("#off-the-saw .error", "the mark of something else")
            .await;
        page.tap("#save-cut").await;
        page.see("#cut-fault", "the mark of something else").await;
        page.fill("#off-the-saw .mark-given", "best").await;
        page.gone("#off-the-saw .error").await;
        page.tap("#off-the-saw .chip").await;
        page.see("#off-the-saw", "sprang: throw out").await;
        page.fill("#in-it-sprang-by", "0,").await;
        kept(&page, "It sprang by", "0,").await;
        let address = page.js("return location.href", vec![]).await;
        browser.kill().await;
        browser = Browser::start(Device::Phone, &profile).await;
        page = browser.page();
        page.open(address.as_str().unwrap_or_default()).await;
        page.see(".begun", "You had begun this").await;
        page.holds("#off-the-saw .mark-given", "best").await;
        page.see("#off-the-saw", "sprang: throw out").await;
        page.holds("#in-it-sprang-by", "0,").await;
        page.fill("#in-it-sprang-by", "0,4").await;
        page.tap("#save-cut").await;
        page.see("#history", "cut to best").await;
        page.saved().await;
        page.home().await;
        page.gone(".half-typed").await;
        browser.close().await;
    });
}

#[test]
fn a_wish_and_limits_for_gluing_outlive_a_killed_browser() {
    run(async {
        let profile = Folder::new("wished");
        let server = Server::start();
        let mut browser = Browser::start(Device::Phone, &profile).await;
        let mut page = browser.page();
        page.open(server.address()).await;
        let (phone, _, _) = laminates_ready();
        bring_in(&page, &phone.file()).await;
        let visit = State::project(&phone.log)
            .visits()
            .next()
            .map(|visit| visit.id);
        let visit = visit.expect("a visit");

        // A wish of the plan, killed in the midst of its number; then it is kept.
        page.go_to("#/plan").await;
        page.press("80 %").await;
        page.fill("#in-good-blanks-wanted", "1").await;
        kept(&page, "Good blanks wanted", "1").await;
        browser.kill().await;
        browser = Browser::start(Device::Phone, &profile).await;
        page = browser.page();
        page.open(server.address()).await;
        page.see(".half-typed", "a wish").await;
        page.tap(".half-typed").await;
        page.see("#wish .begun", "You had begun this").await;
        page.holds("#in-good-blanks-wanted", "1").await;
        page.see(
            "#wish [aria-label='How sure'] [aria-pressed='true']",
            "80 %",
        )
        .await;
        page.fill("#in-good-blanks-wanted", "12").await;
        page.tap("#keep-wish").await;
        page.see("#wish-kept", "The yard buys for it").await;
        page.gone("#wish .begun").await;
        // It stays open, and what is typed from here on is kept again; put back, it is half typed no more.
        page.fill("#in-good-blanks-wanted", "13").await;
        kept(&page, "Good blanks wanted", "13").await;
        page.fill("#in-good-blanks-wanted", "12").await;
        page.home().await;
        page.gone(".half-typed").await;

        // The wish changed where the tally is read.
        page.go_to(&format!("#/tally/{visit}")).await;
        page.press("Change the wish").await;
        page.fill("#in-laminates-in-a-blank", "").await;
        page.tap("#keep-wish").await;
        page.see("#in-laminates-in-a-blank-notes .error", "At least 1")
            .await;
        page.fill("#in-laminates-in-a-blank", "3").await;
        kept(&page, "Laminates in a blank", "3").await;
        browser.kill().await;
        browser = Browser::start(Device::Phone, &profile).await;
        page = browser.page();
        page.open(server.address()).await;
        page.tap(".half-typed").await;
        page.see("#wish-form .begun", "You had begun this").await;
        page.holds("#in-laminates-in-a-blank", "3").await;
        page.holds("#in-good-blanks-wanted", "12").await;
        page.tap("#keep-wish").await;
        page.gone("#wish-form").await;
        page.saved().await;

        // How far laminates glued together may be off.
        page.go_to("#/glue").await;
        page.tap("#limits > summary").await;
        page.fill("#in-crook-left--mm", "0,0").await;
        kept(&page, "Crook left, mm", "0,0").await;
        browser.kill().await;
        browser = Browser::start(Device::Phone, &profile).await;
        page = browser.page();
        page.open(server.address()).await;
        page.see(".half-typed", "limits for what is glued").await;
        page.tap(".half-typed").await;
        page.see("#limits .begun", "You had begun this").await;
        page.holds("#in-crook-left--mm", "0,0").await;
        page.tap("#keep-limits").await;
        page.see("#in-crook-left--mm-notes .error", "more than 0")
            .await;
        page.fill("#in-crook-left--mm", "0,05").await;
        page.tap("#keep-limits").await;
        page.see(".toast", "Limits for gluing kept").await;
        page.gone("#limits .begun").await;
        page.saved().await;
        page.reload().await;
        page.see("#limits > summary", "How far").await;
        page.holds("#in-crook-left--mm", "0.05").await;
        page.home().await;
        page.gone(".half-typed").await;
        browser.close().await;
    });
}

#[test]
fn what_is_undone_stands_open_as_it_was_typed() {
    run(async {
        let profile = Folder::new("undone");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        let (phone, plank, _) = laminates_ready();
        bring_in(&page, &phone.file()).await;

        // A weighing with another stick's name mistyped: undone, put right, kept.
        page.go_to(&format!("#/wood/{plank}")).await;
        page.open_deed("Weigh").await;
        page.fill("#in-weight", "19,7 kg").await;
        page.fill("#in-scale", "by the dor").await;
        page.set_day("#deed #in-day", "2026-03-02").await;
        page.tap("#deed-save").await;
        page.see(".toast", "weighed “19,7 kg”").await;
        page.gone("#deed").await;
        page.press("Undo").await;
        page.see("#deed .begun", "You had begun this").await;
        page.holds("#in-weight", "19,7 kg").await;
        page.holds("#in-scale", "by the dor").await;
        page.holds("#deed #in-day", "2026-03-02").await;
        let history = page.text("#history").await;
        assert!(history.contains("taken back"), "{history}");
        page.fill("#in-scale", "by the door").await;
        page.tap("#deed-save").await;
        page.gone("#deed").await;
        page.see("#history", "2026-03-02").await;
        page.saved().await;
        page.reload().await;
        page.figure("Weight", "19,7 kg").await;
        page.gone("#deed").await;

        // One that was begun anew meanwhile stays as it is.
        page.open_deed("Weigh").await;
        page.fill("#in-weight", "19,6 kg").await;
        page.tap("#deed-save").await;
        page.gone("#deed").await;
        page.open_deed("Weigh").await;
        page.fill("#in-weight", "19,5").await;
        page.press("Undo").await;
        page.see("#deed .begun", "You had begun this").await;
        page.holds("#in-weight", "19,5").await;
        page.tap(".afresh").await;

        // A gluing, undone from the next screen: the set is in hand again, and it can be glued again.
        page.go_to("#/glue").await;
        page.fill("#in-laminates-in-the-blank", "3").await;
        page.tap("#seek").await;
        page.see("#sought", "looked through").await;
        page.tap("#proposals button").await;
        page.fill("#in-adhesive", "epoxi").await;
        page.fill("#in-mark-of-the-blank", "N1").await;
        let places = page.texts("#places li").await;
        page.tap("#save-glued").await;
        page.see("#blanks", "N1").await;
        page.press("Undo").await;
        page.see(".begun", "You had begun this").await;
        page.holds("#in-adhesive", "epoxi").await;
        page.holds("#in-mark-of-the-blank", "N1").await;
        assert_eq!(page.texts("#places li").await, places);
        page.fill("#in-adhesive", "epoxy").await;
        page.tap("#save-glued").await;
        page.see("#blanks", "N1").await;
        page.press("Its history").await;
        page.figure("Adhesive, mix, batch", "epoxy").await;
        browser.close().await;
    });
}

#[test]
fn an_odd_value_is_asked_about_once_and_the_history_says_so() {
    run(async {
        let profile = Folder::new("odd");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        let (phone, _, laminates) = laminates_ready();
        bring_in(&page, &phone.file()).await;
        page.clock("2026-04-01").await;

        // It weighed 0.56 kg, and heavier wood is asked about; the day before its last one too.
        page.go_to(&format!("#/wood/{}", laminates[0])).await;
        page.open_deed("Weigh").await;
        page.fill("#in-weight", "0,66 kg").await;
        page.set_day("#deed #in-day", "2026-03-01").await;
        page.tap("#deed-save").await;
        page.see("#in-weight-notes .doubt", "18 % heavier").await;
        page.see("#deed", "before 2026-03-10").await;
        let asked = page.texts("#deed .insist").await;
        assert_eq!(asked.len(), 2, "{asked:?}");
        page.tap("#in-weight-notes .insist").await;
        page.gone("#in-weight-notes .doubt").await;
        page.tap("#deed-save").await;
        page.see("#deed-fault", "asked about").await;
        page.tap("#deed .insist").await;
        page.tap("#deed-save").await;
        page.gone("#deed").await;
        page.see("#history", "weighed “0,66 kg” (kg), “yes, really”")
            .await;
        page.see("#history", "2026-03-01 (“yes, really”)").await;

        // Another value is asked about anew.
        page.open_deed("Weigh").await;
        page.fill("#in-weight", "0,2 kg").await;
        page.tap("#deed-save").await;
        page.see("#in-weight-notes .doubt", "lighter").await;
        page.tap("#in-weight-notes .insist").await;
        page.fill("#in-weight", "0,1 kg").await;
        page.tap("#deed-save").await;
        page.see("#in-weight-notes .doubt", "lighter").await;
        page.fill("#in-weight", "0,65 kg").await;
        page.tap("#deed-save").await;
        page.gone("#deed").await;

        // What was chosen to be shown is there again.
        page.go_to("#/workshop").await;
        page.press("By shelf").await;
        page.tap("#narrow summary").await;
        page.press("Ripe").await;
        page.go_to("#/planks").await;
        page.fill("#search", "b1").await;
        page.see("#plank-count", "1 of 2").await;
        page.go_to("#/blanks").await;
        page.fill("#in-wood", "maple").await;
        kept(&page, "Wood", "maple").await;
        page.reload().await;
        page.holds("#in-wood", "maple").await;
        page.go_to("#/workshop").await;
        page.see("#order [aria-pressed='true']", "By shelf").await;
        page.see("#narrow [aria-pressed='true']", "Ripe").await;
        page.go_to("#/planks").await;
        page.see("#plank-count", "1 of 2").await;
        page.holds("#search", "b1").await;
        browser.close().await;
    });
}
