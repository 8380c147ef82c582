//! What the tests for stress say of a piece, each as its own result: what was measured, how it is usually
//! read, and what that does at the bench.

use super::feeler;
use crate::app::App;
use crate::parts::{CollectAny, given, told_figure};
use leptos::prelude::*;
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{in_mm, show};
use stillwood_core::record::queries;
use stillwood_core::record::{Piece, Spring, StressFound, StressTest};
use stillwood_core::season::StressSays;

/// The part of the sheet; nothing where no test was made.
pub(super) fn stress(app: App, piece: &Piece) -> Option<AnyView> {
    let units = app.units.get();
    let told = app.state(|state| queries::explain_stress(state, piece.id, feeler()));
    if told.is_empty() {
        return None;
    }
    let one = |told: &StressFound| card(told, told.piece != piece.id, units);
    Some(
        view! {
            <h2>"Tests for stress"</h2>
            <ul class="plain" id="stress">{told.iter().map(one).collect_any()}</ul>
        }
        .into_any(),
    )
}

fn card(told: &StressFound, of_another: bool, units: Units) -> AnyView {
    let says = told.says;
    let straight = matches!(
        says,
        StressSays::StraightProngs | StressSays::StraightHalves
    );
    let class = if straight { "word good" } else { "word doubt" };
    let gap = told.tested.gap.value;
    let size = show::gap(gap.abs(), units);
    let (did, source) = match told.tested.test {
        StressTest::Fork => (
            match gap {
                gap if gap < 0.0 => format!("prongs close by {size}"),
                gap if gap > 0.0 => format!("prongs spread by {size}"),
                _ => "prongs stay straight".to_owned(),
            },
            "Closed prongs are read so in a manual for kiln operators; spread ones from memory.",
        ),
        StressTest::Ripped => (
            match gap {
                gap if gap < 0.0 => format!("the halves pinch by {size}"),
                gap if gap > 0.0 => format!("the halves gape by {size}"),
                _ => "the halves lie together".to_owned(),
            },
            "Common practice, no source.",
        ),
    };
    let name = match told.tested.test {
        StressTest::Fork => "Fork test",
        StressTest::Ripped => "Offcut ripped in two",
    };
    let over = told.tested.over.as_ref();
    let over = over.map(|over| format!(" over {}", show::length(over.value, units)));
    let of = of_another.then(|| format!(" of {}", told.mark));
    view! {
        <li class="card">
            <p><strong class=class>{says.in_words()}</strong></p>
            <p>{name} {of} ", " {told.on.to_string()} ": " {given(format!("{did}{}.", over.unwrap_or_default()))}</p>
            {told.spring.as_ref().map(|spring| springs(spring, units))}
            <p class="small">{says.means()} " " {source}</p>
        </li>
    }
    .into_any()
}

/// How far a strip springs, and at how much it is out.
fn springs(spring: &Spring, units: Units) -> AnyView {
    let by = show::gap(in_mm(spring.by), units);
    let over = show::length(in_mm(spring.over), units);
    let out = spring.out_at.map(|out| {
        let out = show::gap(in_mm(out), units);
        format!("; out over {out}, by your terms")
    });
    let over = given(format!("over {over}{}.", out.unwrap_or_default()));
    let working = spring.working.clone();
    view! {
        <p>
            "A strip of it springs about "
            {told_figure("Spring of a strip".to_owned(), by, move || Some(working.clone()))}
            " " {over}
        </p>
    }
    .into_any()
}
