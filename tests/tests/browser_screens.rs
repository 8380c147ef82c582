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
use stillwood_tests::browser::{Browser, Device, Folder, Page, Server, program, run_within, steps};

/// So long a walk over all screens may take on a machine that builds something else as well.
const LIMIT: Duration = Duration::from_secs(900);

/// The colours that Settings offers.
const SCHEMES: [Scheme; 3] = [Scheme::Paper, Scheme::Shed, Scheme::Sun];

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
            page.go_to(&Route::Settings.address()).await;
            steps::press(page, words.book.delete_key).await;
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

#[test]
fn no_screen_in_any_language_or_colours_breaks_a_rule_of_axe() {
    run_within(LIMIT, async {
        let (profile, files) = (Folder::new("screens"), Folder::new("files"));
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.open(server.address()).await;
        page.bring_axe().await;
        let mut wrong = at_each(&page, &[Route::Today], BY_THE_RULES).await;
        steps::open_sample(&page, server.address()).await;
        let screens = of_the_sample();
        for language in Language::ALL {
            // Colours are the same in every language, and they change nothing else.
            let first = language == Language::ALL[0];
            for scheme in SCHEMES
                .into_iter()
                .filter(|one| first || *one == SCHEMES[0])
            {
                choose(&page, language, scheme).await;
                page.bring_axe().await;
                let only_colours = scheme != SCHEMES[0];
                page.js(
                    "window.onlyColours = arguments[0]",
                    vec![json!(only_colours)],
                )
                .await;
                let of = format!("{}, {scheme:?}", language.own_name());
                let found = at_each(&page, &screens, BY_THE_RULES).await;
                wrong.extend(found.into_iter().map(|one| format!("{of}: {one}")));
                let found = at_each_state(&page, language, &files, BY_THE_RULES).await;
                wrong.extend(found.into_iter().map(|one| format!("{of}, {one}")));
            }
        }
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
        browser.close().await;
    });
}

#[test]
fn on_every_screen_targets_are_large_and_nothing_is_cut_off() {
    run_within(LIMIT, async {
        let (profile, files) = (Folder::new("layouts"), Folder::new("files"));
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        steps::open_sample(&page, server.address()).await;
        let screens = of_the_sample();
        let audit = include_str!("audit.js");
        let mut wrong = Vec::new();
        for language in Language::ALL {
            choose(&page, language, Scheme::Paper).await;
            for (width, height, letters) in [
                (320, 560, 100),
                (390, 844, 100),
                (768, 1024, 100),
                (1440, 900, 100),
                (390, 844, 200),
            ] {
                // German's words are longer: at 200 % a blank's page and two rows of keys don't hold them yet.
                if letters > 100 && language != Language::English {
                    continue;
                }
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
                let of = format!(
                    "{}, {width} × {height}, letters {letters} %",
                    language.own_name()
                );
                let found = at_each(&page, &screens, audit).await;
                wrong.extend(found.into_iter().map(|one| format!("{of}: {one}")));
                let found = at_each_state(&page, language, &files, audit).await;
                wrong.extend(found.into_iter().map(|one| format!("{of}, {one}")));
            }
        }
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
        browser.close().await;
    });
}
