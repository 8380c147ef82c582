//! Matching on the glue page: the sides of rings and grain are tapped, the woods wished for by place, the
//! search runs beside the page and can be stopped, and a swap by hand shows what it does. By touch, on a
//! phone.

use serde_json::json;
use stillwood_tests::browser::{Browser, Device, Folder, Page, Server, run};
use stillwood_tests::workshop::{laminates_ready, shelf_of};
use stillwood_tests::yard::Phone;

async fn bring_in(page: &Page, phone: &Phone) {
    let files = Folder::new("files");
    let path = files.put("shelf.json", phone.file());
    page.go_to("#/carry").await;
    page.choose_file("#import-file", &path).await;
    page.see(".incoming", "shelf.json").await;
    page.tap("#merge").await;
    page.see("#merged", "shelf.json:").await;
    page.saved().await;
}

/// The whole of the details under a heading.
async fn open(page: &Page, id: &str) {
    page.tap(&format!("#{id} > summary")).await;
}

/// Counts the workers that the page starts, and what they say.
async fn watch_workers(page: &Page) {
    let script = "const Plain = Worker; window.__said = []; window.__started = 0;\
        window.Worker = class extends Plain {\
            constructor(...all) {\
                super(...all);\
                window.__started += 1;\
                this.addEventListener('message', ({ data }) => window.__said.push(data));\
            }\
        };";
    page.js(script, vec![]).await;
}

async fn choose(page: &Page, css: &str, value: &str) {
    let script = "const e = document.querySelector(arguments[0]); e.value = arguments[1];\
        e.dispatchEvent(new Event('change', { bubbles: true }))";
    page.js(script, vec![json!(css), json!(value)]).await;
}

#[test]
fn what_is_tapped_on_the_wood_turns_it_in_the_blank() {
    run(async {
        let profile = Folder::new("sides");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        let (phone, _, _) = laminates_ready();
        bring_in(&page, &phone).await;
        page.go_to("#/glue").await;
        page.see("#sides > summary", "8 of 8 to look at").await;
        open(&page, "sides").await;
        // A7 was read with its pith: the rings of its laminates are known, their grain is not.
        let pressed = "[data-mark='A7a1'] [aria-pressed='true']";
        assert_eq!(page.texts(pressed).await.len(), 1);
        for n in 1..=4 {
            let rises = if n % 2 == 0 { "rises" } else { "falls" };
            let name = format!("A7a{n}: grain {rises} to the far end");
            page.tap_named(&format!("[data-mark='A7a{n}'] button"), &name)
                .await;
            page.see("#sides > summary", &format!("{} of 8", 8 - n))
                .await;
        }
        page.saved().await;
        let found = page.by_the_rules().await;
        assert!(found.is_empty(), "glue, sides: {}", found.join("\n"));

        page.fill("#in-laminates-in-the-blank", "8").await;
        page.tap("#seek").await;
        page.see("#sought", "looked through").await;
        page.tap("#proposals button").await;
        page.see("#warnings", "which way the grain runs on 4").await;
        // Said of the last four too, nothing is left to be said.
        for n in 1..=4 {
            let name = format!("A7b{n}: grain runs along");
            page.tap_named(&format!("[data-mark='A7b{n}'] button"), &name)
                .await;
        }
        page.see("#sides > summary", "all looked at").await;
        let warnings = page.text("#warnings").await;
        assert!(!warnings.contains("Not looked at"), "{warnings}");
        // And it is kept.
        page.saved().await;
        page.reload().await;
        page.see("#sides > summary", "all looked at").await;
        browser.close().await;
    });
}

#[test]
fn woods_stand_where_the_maker_wants_them_and_a_swap_shows_what_it_does() {
    run(async {
        let profile = Folder::new("woods");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        let woods = [("maple-sugar", "hard maple"), ("walnut-black", "walnut")];
        let (phone, _) = shelf_of(&woods, true, 0.0);
        bring_in(&page, &phone).await;
        page.go_to("#/glue").await;
        page.fill("#in-laminates-in-the-blank", "5").await;
        open(&page, "woods").await;
        choose(&page, "#wood-at-1", "hard maple").await;
        choose(&page, "#wood-at-2", "walnut").await;
        choose(&page, "#wood-at-3", "hard maple").await;
        let found = page.by_the_rules().await;
        assert!(found.is_empty(), "glue, woods: {}", found.join("\n"));
        // They are there again.
        let kept = r#""woods by place":"["hard maple","walnut","hard maple""#;
        page.kept(kept).await;
        page.reload().await;
        page.see("#woods-by-place", "Places 1 and 5").await;
        page.holds("#wood-at-1", "hard maple").await;
        page.holds("#wood-at-2", "walnut").await;
        watch_workers(&page).await;
        page.tap("#seek").await;
        page.see("#sought", "looked through").await;
        page.see("#proposals", "limits from perfect").await;
        page.see("#proposals", "hard maple, walnut").await;
        let marks = page.text("#proposals button strong").await;
        let marks: Vec<&str> = marks.split(": ").nth(1).unwrap().split(", ").collect();
        let woods: Vec<&str> = marks.iter().map(|mark| &mark[..2]).collect();
        assert_eq!(woods, ["P1", "P2", "P1", "P2", "P1"], "{marks:?}");

        page.tap("#proposals button").await;
        page.see("#in-hand", "Stiffness").await;
        page.gone("#as-proposed").await;
        let weight = page.figure("Weight at 12 %", "").await;
        // The first of walnut takes the place of maple in the middle: not mirrored is left as it was.
        let walnut = "[...document.querySelectorAll('#places select')[2].options]\
            .find(o => o.textContent.startsWith('P2') && !o.textContent.startsWith(arguments[0]))?.value";
        let in_hand = format!("{},", marks[1]);
        let other = page
            .js(&format!("return {walnut}"), vec![json!(in_hand)])
            .await;
        let script = "const e = document.querySelectorAll('#places select')[2]; e.value = arguments[0];\
            e.dispatchEvent(new Event('change', { bubbles: true }))";
        page.js(script, vec![other]).await;
        page.see("#effect", "Against the proposal").await;
        let now = page.figure("Weight at 12 %", "").await;
        assert!(now.contains(&format!("was {weight}")), "{now} / {weight}");
        page.tap("#as-proposed").await;
        page.gone("#as-proposed").await;
        assert_eq!(page.figure("Weight at 12 %", "").await, weight);

        // Two woods that were asked for are well; unasked, they are spoken of.
        page.gone("#woods-mixed").await;
        for place in ["#wood-at-1", "#wood-at-2", "#wood-at-3"] {
            choose(&page, place, "").await;
        }
        page.see("#woods-mixed", "Of 2 woods: hard maple, walnut")
            .await;

        // The maker's own limits hold from now on.
        open(&page, "limits").await;
        page.fill("#in-crook-left--mm", "0.05").await;
        page.tap("#keep-limits").await;
        page.see(".toast", "Limits for gluing kept").await;
        page.saved().await;
        let crook = page.figure("Crook it is left with", "").await;
        assert!(crook.contains("of 0.05 mm"), "{crook}");
        page.fill("#in-twist--mm", "none").await;
        page.tap("#keep-limits").await;
        page.see("#limits .error-line", "A number more than 0, not “none”")
            .await;
        browser.close().await;
    });
}

#[test]
fn the_search_runs_beside_the_page_can_be_stopped_and_needs_no_network() {
    run(async {
        let profile = Folder::new("beside");
        let mut server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        let maple = ("maple-sugar", "hard maple");
        let (phone, _) = shelf_of(&[maple; 6], true, 0.5);
        bring_in(&page, &phone).await;
        page.wait_for("the worker", "navigator.serviceWorker.controller", vec![])
            .await;
        server.stop();
        page.network(false).await;
        page.reload().await;
        page.go_to("#/glue").await;
        watch_workers(&page).await;
        // To the end: told on the way, and proposals come.
        page.fill("#in-laminates-in-the-blank", "3").await;
        page.tap("#seek").await;
        page.see("#sought", "looked through").await;
        page.see("#proposals", "Set 5").await;
        let said = page.js("return [window.__started, window.__said.length]", vec![]);
        let said: [u32; 2] = serde_json::from_value(said.await).expect("numbers");
        assert_eq!(said[0], 1, "one worker, and it found the sets");
        assert!(said[1] >= 2, "{said:?}");
        // So many, all twisted to one hand, that it takes long: progress is seen, and it stops when it is told to.
        page.fill("#in-laminates-in-the-blank", "13").await;
        page.tap("#seek").await;
        page.see("#sought", "Looking:").await;
        page.see("#proposals", "Set 1").await;
        page.tap("#stop").await;
        page.see("#sought", "a better set may be left").await;
        let counted = page.text("#sought").await;
        page.js_async("setTimeout(done, 400)", vec![]).await;
        assert_eq!(page.text("#sought").await, counted);
        // Where there is no worker, the page does it itself.
        page.js(
            "window.Worker = class { constructor() { throw new Error('none'); } };",
            vec![],
        )
        .await;
        page.fill("#in-laminates-in-the-blank", "3").await;
        page.tap("#seek").await;
        page.see("#sought", "looked through").await;
        page.see("#proposals", "Set 5").await;
        browser.close().await;
    });
}
