//! Three invented years in one story: a plank is bought and rests, is cut to pieces, these to laminates,
//! and three of them become a blank that is kept for somebody. By touch, on a phone, the clock passed in.

use stillwood_tests::browser::{Browser, Device, Folder, HOPPLE, Page, Pile, Server, Spec, run};

/// A laminate that is ripped and turned on edge.
const LAMINATE: Spec = Spec {
    part: ["950", "48", "24"],
    flat: false,
};

/// On a later day the app is opened anew, and the workshop looked at; the counts of what is due.
async fn later(page: &Page, day: &str) -> String {
    page.clock(day).await;
    page.reload().await;
    workshop(page).await
}

async fn workshop(page: &Page) -> String {
    page.home().await;
    page.press("Workshop: what is due").await;
    let counts = page.see("#rest-counts", "at rest").await;
    page.open_lots().await;
    counts
}

/// How the rest of a piece stands on the workshop's screen.
async fn stands(page: &Page, mark: &str, words: &str) {
    page.see("#shelves .card", &format!("{mark} {words}")).await;
}

/// Opens a piece from the workshop's screen.
async fn open(page: &Page, mark: &str) {
    workshop(page).await;
    let marks = "#shelves .mark-small, #waiting .mark-small";
    page.tap_named(marks, mark).await;
    page.see("#sheet-mark", mark).await;
}

/// Says what was done with the piece that is open.
async fn done(page: &Page, name: &str, typed: &[(&str, &str)]) {
    page.open_deed(name).await;
    for (css, text) in typed {
        page.fill(css, text).await;
    }
    page.tap("#deed-save").await;
    page.gone("#deed").await;
    page.saved().await;
}

/// Machines the open piece flat, face and edge, and sets it to rest.
async fn flat_and_to_rest(page: &Page, shelf: &str) {
    page.open_deed("Machined flat").await;
    let edge = "An edge was made straight";
    page.tap_named("#deed button", edge).await;
    page.tap("#deed-save").await;
    page.gone("#deed").await;
    done(page, "Set to rest", &[("#in-shelf", shelf)]).await;
}

/// Throws the open piece out.
async fn thrown_out(page: &Page, why: &str) {
    page.open_deed("Throw out").await;
    page.tap_named("#deed button", why).await;
    page.tap("#deed-save").await;
    page.figure("Now", "thrown out").await;
    page.see("#history", &format!("thrown out: {why}")).await;
    page.saved().await;
}

/// Looks through a shelf: what each moved, crook and twist as typed.
async fn shelf_checked(page: &Page, moved: &[(&str, &str, &str)]) {
    workshop(page).await;
    page.press("Check a shelf").await;
    for (mark, crook, twist) in moved {
        let of = format!("[data-mark='{mark}']");
        page.tap_named(&format!("{of} button"), "Moved…").await;
        page.fill("#in-crook", crook).await;
        page.fill("#in-twist", twist).await;
        page.fill("#in-bow", "0").await;
        page.tap("#deed-save").await;
        page.see(&format!("{of} .seen"), "✓").await;
    }
    let all = moved.len();
    page.see("#check-count", &format!("{all} of {all} checked"))
        .await;
    page.saved().await;
}

/// The marks that the cut proposes, once there are so many.
async fn marks_off_the_saw(page: &Page, count: usize) -> Vec<String> {
    let marks = page
        .wait_for(
            &format!("{count} marks off the saw"),
            "(marks => marks.length === arguments[0] && marks.every(Boolean) && marks)\
             ([...document.querySelectorAll('#off-the-saw .mark-given')].map(e => e.value))",
            vec![count.into()],
        )
        .await;
    serde_json::from_value(marks).expect("marks")
}

/// The first year, January: a visit, a plank, and its rest. Its mark, and what it cost.
async fn bought_and_set_to_rest(page: &Page, address: &str) -> (String, String) {
    page.clock("2026-01-05").await;
    page.open(address).await;
    page.new_visit(HOPPLE).await;
    page.set_part(LAMINATE).await;
    page.new_pile(Pile::MAPLE).await;
    page.begin_plank().await;
    let plank = page.quick_plank("1100").await;
    let due = later(page, "2026-01-06").await;
    assert!(due.starts_with("0 pieces at rest"), "{due}");
    page.see("#waiting", "plank, taken since 2026-01-05").await;
    open(page, &plank).await;
    done(page, "Set to rest", &[("#in-shelf", "loft")]).await;
    page.figure("Ripe on", "2026-07-06").await;
    let cost = page.figure("Wood in it, by the bills", "").await;
    assert!(cost.ends_with("EUR"), "{cost}");
    (plank, cost)
}

/// The first year, July: the plank is cut to three pieces, and one of them springs. Those that rest.
async fn cut_to_pieces(page: &Page, plank: &str) -> Vec<String> {
    let due = later(page, "2026-07-05").await;
    assert!(due.contains("0 ripe, 1 due this week"), "{due}");
    let due = later(page, "2026-07-06").await;
    assert!(due.contains("1 ripe, 0 due this week"), "{due}");
    stands(page, plank, "ripe: check its movement").await;
    open(page, plank).await;
    page.press("Cut").await;
    page.press("pieces").await;
    page.fill("#in-width-of-a-piece--planed", "57").await;
    page.see("#comes-out", "3 pieces:").await;
    let marks = marks_off_the_saw(page, 3).await;
    let sprung = format!("{}: kept. Change", marks[1]);
    page.tap_named("#off-the-saw .chip", &sprung).await;
    page.see("#off-the-saw", "sprang: throw out").await;
    page.tap("#save-cut").await;
    page.see(".toast", &format!("{plank} cut: 2 kept")).await;
    page.saved().await;
    page.tap_named("a.mark-small", &marks[1]).await;
    page.figure("Now", "thrown out since 2026-07-06").await;
    page.see("#history", "thrown out: sprang at the saw").await;
    let kept = vec![marks[0].clone(), marks[2].clone()];
    for mark in &kept {
        open(page, mark).await;
        flat_and_to_rest(page, "shelf 1").await;
        done(page, "Weigh", &[("#in-weight", "2,10 kg")]).await;
    }
    workshop(page).await;
    let words = "resting pieces since 2026-07-06 · hard maple ripe on 2027-01-06 two checks wanted";
    for mark in &kept {
        stands(page, mark, words).await;
    }
    kept
}

/// To the second year's January: the date alone ends no rest, the second check does; then each piece is ripped.
/// The laminates, at their rest.
async fn ripped_to_laminates(page: &Page, pieces: &[String]) -> Vec<String> {
    later(page, "2026-10-06").await;
    let still: Vec<_> = pieces.iter().map(|p| (p.as_str(), "+0.1", "0")).collect();
    shelf_checked(page, &still).await;
    let due = later(page, "2027-01-06").await;
    assert!(due.contains("2 pieces at rest: 2 ripe"), "{due}");
    for mark in pieces {
        stands(page, mark, "ripe: check its movement").await;
    }
    shelf_checked(page, &still).await;
    let mut laminates = Vec::new();
    for mark in pieces {
        workshop(page).await;
        // It was weighed twice only, and the air was never read.
        let words = "rest over, weight not known pieces since 2026-07-06 · hard maple ripe since \
                     2027-01-06 keeps its shape, weight not known";
        stands(page, mark, words).await;
        open(page, mark).await;
        done(page, "Weigh", &[("#in-weight", "2,05 kg")]).await;
        page.figure("Weight", "2,05 kg on 2027-01-06").await;
        page.press("Cut").await;
        page.see("#comes-out", "2 laminates:").await;
        laminates.extend(marks_off_the_saw(page, 2).await);
        page.tap("#save-cut").await;
        page.see(".toast", &format!("{mark} cut: 2 kept")).await;
        page.saved().await;
    }
    for mark in &laminates {
        open(page, mark).await;
        flat_and_to_rest(page, "shelf 2").await;
    }
    laminates
}

/// The second year, April and July: one laminate moves beyond its limit and is thrown out, the others are
/// made flat again and go back to their rest. Those.
async fn rested_again(page: &Page, laminates: &[String]) -> Vec<String> {
    let gone = laminates[1].as_str();
    let seen: Vec<_> = laminates
        .iter()
        .map(|mark| (mark.as_str(), if mark == gone { "+0.9" } else { "0" }, "0"))
        .collect();
    for day in ["2027-04-06", "2027-07-06"] {
        later(page, day).await;
        shelf_checked(page, &seen).await;
        page.see(&format!("[data-mark='{gone}'] .seen"), "beyond")
            .await;
    }
    workshop(page).await;
    stands(page, gone, "moved beyond its limit").await;
    open(page, gone).await;
    thrown_out(page, "moved while resting").await;
    let kept: Vec<String> = laminates.iter().filter(|m| *m != gone).cloned().collect();
    for mark in &kept {
        workshop(page).await;
        stands(page, mark, "rest over, weight not known").await;
        open(page, mark).await;
        flat_and_to_rest(page, "shelf 2").await;
    }
    workshop(page).await;
    for mark in &kept {
        stands(page, mark, "resting laminates since 2027-07-06").await;
    }
    kept
}

/// To the third year's January: what has rested is sorted, and glued without water.
async fn sorted_and_glued(page: &Page, laminates: &[String]) {
    later(page, "2027-10-07").await;
    let seen: Vec<_> = laminates
        .iter()
        .zip(["+0.1", "-0.1", "0"])
        .map(|(mark, crook)| (mark.as_str(), crook, "0"))
        .collect();
    shelf_checked(page, &seen).await;
    // By the date they are ripe; for the clamps they are not.
    later(page, "2028-01-07").await;
    page.press("Glue up").await;
    page.see("#laminates", "ripe: check its movement").await;
    page.gone("#laminates [aria-pressed='true']").await;
    shelf_checked(page, &seen).await;
    workshop(page).await;
    page.press("Glue up").await;
    // Nobody weighed them: they are listed, but none is chosen until the maker does.
    page.see("#laminates h3", "Rest over, not known whether ready")
        .await;
    page.see("#laminates", "rest over, weight not known").await;
    page.gone("#laminates [aria-pressed='true']").await;
    for mark in laminates {
        page.tap_with("#laminates .chip", mark).await;
    }
    let chosen = page.texts("#laminates [aria-pressed='true']").await;
    assert_eq!(chosen.len(), laminates.len(), "{chosen:?}");
    page.fill("#in-laminates-in-the-blank", "3").await;
    page.tap("#seek").await;
    page.see("#sought", "looked through").await;
    page.tap("#proposals button").await;
    page.see("#in-hand", "Weight at 12 %").await;
    page.fill("#in-mark-of-the-blank", "N1").await;
    page.fill("#in-adhesive", "epoxy").await;
    page.press("yes").await;
    page.see("#brings-water", "brings water").await;
    page.press("no").await;
    page.gone("#brings-water").await;
    page.fill("#in-clamped--hours", "24").await;
    page.tap("#save-glued").await;
    page.see("#blanks", "N1").await;
    page.saved().await;
}

/// The third year, July: the blank has rested, was checked, and is kept for a name.
async fn kept_for_a_name(page: &Page) {
    later(page, "2028-01-10").await;
    page.see("#waiting", "N1 blank").await;
    open(page, "N1").await;
    flat_and_to_rest(page, "rack").await;
    later(page, "2028-04-10").await;
    shelf_checked(page, &[("N1", "0", "0")]).await;
    later(page, "2028-07-09").await;
    stands(page, "N1", "due within a week").await;
    later(page, "2028-07-10").await;
    stands(page, "N1", "ripe: check its movement").await;
    shelf_checked(page, &[("N1", "0", "0")]).await;
    workshop(page).await;
    let words = "rest over, weight not known blanks since 2028-01-10";
    stands(page, "N1", words).await;
    page.press("Blanks").await;
    page.tap(".keep").await;
    page.fill("#in-for-whom", "Bo").await;
    page.tap("#deed-save").await;
    page.see("#blanks", "kept for Bo").await;
    page.saved().await;
}

/// The history sheet: whose wood is in the blank, what it cost, and the day of each stage.
async fn history_tells(page: &Page, plank: &str, cost: &str, pieces: &[String], kept: &[String]) {
    page.press("Its history").await;
    page.see("#paper", "kept for Bo").await;
    // As laid out at the cut: nobody measured it since.
    page.figure("Size", "950 × 78 × 52 mm").await;
    page.figure("Glued", "2028-01-07").await;
    page.figure("Adhesive, mix, batch", "epoxy").await;
    let members = page.texts("#members li").await;
    assert_eq!(members.len(), kept.len(), "{members:?}");
    for mark in kept {
        let from = format!("{mark} from plank {plank} {HOPPLE}, 2026-01-05");
        page.see("#members li", &from).await;
    }
    // All that came through is in this blank: it pays for the whole plank.
    page.figure("Together", cost).await;
    let caution =
        "hard maple: No CITES listing known here. Lists change: check before you buy or ship.";
    page.see("#paper", &format!("Trade control {caution}"))
        .await;

    let wood = page.texts("#paper h4").await;
    assert_eq!(wood.len(), 1 + kept.len() + pieces.len() + 1, "{wood:?}");
    let histories = page.texts("#paper .history").await;
    let tells = |name: &str, lines: &[&str]| {
        let at = wood.iter().position(|one| one == name);
        let told = at.map(|at| histories[at].as_str());
        let told = told.unwrap_or_else(|| panic!("{name}: not among {wood:?}"));
        for line in lines {
            assert!(told.contains(line), "{name}: {line}: {told}");
        }
    };
    let bought = ["2026-01-05: taken", "2026-01-06: set to rest on loft"];
    tells(&format!("plank {plank}"), &bought);
    for mark in pieces {
        let lines = [
            "2026-07-06: cut to",
            "2026-07-06: set to rest on shelf 1",
            "2026-10-06: checked",
            "2027-01-06: checked",
            "2027-01-06: weighed “2,05 kg”",
        ];
        tells(&format!("piece {mark}"), &lines);
    }
    for mark in kept {
        let lines = [
            "2027-01-06: set to rest on shelf 2",
            "2027-04-06: checked",
            "2027-07-06: checked",
            "2027-07-06: set to rest on shelf 2",
            "2027-10-07: checked",
            "2028-01-07: checked",
            "2028-01-07: glued from 3 as N1 with epoxy",
        ];
        tells(&format!("laminate {mark}"), &lines);
    }
    let lines = [
        "2028-01-10: set to rest on rack",
        "2028-04-10: checked",
        "2028-07-10: checked",
        "2028-07-10: kept for Bo",
    ];
    tells("blank N1", &lines);
}

#[test]
fn three_years_from_the_yard_to_a_blank_that_is_kept() {
    run(async {
        let profile = Folder::new("seasons");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        let (plank, cost) = bought_and_set_to_rest(&page, server.address()).await;
        let pieces = cut_to_pieces(&page, &plank).await;
        let laminates = ripped_to_laminates(&page, &pieces).await;
        let kept = rested_again(&page, &laminates).await;
        sorted_and_glued(&page, &kept).await;
        kept_for_a_name(&page).await;
        page.reload().await;
        history_tells(&page, &plank, &cost, &pieces, &kept).await;
        browser.close().await;
    });
}
