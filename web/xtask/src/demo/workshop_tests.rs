//! Whether the invented workshop is one story: no wood is lost or made, weights fit, what is due is due,
//! and every kind of piece that a visitor should meet is there.

use std::collections::{BTreeMap, BTreeSet};
use stillwood_core::quantity::TraceOff;
use stillwood_core::record::queries;

use stillwood_core::plank::{Field, Instruments, volume};
use stillwood_core::quantity::{in_kg, in_kg_per_m3, in_m3, kg, mm};
use stillwood_core::record::{
    Event, Life, Piece, PieceKind, RestLine, StageCount, StagePace, State, date,
};
use stillwood_core::season::{DateKey, FEELER_MM, MeasureKey, Movement, PaceError, Stage};

use super::{entries, log};

/// The day on which the shelves are looked at.
const TODAY: &str = "2026-11-25";

fn state() -> State {
    State::project_entries(&entries().unwrap())
}

fn marked<'a>(state: &'a State, mark: &str) -> &'a Piece {
    let [id] = queries::pieces_with_mark(state, mark)[..] else {
        panic!("{mark}");
    };
    state.piece(id).unwrap()
}

fn resting(state: &State) -> BTreeMap<String, RestLine> {
    let lines = queries::resting(state, date(TODAY).unwrap(), mm(FEELER_MM), kg(0.1));
    lines
        .into_iter()
        .map(|line| (line.mark.clone(), line))
        .collect()
}

#[test]
fn it_is_made_the_same_twice_and_ends_before_it_is_looked_at() {
    let first = entries().unwrap();
    assert_eq!(log(&first), log(&entries().unwrap()));
    let today = date(TODAY).unwrap();
    assert!(first.iter().all(|entry| entry.on < today));
    // No phone's number is given twice or left out, and its steps only grow.
    for by in ["H3", "K7", "R4"] {
        let own: Vec<_> = first.iter().filter(|entry| entry.by == by).collect();
        let seqs: BTreeSet<u64> = own.iter().map(|entry| entry.seq).collect();
        assert_eq!(seqs.len(), own.len());
        assert_eq!(seqs.last().copied(), Some(own.len() as u64));
        for pair in own.windows(2) {
            assert!(pair[0].step < pair[1].step && pair[0].on <= pair[1].on);
        }
    }
}

#[test]
fn no_wood_is_lost_or_made() {
    let state = state();
    let tools = Instruments::default();
    let mut cut = 0;
    for plank in state.planks().filter(|plank| plank.is_bought()) {
        let ledger = queries::volume_balance(&state, plank.id, &tools).unwrap();
        let sum: f64 = ledger.parts().iter().map(|part| in_m3(*part)).sum();
        assert!((sum - in_m3(ledger.whole)).abs() < 1e-12, "{}", plank.mark);
        assert!(ledger.parts().iter().all(|part| in_m3(*part) > -1e-12));
    }
    for piece in state.pieces() {
        if let Some(account) = queries::cut_account(&state, piece.id, &tools) {
            cut += 1;
            assert!(!account.is_questioned() && account.warnings.is_empty());
            assert!(account.mass.is_none_or(|mass| !mass.is_questioned()));
        }
    }
    assert_eq!(cut, 15);
}

#[test]
fn what_was_weighed_fits_the_wood_and_the_size() {
    let state = state();
    let mut weighed = 0;
    for piece in state
        .pieces()
        .filter(|piece| !piece.work.weighings.is_empty())
    {
        let Ok(size) = volume(&mut TraceOff, &queries::size_of(&state, piece)) else {
            panic!("{}", piece.mark);
        };
        let planks = queries::planks_of(&state, piece.id);
        for one in &piece.work.weighings {
            let found = one.payload.mass.value / in_m3(size);
            for plank in &planks {
                let plank = state.piece(*plank).unwrap();
                let sheet = queries::sheet_of(&state, plank, &Instruments::default()).unwrap();
                let at_12 = in_kg_per_m3(sheet.density_at_12.unwrap().value);
                // From 5 to 17 % of moisture; a blank is between its woods.
                let slack = if planks.len() > 1 { 0.08 } else { 0.06 };
                assert!(
                    (found / at_12 - 1.0).abs() < slack,
                    "{} {found}",
                    piece.mark
                );
            }
            weighed += 1;
        }
        if let Some(pair) = piece.work.weighings.first_chunk::<2>() {
            assert!(in_kg(kg(pair[0].payload.mass.value)) > 0.0 && pair[0].on < pair[1].on);
        }
    }
    assert!(weighed > 60, "{weighed}");
}

#[test]
fn the_shelves_hold_every_case() {
    let state = state();
    let lines = resting(&state);
    let measure = |mark: &str| lines[mark].ready.unwrap().measure;
    assert_eq!(measure("R4-9-A a"), MeasureKey::WeightChanging);
    assert_eq!(measure("K7-13-M a"), MeasureKey::Moved);
    assert_eq!(lines["K7-13-M a"].movement, Some(Movement::Beyond));
    assert!(!lines.contains_key("K7-1-X b"));
    assert_eq!(marked(&state, "K7-1-X b").life().0, Life::Missing);
    let mut counts: BTreeMap<(Stage, DateKey, MeasureKey), u32> = BTreeMap::new();
    for line in lines.values() {
        let ready = line.ready.unwrap();
        *counts
            .entry((line.stage, ready.date, ready.measure))
            .or_default() += 1;
    }
    let wanted = [
        ((Stage::Pieces, DateKey::RestOver, MeasureKey::Moved), 1),
        (
            (Stage::Pieces, DateKey::RestOver, MeasureKey::WeightNotKnown),
            2,
        ),
        (
            (Stage::Pieces, DateKey::RestOver, MeasureKey::WeightChanging),
            2,
        ),
        ((Stage::Laminates, DateKey::RestOver, MeasureKey::Still), 13),
        (
            (Stage::Laminates, DateKey::Resting, MeasureKey::NotChecked),
            8,
        ),
        ((Stage::Blanks, DateKey::RestOver, MeasureKey::Still), 2),
        ((Stage::Blanks, DateKey::Resting, MeasureKey::NotChecked), 1),
    ];
    assert_eq!(counts, BTreeMap::from(wanted));
    let places: BTreeSet<&str> = lines.values().map(|line| line.place.as_str()).collect();
    assert_eq!(places, BTreeSet::from(["loft", "shelf A", "shelf B"]));
}

#[test]
fn shares_that_came_through_can_be_counted() {
    let state = state();
    let first = date("2024-03-22").unwrap();
    let of = |kind| {
        let mut all = StageCount::default();
        for (id, count) in queries::stage_counts(&state, kind) {
            let planks = queries::planks_of(&state, id);
            let old = planks
                .iter()
                .all(|plank| state.piece(*plank).unwrap().recorded.on == first);
            if old {
                all.sprang += count.sprang;
                all.failed += count.failed;
                all.through += count.through;
                all.waiting += count.waiting;
                all.aside += count.aside;
            }
        }
        [all.sprang, all.failed, all.through, all.waiting, all.aside]
    };
    assert_eq!(of(PieceKind::Piece), [1, 1, 4, 0, 0]);
    assert_eq!(of(PieceKind::Laminate), [2, 3, 18, 0, 1]);
    assert_eq!(of(PieceKind::Blank), [0, 0, 1, 3, 0]);
}

#[test]
fn a_blank_is_kept_for_somebody_and_knows_its_planks() {
    let state = state();
    let blanks: Vec<&Piece> = state
        .pieces()
        .filter(|p| p.work.kind == PieceKind::Blank)
        .collect();
    assert_eq!(blanks.len(), 4);
    let today = date(TODAY).unwrap();
    let kept = |blank: &&&Piece| {
        let reserved = blank.work.reserved.as_ref();
        reserved.is_some_and(|kept| kept.payload.holds_on(today))
    };
    let kept: Vec<_> = blanks.iter().filter(kept).collect();
    let [blank] = kept[..] else {
        panic!("{} are kept", kept.len());
    };
    assert_eq!(blank.life().0, Life::Reserved);
    assert!(resting(&state)[&blank.mark].reserved);
    let woods: Vec<&str> = queries::woods_in(&state, blank.id)
        .iter()
        .map(|w| w.text.as_str())
        .collect();
    assert_eq!(woods, ["European maple", "black walnut"]);
    let planks = queries::planks_of(&state, blank.id);
    assert!(planks.len() >= 2);
    for plank in planks {
        let plank = state.piece(plank).unwrap();
        assert_eq!(
            state.visit_of(plank).unwrap().opened.yard,
            "Vessingholt Timber Yard"
        );
    }
    assert_eq!(queries::touched_by_batch(&state, "0412").len(), 3);
    assert_eq!(
        blanks
            .iter()
            .filter(|blank| blank.life().0 == Life::Used)
            .count(),
        1
    );
}

#[test]
fn laminates_wait_to_be_matched() {
    let state = state();
    let lines = resting(&state);
    let ready = |piece: &&Piece| {
        let line = lines.get(&piece.mark);
        let for_necks = piece.work.kind == PieceKind::Laminate && piece.work.downgraded.is_none();
        for_necks && line.is_some_and(|line| line.ready.unwrap().is_ready())
    };
    let ready: Vec<&Piece> = state.pieces().filter(ready).collect();
    assert_eq!(ready.len(), 12);
    let mut signs = BTreeSet::new();
    let mut hands = BTreeSet::new();
    let mut woods = BTreeSet::new();
    for laminate in ready {
        let last = &laminate.work.checks.last().unwrap().payload.readings;
        signs.insert(last[&Field::Crook].typed.starts_with('-'));
        hands.insert(last[&Field::Twist].typed.ends_with('L'));
        woods.insert(queries::woods_in(&state, laminate.id)[0].text.clone());
        assert!(laminate.value(Field::RingAngle).is_some());
        assert!(laminate.value(Field::GrainEdge).is_some());
    }
    assert_eq!((signs.len(), hands.len(), woods.len()), (2, 2, 2));
}

#[test]
fn the_room_is_read_through_the_years() {
    let state = state();
    let room = &queries::rooms(&state)["workshop"];
    // Every first of a month, and whenever something was weighed to a gram.
    assert_eq!(room.len(), 51);
    for read in room {
        let climate = &read.payload.climate;
        let humidity = climate.humidity.as_ref().unwrap().value;
        let temperature = climate.temperature.as_ref().unwrap().value;
        assert!((35.0..=58.0).contains(&humidity), "{humidity}");
        assert!((17.0..=24.0).contains(&temperature), "{temperature}");
    }
    let tested = |entry: &&_| matches!(entry, Event::StressTested(_));
    let all = entries().unwrap();
    assert_eq!(all.iter().map(|e| &e.event).filter(tested).count(), 2);
}

#[test]
fn the_pace_is_known_of_pieces_and_laminates_and_not_yet_of_blanks() {
    let state = state();
    let paces = queries::paces(&state, mm(FEELER_MM), date(TODAY).unwrap());
    let half = |stage: &StagePace| stage.pace.as_ref().ok().map(|pace| pace.half);
    assert_eq!(paces.stages.each_ref().map(half), [Some(7), Some(21), None]);
    // Some wait still, some left another way, and none was hurried.
    let [_, laminates, blanks] = &paces.stages;
    assert!(laminates.waiting > 0 && laminates.left > 0 && laminates.sooner == 0);
    assert_eq!(blanks.pace, Err(PaceError::TooFew(3)));
}
