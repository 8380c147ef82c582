//! How much wood there is: cross-sections at the stations, and the volume between them.
//!
//! It never fills in a length, a width or a thickness of which nothing at all was measured.

use super::{Plank, Stations};
use crate::quantity::{
    Area, Length, Trace, TraceOff, Volume, formula, in_mm, in_mm2, is_positive, m3, mm2,
};
use thiserror::Error;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Along the grain.
    Length,
    /// The wider cross dimension.
    Width,
    /// The thinner cross dimension.
    Thickness,
}

impl Side {
    pub fn name(self) -> &'static str {
        match self {
            Side::Length => "length",
            Side::Width => "width",
            Side::Thickness => "thickness",
        }
    }
}

/// Why a size can't be used.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum SizeError {
    #[error("the {} was not measured", .0.name())]
    Missing(Side),
    /// It is nothing, less than nothing, or no number.
    #[error("the {} comes to {:.1} mm: it has to be more than nothing", .side.name(), in_mm(*.value))]
    NotPositive { side: Side, value: Length },
}

/// A size that is there and is more than nothing.
pub(crate) fn positive(side: Side, value: Option<Length>) -> Result<Length, SizeError> {
    let value = value.ok_or(SizeError::Missing(side))?;
    if is_positive(value.value) {
        Ok(value)
    } else {
        Err(SizeError::NotPositive { side, value })
    }
}

/// The size at near end, middle and far end, in that order, from what was measured.
///
/// One value holds all along. Two values lie on a straight line, on which the third is found: the
/// middle is the mean of the ends, and an end that was not measured continues the line. The rule is
/// common practice, no source. `None` when nothing was measured.
///
/// No published value: a straight line through two points.
///
/// ```
/// use stillwood_core::{plank::{Stations, along}, quantity::{in_mm, mm}};
/// let tapered = Stations { near: Some(mm(214.0)), middle: None, far: Some(mm(194.0)) };
/// let [_, middle, _] = along(&tapered).unwrap();
/// assert!((in_mm(middle) - 204.0).abs() < 1e-9);
/// ```
pub fn along(stations: &Stations) -> Option<[Length; 3]> {
    Some(match (stations.near, stations.middle, stations.far) {
        (None, None, None) => return None,
        (Some(one), None, None) | (None, Some(one), None) | (None, None, Some(one)) => [one; 3],
        (Some(near), None, Some(far)) => [near, (near + far) / 2.0, far],
        (Some(near), Some(middle), None) => [near, middle, middle * 2.0 - near],
        (None, Some(middle), Some(far)) => [middle * 2.0 - far, middle, far],
        (Some(near), Some(middle), Some(far)) => [near, middle, far],
    })
}

fn positive_along(side: Side, stations: &Stations) -> Result<[Length; 3], SizeError> {
    let [near, middle, far] = along(stations).ok_or(SizeError::Missing(side))?;
    Ok([
        positive(side, Some(near))?,
        positive(side, Some(middle))?,
        positive(side, Some(far))?,
    ])
}

/// The areas of the cross-section at near end, middle and far end: width times thickness.
///
/// Derived here: geometry. An error when a width or a thickness is missing or not positive.
///
/// No published value: one multiplication.
pub fn cross_sections(trace: &mut impl Trace, plank: &Plank) -> Result<[Area; 3], SizeError> {
    let [w1, wm, w2] = positive_along(Side::Width, &plank.widths)?;
    let [t1, tm, t2] = positive_along(Side::Thickness, &plank.thicknesses)?;
    let mut section = |w, t| mm2(trace.work(&SECTION, [in_mm(w), in_mm(t)]));
    Ok([section(w1, t1), section(wm, tm), section(w2, t2)])
}

formula! {
    /// Area of a cross-section.
    SECTION: "Cross-section", "A", "mm²";
    w: "w", "width there", "mm";
    t: "t", "thickness there", "mm";
    = w * t;
    range "any";
    source "geometry";
}

formula! {
    /// Volume between two parallel ends.
    PRISMOID: "Volume", "V", "m³";
    l: "L", "length", "mm";
    near: "A₁", "cross-section at the near end", "mm²";
    middle: "Aₘ", "cross-section at the middle", "mm²";
    far: "A₂", "cross-section at the far end", "mm²";
    = l / 6.0 * (near + 4.0 * middle + far) / 1000000000.0;
    range "exact for a straight taper of width and thickness";
    source "the prismoidal formula, a textbook identity";
}

/// Volume of a body between two parallel ends: V = L/6 (A1 + 4 Am + A2).
///
/// L is the length, A1, Am and A2 the cross-sections at one end, at mid-length and at the other end.
/// Exact wherever the area is at most a cubic in the distance along (so for a straight taper of width
/// and of thickness at once). The prismoidal formula, a textbook identity; its worked example was read
/// in a public secondary text.
///
/// ```
/// use stillwood_core::{plank::prismoidal_volume, quantity::{in_m3, mm}};
/// let side = mm(1000.0);
/// let area = side * side;
/// let volume = prismoidal_volume(mm(10_000.0), area * 10.0, area * 18.0, area * 20.0);
/// assert!((in_m3(volume) - 170.0).abs() < 1e-9);
/// ```
pub fn prismoidal_volume(length: Length, near: Area, middle: Area, far: Area) -> Volume {
    prismoid(&mut TraceOff, length, [near, middle, far])
}

fn prismoid(trace: &mut impl Trace, length: Length, [near, middle, far]: [Area; 3]) -> Volume {
    let areas = [in_mm2(near), in_mm2(middle), in_mm2(far)];
    m3(trace.work(&PRISMOID, [in_mm(length), areas[0], areas[1], areas[2]]))
}

/// Volume of the plank, by [`prismoidal_volume`] of its [`cross_sections`].
///
/// An error when a size is missing or not positive.
pub fn volume(trace: &mut impl Trace, plank: &Plank) -> Result<Volume, SizeError> {
    let length = positive(Side::Length, plank.length)?;
    let areas = cross_sections(trace, plank)?;
    Ok(prismoid(trace, length, areas) + plank.between_stations)
}

/// Standard uncertainty of a [`volume`] by what nobody measured: the shape between the stations. It is how far the
/// prismoid lies from straight pieces from station to station, nothing for a straight taper or fewer than three
/// stations.
///
/// An error as for [`volume`]. Derived here: two shapes through the same stations; that their difference is one
/// standard deviation is common practice, no source.
///
/// No published value: a difference of two volumes by [`prismoidal_volume`], which has rows.
pub fn volume_shape_uncertainty(plank: &Plank) -> Result<Volume, SizeError> {
    let length = positive(Side::Length, plank.length)?;
    let widths = positive_along(Side::Width, &plank.widths)?;
    let thicknesses = positive_along(Side::Thickness, &plank.thicknesses)?;
    let mut straight = Volume::default();
    for half in 0..2 {
        let [w1, w2] = [widths[half], widths[half + 1]];
        let [t1, t2] = [thicknesses[half], thicknesses[half + 1]];
        let between = (w1 + w2) * (t1 + t2) / 4.0;
        straight += prismoidal_volume(length / 2.0, w1 * t1, between, w2 * t2);
    }
    Ok((volume(&mut TraceOff, plank)? - straight).abs())
}

/// The mean of the stations that were measured: the width that is paid for in a plank with a taper or
/// with wane.
///
/// Common practice: the mean of three widths, half the wane included. `None` when none was measured.
///
/// No published value: an arithmetic mean.
pub fn mean_of_stations(stations: &Stations) -> Option<Length> {
    let nothing = (Length::default(), 0.0);
    let add = |(sum, count), next| (sum + next, count + 1.0);
    let (sum, count) = stations.taken().fold(nothing, add);
    (count > 0.0).then(|| sum / count)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plank::{Field, Instruments, Reading, Readings, Source, describe};
    use crate::quantity::{Input, in_m3, mm, propagate};
    use proptest::prelude::*;
    use stillwood_tests::dice::Dice;

    fn a7() -> Plank {
        Plank {
            length: Some(mm(2620.0)),
            widths: Stations::three(mm(214.0), mm(205.0), mm(193.0)),
            thicknesses: Stations::one(mm(52.0)),
            ..Plank::default()
        }
    }

    #[test]
    fn a_tapered_plank_of_2_6_m() {
        let found = in_m3(volume(&mut TraceOff, &a7()).unwrap());
        assert!((0.0278..0.0279).contains(&found), "{found}");
        assert!((in_mm(mean_of_stations(&a7().widths).unwrap()) - 204.0).abs() < 1e-9);
    }

    #[test]
    fn an_end_that_was_not_measured_continues_the_line() {
        let sides = |near: Option<f64>, middle: Option<f64>, far: Option<f64>| {
            let [near, middle, far] = [near, middle, far].map(|side| side.map(mm));
            along(&Stations { near, middle, far })
                .map(|sides| sides.map(|side| in_mm(side).round()))
        };
        let whole = Some([214.0, 205.0, 196.0]);
        assert_eq!(sides(Some(214.0), Some(205.0), None), whole);
        assert_eq!(sides(None, Some(205.0), Some(196.0)), whole);
        assert_eq!(sides(Some(214.0), None, Some(196.0)), whole);
        assert_eq!(sides(None, None, Some(196.0)), Some([196.0; 3]));
        assert_eq!(sides(None, None, None), None);
    }

    #[test]
    fn the_shape_between_the_stations_is_a_doubt_of_its_own() {
        // 200, 180 and 200 mm wide, 50 thick, 3 m long: the prismoid has 28.0 l, straight pieces 28.5 l.
        let mut plank = a7();
        plank.length = Some(mm(3000.0));
        plank.widths = Stations::three(mm(200.0), mm(180.0), mm(200.0));
        plank.thicknesses = Stations::one(mm(50.0));
        let warning = in_m3(volume_shape_uncertainty(&plank).unwrap());
        assert!((warning - 0.000_5).abs() < 1e-9, "{warning}");
        // A straight taper of both leaves none.
        plank.widths = Stations::three(mm(220.0), mm(200.0), mm(180.0));
        plank.thicknesses = Stations::three(mm(56.0), mm(52.0), mm(48.0));
        assert!(in_m3(volume_shape_uncertainty(&plank).unwrap()) < 1e-12);
        plank.length = None;
        assert!(volume_shape_uncertainty(&plank).is_err());
    }

    /// Planks that are as wide at the stations as was read, and bellied or waisted between them as |x|^p: straight
    /// pieces at p = 1, the prismoid at p = 2, a plank that keeps its width until near the end beyond.
    #[test]
    fn the_interval_of_a_volume_holds_bellied_and_waisted_planks() {
        let mut dice = Dice::of_seed(1);
        let mut even = move || dice.even();
        let instruments = Instruments::default();
        let (mut held, mut of_tape_alone) = (0, 0);
        const PLANKS: u32 = 4000;
        for _ in 0..PLANKS {
            let (end, belly, p) = (
                150.0 + 100.0 * even(),
                80.0 * even() - 40.0,
                1.0 + 2.0 * even(),
            );
            let mut read = |field, value: f64, half: f64| {
                let off = (2.0 * even() - 1.0) * half;
                (field, Reading::of_number(value + off, "mm"))
            };
            let tape = instruments.width_mm;
            let mut readings = Readings::from([
                read(Field::Length, 2500.0, instruments.length_mm),
                read(Field::ThicknessNear, 52.0, instruments.thickness_mm),
                read(Field::WidthNear, end, 0.0),
            ]);
            // One tape is off the same way at all stations.
            let off = (2.0 * even() - 1.0) * tape;
            for (field, width) in [
                (Field::WidthNear, end),
                (Field::WidthMiddle, end + belly),
                (Field::WidthFar, end),
            ] {
                readings.insert(field, Reading::of_number(width + off, "mm"));
            }
            let truth = 2.5 * 0.052 * (end + belly * p / (p + 1.0)) / 1000.0;
            let interval = |inputs: &[Input<Source>]| {
                let plank = describe(&readings, &[]);
                let moved = |moved: Option<(Source, f64)>| {
                    let plank = moved.map_or(plank.clone(), |(s, by)| plank.perturbed(s, by));
                    volume(&mut TraceOff, &plank).ok()
                };
                let found = propagate(inputs, moved).unwrap();
                (in_m3(found.value) - truth).abs() <= in_m3(found.expanded())
            };
            let inputs = instruments.inputs(&readings);
            held += u32::from(interval(&inputs));
            let tape: Vec<_> = inputs
                .into_iter()
                .filter(|one| one.source != Source::BetweenStations)
                .collect();
            of_tape_alone += u32::from(interval(&tape));
        }
        let share = |count| f64::from(count) / f64::from(PLANKS);
        assert!(share(held) > 0.95, "{}", share(held));
        // Without the shape it is a promise that is not kept.
        assert!(share(of_tape_alone) < 0.93, "{}", share(of_tape_alone));
    }

    #[test]
    fn what_was_not_measured_is_named() {
        let mut plank = a7();
        plank.thicknesses = Stations::default();
        let error = volume(&mut TraceOff, &plank).unwrap_err();
        assert_eq!(error.to_string(), "the thickness was not measured");
        plank.thicknesses = Stations::one(mm(-3.0));
        assert!(
            volume(&mut TraceOff, &plank)
                .unwrap_err()
                .to_string()
                .contains("-3.0 mm")
        );
        plank.thicknesses = Stations::one(mm(f64::NAN));
        assert!(volume(&mut TraceOff, &plank).is_err());
        assert_eq!(mean_of_stations(&Stations::default()), None);
    }

    #[test]
    fn a_line_that_runs_out_before_the_end_is_refused() {
        let mut plank = a7();
        plank.widths = Stations {
            near: Some(mm(200.0)),
            middle: Some(mm(90.0)),
            far: None,
        };
        assert!(matches!(
            volume(&mut TraceOff, &plank),
            Err(SizeError::NotPositive {
                side: Side::Width,
                ..
            })
        ));
    }

    proptest! {
        // A straight taper both ways, against a thousand thin slices.
        #[test]
        fn agrees_with_fine_slices(
            length in 300.0..6000.0f64,
            w1 in 40.0..600.0f64, w2 in 40.0..600.0f64,
            t1 in 10.0..120.0f64, t2 in 10.0..120.0f64,
        ) {
            let ends = |near, far| Stations { near: Some(mm(near)), middle: None, far: Some(mm(far)) };
            let plank = Plank {
                length: Some(mm(length)),
                widths: ends(w1, w2),
                thicknesses: ends(t1, t2),
                ..Plank::default()
            };
            let slices = 1000;
            let sliced: f64 = (0..slices)
                .map(|i| {
                    let at = (f64::from(i) + 0.5) / f64::from(slices);
                    (w1 + (w2 - w1) * at) * (t1 + (t2 - t1) * at) * length / f64::from(slices)
                })
                .sum::<f64>() / 1e9;
            let found = in_m3(volume(&mut TraceOff, &plank).unwrap());
            prop_assert!((found - sliced).abs() < 1e-6 * sliced, "{found} {sliced}");
        }
    }
}
