//! What came of the planks: by yard, and where planks are ripped without pieces.

use stillwood_core::plank::{Instruments, Reason};
use stillwood_core::quantity::mm;
use stillwood_core::record::queries;
use stillwood_core::record::{
    Child, GroupedBy, PieceKind, ReadyLaminate, StartFigure, StartTarget, State, child_marks,
};
use stillwood_core::season::{
    FEELER_MM, PlanPosition, PredictorSays, ShareCount, Stage, StageShare, StartFound, StartRange,
    StartSearch, way_ahead,
};
use stillwood_tests::workshop::{bought, child, day, scale, span, to_the_rack};
use stillwood_tests::yard::Phone;

fn ready(state: &State, day: &str) -> Vec<ReadyLaminate> {
    let today = stillwood_core::record::date(day).unwrap();
    let lines = queries::resting(state, today, mm(FEELER_MM), scale());
    let tools = Instruments::default();
    queries::laminates_to_glue(state, &lines, today, mm(FEELER_MM), &tools).0
}

#[test]
fn what_came_is_told_by_yard_and_few_are_no_sign() {
    let (mut phone, plank, _) = to_the_rack();
    let left = ready(&phone.state(), "2027-12-11")[0].piece;
    phone.discard(left, Reason::Moved);
    let state = phone.state();
    let tools = Instruments::default();
    for by in GroupedBy::ALL {
        let came = queries::what_came(&state, PieceKind::Laminate, by, &tools);
        assert_eq!(came.len(), 1, "{by:?}");
        assert_eq!((came[0].planks, came[0].count.begun()), (1, 8));
        let survival = came[0].survival.unwrap();
        assert_eq!((survival.through, survival.of), (5, 6));
        assert!(survival.few);
    }
    let by_yard = queries::what_came(&state, PieceKind::Laminate, GroupedBy::Yard, &tools);
    let visit = state.visit_of(state.piece(plank).unwrap()).unwrap();
    let yard = queries::GroupName::Named(visit.opened.yard.clone());
    assert_eq!(by_yard[0].name, yard);
    // One pair a plank: the share of those decided that came through.
    let cues = queries::predictors(&state, &tools);
    assert!(cues.iter().any(|told| !told.pairs.is_empty()));
    for (_, share) in cues.iter().flat_map(|told| &told.pairs) {
        assert!((share - 5.0 / 6.0).abs() < 1e-12);
    }
    for told in cues {
        assert!(told.predictor.is_err() || told.predictor.unwrap().says == PredictorSays::TooFew);
    }
    // The third piece of the plank still rests: until it is ripped, or thrown out, the plank has more to give.
    assert_eq!(queries::laminates_per_plank(&state), None);
    let third = state.pieces().find(|piece| piece.mark == "A7c").unwrap().id;
    let mut with_another = Phone::with("N2", phone.log());
    with_another.discard(third, Reason::Moved);
    // Eight of two pieces of three: of all three it would have been twelve. The stage of pieces takes the third off.
    assert_eq!(
        queries::laminates_per_plank(&with_another.state()),
        Some((12.0, 1))
    );
    let another = bought(&mut with_another, "B1");
    with_another.rip(another, &child_marks("B1", PieceKind::Laminate, 3), 16.0);
    let another = with_another.state();
    assert_eq!(queries::laminates_per_plank(&another), Some((7.5, 2)));
    assert_eq!(queries::laminates_to_expect(&another, None), 8);
    // A plank of which a piece is still to be ripped has more to give: it is not in the mean.
    let mut with_a_part = Phone::with("N3", with_another.log());
    let parted = bought(&mut with_a_part, "C1");
    let pieces = ["C1 a", "C1 b"].map(|mark| Child {
        across: span(0.0, 60.0),
        ..child(with_a_part.id(), mark, PieceKind::Piece)
    });
    let first = with_a_part.cut(parted, pieces.into(), 3.2)[0];
    with_a_part.rip(first, &child_marks("C1 a", PieceKind::Laminate, 2), 16.0);
    let mean = queries::laminates_per_plank(&with_a_part.state());
    assert_eq!(mean, Some((7.5, 2)));
    // Of the other nothing is decided: it tells nothing.
    assert!(
        queries::predictors(&another, &tools)
            .iter()
            .all(|told| told.pairs.len() <= 1)
    );
    let wish = StartTarget {
        blanks: 4,
        laminates_per_plank: 8,
        laminates_per_blank: 5,
        confidence: 0.9,
        share_unknown: 0.9,
        by_own_counts: true,
    };
    let today = stillwood_core::record::date("2027-12-11").unwrap();
    let lines = queries::resting(&state, today, mm(FEELER_MM), scale());
    let (wood, _) = queries::wood_in_hand(&state, &[], &lines, 8, today);
    let answer = queries::start_for(&state, &wish, &wood).unwrap();
    // Of one plank they count as one.
    let of_one_plank = ShareCount {
        through: 5,
        of: 6,
        counts_as: 1.0,
    };
    assert_eq!(answer.shares[1], Some(StageShare::Counted(of_one_plank)));
    assert_eq!(answer.shares[2], Some(StageShare::Known(0.9)));
    // One plank's history leaves nearly everything open, and that is said beside the number.
    assert!(
        answer
            .range
            .high
            .is_none_or(|high| high > answer.range.low.unwrap() + 3)
    );
    let words = answer.range_in_words().unwrap();
    assert!(words.starts_with("Your counts leave "), "{words}");
    let held = &answer.in_hand;
    assert_eq!((held.pieces, held.laminates, held.blanks), (1, 2, 1));
    assert!(answer.chance() >= 0.9 - 1e-9 && answer.planks >= Some(2));
    let surer = StartTarget {
        confidence: 0.99,
        ..wish
    };
    let surer = queries::start_for(&state, &surer, &wood).unwrap();
    assert!(surer.planks >= answer.planks && surer.chances.starts_with(&answer.chances));
}

#[test]
fn planks_that_are_ripped_straight_have_no_stage_of_pieces() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    let least = |phone: &Phone| queries::least_rests(&phone.state()).pieces;
    let before = least(&phone);
    let laminates = phone.rip(plank, &child_marks("A7", PieceKind::Laminate, 6), 16.0);
    phone.discard(laminates[0], Reason::Moved);
    let wish = StartTarget::of_percents(40, 90, 9, 5, 80);
    let state = phone.state();
    let question = queries::start_question(&state, &wish, &[]).unwrap();
    let short = question.answered(StartSearch::new(question.task().clone()).unwrap().finish());
    assert_eq!(
        (short.shares[0], short.shares[2]),
        (None, Some(StageShare::Known(0.8)))
    );
    assert_eq!(short.known_badly(), [PieceKind::Laminate, PieceKind::Blank]);
    let notes = short.worked(StartFigure::OnAverage).unwrap().notes;
    assert!(
        notes
            .iter()
            .any(|note| note.starts_with("No piece was ever cut"))
    );
    // No rest of pieces either: the first rest of a plank is that of its laminates.
    assert!(least(&phone).is_none() && !before.is_none());
    let rests = queries::least_rests(&state);
    let legs = way_ahead(PlanPosition::Plank(None), &rests, day("2027-01-01")).unwrap();
    assert_eq!(legs[0].stage, Stage::Laminates);
    // The most planks that are looked at may be the answer; what they don't reach is said.
    let found = |last: f64| StartFound {
        chances: [vec![0.1; 120], vec![last]].concat(),
        range: StartRange {
            low: None,
            high: None,
        },
    };
    let (reached, not_reached) = (
        question.answered(found(0.9)),
        question.answered(found(0.45)),
    );
    assert_eq!((reached.planks, not_reached.planks), (Some(120), None));
    assert_eq!(not_reached.range_in_words(), None);
    let notes = not_reached.worked(StartFigure::Planks).unwrap().notes;
    let said = "It is not reached: with 120, the most that are looked at, it is 45.0 %.";
    assert!(notes.iter().any(|note| note == said), "{notes:?}");
}
