//! All planks of a record as rows of a table: what is known of each, worked out once, to be sorted,
//! filtered and written as CSV.
//!
//! A row holds quantities and words of the trade; how it looks is not its business.

pub(crate) mod column;
pub(crate) mod figure;
pub(crate) mod filter;
pub(crate) mod out;
pub(crate) mod row;
#[cfg(test)]
mod tests;
pub(crate) mod under_way;

use crate::quantity::TraceOff;
use crate::record::queries;
use row::{PlankRow, text_of};

use crate::neck::cost_per_part;
use crate::order;
use crate::plank::{
    DefectKind, Field, Instruments, Plank, Source, density_as_measured, mass_as_weighed,
    mean_of_stations,
};
use crate::quantity::{Input, Moisture, in_kg, in_kg_per_m3, in_mm};
use crate::record::log::id::Id;
use crate::record::log::{Decision, PileOpened};
use crate::record::queries::marks::mark_order;
use crate::record::queries::own_readings::moisture_is_own;
use crate::record::state::{Piece, State, Visit};
use crate::trade::{Halves, Money, board_feet, tally_visit};
use crate::verdict::{Criterion, Order, Sheet, Spec, evaluate, looked_at, moisture, sheet};
use crate::wood::density_at_12;
use rust_decimal::Decimal;
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

/// Planks that are good and have a cost come first, the cheapest part first of all. One that is too close to call may
/// give no part at all.
fn by_cost(row: &PlankRow) -> (bool, Option<Decimal>) {
    let cost = row.cost_per_part.filter(|_| row.is_good());
    (cost.is_none(), cost)
}

/// In the order of their worth; those that were rejected last.
fn put_in_order(rows: &mut [PlankRow], order: Order) {
    let rejected = |row: &PlankRow| row.decision == Some(Decision::Leave);
    order::sort_by(rows, |a, b| {
        let by_worth = b.worth().total_cmp(&a.worth());
        rejected(a).cmp(&rejected(b)).then(match order {
            Order::Score => by_worth,
            Order::CostPerPart => by_cost(a).cmp(&by_cost(b)).then(by_worth),
        })
    });
}

impl Piece {
    /// A plank's sheet under any spec: what else would the wood be good for?
    pub fn sheet_under(&self, spec: &Spec, instruments: &Instruments) -> Sheet {
        sheet(
            &self.readings_in_use(),
            &self.defects_found(),
            instruments,
            spec,
        )
    }
}

/// A plank's sheet under the spec of its visit; `None` where the visit is not here.
pub fn sheet_of(state: &State, piece: &Piece, instruments: &Instruments) -> Option<Sheet> {
    let spec = &state.visit_of(piece)?.opened.spec;
    Some(sheet_under(state, piece, spec, instruments))
}

/// A plank's sheet under any spec, with the evaluation as it may be shown.
pub fn sheet_under(state: &State, piece: &Piece, spec: &Spec, instruments: &Instruments) -> Sheet {
    let mut sheet = piece.sheet_under(spec, instruments);
    let own = moisture_is_own(state, piece.pile, piece.reading(Field::Moisture));
    sheet.verdict = looked_at(&sheet.verdict, spec, own).shown(sheet.verdict);
    sheet
}

/// All planks, each once, those taken back left out, judged under the specs of their visits.
pub fn rows(state: &State, instruments: &Instruments) -> Vec<PlankRow> {
    Table::of(state, instruments).rows
}

/// The planks of a visit in the order of their worth under its spec: by score, ties by the
/// geometric mean of all criteria; or those that are good by the cost of an expected part, then the
/// others by score. Those that were rejected come last. They cost what they do in [`Table::of`].
pub fn ranked(state: &State, visit: Id, instruments: &Instruments) -> Vec<PlankRow> {
    let order = state
        .visit(visit)
        .map(|v| v.opened.spec.order)
        .unwrap_or_default();
    let charged = order::map_of(charges_of(state, visit));
    let mut table = Table::default();
    for pile in state.piles_of(visit) {
        for piece in state.pieces_of(pile.id).filter(|piece| !piece.withdrawn) {
            let charge = charged.get(&piece.id).copied();
            table.add(state, piece, instruments, charge);
        }
    }
    table.judge(state, None);
    let mut rows = table.rows;
    put_in_order(&mut rows, order);
    rows
}

/// The specs that planks can be judged under, by the names to choose them by: those of the visits, each
/// once, the latest visit first, then those supplied.
pub fn specs(state: &State) -> Vec<(String, Spec)> {
    let mut visits: Vec<&Visit> = state.visits().collect();
    order::sort_by_key(&mut visits, |visit| Reverse((visit.recorded.on, visit.id)));
    let mut specs: Vec<(String, Spec)> = Vec::new();
    // As text they have an order; one that can't be written stands by itself.
    let mut known = BTreeSet::new();
    let mut is_new =
        |spec: &Spec| serde_json::to_string(spec).map_or(true, |text| known.insert(text));
    for visit in visits {
        let spec = &visit.opened.spec;
        if is_new(spec) {
            let (yard, on) = (&visit.opened.yard, visit.recorded.on);
            specs.push((format!("{}, {yard} {on}", spec.name), spec.clone()));
        }
    }
    for spec in Spec::supplied() {
        if is_new(&spec) {
            specs.push((format!("{}, as supplied", spec.name), spec));
        }
    }
    specs
}

/// Footage and money of the planks taken on a visit, as its tally has them.
fn charges_of(state: &State, visit: Id) -> Vec<(Id, Charge)> {
    let planks = queries::visit_tally::charged_on(state, visit);
    let tally = tally_visit(planks.iter().map(|(one, _)| (&one.line, &one.terms)));
    let lines = planks.iter().zip(tally.lines);
    lines
        .map(|((one, _), line)| (one.piece, (line.board_feet.ok(), line.money.ok())))
        .collect()
}

/// Footage and money of a plank by itself.
fn charge_alone(state: &State, piece: &Piece, plank: &Plank) -> Charge {
    let Some(one) = queries::visit_tally::charged_as(state, piece, plank) else {
        return (None, None);
    };
    let feet = board_feet(&one.terms.rule, &one.line.sawn, &mut Halves::default());
    let tally = tally_visit([(&one.line, &one.terms)]);
    let money = tally.lines.into_iter().next().and_then(|l| l.money.ok());
    (feet.ok(), money)
}

/// Footage in board feet, and money.
type Charge = (Option<Decimal>, Option<Money>);

/// Every plank of a record as a row, with what it is evaluated from, so that another spec can be laid on all of
/// them at once.
#[derive(Debug, Clone, Default)]
pub struct Table {
    rows: Vec<PlankRow>,
    planks: Vec<(Plank, Vec<Input<Source>>)>,
    /// Of each plank, whether its moisture is its own and not that of its pile.
    moisture_is_own: Vec<bool>,
}

impl Table {
    /// All planks, each once, those taken back left out, judged under the specs of their visits. Those
    /// taken cost what the tally of their visit says; any other costs what it would by itself.
    pub fn of(state: &State, instruments: &Instruments) -> Self {
        let visits = state.visits();
        let charged = visits.flat_map(|visit| charges_of(state, visit.id));
        let charged: BTreeMap<Id, Charge> = order::map_of(charged);
        let mut table = Self::default();
        for piece in state.planks() {
            let charge = charged.get(&piece.id).copied();
            table.add(state, piece, instruments, charge);
        }
        table.judge(state, None);
        table
    }

    /// The rows, in the order of the planks' ids.
    pub fn rows(&self) -> &[PlankRow] {
        &self.rows
    }

    /// Judges all planks under one spec, or each under that of its visit; where its visit is not here, it
    /// is not judged.
    pub fn judge(&mut self, state: &State, spec: Option<&Spec>) {
        for at in 0..self.rows.len() {
            self.judge_row(state, spec, at);
        }
    }

    fn judge_row(&mut self, state: &State, spec: Option<&Spec>, at: usize) {
        let (Some(row), Some((plank, inputs)), Some(own)) = (
            self.rows.get_mut(at),
            self.planks.get(at),
            self.moisture_is_own.get(at),
        ) else {
            return;
        };
        let visit = row.visit.and_then(|id| state.visit(id));
        match spec.or(visit.map(|visit| &visit.opened.spec)) {
            Some(spec) => row.judge(plank, inputs, spec, *own),
            None => row.not_judged(),
        }
    }

    fn add(
        &mut self,
        state: &State,
        piece: &Piece,
        instruments: &Instruments,
        charge: Option<Charge>,
    ) {
        let plank = piece.described();
        let charge = charge.unwrap_or_else(|| charge_alone(state, piece, &plank));
        self.rows.push(PlankRow::of(state, piece, &plank, charge));
        let inputs = instruments.inputs_of(&|field| piece.reading(field));
        self.planks.push((plank, inputs));
        let own = moisture_is_own(state, piece.pile, piece.reading(Field::Moisture));
        self.moisture_is_own.push(own);
    }
}

impl PlankRow {
    /// All but what a spec says.
    fn of(state: &State, piece: &Piece, plank: &Plank, (feet, money): Charge) -> Self {
        let visit = state.visit_of(piece);
        let pile = state.pile(piece.pile).map(|pile| &pile.opened);
        let of_pile = |of: fn(&PileOpened) -> &String| pile.map(of).cloned().unwrap_or_default();
        let moisture = moisture(&mut TraceOff, plank).ok();
        let at_12 = |moisture| {
            density_at_12(density_as_measured(&mut TraceOff, plank).ok()?, moisture).ok()
        };
        let mut row = Self {
            piece: piece.id,
            visit: visit.map(|visit| visit.id),
            mark: piece.mark.clone(),
            yard: visit.map_or_else(String::new, |visit| visit.opened.yard.clone()),
            on: piece.recorded.on,
            species: queries::species_of(state, piece)
                .map_or_else(String::new, |species| species.text.clone()),
            length_mm: plank.length.map(in_mm),
            width_mm: mean_of_stations(&plank.widths).map(in_mm),
            thickness_mm: plank.thicknesses.least().map(in_mm),
            mass_kg: mass_as_weighed(&mut TraceOff, plank).ok().map(in_kg),
            moisture: moisture.map(Moisture::in_percent),
            density_at_12: moisture.and_then(at_12).map(in_kg_per_m3),
            score: None,
            mean: None,
            recommendation: None,
            weakest: None,
            decision: piece.decision(),
            reasons: piece
                .judgement()
                .map_or_else(Vec::new, |j| j.judged.reasons.clone()),
            board_feet: feet,
            cost_per_part: None,
            money,
            currency: visit.map_or_else(String::new, |visit| visit.opened.currency.clone()),
            parts: None,
            notes: piece.notes.iter().map(|note| note.text.clone()).collect(),
            invoice: of_pile(|pile| &pile.invoice),
            country_of_harvest: of_pile(|pile| &pile.country_of_harvest),
            text: String::new(),
            by_mark: mark_order(&piece.mark),
        };
        row.text = text_of(&row);
        row
    }

    fn judge(&mut self, plank: &Plank, inputs: &[Input<Source>], spec: &Spec, own: bool) {
        let found = evaluate(plank, inputs, spec);
        let found = looked_at(&found, spec, own).shown(found);
        self.score = found.score;
        self.mean = found.mean;
        self.recommendation = Some(found.recommendation);
        let defect = found.fatal_defects.first().copied().map(DefectKind::name);
        self.weakest = defect.or(found.weakest.map(Criterion::name));
        // The price stays, so that as many parts cost as much each.
        let parts = found.parts.ok().map(|count| count.parts);
        if parts != self.parts {
            self.parts = parts;
            self.cost_per_part = self
                .money
                .zip(parts)
                .and_then(|(money, parts)| cost_per_part(money.gross, parts));
        }
    }

    fn not_judged(&mut self) {
        (self.score, self.mean, self.recommendation) = (None, None, None);
        (self.weakest, self.parts, self.cost_per_part) = (None, None, None);
    }
}
