//! All planks of a record as rows of a table: what is known of each, worked out once, to be sorted,
//! filtered and written as CSV.
//!
//! A row holds quantities and words of the trade; how it looks is not its business.

mod column;
mod filter;
mod out;
#[cfg(test)]
mod tests;
mod told;

pub use column::{Column, sort_rows};
pub use filter::Filter;
pub use out::{HEADINGS, table_rows};
pub use told::PlankFigure;

use super::{Book, Decision, Piece};
use crate::neck::cost_per_part;
use crate::order;
use crate::plank::{Halves, Instruments, Money, Reason, board_feet, mean_of_stations, tally_visit};
use crate::quantity::{in_kg, in_kg_per_m3, in_mm};
use crate::verdict::{Call, Order, Quality, Sheet, sheet};
use chrono::NaiveDate;
use rust_decimal::Decimal;
use std::collections::BTreeMap;
use uuid::Uuid;

/// What is known of a plank, in a row.
#[derive(Debug, Clone, PartialEq)]
pub struct PlankRow {
    /// The piece.
    pub piece: Uuid,
    /// Its visit, where that is here.
    pub visit: Option<Uuid>,
    /// Its mark.
    pub mark: String,
    /// The yard.
    pub yard: String,
    /// The day on which it got its mark.
    pub on: NaiveDate,
    /// The wood, as named.
    pub species: String,
    /// Length, mm.
    pub length_mm: Option<f64>,
    /// Mean of the widths, mm.
    pub width_mm: Option<f64>,
    /// Least of the thicknesses, mm.
    pub thickness_mm: Option<f64>,
    /// Weight, kg.
    pub mass_kg: Option<f64>,
    /// Moisture, corrected, %.
    pub moisture: Option<f64>,
    /// Density at 12 %, kg/m3.
    pub density_at_12: Option<f64>,
    /// Score, 0 to 100.
    pub score: Option<f64>,
    /// Geometric mean of all scores: orders planks of one score.
    pub mean: Option<f64>,
    /// What the computation says; `None` where its visit, and so its spec, is not here.
    pub call: Option<Call>,
    /// The fault that refuses it, or the weakest criterion.
    pub weakest: Option<&'static str>,
    /// What was decided.
    pub decision: Option<Decision>,
    /// Why, the main reason first.
    pub reasons: Vec<Reason>,
    /// Footage by the yard's rule, board feet.
    pub board_feet: Option<Decimal>,
    /// What it costs.
    pub money: Option<Money>,
    /// In which currency.
    pub currency: String,
    /// Parts that it holds.
    pub parts: Option<u32>,
    /// What one of them costs, with tax.
    pub cost_per_part: Option<Decimal>,
    /// Notes.
    pub notes: Vec<String>,
    /// What a text search looks through, in small letters.
    pub(super) text: String,
}

impl PlankRow {
    /// A number that orders planks by score, those of one score by the geometric mean; highest is best.
    fn worth(&self) -> f64 {
        match self.score {
            Some(score) => score * 1000.0 + self.mean.unwrap_or(0.0),
            None => -1.0,
        }
    }

    fn passes(&self) -> bool {
        matches!(
            self.call,
            Some(Call::Good | Call::GoodSoFar | Call::TooClose)
        )
    }
}

/// Planks that pass and have a cost come first, the cheapest part first of all.
fn by_cost(row: &PlankRow) -> (bool, Option<Decimal>) {
    let cost = row.cost_per_part.filter(|_| row.passes());
    (cost.is_none(), cost)
}

impl Book {
    /// A plank's sheet under the spec of its visit; `None` where the visit is not here.
    pub fn sheet_of(&self, piece: &Piece, instruments: &Instruments) -> Option<Sheet> {
        let visit = self.visit_of(piece)?;
        Some(sheet(
            &piece.readings_in_use(),
            &piece.defects_found(),
            instruments,
            &visit.opened.spec,
        ))
    }

    /// All planks, each once, those taken back left out. Those taken cost what the tally of their visit
    /// says; any other costs what it would by itself.
    pub fn rows(&self, instruments: &Instruments) -> Vec<PlankRow> {
        let mut charged = BTreeMap::new();
        for visit in self.visits() {
            if let Some(tally) = self.tally_of(visit.id) {
                for plank in tally.planks {
                    let feet = plank.tallied.board_feet.ok();
                    charged.insert(plank.piece, (feet, plank.tallied.money.ok()));
                }
            }
        }
        self.planks()
            .map(|piece| {
                let known = charged.get(&piece.id).copied();
                self.row(piece, instruments, known)
            })
            .collect()
    }

    /// The planks of a visit in the order of their worth under its spec: by score, ties by the
    /// geometric mean of all criteria; or those that pass by the cost of an expected part, then the
    /// others by score.
    pub fn ranked(&self, visit: Uuid, instruments: &Instruments) -> Vec<PlankRow> {
        let order = self
            .visit(visit)
            .map(|v| v.opened.spec.order)
            .unwrap_or_default();
        let mut rows: Vec<PlankRow> = self
            .piles_of(visit)
            .flat_map(|pile| self.pieces_of(pile.id))
            .filter(|piece| !piece.withdrawn)
            .map(|piece| self.row(piece, instruments, None))
            .collect();
        order::sort_by(&mut rows, |a, b| match order {
            Order::Score => b.worth().total_cmp(&a.worth()),
            Order::CostPerPart => by_cost(a)
                .cmp(&by_cost(b))
                .then(b.worth().total_cmp(&a.worth())),
        });
        rows
    }

    fn row(
        &self,
        piece: &Piece,
        instruments: &Instruments,
        charged: Option<(Option<Decimal>, Option<Money>)>,
    ) -> PlankRow {
        let visit = self.visit_of(piece);
        let sheet = self.sheet_of(piece, instruments);
        let plank = match &sheet {
            Some(sheet) => sheet.plank.clone(),
            None => piece.described(),
        };
        let (feet, money) = charged
            .or_else(|| {
                let one = self.charged(piece)?;
                let feet = board_feet(&one.terms.rule, &one.line.sawn, &mut Halves::default());
                let tally = tally_visit([(&one.line, &one.terms)]);
                let money = tally.lines.into_iter().next().and_then(|l| l.money.ok());
                Some((feet.ok(), money))
            })
            .unwrap_or_default();
        let verdict = sheet.as_ref().map(|sheet| &sheet.verdict);
        let parts = sheet
            .as_ref()
            .and_then(|sheet| Some(sheet.held.as_ref()?.parts));
        let mut row = PlankRow {
            piece: piece.id,
            visit: visit.map(|visit| visit.id),
            mark: piece.mark.clone(),
            yard: visit.map_or_else(String::new, |visit| visit.opened.yard.clone()),
            on: piece.recorded.on,
            species: self
                .species_of(piece)
                .map_or_else(String::new, |species| species.text.clone()),
            length_mm: plank.length.map(in_mm),
            width_mm: mean_of_stations(&plank.widths).map(in_mm),
            thickness_mm: plank.thicknesses.least().map(in_mm),
            mass_kg: figure(&sheet, |s| s.mass.as_ref().map(|m| in_kg(m.value))),
            moisture: figure(&sheet, |s| {
                s.moisture.as_ref().map(|m| m.value.in_percent())
            }),
            density_at_12: figure(&sheet, |s| {
                s.density_at_12.as_ref().map(|d| in_kg_per_m3(d.value))
            }),
            score: verdict.and_then(|v| v.score),
            mean: verdict.and_then(|v| v.mean),
            call: verdict.map(|v| v.call),
            weakest: verdict.and_then(|v| match v.faults.first() {
                Some(fault) => Some(fault.name()),
                None => v.weakest.map(Quality::name),
            }),
            decision: piece.decision(),
            reasons: piece
                .judgement()
                .map_or_else(Vec::new, |j| j.judged.reasons.clone()),
            board_feet: feet,
            cost_per_part: money
                .zip(parts)
                .and_then(|(money, parts)| cost_per_part(money.gross, parts)),
            money,
            currency: visit.map_or_else(String::new, |visit| visit.opened.currency.clone()),
            parts,
            notes: piece.notes.iter().map(|note| note.text.clone()).collect(),
            text: String::new(),
        };
        row.text = filter::text_of(&row);
        row
    }
}

fn figure(sheet: &Option<Sheet>, get: impl Fn(&Sheet) -> Option<f64>) -> Option<f64> {
    sheet.as_ref().and_then(get)
}
