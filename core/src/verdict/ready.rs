//! A plank made ready to be ruled on under one spec after another: what a spec does not touch is looked at
//! once.
//!
//! It gives the ruling alone; reasons and words are for [`super::judge`], which rules the same.

use super::candidate::{Wanted, look};
use super::qualities::Qualities;
use super::ruling::{Marked, Marks, Seen};
use super::{Quality, Ruling, Spec};
use crate::neck::{Place, zones_to_cut_round};
use crate::plank::{DefectKind, Plank, Source};
use crate::quantity::{Input, Variance};

/// A plank with the numbers of its qualities under the spec that it was last ruled on under.
#[derive(Debug, Clone, PartialEq)]
pub struct ReadyPlank {
    plank: Plank,
    inputs: Vec<Input<Source>>,
    zones: Vec<Place>,
    wanted: Option<Wanted>,
    /// The number of each quality, where there is one; `None` where it was not looked at.
    looked: [Option<Option<Seen>>; Quality::COUNT],
}

impl ReadyPlank {
    /// A plank and the standard uncertainty of its readings.
    pub fn new(plank: Plank, inputs: Vec<Input<Source>>) -> Self {
        Self {
            zones: zones_to_cut_round(&plank.defects).places,
            plank,
            inputs,
            wanted: None,
            looked: [None; Quality::COUNT],
        }
    }

    /// The plank.
    pub fn plank(&self) -> &Plank {
        &self.plank
    }

    /// The ruling under a spec, as [`super::judge`] has it. Limits that change cost next to nothing; of
    /// another part or another cut only what depends on them is looked at anew.
    pub fn rule(&mut self, spec: &Spec) -> Ruling {
        self.look(spec);
        let mut marks = Marks::default();
        for criterion in &spec.criteria {
            let looked = self.looked[criterion.quality as usize];
            marks.add(
                looked
                    .flatten()
                    .and_then(|seen| Marked::of(*criterion, seen)),
            );
        }
        marks.rule(self.fault(spec).is_some())
    }

    /// The number of a quality that the spec last ruled by looks at, or of the size, which is always looked
    /// at: its value, or the best that it can be. `None` where it has none.
    pub fn number(&self, quality: Quality) -> Option<f64> {
        Some(self.looked[quality as usize]??.value)
    }

    /// The first fault found that the spec calls fatal.
    pub fn fault(&self, spec: &Spec) -> Option<DefectKind> {
        let mut kinds = self.plank.defects.iter().map(|defect| defect.kind);
        kinds.find(|kind| spec.fatal.contains(kind))
    }

    fn look(&mut self, spec: &Spec) {
        let wanted = Wanted::of(spec);
        if self.wanted.replace(wanted) != Some(wanted) {
            for quality in Qualities::DEPENDING_ON_CUT.each() {
                self.looked[quality as usize] = None;
            }
        }
        let asked = Qualities::default().with(Quality::Size);
        let asked = spec
            .criteria
            .iter()
            .fold(asked, |all, c| all.with(c.quality));
        let there = |quality: &Quality| self.looked[*quality as usize].is_none();
        let asked = asked
            .each()
            .filter(there)
            .fold(Qualities::default(), Qualities::with);
        if asked.is_empty() {
            return;
        }
        let mut variances = [Variance::default(); Quality::COUNT];
        let add = |quality, _, part| variances[quality as usize].add(part);
        let known = look(&self.plank, &self.zones, &self.inputs, &wanted, asked, add);
        for quality in asked.each() {
            let at = quality as usize;
            self.looked[at] = Some(Seen::of(known[at], variances[at].standard()));
        }
    }
}

#[cfg(test)]
mod tests;
