//! Every screen of the app over the sample workshop, in every language and every colour that Settings offers: by the
//! rules of axe-core on a phone; and on windows from the narrowest to a laptop's, and with letters twice as large,
//! targets of 48 px, nothing wider than the window, no words cut off.

use serde_json::json;
use std::fs;
use std::time::Duration;
use stillwood_app::Route;
use stillwood_app::settings::Scheme;
use stillwood_app::words::{Language, Words, words_of};
use stillwood_tests::browser::screens::{
    at_each, of_the_sample, piece_of_the_sample, pile_of_the_sample, plank_of_the_sample, shown,
};
use stillwood_tests::browser::{
    Browser, Device, Folder, HOPPLE, Page, Pile, Server, program, run_within, steps,
};

/// So long a walk over all screens may take on a machine that builds something else as well.
const LIMIT: Duration = Duration::from_secs(900);

/// What axe-core has against the screen. Letters have to stand out 7 to 1.
const BY_THE_RULES: &str = "const found = await axe.run(document, { resultTypes: ['violations'],\
    ...(window.onlyColours\
        ? { runOnly: ['color-contrast', 'color-contrast-enhanced', 'link-in-text-block'] }\
        : { rules: { 'color-contrast-enhanced': { enabled: true } } }) });\
    return found.violations.map(v => `${v.id} (${v.impact}): ${v.help}: ` +\
        v.nodes.slice(0, 3).map(n => n.target.join(' ') + ' ' + (n.any[0]?.message ?? '')).join('; '));";

/// States of screens that no address leads to, by their names here.
const STATES: [&str; 13] = [
    "a plank with a question",
    "its verdict",
    "why it is rejected",
    "its defects",
    "a mark to chalk",
    "a form with all that is wrong",
    "a question before something is done",
    "how a figure is worked out",
    "all that can be done with a piece",
    "something done with a piece",
    "an answer",
    "a search",
    "a file that is looked at",
];

/// Chooses a language and colours in Settings.
async fn choose(page: &Page, language: Language, scheme: Scheme) {
    page.go_to(&Route::Settings.address()).await;
    page.tap_named("#body [role=radio]", language.own_name())
        .await;
    let words = words_of(language);
    let colours = match scheme {
        Scheme::Paper => words.book.paper,
        Scheme::Shed => words.book.shed,
        Scheme::Sun => words.book.sun,
    };
    page.tap_named("#body [role=radio]", colours).await;
    let there = format!(
        "document.documentElement.dataset.scheme === '{}'",
        match scheme {
            Scheme::Paper => "paper",
            Scheme::Shed => "shed",
            Scheme::Sun => "sun",
        }
    );
    page.wait_for("the colours", &there, vec![]).await;
}

/// Begins a plank whose width is odd.
async fn odd_plank(page: &Page, words: &Words) {
    page.go_to(&Route::Sort(pile_of_the_sample()).address())
        .await;
    steps::press(page, words.yard.measure_now).await;
    steps::measuring(page).await;
    let next = "#keypad .main";
    for digit in ["2", "6", "2", "0"] {
        page.tap_named("#keypad .digit", digit).await;
    }
    page.tap(next).await;
    page.tap_named("#keypad .digit", "8").await;
    page.tap(next).await;
    page.text("#active-field .notice.doubt").await;
}

/// Brings a state about, from wherever the app stands.
async fn bring_about(page: &Page, state: &str, language: Language, files: &Folder) {
    let words = words_of(language);
    let odd = [
        "a plank with a question",
        "its verdict",
        "why it is rejected",
        "its defects",
    ];
    if odd.contains(&state) {
        odd_plank(page, words).await;
    }
    match state {
        "a plank with a question" => {}
        "its verdict" => steps::to_verdict(page).await,
        "why it is rejected" => {
            steps::to_verdict(page).await;
            steps::press(page, words.yard.reject).await;
            page.tap("#body .chip").await;
        }
        "its defects" => {
            page.tap("#drawing > .chip").await;
            page.tap("#body .chip").await;
        }
        "a mark to chalk" => {
            page.go_to(&Route::Sort(pile_of_the_sample()).address())
                .await;
            steps::press(page, words.yard.maybe).await;
            page.text("#body .chalk").await;
        }
        "a form with all that is wrong" => {
            page.go_to(&Route::NewVisit.address()).await;
            steps::fill(page, "Tax, %", "200").await;
            steps::fill(page, "Currency", "pounds").await;
            steps::press(page, words.common.save).await;
            page.text("#body .field .bad").await;
        }
        "a question before something is done" => {
            page.go_to(&Route::Plank(plank_of_the_sample()).address())
                .await;
            steps::press(page, words.planks.delete_plank).await;
            page.text("#dialog").await;
        }
        "how a figure is worked out" => {
            let plank = plank_of_the_sample();
            page.go_to(&Route::Plank(plank).address()).await;
            page.tap("#body button.figure").await;
            page.text("#dialog").await;
        }
        "all that can be done with a piece" => {
            page.go_to(&Route::Piece(piece_of_the_sample()).address())
                .await;
            steps::press(page, words.racks.more_to_do).await;
            page.text("#more-sheet").await;
        }
        "something done with a piece" => {
            page.go_to(&Route::Piece(piece_of_the_sample()).address())
                .await;
            steps::press(page, words.racks.more_to_do).await;
            page.tap_named("#more-sheet .item", words.command("Throw out"))
                .await;
            page.text("#body .form").await;
            assert!(matches!(shown(page).await, Route::Deed(_)));
        }
        "an answer" => {
            page.go_to(&Route::QuickQuestions.address()).await;
            page.text("#body button.item").await;
            if !page.shows("#app .field").await {
                page.tap("#body button.item").await;
            }
            page.text("#app .field").await;
        }
        "a search" => {
            page.go_to(&Route::Find.address()).await;
            page.fill("#body input", "k7").await;
        }
        "a file that is looked at" => {
            let sample = fs::read(program("STILLWOOD_DIST").join("demo-data/two-yards.json"));
            let sample = sample.expect("the sample");
            let cut = &sample[..sample.len() * 6 / 10];
            steps::look_at_in(page, &files.put("phone.json", cut), language).await;
        }
        other => panic!("no state {other}"),
    }
}

/// Each state, looked at by a script: what it finds wrong.
async fn at_each_state(page: &Page, language: Language, files: &Folder, look: &str) -> Vec<String> {
    let mut wrong = Vec::new();
    for state in STATES {
        bring_about(page, state, language, files).await;
        let here = shown(page).await;
        let found = at_each(page, &[here], look).await;
        wrong.extend(found.into_iter().map(|one| format!("{state}: {one}")));
        // What lies over the screen goes, and the file is left.
        page.key_stroke("Escape").await;
        page.js(
            "document.querySelector('#body .incoming .decide .key')?.click()",
            vec![],
        )
        .await;
    }
    wrong
}

/// Every screen and state in a language and colours, by the rules of axe.
fn by_the_rules_of_axe(device: Device, language: Language, scheme: Scheme) {
    run_within(LIMIT, async {
        let (profile, files) = (Folder::new("screens"), Folder::new("files"));
        let server = Server::start();
        let browser = Browser::start(device, &profile).await;
        let page = browser.page();
        steps::open_sample(&page, server.address()).await;
        choose(&page, language, scheme).await;
        page.bring_axe().await;
        // Colours are the same in every language, and they change nothing else.
        let only_colours = scheme != Scheme::Paper;
        page.js(
            "window.onlyColours = arguments[0]",
            vec![json!(only_colours)],
        )
        .await;
        let mut wrong = at_each(&page, &of_the_sample(), BY_THE_RULES).await;
        wrong.extend(at_each_state(&page, language, &files, BY_THE_RULES).await);
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
        browser.close().await;
    });
}

#[test]
fn the_start_of_an_empty_record_breaks_no_rule_of_axe() {
    run_within(LIMIT, async {
        let profile = Folder::new("start");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        page.bring_axe().await;
        let wrong = at_each(&page, &[Route::Today], BY_THE_RULES).await;
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
        browser.close().await;
    });
}

#[test]
fn no_screen_in_english_breaks_a_rule_of_axe() {
    by_the_rules_of_axe(Device::Phone, Language::English, Scheme::Paper);
}

#[test]
fn no_screen_in_german_breaks_a_rule_of_axe() {
    by_the_rules_of_axe(Device::Phone, Language::German, Scheme::Paper);
}

#[test]
fn no_screen_on_a_laptop_breaks_a_rule_of_axe() {
    by_the_rules_of_axe(Device::Laptop, Language::English, Scheme::Paper);
}

#[test]
fn no_screen_in_the_dark_scheme_breaks_a_rule_of_axe() {
    by_the_rules_of_axe(Device::Phone, Language::English, Scheme::Shed);
}

#[test]
fn no_screen_in_the_sun_scheme_breaks_a_rule_of_axe() {
    by_the_rules_of_axe(Device::Phone, Language::English, Scheme::Sun);
}

/// Every screen and state in a language, on windows of these sizes with letters of so many per cent: targets are
/// large and nothing is cut off.
fn laid_out_well(language: Language, windows: [(u32, u32, u32); 2]) {
    run_within(LIMIT, async {
        let (profile, files) = (Folder::new("layouts"), Folder::new("files"));
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        steps::open_sample(&page, server.address()).await;
        choose(&page, language, Scheme::Paper).await;
        let screens = of_the_sample();
        let audit = include_str!("audit.js");
        let mut wrong = Vec::new();
        for (width, height, letters) in windows {
            let size = json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 1000 });
            page.cdp("Emulation.setDeviceMetricsOverride", size).await;
            // As the letters of the device are set.
            let larger = format!("document.documentElement.style.fontSize = '{letters}%'");
            page.js(&larger, vec![]).await;
            page.wait_for(
                "the size",
                "innerWidth === arguments[0]",
                vec![json!(width)],
            )
            .await;
            let of = format!("{width} × {height}, letters {letters} %");
            let found = at_each(&page, &screens, audit).await;
            wrong.extend(found.into_iter().map(|one| format!("{of}: {one}")));
            let found = at_each_state(&page, language, &files, audit).await;
            wrong.extend(found.into_iter().map(|one| format!("{of}, {one}")));
        }
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
        browser.close().await;
    });
}

/// Widths and heights of windows, with the size of the letters in per cent.
const SMALL_WINDOWS: [(u32, u32, u32); 2] = [(320, 560, 100), (390, 844, 100)];
const LARGE_WINDOWS: [(u32, u32, u32); 2] = [(768, 1024, 100), (1440, 900, 100)];
const LARGE_LETTERS: [(u32, u32, u32); 2] = [(390, 844, 200), (320, 560, 200)];

#[test]
fn on_small_windows_in_english_targets_are_large_and_nothing_is_cut_off() {
    laid_out_well(Language::English, SMALL_WINDOWS);
}

#[test]
fn on_small_windows_in_german_targets_are_large_and_nothing_is_cut_off() {
    laid_out_well(Language::German, SMALL_WINDOWS);
}

#[test]
fn on_large_windows_in_english_targets_are_large_and_nothing_is_cut_off() {
    laid_out_well(Language::English, LARGE_WINDOWS);
}

#[test]
fn on_large_windows_in_german_targets_are_large_and_nothing_is_cut_off() {
    laid_out_well(Language::German, LARGE_WINDOWS);
}

#[test]
fn with_large_letters_in_english_targets_are_large_and_nothing_is_cut_off() {
    laid_out_well(Language::English, LARGE_LETTERS);
}

#[test]
fn with_large_letters_in_german_targets_are_large_and_nothing_is_cut_off() {
    laid_out_well(Language::German, LARGE_LETTERS);
}

/// Sizes of a phone: upright, the smallest, on its side.
const PHONES: [(u32, u32); 3] = [(390, 844), (320, 560), (844, 390)];

async fn sized(page: &Page, (width, height): (u32, u32)) {
    let size = json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": true });
    page.cdp("Emulation.setDeviceMetricsOverride", size).await;
    let there = "innerWidth === arguments[0]";
    page.wait_for("the size", there, vec![json!(width)]).await;
}

/// A browser in which a plank was begun, and what it needs to go on.
async fn at_a_plank(name: &str, device: Device) -> (Browser, (Folder, Server)) {
    let (profile, server) = (Folder::new(name), Server::start());
    let browser = Browser::start(device, &profile).await;
    let page = browser.page();
    steps::set_up(&page, server.address(), HOPPLE, Pile::MAPLE).await;
    steps::begin_plank(&page).await;
    (browser, (profile, server))
}

/// What is out of sight while a plank is measured: the drawing, the field that is typed into, a key.
const OUT_OF_SIGHT: &str = "\
    const out = [];\
    const [room, face, field] = ['#drawing', '#face-view .plank', '#active']\
        .map(css => document.querySelector(css).getBoundingClientRect());\
    if (face.top < room.top - 1 || face.bottom > room.bottom + 1) out.push('the drawing');\
    const seen = Math.min(field.bottom, room.bottom) - Math.max(field.top, face.bottom, room.top);\
    if (field.left < room.right && field.top >= face.top + 1 && seen < 24) out.push(`the field: ${seen} px of it`);\
    for (const key of document.querySelectorAll('#keypad .key')) {\
        const { top, right, bottom } = key.getBoundingClientRect();\
        if (top < 0 || bottom > innerHeight + 0.5 || right > innerWidth + 0.5) out.push(key.innerText);\
    }\
    return out;";

#[test]
fn the_drawing_and_all_keys_stay_in_view_while_a_plank_is_measured_in_several_fields() {
    run_within(LIMIT, async {
        let (browser, _kept) = at_a_plank("in-view", Device::Phone).await;
        let page = browser.page();
        let mut wrong = Vec::new();
        steps::keys(&page, "2620 next 214 next 205 next 193 next 52 next").await;
        for (way, field) in [
            ("End by end", "First end"),
            ("By chord and dip", "Ring chord"),
        ] {
            if field == "Ring chord" {
                steps::into_field(&page, "Ring angle").await;
            }
            page.tap_named("#active-field .chip", way).await;
            page.reads("#active-field .name", field).await;
            for phone in PHONES {
                sized(&page, phone).await;
                // A touch on the field scrolls it into view, as the key that leads to it does.
                steps::into_field(&page, field).await;
                let found = page.js(OUT_OF_SIGHT, vec![]).await;
                if found != json!([]) {
                    wrong.push(format!("{way}, {phone:?}: {found}"));
                }
            }
        }
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
        browser.close().await;
    });
}

#[test]
fn what_is_typed_while_measuring_is_no_sign_for_the_browser() {
    run_within(LIMIT, async {
        let (browser, _kept) = at_a_plank("typed", Device::Laptop).await;
        let page = browser.page();
        let script = "const pressed = new KeyboardEvent('keydown', { key: arguments[0], bubbles: true, cancelable: true });\
            document.body.dispatchEvent(pressed);\
            return [pressed.defaultPrevented, document.querySelector('#active-field .typed').innerText.trim()];";
        for (key, wanted) in [
            ("5", json!([true, "5"])),
            ("/", json!([true, "5/"])),
            ("Backspace", json!([true, "5"])),
            ("m", json!([true, "5m"])),
            ("F3", json!([false, "5m"])),
        ] {
            assert_eq!(page.js(script, vec![json!(key)]).await, wanted, "{key}");
        }
        browser.close().await;
    });
}

/// The keys that the passing word covers, each scrolled to first.
const COVERED: &str = "\
    const covered = [];\
    for (const key of document.querySelectorAll('#app button, #app a[href], #app input, #app h1')) {\
        if (key.closest('.toast, .toast-room') || !key.checkVisibility()) continue;\
        if (key.closest('#body')) key.scrollIntoView({ block: 'nearest' });\
        const { left, right, top, bottom } = key.getBoundingClientRect();\
        const [x, middle] = [(left + right) / 2, (top + bottom) / 2];\
        for (const y of [top + 4, middle, bottom - 4]) {\
            if (document.elementFromPoint(x, y)?.closest('.toast')) { covered.push(key.innerText || key.name); break; }\
        }\
    }\
    return covered;";

#[test]
fn the_passing_word_covers_no_key_wherever_the_page_is_scrolled_to() {
    run_within(LIMIT, async {
        let profile = Folder::new("passing-word");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        steps::open_sample(&page, server.address()).await;
        let mut wrong = Vec::new();
        for phone in PHONES {
            sized(&page, phone).await;
            // Above a decision.
            page.go_to(&Route::Sort(pile_of_the_sample()).address())
                .await;
            steps::press(&page, "No").await;
            page.see(".toast", "No").await;
            let found = page.js(COVERED, vec![]).await;
            if found != json!([]) {
                wrong.push(format!("sorting, {phone:?}: {found}"));
            }
            // Above the bar, on a page that scrolls.
            page.go_to(&Route::Yard.address()).await;
            page.see(".toast", "No").await;
            let found = page.js(COVERED, vec![]).await;
            if found != json!([]) {
                wrong.push(format!("the yard, {phone:?}: {found}"));
            }
        }
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
        browser.close().await;
    });
}
