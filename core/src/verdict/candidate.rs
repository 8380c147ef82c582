//! A plank held against what is wanted of it: what its qualities share is worked out once, and as one
//! reading moves, only what it moves is worked out anew.
//!
//! It judges nothing, and holds no formula.

use super::body::Body;
use super::qualities::Qualities;
use super::{Known, Laid, Quality, Spec};
use crate::neck::{Cutting, Place, count_across, count_along, count_held};
use crate::plank::{
    Bend, BendShape, CutFirst, Plank, SlabTerms, Source, Sources, slab_losses_worked,
};
use crate::quantity::{Input, Length, Silent, mm, part};

/// All that a quality's value takes from a spec.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Wanted {
    pub(super) cutting: Cutting,
    pub(super) planing: Length,
    pub(super) laid: Laid,
}

impl Wanted {
    pub(super) fn of(spec: &Spec) -> Self {
        Self {
            cutting: Cutting::of(spec),
            planing: mm(spec.planing_mm),
            laid: spec.laid,
        }
    }

    fn piece(&self) -> (Length, Length) {
        (self.cutting.length, self.cutting.across)
    }
}

/// What the qualities of a plank that depend on the cut are worked out of. It holds values alone, for it
/// is filled many times for one verdict; why there is none is found out where it is asked.
#[derive(Clone, Copy)]
pub(super) struct AsCut {
    terms: SlabTerms,
    along: Option<usize>,
    /// The same with a cut on each kink; nothing where there is none.
    along_kinks: Option<usize>,
    across: Option<usize>,
    pub(super) in_part: Option<InPart>,
}

const ALONG: Sources = Sources::of(&[Source::Length]);
const ACROSS: Sources = Sources::of(&[Source::Width]);
/// What moves anything that depends on the cut.
const AS_CUT: Sources = IN_PART.with(ALONG).with(ACROSS);
const IN_PART: Sources = SlabTerms::THICKNESS
    .with(SlabTerms::BOW)
    .with(SlabTerms::TWIST)
    .with(SlabTerms::CUP);

impl AsCut {
    fn of(plank: &Plank, zones: &[Place], wanted: &Wanted) -> Self {
        let piece = wanted.piece();
        let mut as_cut = Self {
            terms: SlabTerms {
                thickness: SlabTerms::thickness(plank).ok(),
                bow: SlabTerms::bow(&mut Silent, plank, piece).ok(),
                twist: SlabTerms::twist(&mut Silent, plank, piece).ok(),
                cup: SlabTerms::cup(&mut Silent, plank, piece).ok(),
            },
            along: count_along(plank, &wanted.cutting, zones).ok(),
            along_kinks: along_kinks(plank, &wanted.cutting, zones),
            across: count_across(plank, &wanted.cutting).ok(),
            in_part: None,
        };
        as_cut.in_part = as_cut.in_part(plank, wanted);
        as_cut
    }

    /// Works out anew what a source moves.
    #[inline(always)]
    fn again(&mut self, source: Source, plank: &Plank, zones: &[Place], wanted: &Wanted) {
        let piece = wanted.piece();
        if SlabTerms::THICKNESS.hold(source) {
            self.terms.thickness = SlabTerms::thickness(plank).ok();
        }
        if SlabTerms::BOW.hold(source) {
            self.terms.bow = SlabTerms::bow(&mut Silent, plank, piece).ok();
        }
        if SlabTerms::TWIST.hold(source) {
            self.terms.twist = SlabTerms::twist(&mut Silent, plank, piece).ok();
        }
        if SlabTerms::CUP.hold(source) {
            self.terms.cup = SlabTerms::cup(&mut Silent, plank, piece).ok();
        }
        if ALONG.hold(source) {
            self.along = count_along(plank, &wanted.cutting, zones).ok();
            self.along_kinks = along_kinks(plank, &wanted.cutting, zones);
        }
        if ACROSS.hold(source) {
            self.across = count_across(plank, &wanted.cutting).ok();
        }
        if IN_PART.hold(source) {
            self.in_part = self.in_part(plank, wanted);
        }
    }

    /// Takes back what a source moved.
    #[inline(always)]
    fn put_back(&mut self, source: Source, as_measured: &Self) {
        if SlabTerms::THICKNESS.hold(source) {
            self.terms.thickness = as_measured.terms.thickness;
        }
        if SlabTerms::BOW.hold(source) {
            self.terms.bow = as_measured.terms.bow;
        }
        if SlabTerms::TWIST.hold(source) {
            self.terms.twist = as_measured.terms.twist;
        }
        if SlabTerms::CUP.hold(source) {
            self.terms.cup = as_measured.terms.cup;
        }
        if ALONG.hold(source) {
            self.along = as_measured.along;
            self.along_kinks = as_measured.along_kinks;
        }
        if ACROSS.hold(source) {
            self.across = as_measured.across;
        }
        if IN_PART.hold(source) {
            self.in_part = as_measured.in_part;
        }
    }

    /// The slab that counts. A kink whose place is known is cut at, and costs nothing, wherever the plank
    /// still holds a part beside it; else it counts as inside the part.
    fn in_part(&self, plank: &Plank, wanted: &Wanted) -> Option<InPart> {
        if no_shape_looked_at(plank) {
            return None;
        }
        let slabs = self.slabs(wanted)?;
        let at_kinks = self.along_kinks.is_some_and(|along| along > 0)
            && self
                .count(wanted, slabs.cut_on_kink.thickness, true)
                .is_some_and(|parts| parts > 0);
        let slab = if at_kinks {
            slabs.cut_on_kink
        } else {
            slabs.bend_inside
        };
        Some(InPart {
            thickness: slab.thickness,
            at_kinks,
        })
    }

    /// The slabs with and without a cut on a kink.
    pub(super) fn slabs(&self, wanted: &Wanted) -> Option<CutFirst> {
        Some(self.terms.losses(wanted.planing)?.both())
    }

    /// How many parts it holds in a slab of this thickness, with or without a cut on each kink.
    pub(super) fn count(&self, wanted: &Wanted, slab: Length, at_kinks: bool) -> Option<u32> {
        let along = match at_kinks {
            true => self.along_kinks,
            false => self.along,
        };
        count_held(along?, self.across?, &wanted.cutting, slab).ok()
    }
}

fn no_shape_looked_at(plank: &Plank) -> bool {
    plank.bow.is_none() && plank.twist.is_none() && plank.cup.is_none()
}

fn along_kinks(plank: &Plank, cutting: &Cutting, zones: &[Place]) -> Option<usize> {
    kinks(plank).next()?;
    let cuts = kinks(plank).map(|at| Place { from: at, to: at });
    let zones: Vec<Place> = zones.iter().copied().chain(cuts).collect();
    count_along(plank, cutting, &zones).ok()
}

/// Where the plank has kinks.
pub(super) fn kinks(plank: &Plank) -> impl Iterator<Item = Length> {
    let place = |bend: Bend| match bend.shape {
        BendShape::Kink(at) => Some(at),
        BendShape::Even => None,
    };
    let bends = [plank.bow, plank.crook];
    bends.into_iter().flatten().filter_map(place)
}

/// A plank held against what is wanted of it.
#[derive(Clone, Copy)]
pub(super) struct Candidate<'a> {
    pub(super) plank: &'a Plank,
    pub(super) wanted: &'a Wanted,
    pub(super) as_cut: &'a AsCut,
    pub(super) body: &'a Body,
}

/// The slab in a part cut first and flattened after.
#[derive(Clone, Copy)]
pub(super) struct InPart {
    pub(super) thickness: Length,
    /// Whether a cut falls on each kink of the plank: it has some, and holds parts beside them.
    pub(super) at_kinks: bool,
}

impl Candidate<'_> {
    /// The slab in a part, or why there is none.
    pub(super) fn in_part(&self) -> Result<InPart, Known> {
        self.as_cut.in_part.ok_or_else(|| self.why_no_slab())
    }

    /// The slabs in a part, with and without a cut on a kink, or why there are none.
    pub(super) fn slabs(&self) -> Result<CutFirst, Known> {
        let slabs = self.as_cut.slabs(self.wanted);
        slabs.ok_or_else(|| self.why_no_slab())
    }

    fn why_no_slab(&self) -> Known {
        let Self { plank, wanted, .. } = self;
        if plank.length.is_none() {
            return Known::NotLooked(NO_LENGTH);
        }
        if plank.thicknesses.least().is_none() {
            return Known::NotLooked(NO_THICKNESS);
        }
        match slab_losses_worked(&mut Silent, plank, wanted.piece(), wanted.planing) {
            Err(why) => Known::Cannot(why.into()),
            Ok(_) => Known::NotLooked("bow, twist and cup not looked at"),
        }
    }

    /// The thickness of slab that parts are counted in, as far as it is known, and whether its kinks are
    /// cut at. Shapes that were not looked at cost nothing here and are named by the straightness.
    pub(super) fn cut(&self) -> Result<(Length, bool), Known> {
        let plank = self.plank;
        if plank.length.is_none() {
            return Err(Known::NotLooked(NO_LENGTH));
        }
        if plank.widths.least().is_none() {
            return Err(Known::NotLooked("width not looked at"));
        }
        if let Some(part) = self.as_cut.in_part {
            return Ok((part.thickness, part.at_kinks));
        }
        let thickness = plank.thicknesses.least();
        let thickness = thickness.ok_or(Known::NotLooked(NO_THICKNESS))?;
        Ok(match no_shape_looked_at(plank) {
            true => (thickness - self.wanted.planing * 2.0, false),
            // The part is larger than the plank: it holds none.
            false => (mm(0.0), false),
        })
    }
}

pub(super) const NO_LENGTH: &str = "length not looked at";
const NO_THICKNESS: &str = "thickness not looked at";

/// Works something out for a plank as it was measured.
pub(super) fn as_measured<T>(
    plank: &Plank,
    zones: &[Place],
    wanted: &Wanted,
    of: impl FnOnce(&Candidate<'_>) -> T,
) -> T {
    of(&Candidate {
        plank,
        wanted,
        as_cut: &AsCut::of(plank, zones, wanted),
        body: &Body::of(plank),
    })
}

/// Looks at qualities of a plank: what each comes to. What each input adds to the uncertainty of each goes
/// to `add`, as [`crate::quantity::propagate`] has it.
pub(super) fn look(
    plank: &Plank,
    zones: &[Place],
    inputs: &[Input<Source>],
    wanted: &Wanted,
    qualities: Qualities,
    add: impl FnMut(Quality, Source, f64),
) -> [Known; Quality::COUNT] {
    let whole = !qualities.without(Qualities::DEPENDING_ON_CUT).is_empty();
    let as_cut = &AsCut::of(plank, zones, wanted);
    let body = &match whole {
        true => Body::of(plank),
        false => Body::default(),
    };
    let measured = Candidate {
        plank,
        wanted,
        as_cut,
        body,
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
        above: Nudged::of(&measured),
        below: Nudged::of(&measured),
        measured,
        zones,
        whole,
        add,
    };
    for input in inputs {
        moving.take(*input);
    }
    known
}

/// The qualities of a plank, and what moves them as one source after another reads more and less.
struct Moving<'a, F> {
    measured: Candidate<'a>,
    zones: &'a [Place],
    /// Whether more is asked than what depends on the cut.
    whole: bool,
    /// Of what each quality comes to, as far as it has a value.
    values: [f64; Quality::COUNT],
    valued: Qualities,
    above: Nudged,
    below: Nudged,
    add: F,
}

impl<F: FnMut(Quality, Source, f64)> Moving<'_, F> {
    /// What an input adds to the uncertainty of each quality. The code is compiled for each source by itself,
    /// in which what the source moves is settled and costs no question.
    fn take(&mut self, Input { source, standard }: Input<Source>) {
        macro_rules! by_itself {
            ($($each:ident)*) => {
                match source {
                    $(Source::$each => self.take_of(Source::$each, standard),)*
                }
            };
        }
        by_itself!(
            Length Width Thickness Scale Bearer Meter Temperature Bow Crook Twist Cup GrainFace GrainEdge
            Rings
        );
    }

    #[inline(always)]
    fn take_of(&mut self, source: Source, standard: f64) {
        let measured = &self.measured;
        let may_be_moved = Qualities::may_be_moved_by(source);
        let moved = Qualities::moved_by(source, measured.plank).and(self.valued);
        if moved.is_empty() {
            return;
        }
        let above = self
            .above
            .by(source, standard, measured, self.zones, self.whole);
        let below = self
            .below
            .by(source, -standard, measured, self.zones, self.whole);
        macro_rules! each_by_itself {
            ($($each:ident)*) => {
                $(if may_be_moved.hold(Quality::$each) && moved.hold(Quality::$each) {
                    let quality = Quality::$each;
                    let value = self.values[quality as usize];
                    let part = part(value, quality.number(&above), quality.number(&below));
                    (self.add)(quality, source, part);
                })*
                // None is left out.
                const _: fn(Quality) = |quality| match quality {
                    $(Quality::$each => (),)*
                };
            };
        }
        each_by_itself!(Straightness Crook Density GrainSlope RingAngle Moisture Size);
        self.above.put_back(source, measured, self.whole);
        self.below.put_back(source, measured, self.whole);
    }
}

/// A plank as it would be had one source read more or less.
struct Nudged {
    plank: Plank,
    as_cut: AsCut,
    body: Body,
}

impl Nudged {
    fn of(measured: &Candidate<'_>) -> Self {
        Self {
            plank: measured.plank.bare(),
            as_cut: *measured.as_cut,
            body: *measured.body,
        }
    }

    /// Had a source read so much more.
    #[inline(always)]
    fn by<'a>(
        &'a mut self,
        source: Source,
        by: f64,
        measured: &Candidate<'a>,
        zones: &[Place],
        whole: bool,
    ) -> Candidate<'a> {
        self.plank.nudge(source, by);
        if AS_CUT.hold(source) {
            self.as_cut
                .again(source, &self.plank, zones, measured.wanted);
        }
        if whole && Body::MOVED_BY.hold(source) {
            self.body.again(source, &self.plank);
        }
        Candidate {
            plank: &self.plank,
            wanted: measured.wanted,
            as_cut: &self.as_cut,
            body: &self.body,
        }
    }

    /// Takes back what a source moved.
    #[inline(always)]
    fn put_back(&mut self, source: Source, measured: &Candidate<'_>, whole: bool) {
        self.plank.put_back(source, measured.plank);
        if AS_CUT.hold(source) {
            self.as_cut.put_back(source, measured.as_cut);
        }
        if whole && Body::MOVED_BY.hold(source) {
            self.body.put_back(source, measured.body);
        }
    }
}
