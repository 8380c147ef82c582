//! What a plank's drawing says in words: the near end, and in what it is not to scale.

use crate::drawings::{PlankDrawn, seen_larger};
use crate::page::Ui;
use crate::words::{fill, show};
use stillwood_core::plank::Hand;

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
