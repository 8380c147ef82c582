//! A maker's day in the yard, in a browser of a phone's size, by touch: from the first visit to the
//! planks taken, with what the screen shows on the way, and how many touches a plank costs.

use stillwood_tests::browser::{Browser, Device, Folder, HOPPLE, Page, Pile, Server, Spec, run};

/// A full plank with what is carried over from the pile and the plank before: touches at most.
const FULL: u32 = 45;
/// A quick one: two sizes, thickness, weight, two judgements by eye.
const QUICK: u32 = 20;

async fn phone(profile: &Folder) -> (Server, Browser, Page) {
    let server = Server::start();
    let browser = Browser::start(Device::Phone, profile).await;
    let page = browser.page();
    (server, browser, page)
}

/// Leaves the plank on the screen for two reasons, the first of them the main one.
async fn leave_for(page: &Page, main: &str, second: &str) {
    let mark = page.mark().await;
    page.tap("#leave").await;
    for chosen in page.texts("#why button[aria-pressed=true]").await {
        page.tap_named("#why .chip", &chosen).await;
    }
    page.tap_named("#why .chip", main).await;
    page.tap_named("#why .chip", second).await;
    page.see("#leave-now", &format!("Leave it: {main}")).await;
    page.tap("#leave-now").await;
    page.acknowledged(&mark, "left").await;
}

#[test]
fn a_day_from_the_first_visit_to_the_bill() {
    run(async {
        let profile = Folder::new("yard");
        let (server, browser, page) = phone(&profile).await;
        page.open(server.address()).await;
        let is_phone = "return matchMedia('(pointer: coarse)').matches && innerWidth === 390";
        assert_eq!(page.js(is_phone, vec![]).await, true);
        page.new_visit(HOPPLE).await;
        page.set_part(Spec::PART).await;
        page.new_pile(Pile::MAPLE).await;
        let pile = page.title().await;
        assert_eq!(pile, "hard maple, 8/4");

        // The plank whose figures a maker worked out by hand.
        let first = page.begin_plank().await;
        page.keys("2620 next 214 next 205 next 193 next 52 next")
            .await;
        page.press("end by end").await;
        page.key_into("WeightFirst", "10.3 next 9.4 next").await;
        page.keys("9 next 4 next 12 left next 4 next 12 / 300 next 15 / 300")
            .await;
        let strip = page.see(".score-strip", "too close to call").await;
        assert!(strip.contains("weakest: slope of grain"), "{strip}");
        assert!(strip.contains("measure the moisture again"), "{strip}");
        let grain = page.criterion("slope of grain", "too close to call").await;
        assert!(grain.contains("measure the grain on the"), "{grain}");
        for (name, figure) in [
            (
                "Straight slab if cut first to 950 mm × 80 mm",
                "47.3 ± 1.2 mm",
            ),
            ("Straight slab if flattened whole first", "31 mm"),
            ("Slope of grain, both faces together", "1:15.6"),
            ("Density as measured", "707 ± 22 kg/m³"),
            ("Crook left in the part", "0.5 mm"),
        ] {
            page.figure(name, figure).await;
        }
        page.figure("Weight", "19.7").await;
        page.holds("#f-Moisture", "10.5").await;
        page.fill("textarea", "the dull corner").await;
        page.take().await;
        page.wait_for("the keys", "document.querySelector('.keypad')", vec![])
            .await;

        // A second one that is better, and is judged by what it shows.
        page.keys("2480 next 220 next 216 next 212").await;
        page.key_into("ThicknessNear", "52").await;
        page.by_eye("Bow", "none").await;
        page.by_eye("Crook", "none").await;
        page.by_eye("Twist", "none").await;
        page.by_eye("Grain face", "straight").await;
        page.by_eye("Grain edge", "straight").await;
        page.take().await;

        // One that is left, for two reasons.
        page.keys("2300 next 180").await;
        page.key_into("ThicknessNear", "52").await;
        page.key_into("Crook", "35").await;
        page.see(".score-strip", "leave it").await;
        leave_for(&page, "crook", "knot").await;

        // The pile's own screen counts them.
        page.tap(".back").await;
        let counts = page.see("#pile-counts", "3 looked at").await;
        assert!(counts.contains("0 no"), "{counts}");
        page.press("Change the pile").await;
        page.holds("#in-price", "14.5").await;
        page.tap(".back").await;

        // The bill: two planks by the nominal thickness, 20 % tax.
        page.tap(".back").await;
        page.see("#still-needed", "short").await;
        page.press("Tally and pay").await;
        let totals = page.see("#totals", "2 planks taken").await;
        // 2620 x 204 and 2480 x 216 mm, at 50.8 mm: 11.51 and 11.53 board feet.
        assert!(totals.contains("23.0"), "{totals}");
        assert!(totals.contains("Tax, 20 %"), "{totals}");
        page.see("#short-by", "short").await;
        // By hand: 2.620 x 0.204 x 0.0508 m are 11.5 board feet; at 14.50 and 20 % tax, 200 EUR.
        let line = page.see("#tally-planks tbody tr", &first).await;
        assert!(line.contains("11.5") && line.contains("200."), "{line}");

        // Turned round, the phone shows no verdict and no note.
        page.press("Turn the phone round: the seller's view").await;
        page.see("#seller-totals", "2 planks").await;
        let seller = page.text("#app").await.to_lowercase();
        assert!(seller.contains(&first.to_lowercase()), "{seller}");
        for never in [
            "score",
            "dull corner",
            "weakest",
            "leave",
            "take it",
            "too close",
            "note",
            "crook",
            "knot",
            "density",
            "undo",
            "budget",
            "short",
        ] {
            assert!(
                !seller.contains(never),
                "the seller reads “{never}”: {seller}"
            );
        }
        browser.close().await;
    });
}

#[test]
fn planks_cost_few_touches_and_a_no_costs_two() {
    run(async {
        let profile = Folder::new("touches");
        let (server, browser, page) = phone(&profile).await;
        page.set_up(server.address()).await;

        // The quick sort: the reason, then "No".
        page.take_touches();
        page.press("knot").await;
        page.press("No: knot").await;
        assert_eq!(page.take_touches(), 2);
        page.see(".toast", "No: knot.").await;
        page.see("#pile-counts", "1 looked at · 1 no · 0 maybe")
            .await;
        page.tap_named(".toast button", "Undo").await;
        page.see("#pile-counts", "0 looked at · 0 no").await;
        page.press("pith").await;
        page.press("No: pith").await;
        page.see("#pile-counts", "1 looked at · 1 no").await;
        page.tap("#maybe").await;
        let said = page.see(".toast", "Chalk on it").await;
        page.see("#pile-counts", "2 looked at · 1 no · 1 maybe")
            .await;
        let maybe = page.text("main .card .mark").await;
        assert!(said.contains(&maybe), "{said}: {maybe}");

        // The maybe is the first to be measured, under the mark that was chalked on it.
        page.tap_with("main a.card", &maybe).await;
        page.wait_for("the keys", "document.querySelector('.keypad')", vec![])
            .await;
        assert_eq!(page.mark().await, maybe);
        page.keys("2500 next 210 next 208 next 204 next 52").await;
        page.take().await;
        page.wait_for("the keys", "document.querySelector('.keypad')", vec![])
            .await;

        // A full one, with moisture and temperature from the pile and the thickness as before.
        page.take_touches();
        page.keys("2620 next 214 next 205 next 193 next").await;
        page.tap("#as-before").await;
        page.keys("19.7 next 9 next 4 next 12 left next 4 next 1: 25 next 1: 20")
            .await;
        page.see(".score-strip", "measure").await;
        let full = page.take_touches();
        page.take().await;
        let full = full + page.take_touches();
        println!("touches for a full plank: {full}");
        assert!(full <= FULL, "{full} touches for a full plank");

        page.wait_for("the keys", "document.querySelector('.keypad')", vec![])
            .await;
        page.keys("2620 next 205 next next next").await;
        page.tap("#as-before").await;
        page.keys("19.7").await;
        page.by_eye("Bow", "none").await;
        page.by_eye("Grain face", "straight").await;
        page.see(".score-strip", "weakest: moisture").await;
        let said = page.take().await;
        let quick = page.take_touches();
        println!("touches for a quick plank: {quick}");
        assert!(quick <= QUICK, "{quick} touches for a quick plank");

        // Undo takes the plank out of the record, and what was typed is there to go on with.
        let taken = said.split(' ').next().unwrap_or_default().to_owned();
        page.tap_named(".toast button", "Undo").await;
        page.see("header.top h1", &taken).await;
        page.holds("#f-Length", "2620").await;
        page.holds("#f-WeightWhole", "19.7").await;
        page.tap(".back").await;
        page.see("#pile-counts", "3 looked at").await;
        page.see("main .card", &format!("{taken} unfinished")).await;
        browser.close().await;
    });
}

#[test]
fn every_way_of_typing_is_understood_and_questioned_where_it_should_be() {
    run(async {
        let profile = Folder::new("typing");
        let (server, browser, page) = phone(&profile).await;
        page.set_up(server.address()).await;
        page.begin_plank().await;

        // Inches, feet and pounds, from a keyboard; a bare number stays in millimetres.
        for (typed, shown) in [
            ("94 1/2\"", "2400.3 mm"),
            ("7'10", "2387.6 mm"),
            ("2,62 m", "2620 mm"),
        ] {
            page.fill("#f-Length", typed).await;
            page.see("#f-Length-echo", shown).await;
        }
        page.fill("#f-WeightWhole", "29 lb 2 oz").await;
        page.see("#f-WeightWhole-echo", "13.21 kg").await;

        // A width in inches where millimetres are meant: asked, and mended by one touch.
        page.fill("#f-WidthNear", "8.25").await;
        let asked = page.see(".keypad .note.doubt", "Width near 8.2 mm?").await;
        assert!(asked.contains("8.25 in = 209.6 mm"), "{asked}");
        page.holds("#f-WidthNear", "8.25").await;
        page.tap_with(".keypad .note.doubt button", "8.25 in").await;
        page.gone(".keypad .note.doubt").await;
        page.see("#f-WidthNear-echo", "209.6 mm").await;
        // The pith beside the middle: its side by the keypad, drawn where it is.
        page.tap_with("details > summary", "Kink, short string")
            .await;
        page.fill("#f-RingChord", "150").await;
        page.fill("#f-RingDip", "25").await;
        page.key_into("PithOffset", "4 0").await;
        page.see(
            ".keypad .note.doubt",
            "40 mm right, away from the marked edge?",
        )
        .await;
        page.keys("left").await;
        page.see("#f-PithOffset-echo", "40 mm left").await;
        page.gone(".keypad .note.doubt").await;
        // The same by a thumb, with the signs of the keypad.
        page.key_into("WidthFar", "8 space 1 / 4 ″").await;
        page.see("#f-WidthFar-echo", "209.6 mm").await;
        // What can't be read says so, and is not lost when the plank is to be taken.
        page.fill("#f-ThicknessNear", "5x2").await;
        page.wait_for(
            "the field to be marked",
            "document.querySelector('#f-ThicknessNear').getAttribute('aria-invalid') === 'true'",
            vec![],
        )
        .await;
        page.tap("#take").await;
        page.see(".toast", "Thickness can't be read yet").await;
        page.holds("#f-ThicknessNear", "5x2").await;
        page.fill("#f-ThicknessNear", "52").await;
        page.see(
            "figcaption",
            "pith 40 mm left of mid-width, towards the marked edge",
        )
        .await;
        let mark = page.take().await;

        // By eye alone: nothing measured, and that is said.
        page.by_eye("Bow", "none").await;
        page.by_eye("Grain face", "straight").await;
        page.by_eye("Grain edge", "1 in 25").await;
        page.criterion("size", "not judged").await;
        page.holds("#f-GrainEdge", "1 in 25").await;
        page.take().await;

        // Three widths of a tapered plank, and one that is still half typed.
        page.wait_for("the keys", "document.querySelector('.keypad')", vec![])
            .await;
        page.keys("3010 next 262 next 230 next 171 next 52").await;
        page.figure("Volume", "0.0353").await;
        page.take().await;
        page.wait_for("the keys", "document.querySelector('.keypad')", vec![])
            .await;
        let half = page.mark().await;
        page.keys("2480 next 21").await;

        // A wood that no table knows is weighed and judged by what needs no table.
        page.tap(".back").await;
        page.tap(".back").await;
        page.new_pile(Pile {
            wood: "river cherry",
            chosen: None,
            ..Pile::MAPLE
        })
        .await;
        page.begin_plank().await;
        page.see("main", "river cherry: not in the table").await;
        page.keys("2400 next 200").await;
        page.key_into("ThicknessNear", "52").await;
        page.key_into("WeightWhole", "15").await;
        page.figure("Density as measured", "601 ±").await;
        page.take().await;

        page.home().await;
        page.see("#visits", "4 taken of 4").await;
        page.see("a.card", &format!("{half} unfinished: 4 typed"))
            .await;
        page.tap_with("a.card", &half).await;
        page.holds("#f-WidthNear", "21").await;
        assert!(!mark.is_empty());
        browser.close().await;
    });
}
