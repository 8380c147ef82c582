//! What each quality of a plank comes to, and what has to be measured for it.
//!
//! One function for each quality, from the description of the plank and the spec to a number in the
//! unit of the criterion. What was not looked at gives no number, or a bound that is named as one.

use super::body::{MASS, MOISTURE, VOLUME};
use super::candidate::{Candidate, NO_LENGTH, Wanted, as_measured, kinks};
use super::known::Bound;
use super::{Known, Laid, Quality, Spec};
use crate::neck::{Held, held, zones_to_cut_round};
use crate::plank::{
    AtLeast, BendShape, DensityError, GrainSlope, Plank, Slab, Source, Sources, bend_left,
    density_worked, grain_slope, ring_angle_at, turned_on_edge,
};
use crate::quantity::{Moisture, Pen, Silent, celsius, in_degrees, in_kg_per_m3, in_mm, mm};
use crate::wood::{CALIBRATION_CELSIUS, density_at_12, meter_corrected_worked};

impl Quality {
    /// All qualities, in the order in which they are shown.
    pub const ALL: &'static [Quality] = &[
        Quality::Straightness,
        Quality::Crook,
        Quality::GrainSlope,
        Quality::RingAngle,
        Quality::Density,
        Quality::Moisture,
        Quality::Size,
    ];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Quality::Straightness => "straight slab",
            Quality::Crook => "crook",
            Quality::Density => "density at 12 %",
            Quality::GrainSlope => "slope of grain",
            Quality::RingAngle => "ring angle",
            Quality::Moisture => "moisture",
            Quality::Size => "size",
        }
    }

    /// The unit of its values and limits; nothing for a slope or a count.
    pub fn unit(self) -> &'static str {
        match self {
            Quality::Straightness | Quality::Crook => "mm",
            Quality::Density => "kg/m³",
            Quality::RingAngle => "°",
            Quality::Moisture => "%",
            Quality::GrainSlope | Quality::Size => "",
        }
    }

    /// The measurements that move it.
    pub(super) fn sources(self, plank: &Plank) -> Sources {
        self.sources_if(crook_is_kinked(plank))
    }

    /// The measurements that move it, in a plank whose crook is a kink or is none.
    pub(super) const fn sources_if(self, kinked: bool) -> Sources {
        use Source::*;
        const SLAB: Sources = Sources::of(&[Length, Width, Thickness, Bow, Twist, Cup]);
        const CROOK: Sources = Sources::of(&[Length, Crook]);
        const DENSITY: Sources = MASS.with(VOLUME).with(MOISTURE);
        const GRAIN: Sources = Sources::of(&[GrainFace, GrainEdge]);
        const RINGS: Sources = Sources::of(&[Rings]);
        match self {
            Quality::Straightness | Quality::Size => SLAB,
            // Whether a kink is cut at hangs on the slab.
            Quality::Crook if kinked => CROOK.with(SLAB),
            Quality::Crook => CROOK,
            Quality::Density => DENSITY,
            Quality::GrainSlope => GRAIN,
            Quality::RingAngle => RINGS,
            Quality::Moisture => MOISTURE,
        }
    }

    /// Whether it is another under another part, or another way of cutting it out.
    pub(super) const fn depends_on_cut(self) -> bool {
        match self {
            Quality::Straightness | Quality::Crook | Quality::RingAngle | Quality::Size => true,
            Quality::Density | Quality::GrainSlope | Quality::Moisture => false,
        }
    }

    /// What it comes to for a plank under a spec.
    pub fn of(self, plank: &Plank, spec: &Spec) -> Known {
        with_candidate(plank, spec, |candidate| self.known(candidate))
    }

    pub(super) fn known(self, candidate: &Candidate<'_>) -> Known {
        match self.valued(candidate) {
            Ok(value) => match self.bound(candidate) {
                Some(why) => Known::AtBest(value, why),
                None => Known::Value(value),
            },
            Err(known) => known,
        }
    }

    /// Its value or the best that it can be; `None` where there is none.
    #[inline(always)]
    pub(super) fn number(self, candidate: &Candidate<'_>) -> Option<f64> {
        self.valued(candidate).ok()
    }

    /// Its value or the best that it can be, or why there is none.
    #[inline(always)]
    fn valued(self, candidate: &Candidate<'_>) -> Result<f64, Known> {
        match self {
            Quality::Straightness => Ok(in_mm(candidate.in_part()?.thickness)),
            Quality::Crook => crook(candidate),
            Quality::Density => density(candidate),
            Quality::GrainSlope => {
                grain(candidate.plank).map(|slope| slope.at_least().in_tangent())
            }
            Quality::RingAngle => rings(candidate.plank, candidate.wanted.laid),
            Quality::Moisture => Ok(candidate.body.moisture(candidate.plank)?.in_percent()),
            Quality::Size => size(candidate),
        }
    }

    /// Why its number is only the best that it can be.
    fn bound(self, candidate: &Candidate<'_>) -> Option<Bound> {
        let plank = candidate.plank;
        match self {
            Quality::Straightness => {
                // Across a strip that is turned on edge the cup is next to nothing.
                let cup_counts = candidate.wanted.laid == Laid::Flat;
                let by_eye = open_shapes(plank, cup_counts);
                Bound::of(shapes_not_looked_at(plank, cup_counts), by_eye)
            }
            Quality::Crook if cut_at_kink(candidate) => None,
            Quality::Crook => Bound::of(
                None,
                AtLeast {
                    crook: plank.at_least.crook,
                    ..AtLeast::default()
                },
            ),
            Quality::GrainSlope => bound_of_grain(plank),
            Quality::Size => Bound::of(None, open_shapes(plank, true)),
            Quality::Density | Quality::RingAngle | Quality::Moisture => None,
        }
    }
}

fn with_candidate<T>(plank: &Plank, spec: &Spec, of: impl FnOnce(&Candidate<'_>) -> T) -> T {
    let zones = zones_to_cut_round(&plank.defects).places;
    as_measured(plank, &zones, &Wanted::of(spec), of)
}

const NO_MOISTURE: &str = "moisture not looked at";

/// The slab in a part cut first and flattened after; a kink whose place is known is cut at, wherever the
/// plank still holds a part beside it.
pub fn slab_in_part(plank: &Plank, spec: &Spec) -> Result<Slab, Known> {
    with_candidate(plank, spec, |candidate| {
        let part = candidate.in_part()?;
        let slabs = candidate.slabs()?;
        Ok(match part.at_kinks {
            true => slabs.cut_on_kink,
            false => slabs.bend_inside,
        })
    })
}

/// The parts that a plank holds, as far as its straight slab is known.
pub fn parts_held(plank: &Plank, spec: &Spec) -> Result<Held, Known> {
    with_candidate(plank, spec, held_in)
}

fn held_in(candidate: &Candidate<'_>) -> Result<Held, Known> {
    let (slab, at_kinks) = candidate.cut()?;
    let plank = candidate.plank;
    let cuts_at: Vec<_> = kinks(plank).filter(|_| at_kinks).collect();
    held(plank, &candidate.wanted.cutting, slab, &cuts_at).map_err(|why| Known::Cannot(why.into()))
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

/// The shapes that the eye gave no upper end to.
fn open_shapes(plank: &Plank, cup_counts: bool) -> AtLeast {
    let AtLeast {
        bow, twist, cup, ..
    } = plank.at_least;
    AtLeast {
        bow,
        twist,
        cup: cup && cup_counts,
        ..AtLeast::default()
    }
}

fn crook(candidate: &Candidate<'_>) -> Result<f64, Known> {
    let plank = candidate.plank;
    let crook = plank.crook.as_ref();
    let crook = crook.ok_or(Known::NotLooked("crook not looked at"))?;
    let length = plank.length.ok_or(Known::NotLooked(NO_LENGTH))?;
    let left = bend_left(crook, length, candidate.wanted.cutting.length)
        .map_err(|why| Known::Cannot(why.into()))?;
    Ok(in_mm(match cut_at_kink(candidate) {
        true => left.cut_on_it,
        false => left.inside,
    }))
}

/// Whether a cut falls on a kink in the crook. An even curve leaves the same wherever it is cut.
fn cut_at_kink(candidate: &Candidate<'_>) -> bool {
    crook_is_kinked(candidate.plank) && candidate.as_cut.in_part.is_some_and(|part| part.at_kinks)
}

pub(super) fn crook_is_kinked(plank: &Plank) -> bool {
    plank
        .crook
        .is_some_and(|crook| crook.shape != BendShape::Even)
}

/// The moisture of the wood: what the meter shows, corrected for the wood's temperature where that was
/// taken.
pub fn moisture(plank: &Plank) -> Result<Moisture, Known> {
    moisture_worked(&mut Silent, plank)
}

/// [`moisture`], with its step.
pub(super) fn moisture_worked(pen: &mut impl Pen, plank: &Plank) -> Result<Moisture, Known> {
    let meter = plank.meter.ok_or(Known::NotLooked(NO_MOISTURE))?;
    let calibrated = celsius(CALIBRATION_CELSIUS);
    meter_corrected_worked(
        pen,
        meter.shown,
        meter.wood.unwrap_or(calibrated),
        calibrated,
    )
    .map_err(|why| Known::Cannot(why.into()))
}

fn density(candidate: &Candidate<'_>) -> Result<f64, Known> {
    let (plank, body) = (candidate.plank, candidate.body);
    let (mass, volume) = match (body.mass(plank), body.volume(plank)) {
        (Err(DensityError::NotWeighed), _) => {
            return Err(Known::NotLooked("weight not looked at"));
        }
        (Err(why), _) | (_, Err(why)) => return Err(Known::Cannot(why.into())),
        (Ok(mass), Ok(volume)) => (mass, volume),
    };
    let moisture = body.moisture(plank).map_err(|known| match known {
        Known::NotLooked(_) => {
            Known::NotLooked("moisture not looked at: densities are compared at 12 %")
        }
        known => known,
    })?;
    density_at_12(density_worked(&mut Silent, mass, volume), moisture)
        .map(in_kg_per_m3)
        .map_err(|why| Known::Cannot(why.into()))
}

fn grain(plank: &Plank) -> Result<GrainSlope, Known> {
    let not_looked = Known::NotLooked("slope of grain not looked at");
    grain_slope(plank.grain_face, plank.grain_edge).ok_or(not_looked)
}

fn bound_of_grain(plank: &Plank) -> Option<Bound> {
    let one_face = |not_looked| Bound::of(Some(not_looked), AtLeast::default());
    match grain(plank).ok()? {
        GrainSlope::AtLeastFace(_) => one_face("edge not looked at"),
        GrainSlope::AtLeastEdge(_) => one_face("face not looked at"),
        GrainSlope::Combined(_) => Bound::of(
            None,
            AtLeast {
                grain_face: plank.at_least.grain_face,
                grain_edge: plank.at_least.grain_edge,
                ..AtLeast::default()
            },
        ),
    }
}

/// The ring angle of a part as it will stand in the blank: turned on edge or as it lies. For rings read
/// as an arc, at mid-width.
fn rings(plank: &Plank, laid: Laid) -> Result<f64, Known> {
    let rings = plank.rings.as_ref();
    let rings = rings.ok_or(Known::NotLooked("rings not looked at"))?;
    ring_angle_at(rings, mm(0.0))
        .and_then(|angle| match laid {
            Laid::Flat => Ok(angle),
            Laid::OnEdge => turned_on_edge(angle),
        })
        .map(in_degrees)
        .map_err(|why| Known::Cannot(why.into()))
}

fn size(candidate: &Candidate<'_>) -> Result<f64, Known> {
    let parts = match candidate.parts() {
        Some(parts) => Ok(parts),
        None => counted(candidate),
    };
    parts.map(f64::from)
}

/// The parts counted out, or why they can't be.
#[cold]
#[inline(never)]
fn counted(candidate: &Candidate<'_>) -> Result<u32, Known> {
    held_in(candidate).map(|held| held.parts)
}
