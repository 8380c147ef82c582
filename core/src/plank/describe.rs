//! From readings to the description of a plank: which numbers say what, together.
//!
//! It computes nothing; what is missing stays missing.

use super::{
    AtLeast, Bend, BendShape, Bound, Cup, Defect, DefectFound, Field, Hand, MeterReading, Plank,
    Reading, Readings, Rings, RingsBy, Sign, Stations, Twist, TwistRead, Weighing,
};
use crate::quantity::{Length, Moisture, Slope, Volume, celsius, degrees, kg, mm};

/// The description of a plank that these readings make.
pub fn describe(readings: &Readings, defects: &[DefectFound]) -> Plank {
    described(&|field| readings.get(&field), defects)
}

type ReadingByField<'a, 'b> = &'a dyn Fn(Field) -> Option<&'b Reading>;

/// [`describe`], of readings wherever they are kept.
pub(crate) fn described<'a>(
    reading: ReadingByField<'_, 'a>,
    defects: impl IntoIterator<Item = &'a DefectFound>,
) -> Plank {
    let value = |field| reading(field).map(|taken| taken.value);
    let length = |field| value(field).map(mm);
    let slope = |field| value(field).map(Slope::tangent);
    Plank {
        length: length(Field::Length),
        widths: Stations {
            near: length(Field::WidthNear),
            middle: length(Field::WidthMiddle),
            far: length(Field::WidthFar),
        },
        between_stations: Volume::default(),
        off_middle: Length::default(),
        width_with_wane: length(Field::WidthWithWane),
        thicknesses: Stations {
            near: length(Field::ThicknessNear),
            middle: length(Field::ThicknessMiddle),
            far: length(Field::ThicknessFar),
        },
        weighing: weighing(reading),
        meter: value(Field::Moisture).map(|shown| MeterReading {
            shown: Moisture::percent(shown),
            wood: value(Field::WoodTemperature).map(celsius),
        }),
        bow: bend(reading, Field::Bow, Field::BowOver, Field::BowKink),
        crook: bend(reading, Field::Crook, Field::CrookOver, Field::CrookKink),
        cup: length(Field::Cup).map(|gap| Cup {
            gap,
            over: length(Field::CupOver),
        }),
        twist: reading(Field::Twist).map(|taken| twist(taken, length(Field::TwistStick))),
        grain_face: slope(Field::GrainFace),
        grain_edge: slope(Field::GrainEdge),
        rings: rings(reading),
        at_least: at_least(reading),
        defects: defects.into_iter().map(defect).collect(),
    }
}

fn weighing(reading: ReadingByField<'_, '_>) -> Option<Weighing> {
    let mass = |field| reading(field).map(|taken| kg(taken.value));
    if let Some(whole) = mass(Field::WeightWhole) {
        return Some(Weighing::Whole(whole));
    }
    let overhang = reading(Field::WeightOverhang).map_or(mm(0.0), |taken| mm(taken.value));
    match (mass(Field::WeightFirst), mass(Field::WeightSecond)) {
        (Some(first), second) | (None, second @ Some(first)) => {
            let second = if mass(Field::WeightFirst).is_some() {
                second
            } else {
                None
            };
            return Some(Weighing::Ends {
                first,
                second,
                overhang,
            });
        }
        (None, None) => {}
    }
    let by = mass(Field::BalanceMass)?;
    let arm = reading(Field::BalanceArm).map(|taken| mm(taken.value))?;
    Some(Weighing::Balanced { by, arm })
}

fn bend(reading: ReadingByField<'_, '_>, gap: Field, over: Field, kink: Field) -> Option<Bend> {
    let taken = reading(gap)?;
    let shape = reading(kink).map_or(BendShape::Even, |place| BendShape::Kink(mm(place.value)));
    Some(Bend {
        gap: mm(taken.value),
        over: reading(over).map(|taken| mm(taken.value)),
        shape,
        signed: taken.sign == Sign::Known,
    })
}

fn twist(taken: &Reading, stick: Option<Length>) -> Twist {
    let hand = (taken.sign == Sign::Known).then_some(if taken.value < 0.0 {
        Hand::Left
    } else {
        Hand::Right
    });
    Twist {
        rise: mm(taken.value.abs()),
        read: stick.map_or(TwistRead::Corner, TwistRead::Sticks),
        hand,
    }
}

fn at_least(reading: ReadingByField<'_, '_>) -> AtLeast {
    let bound = |field| reading(field).is_some_and(|taken| taken.bound == Bound::AtLeast);
    AtLeast {
        bow: bound(Field::Bow),
        crook: bound(Field::Crook),
        twist: bound(Field::Twist),
        cup: bound(Field::Cup),
        grain_face: bound(Field::GrainFace),
        grain_edge: bound(Field::GrainEdge),
    }
}

fn rings(reading: ReadingByField<'_, '_>) -> Option<Rings> {
    let value = |field| reading(field).map(|taken| taken.value);
    match RingsBy::of(|field| reading(field).is_some())? {
        RingsBy::Angle => value(Field::RingAngle).map(|angle| Rings::Angle(degrees(angle))),
        RingsBy::ChordAndDip => Some(Rings::Arc {
            chord: mm(value(Field::RingChord)?),
            dip: mm(value(Field::RingDip)?),
            pith: mm(value(Field::PithOffset).unwrap_or(0.0)),
        }),
    }
}

fn defect(found: &DefectFound) -> Defect {
    let place = |taken: &Option<Reading>| taken.as_ref().map(|taken| mm(taken.value));
    Defect {
        kind: found.kind,
        from: place(&found.from),
        to: place(&found.to),
        note: found.note.clone(),
    }
}

/// What was not looked at on a plank, in the order of the tape.
///
/// ```
/// use stillwood_core::plank::{Plank, not_looked_at};
/// assert_eq!(not_looked_at(&Plank::default())[0], "length");
/// ```
pub fn not_looked_at(plank: &Plank) -> Vec<&'static str> {
    [
        ("length", plank.length.is_none()),
        ("width", plank.widths.least().is_none()),
        ("thickness", plank.thicknesses.least().is_none()),
        ("weight", plank.weighing.is_none()),
        ("bow", plank.bow.is_none()),
        ("crook", plank.crook.is_none()),
        ("twist", plank.twist.is_none()),
        ("cup", plank.cup.is_none()),
        ("grain on the face", plank.grain_face.is_none()),
        ("grain on the edge", plank.grain_edge.is_none()),
        ("rings", plank.rings.is_none()),
        ("moisture", plank.meter.is_none()),
    ]
    .into_iter()
    .filter_map(|(name, missing)| missing.then_some(name))
    .collect()
}
