//! A plank held against what is wanted of it: what its qualities share is worked out once, and as one
//! reading moves, only what it moves is worked out anew.
//!
//! It judges nothing, and holds no formula.

use super::body::Body;
use super::{Known, Laid, Spec};
use crate::neck::{Cutting, Place, count_across, count_along, count_held};
use crate::plank::{
    Bend, BendShape, CutFirst, Plank, SlabTerms, Source, Sources, slab_losses_worked,
};
use crate::quantity::{Length, Silent, mm};

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

/// What the qualities of a plank that depend on the cut are worked out of. It holds values alone, for they
/// are found many times for one verdict; why there is none is found out where it is asked.
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
const IN_PART: Sources = SlabTerms::THICKNESS
    .with(SlabTerms::BOW)
    .with(SlabTerms::TWIST)
    .with(SlabTerms::CUP);

impl AsCut {
    /// What moves any of it.
    pub(super) const MOVED_BY: Sources = IN_PART.with(ALONG).with(ACROSS);

    pub(super) fn of(plank: &Plank, zones: &[Place], wanted: &Wanted) -> Self {
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
    pub(super) fn again(
        &mut self,
        source: Source,
        plank: &Plank,
        zones: &[Place],
        wanted: &Wanted,
    ) {
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
    pub(super) fn put_back(&mut self, source: Source, as_measured: &Self) {
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

    /// How many parts it holds, as far as its sizes and shapes are known.
    pub(super) fn parts(&self) -> Option<u32> {
        // Where there is a slab in a part there is a length, and where strips were counted a width.
        let (slab, at_kinks) = match self.as_cut.in_part {
            Some(part) => (part.thickness, part.at_kinks),
            None => self.cut().ok()?,
        };
        self.as_cut.count(self.wanted, slab, at_kinks)
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
