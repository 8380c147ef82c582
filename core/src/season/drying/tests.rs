//! Drying: the worked series, invented series made by the same law, and what is refused.

use super::weighing::{from_grams, grams};
use super::*;
use crate::quantity::Moisture;
use crate::quantity::TraceOff;
use proptest::prelude::*;

fn series(points: &[(f64, f64)], air: f64) -> Vec<Weighing> {
    points
        .iter()
        .map(|&(day, grams)| Weighing {
            day,
            mass: from_grams(grams),
            air: Moisture::percent(air),
        })
        .collect()
}

const SLOWING: [(f64, f64); 5] = [
    (0.0, 3264.0),
    (30.0, 3231.0),
    (60.0, 3213.0),
    (91.0, 3204.0),
    (121.0, 3199.0),
];

#[test]
fn a_series_that_has_nearly_settled() {
    let report = drying(&series(&SLOWING, 8.5), from_grams(0.5)).unwrap();
    let fit = report.fit.unwrap();
    assert_eq!(report.drying, Drying::Steady);
    assert!((fit.time_constant.value - 46.97).abs() < 0.01);
    assert!((grams(fit.left_mass.value) - 5.35).abs() < 0.01);
    assert!((fit.left.value.in_percent() - 0.18).abs() < 0.005);
    assert!(fit.left.low.in_percent() > 0.0 && fit.left.high.in_percent() < 0.5);
    assert!((grams(fit.settles_at.value) - 3193.68).abs() < 0.03);
    assert_eq!(fit.days_until_near.value, 0.0);
}

#[test]
fn it_makes_no_difference_from_which_day_days_are_counted() {
    let later = SLOWING.map(|(day, grams)| (day + 400.0, grams));
    let [from_nought, from_400] =
        [SLOWING, later].map(|points| drying(&series(&points, 8.5), from_grams(0.5)).unwrap());
    assert_eq!(from_nought, from_400);
}

#[test]
fn halfway_it_is_still_drying_with_a_date() {
    let report = drying(&series(&SLOWING[..4], 8.5), from_grams(0.1)).unwrap();
    let fit = report.fit.unwrap();
    // Four weighings and a scatter of a gram leave it open; at 10 g still to lose it is not steady.
    assert_ne!(report.drying, Drying::Steady);
    let mut wet: Vec<(f64, f64)> = Vec::new();
    for step in 0..6 {
        let day = 15.0 * f64::from(step);
        wet.push((day, 3000.0 * (1.085 + 0.06 * libm::exp(-day / 50.0))));
    }
    let report = drying(&series(&wet, 8.5), from_grams(0.5)).unwrap();
    assert_eq!(report.drying, Drying::StillDrying);
    let days = report.fit.unwrap().days_until_near;
    // 6 % above at first, so half a percent after 50 ln 12 days, of which 75 are gone.
    assert!((days.value - (50.0 * libm::log(12.0) - 75.0)).abs() < 0.5);
    assert!(days.low < days.value && days.value < days.high && days.high < 70.0);
    assert!(fit.time_constant.low < fit.time_constant.high);
}

#[test]
fn more_weight_in_damper_air_says_nothing_of_what_is_left() {
    let mut two = series(&[(0.0, 3200.0), (200.0, 3271.0)], 7.7);
    two[1].air = Moisture::percent(10.1);
    let report = drying(&two, from_grams(2.5)).unwrap();
    assert_eq!(
        (report.drying, report.gained_as_air),
        (Drying::TooFew, true)
    );
    assert!(report.in_words().starts_with("too few weighings; "));
    // More than the air accounts for is not of the air.
    two[1].mass = from_grams(3300.0);
    let report = drying(&two, from_grams(2.5)).unwrap();
    assert!(!report.gained_as_air);
    assert_eq!(report.in_words(), "too few weighings");
}

/// A dry piece that lags 100 days behind its air, and air that turned damp before the last weighing: what it gained
/// is less than the air accounts for, and by all its weighings it is far below its equilibrium.
#[test]
fn wood_far_from_its_air_is_not_hidden_by_damp_weather() {
    let airs: [f64; 6] = [9.0, 9.0, 9.0, 9.0, 9.0, 12.0];
    let (mut percent, tau, gap): (f64, f64, f64) = (5.0, 100.0, 15.0);
    let mut weighings: Vec<Weighing> = Vec::new();
    for (n, air) in airs.into_iter().enumerate() {
        if n > 0 {
            let before = airs[n - 1];
            let lag = (air - before) / gap * tau;
            percent = air - lag + (percent - before + lag) * libm::exp(-gap / tau);
        }
        weighings.push(Weighing {
            day: gap * n as f64,
            mass: from_grams(2000.0 * (1.0 + percent / 100.0)),
            air: Moisture::percent(air),
        });
    }
    let report = drying(&weighings, from_grams(0.5)).unwrap();
    assert_eq!(
        (report.drying, report.gained_as_air),
        (Drying::TakingUpWater, true)
    );
    assert!(report.fit.unwrap().left.high.in_percent() < -2.0);
}

#[test]
fn a_piece_drier_than_its_air_takes_up_water() {
    let law = |day: f64| 3000.0 * (1.085 - 0.04 * libm::exp(-day / 60.0));
    let rising: Vec<_> = [0.0, 10.0, 20.0, 30.0, 40.0].map(|d| (d, law(d))).into();
    let report = drying(&series(&rising, 8.5), from_grams(0.5)).unwrap();
    assert_eq!(report.drying, Drying::TakingUpWater);
}

#[test]
fn a_line_still_dries() {
    let line: Vec<_> = [0.0, 30.0, 60.0, 90.0, 120.0, 150.0, 180.0]
        .map(|d| (d, 3400.0 - d))
        .into();
    let report = drying(&series(&line, 8.5), from_grams(0.5)).unwrap();
    assert_eq!(report.drying, Drying::StillDrying);
}

#[test]
fn what_a_scale_can_see() {
    let sees = |grams: f64, h: f64| {
        smallest_change_seen(from_grams(h)).unwrap()
            <= one_percent_of(from_grams(grams), Moisture::percent(9.0)).unwrap()
    };
    let laminate = 950.0 * 48.0 * 14.0 * 706e-6;
    let one = one_percent_of(from_grams(laminate), Moisture::percent(9.0)).unwrap();
    assert!((grams(one) - 4.1).abs() < 0.1);
    // 2 sqrt(2) of 1/sqrt(3) g, from a scale that may be off by a gram.
    let least = smallest_change_seen(from_grams(1.0)).unwrap();
    assert!((grams(least) - 1.632_993).abs() < 1e-6);
    let plank = one_percent_of(from_grams(20_000.0), Moisture::percent(9.0)).unwrap();
    assert!((grams(plank) - 183.0).abs() < 1.0);
    assert!(sees(laminate, 0.5) && !sees(laminate, 25.0) && sees(20_000.0, 25.0));
    let coarse = series(&[(0.0, laminate), (30.0, laminate)], 9.0);
    let report = drying(&coarse, from_grams(25.0)).unwrap();
    assert_eq!(
        report.drying.words(),
        "the scale cannot see 1 % in this piece"
    );
}

#[test]
fn a_witness_tells_the_air() {
    let at = |m| {
        air_from_witness(
            &mut TraceOff,
            from_grams(500.0),
            Moisture::percent(8.0),
            from_grams(m),
        )
    };
    assert!((at(509.26).unwrap().in_percent() - 10.0).abs() < 0.001);
    assert!(at(900.0).is_err() && at(0.0).is_err() && at(f64::NAN).is_err());
}

#[test]
fn nonsense_is_refused_in_words() {
    let scale = from_grams(1.0);
    assert_eq!(drying(&[], scale), Err(DryingError::Nothing));
    let back = series(&[(0.0, 3200.0), (0.0, 3190.0)], 8.0);
    assert_eq!(
        drying(&back, scale).unwrap_err().to_string(),
        "the weighing of day 0 does not come after the one before it"
    );
    for (grams, air, h) in [
        (0.0, 8.0, 1.0),
        (f64::NAN, 8.0, 1.0),
        (1e3, 31.0, 1.0),
        (1e3, 8.0, 0.0),
    ] {
        assert!(drying(&series(&[(0.0, grams)], air), from_grams(h)).is_err());
    }
    assert_eq!(
        drying(&series(&[(0.0, 3e3)], 8.0), scale).unwrap().drying,
        Drying::TooFew
    );
}

/// Of many series read off a scale, in about nineteen of twenty the truth lies in the interval.
#[test]
fn intervals_hold_the_truth_about_as_often_as_they_say() {
    let (tau, half_width) = (40.0, 2.5);
    let law = |day: f64| 3000.0 * (1.085 + 0.05 * libm::exp(-day / tau));
    let left = 5.0 * libm::exp(-120.0 / tau);
    let mut held = 0;
    for number in 0..300 {
        let mut weighings = Vec::new();
        for step in 0..9 {
            // Evenly over the scale's doubt, by steps of the golden ratio.
            let along =
                f64::from(number * 9 + step) * 0.618_033_988_75 + f64::from(number) * 0.754_877;
            let off = (2.0 * (along - along.floor()) - 1.0) * half_width;
            let day = 15.0 * f64::from(step);
            weighings.push((day, law(day) + off));
        }
        let fit = fit_drying(&series(&weighings, 8.5), from_grams(half_width)).unwrap();
        let in_left = fit.left.low.in_percent() <= left && left <= fit.left.high.in_percent();
        let in_tau = fit.time_constant.low <= tau && tau <= fit.time_constant.high;
        held += u32::from(in_left) + u32::from(in_tau);
    }
    assert!((540..=600).contains(&held), "{held} of 600");
}

proptest! {
    // A piece that follows changing air by the law itself, and is weighed without error.
    #[test]
    fn the_law_gives_its_numbers_back(
        tau in 15.0..90.0f64, first in 12.0..20.0f64, swing in -2.0..2.0f64,
    ) {
        let airs: Vec<f64> = (0..9).map(|n| 9.0 + swing * libm::sin(f64::from(n))).collect();
        let (mut moisture, dry) = (first, 3000.0);
        let mut weighings = Vec::new();
        for (n, air) in airs.iter().enumerate() {
            weighings.push(Weighing {
                day: 20.0 * n as f64, mass: from_grams(dry * (1.0 + moisture / 100.0)),
                air: Moisture::percent(*air),
            });
            let Some(next) = airs.get(n + 1) else { break };
            // In small steps, the second way.
            for step in 0..20_000 {
                let now = air + (next - air) * (f64::from(step) + 0.5) / 20_000.0;
                moisture += (now - moisture) / tau * 0.001;
            }
        }
        let fit = fit_drying(&weighings, from_grams(0.5)).unwrap();
        prop_assert!((fit.time_constant.value / tau - 1.0).abs() < 0.01);
        prop_assert!((fit.left.value.in_percent() - (moisture - airs[8])).abs() < 0.01);
        prop_assert!((grams(fit.dry) / dry - 1.0).abs() < 1e-3);
        prop_assert!(fit.left.low <= fit.left.value && fit.left.value <= fit.left.high);
    }
}
