//! Looking at a plank: what each quality comes to, and what each measurement adds to its uncertainty.
//!
//! One source after another reads more and less, and only what it moves is worked out anew. This is where a
//! verdict spends its time. The code is compiled for each source by itself: which terms and qualities that
//! source moves is then known beforehand, and costs no question when a plank is judged.

use super::body::Body;
use super::candidate::{AsCut, Candidate, Wanted};
use super::qualities::Qualities;
use super::{Known, Quality};
use crate::neck::Place;
use crate::plank::{Plank, Source};
use crate::quantity::{Input, part};

/// Looks at qualities of a plank. What each input adds to the uncertainty of each of them goes to `add`, as
/// [`crate::quantity::propagate`] has it.
pub(super) fn look(
    plank: &Plank,
    zones: &[Place],
    inputs: &[Input<Source>],
    wanted: &Wanted,
    qualities: Qualities,
    add: impl FnMut(Quality, Source, f64),
) -> [Known; Quality::COUNT] {
    let whole = !qualities.without(Qualities::DEPENDING_ON_CUT).is_empty();
    let measured = Candidate {
        plank,
        wanted,
        as_cut: &AsCut::of(plank, zones, wanted),
        body: &match whole {
            true => Body::of(plank),
            false => Body::default(),
        },
    };
    let mut known = [Known::NotLooked(""); Quality::COUNT];
    let mut values = [0.0; Quality::COUNT];
    let mut valued = Qualities::default();
    for quality in qualities.each() {
        let found = quality.known(&measured);
        known[quality as usize] = found;
        if let Some(value) = found.number() {
            values[quality as usize] = value;
            valued = valued.with(quality);
        }
    }
    let mut moving = Moving {
        values,
        valued,
        nudged: Nudged::of(&measured, zones, whole),
        measured,
        add,
    };
    for input in inputs {
        moving.take(*input);
    }
    known
}

/// The qualities of a plank as one source after another moves them.
struct Moving<'a, F> {
    measured: Candidate<'a>,
    /// What the qualities come to that have a value.
    values: [f64; Quality::COUNT],
    valued: Qualities,
    nudged: Nudged<'a>,
    add: F,
}

/// Does something with each quality of a set, among those that a source may move. They are written out, so
/// that for a source that is known beforehand those that it never moves are not there at all.
macro_rules! each_moved {
    ($set:ident by $source:ident, $quality:ident => $do:expr) => {
        each_moved!(
            $set by $source, $quality => $do;
            Straightness Crook Density GrainSlope RingAngle Moisture Size
        )
    };
    ($set:ident by $source:ident, $quality:ident => $do:expr; $($each:ident)*) => {
        $(
            let $quality = Quality::$each;
            if Qualities::may_be_moved_by($source).hold($quality) && $set.hold($quality) {
                $do
            }
        )*
        // None is left out.
        const _: fn(Quality) = |quality| match quality {
            $(Quality::$each => (),)*
        };
    };
}

impl<F: FnMut(Quality, Source, f64)> Moving<'_, F> {
    /// What an input adds to the uncertainty of each quality.
    fn take(&mut self, Input { source, standard }: Input<Source>) {
        macro_rules! compiled_for_each {
            ($($each:ident)*) => {
                match source {
                    $(Source::$each => self.take_of(Source::$each, standard),)*
                }
            };
        }
        compiled_for_each!(
            Length Width Thickness Scale Bearer Meter Temperature Bow Crook Twist Cup GrainFace GrainEdge
            Rings
        );
    }

    #[inline(always)]
    fn take_of(&mut self, source: Source, standard: f64) {
        let measured = &self.measured;
        let moved = Qualities::moved_by(source, measured.plank).and(self.valued);
        if moved.is_empty() {
            return;
        }
        let mut above = [None; Quality::COUNT];
        let more = self.nudged.by(source, standard, measured);
        each_moved!(moved by source, quality => above[quality as usize] = quality.number(&more));
        self.nudged.plank.put_back(source, measured.plank);
        let less = self.nudged.by(source, -standard, measured);
        each_moved!(moved by source, quality => {
            let at = quality as usize;
            let below = quality.number(&less);
            (self.add)(quality, source, part(self.values[at], above[at], below));
        });
        self.nudged.put_back(source, measured);
    }
}

/// A plank as it would be had one source read more or less.
struct Nudged<'a> {
    plank: Plank,
    as_cut: AsCut,
    body: Body,
    zones: &'a [Place],
    /// Whether more is asked than what depends on the cut.
    whole: bool,
}

impl<'a> Nudged<'a> {
    fn of(measured: &Candidate<'_>, zones: &'a [Place], whole: bool) -> Self {
        Self {
            plank: measured.plank.bare(),
            as_cut: *measured.as_cut,
            body: *measured.body,
            zones,
            whole,
        }
    }

    /// Had a source read so much more.
    #[inline(always)]
    fn by<'b>(&'b mut self, source: Source, by: f64, measured: &Candidate<'b>) -> Candidate<'b> {
        let wanted = measured.wanted;
        self.plank.nudge(source, by);
        if AsCut::MOVED_BY.hold(source) {
            self.as_cut.again(source, &self.plank, self.zones, wanted);
        }
        if self.whole && Body::MOVED_BY.hold(source) {
            self.body.again(source, &self.plank);
        }
        Candidate {
            plank: &self.plank,
            wanted,
            as_cut: &self.as_cut,
            body: &self.body,
        }
    }

    /// Takes back what a source moved.
    #[inline(always)]
    fn put_back(&mut self, source: Source, measured: &Candidate<'_>) {
        self.plank.put_back(source, measured.plank);
        if AsCut::MOVED_BY.hold(source) {
            self.as_cut.put_back(source, measured.as_cut);
        }
        if self.whole && Body::MOVED_BY.hold(source) {
            self.body.put_back(source, measured.body);
        }
    }
}
