//! Best places by hand, and against a search of every millimetre.

use super::*;
use crate::plank::{Bend, BendShape, Defect, DefectKind, Stations};
use crate::quantity::mm;
use proptest::prelude::*;

/// A line through corners, flat beyond them.
fn course(corners: &[(f64, f64)], at: f64) -> f64 {
    let first = corners[0];
    let last = corners[corners.len() - 1];
    if at <= first.0 {
        return first.1;
    }
    for pair in corners.windows(2) {
        let ((x, y), (to, high)) = (pair[0], pair[1]);
        if at <= to {
            return y + (high - y) * (at - x) / (to - x);
        }
    }
    last.1
}

fn worth<'a>(of: &'a dyn Fn(Length) -> f64, turns: &'a [Length]) -> Worth<'a> {
    Worth {
        of,
        turns,
        enough: None,
    }
}

/// The most blanks and their largest worth, by trying every millimetre from the far end backwards.
fn by_search(
    stick: &Stick<'_>,
    most: usize,
    enough: f64,
    worth: &dyn Fn(f64) -> f64,
) -> (usize, f64) {
    let length = in_mm(stick.length).round() as usize;
    let (piece, step) = (
        in_mm(stick.piece).round() as usize,
        in_mm(stick.piece + stick.kerf).round() as usize,
    );
    // best[n][x]: worth of n blanks from x on.
    let mut best = vec![vec![None::<f64>; length + step + 1]; most + 1];
    best[0] = vec![Some(0.0); length + step + 1];
    for n in 1..=most {
        for x in (0..=length).rev() {
            let later = best[n][x + 1];
            let clear =
                x + piece <= length && stick.holds(x as f64 / 1000.0) && worth(x as f64) >= enough;
            let here = if clear {
                best[n - 1][x + step].map(|sum| sum + worth(x as f64))
            } else {
                None
            };
            best[n][x] = match (here, later) {
                (Some(a), Some(b)) => Some(a.max(b)),
                (a, b) => a.or(b),
            };
        }
    }
    let count = (0..=most).rev().find(|n| best[*n][0].is_some()).unwrap();
    (count, best[count][0].unwrap())
}

#[test]
fn a_thick_middle_draws_the_blank_and_a_knot_pushes_it() {
    let stick = |zones| Stick {
        length: mm(2600.0),
        piece: mm(900.0),
        kerf: mm(4.0),
        end_trim: mm(50.0),
        zones,
    };
    let thick = |start: Length| course(&[(0.0, 40.0), (850.0, 52.0), (1700.0, 40.0)], in_mm(start));
    let turns = [mm(0.0), mm(850.0), mm(1700.0)];
    let one = best_places(&stick(&[]), Some(1), &worth(&thick, &turns)).unwrap();
    assert_eq!((one.places[0].from, one.worth), (mm(850.0), 52.0));
    let knot = [Place {
        from: mm(1200.0),
        to: mm(1240.0),
    }];
    let two = best_places(&stick(&knot), None, &worth(&thick, &turns)).unwrap();
    let starts: Vec<f64> = two.places.iter().map(|place| in_mm(place.from)).collect();
    assert!((starts[0] - 300.0).abs() < 1e-6 && (starts[1] - 1240.0).abs() < 1e-6);
    // More are asked for than go.
    assert_eq!(
        best_places(&stick(&knot), Some(5), &worth(&thick, &turns)),
        Ok(two)
    );
}

#[test]
fn only_what_is_thick_enough_counts() {
    // 54 to 51 mm thick, less 2 for planing: 50.5 is left as far as mid-length, at 1310 mm.
    let straight = Plank {
        thicknesses: Stations {
            near: Some(mm(54.0)),
            middle: None,
            far: Some(mm(51.0)),
        },
        bow: None,
        ..bent(1310.0)
    };
    let needs = |slab| CutSpec {
        slab: mm(slab),
        ..cutting(900.0)
    };
    let blanks = |slab| best_blanks(&straight, &needs(slab), None).unwrap();
    assert_eq!(blanks(45.0).places.len(), 2);
    let one = blanks(50.5);
    assert_eq!(one.places.len(), 1);
    assert!((in_mm(one.places[0].from) - 70.0).abs() < 1e-6);
    assert_eq!(blanks(51.5).places.len(), 0);
}

#[test]
fn nothing_goes_is_an_answer_and_no_sense_is_an_error() {
    let stick = Stick {
        length: mm(800.0),
        piece: mm(900.0),
        kerf: mm(4.0),
        end_trim: mm(0.0),
        zones: &[],
    };
    let none = best_places(&stick, None, &worth(&|_| 1.0, &[])).unwrap();
    assert_eq!((none.places.len(), none.worth), (0, 0.0));
    let no_number = Stick {
        piece: mm(f64::NAN),
        ..stick
    };
    assert!(best_places(&no_number, None, &worth(&|_| 1.0, &[])).is_err());
    let crumbs = Stick {
        piece: mm(2.0),
        ..stick
    };
    assert_eq!(
        best_places(&crumbs, None, &worth(&|_| 1.0, &[])),
        Err(PlacementError::TooMany(134))
    );
    let piece = Stick {
        piece: mm(100.0),
        ..stick
    };
    assert_eq!(
        best_places(&piece, None, &worth(&|_| f64::NAN, &[]))
            .unwrap()
            .places
            .len(),
        0
    );
}

#[test]
fn a_place_is_as_long_as_its_blank() {
    let stick = Stick {
        length: mm(2620.0),
        piece: mm(950.0),
        kerf: mm(3.2),
        end_trim: mm(70.0),
        zones: &[],
    };
    let found = best_places(&stick, None, &worth(&|_| 1.0, &[])).unwrap();
    assert_eq!(found.places.len(), 2);
    for place in found.places {
        assert!((in_mm(place.to - place.from) - 950.0).abs() < 1e-9);
    }
}

#[test]
fn a_slab_that_is_just_thick_enough_is_enough() {
    // Typed to the tenth: planing off each face leaves a trace less than what is wanted in binary.
    let mut a_trace_less = 0;
    for tenths in 300..600 {
        let typed = |tenths: u32| {
            format!("{}.{}", tenths / 10, tenths % 10)
                .parse::<f64>()
                .unwrap()
        };
        let plank = Plank {
            length: Some(mm(1200.0)),
            widths: Stations::one(mm(204.0)),
            thicknesses: Stations::one(mm(typed(tenths))),
            bow: Some(Bend {
                gap: mm(0.0),
                over: None,
                shape: BendShape::Even,
                signed: true,
            }),
            ..Plank::default()
        };
        let wanted = |tenths| CutSpec {
            slab: mm(typed(tenths)),
            planing: mm(1.5),
            ..cutting(950.0)
        };
        let places = |cutting: &CutSpec| {
            let found = best_blanks(&plank, cutting, None).unwrap();
            a_trace_less += usize::from(found.slabs.iter().any(|slab| *slab < cutting.slab));
            found.places.len()
        };
        let mut places = places;
        assert_eq!(places(&wanted(tenths - 30)), 1, "{tenths}");
        assert_eq!(places(&wanted(tenths - 29)), 0, "{tenths}");
    }
    assert!(a_trace_less > 0);
}

proptest! {
    // A bowl, its lowest point wherever it may be: the two starts at which it is just deep enough.
    #[test]
    fn where_a_bowl_is_just_deep_enough(
        lowest in 0.0..1.0f64, steep in 1.0..50.0f64, tenfold in -7.0..1.0f64,
    ) {
        let of = |start: Length| steep * (start.value - lowest) * (start.value - lowest);
        // Down to what hardly lies above the lowest point.
        let enough = libm::pow(10.0, tenfold);
        let found = where_just_enough(&of, 0.0, 1.0, enough);
        let reach = (enough / steep).sqrt();
        let wanted: Vec<f64> = [lowest - reach, lowest + reach]
            .into_iter()
            .filter(|at| (0.0..=1.0).contains(at))
            .collect();
        prop_assert_eq!(found.len(), wanted.len());
        for (found, wanted) in found.iter().zip(&wanted) {
            prop_assert!((found - wanted).abs() < 1e-6, "{found} {wanted}");
            prop_assert!(of(metres(*found)) >= enough);
        }
    }
}

fn bent(kink: f64) -> Plank {
    Plank {
        length: Some(mm(2620.0)),
        widths: Stations::one(mm(204.0)),
        thicknesses: Stations::three(mm(54.0), mm(52.0), mm(51.0)),
        bow: Some(Bend {
            gap: mm(9.0),
            over: None,
            shape: BendShape::Kink(mm(kink)),
            signed: true,
        }),
        ..Plank::default()
    }
}

fn cutting(length: f64) -> CutSpec {
    CutSpec {
        length: mm(length),
        across: mm(80.0),
        slab: mm(45.0),
        piece: None,
        planing: mm(1.0),
        kerf: mm(3.0),
        end_trim: mm(70.0),
        edge_trim: mm(10.0),
        parts_per_blank: 1,
    }
}

#[test]
fn a_kink_falls_between_the_blanks_where_it_can() {
    let found = best_blanks(&bent(1310.0), &cutting(950.0), None).unwrap();
    assert_eq!(found.places.len(), 2);
    assert!(found.places[0].to <= mm(1310.0) && found.places[1].from >= mm(1310.0) - mm(1e-6));
    // The plank's least thickness less planing: nothing is lost to the kink.
    assert!(found.slabs.iter().all(|slab| *slab > mm(48.9)));
    let plank = Plank {
        defects: vec![Defect {
            kind: DefectKind::Knot,
            from: Some(mm(600.0)),
            to: None,
            note: String::new(),
        }],
        ..bent(2000.0)
    };
    let found = best_blanks(&plank, &cutting(950.0), Some(1)).unwrap();
    assert_eq!(found.places.len(), 1);
    assert!((in_mm(found.places[0].from) - 620.0).abs() < 1e-6);
    let unknown = Plank {
        length: None,
        ..plank
    };
    assert!(best_blanks(&unknown, &cutting(950.0), None).is_err());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    // Count and worth are those of trying every millimetre: all corners lie on whole millimetres here.
    #[test]
    fn no_row_of_whole_millimetres_is_better(
        length in 300u32..1600, piece in 60u32..500, kerf in 0u32..6, trim in 0u32..60,
        zones in prop::collection::vec((0u32..1600, 0u32..120), 0..4),
        most in 1usize..6,
        corners in prop::collection::vec((1u32..500, -30i32..30), 1..5),
    ) {
        let zones: Vec<Place> = zones
            .iter()
            .map(|(from, long)| Place { from: mm(f64::from(*from)), to: mm(f64::from(from + long)) })
            .collect();
        let stick = Stick {
            length: mm(f64::from(length)),
            piece: mm(f64::from(piece)),
            kerf: mm(f64::from(kerf)),
            end_trim: mm(f64::from(trim)),
            zones: &zones,
        };
        let mut at = 0.0;
        let corners: Vec<(f64, f64)> = corners
            .iter()
            .map(|(on, high)| { at += f64::from(*on); (at, f64::from(*high)) })
            .collect();
        let turns: Vec<Length> = corners.iter().map(|(x, _)| mm(*x)).collect();
        let found = best_places(
            &stick,
            Some(most),
            &worth(&|s| course(&corners, in_mm(s)), &turns),
        ).unwrap();
        let (count, sum) = by_search(&stick, most, f64::MIN, &|x| course(&corners, x));
        prop_assert_eq!(found.places.len(), count);
        prop_assert!((found.worth - sum).abs() < 1e-6, "{} {}", found.worth, sum);
        for pair in found.places.windows(2) {
            prop_assert!(pair[1].from - pair[0].to > stick.kerf - mm(1e-5));
        }
        for place in &found.places {
            prop_assert!(stick.holds(place.from.value));
        }
    }

    // A tapered plank with a kink: no other row of millimetres leaves thicker slabs.
    #[test]
    fn no_other_places_leave_thicker_slabs(
        kink in 400u32..2200, gap in 1.0..12.0f64, piece in 300u32..1200, most in 1usize..4,
        near in 50.0..56.0f64, middle in 50.0..56.0f64, far in 50.0..56.0f64,
    ) {
        let mut plank = bent(f64::from(kink));
        plank.thicknesses = Stations::three(mm(near), mm(middle), mm(far));
        plank.bow = plank.bow.map(|bow| Bend { gap: mm(gap), ..bow });
        let cut = CutSpec { slab: mm(1.0), ..cutting(f64::from(piece)) };
        let found = best_blanks(&plank, &cut, Some(most)).unwrap();
        let stick = Stick {
            length: mm(2620.0),
            piece: cut.length,
            kerf: cut.kerf,
            end_trim: cut.end_trim,
            zones: &[],
        };
        let thickness = |x: f64| {
            in_mm(slab_at(&mut TraceOff, &plank, mm(x), (cut.length, mm(80.0)), mm(1.0)).unwrap().thickness)
        };
        let (count, worth) = by_search(&stick, most, 0.0, &thickness);
        let sum: f64 = found.slabs.iter().map(|slab| in_mm(*slab)).sum();
        prop_assert_eq!(found.places.len(), count);
        // The crossing of two tapers need not lie on a whole millimetre.
        prop_assert!(sum > worth - 1e-6 && sum < worth + 0.2, "{} {}", sum, worth);
    }

    // With a slab that has to be thick enough, no row of millimetres has more blanks, nor as many thicker ones.
    #[test]
    fn as_many_as_are_thick_enough(
        kink in 400u32..2200, gap in 1.0..16.0f64, piece in 300u32..1200, most in 1usize..5,
        near in 44.0..56.0f64, middle in 44.0..56.0f64, far in 44.0..56.0f64, slab in 42.0..50.0f64,
    ) {
        let mut plank = bent(f64::from(kink));
        plank.thicknesses = Stations::three(mm(near), mm(middle), mm(far));
        plank.bow = plank.bow.map(|bow| Bend { gap: mm(gap), ..bow });
        let cut = CutSpec { slab: mm(slab), ..cutting(f64::from(piece)) };
        let found = best_blanks(&plank, &cut, Some(most)).unwrap();
        prop_assert!(found.slabs.iter().all(|one| in_mm(*one) > slab - 1e-5));
        for pair in found.places.windows(2) {
            prop_assert!(pair[1].from - pair[0].to > cut.kerf - mm(1e-5));
        }
        let stick = Stick {
            length: mm(2620.0),
            piece: cut.length,
            kerf: cut.kerf,
            end_trim: cut.end_trim,
            zones: &[],
        };
        let thickness = |x: f64| {
            in_mm(slab_at(&mut TraceOff, &plank, mm(x), (cut.length, mm(80.0)), mm(1.0)).unwrap().thickness)
        };
        let (count, worth) = by_search(&stick, most, slab, &thickness);
        prop_assert!(found.places.len() >= count, "{} {count}", found.places.len());
        if found.places.len() == count {
            let sum: f64 = found.slabs.iter().map(|slab| in_mm(*slab)).sum();
            prop_assert!(sum > worth - 1e-6, "{sum} {worth}");
        }
    }
}
