//! Counts of parts by hand, and against the sum over clear runs.

use super::*;
use crate::plank::Stations;
use proptest::prelude::*;

fn along(stick: f64, piece: f64, kerf: f64, trim: f64, zones: &[(f64, f64)]) -> Vec<Place> {
    let zones: Vec<Place> = zones
        .iter()
        .map(|(from, to)| Place {
            from: mm(*from),
            to: mm(*to),
        })
        .collect();
    places_along(mm(stick), mm(piece), mm(kerf), mm(trim), &zones).unwrap()
}

fn across(kerf: f64) -> usize {
    places_across(mm(205.0), mm(16.0), mm(kerf), mm(10.0))
        .unwrap()
        .len()
}

#[test]
fn a_thin_kerf_gives_one_more_part() {
    assert_eq!(across(1.3), 11);
    assert_eq!(across(3.2), 10);
}

#[test]
fn two_of_950_and_the_rest() {
    let places = along(2620.0, 950.0, 3.2, 70.0, &[]);
    assert_eq!(places.len(), 2);
    assert!((in_mm(places[1].from) - 1023.2).abs() < 1e-6);
}

#[test]
fn a_piece_that_fits_to_the_hair_fits() {
    assert_eq!(along(953.0 * 3.0 - 3.0, 950.0, 3.0, 0.0, &[]).len(), 3);
    assert_eq!(along(953.0 * 3.0 - 3.1, 950.0, 3.0, 0.0, &[]).len(), 2);
    // Ninths of a metre, which binary numbers don't have.
    assert_eq!(along(1000.0, 1000.0 / 9.0, 0.0, 0.0, &[]).len(), 9);
}

#[test]
fn a_knot_in_the_middle_splits_the_plank() {
    assert_eq!(along(2000.0, 950.0, 3.0, 0.0, &[(990.0, 1010.0)]).len(), 2);
    assert_eq!(along(2000.0, 950.0, 3.0, 0.0, &[(900.0, 910.0)]).len(), 1);
    // Overlapping zones, in no order, one beyond the end.
    let zones = [(1500.0, 2500.0), (100.0, 300.0), (250.0, 400.0)];
    let places = along(2000.0, 950.0, 3.0, 0.0, &zones);
    assert_eq!(
        places,
        [Place {
            from: mm(400.0),
            to: mm(400.0) + mm(950.0)
        }]
    );
}

#[test]
fn a_kink_may_be_cut_at_but_not_kept() {
    let places = along(2000.0, 900.0, 4.0, 0.0, &[(950.0, 950.0)]);
    assert_eq!(places.len(), 2);
    assert_eq!(places[1].from, mm(950.0));
}

#[test]
fn what_is_too_thin_holds_nothing_and_what_is_unplaced_is_named() {
    let knot = |from| Defect {
        kind: DefectKind::Knot,
        from,
        to: None,
        note: String::new(),
    };
    let plank = Plank {
        length: Some(mm(2620.0)),
        widths: Stations::three(mm(214.0), mm(205.0), mm(193.0)),
        defects: vec![knot(None), knot(Some(mm(1300.0)))],
        ..Plank::default()
    };
    let mut cutting = CutSpec {
        length: mm(950.0),
        across: mm(16.0),
        slab: mm(48.0),
        piece: None,
        planing: mm(1.0),
        kerf: mm(3.2),
        end_trim: mm(70.0),
        edge_trim: mm(10.0),
        parts_per_blank: 5,
    };
    let thin = count_parts(
        &plank,
        &cutting,
        mm(47.3),
        zones_to_cut_round(&plank.defects),
    )
    .unwrap();
    assert_eq!(
        (thin.thick_enough, thin.parts, thin.along.len()),
        (false, 0, 2)
    );
    assert_eq!(thin.zones.unplaced, [DefectKind::Knot]);
    let thick = count_parts(
        &plank,
        &cutting,
        mm(48.0),
        zones_to_cut_round(&plank.defects),
    )
    .unwrap();
    // The least width counts: 193 - 10 holds 8 of 18, planing and all, with 3.2 between.
    assert_eq!((thick.across.len(), thick.parts), (8, 16));
    let blanks = thick.blanks.unwrap();
    assert!((blanks.exact - 3.2).abs() < 1e-12 && blanks.whole == 3);
    cutting.parts_per_blank = 0;
    assert_eq!(
        count_parts(
            &plank,
            &cutting,
            mm(48.0),
            zones_to_cut_round(&plank.defects)
        )
        .unwrap()
        .blanks,
        None
    );
}

#[test]
fn sizes_that_make_no_sense_are_refused() {
    let call =
        |stick, piece, kerf, trim| places_along(mm(stick), mm(piece), mm(kerf), mm(trim), &[]);
    assert!(call(2000.0, 0.0, 3.0, 0.0).is_err());
    assert!(call(2000.0, f64::NAN, 3.0, 0.0).is_err());
    assert!(call(2000.0, 950.0, -3.0, 0.0).is_err());
    assert!(call(2000.0, 950.0, 3.0, f64::NAN).is_err());
    assert!(call(0.0, 950.0, 3.0, 0.0).is_err());
    assert!(call(1e9, 950.0, 3.0, 0.0).is_err());
    assert_eq!(call(2000.0, 950.0, 3.0, 5000.0), Ok(Vec::new()));
}

#[test]
fn a_piece_that_is_sawn_first_holds_whole_parts_and_takes_the_planing_of_its_edges() {
    let plank = Plank {
        length: Some(mm(2620.0)),
        widths: Stations::one(mm(205.0)),
        thicknesses: Stations::one(mm(52.0)),
        ..Plank::default()
    };
    let straight_off = CutSpec {
        length: mm(950.0),
        across: mm(16.0),
        slab: mm(45.0),
        piece: None,
        planing: mm(1.0),
        kerf: mm(3.2),
        end_trim: mm(70.0),
        edge_trim: mm(10.0),
        parts_per_blank: 5,
    };
    let across = |piece| {
        let cut = CutSpec {
            piece,
            ..straight_off
        };
        let found =
            count_parts(&plank, &cut, mm(49.0), zones_to_cut_round(&plank.defects)).unwrap();
        found.across
    };
    // By hand: 18 sawn; 195 + 3.2 over 21.2 is 9 parts.
    assert_eq!(across(None).len(), 9);
    // By hand: 82 sawn; 195 + 3.2 over 85.2 is 2 pieces; in 80 planed, 83.2 over 21.2 is 3 parts of 18.
    let found = across(Some(mm(80.0)));
    assert_eq!(found.len(), 6);
    let second = [found[1].from, found[3].from].map(in_mm);
    assert!(
        (second[0] - 27.2).abs() < 1e-9 && (second[1] - 91.2).abs() < 1e-9,
        "{second:?}"
    );
    // A piece as wide as a part is one part; a narrower one holds none.
    assert_eq!(across(Some(mm(16.0))).len(), 9);
    assert_eq!(across(Some(mm(15.0))).len(), 0);
}

proptest! {
    // Zones at least a kerf long: the count is the sum over the clear runs.
    #[test]
    fn the_count_is_the_sum_over_clear_runs(
        stick in 500u32..6000, piece in 50u32..1200, kerf in 0u32..6, trim in 0u32..150,
        zones in prop::collection::vec((0u32..6000, 6u32..400), 0..5),
    ) {
        let zones: Vec<(f64, f64)> = zones
            .iter()
            .map(|(from, long)| (f64::from(*from), f64::from(from + long)))
            .collect();
        let [stick, piece, kerf, trim] = [stick, piece, kerf, trim].map(f64::from);
        let end = stick - trim;
        let mut sorted = zones.clone();
        sorted.push((end, end));
        sorted.sort_by(|a, b| a.0.total_cmp(&b.0));
        let (mut from, mut count) = (trim, 0.0);
        for (zone_from, zone_to) in sorted {
            let run = zone_from.min(end) - from;
            if run > 0.0 {
                count += ((run + kerf) / (piece + kerf) + 1e-9).floor();
            }
            from = from.max(zone_to);
        }
        let places = along(stick, piece, kerf, trim, &zones);
        prop_assert_eq!(places.len() as f64, count);
    }
}

proptest! {
    // Any zones, kinks among them: each piece begins at the first place that is free, looked for zone by zone.
    #[test]
    fn zones_are_passed_as_one_by_one(
        stick in 500u32..6000, piece in 50u32..1200, kerf in 0u32..6,
        zones in prop::collection::vec((0u32..6000, 0u32..400), 0..60),
    ) {
        let zones: Vec<(f64, f64)> = zones
            .iter()
            .map(|(from, long)| (f64::from(*from), f64::from(from + long)))
            .collect();
        let [stick, piece, kerf] = [stick, piece, kerf].map(f64::from);
        let (mut from, mut expected) = (0.0, Vec::new());
        loop {
            let in_the_way = zones.iter().find(|zone| zone.0 < from + piece && zone.1 > from);
            match in_the_way {
                Some(zone) => from = zone.1,
                None if from + piece > stick => break,
                None => {
                    expected.push(from);
                    from += piece + kerf;
                }
            }
        }
        let places = along(stick, piece, kerf, 0.0, &zones);
        let found: Vec<f64> = places.iter().map(|place| in_mm(place.from).round()).collect();
        prop_assert_eq!(found, expected);
    }
}

#[test]
fn a_defect_at_one_place_reaches_to_either_side() {
    let knot = |from: Option<f64>, to: Option<f64>| Defect {
        kind: *DefectKind::ALL
            .iter()
            .find(|kind| kind.severity() == DefectSeverity::CutRound)
            .unwrap(),
        from: from.map(mm),
        to: to.map(mm),
        note: String::new(),
    };
    let zone = |from, to| {
        let zones = zones_to_cut_round(&[knot(from, to)]);
        zones
            .places
            .first()
            .map(|place| [place.from, place.to].map(|at| in_mm(at).round()))
    };
    assert_eq!(zone(Some(500.0), None), Some([480.0, 520.0]));
    assert_eq!(zone(None, Some(500.0)), Some([480.0, 520.0]));
    assert_eq!(zone(Some(540.0), Some(500.0)), Some([500.0, 540.0]));
    assert_eq!(zone(None, None), None);
}

#[test]
fn wane_along_an_edge_forbids_no_stretch_for_the_widths_are_without_it() {
    let wane = Defect {
        kind: DefectKind::Wane,
        from: Some(mm(0.0)),
        to: Some(mm(2620.0)),
        note: String::new(),
    };
    assert_eq!(zones_to_cut_round(&[wane]), Zones::default());
}

#[test]
fn a_part_is_a_millimetre_at_least() {
    let one = |size: f64| places_along(mm(10.0), mm(size), mm(0.0), mm(0.0), &[]);
    assert_eq!(one(1.0).map(|places| places.len()), Ok(10));
    assert_eq!(one(0.99), Err(CuttingError::PartTooSmall(mm(0.99))));
}

#[test]
fn what_is_left_is_what_no_part_takes() {
    let plank = Plank {
        length: Some(mm(2620.0)),
        widths: Stations::one(mm(205.0)),
        thicknesses: Stations::one(mm(52.0)),
        ..Plank::default()
    };
    let cutting = CutSpec {
        length: mm(950.0),
        across: mm(80.0),
        slab: mm(45.0),
        piece: None,
        planing: mm(1.0),
        kerf: mm(3.0),
        end_trim: mm(70.0),
        edge_trim: mm(10.0),
        parts_per_blank: 1,
    };
    let found = count_parts(
        &plank,
        &cutting,
        mm(49.0),
        zones_to_cut_round(&plank.defects),
    )
    .unwrap();
    assert_eq!(found.parts, 4);
}
