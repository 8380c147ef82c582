//! What each quality of a plank comes to, and what has to be measured for it.
//!
//! One function for each quality, from the description of the plank and the spec to a number in the
//! unit of the criterion. What was not looked at gives no number, or a bound that is named as one.

use super::candidate::{Candidate, NO_LENGTH, Wanted, as_measured, kinks};
use super::{Known, Laid, Quality, Spec};
use crate::neck::{Held, held, zones_to_cut_round};
use crate::plank::{
    AtLeast, BendShape, DensityError, GrainSlope, Plank, Slab, Source, Sources, bend_left,
    density_worked, grain_slope, ring_angle_at, turned_on_edge,
};
use crate::quantity::{Moisture, Pen, Silent, Slope, celsius, in_degrees, in_kg_per_m3, in_mm, mm};
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
    pub(super) const fn sources(self) -> Sources {
        use Source::*;
        const SLAB: Sources = Sources::of(&[Length, Width, Thickness, Bow, Twist, Cup]);
        // Whether a kink is cut at hangs on the slab.
        const CROOK: Sources = SLAB.with(Sources::of(&[Crook]));
        const DENSITY: Sources =
            Sources::of(&[Length, Width, Thickness, Scale, Bearer, Meter, Temperature]);
        const GRAIN: Sources = Sources::of(&[GrainFace, GrainEdge]);
        const RINGS: Sources = Sources::of(&[Rings]);
        const MOISTURE: Sources = Sources::of(&[Meter, Temperature]);
        match self {
            Quality::Straightness | Quality::Size => SLAB,
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
        with_candidate(plank, spec, |candidate| self.of_candidate(candidate))
    }

    pub(super) fn of_candidate(self, candidate: &Candidate<'_>) -> Known {
        let plank = candidate.plank;
        match self {
            Quality::Straightness => straightness(candidate),
            Quality::Crook => crook(candidate),
            Quality::Density => density(candidate),
            Quality::GrainSlope => grain(plank),
            Quality::RingAngle => rings(plank, candidate.wanted.laid),
            Quality::Moisture => match candidate.worked.moisture {
                Ok(moisture) => Known::Value(moisture.in_percent()),
                Err(known) => known,
            },
            Quality::Size => size(candidate),
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
        let part = candidate.worked.in_part?;
        let slabs = candidate.worked.slabs(candidate.wanted)?;
        Ok(match part.at_kinks {
            true => slabs.cut_on_kink,
            false => slabs.bend_inside,
        })
    })
}

/// The parts that a plank holds, as far as its straight slab is known.
pub fn parts_held(plank: &Plank, spec: &Spec) -> Result<Held, Known> {
    with_candidate(plank, spec, |candidate| {
        let (slab, at_kinks) = candidate.cut()?;
        let cuts_at = if at_kinks { kinks(plank) } else { Vec::new() };
        held(plank, &candidate.wanted.cutting, slab, &cuts_at)
            .map_err(|why| Known::Cannot(why.into()))
    })
}

fn straightness(candidate: &Candidate<'_>) -> Known {
    let left = match candidate.worked.in_part {
        Ok(part) => in_mm(part.thickness),
        Err(known) => return known,
    };
    let plank = candidate.plank;
    // Across a strip that is turned on edge the cup is next to nothing.
    let cup_counts = candidate.wanted.laid == Laid::Flat;
    let not_looked = [
        plank.bow.is_none(),
        plank.twist.is_none(),
        plank.cup.is_none() && cup_counts,
    ];
    let not_looked = match not_looked {
        [false, false, false] => None,
        [true, false, false] => Some("bow not looked at"),
        [false, true, false] => Some("twist not looked at"),
        [false, false, true] => Some("cup not looked at"),
        [true, true, false] => Some("bow and twist not looked at"),
        [true, false, true] => Some("bow and cup not looked at"),
        [false, true, true] => Some("twist and cup not looked at"),
        [true, true, true] => Some("bow, twist and cup not looked at"),
    };
    Known::at_best(left, not_looked, open_shapes(plank, cup_counts))
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

fn crook(candidate: &Candidate<'_>) -> Known {
    let plank = candidate.plank;
    let Some(crook) = &plank.crook else {
        return Known::NotLooked("crook not looked at");
    };
    let Some(length) = plank.length else {
        return Known::NotLooked(NO_LENGTH);
    };
    let open = AtLeast {
        crook: plank.at_least.crook,
        ..AtLeast::default()
    };
    match bend_left(crook, length, candidate.wanted.cutting.length) {
        // An even curve leaves the same wherever it is cut.
        Ok(left) if crook.shape == BendShape::Even => {
            Known::at_best(in_mm(left.inside), None, open)
        }
        Ok(left) => {
            let at_kinks = candidate.worked.in_part.is_ok_and(|part| part.at_kinks);
            match at_kinks {
                true => Known::Value(in_mm(left.cut_on_it)),
                false => Known::at_best(in_mm(left.inside), None, open),
            }
        }
        Err(why) => Known::Cannot(why.into()),
    }
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

fn density(candidate: &Candidate<'_>) -> Known {
    let worked = candidate.worked;
    let (mass, volume) = match (worked.mass, worked.volume) {
        (Err(DensityError::NotWeighed), _) => return Known::NotLooked("weight not looked at"),
        (Err(why), _) | (_, Err(why)) => return Known::Cannot(why.into()),
        (Ok(mass), Ok(volume)) => (mass, volume),
    };
    let moisture = match worked.moisture {
        Ok(moisture) => moisture,
        Err(Known::NotLooked(_)) => {
            return Known::NotLooked("moisture not looked at: densities are compared at 12 %");
        }
        Err(known) => return known,
    };
    match density_at_12(density_worked(&mut Silent, mass, volume), moisture) {
        Ok(density) => Known::Value(in_kg_per_m3(density)),
        Err(why) => Known::Cannot(why.into()),
    }
}

fn grain(plank: &Plank) -> Known {
    match grain_slope(plank.grain_face, plank.grain_edge) {
        None => Known::NotLooked("slope of grain not looked at"),
        Some(GrainSlope::Combined(slope)) => {
            let open = AtLeast {
                grain_face: plank.at_least.grain_face,
                grain_edge: plank.at_least.grain_edge,
                ..AtLeast::default()
            };
            Known::at_best(slope.in_tangent(), None, open)
        }
        Some(GrainSlope::AtLeastFace(slope)) => one_face(slope, "edge not looked at"),
        Some(GrainSlope::AtLeastEdge(slope)) => one_face(slope, "face not looked at"),
    }
}

fn one_face(slope: Slope, not_looked: &'static str) -> Known {
    Known::at_best(slope.in_tangent(), Some(not_looked), AtLeast::default())
}

/// The ring angle of a part as it will stand in the blank: turned on edge or as it lies. For rings read
/// as an arc, at mid-width.
fn rings(plank: &Plank, laid: Laid) -> Known {
    let Some(rings) = &plank.rings else {
        return Known::NotLooked("rings not looked at");
    };
    let angle = match ring_angle_at(rings, mm(0.0)) {
        Ok(angle) => angle,
        Err(why) => return Known::Cannot(why.into()),
    };
    let stands = match laid {
        Laid::Flat => Ok(angle),
        Laid::OnEdge => turned_on_edge(angle),
    };
    match stands {
        Ok(angle) => Known::Value(in_degrees(angle)),
        Err(why) => Known::Cannot(why.into()),
    }
}

fn size(candidate: &Candidate<'_>) -> Known {
    let (slab, at_kinks) = match candidate.cut() {
        Ok(cut) => cut,
        Err(known) => return known,
    };
    match candidate.worked.count(candidate.wanted, slab, at_kinks) {
        Ok(parts) => Known::at_best(f64::from(parts), None, open_shapes(candidate.plank, true)),
        Err(why) => Known::Cannot(why.into()),
    }
}
