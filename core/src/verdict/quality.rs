//! What each quality of a plank comes to, and what has to be measured for it.
//!
//! One function for each quality, from the description of the plank and the spec to a number in the
//! unit of the criterion. What was not looked at gives no number, or a bound that is named as one.

use super::{Laid, Quality, Spec};
use crate::neck::{Cutting, CuttingError, Held, Place, count_held, held, zones_to_cut_round};
use crate::plank::{
    AtLeast, BendShape, CutFirst, GrainSlope, Plank, Slab, Source, bend_left, density_as_measured,
    grain_slope, ring_angle_at, slab_cut_first, turned_on_edge,
};
use crate::quantity::{
    Length, Moisture, Pen, Silent, celsius, in_degrees, in_kg_per_m3, in_mm, kg_per_m3, mm,
};
use crate::wood::{CALIBRATION_CELSIUS, density_at_12, meter_corrected_worked};
use std::borrow::Cow;
use std::cell::OnceCell;

/// What is known of a quality.
#[derive(Debug, Clone, PartialEq)]
pub enum Known {
    /// Its value, in the unit of the criterion.
    Value(f64),
    /// It is no better than this: something that can only make it worse was not looked at, or seen by
    /// eye as so much or more.
    AtBest(f64, Cow<'static, str>),
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
    pub fn of(self, plank: &Plank, spec: &Spec) -> Known {
        self.of_candidate(&Candidate::new(plank, &Wanted::of(plank, spec)))
    }

    pub(super) fn of_candidate(self, candidate: &Candidate<'_>) -> Known {
        let plank = candidate.plank;
        match self {
            Quality::Straightness => straightness(candidate),
            Quality::Crook => crook(candidate),
            Quality::Density => density(plank),
            Quality::GrainSlope => grain(plank),
            Quality::RingAngle => rings(plank, candidate.wanted.spec),
            Quality::Moisture => match moisture(plank) {
                Ok(moisture) => Known::Value(moisture.in_percent()),
                Err(known) => known,
            },
            Quality::Size => size(candidate),
        }
    }
}

/// What is asked of a plank: the spec, how it has it cut, and the stretches that the faults forbid.
pub(super) struct Wanted<'a> {
    spec: &'a Spec,
    cutting: Cutting,
    zones: Vec<Place>,
}

impl<'a> Wanted<'a> {
    pub(super) fn of(plank: &Plank, spec: &'a Spec) -> Self {
        Self {
            spec,
            cutting: Cutting::of(spec),
            zones: zones_to_cut_round(&plank.defects).places,
        }
    }
}

/// A plank held against what is asked of it, with the straight slab that several qualities share, worked
/// out once.
pub(super) struct Candidate<'a> {
    plank: &'a Plank,
    wanted: &'a Wanted<'a>,
    in_part: OnceCell<Result<InPart, Known>>,
}

/// The slab in a part cut first and flattened after.
struct InPart {
    slab: Slab,
    /// Whether a cut falls on each kink of the plank: it has some, and holds parts beside them.
    at_kinks: bool,
}

impl<'a> Candidate<'a> {
    pub(super) fn new(plank: &'a Plank, wanted: &'a Wanted<'a>) -> Self {
        Self {
            plank,
            wanted,
            in_part: OnceCell::new(),
        }
    }

    /// A kink whose place is known is cut at, and costs nothing, wherever the plank still holds a part
    /// beside it; else it counts as inside the part.
    fn in_part(&self) -> Result<&InPart, &Known> {
        let find = || {
            let slabs = slabs_in_part(self.plank, self.wanted.spec)?;
            let kinks = kinks(self.plank);
            let count = || self.count(slabs.cut_on_kink.thickness, &kinks);
            let at_kinks = !kinks.is_empty() && count().is_ok_and(|parts| parts > 0);
            let slab = if at_kinks {
                slabs.cut_on_kink
            } else {
                slabs.bend_inside
            };
            Ok(InPart { slab, at_kinks })
        };
        self.in_part.get_or_init(find).as_ref()
    }

    /// How many parts it holds in a slab of this thickness, none of them across one of `cuts_at`.
    fn count(&self, slab: Length, cuts_at: &[Length]) -> Result<u32, CuttingError> {
        let Wanted { cutting, zones, .. } = self.wanted;
        if cuts_at.is_empty() {
            return count_held(self.plank, cutting, slab, zones);
        }
        let cuts = cuts_at.iter().map(|at| Place { from: *at, to: *at });
        let zones: Vec<Place> = zones.iter().copied().chain(cuts).collect();
        count_held(self.plank, cutting, slab, &zones)
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
        Ok(match self.in_part() {
            Ok(part) if part.at_kinks => (part.slab.thickness, kinks(plank)),
            Ok(part) => (part.slab.thickness, Vec::new()),
            Err(Known::NotLooked(why)) => match plank.thicknesses.least() {
                Some(thickness) => {
                    let planing = mm(2.0 * self.wanted.spec.planing_mm);
                    (thickness - planing, Vec::new())
                }
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
    let wanted = Wanted::of(plank, spec);
    match Candidate::new(plank, &wanted).in_part() {
        Ok(part) => Ok(part.slab),
        Err(known) => Err(known.clone()),
    }
}

/// The parts that a plank holds, as far as its straight slab is known.
pub fn parts_held(plank: &Plank, spec: &Spec) -> Result<Held, Known> {
    let wanted = Wanted::of(plank, spec);
    let (slab, cuts_at) = Candidate::new(plank, &wanted).cut()?;
    held(plank, &wanted.cutting, slab, &cuts_at).map_err(|why| Known::Cannot(why.to_string()))
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
    let slab = match candidate.in_part() {
        Ok(part) => &part.slab,
        Err(known) => return known.clone(),
    };
    let left = in_mm(slab.thickness);
    // Across a strip that is turned on edge the cup is next to nothing.
    let cup_counts = candidate.wanted.spec.laid == Laid::Flat;
    let not_looked = [
        slab.bow_loss.is_none(),
        slab.twist_loss.is_none(),
        slab.cup_loss.is_none() && cup_counts,
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
    at_best(left, not_looked, &open_shapes(candidate.plank, cup_counts))
}

/// The shapes that the eye gave no upper end to.
fn open_shapes(plank: &Plank, cup_counts: bool) -> [(&'static str, bool); 3] {
    let AtLeast {
        bow, twist, cup, ..
    } = plank.at_least;
    [("bow", bow), ("twist", twist), ("cup", cup && cup_counts)]
}

/// A value, or a bound where something was not looked at or was seen as so much or more.
fn at_best(value: f64, not_looked: Option<&'static str>, open: &[(&'static str, bool)]) -> Known {
    let mut why: Option<Cow<'static, str>> = not_looked.map(Cow::Borrowed);
    for (what, _) in open.iter().filter(|(_, open)| *open) {
        let said = format!("{what} by eye so much or more: measure it");
        why = Some(match why {
            Some(before) => format!("{before}; {said}").into(),
            None => said.into(),
        });
    }
    match why {
        Some(why) => Known::AtBest(value, why),
        None => Known::Value(value),
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
    let open = plank.at_least.crook;
    match bend_left(crook, length, mm(candidate.wanted.spec.part.length_mm)) {
        // An even curve leaves the same wherever it is cut.
        Ok(left) if crook.shape == BendShape::Even => {
            at_best(in_mm(left.inside), None, &[("crook", open)])
        }
        Ok(left) => {
            let at_kinks = candidate.in_part().is_ok_and(|part| part.at_kinks);
            match at_kinks {
                true => Known::Value(in_mm(left.cut_on_it)),
                false => at_best(in_mm(left.inside), None, &[("crook", open)]),
            }
        }
        Err(why) => Known::Cannot(why.to_string()),
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
        Some(GrainSlope::Combined(slope)) => {
            let open = plank.at_least.grain_face || plank.at_least.grain_edge;
            at_best(slope.in_tangent(), None, &[("grain", open)])
        }
        Some(GrainSlope::AtLeastFace(slope)) => {
            Known::AtBest(slope.in_tangent(), "edge not looked at".into())
        }
        Some(GrainSlope::AtLeastEdge(slope)) => {
            Known::AtBest(slope.in_tangent(), "face not looked at".into())
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
        Ok(parts) => at_best(f64::from(parts), None, &open_shapes(candidate.plank, true)),
        Err(why) => Known::Cannot(why.to_string()),
    }
}
