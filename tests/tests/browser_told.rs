//! Any number on any screen opens how it was worked out: every screen of the example is walked, every figure
//! pressed, and every number with a unit that can't be pressed has to be one that the maker gave.

use serde_json::{Value, json};
use stillwood_core::record;
use stillwood_core::record::queries;
use stillwood_core::record::{Life, PieceKind, State};
use stillwood_tests::browser::{Browser, Device, Folder, Page, Server, run};

const EXAMPLE: &str = include_str!("../../demo-data/two-yards.json");

/// Presses every figure of the open screen; how many there are. See `told.js`.
async fn all_told(page: &Page, screen: &str) -> u64 {
    let mut pressed = 0;
    loop {
        let found = page
            .js_async(include_str!("told.js"), vec![json!(pressed)])
            .await;
        let missing: Vec<&str> = found["missing"]
            .as_array()
            .into_iter()
            .flatten()
            .filter_map(Value::as_str)
            .collect();
        assert!(missing.is_empty(), "{screen}:\n{}", missing.join("\n"));
        let figures = found["figures"].as_u64().expect("the figures are counted");
        pressed = found["pressed"].as_u64().expect("figures are pressed");
        if pressed >= figures {
            return figures;
        }
    }
}

/// Goes to a screen and waits until it stands.
async fn at(page: &Page, hash: &str) {
    page.go_to(hash).await;
    page.wait_for(
        "the screen",
        "document.querySelector('header.top h1')",
        vec![],
    )
    .await;
    page.js_async(
        "requestAnimationFrame(() => requestAnimationFrame(done))",
        vec![],
    )
    .await;
}

fn example() -> State {
    let read = record::read(EXAMPLE.as_bytes(), &record::Limits::default())
        .expect("the example is a notebook");
    State::project_entries(&read.accepted)
}

/// One piece of every kind in every place of its life, as the workshop has them.
fn pieces(state: &State) -> Vec<String> {
    let mut seen: Vec<(PieceKind, Life)> = Vec::new();
    let mut found = Vec::new();
    for piece in state.pieces() {
        let life = match piece.life().0 {
            Life::GluedInto(_) => Life::Cut,
            life => life,
        };
        if !seen.contains(&(piece.work.kind, life)) && piece.is_bought() {
            seen.push((piece.work.kind, life));
            found.push(format!("#/wood/{}", piece.id));
        }
    }
    // The one with most to tell of its drying.
    let most = state
        .pieces()
        .max_by_key(|piece| piece.work.weighings.len());
    found.extend(most.map(|piece| format!("#/wood/{}", piece.id)));
    found
}

#[test]
fn any_number_on_any_screen_opens_how_it_was_worked_out() {
    run(async {
        let profile = Folder::new("told");
        let server = Server::start();
        let browser = Browser::start(Device::Phone, &profile).await;
        let page = browser.page();
        page.open_example(server.address()).await;
        let state = example();
        // Cautions and sources alone is not walked: it holds no figure of the maker's.
        let mut screens: Vec<String> = [
            "", "planks", "workshop", "plan", "check", "rests", "settings", "carry",
        ]
        .map(|screen| format!("#/{screen}"))
        .into();
        for visit in state.visits() {
            screens.extend(["visit", "tally", "seller"].map(|s| format!("#/{s}/{}", visit.id)));
            screens.extend(
                state
                    .piles_of(visit.id)
                    .map(|pile| format!("#/pile/{}", pile.id)),
            );
        }
        screens.extend(
            state
                .planks()
                .take(8)
                .map(|plank| format!("#/plank/{}", plank.id)),
        );
        screens.extend(pieces(&state));
        let mut figures = 0;
        for screen in screens {
            at(&page, &screen).await;
            figures += all_told(&page, &screen).await;
        }
        assert!(figures > 150, "{figures} figures");

        // The saw.
        let piece = state
            .pieces()
            .find(|piece| piece.is_at_hand() && queries::stock_to_cut(&state, piece).is_some());
        let piece = piece.expect("a piece that can be cut");
        at(&page, &format!("#/cut/{}", piece.id)).await;
        page.see("#comes-out", ".").await;
        assert!(all_told(&page, "cut").await > 0);
        page.press("pieces").await;
        all_told(&page, "cut to pieces").await;
        page.press("laminates").await;
        all_told(&page, "cut to laminates").await;

        // The clamps, with a set in hand.
        at(&page, "#/glue").await;
        // The example has laminates that wait to be glued; all are taken in.
        page.see("#laminates button", "").await;
        let all = "[...document.querySelectorAll('#laminates button[aria-pressed=false]')].forEach(b => b.click())";
        page.js(all, vec![]).await;
        page.gone("#laminates button[aria-pressed=false]").await;
        page.fill("#in-laminates-in-the-blank", "3").await;
        page.tap("#seek").await;
        page.see("#sought", "placings").await;
        page.wait_for(
            "a proposal",
            "document.querySelector('#proposals button')",
            vec![],
        )
        .await;
        page.tap("#proposals button").await;
        page.see("#in-hand", "Crook it is left with").await;
        assert!(all_told(&page, "glue").await >= 5);

        // Papers of a blank, and what came of it told apart in every way.
        at(&page, "#/blanks").await;
        all_told(&page, "blanks").await;
        page.tap("#blanks .stretch button:nth-of-type(1)").await;
        page.see("#paper", "laminates").await;
        all_told(&page, "a blank's history").await;
        page.tap("#blanks .stretch button:nth-of-type(2)").await;
        page.see("#shelf-card", "Wood").await;
        all_told(&page, "a shelf card").await;
        // Those that are there beside each other, with what is the maker's own.
        let all =
            "[...document.querySelectorAll('#blanks .choose')].slice(0, 6).forEach(b => b.click())";
        page.js(all, vec![]).await;
        page.tap("#to-choice").await;
        page.see("#choice", "Weight").await;
        page.press("✓ hide what is ours").await;
        page.see("#choice", "What its wood cost").await;
        assert!(all_told(&page, "side by side").await >= 15);
        at(&page, "#/learn").await;
        for told_apart in ["wood", "yard", "rings", "slope of grain", "density"] {
            page.press(told_apart).await;
            all_told(&page, told_apart).await;
        }

        // A quick question.
        at(&page, "#/ask").await;
        page.press("What moisture does wood settle at?").await;
        page.fill("#in-relative-humidity", "45").await;
        page.see("#answer", "8.5 %").await;
        assert!(all_told(&page, "a quick question").await >= 2);
    });
}
