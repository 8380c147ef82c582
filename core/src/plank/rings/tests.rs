//! Ring angles by hand, and against every point of a part.

use super::*;
use crate::quantity::{TraceOff, mm};
use proptest::prelude::*;

/// A ring of radius 125 mm.
fn arc() -> Rings {
    Rings::Arc {
        chord: mm(150.0),
        dip: mm(25.0),
        pith: mm(0.0),
    }
}

#[test]
fn rings_lie_flat_over_the_pith_wherever_it_is() {
    let rings = Rings::Arc {
        chord: mm(150.0),
        dip: mm(25.0),
        pith: mm(30.0),
    };
    let at = |offset: f64| in_degrees(ring_angle_at(&mut TraceOff, &rings, mm(offset)).unwrap());
    assert!(at(30.0).abs() < 1e-9);
    // The same distance either side of the pith; the pith lies R = 125 mm deep: tan a = 50/125.
    assert!((at(80.0) - at(-20.0)).abs() < 1e-9);
    assert!(
        (at(80.0) - libm::atan(0.4).to_degrees()).abs() < 1e-9,
        "{}",
        at(80.0)
    );
}

#[test]
fn a_big_log_gives_a_wide_quartered_band() {
    let band = quartered_when_turned(&mut TraceOff, &arc(), mm(205.0))
        .unwrap()
        .unwrap();
    assert!((in_mm(band.to) - 72.2).abs() < 0.1 && (in_mm(band.from) + 72.2).abs() < 0.1);
    // A ring of radius 60: chord 96, dip 24.
    let small = Rings::Arc {
        chord: mm(96.0),
        dip: mm(24.0),
        pith: mm(0.0),
    };
    let band = quartered_when_turned(&mut TraceOff, &small, mm(205.0))
        .unwrap()
        .unwrap();
    assert!((in_mm(band.to) - 34.6).abs() < 0.1);
}

#[test]
fn the_part_at_80_mm_is_rift() {
    let turned = turned_on_edge(
        &mut TraceOff,
        ring_angle_at(&mut TraceOff, &arc(), mm(80.0)).unwrap(),
    )
    .unwrap();
    assert!((in_degrees(turned) - 57.4).abs() < 0.1);
    assert_eq!(RingClass::of(turned), Ok(RingClass::Rift));
}

#[test]
fn pith_beside_the_plank_may_leave_nothing() {
    let far = Rings::Arc {
        chord: mm(96.0),
        dip: mm(24.0),
        pith: mm(300.0),
    };
    assert_eq!(
        quartered_when_turned(&mut TraceOff, &far, mm(200.0)),
        Ok(None)
    );
}

#[test]
fn classes_meet_at_30_and_60() {
    let class = |a| RingClass::of(degrees(a)).unwrap();
    assert_eq!(class(0.0), RingClass::Flatsawn);
    assert_eq!(class(29.9), RingClass::Flatsawn);
    assert_eq!(class(30.0), RingClass::Rift);
    assert_eq!(class(60.0), RingClass::Quartersawn);
    assert_eq!(class(90.0), RingClass::Quartersawn);
    assert!(RingClass::of(degrees(91.0)).is_err());
    assert!(RingClass::of(degrees(f64::NAN)).is_err());
}

#[test]
fn what_was_not_read_is_not_told() {
    let angle = Rings::Angle(degrees(10.0));
    assert_eq!(
        ring_angle_at(&mut TraceOff, &angle, mm(0.0)),
        Ok(degrees(10.0))
    );
    assert_eq!(
        ring_angle_at(&mut TraceOff, &angle, mm(30.0)),
        Err(RingError::AngleOnly)
    );
    assert!(ring_radius(&mut TraceOff, mm(25.0), mm(150.0)).is_err());
    assert!(ring_radius(&mut TraceOff, mm(0.0), mm(1.0)).is_err());
}

#[test]
fn a_wide_plank_goes_from_flat_at_the_middle_to_rift_at_its_edges() {
    let whole =
        ring_angles_within(&mut TraceOff, &arc(), Band::whole(mm(205.0)), mm(52.0)).unwrap();
    assert_eq!(in_degrees(whole.least), 0.0);
    assert!((in_degrees(whole.greatest) - 46.0).abs() < 0.1);
    assert_eq!(whole.class(), None);
    let middle = Band::whole(mm(16.0));
    let part = ring_angles_within(&mut TraceOff, &arc(), middle, mm(52.0)).unwrap();
    assert_eq!(part.class(), Some(RingClass::Flatsawn));
    assert_eq!(part.turned_on_edge().class(), Some(RingClass::Quartersawn));
}

#[test]
fn a_plank_that_holds_the_pith_has_no_range_of_angles() {
    let whole = Band::whole(mm(205.0));
    let refused = ring_angles_within(&mut TraceOff, &arc(), whole, mm(260.0)).unwrap_err();
    assert_eq!(
        refused.to_string(),
        "a ring of 125 mm radius in a plank 260 mm thick: the pith lies in it"
    );
    assert!(ring_angles_within(&mut TraceOff, &arc(), whole, mm(f64::NAN)).is_err());
    assert!(ring_angles_within(&mut TraceOff, &arc(), Band::whole(mm(0.0)), mm(52.0)).is_err());
    let angle = Rings::Angle(degrees(10.0));
    assert_eq!(
        ring_angles_within(&mut TraceOff, &angle, whole, mm(52.0)),
        Err(RingError::AngleOnly)
    );
}

proptest! {
    // Whatever point of a part is looked at, its angle lies in the part's range, and the range is met.
    #[test]
    fn every_point_of_a_part_lies_in_its_range(
        pith in -200.0..200.0f64, from in -150.0..140.0f64, wide in 1.0..60.0f64, thick in 10.0..100.0f64,
    ) {
        let rings = Rings::Arc { chord: mm(150.0), dip: mm(25.0), pith: mm(pith) };
        let band = Band { from: mm(from), to: mm(from + wide) };
        let span = ring_angles_within(&mut TraceOff, &rings, band, mm(thick)).unwrap();
        let (least, greatest) = (in_degrees(span.least), in_degrees(span.greatest));
        let (mut low, mut high) = (f64::MAX, f64::MIN);
        for i in 0..=40 {
            for j in 0..=40 {
                let x = from + wide * f64::from(i) / 40.0 - pith;
                let h = 125.0 - thick / 2.0 + thick * f64::from(j) / 40.0;
                let angle = libm::atan(x.abs() / h).to_degrees();
                prop_assert!(angle >= least - 1e-9 && angle <= greatest + 1e-9);
                (low, high) = (low.min(angle), high.max(angle));
            }
        }
        prop_assert!(high > greatest - 1e-9 && low < least + 1.0, "{low} {least}");
    }

    // The pith on the other side is the plank seen in a mirror.
    #[test]
    fn the_pith_to_the_left_is_the_pith_to_the_right_in_a_mirror(
        pith in 0.0..200.0f64, x in -150.0..150.0f64, wide in 1.0..60.0f64,
    ) {
        let rings = |pith| Rings::Arc { chord: mm(150.0), dip: mm(25.0), pith: mm(pith) };
        let (left, right) = (rings(-pith), rings(pith));
        let at = |rings, x| ring_angle_at(&mut TraceOff, rings, mm(x)).unwrap();
        prop_assert_eq!(at(&left, x), at(&right, -x));
        prop_assert_eq!(at(&left, -pith), degrees(0.0));
        let band = |from: f64| Band { from: mm(from), to: mm(from + wide) };
        let span = |rings, from| ring_angles_within(&mut TraceOff, rings, band(from), mm(50.0)).unwrap();
        let (a, b) = (span(&left, x), span(&right, -x - wide));
        prop_assert!((in_degrees(a.least) - in_degrees(b.least)).abs() < 1e-9);
        prop_assert!((in_degrees(a.greatest) - in_degrees(b.greatest)).abs() < 1e-9);
    }

    // A chord and its dip, cut out of a circle of known radius, give the radius back.
    #[test]
    fn the_radius_comes_back(radius in 20.0..800.0f64, share in 0.05..1.0f64) {
        let half = radius * share;
        let dip = radius - (radius * radius - half * half).sqrt();
        let found = in_mm(ring_radius(&mut TraceOff, mm(2.0 * half), mm(dip * (1.0 - 1e-12))).unwrap());
        prop_assert!((found - radius).abs() < 1e-6 * radius, "{found}");
    }
}

#[test]
fn a_dip_is_no_more_than_half_its_chord() {
    // At half the chord the arc is half a ring, and its radius the dip.
    let half = ring_radius(&mut TraceOff, mm(150.0), mm(75.0)).unwrap();
    assert!((in_mm(half) - 75.0).abs() < 1e-9);
    let more = ring_radius(&mut TraceOff, mm(150.0), mm(75.1));
    assert!(matches!(more, Err(RingError::MoreThanHalf { .. })));
}

/// Why [`ring_angle_at`] tells nothing beside mid-width where only an angle was read: from 20 degrees there, a pith
/// 40 mm deep and one 600 mm deep make the same reading, and every class 80 mm to its side.
#[test]
fn an_angle_at_mid_width_leaves_every_class_open_beside_it() {
    let read = degrees(20.0);
    let mut classes = Vec::new();
    for depth in [40.0, 120.0, 250.0, 600.0] {
        // The pith lies where the reading says, to the right or to the left.
        let pith = depth * libm::tan(20_f64.to_radians());
        for pith in [pith, -pith] {
            // A ring of this radius, by a chord and its dip.
            let dip = depth - (depth * depth - 25.0 * 25.0).sqrt();
            let rings = Rings::Arc {
                chord: mm(50.0),
                dip: mm(dip),
                pith: mm(pith),
            };
            let at = |offset| ring_angle_at(&mut TraceOff, &rings, mm(offset)).unwrap();
            assert!((in_degrees(at(0.0)) - in_degrees(read)).abs() < 1e-6);
            classes.push(RingClass::of(at(80.0)).unwrap());
        }
    }
    classes.sort_unstable();
    classes.dedup();
    let all = [RingClass::Flatsawn, RingClass::Rift, RingClass::Quartersawn];
    assert_eq!(classes, all);
    let beside = ring_angle_at(&mut TraceOff, &Rings::Angle(read), mm(80.0));
    assert_eq!(beside, Err(RingError::AngleOnly));
}
