//! Whether the scenario is what it says: made from its table, read whole, and made of likely wood.

use std::collections::BTreeSet;
use stillwood_core::record::Id;
use stillwood_core::record::queries;

use stillwood_core::plank::{Field, Seen};
use stillwood_core::quantity::in_kg_per_m3;
use stillwood_core::record::{
    Decision, DeviceId, Event, EventMeta, Limits, Piece, SamePlank, SpeciesNamed, State, pairs,
    read,
};
use stillwood_core::trade::{Conclusion, Habit, Rounding};
use stillwood_core::verdict::Recommendation;
use stillwood_core::wood::find;

use super::summary::{bill_of, sheet_of};
use super::yards::RIVER_CHERRY;
use super::{NOTEBOOK, entries, log};

fn state() -> State {
    State::project_entries(&entries().unwrap())
}

#[test]
fn the_committed_notebook_is_what_the_table_makes() {
    let committed = super::read(NOTEBOOK).unwrap();
    assert!(
        committed == log(&entries().unwrap()),
        "{NOTEBOOK} is not what its table makes: `cargo xtask demo` writes it anew"
    );
    assert!(committed.len() < 400_000, "{}", committed.len());
}

#[test]
fn it_is_read_whole_and_nothing_in_it_is_amiss() {
    let written = entries().unwrap();
    let found = read(log(&written).as_bytes(), &Limits::default()).unwrap();
    assert!(found.problems.is_empty(), "{:?}", found.problems);
    assert_eq!(found.accepted.len(), written.len());
    let state = State::project_entries(&found.accepted);
    assert!(state.disputes().is_empty());
    assert!(state.newer().is_empty());
    assert!(queries::piece_conflicts(&state).is_empty() && queries::orphans(&state).is_empty());
    let ids: BTreeSet<_> = written.iter().map(|entry| entry.id).collect();
    assert_eq!(ids.len(), written.len());
}

/// The range in which a plank's density at 12 % is likely: that of its wood, and a tenth beyond.
fn likely(state: &State, wood: &SpeciesNamed) -> (f64, f64) {
    let id = wood.id.as_deref().unwrap();
    let (low, high) = match find(id).and_then(|wood| wood.usual_density_at_12()) {
        Some(range) => (in_kg_per_m3(range.low), in_kg_per_m3(range.high)),
        None => {
            assert_eq!(id, RIVER_CHERRY);
            let told = state.woods()[id].added.numbers["density_at_12"].value;
            // Twice the variation usual within a species.
            (0.8 * told, 1.2 * told)
        }
    };
    (0.9 * low, 1.1 * high)
}

#[test]
fn weights_fit_sizes_and_woods_all_but_one() {
    let state = state();
    let mut odd = Vec::new();
    let mut weighed = 0;
    for piece in state.planks() {
        let sheet = sheet_of(&state, piece).unwrap();
        assert_eq!(sheet.cannot, Vec::<String>::new(), "{}", piece.mark);
        let Some(density) = sheet.density_at_12 else {
            continue;
        };
        weighed += 1;
        let (low, high) = likely(&state, queries::species_of(&state, piece).unwrap());
        if !(low..=high).contains(&in_kg_per_m3(density.value)) {
            odd.push(piece.mark.clone());
        }
    }
    assert!(weighed >= 40, "{weighed}");
    assert_eq!(odd.len(), 1, "{odd:?}");
}

#[test]
fn sizes_are_those_of_planks() {
    for piece in state().planks() {
        let within = |field: Field, low: f64, high: f64| {
            if let Some(value) = piece.value(field) {
                assert!(
                    (low..=high).contains(&value),
                    "{} {field:?} {value}",
                    piece.mark
                );
            }
        };
        within(Field::Length, 1200.0, 3500.0);
        for field in [Field::WidthNear, Field::WidthMiddle, Field::WidthFar] {
            within(field, 130.0, 280.0);
        }
        for field in [
            Field::ThicknessNear,
            Field::ThicknessMiddle,
            Field::ThicknessFar,
        ] {
            within(field, 46.0, 56.0);
        }
    }
}

#[test]
fn it_holds_what_a_visitor_of_the_app_should_meet() {
    let state = state();
    let entries = entries().unwrap();
    let looked: u64 = state.piles().map(|pile| pile.looked_at()).sum();
    assert_eq!((state.visits().count(), state.piles().count()), (3, 7));
    assert!((250..=300).contains(&looked), "{looked}");
    assert!(state.planks().count() >= 50);
    let count = |what: &dyn Fn(&Piece) -> bool| state.planks().filter(|p| what(p)).count();
    let decided = |decision| count(&|p| p.decision() == Some(decision));
    assert!(decided(Decision::Take) >= 15);
    assert!(decided(Decision::Leave) >= 12);
    assert!(decided(Decision::SetAside) >= 3);
    let call =
        |call| count(&|p| sheet_of(&state, p).is_some_and(|s| s.verdict.recommendation == call));
    assert!(call(Recommendation::TooClose) >= 3);
    assert!(call(Recommendation::Refused) >= 5);
    assert!(call(Recommendation::GoodSoFar) >= 2);
    let overruled = |decision| {
        count(&|p| {
            p.judgement()
                .is_some_and(|j| j.judged.overruled() && j.judged.decision == decision)
        })
    };
    assert!(overruled(Decision::Take) >= 1);
    assert!(overruled(Decision::Leave) >= 2);
    for field in [
        Field::BowKink,
        Field::WeightSecond,
        Field::WeightOverhang,
        Field::BalanceArm,
        Field::RingDip,
        Field::WidthFar,
    ] {
        assert!(count(&|p| p.readings.contains_key(&field)) > 0, "{field:?}");
    }
    let by_eye = |p: &Piece| {
        p.readings
            .values()
            .any(|held| held.taken.seen == Seen::ByEye)
    };
    assert!(count(&by_eye) >= 4);
    let withdrawn = |e: &&_| matches!(e, Event::Withdrawn(_));
    assert_eq!(
        entries.iter().map(|e| &e.event).filter(withdrawn).count(),
        1
    );
    assert_eq!(
        entries.iter().filter(|e| !e.supersedes.is_empty()).count(),
        2
    );
    let by: BTreeSet<&str> = entries.iter().map(|entry| entry.by.as_str()).collect();
    assert_eq!(by.len(), 3);
}

#[test]
fn the_yards_higher_tally_is_explained() {
    let state = state();
    let billed: Vec<_> = state
        .visits()
        .filter(|visit| visit.yard_total.is_some())
        .collect();
    let [visit] = billed[..] else {
        panic!("{} visits with a bill", billed.len());
    };
    let bill = bill_of(&state, visit).unwrap();
    let total = bill.total.as_ref().unwrap();
    assert!(total.theirs.unwrap() > total.ours);
    assert!(bill.without_line.is_empty());
    let [customs] = bill.by_lines.as_slice() else {
        panic!("{:?}", bill.by_lines);
    };
    assert_eq!(customs.found.conclusion, Conclusion::Explained);
    let habits = &customs.found.told[0].habits;
    assert_eq!(
        *habits,
        [Habit::Width(Rounding::Up), Habit::Length(Rounding::Up)]
    );
}

#[test]
fn two_planks_on_two_phones_are_offered_and_stay_taken_once_told() {
    let mut entries = entries().unwrap();
    let offered = pairs(&State::project_entries(&entries));
    assert_eq!(offered.len(), 2);
    let last = entries.iter().map(|entry| entry.step).max().unwrap();
    for (n, pair) in (1..).zip(&offered) {
        let moment = EventMeta {
            id: Id::version_7(1_763_200_000_000 + n, &[0; 10]),
            seq: n,
            step: last + n,
            on: entries[0].on,
            on_confirmed: false,
            at: String::new(),
        };
        let same = Event::SamePlank(SamePlank {
            other: pair.b,
            same: true,
        });
        let told = DeviceId {
            by: "M4".to_owned(),
        }
        .entry(moment, pair.a, same);
        entries.push(told.unwrap());
    }
    let state = State::project_entries(&entries);
    for pair in &offered {
        let piece = state.piece(pair.a).unwrap();
        assert_eq!(piece.by.len(), 2);
        assert_eq!(piece.decision(), Some(Decision::Take));
    }
}
