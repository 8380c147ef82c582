//! Stated uncertainty against Monte Carlo: the readings are thrown again and again within what the tools
//! allow, and the result has to fall into its stated interval as often as stated.
//!
//! After JCGM 101:2008 (from memory). A stated interval is value plus and minus two standard
//! uncertainties, about 95 %. With errors that are normal it holds within 1 point. With errors spread
//! evenly between two bounds it holds at least as often: where one tool outweighs all others, always.

use Field::*;
use stillwood_core::plank::{
    Field, Instruments, Plank, Readings, Source, combined_slope, density_as_measured, describe,
    ring_angle_at, slab_at, slab_cut_first, volume,
};
use stillwood_core::quantity::TraceOff;
use stillwood_core::quantity::{
    Input, Scalar, Slope, hz, in_degrees, in_gpa, in_kg_per_m3, in_m3, in_mm, kg_per_m3, mm,
    propagate,
};
use stillwood_core::verdict::moisture;
use stillwood_core::wood::{density_at_12, sound_along, stiffness_from_sound};
use stillwood_tests::dice::Dice;
use stillwood_tests::yard::typed;

const THROWS: u32 = 20_000;

/// The tool behind each field: readings of one tool are off together. A ring's chord and the pith's place
/// are taken to be right beside its dip.
fn tool(field: Field) -> Option<Source> {
    Some(match field {
        Length => Source::Length,
        WidthNear | WidthMiddle | WidthFar => Source::Width,
        ThicknessNear => Source::Thickness,
        WeightFirst | WeightSecond | WeightWhole => Source::Scale,
        Moisture => Source::Meter,
        WoodTemperature => Source::Temperature,
        Bow => Source::Bow,
        Twist => Source::Twist,
        Cup => Source::Cup,
        GrainFace => Source::GrainFace,
        GrainEdge => Source::GrainEdge,
        RingDip | RingAngle => Source::Rings,
        RingChord | PithOffset => return None,
        other => panic!("{other:?} is not thrown here"),
    })
}

/// The readings as they might have been.
fn thrown(readings: &Readings, standard: &[(Source, f64)], by: &mut impl FnMut() -> f64) -> Plank {
    let errors: Vec<(Source, f64)> = standard.iter().map(|(s, u)| (*s, u * by())).collect();
    let mut other = readings.clone();
    for (field, taken) in &mut other {
        let source = tool(*field);
        let off = errors
            .iter()
            .find(|(s, _)| Some(*s) == source)
            .map_or(0.0, |e| e.1);
        // A twist to the left is kept below nothing: a larger rise is further below.
        taken.value += if taken.value < 0.0 { -off } else { off };
    }
    let plank = describe(&other, &[]);
    // The shape between the stations has no field: it is off by itself.
    let between = errors.iter().find(|(s, _)| *s == Source::BetweenStations);
    between.map_or(plank.clone(), |(source, off)| {
        plank.perturbed(*source, *off)
    })
}

fn planks() -> Vec<Readings> {
    let shape = [
        (Moisture, "10.5"),
        (WoodTemperature, "8"),
        (Bow, "9"),
        (Twist, "12 left"),
        (Cup, "4"),
        (GrainFace, "12/300"),
        (GrainEdge, "15/300"),
        (RingChord, "150"),
        (RingDip, "25"),
        (PithOffset, "40"),
    ];
    let sizes = [
        ["2620", "214", "205", "193", "52", "10.3", "9.4"],
        ["1800", "150", "152", "149", "33", "3.4", "3.3"],
        ["4100", "310", "300", "305", "65", "29", "30"],
    ];
    let fields = [
        Length,
        WidthNear,
        WidthMiddle,
        WidthFar,
        ThicknessNear,
        WeightFirst,
        WeightSecond,
    ];
    sizes
        .iter()
        .map(|texts| {
            let mut all: Vec<(Field, &str)> = fields.into_iter().zip(*texts).collect();
            all.extend(shape);
            typed(&all)
        })
        .collect()
}

/// How often the result falls into its stated interval, in percent.
fn covered(
    readings: &Readings,
    result: &impl Fn(&Plank) -> f64,
    mut by: impl FnMut() -> f64,
) -> f64 {
    let inputs = Instruments::default().inputs(readings);
    let plank = describe(readings, &[]);
    let stated = propagate(&inputs, |moved| {
        Some(match moved {
            None => result(&plank),
            Some((source, by)) => result(&plank.perturbed(source, by)),
        })
    })
    .unwrap();
    let half_width = stated.expanded().raw();
    assert!(half_width > 0.0);
    let standard: Vec<(Source, f64)> = inputs.iter().map(|i| (i.source, i.standard)).collect();
    let inside = (0..THROWS)
        .filter(|_| {
            let found = result(&thrown(readings, &standard, &mut by));
            (found - stated.value).abs() <= half_width
        })
        .count();
    100.0 * inside as f64 / f64::from(THROWS)
}

/// The stated interval holds for normal errors, and at least for even ones.
#[track_caller]
fn holds(result: impl Fn(&Plank) -> f64) {
    for (seed, readings) in planks().iter().enumerate() {
        let mut dice = Dice::of_seed(seed as u64);
        let normal = covered(readings, &result, || dice.normal());
        assert!((normal - 95.0).abs() <= 1.0, "plank {seed}: {normal} %");
        let flat = covered(readings, &result, || dice.flat());
        assert!(flat >= 93.0, "plank {seed}, even errors: {flat} %");
    }
}

#[test]
fn of_a_volume() {
    holds(|plank| in_m3(volume(&mut TraceOff, plank).unwrap()));
}

#[test]
fn of_a_density() {
    holds(|plank| in_kg_per_m3(density_as_measured(&mut TraceOff, plank).unwrap()));
}

#[test]
fn of_a_density_at_12_percent() {
    holds(|plank| {
        let measured = density_as_measured(&mut TraceOff, plank).unwrap();
        let moisture = moisture(&mut TraceOff, plank).unwrap();
        let measured = kg_per_m3(in_kg_per_m3(measured));
        in_kg_per_m3(density_at_12(measured, moisture).unwrap())
    });
}

#[test]
fn of_a_straight_slab() {
    holds(|plank| {
        let slab = slab_cut_first(plank, mm(950.0), mm(80.0), mm(1.0)).unwrap();
        in_mm(slab.bend_inside.thickness)
    });
}

#[test]
fn of_a_combined_slope_of_grain() {
    holds(|plank| {
        let (face, edge): (Slope, Slope) = (plank.grain_face.unwrap(), plank.grain_edge.unwrap());
        combined_slope(&mut TraceOff, face, edge).in_tangent()
    });
}

#[test]
fn of_a_corrected_moisture() {
    holds(|plank| moisture(&mut TraceOff, plank).unwrap().in_percent());
}

#[test]
fn of_a_ring_angle() {
    holds(|plank| {
        in_degrees(ring_angle_at(&mut TraceOff, plank.rings.as_ref().unwrap(), mm(0.0)).unwrap())
    });
    holds(|plank| {
        in_degrees(ring_angle_at(&mut TraceOff, plank.rings.as_ref().unwrap(), mm(-60.0)).unwrap())
    });
}

#[test]
fn of_the_slab_at_a_place() {
    holds(|plank| {
        in_mm(
            slab_at(
                &mut TraceOff,
                plank,
                mm(400.0),
                (mm(950.0), mm(80.0)),
                mm(1.0),
            )
            .unwrap()
            .thickness,
        )
    });
}

/// A blank's stiffness by its longitudinal note: length, width, thickness, mass and note, each with its
/// own half-width.
#[test]
fn of_a_stiffness_by_its_note() {
    let read = [950.0, 75.0, 45.0, 2.26, 2220.0];
    let inputs: Vec<Input<usize>> = [1.0, 0.2, 0.2, 0.005, 10.0]
        .iter()
        .enumerate()
        .map(|(source, half)| Input::within(source, *half))
        .collect();
    let stiffness = |off: &dyn Fn(usize) -> f64| {
        let [l, w, t, m, f] = [0, 1, 2, 3, 4].map(|i| read[i] + off(i));
        let density = kg_per_m3(m / (l * w * t * 1e-9));
        let speed = sound_along(&mut TraceOff, mm(l), hz(f)).unwrap();
        in_gpa(stiffness_from_sound(&mut TraceOff, speed, density).unwrap())
    };
    let stated = propagate(&inputs, |moved| {
        Some(stiffness(&|i| match moved {
            Some((source, by)) if source == i => by,
            _ => 0.0,
        }))
    })
    .unwrap();
    let mut dice = Dice::of_seed(11);
    let inside = (0..THROWS)
        .filter(|_| {
            let thrown: Vec<f64> = inputs.iter().map(|i| i.standard * dice.normal()).collect();
            (stiffness(&|i| thrown[i]) - stated.value).abs() <= stated.expanded()
        })
        .count();
    let share = 100.0 * inside as f64 / f64::from(THROWS);
    assert!((share - 95.0).abs() <= 1.0, "{share} %");
}

#[test]
fn of_a_moisture_whose_wood_was_not_felt() {
    for mut readings in planks() {
        readings.remove(&WoodTemperature);
        let mut dice = Dice::of_seed(7);
        let result = |plank: &Plank| moisture(&mut TraceOff, plank).unwrap().in_percent();
        let inputs = Instruments::default().inputs(&readings);
        let of = |source| inputs.iter().find(|i| i.source == source).unwrap().standard;
        let (meter, warmth) = (of(Source::Meter), of(Source::Temperature));
        let plank = describe(&readings, &[]);
        let stated = propagate(&inputs, |moved| {
            Some(match moved {
                None => result(&plank),
                Some((source, by)) => result(&plank.perturbed(source, by)),
            })
        })
        .unwrap();
        // 0.5 % for 5.6 degrees: the correction that the maker does not know of.
        let inside = (0..THROWS)
            .filter(|_| {
                let off = meter * dice.normal() - warmth * dice.normal() * 0.5 / 5.6;
                off.abs() <= stated.expanded()
            })
            .count();
        let share = 100.0 * inside as f64 / f64::from(THROWS);
        assert!((share - 95.0).abs() <= 1.0, "{share} %");
    }
}
