//! A number that is asked how it was worked out. Every computed figure on a screen is a key that asks it.

use crate::action::Action;
use crate::blanks::MatchedFigure;
use crate::page::Ui;
use crate::words::fill;
use maud::{Markup, html};
use stillwood_core::quantity::Derivation;
use stillwood_core::record::{Id, PieceFigure, PlankFigure, Total};
use stillwood_core::season::Warp;
use stillwood_core::verdict::{Number, Spec};

/// A number that can be asked.
#[derive(Debug, Clone)]
pub enum Asked {
    /// Of the plank that is being measured.
    Measuring(Number),
    /// Of a plank in the record.
    Plank(Id, PlankFigure),
    /// Of a piece in the workshop.
    Piece(Id, PieceFigure),
    /// Of the laminates that are being matched.
    Matched(MatchedFigure),
    /// A change that a check of a piece showed: the piece, the check, the shape.
    Change(Id, Id, Warp),
    /// What comes out of the cut that is laid out.
    CutPlan,
    /// A part of it, by its place.
    PlannedPart(usize),
    /// Where wood settles in the air that was logged last in a room.
    RoomAir(String),
    /// Of a plank in the record, judged under another spec than that of its visit.
    PlankUnder(Id, PlankFigure, Box<Spec>),
    /// A total of a visit's tally.
    VisitTotal(Id, Total),
    /// One that was worked out already.
    Known(Box<Derivation>),
}

/// A computed figure: a key that tells how it was worked out.
pub fn figure(ui: &Ui<'_>, name: &str, figure: &str, of: Asked) -> Markup {
    figure_as(ui, name, figure, figure, of)
}

/// The same where something shorter stands on the screen.
pub fn figure_as(ui: &Ui<'_>, name: &str, figure: &str, shown: &str, of: Asked) -> Markup {
    let label = fill(
        ui.w.common.worked_out_label,
        &[("name", &name), ("figure", &figure)],
    );
    let action = Action::Explain {
        name: name.to_owned(),
        figure: figure.to_owned(),
        of,
    };
    html! {
        button.figure type="button" aria-label=(label) data-press=(ui.press(action)) { (shown) }
    }
}
