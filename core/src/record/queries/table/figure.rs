//! How the figures of a plank in a list were worked out, to be told: each by what computes it on the
//! plank's own sheet or bill.

use crate::neck::each_costs;
use crate::plank::Instruments;
use crate::quantity::Derivation;
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::queries::PlankCharged;
use crate::record::queries::visit_tally::exact_rule;
use crate::record::state::State;
use crate::trade::{TalliedLine, Terms, explain_charge, tally_visit};
use crate::verdict::{Number, Spec, parts_held, working};

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PlankFigure {
    Sheet(Number),
    /// Its volume by the yard's rule, and what it costs.
    Bill,
    /// Its volume as measured, nothing rounded.
    Exact,
    CostPerPart,
}

/// How a figure of a plank was worked out, under a spec or else that of its visit; `None` where it has
/// none.
pub fn explain_plank_figure(
    state: &State,
    id: Id,
    figure: PlankFigure,
    under: Option<&Spec>,
    tools: &Instruments,
) -> Option<Derivation> {
    let piece = state.piece(id)?;
    let visit = state.visit_of(piece);
    let spec = under.or(visit.map(|visit| &visit.opened.spec))?;
    let currency = visit.map_or("", |visit| visit.opened.currency.as_str());
    let told = match figure {
        PlankFigure::Sheet(number) => {
            return working(
                number,
                &queries::sheet_under(state, piece, spec, tools),
                spec,
            );
        }
        PlankFigure::Bill => {
            let (charged, tallied) = tallied(state, id)?;
            explain_charge(&charged.line, &charged.terms, &tallied, currency)
        }
        PlankFigure::Exact => {
            let charged = queries::charged(state, piece)?;
            let terms = Terms {
                rule: exact_rule(),
                price: None,
                ..charged.terms
            };
            let tally = tally_visit([(&charged.line, &terms)]);
            explain_charge(&charged.line, &terms, tally.lines.first()?, currency)
        }
        PlankFigure::CostPerPart => {
            let (_, tallied) = tallied(state, id)?;
            let paid = tallied.money.ok()?.gross;
            let parts = parts_held(&piece.described(), spec).ok()?.parts;
            let mut told = Derivation::default();
            each_costs(&mut told.steps, currency, paid, parts)?;
            told.and("What it cost is told beside its cost; the parts are those that it holds.")
        }
    };
    Some(told)
}

/// A plank as it is charged: as the tally of its visit has it, and where it was not taken, by itself.
fn tallied(state: &State, id: Id) -> Option<(PlankCharged, TalliedLine)> {
    let piece = state.piece(id)?;
    let charged = queries::charged(state, piece)?;
    let tally = queries::tally_of(state, state.visit_of(piece)?.id)?;
    let line = tally.planks.into_iter().find(|plank| plank.piece == id);
    let line = match line {
        Some(plank) => plank.tallied,
        None => {
            let alone = tally_visit([(&charged.line, &charged.terms)]);
            alone.lines.into_iter().next()?
        }
    };
    Some((charged, line))
}
