//! A plank made ready to be ruled on under one spec after another: what a spec does not touch is looked at
//! once.
//!
//! It gives the ruling alone; reasons and words are for [`super::judge`], which rules the same.

use super::candidate::Wanted;
use super::look::look;
use super::qualities::Qualities;
use super::ruling::{Marked, Marks, Seen};
use super::{Quality, Ruling, Spec};
use crate::neck::{Place, zones_to_cut_round};
use crate::plank::{DefectKind, Plank, Source};
use crate::quantity::{Input, Variance};

/// A spec with what ruling under it asks of every plank.
#[derive(Debug, Clone, Copy)]
pub struct ReadySpec<'a> {
    spec: &'a Spec,
    wanted: Wanted,
    asked: Qualities,
}

impl<'a> ReadySpec<'a> {
    /// A spec to rule under.
    pub fn new(spec: &'a Spec) -> Self {
        let criteria = spec.criteria.iter().map(|one| one.quality);
        Self {
            spec,
            wanted: Wanted::of(spec),
            // The size is told of every plank, whether it counts or not.
            asked: criteria.fold(Qualities::of(&[Quality::Size]), Qualities::with),
        }
    }

    /// The spec.
    pub fn spec(&self) -> &'a Spec {
        self.spec
    }
}

/// A plank with the numbers of its qualities under the spec that it was last ruled on under.
#[derive(Debug, Clone, PartialEq)]
pub struct ReadyPlank {
    plank: Plank,
    inputs: Vec<Input<Source>>,
    zones: Vec<Place>,
    wanted: Option<Wanted>,
    /// The qualities that were looked at.
    looked_at: Qualities,
    /// The number of each that was looked at and has one.
    seen: [Option<Seen>; Quality::COUNT],
}

impl ReadyPlank {
    /// A plank and the standard uncertainty of its readings.
    pub fn new(plank: Plank, inputs: Vec<Input<Source>>) -> Self {
        Self {
            zones: zones_to_cut_round(&plank.defects).places,
            plank,
            inputs,
            wanted: None,
            looked_at: Qualities::default(),
            seen: [None; Quality::COUNT],
        }
    }

    /// The plank.
    pub fn plank(&self) -> &Plank {
        &self.plank
    }

    /// The ruling under a spec, as [`super::judge`] has it. Limits that change cost next to nothing; of
    /// another part or another cut only what depends on them is looked at anew.
    pub fn rule(&mut self, under: &ReadySpec<'_>) -> Ruling {
        self.look(under);
        let mut marks = Marks::default();
        for criterion in &under.spec.criteria {
            let seen = self.seen[criterion.quality as usize];
            marks.add(seen.and_then(|seen| Marked::of(*criterion, seen)));
        }
        marks.rule(self.fault(under.spec).is_some())
    }

    /// The number of a quality that the spec last ruled by looks at, or of the size, which is always looked
    /// at: its value, or the best that it can be. `None` where it has none.
    pub fn number(&self, quality: Quality) -> Option<f64> {
        let seen = self.seen[quality as usize]?;
        self.looked_at.hold(quality).then_some(seen.value)
    }

    /// The first fault found that the spec calls fatal.
    pub fn fault(&self, spec: &Spec) -> Option<DefectKind> {
        let mut kinds = self.plank.defects.iter().map(|defect| defect.kind);
        kinds.find(|kind| spec.fatal.contains(kind))
    }

    fn look(&mut self, under: &ReadySpec<'_>) {
        let wanted = &under.wanted;
        self.looked_at = match self.wanted {
            Some(before) if before == *wanted => self.looked_at,
            Some(before) if before.laid == wanted.laid => {
                self.looked_at.without(Qualities::DEPENDING_ON_SIZES)
            }
            _ => self.looked_at.without(Qualities::DEPENDING_ON_CUT),
        };
        self.wanted = Some(*wanted);
        let asked = under.asked.without(self.looked_at);
        if asked.is_empty() {
            return;
        }
        let mut variances = [Variance::default(); Quality::COUNT];
        let add = |quality, _, part| variances[quality as usize].add(part);
        let known = look(&self.plank, &self.zones, &self.inputs, wanted, asked, add);
        for quality in asked.each() {
            let at = quality as usize;
            self.seen[at] = Seen::of(&known[at], variances[at].standard());
        }
        self.looked_at = self.looked_at.and_also(asked);
    }
}

#[cfg(test)]
mod tests;
