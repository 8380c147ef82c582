//! How a number was worked out, wherever it stands.

use crate::explain::Asked;
use crate::model::Model;
use crate::racks::cut;
use stillwood_core::quantity::{Derivation, mm};
use stillwood_core::record::{explain_total, queries};
use stillwood_core::season::FEELER_MM;
use stillwood_core::verdict::working;

/// How it was worked out; `None` where there is no such number any more.
pub fn worked_out(model: &Model, asked: &Asked) -> Option<Derivation> {
    let instruments = &model.settings.instruments;
    match asked {
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
        Asked::CutPlan => cut::explain_the_plan(model),
        Asked::PlannedPart(part) => cut::explain_a_part(model, *part),
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
