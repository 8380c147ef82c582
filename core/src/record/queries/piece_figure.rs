//! How the figures of a piece in the workshop were worked out, to be told. It brings the record to the
//! formulas that compute them and holds none of its own but sums and shares.

use crate::neck::each_costs;
use crate::plank::{Instruments, Plank, Weighing, density_as_measured, mean_of_stations};
use crate::quantity::{
    Derivation, Length, MassDensity, Moisture, Trace, TraceOff, formula, in_kg, in_mm, kg, mm, show,
};
use crate::record::log::Span;
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::state::Origin;
use crate::record::state::{Piece, State};
use crate::season::{DriedTo, FEELER_MM, explain_cut_from, explain_due, lost};
use crate::wood::density_at;
use rust_decimal::Decimal;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PieceFigure {
    /// The day on which the least rest is over.
    RestOverOn,
    /// The day from which a plank may be cut.
    CutFrom,
    /// Its size, where that was not measured on itself.
    Size,
    /// Density at 12 %.
    Density,
    Drying(DriedTo),
    /// Its wood that is not in the pieces cut from it.
    Lost,
    /// Its weight that is not in the pieces cut from it.
    MassGone,
    /// What a blank weighs, of its laminates.
    Weight,
    /// How hard a blank is to bend along its glue lines.
    Stiffness,
    /// How it was watched for movement, and the largest change.
    MovedSoFar,
    /// How much a blank moves over the year of its room.
    OverYear,
    WoodCost,
    /// What each costs of so many parts that it is cut to.
    CostEach(u32),
}

formula! {
    /// Weight that is not in the pieces.
    MASS_GONE: "Not in the pieces", "w", "kg";
    whole: "m", "as weighed last before the cut", "kg";
    pieces: "m′", "all pieces, as weighed first", "kg";
    = whole - pieces;
    range "dust, waste and the water that went between the weighings";
    source "a difference";
}

formula! {
    /// Weights added up.
    WEIGHTS: "Weight of all together", "m", "kg";
    one: "m", "each, as weighed last", "kg";
    = one;
    range "before it was glued and planed";
    source "a sum";
}

/// Density at 12 % of a piece by its own weight, size and moisture, with its steps.
pub(crate) fn density_worked(
    trace: &mut impl Trace,
    size: Plank,
    weight: f64,
    moisture: Moisture,
) -> Option<MassDensity> {
    let weighed = Plank {
        weighing: Some(Weighing::Whole(kg(weight))),
        ..size
    };
    let measured = density_as_measured(trace, &weighed).ok()?;
    density_at(trace, measured, moisture, Moisture::STANDARD).ok()
}

/// The most pieces over which a cost is told step by step: nobody reads more.
const MOST_TOLD: usize = 200;

/// What is told of a cost that is worked out over more.
fn too_many_to_tell(cost: &str, currency: &str, pieces: usize) -> Derivation {
    Derivation::note(
        format!(
            "{cost} {currency}, worked out over {pieces} pieces: too many to be told one by one. What was cut is \
             its part by volume of what it was cut from, a blank all its laminates together."
        ),
        "the bills, each told on its plank's sheet",
    )
}

/// How a figure of a piece was worked out; `None` where it has none.
pub fn explain_piece_figure(
    state: &State,
    id: Id,
    figure: PieceFigure,
    tools: &Instruments,
) -> Option<Derivation> {
    let piece = state.piece(id)?;
    let mut working = Derivation::default();
    match figure {
        PieceFigure::RestOverOn => {
            let rest = piece.work.rest()?;
            working = explain_due(
                rest.on,
                queries::stage_limits(state, rest.payload.stage).months,
            )
            .ok()?;
        }
        PieceFigure::CutFrom => {
            working = explain_cut_from(piece.work.came?, queries::weeks_before_cut(state)).ok()?;
        }
        PieceFigure::Size => working = explain_size(state, piece),
        PieceFigure::Density => {
            own_density(state, &mut working.steps, piece)?;
            working
                .notes
                .push("As weighed last and as the meter showed last.".into());
        }
        PieceFigure::Drying(what) => {
            working = queries::explain_drying(state, piece, kg(tools.scale_kg), what)?;
        }
        PieceFigure::Lost => {
            let wood = queries::cut_account(state, id, tools)?.wood?;
            lost(&mut working.steps, &wood);
        }
        PieceFigure::MassGone => {
            let mass = queries::cut_account(state, id, tools)?.mass?;
            let values = [in_kg(mass.whole), in_kg(mass.pieces)];
            working.steps.work(&MASS_GONE, values);
            let warning = show::number(2.0 * in_kg(mass.standard), 3);
            working.notes.push(format!(
                "The scales leave it open by ± {warning} kg (JCGM 100:2008, 95 of 100 cases)."
            ));
        }
        PieceFigure::Weight => explain_weight(state, &mut working, piece)?,
        PieceFigure::Stiffness => {
            working = queries::section_of(state, piece)?.explain_stiffness()?
        }
        PieceFigure::OverYear => working = queries::over_year::explain_over_year(state, id)?,
        PieceFigure::MovedSoFar => {
            working = queries::moved_so_far::explain_moved_so_far(state, piece, mm(FEELER_MM))?;
        }
        PieceFigure::WoodCost | PieceFigure::CostEach(_) => {
            let (cost, currency) = queries::wood_cost(state, id)?;
            let family = queries::family::parts_first(state, id)?;
            if family.len() > MOST_TOLD {
                return Some(too_many_to_tell(
                    &cost.round_dp(2).to_string(),
                    &currency,
                    family.len(),
                ));
            }
            let bills = queries::blank_cost::bills(state, &family);
            queries::blank_cost::cost_of(state, &mut working.steps, &family)?;
            if let PieceFigure::CostEach(parts) = figure {
                each_costs(&mut working.steps, &currency, cost, parts)?;
            }
            working.notes = explain_bills(state, &bills, &currency);
            working.notes.extend(explain_parts(state, &family));
            working.source = "the bills, each told on its plank's sheet";
        }
    }
    Some(working)
}

/// Density at 12 % by its own weight, size and moisture.
pub fn density_in_shop(state: &State, piece: &Piece) -> Option<MassDensity> {
    own_density(state, &mut TraceOff, piece)
}

pub(crate) fn own_density(
    state: &State,
    trace: &mut impl Trace,
    piece: &Piece,
) -> Option<MassDensity> {
    let weighed = piece.work.weighings.last()?;
    let moisture = crate::record::queries::ready::moisture(trace, piece)?;
    density_worked(
        trace,
        queries::size_of(state, piece),
        weighed.payload.mass.value,
        moisture,
    )
}

fn explain_size(state: &State, piece: &Piece) -> Derivation {
    const SOURCE: &str = "the record: what was measured, machined or laid out";
    let said = |note: String| Derivation::note(note, SOURCE);
    match &piece.work.origin {
        Origin::CutFrom { parent, place, .. } => {
            let mark = state.piece(*parent).map(|one| one.mark.as_str());
            let span = |name: &str, span: &Option<Span>| match span {
                Some(span) => format!(
                    "{name} {} − {} = {} mm",
                    show::number(span.to.value, 1),
                    show::number(span.from.value, 1),
                    show::number(span.to.value - span.from.value, 1)
                ),
                None => format!("{name} all of it"),
            };
            said(format!(
                "As laid out in {}: {}, {}, {}. What was measured or machined since takes its place: {}.",
                mark.unwrap_or("its parent"),
                span("along", &place.along),
                span("across", &place.across),
                span("through", &place.through),
                sizes_in_words(state, piece)
            ))
        }
        Origin::GluedFrom { .. } => {
            let members = queries::made_of(state, piece.id);
            let one = |id: &Id| {
                let member = state.piece(*id)?;
                Some(format!("{} {}", member.mark, sizes_in_words(state, member)))
            };
            let all: Vec<String> = members.iter().filter_map(one).collect();
            said(format!(
                "The shortest length, the least width and all thicknesses together of {}; what was measured \
                 on the blank itself takes their place.",
                all.join("; ")
            ))
        }
        Origin::Yard => said(format!(
            "As measured: {}. Of several widths the mean, of several thicknesses the mean.",
            sizes_in_words(state, piece)
        )),
    }
}

fn sizes_in_words(state: &State, piece: &Piece) -> String {
    let size = queries::size_of(state, piece);
    let shown =
        |side: Option<Length>| side.map_or("–".to_owned(), |side| show::number(in_mm(side), 1));
    let sides = [
        size.length,
        mean_of_stations(&size.widths),
        mean_of_stations(&size.thicknesses),
    ];
    format!("{} mm", sides.map(shown).join(" × "))
}

fn explain_weight(state: &State, working: &mut Derivation, blank: &Piece) -> Option<()> {
    let (mass, weighed) = queries::blank_weight(state, blank)?;
    if weighed {
        let kg = show::number(in_kg(mass), 3);
        *working = Derivation::note(format!("{kg} kg, as weighed last."), "the scale's reading");
        return Some(());
    }
    let mut weights = Vec::new();
    let mut marks = Vec::new();
    for id in queries::made_of(state, blank.id) {
        let member = state.piece(id)?;
        weights.push([member.work.weighings.last()?.payload.mass.value]);
        marks.push(member.mark.as_str());
    }
    working.steps.add_up(&WEIGHTS, &weights);
    let marks = marks.join(", ");
    working.notes.push(format!(
        "In the order of {marks}. Glue and planing are not in it."
    ));
    Some(())
}

/// The bills that its wood's cost begins with.
fn explain_bills(state: &State, bills: &[(Id, Decimal)], currency: &str) -> Vec<String> {
    let one = |(plank, cost): &(Id, Decimal)| {
        let mark = &state.piece(*plank)?.mark;
        let cost = cost.round_dp(2);
        Some(format!("{mark} cost {cost} {currency}, tax included."))
    };
    bills.iter().filter_map(one).collect()
}

/// Of what each piece on the way is a part, in the order of the steps.
fn explain_parts(state: &State, family: &[Id]) -> Option<String> {
    let mut parts = Vec::new();
    for id in family {
        let piece = state.piece(*id)?;
        let whole = piece.work.parent().and_then(|parent| state.piece(parent));
        if let Some(whole) = whole {
            parts.push(format!("{} of {}", piece.mark, whole.mark));
        }
    }
    (!parts.is_empty()).then(|| {
        format!(
            "Step by step: {}. Like parts are told once.",
            parts.join("; ")
        )
    })
}
