//! What each quality of a plank comes to, and what has to be measured for it.
//!
//! One function for each quality, from the description of the plank and the spec to a number in the
//! unit of the criterion. What was not looked at gives no number, or a bound that is named as one.

use super::{Laid, Quality, Spec};
use crate::neck::{Cutting, Held, held};
use crate::plank::{
    AtLeast, BendShape, CutFirst, GrainSlope, Plank, Shape, Slab, Source, bend_left,
    density_as_measured, grain_slope, ring_angle_at, slab_cut_first, turned_on_edge,
};
use crate::quantity::{Length, Moisture, celsius, in_degrees, in_kg_per_m3, in_mm, kg_per_m3, mm};
use crate::wood::{CALIBRATION_CELSIUS, density_at_12, meter_corrected};

/// What is known of a quality.
#[derive(Debug, Clone, PartialEq)]
pub enum Known {
    /// Its value, in the unit of the criterion.
    Value(f64),
    /// It is no better than this: something that can only make it worse was not looked at, or seen by
    /// eye as so much or more.
    AtBest(f64, String),
    /// Nothing: what was not looked at.
    NotLooked(String),
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
    pub fn of(self, plank: &Plank, spec: &Spec) -> Known {
        match self {
            Quality::Straightness => straightness(plank, spec),
            Quality::Crook => crook(plank, spec),
            Quality::Density => density(plank),
            Quality::GrainSlope => grain(plank),
            Quality::RingAngle => rings(plank, spec),
            Quality::Moisture => match moisture(plank) {
                Ok(moisture) => Known::Value(moisture.in_percent()),
                Err(known) => known,
            },
            Quality::Size => size(plank, spec),
        }
    }
}

fn not_looked(what: &str) -> Known {
    Known::NotLooked(format!("{what} not looked at"))
}

/// The slab in a part cut first and flattened after. A kink whose place is known is cut at, and costs
/// nothing, wherever the plank still holds a part on one side of it; else it counts as inside the part.
pub fn slab_in_part(plank: &Plank, spec: &Spec) -> Result<Slab, Known> {
    let slabs = slabs_in_part(plank, spec)?;
    let cut = parts_beside_kinks(plank, spec, slabs.cut_on_kink.thickness);
    Ok(if cut.is_some() {
        slabs.cut_on_kink
    } else {
        slabs.bend_inside
    })
}

fn slabs_in_part(plank: &Plank, spec: &Spec) -> Result<CutFirst, Known> {
    for (missing, what) in [
        (plank.length.is_none(), "length"),
        (plank.thicknesses.least().is_none(), "thickness"),
    ] {
        if missing {
            return Err(not_looked(what));
        }
    }
    if plank.bow.is_none() && plank.twist.is_none() && plank.cup.is_none() {
        return Err(not_looked("bow, twist and cup"));
    }
    slab_cut_first(
        plank,
        mm(spec.part.length_mm),
        mm(spec.across_mm()),
        mm(spec.planing_mm),
    )
    .map_err(|why| Known::Cannot(why.to_string()))
}

/// The parts that the plank holds when a cut falls on each kink; `None` where there is no kink, or no
/// part is left that way.
fn parts_beside_kinks(plank: &Plank, spec: &Spec, slab: Length) -> Option<Held> {
    let kinks: Vec<Length> = [plank.bow, plank.crook]
        .into_iter()
        .flatten()
        .filter_map(|bend| match bend.shape {
            BendShape::Kink(at) => Some(at),
            BendShape::Even => None,
        })
        .collect();
    if kinks.is_empty() {
        return None;
    }
    held(plank, &Cutting::of(spec), slab, &kinks)
        .ok()
        .filter(|held| held.parts > 0)
}

fn straightness(plank: &Plank, spec: &Spec) -> Known {
    let slab = match slab_in_part(plank, spec) {
        Ok(slab) => slab,
        Err(known) => return known,
    };
    // Across a strip that is turned on edge the cup is next to nothing.
    let needed = |shape: &Shape| spec.laid == Laid::Flat || *shape != Shape::Cup;
    let missing: Vec<&str> = slab
        .left_out()
        .iter()
        .filter(|s| needed(s))
        .map(|s| s.name())
        .collect();
    let mut why = open_shapes(plank, needed);
    if !missing.is_empty() {
        why.insert(0, format!("{} not looked at", missing.join(" and ")));
    }
    at_best(in_mm(slab.thickness), &why)
}

/// The shapes that the eye gave no upper end to, each as a reason why a figure is a bound.
fn open_shapes(plank: &Plank, needed: impl Fn(&Shape) -> bool) -> Vec<String> {
    let AtLeast {
        bow, twist, cup, ..
    } = plank.at_least;
    [(Shape::Bow, bow), (Shape::Twist, twist), (Shape::Cup, cup)]
        .into_iter()
        .filter(|(shape, open)| *open && needed(shape))
        .map(|(shape, _)| may_be_more(shape.name()))
        .collect()
}

fn may_be_more(what: &str) -> String {
    format!("{what} by eye so much or more: measure it")
}

/// A value, or a bound where there are reasons why it is one.
fn at_best(value: f64, why: &[String]) -> Known {
    if why.is_empty() {
        Known::Value(value)
    } else {
        Known::AtBest(value, why.join("; "))
    }
}

fn crook(plank: &Plank, spec: &Spec) -> Known {
    let Some(crook) = &plank.crook else {
        return not_looked("crook");
    };
    let Some(length) = plank.length else {
        return not_looked("length");
    };
    match bend_left(crook, length, mm(spec.part.length_mm)) {
        Ok(left) => {
            let cut = slabs_in_part(plank, spec)
                .ok()
                .and_then(|slabs| parts_beside_kinks(plank, spec, slabs.cut_on_kink.thickness));
            if cut.is_some() {
                return Known::Value(in_mm(left.cut_on_it));
            }
            let open = plank.at_least.crook.then(|| may_be_more("crook"));
            at_best(in_mm(left.inside), open.as_slice())
        }
        Err(why) => Known::Cannot(why.to_string()),
    }
}

/// The moisture of the wood: what the meter shows, corrected for the wood's temperature where that was
/// taken.
pub fn moisture(plank: &Plank) -> Result<Moisture, Known> {
    let meter = plank.meter.ok_or_else(|| not_looked("moisture"))?;
    let calibrated = celsius(CALIBRATION_CELSIUS);
    meter_corrected(meter.shown, meter.wood.unwrap_or(calibrated), calibrated)
        .map_err(|why| Known::Cannot(why.to_string()))
}

fn density(plank: &Plank) -> Known {
    if plank.weighing.is_none() {
        return not_looked("weight");
    }
    let measured = match density_as_measured(plank) {
        Ok(density) => density,
        Err(why) => return Known::Cannot(why.to_string()),
    };
    let moisture = match moisture(plank) {
        Ok(moisture) => moisture,
        Err(Known::NotLooked(_)) => {
            return Known::NotLooked(
                "moisture not looked at: densities are compared at 12 %".into(),
            );
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
        None => not_looked("slope of grain"),
        Some(GrainSlope::Combined(slope)) => {
            let open = plank.at_least.grain_face || plank.at_least.grain_edge;
            let open = open.then(|| may_be_more("grain"));
            at_best(slope.in_tangent(), open.as_slice())
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
        return not_looked("rings");
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

/// The parts that a plank holds, as far as its straight slab is known; shapes that were not looked at
/// cost nothing here and are named by the straightness.
pub fn parts_held(plank: &Plank, spec: &Spec) -> Result<Held, Known> {
    for (missing, what) in [
        (plank.length.is_none(), "length"),
        (plank.widths.least().is_none(), "width"),
    ] {
        if missing {
            return Err(not_looked(what));
        }
    }
    let slab = match slabs_in_part(plank, spec) {
        Ok(slabs) => {
            if let Some(held) = parts_beside_kinks(plank, spec, slabs.cut_on_kink.thickness) {
                return Ok(held);
            }
            slabs.bend_inside.thickness
        }
        Err(Known::NotLooked(why)) => match plank.thicknesses.least() {
            Some(thickness) => thickness - mm(2.0 * spec.planing_mm),
            None => return Err(Known::NotLooked(why)),
        },
        // The part is larger than the plank: it holds none.
        Err(_) => mm(0.0),
    };
    held(plank, &Cutting::of(spec), slab, &[]).map_err(|why| Known::Cannot(why.to_string()))
}

fn size(plank: &Plank, spec: &Spec) -> Known {
    match parts_held(plank, spec) {
        Ok(held) => at_best(f64::from(held.parts), &open_shapes(plank, |_| true)),
        Err(known) => known,
    }
}
