//! A number that is asked how it was worked out. Every computed figure on a screen is a key that asks it.

use crate::action::Action;
use crate::blanks::MatchedFigure;
use crate::model::Model;
use crate::page::Ui;
use crate::words::fill;
use maud::{Markup, html};
use stillwood_core::quantity::{Derivation, mm};
use stillwood_core::record::{Id, PieceFigure, PlankFigure, Total, explain_total, queries};
use stillwood_core::season::{FEELER_MM, Warp};
use stillwood_core::verdict::{Number, Spec, working};

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
    /// A strip of it, by its place.
    Strip(usize),
    /// Where wood settles in the air that was logged last in a room.
    RoomAir(String),
    /// Of a plank in the record, judged under another spec than that of its visit.
    PlankUnder(Id, PlankFigure, Box<Spec>),
    /// A total of a visit's tally.
    VisitTotal(Id, Total),
    /// One that was worked out already.
    Known(Box<Derivation>),
}

impl Asked {
    /// How it was worked out; `None` where there is no such number any more.
    pub fn derivation(&self, model: &Model) -> Option<Derivation> {
        let instruments = &model.settings.instruments;
        match self {
            Asked::Measuring(number) => {
                let entering = model.yard.entering.as_ref()?;
                working(*number, &entering.sheet(model), &entering.spec)
            }
            Asked::Plank(id, figure) => {
                queries::explain_plank_figure(model.state(), *id, *figure, None, instruments)
            }
            Asked::Piece(id, figure) => {
                queries::explain_piece_figure(model.state(), *id, *figure, instruments)
            }
            Asked::Matched(figure) => figure.derivation(model),
            Asked::Change(id, check, warp) => {
                let piece = model.state().piece(*id)?;
                let checks = queries::moved(model.state(), piece, mm(FEELER_MM));
                let check = checks.iter().find(|one| one.entry == *check)?;
                queries::change_worked(model.state(), piece, check, *warp)
            }
            Asked::CutPlan => crate::racks::cut::explain_the_plan(model),
            Asked::Strip(strip) => crate::racks::cut::explain_a_strip(model, *strip),
            Asked::RoomAir(room) => {
                let read = queries::rooms(model.state()).get(room)?;
                read.last()?.payload.explain_equilibrium()
            }
            Asked::PlankUnder(id, figure, spec) => queries::explain_plank_figure(
                model.state(),
                *id,
                *figure,
                Some(spec.as_ref()),
                instruments,
            ),
            Asked::VisitTotal(id, total) => {
                let visit = &model.state().visit(*id)?.opened;
                let tally = queries::tally_of(model.state(), *id)?;
                explain_total(*total, &tally, &visit.spec, &visit.currency)
            }
            Asked::Known(derivation) => Some((**derivation).clone()),
        }
    }
}

/// A computed figure: a key that tells how it was worked out.
pub fn figure(ui: &Ui<'_>, name: &str, figure: &str, of: Asked) -> Markup {
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
        button.figure type="button" aria-label=(label) data-press=(ui.press(action)) { (figure) }
    }
}
