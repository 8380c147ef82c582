//! What stands round a plank's drawing: the edge and the near end, the place that decides, what is said of them, and in
//! what they are not to scale.

use crate::drawings::{PlankDrawn, UNDYED, WeakPlace, edge_view, end_view, seen_larger};
use crate::page::Ui;
use crate::parts::Judged;
use crate::words::{fill, show, spoken_name};
use maud::{Markup, html};
use stillwood_core::plank::Hand;
use stillwood_core::quantity::Conformance;
use stillwood_core::verdict::{Criterion, Sheet};
use stillwood_core::wood::Species;

/// Where on its drawing stands what decides on a plank, and how that is judged; none where it has no place there.
pub fn weak_place(sheet: &Sheet) -> Option<(WeakPlace, Judged)> {
    let verdict = &sheet.verdict;
    // A defect that refuses the plank is drawn as it is.
    let criterion = verdict
        .weakest
        .filter(|_| verdict.fatal_defects.is_empty())?;
    let place = match criterion {
        Criterion::Straightness => WeakPlace::Bow,
        Criterion::Crook => WeakPlace::MarkedEdge,
        Criterion::GrainSlope => WeakPlace::of_grain(&sheet.plank),
        Criterion::RingAngle => WeakPlace::Rings,
        Criterion::Density | Criterion::Moisture | Criterion::Size => return None,
    };
    let mut scored = verdict.scored.iter();
    let found = scored.find(|one| one.requirement.criterion == criterion)?;
    match found.conformance {
        Conformance::Beyond => Some((place, Judged::Bad)),
        Conformance::TooClose => Some((place, Judged::Doubt)),
        Conformance::Inside => None,
    }
}

/// A view in words, with what is marked in it.
pub fn with_mark(ui: &Ui<'_>, view: &str, sheet: &Sheet, of: &[WeakPlace]) -> String {
    let here = weak_place(sheet).filter(|(place, _)| of.contains(place));
    match here.and(sheet.verdict.weakest) {
        Some(criterion) => {
            let what = spoken_name(criterion.name());
            let marked = fill(ui.w.yard.weakest_marked, &[("what", &what)]);
            format!("{view}. {marked}")
        }
        None => view.to_owned(),
    }
}

/// The places that the face shows.
pub const ON_FACE: [WeakPlace; 2] = [WeakPlace::MarkedEdge, WeakPlace::FaceGrain];
/// The places that the edge shows.
const ON_EDGE: [WeakPlace; 2] = [WeakPlace::Bow, WeakPlace::EdgeGrain];
/// The places that the near end shows.
const ON_END: [WeakPlace; 1] = [WeakPlace::Rings];

/// The edge and the near end.
pub fn edge_and_end(ui: &Ui<'_>, sheet: &Sheet, wood: Option<&Species>) -> Markup {
    let drawn = PlankDrawn {
        plank: &sheet.plank,
        colour: wood.map_or(UNDYED, Species::colour),
        parts: None,
        weakest: weak_place(sheet),
    };
    let edge = with_mark(ui, ui.w.yard.edge_view, sheet, &ON_EDGE);
    let end = with_mark(ui, &end_said(ui, &drawn), sheet, &ON_END);
    html! {
        div.edge-and-end {
            div role="img" aria-label=(edge) { (edge_view(&drawn)) }
            div role="img" aria-label=(end) { (end_view(&drawn)) }
        }
        @let scale = not_to_scale(ui, &drawn, Views::EdgeAndEnd);
        @if !scale.is_empty() { p.scale { (scale) } }
    }
}

/// The near end in words, with which way the far end is turned.
pub fn end_said(ui: &Ui<'_>, drawn: &PlankDrawn<'_>) -> String {
    let words = &ui.w.yard;
    let Some(twist) = drawn
        .plank
        .twist
        .filter(|_| drawn.twist_exaggerated().is_some())
    else {
        return words.end_view.to_owned();
    };
    let turned = match twist.hand {
        Some(Hand::Left) => words.far_end_left,
        Some(Hand::Right) => words.far_end_right,
        None => words.far_end_turned,
    };
    format!("{}. {turned}", words.end_view)
}

/// Which views of a plank a drawing shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Views {
    /// All three.
    All,
    /// The marked face alone.
    Face,
    /// The edge and the near end.
    EdgeAndEnd,
}

/// In what a drawing is not to scale: the length shortened; bow, crook and twist larger.
pub fn not_to_scale(ui: &Ui<'_>, drawn: &PlankDrawn<'_>, views: Views) -> String {
    let words = &ui.w.yard;
    let by = |sentence: &str, times: f64| fill(sentence, &[("by", &show::number(times, 0))]);
    let on_face = |times: Option<f64>| times.filter(|_| views != Views::EdgeAndEnd);
    let on_edge_or_end = |times: Option<f64>| times.filter(|_| views != Views::Face);
    let plank = drawn.plank;
    let known = plank.length.and(plank.widths.least());
    // Edge and end stand below the face, which says it.
    let shortened = known.map(|_| drawn.shortened());
    let said = [
        (words.drawn_short, on_face(shortened)),
        (words.bow_larger, on_edge_or_end(drawn.bow_exaggerated())),
        (words.crook_larger, on_face(drawn.crook_exaggerated())),
        (
            words.twist_larger,
            on_edge_or_end(drawn.twist_exaggerated()),
        ),
    ];
    let said = said.map(|(sentence, times)| Some(by(sentence, times.and_then(seen_larger)?)));
    said.into_iter().flatten().collect::<Vec<_>>().join(" ")
}
