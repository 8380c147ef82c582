//! What is on paper: lists to their end, labels and papers with their marks, dark on white whatever the screen looks
//! like.

use serde_json::{Value, json};
use stillwood_app::Route;
use stillwood_core::plank::Field;
use stillwood_tests::browser::screens::{at_each, of_the_sample, piece_of_the_sample};
use stillwood_tests::browser::{Browser, Device, Folder, Page, Server, run, steps};
use stillwood_tests::yard::Phone;

/// More planks than a list draws at once.
const PLANKS: usize = 130;

/// The page as it would be printed, or as it is seen.
async fn media(page: &Page, of: &str) {
    page.cdp("Emulation.setEmulatedMedia", json!({ "media": of }))
        .await;
}

/// Prints the page; the texts of all that fitted as the paper was drawn.
async fn printed(page: &Page, css: &str) -> Vec<String> {
    let script = "const css = arguments[0];\
        addEventListener('beforeprint', () => {\
            window.__printed = [...document.querySelectorAll(css)].map(e => e.textContent.trim());\
        }, { once: true })";
    page.js(script, vec![json!(css)]).await;
    let paper = page.cdp("Page.printToPDF", json!({})).await;
    let size = paper["data"].as_str().map_or(0, str::len);
    assert!(size > 1000, "a paper of {size} signs");
    let texts = page.js("return window.__printed", vec![]).await;
    serde_json::from_value(texts).expect("it was printed")
}

#[test]
fn a_long_list_of_planks_is_printed_to_its_end() {
    run(async {
        let (profile, files) = (Folder::new("paper"), Folder::new("files"));
        let server = Server::start();
        let browser = Browser::start(Device::Laptop, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        let mut phone = Phone::new("K7");
        let (_, pile) = phone.pile();
        for n in 0..PLANKS {
            phone.plank(pile, &format!("K7-{n}"), &[(Field::Length, "2480")]);
        }
        steps::bring_in(&page, &files.put("many.json", phone.file())).await;
        page.go_to("#/planks").await;
        page.see("#head", &format!("{PLANKS} planks")).await;
        let row = "#planks tbody th[scope=row]";
        let drawn = page.texts(row).await.len();
        assert!(drawn < PLANKS, "{drawn} rows are drawn on the screen");
        let mut marks = printed(&page, row).await;
        marks.sort();
        let mut all: Vec<String> = (0..PLANKS).map(|n| format!("K7-{n}")).collect();
        all.sort();
        assert_eq!(marks, all);
        assert_eq!(page.texts(row).await.len(), drawn, "as it was before");
        media(&page, "print").await;
        for css in ["#bar", "#pane", "#head .key", ".filters"] {
            assert!(!page.shows(css).await, "{css} is on paper");
        }
        browser.close().await;
    });
}

#[test]
fn labels_and_papers_have_their_marks_and_nothing_to_press() {
    run(async {
        let profile = Folder::new("labels");
        let server = Server::start();
        let browser = Browser::start(Device::Laptop, &profile).await;
        let page = browser.page();
        steps::open_sample(&page, server.address()).await;
        let piece = piece_of_the_sample();
        page.go_to(&Route::Piece(piece).address()).await;
        let mark = steps::title(&page).await;
        page.go_to(&Route::Label(piece).address()).await;
        page.reads("#body .label .mark", &mark).await;
        assert_eq!(
            printed(&page, ".label .mark").await,
            std::slice::from_ref(&mark)
        );
        media(&page, "print").await;
        assert!(page.shows("#body .label .code").await, "the code");
        let lines = page.texts("#body .pencil tbody tr").await;
        assert_eq!(lines.len(), 6, "lines for a pencil");
        nothing_to_press(&page).await;
        media(&page, "screen").await;

        page.go_to(&Route::RackLabel(piece).address()).await;
        page.text("#body .pencil.given").await;
        media(&page, "print").await;
        assert!(
            page.texts("#body .given th[scope=row]")
                .await
                .contains(&mark)
        );
        nothing_to_press(&page).await;
        media(&page, "screen").await;

        let papers = of_the_sample().into_iter();
        let mut papers = papers.filter(|route| matches!(route, Route::Papers(_)));
        page.go_to(&papers.next().expect("a blank").address()).await;
        let mark = page.text("#body .paper-mark").await;
        assert_eq!(printed(&page, ".paper-mark").await, [mark]);
        media(&page, "print").await;
        let text = page.text("#app").await;
        assert!(text.contains("The maker:"), "{text}");
        for money in ["EUR", "USD", "GBP"] {
            assert!(
                !text.contains(money),
                "what it cost is on the paper: {text}"
            );
        }
        nothing_to_press(&page).await;
        browser.close().await;
    });
}

/// Nothing is on paper that can only be pressed.
async fn nothing_to_press(page: &Page) {
    let keys = page.texts(".key, .chip").await;
    assert!(keys.is_empty(), "{keys:?} on paper");
}

#[test]
fn on_paper_all_is_dark_on_white_whatever_the_screen_looks_like() {
    run(async {
        let profile = Folder::new("ink");
        let server = Server::start();
        let browser = Browser::start(Device::Laptop, &profile).await;
        let page = browser.page();
        steps::open_sample(&page, server.address()).await;
        let on_paper = |route: &Route| {
            matches!(
                route,
                Route::Planks | Route::Label(_) | Route::RackLabel(_) | Route::Papers(_)
            )
        };
        let screens: Vec<Route> = of_the_sample().into_iter().filter(on_paper).collect();
        page.go_to("#/settings").await;
        steps::press(&page, "Shed, dark").await;
        page.wait_for(
            "the dark",
            "document.documentElement.dataset.scheme === 'shed'",
            vec![],
        )
        .await;
        media(&page, "print").await;
        // Each text against white; what is drawn has colours of its own.
        let look = "const light = (c) => {\
                const [r, g, b] = c.match(/[\\d.]+/g).map(Number).map(v => v / 255)\
                    .map(v => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4));\
                return 0.2126 * r + 0.7152 * g + 0.0722 * b; };\
            const texts = document.createTreeWalker(document.querySelector('#app'), NodeFilter.SHOW_TEXT);\
            const pale = new Set();\
            while (texts.nextNode()) {\
                const of = texts.currentNode.parentElement;\
                if (!texts.currentNode.data.trim() || !of.checkVisibility()) continue;\
                const style = getComputedStyle(of);\
                const ink = of.closest('svg') ? style.fill : style.color;\
                if (1.05 / (light(ink) + 0.05) < 7) pale.add(`${texts.currentNode.data.trim().slice(0, 40)}: ${ink}`);\
            }\
            return [...pale];";
        let pale = at_each(&page, &screens, look).await;
        assert_eq!(pale, Vec::<String>::new());
        let ground = "return getComputedStyle(document.body).backgroundColor";
        assert_eq!(
            page.js(ground, vec![]).await,
            Value::from("rgb(255, 255, 255)")
        );
        browser.close().await;
    });
}
