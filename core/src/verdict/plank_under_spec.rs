//! A plank under a spec: what each criterion comes to.
//!
//! One function for each criterion, from the description of the plank and the spec to a number in the unit of
//! the criterion. What was not looked at gives no number, or a bound that is named as one. It holds no
//! formula, and judges nothing.

use super::criterion::crook_is_kinked;
use super::value::{Bound, Unworkable};
use super::{Criterion, CriterionValue, Orientation, Spec};
use crate::neck::{CutSpec, PartCount, Place, Zones, count_parts, zones_to_cut_round};
use crate::plank::{
    AtLeast, Bend, BendShape, CutFirst, FormError, GrainSlope, Plank, PlankDensityError, Slab,
    WeighingError, bend_left, density_as_measured, grain_slope, ring_angle_at, slab_cut_first,
    turned_on_edge,
};
use crate::quantity::{
    Length, Moisture, Trace, TraceOff, celsius, in_degrees, in_kg_per_m3, in_mm, mm,
};
use crate::wood::{CALIBRATION_CELSIUS, density_at_12, meter_corrected};

/// A plank, and what its criteria take from a spec.
#[derive(Clone, Copy)]
pub(super) struct PlankUnderSpec<'a> {
    pub(super) plank: &'a Plank,
    /// The stretches of it to cut round.
    pub(super) zones: &'a Zones,
    pub(super) cut: &'a CutSpec,
    pub(super) orientation: Orientation,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SlabCounted {
    /// That with the bend inside: an even bend, none, or a kink that no part can be cut beside.
    BendInside,
    /// That with a cut on the kink: its place is known, and the plank still holds a part beside it.
    CutOnKink,
}

/// The straight slab in what is sawn first, and which counts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CountedSlab {
    /// With the bend inside, and with a cut on the kink.
    pub both: CutFirst,
    pub counted: SlabCounted,
}

impl CountedSlab {
    pub fn slab(&self) -> Slab {
        match self.counted {
            SlabCounted::BendInside => self.both.bend_inside,
            SlabCounted::CutOnKink => self.both.cut_on_kink,
        }
    }
}

const NO_LENGTH: &str = "length not looked at";
const NO_WIDTH: &str = "width not looked at";
const NO_THICKNESS: &str = "thickness not looked at";
const NO_MOISTURE: &str = "moisture not looked at";
const NO_SHAPE: &str = "bow, twist and cup not looked at";

impl CriterionValue {
    fn cannot(why: impl Into<super::Unworkable>) -> Self {
        CriterionValue::Cannot(why.into())
    }
}

impl<'a> PlankUnderSpec<'a> {
    /// Another plank under the same spec.
    pub(super) fn with<'b>(&self, plank: &'b Plank) -> PlankUnderSpec<'b>
    where
        'a: 'b,
    {
        PlankUnderSpec { plank, ..*self }
    }

    pub(super) fn value(&self, criterion: Criterion) -> CriterionValue {
        let number = match criterion {
            Criterion::Straightness => self.slab().map(|slab| in_mm(slab.slab().thickness)),
            Criterion::Crook => self.crook(),
            Criterion::Density => self.density(),
            Criterion::GrainSlope => self.grain().map(|slope| slope.at_least().in_tangent()),
            Criterion::RingAngle => self.rings(),
            Criterion::Moisture => moisture(&mut TraceOff, self.plank).map(Moisture::in_percent),
            Criterion::Size => self.parts().map(|count| f64::from(count.parts)),
        };
        match number {
            Ok(value) => match self.bound(criterion) {
                Some(why) => CriterionValue::AtBest(value, why),
                None => CriterionValue::Value(value),
            },
            Err(none) => none,
        }
    }

    /// Why a criterion's number is only the best that it can be.
    fn bound(&self, criterion: Criterion) -> Option<Bound> {
        let plank = self.plank;
        match criterion {
            Criterion::Straightness => {
                // Across a part that is sawn by itself and turned on edge the cup is next to nothing.
                let cup_counts = self.orientation == Orientation::Flat || self.cut.piece.is_some();
                let by_eye = self.open_shapes(cup_counts);
                Bound::of(shapes_not_looked_at(plank, cup_counts), by_eye)
            }
            Criterion::Crook if self.crook_is_cut_at() => None,
            Criterion::Crook => Bound::of(
                None,
                AtLeast {
                    crook: plank.at_least.crook,
                    ..AtLeast::default()
                },
            ),
            Criterion::GrainSlope => self.bound_of_grain(),
            Criterion::Size => Bound::of(None, self.open_shapes(true)),
            Criterion::Density | Criterion::RingAngle | Criterion::Moisture => None,
        }
    }

    /// The slab in what is sawn first and flattened after. A kink whose place is known is cut at, and costs
    /// nothing, wherever the plank still holds a part beside it; else it counts as inside.
    pub(super) fn slab(&self) -> Result<CountedSlab, CriterionValue> {
        let (plank, cut) = (self.plank, self.cut);
        if plank.length.is_none() {
            return Err(CriterionValue::NotLooked(NO_LENGTH));
        }
        if plank.thicknesses.least().is_none() {
            return Err(CriterionValue::NotLooked(NO_THICKNESS));
        }
        let both = slab_cut_first(plank, cut.length, cut.flattened_width(), cut.planing)
            .map_err(CriterionValue::cannot)?;
        if no_shape_looked_at(plank) {
            return Err(CriterionValue::NotLooked(NO_SHAPE));
        }
        let beside_kinks = kinks(plank).next().is_some()
            && self
                .count(both.cut_on_kink.thickness, SlabCounted::CutOnKink)
                .is_ok_and(|count| count.parts > 0);
        let counted = match beside_kinks {
            true => SlabCounted::CutOnKink,
            false => SlabCounted::BendInside,
        };
        Ok(CountedSlab { both, counted })
    }

    /// The parts that the plank holds, as far as its sizes and shapes are known. Shapes that were not looked
    /// at cost nothing here and are named by the straightness.
    pub(super) fn parts(&self) -> Result<PartCount, CriterionValue> {
        let plank = self.plank;
        if plank.length.is_none() {
            return Err(CriterionValue::NotLooked(NO_LENGTH));
        }
        if plank.widths.least().is_none() {
            return Err(CriterionValue::NotLooked(NO_WIDTH));
        }
        let least = plank.thicknesses.least();
        let least = least.ok_or(CriterionValue::NotLooked(NO_THICKNESS))?;
        let (slab, counted) = match self.slab() {
            Ok(slab) => (slab.slab().thickness, slab.counted),
            Err(_) if no_shape_looked_at(plank) => {
                (least - self.cut.planing * 2.0, SlabCounted::BendInside)
            }
            Err(CriterionValue::Cannot(Unworkable::Form(FormError::PieceTooLarge { .. }))) => {
                // What is sawn first is larger than the plank: it holds none.
                (mm(0.0), SlabCounted::BendInside)
            }
            Err(why) => return Err(why),
        };
        self.count(slab, counted)
    }

    fn count(&self, slab: Length, counted: SlabCounted) -> Result<PartCount, CriterionValue> {
        let mut zones = self.zones.clone();
        if counted == SlabCounted::CutOnKink {
            let cuts = kinks(self.plank).map(|at| Place { from: at, to: at });
            zones.places.extend(cuts);
        }
        count_parts(self.plank, self.cut, slab, zones).map_err(CriterionValue::cannot)
    }

    fn crook(&self) -> Result<f64, CriterionValue> {
        let plank = self.plank;
        let crook = plank.crook.as_ref();
        let crook = crook.ok_or(CriterionValue::NotLooked("crook not looked at"))?;
        let length = plank.length.ok_or(CriterionValue::NotLooked(NO_LENGTH))?;
        let left = bend_left(&mut TraceOff, crook, length, self.cut.length)
            .map_err(CriterionValue::cannot)?;
        Ok(in_mm(match self.crook_is_cut_at() {
            true => left.cut_on_it,
            false => left.inside,
        }))
    }

    /// Whether a cut falls on a kink in the crook. An even curve leaves the same wherever it is cut.
    fn crook_is_cut_at(&self) -> bool {
        crook_is_kinked(self.plank) && self.is_cut_on_kink()
    }

    fn is_cut_on_kink(&self) -> bool {
        self.slab()
            .is_ok_and(|slab| slab.counted == SlabCounted::CutOnKink)
    }

    /// The shapes that the eye gave no upper end to. A kinked bow that is cut at costs nothing, however large it is.
    fn open_shapes(&self, cup_counts: bool) -> AtLeast {
        let AtLeast {
            bow, twist, cup, ..
        } = self.plank.at_least;
        let is_kink = |bow: Bend| bow.shape != BendShape::Even;
        let cut_at = || self.plank.bow.is_some_and(is_kink) && self.is_cut_on_kink();
        AtLeast {
            bow: bow && !cut_at(),
            twist,
            cup: cup && cup_counts,
            ..AtLeast::default()
        }
    }

    fn density(&self) -> Result<f64, CriterionValue> {
        let measured = density_as_measured(&mut TraceOff, self.plank).map_err(|why| match why {
            PlankDensityError::Weighing(WeighingError::NotWeighed) => {
                CriterionValue::NotLooked("weight not looked at")
            }
            why => CriterionValue::cannot(why),
        })?;
        let moisture = moisture(&mut TraceOff, self.plank).map_err(|none| match none {
            CriterionValue::NotLooked(_) => {
                CriterionValue::NotLooked("moisture not looked at: densities are compared at 12 %")
            }
            none => none,
        })?;
        density_at_12(measured, moisture)
            .map(in_kg_per_m3)
            .map_err(CriterionValue::cannot)
    }

    fn grain(&self) -> Result<GrainSlope, CriterionValue> {
        let not_looked = CriterionValue::NotLooked("slope of grain not looked at");
        grain_slope(self.plank.grain_face, self.plank.grain_edge).ok_or(not_looked)
    }

    fn bound_of_grain(&self) -> Option<Bound> {
        let one_face = |not_looked| Bound::of(Some(not_looked), AtLeast::default());
        match self.grain().ok()? {
            GrainSlope::AtLeastFace(_) => one_face("edge not looked at"),
            GrainSlope::AtLeastEdge(_) => one_face("face not looked at"),
            GrainSlope::Combined(_) => Bound::of(
                None,
                AtLeast {
                    grain_face: self.plank.at_least.grain_face,
                    grain_edge: self.plank.at_least.grain_edge,
                    ..AtLeast::default()
                },
            ),
        }
    }

    /// The ring angle of a part as it will stand in the blank: turned on edge or as it lies. For rings read
    /// as an arc, at mid-width.
    fn rings(&self) -> Result<f64, CriterionValue> {
        let rings = self.plank.rings.as_ref();
        let rings = rings.ok_or(CriterionValue::NotLooked("rings not looked at"))?;
        ring_angle_at(&mut TraceOff, rings, mm(0.0))
            .and_then(|angle| match self.orientation {
                Orientation::Flat => Ok(angle),
                Orientation::OnEdge => turned_on_edge(&mut TraceOff, angle),
            })
            .map(in_degrees)
            .map_err(CriterionValue::cannot)
    }
}

/// The parts that a plank holds, as far as its straight slab is known.
pub fn parts_held(plank: &Plank, spec: &Spec) -> Result<PartCount, CriterionValue> {
    let cut = &spec.cut_spec();
    let zones = &zones_to_cut_round(&plank.defects);
    let orientation = spec.orientation;
    let under = PlankUnderSpec {
        plank,
        zones,
        cut,
        orientation,
    };
    under.parts()
}

fn shapes_not_looked_at(plank: &Plank, cup_counts: bool) -> Option<&'static str> {
    let not_looked = [
        plank.bow.is_none(),
        plank.twist.is_none(),
        plank.cup.is_none() && cup_counts,
    ];
    match not_looked {
        [false, false, false] => None,
        [true, false, false] => Some("bow not looked at"),
        [false, true, false] => Some("twist not looked at"),
        [false, false, true] => Some("cup not looked at"),
        [true, true, false] => Some("bow and twist not looked at"),
        [true, false, true] => Some("bow and cup not looked at"),
        [false, true, true] => Some("twist and cup not looked at"),
        [true, true, true] => Some("bow, twist and cup not looked at"),
    }
}

fn no_shape_looked_at(plank: &Plank) -> bool {
    plank.bow.is_none() && plank.twist.is_none() && plank.cup.is_none()
}

fn kinks(plank: &Plank) -> impl Iterator<Item = Length> {
    let place = |bend: Bend| match bend.shape {
        BendShape::Kink(at) => Some(at),
        BendShape::Even => None,
    };
    let bends = [plank.bow, plank.crook];
    bends.into_iter().flatten().filter_map(place)
}

/// The moisture of the wood: what the meter shows, corrected for the wood's temperature where that was
/// taken.
pub fn moisture(trace: &mut impl Trace, plank: &Plank) -> Result<Moisture, CriterionValue> {
    let meter = plank.meter.ok_or(CriterionValue::NotLooked(NO_MOISTURE))?;
    let calibrated = celsius(CALIBRATION_CELSIUS);
    meter_corrected(
        trace,
        meter.shown,
        meter.wood.unwrap_or(calibrated),
        calibrated,
    )
    .map_err(CriterionValue::cannot)
}
