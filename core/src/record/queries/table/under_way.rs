//! A table that is being worked out some planks at a time, so that whoever draws it is not held up by a long record.

use super::{Charge, Table, charges_of};
use crate::plank::Instruments;
use crate::record::log::id::Id;
use crate::record::state::State;
use crate::verdict::Spec;
use std::collections::{BTreeMap, BTreeSet};

/// A table under way: planks are added and judged one after the other, to the table that [`Table::of`] and
/// [`Table::judge`] make at once. It is of one state: of another it has to begin anew.
#[derive(Debug, Clone, Default)]
pub struct TableUnderWay {
    table: Table,
    planks: Vec<Id>,
    judged: usize,
    charged: BTreeMap<Id, Charge>,
    /// Visits whose tally is among what is charged.
    tallied: BTreeSet<Id>,
}

impl TableUnderWay {
    /// Of all planks of a record; none is added yet.
    pub fn begin(state: &State) -> Self {
        Self {
            planks: state.planks().map(|piece| piece.id).collect(),
            ..Self::default()
        }
    }

    /// Of a table that is whole, to judge all planks anew.
    pub fn judge_anew(table: Table) -> Self {
        Self {
            planks: table.rows.iter().map(|row| row.piece).collect(),
            table,
            ..Self::default()
        }
    }

    /// Adds and judges so many planks more, under one spec or each under that of its visit; whether any are left.
    pub fn go_on(
        &mut self,
        state: &State,
        instruments: &Instruments,
        under: Option<&Spec>,
        planks: usize,
    ) -> bool {
        for _ in 0..planks {
            let at = self.judged;
            let Some(id) = self.planks.get(at).copied() else {
                break;
            };
            if at == self.table.rows.len()
                && let Some(piece) = state.piece(id)
            {
                if let Some(visit) = state.visit_of(piece)
                    && self.tallied.insert(visit.id)
                {
                    self.charged.extend(charges_of(state, visit.id));
                }
                let charge = self.charged.get(&id).copied();
                self.table.add(state, piece, instruments, charge);
            }
            self.table.judge_row(state, under, at);
            self.judged += 1;
        }
        self.judged < self.planks.len()
    }

    /// How many planks are done, of how many.
    pub fn progress(&self) -> (usize, usize) {
        (self.judged, self.planks.len())
    }

    /// The table, once no plank is left; `None` before.
    pub fn finish(self) -> Option<Table> {
        (self.judged >= self.planks.len()).then_some(self.table)
    }
}
