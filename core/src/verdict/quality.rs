//! What each quality of a plank comes to, and what has to be measured for it.
//!
//! One function for each quality, from the description of the plank and the spec to a number in the
//! unit of the criterion. What was not looked at gives no number, or a bound that is named as one.

use super::{Laid, Quality, Spec};
use crate::neck::{Cutting, CuttingError, Held, Place, count_held, held, zones_to_cut_round};
use crate::plank::{
    BendShape, CutFirst, GrainSlope, Plank, Slab, Source, bend_left, density_as_measured,
    grain_slope, ring_angle_at, slab_cut_first, turned_on_edge,
};
use crate::quantity::{Length, Moisture, celsius, in_degrees, in_kg_per_m3, in_mm, kg_per_m3, mm};
use crate::wood::{CALIBRATION_CELSIUS, density_at_12, meter_corrected};
use std::borrow::Cow;
use std::cell::OnceCell;

/// What is known of a quality.
#[derive(Debug, Clone, PartialEq)]
pub enum Known {
    /// Its value, in the unit of the criterion.
    Value(f64),
    /// It is no better than this: something that can only make it worse was not looked at.
    AtBest(f64, &'static str),
    /// Nothing: what was not looked at.
    NotLooked(&'static str),
    /// It can't be worked out from what was measured, and why.
    Cannot(String),
}

impl Known {
    /// The value or the bound.
    pub fn number(&self) -> Option<f64> {
        match self {
            Known::Value(value) | Known::AtBest(value, _) => Some(*value),
            Known::NotLooked(_) | Known::Cannot(_) => None,
        }
    }
}

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

    /// The measurements that move it.
    pub fn sources(self) -> &'static [Source] {
        use Source::*;
        match self {
            Quality::Straightness => &[Length, Width, Thickness, Bow, Twist, Cup],
            Quality::Crook => &[Length, Crook],
            Quality::Density => &[Length, Width, Thickness, Scale, Bearer, Meter, Temperature],
            Quality::GrainSlope => &[GrainFace, GrainEdge],
            Quality::RingAngle => &[Rings],
            Quality::Moisture => &[Meter, Temperature],
            Quality::Size => &[Length, Width, Thickness, Bow, Twist, Cup],
        }
    }

    /// What it comes to for a plank under a spec.
    pub(super) fn of(self, candidate: &Candidate<'_>) -> Known {
        let plank = candidate.plank;
        match self {
            Quality::Straightness => straightness(candidate),
            Quality::Crook => crook(candidate),
            Quality::Density => density(plank),
            Quality::GrainSlope => grain(plank),
            Quality::RingAngle => rings(plank, candidate.spec),
            Quality::Moisture => match moisture(plank) {
                Ok(moisture) => Known::Value(moisture.in_percent()),
                Err(known) => known,
            },
            Quality::Size => size(candidate),
        }
    }
}

/// A plank under a spec, with what several qualities share: the straight slab, worked out once.
pub(super) struct Candidate<'a> {
    plank: &'a Plank,
    zones: &'a [Place],
    spec: &'a Spec,
    slabs: OnceCell<Result<CutFirst, Known>>,
}

impl<'a> Candidate<'a> {
    /// `zones` are the stretches that the plank's faults forbid.
    pub(super) fn new(plank: &'a Plank, zones: &'a [Place], spec: &'a Spec) -> Self {
        Self {
            plank,
            zones,
            spec,
            slabs: OnceCell::new(),
        }
    }

    fn slabs(&self) -> Result<&CutFirst, &Known> {
        self.slabs
            .get_or_init(|| slabs_in_part(self.plank, self.spec))
            .as_ref()
    }

    /// How many parts it holds in a slab of this thickness, none of them across one of `cuts_at`.
    fn count(&self, slab: Length, cuts_at: &[Length]) -> Result<u32, CuttingError> {
        let mut zones = Cow::Borrowed(self.zones);
        if !cuts_at.is_empty() {
            let cuts = cuts_at.iter().map(|at| Place { from: *at, to: *at });
            zones.to_mut().extend(cuts);
        }
        count_held(self.plank, &Cutting::of(self.spec), slab, &zones)
    }

    /// Whether there is a kink, and parts are left when a cut falls on each.
    fn holds_beside_kinks(&self, slabs: &CutFirst) -> bool {
        let kinks = kinks(self.plank);
        let count = || self.count(slabs.cut_on_kink.thickness, &kinks);
        !kinks.is_empty() && count().is_ok_and(|parts| parts > 0)
    }

    /// The slab in a part cut first and flattened after. A kink whose place is known is cut at, and
    /// costs nothing, wherever the plank still holds a part on one side of it; else it counts as inside
    /// the part.
    fn slab(&self) -> Result<&Slab, &Known> {
        let slabs = self.slabs()?;
        Ok(if self.holds_beside_kinks(slabs) {
            &slabs.cut_on_kink
        } else {
            &slabs.bend_inside
        })
    }

    /// The thickness of slab that parts are counted in, as far as it is known, and the kinks that are
    /// cut at. Shapes that were not looked at cost nothing here and are named by the straightness.
    fn cut(&self) -> Result<(Length, Vec<Length>), Known> {
        let plank = self.plank;
        if plank.length.is_none() {
            return Err(Known::NotLooked(NO_LENGTH));
        }
        if plank.widths.least().is_none() {
            return Err(Known::NotLooked("width not looked at"));
        }
        Ok(match self.slabs() {
            Ok(slabs) if self.holds_beside_kinks(slabs) => {
                (slabs.cut_on_kink.thickness, kinks(plank))
            }
            Ok(slabs) => (slabs.bend_inside.thickness, Vec::new()),
            Err(Known::NotLooked(why)) => match plank.thicknesses.least() {
                Some(thickness) => (thickness - mm(2.0 * self.spec.planing_mm), Vec::new()),
                None => return Err(Known::NotLooked(why)),
            },
            // The part is larger than the plank: it holds none.
            Err(_) => (mm(0.0), Vec::new()),
        })
    }
}

const NO_LENGTH: &str = "length not looked at";
const NO_MOISTURE: &str = "moisture not looked at";

/// The slab in a part cut first and flattened after; a kink whose place is known is cut at, wherever the
/// plank still holds a part beside it.
pub fn slab_in_part(plank: &Plank, spec: &Spec) -> Result<Slab, Known> {
    let zones = zones_to_cut_round(&plank.defects).places;
    let candidate = Candidate::new(plank, &zones, spec);
    candidate.slab().cloned().map_err(Known::clone)
}

/// The parts that a plank holds, as far as its straight slab is known.
pub fn parts_held(plank: &Plank, spec: &Spec) -> Result<Held, Known> {
    let zones = zones_to_cut_round(&plank.defects).places;
    let (slab, cuts_at) = Candidate::new(plank, &zones, spec).cut()?;
    held(plank, &Cutting::of(spec), slab, &cuts_at).map_err(|why| Known::Cannot(why.to_string()))
}

fn slabs_in_part(plank: &Plank, spec: &Spec) -> Result<CutFirst, Known> {
    if plank.length.is_none() {
        return Err(Known::NotLooked(NO_LENGTH));
    }
    if plank.thicknesses.least().is_none() {
        return Err(Known::NotLooked("thickness not looked at"));
    }
    if plank.bow.is_none() && plank.twist.is_none() && plank.cup.is_none() {
        return Err(Known::NotLooked("bow, twist and cup not looked at"));
    }
    slab_cut_first(
        plank,
        mm(spec.part.length_mm),
        mm(spec.across_mm()),
        mm(spec.planing_mm),
    )
    .map_err(|why| Known::Cannot(why.to_string()))
}

/// Where the plank has kinks.
fn kinks(plank: &Plank) -> Vec<Length> {
    [plank.bow, plank.crook]
        .into_iter()
        .flatten()
        .filter_map(|bend| match bend.shape {
            BendShape::Kink(at) => Some(at),
            BendShape::Even => None,
        })
        .collect()
}

fn straightness(candidate: &Candidate<'_>) -> Known {
    let slab = match candidate.slab() {
        Ok(slab) => slab,
        Err(known) => return known.clone(),
    };
    let left = in_mm(slab.thickness);
    // Across a strip that is turned on edge the cup is next to nothing.
    let cup_counts = candidate.spec.laid == Laid::Flat;
    let not_looked = [
        slab.bow_loss.is_none(),
        slab.twist_loss.is_none(),
        slab.cup_loss.is_none() && cup_counts,
    ];
    match not_looked {
        [false, false, false] => Known::Value(left),
        [true, false, false] => Known::AtBest(left, "bow not looked at"),
        [false, true, false] => Known::AtBest(left, "twist not looked at"),
        [false, false, true] => Known::AtBest(left, "cup not looked at"),
        [true, true, false] => Known::AtBest(left, "bow and twist not looked at"),
        [true, false, true] => Known::AtBest(left, "bow and cup not looked at"),
        [false, true, true] => Known::AtBest(left, "twist and cup not looked at"),
        [true, true, true] => Known::AtBest(left, "bow, twist and cup not looked at"),
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
    match bend_left(crook, length, mm(candidate.spec.part.length_mm)) {
        // An even curve leaves the same wherever it is cut.
        Ok(left) if crook.shape == BendShape::Even => Known::Value(in_mm(left.inside)),
        Ok(left) => {
            let slabs = candidate.slabs();
            let cut = slabs.is_ok_and(|slabs| candidate.holds_beside_kinks(slabs));
            Known::Value(in_mm(if cut { left.cut_on_it } else { left.inside }))
        }
        Err(why) => Known::Cannot(why.to_string()),
    }
}

/// The moisture of the wood: what the meter shows, corrected for the wood's temperature where that was
/// taken.
pub fn moisture(plank: &Plank) -> Result<Moisture, Known> {
    let meter = plank.meter.ok_or(Known::NotLooked(NO_MOISTURE))?;
    let calibrated = celsius(CALIBRATION_CELSIUS);
    meter_corrected(meter.shown, meter.wood.unwrap_or(calibrated), calibrated)
        .map_err(|why| Known::Cannot(why.to_string()))
}

fn density(plank: &Plank) -> Known {
    if plank.weighing.is_none() {
        return Known::NotLooked("weight not looked at");
    }
    let measured = match density_as_measured(plank) {
        Ok(density) => density,
        Err(why) => return Known::Cannot(why.to_string()),
    };
    let moisture = match moisture(plank) {
        Ok(moisture) => moisture,
        Err(Known::NotLooked(_)) => {
            return Known::NotLooked("moisture not looked at: densities are compared at 12 %");
        }
        Err(known) => return known,
    };
    match density_at_12(kg_per_m3(in_kg_per_m3(measured)), moisture) {
        Ok(density) => Known::Value(in_kg_per_m3(density)),
        Err(why) => Known::Cannot(why.to_string()),
    }
}

fn grain(plank: &Plank) -> Known {
    match grain_slope(plank.grain_face, plank.grain_edge) {
        None => Known::NotLooked("slope of grain not looked at"),
        Some(GrainSlope::Combined(slope)) => Known::Value(slope.in_tangent()),
        Some(GrainSlope::AtLeastFace(slope)) => {
            Known::AtBest(slope.in_tangent(), "edge not looked at")
        }
        Some(GrainSlope::AtLeastEdge(slope)) => {
            Known::AtBest(slope.in_tangent(), "face not looked at")
        }
    }
}

/// The ring angle of a part as it will stand in the blank: turned on edge or as it lies. For rings read
/// as an arc, at mid-width.
fn rings(plank: &Plank, spec: &Spec) -> Known {
    let Some(rings) = &plank.rings else {
        return Known::NotLooked("rings not looked at");
    };
    let angle = match ring_angle_at(rings, mm(0.0)) {
        Ok(angle) => angle,
        Err(why) => return Known::Cannot(why.to_string()),
    };
    let stands = match spec.laid {
        Laid::Flat => Ok(angle),
        Laid::OnEdge => turned_on_edge(angle),
    };
    match stands {
        Ok(angle) => Known::Value(in_degrees(angle)),
        Err(why) => Known::Cannot(why.to_string()),
    }
}

fn size(candidate: &Candidate<'_>) -> Known {
    let (slab, cuts_at) = match candidate.cut() {
        Ok(cut) => cut,
        Err(known) => return known,
    };
    match candidate.count(slab, &cuts_at) {
        Ok(parts) => Known::Value(f64::from(parts)),
        Err(why) => Known::Cannot(why.to_string()),
    }
}
