//! Records of hostile shapes: every question comes to an end and says what is so. All invented.

use stillwood_core::plank::{Instruments, mean_of_stations};
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{in_mm, kg, mm};
use stillwood_core::record::queries;
use stillwood_core::record::{
    GroupedBy, Life, Log, PieceConflictKind, PieceFigure, PieceKind, State, date, pairs,
};
use stillwood_core::season::FEELER_MM;
use stillwood_tests::invented::hostile::{self, Hostile};

fn folded(shape: &Hostile) -> State {
    let mut log = Log::new();
    log.merge(shape.entries.clone());
    State::project(&log)
}

/// The same on a thread with little stack: what recurses does not come back.
fn with_little_stack(ask: impl FnOnce() + Send + 'static) {
    let thread = std::thread::Builder::new().stack_size(512 << 10);
    thread.spawn(ask).unwrap().join().unwrap();
}

#[test]
fn a_chain_of_cuts_is_told_to_its_beginning() {
    with_little_stack(|| {
        let shape = hostile::chain_of_cuts(5_000);
        let state = folded(&shape);
        let last = state.piece(shape.piece).unwrap();
        let plank = state.planks().next().unwrap().id;
        assert_eq!(queries::plank_of(&state, last), Some(plank));
        assert_eq!(queries::ancestors(&state, shape.piece).len(), 5_000);
        assert_eq!(queries::descendants(&state, plank).len(), 10_000);
        assert_eq!(
            queries::species_of(&state, last).unwrap().text,
            "maple-sugar"
        );
        let size = queries::size_of(&state, last);
        assert_eq!(size.length.map(in_mm), Some(2600.0));
        assert_eq!(mean_of_stations(&size.widths).map(in_mm), Some(200.0));
        // Each cut halves the cost: what is left of it is next to nothing, and adds up all the same.
        let (cost, _) = queries::wood_cost(&state, shape.piece).unwrap();
        assert!(cost < rust_decimal::Decimal::ONE);
        let told = queries::explain_piece_figure(
            &state,
            shape.piece,
            PieceFigure::WoodCost,
            &Instruments::default(),
        );
        assert!(told.unwrap().notes[0].contains("5001 pieces: too many"));
        let (accounts, unknown) = queries::cost_account(&state);
        assert_eq!((accounts.len(), unknown), (1, 0));
        let account = accounts["EUR"];
        let parts: rust_decimal::Decimal = account.parts().into_iter().sum();
        assert_eq!(
            (parts - account.paid).round_dp(6),
            rust_decimal::Decimal::ZERO
        );
        let came = queries::what_came(
            &state,
            PieceKind::Laminate,
            GroupedBy::Wood,
            &Instruments::default(),
        );
        assert_eq!(
            (came.len(), came[0].planks, came[0].count.waiting),
            (1, 1, 5_000)
        );
        // All laminates are cut; the piece that is left can be cut still, so that no share is told.
        let lines = queries::resting(
            &state,
            date("2090-01-01").unwrap(),
            mm(FEELER_MM),
            stillwood_tests::workshop::scale(),
        );
        let (wood, _) = queries::wood_in_hand(&state, &[], &lines, 6, date("2090-01-01").unwrap());
        assert_eq!(wood.len(), 5_001);
        assert!(wood.iter().all(|one| one.family == plank));
    });
}

#[test]
fn a_short_chain_says_the_same_whether_it_is_walked_or_kept() {
    // Beyond 16 cuts what is known of a family is kept; one cut before and one after must agree.
    for cuts in [3, 14, 15, 16, 17, 18, 130] {
        let shape = hostile::chain_of_cuts(cuts);
        let state = folded(&shape);
        let last = state.piece(shape.piece).unwrap();
        assert_eq!(
            queries::plank_of(&state, last),
            state.planks().next().map(|plank| plank.id),
            "{cuts}"
        );
        assert_eq!(
            queries::size_of(&state, last).length.map(in_mm),
            Some(2600.0),
            "{cuts}"
        );
        assert!(queries::species_of(&state, last).is_some(), "{cuts}");
        assert!(!state.goes_in_a_circle(last.id), "{cuts}");
    }
    for glued in [3, 31, 32, 33, 64, 65, 200] {
        let shape = hostile::chain_of_glue_ups(glued);
        let state = folded(&shape);
        let blank = state.piece(shape.piece).unwrap();
        assert_eq!(queries::plank_of(&state, blank), None);
        assert_eq!(queries::planks_of(&state, blank.id).len(), glued + 1);
        let came = queries::what_came(
            &state,
            PieceKind::Blank,
            GroupedBy::Wood,
            &Instruments::default(),
        );
        assert_eq!((came.len(), came[0].planks), (1, glued + 1));
        assert_eq!(came[0].name.in_words(Units::Metric), "hard maple");
        assert_eq!(queries::woods_named(&state, blank.id), "hard maple");
    }
}

#[test]
fn a_chain_of_glue_ups_costs_what_all_its_planks_cost() {
    with_little_stack(|| {
        let shape = hostile::chain_of_glue_ups(3_000);
        let state = folded(&shape);
        let (cost, _) = queries::wood_cost(&state, shape.piece).unwrap();
        let (accounts, unknown) = queries::cost_account(&state);
        assert_eq!(unknown, 0);
        assert_eq!(accounts["EUR"].paid, cost);
        assert_eq!(accounts["EUR"].in_blanks, cost);
        assert_eq!(queries::ancestors(&state, shape.piece).len(), 6_000);
    });
}

#[test]
fn wood_that_is_cut_and_glued_again_and_again_costs_its_plank() {
    with_little_stack(|| {
        let shape = hostile::cut_and_glued_again(400);
        let state = folded(&shape);
        let plank = state.planks().next().unwrap().id;
        assert_eq!(
            queries::plank_of(&state, state.piece(shape.piece).unwrap()),
            Some(plank)
        );
        let cost = queries::wood_cost(&state, shape.piece);
        let paid = queries::wood_cost(&state, plank);
        assert_eq!(
            cost.map(|(cost, _)| cost.round_dp(6)),
            paid.map(|(paid, _)| paid.round_dp(6))
        );
        assert_eq!(queries::cost_account(&state).1, 0);
    });
}

#[test]
fn a_family_that_goes_in_a_circle_says_so() {
    for shape in [
        hostile::cuts_in_a_circle(500),
        hostile::glue_ups_in_a_circle(500),
    ] {
        let state = folded(&shape);
        let piece = state.piece(shape.piece).unwrap();
        assert_eq!(piece.life().0, Life::Unresolved, "{}", shape.name);
        assert!(state.goes_in_a_circle(piece.id));
        let of_it = || {
            queries::piece_conflicts(&state)
                .iter()
                .filter(|piece_conflict| piece_conflict.about == piece.id)
        };
        assert!(of_it().next().is_some(), "{}", shape.name);
        assert!(
            of_it().all(|piece_conflict| piece_conflict.why == PieceConflictKind::InACircle),
            "{}",
            shape.name
        );
        assert_eq!(
            PieceConflictKind::InACircle.in_words(),
            "its family goes in a circle: it would come from itself"
        );
        // All walks end.
        assert_eq!(queries::wood_cost(&state, piece.id), None);
        assert!(queries::ancestors(&state, piece.id).len() >= 499);
        // Nothing stands at its beginning: no plank, no size, no wood of its own.
        assert_eq!(queries::size_of(&state, piece), Default::default());
        assert_eq!(queries::species_of(&state, piece), None);
        assert_eq!(queries::plank_of(&state, piece), None);
        assert!(queries::drying_report(&state, piece, kg(0.1)).is_none());
        // The woods of what is glued in on the way, each once.
        let woods: Vec<&str> = queries::woods_in(&state, piece.id)
            .into_iter()
            .map(|wood| wood.text.as_str())
            .collect();
        let planks = state.planks().count();
        let glued_in: &[&str] = if planks == 0 { &[] } else { &["maple-sugar"] };
        assert_eq!(woods, glued_in, "{}", shape.name);
        // What was paid is all accounted for, and no blank of a circle has taken any of it.
        let (accounts, unknown) = queries::cost_account(&state);
        assert_eq!(
            (accounts.len(), unknown),
            (planks.min(1), 0),
            "{}",
            shape.name
        );
        for account in accounts.values() {
            let parts: rust_decimal::Decimal = account.parts().into_iter().sum();
            assert_eq!(parts, account.paid, "{}", shape.name);
            assert_eq!(account.in_blanks, rust_decimal::Decimal::ZERO);
        }
        for kind in [PieceKind::Piece, PieceKind::Laminate, PieceKind::Blank] {
            let came = queries::what_came(&state, kind, GroupedBy::Wood, &Instruments::default());
            assert_eq!(came.len(), 0, "{}: {kind:?}", shape.name);
        }
    }
    // Short ones as well.
    for size in [2, 3] {
        let shape = hostile::cuts_in_a_circle(size);
        assert!(folded(&shape).goes_in_a_circle(shape.piece), "{size}");
    }
}

#[test]
fn a_circle_out_of_two_files_says_so_on_every_device() {
    let shape = hostile::cuts_in_a_circle(6);
    let (one, other): (Vec<_>, Vec<_>) = shape
        .entries
        .iter()
        .cloned()
        .partition(|entry| entry.seq % 2 == 0);
    let mut books = Vec::new();
    for order in [[&one, &other], [&other, &one]] {
        let mut log = Log::new();
        for entries in order {
            log.merge(entries.clone());
        }
        books.push(State::project(&log));
    }
    assert_eq!(books[0], books[1]);
    let circles = queries::piece_conflicts(&books[0])
        .iter()
        .filter(|piece_conflict| piece_conflict.why == PieceConflictKind::InACircle);
    assert_eq!(circles.count(), 6);
}

#[test]
fn what_is_recorded_last_day_first_stands_in_the_order_of_the_days() {
    for shape in [
        hostile::checks_backwards(300),
        hostile::checks_of_one_piece(300),
    ] {
        let state = folded(&shape);
        let checks = &state.piece(shape.piece).unwrap().work.checks;
        assert_eq!(checks.len(), 300);
        assert!(checks.is_sorted_by_key(|said| said.on), "{}", shape.name);
        // One by one it comes to the same.
        let mut one_by_one = State::default();
        let mut log = Log::new();
        for entry in &shape.entries {
            log.merge([entry.clone()]);
            if !one_by_one.append(entry) {
                one_by_one = State::project(&log);
            }
        }
        assert_eq!(one_by_one, state, "{}", shape.name);
    }
}

#[test]
fn the_air_of_a_room_is_that_of_its_last_reading_with_a_humidity() {
    let shape = hostile::weighings_in_a_room(60);
    let state = folded(&shape);
    let piece = state.piece(shape.piece).unwrap();
    let report = queries::drying_report(&state, piece, kg(0.001))
        .unwrap()
        .unwrap();
    assert!(report.fit.is_some());
}

#[test]
fn planks_that_are_all_alike_are_not_offered_by_the_thousand() {
    let shape = hostile::like_planks(400);
    let offered = pairs(&folded(&shape));
    assert!(offered.len() <= 400);
    assert!(
        offered.iter().all(|pair| pair.chance < 0.8),
        "{:?}",
        offered.first()
    );
}
