//! What the racks hold and how it stands at a glance: over the sample.

use chrono::NaiveDate;
use std::sync::Arc;
use stillwood_core::quantity::{in_kg, kg, mm};
use stillwood_core::record::queries::{self, Rack, RestSign};
use stillwood_core::record::*;
use stillwood_core::season::{FEELER_MM, Readiness};

fn sample() -> State {
    let file = include_bytes!("../../demo-data/two-yards.json");
    let reading = read(file, &Limits::default()).unwrap();
    State::project_entries(&reading.accepted)
}

fn day(text: &str) -> NaiveDate {
    date(text).unwrap()
}

fn racks_on(state: &State, today: &str) -> Arc<Vec<Rack>> {
    queries::racks(state, day(today), mm(FEELER_MM), kg(0.05))
}

#[test]
fn the_racks_of_the_day_that_is_asked_for_are_kept() {
    let state = sample();
    let before = racks_on(&state, "2026-11-20");
    // After midnight the new day is worked out once, and so it is of another scale.
    let after = racks_on(&state, "2026-11-21");
    assert!(Arc::ptr_eq(&after, &racks_on(&state, "2026-11-21")));
    assert!(Arc::ptr_eq(&before, &racks_on(&state, "2026-11-20")));
    let finer = || queries::racks(&state, day("2026-11-21"), mm(FEELER_MM), kg(0.01));
    assert!(Arc::ptr_eq(&finer(), &finer()));
    let thicker = queries::racks(&state, day("2026-11-21"), mm(0.5), kg(0.01));
    assert!(!Arc::ptr_eq(&thicker, &finer()));
}

#[test]
fn each_piece_at_hand_lies_on_one_rack_and_nothing_unknown_is_called_still() {
    let state = sample();
    let racks = racks_on(&state, "2026-11-20");
    let on_racks: usize = racks.iter().map(|rack| rack.pieces.len()).sum();
    let ours = queries::stock(&state)
        .filter(|piece| piece.is_bought())
        .count();
    assert_eq!(on_racks, ours);
    for piece in racks.iter().flat_map(|rack| &rack.pieces) {
        let still = piece.sign() == Some(RestSign::Still);
        if let (true, Some(due)) = (still, &piece.due)
            && let Waits::Rest(_, Ok(Readiness { measure, .. })) = due.waits
        {
            assert_eq!(
                measure,
                stillwood_core::season::MeasureKey::Still,
                "{}",
                piece.mark
            );
        }
        if piece.is_over() {
            assert_eq!(piece.passed, Some(1.0), "{}", piece.mark);
        }
    }
    // One by itself is as it lies on its rack.
    for piece in racks.iter().flat_map(|rack| &rack.pieces) {
        let known = state.piece(piece.piece).unwrap();
        let alone = queries::on_its_rack(&state, known, day("2026-11-20"), mm(FEELER_MM), kg(0.05));
        assert_eq!(alone.as_ref(), Some(piece));
    }
    // Another day is not answered from what was kept.
    let before = racks_on(&state, "2026-02-01");
    let over = |racks: &[Rack]| {
        racks
            .iter()
            .flat_map(|rack| &rack.pieces)
            .filter(|one| one.is_over())
            .count()
    };
    assert!(
        over(&before) < over(&racks),
        "{} {}",
        over(&before),
        over(&racks)
    );
}

#[test]
fn each_rest_that_is_not_over_ends_in_one_month_and_getting_used_to_a_room_is_none() {
    let state = sample();
    let today = day("2026-11-20");
    let lines = queries::resting(&state, today, mm(FEELER_MM), kg(0.05));
    let due = queries::due(&state, lines, today, kg(0.05));
    let months = queries::rests_ending(&due, today);
    assert_eq!(months.len(), 12);
    assert_eq!(months[0].0, day("2026-11-01"));
    assert_eq!(months[11].0, day("2027-10-01"));
    let within = |line: &&Due| {
        line.day()
            .is_some_and(|on| on > today && on < day("2027-11-01"))
            && matches!(line.waits, Waits::Rest(..))
    };
    let expected = due.iter().filter(within).count();
    assert_eq!(
        months.iter().map(|(_, count)| count).sum::<usize>(),
        expected
    );
}

#[test]
fn the_band_of_a_room_lies_about_the_last_weight_of_what_has_come_to_rest() {
    let state = sample();
    let mut told = 0;
    for piece in queries::stock(&state) {
        let Some(over_time) = queries::weight_over_time(&state, piece, kg(0.05)) else {
            continue;
        };
        assert_eq!(over_time.weighed.len(), piece.work.weighings.len());
        if queries::weight_at_rest(&state, piece, kg(0.05)) != Some(true) {
            continue;
        }
        told += 1;
        let (last, settled) = (
            over_time.weighed.last().unwrap(),
            over_time.settled.last().unwrap(),
        );
        let one_percent = in_kg(over_time.one_percent.unwrap());
        let middle = (in_kg(settled.low) + in_kg(settled.high)) / 2.0;
        assert!(
            (in_kg(last.mass) - middle).abs() < one_percent,
            "{}: {over_time:?}",
            piece.mark
        );
        assert_eq!(settled.on, last.on);
    }
    assert!(told > 0);
}

#[test]
fn a_look_of_long_ago_does_not_make_a_piece_still_today() {
    let state = sample();
    let sign = |today: &str| {
        let racks = racks_on(&state, today);
        let all = racks.iter().flat_map(|rack| &rack.pieces);
        let mut of = all.filter(|one| one.mark == "H3-10-Y");
        let one = of.next().unwrap().clone();
        (one.sign().unwrap(), one.still_on())
    };
    // Checked last on 29 November 2025.
    let looked = Some(day("2025-11-29"));
    assert_eq!(sign("2026-05-29"), (RestSign::Still, looked));
    assert_eq!(sign("2026-05-30"), (RestSign::Watch, looked));
}

#[test]
fn a_weight_has_changed_by_what_was_read() {
    use queries::WeightChange;
    let state = sample();
    let blank = queries::stock(&state)
        .into_iter()
        .find(|piece| piece.mark == "H3-10-Y")
        .unwrap();
    // 2.382 kg at first, 2.356 kg at last, on a scale of steps of 1 g: each is off by half a gram at most, whatever the
    // maker's other scales are.
    let over_time = queries::weight_over_time(&state, blank, kg(0.03)).unwrap();
    let near = |mass, wanted: f64| (in_kg(mass) - wanted).abs() < 1e-9;
    let off = 0.001;
    assert!(
        matches!(over_time.change(), Some(WeightChange::Lighter(by, of)) if near(by, 0.026) && near(of, off))
    );
    let mut turned = over_time.clone();
    turned.weighed.reverse();
    assert!(
        matches!(turned.change(), Some(WeightChange::Heavier(by, of)) if near(by, 0.026) && near(of, off))
    );
    // Only where the same was read it has not changed: by a gram it has.
    let first = turned.weighed[0].mass;
    turned.weighed.last_mut().unwrap().mass = first;
    assert_eq!(turned.change(), Some(WeightChange::Same));
    turned.weighed.last_mut().unwrap().mass = first - kg(0.001);
    assert!(matches!(turned.change(), Some(WeightChange::Lighter(by, _)) if near(by, 0.001)));
    turned.weighed.truncate(1);
    assert_eq!(turned.change(), None);
}

#[test]
fn marks_on_a_drawing_are_short_only_where_they_are_told_apart() {
    let marks = |of: &[&str]| of.iter().map(|one| (*one).to_owned()).collect::<Vec<_>>();
    let twice = marks(&["K7-13-M a", "K7-13-M a"]);
    assert_eq!(queries::short_marks(&twice), twice);
    assert!(queries::short_marks(&[]).is_empty());
}

#[test]
fn the_target_of_the_sample_tells_what_it_is_short_of() {
    let state = sample();
    let short = |today: &str| queries::target_short(&state, day(today), mm(FEELER_MM), kg(0.05));
    match queries::target(&state) {
        None => assert_eq!(short("2026-11-20"), None),
        Some((target, _)) => {
            let found = short("2026-11-20").unwrap();
            assert_eq!(found.target, *target);
            // Years after it, no plank comes in time; another day is not answered from what was kept.
            let by = target.by.unwrap();
            let late = queries::target_short(&state, by, mm(FEELER_MM), kg(0.05)).unwrap();
            assert!(!late.is_in_time());
            assert_ne!(found.answer, late.answer);
        }
    }
}

#[test]
fn laminates_to_glue_stand_in_the_order_of_their_marks_and_no_more_than_a_whole_rest_is_over() {
    let mut phone = stillwood_tests::yard::Phone::new("K7");
    phone.set_day("2025-01-10");
    for mark in ["K7-13-M", "K7-9-X"] {
        let plank = stillwood_tests::workshop::bought(&mut phone, mark);
        let marks = [10, 2, 1].map(|n| format!("{mark} {n}"));
        for laminate in phone.rip(plank, &marks, 18.0) {
            phone.rest(laminate, stillwood_core::season::Stage::Laminates, "B");
        }
    }
    let state = phone.state();
    let (feeler, tools) = (mm(FEELER_MM), stillwood_core::plank::Instruments::default());
    let on = |today: &str| queries::resting(&state, day(today), feeler, kg(0.0005));
    let lines = on("2025-02-01");
    let (ready, _) = queries::laminates_to_glue(&state, &lines, day("2025-02-01"), feeler, &tools);
    let marks: Vec<&str> = ready.iter().map(|one| one.mark.as_str()).collect();
    assert_eq!(
        marks,
        [
            "K7-9-X 1",
            "K7-9-X 2",
            "K7-9-X 10",
            "K7-13-M 1",
            "K7-13-M 2",
            "K7-13-M 10"
        ]
    );
    // The day before it began none of it is over, long after its end all of it.
    for (today, share) in [
        ("2025-01-09", 0.0),
        ("2025-01-10", 0.0),
        ("2045-01-10", 1.0),
    ] {
        for line in on(today) {
            assert_eq!(line.share_over(day(today)), Some(share), "{today}");
        }
    }
}
