//! How long wood lasts until it is thrown out: the curve, and what it says in words.

use super::percent;
use crate::app::App;
use crate::drawings::{LastingDrawn, StepDrawn, lasting_drawn};
use crate::parts::{Choice, facts_drawn, live, told_figure};
use crate::screens::figures::counted;
use crate::shell::clock;
use leptos::prelude::*;
use stillwood_core::record::queries;
use stillwood_core::record::{Lasting, PieceKind, date};
use stillwood_core::season::StillIn;

/// The months at which it is told how many are still in.
const TOLD_AT: [u32; 5] = [3, 6, 12, 18, 24];

/// The part of the screen.
pub(super) fn lasts(app: App) -> AnyView {
    let kind = RwSignal::new(Some(PieceKind::Laminate));
    let shown = move || {
        let today = date(&clock::now().day)?;
        let kind = kind.get();
        let lasting = app.state(|state| queries::lasting(state, kind, today));
        Some(told(&lasting, words(kind)))
    };
    view! {
        <section aria-label="How long it lasts" id="lasts">
            <h2>"How long it lasts"</h2>
            <Choice
                name="Of" value=kind
                of=vec![
                    (Some(PieceKind::Piece), "pieces"),
                    (Some(PieceKind::Laminate), "laminates"),
                    (Some(PieceKind::Blank), "blanks"),
                    (None, "all"),
                ]
            />
            {live(shown)}
        </section>
    }
    .into_any()
}

/// One of them, and several.
fn words(kind: Option<PieceKind>) -> (&'static str, &'static str) {
    match kind {
        Some(PieceKind::Laminate) => ("laminate", "laminates"),
        Some(PieceKind::Blank) => ("blank", "blanks"),
        _ => ("piece", "pieces"),
    }
}

fn told(lasting: &Lasting, (one, several): (&str, &str)) -> AnyView {
    let count = lasting.watched.len();
    let Ok(curve) = lasting.curve() else {
        return view! { <p class="note">"Nothing has come so far yet."</p> }.into_any();
    };
    let thrown_out = match lasting.failed {
        0 => "none".to_owned(),
        some => some.to_string(),
    };
    let counts = format!(
        "Of {} {thrown_out} thrown out. {} still there, counted up to today; {} counted up to the day on \
         which they went on or were lost from sight.",
        counted(count, one, several),
        lasting.waiting,
        lasting.left,
    );
    let mut facts = Vec::new();
    let mut said = Vec::new();
    for months in TOLD_AT {
        let at = f64::from(months);
        let Ok(Some(found)) = lasting.still_in(at) else {
            continue;
        };
        let figure = in_words(&found);
        said.push(format!("after {months} months {figure}"));
        let name = format!("Still in after {months} months");
        let whole = lasting.clone();
        let tell = move || whole.worked(at);
        facts.push((name.clone(), told_figure(name, figure, tell)));
    }
    let said = format!(
        "Share still in over the months. {counts} {}.",
        said.join("; ")
    );
    let good = lasting.watched.iter().filter(|piece| !piece.failed);
    let drawn = LastingDrawn {
        steps: curve
            .iter()
            .map(|step| StepDrawn {
                at: step.time,
                share: step.share,
                band: step.interval,
            })
            .collect(),
        good: good.map(|piece| piece.time).collect(),
    };
    view! {
        <p>{counts}</p>
        {lasting_drawn(&drawn, said)}
        {facts_drawn(facts)}
        <p class="small">
            "Each tick is one that was good when last seen. The green band holds the true share 95 times in 100; \
             the pieces of one plank are alike and count as fewer."
        </p>
    }
    .into_any()
}

fn in_words(found: &StillIn) -> String {
    let of = found.watched;
    match found.interval {
        None if found.share > 0.0 => format!("all, {of} watched so long: too few to say"),
        None => format!("none of {of}: too few to say"),
        Some((low, high)) if found.few() => format!(
            "too few to say, {} to {} ({of} watched so long)",
            percent(low),
            percent(high)
        ),
        Some((low, high)) => format!(
            "{} ({:.0} to {:.0})",
            percent(found.share),
            low * 100.0,
            high * 100.0
        ),
    }
}
