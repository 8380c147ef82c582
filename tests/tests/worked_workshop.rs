//! What a screen tells of how a number was worked out is how it was worked out: for the workshop, the blanks
//! and what came of it, over every piece of the example.

use rust_decimal::prelude::ToPrimitive;
use stillwood_core::neck::{
    MatchFigure, MatchLimits, Placed, Turn, cost_per_part, explain_match, judge_match,
};
use stillwood_core::plank::Instruments;
use stillwood_core::quantity::{Derivation, in_kg, in_kg_per_m3, in_mm, kg, mm, show};
use stillwood_core::record;
use stillwood_core::record::queries;
use stillwood_core::record::{
    GroupedBy, PieceFigure, PieceKind, PlankFigure, ReadyLaminate, StartFigure, StartTarget, State,
    Total, blank_of, date, explain_blank_size, explain_blank_weight, explain_plan, explain_total,
};
use stillwood_core::season::{
    DriedTo, FEELER_MM, StageShare, explain_latest, explain_survival, latest_days, survival_of,
};
use stillwood_core::verdict::Number;
use stillwood_tests::shown_formula::check_steps;
use stillwood_tests::workshop::feeler;

const EXAMPLE: &str = include_str!("../../demo-data/two-yards.json");

fn state() -> State {
    let read = record::read(EXAMPLE.as_bytes(), &record::Limits::default())
        .expect("the example is a notebook");
    State::project_entries(&read.accepted)
}

/// It has a formula or a sentence, says where it is from, and holds numbers.
fn whole(working: &Derivation) {
    let said = !working.steps.is_empty() || !working.notes.is_empty();
    let sourced = !working.source.is_empty() || !working.steps.is_empty();
    let mut texts = working.notes.clone();
    texts.extend(working.steps.iter().map(|step| step.in_numbers()));
    let numbers = texts
        .iter()
        .any(|text| text.contains(|c: char| c.is_ascii_digit()));
    assert!(said && sourced && numbers, "{working:?}");
    check_steps(working);
    for step in &working.steps {
        assert!(!step.explanation.range.is_empty() && !step.explanation.source.is_empty());
    }
    if let Some(spread) = &working.spread {
        let all: f64 = spread.shares.iter().map(|(_, share)| share).sum();
        assert!((all - 100.0).abs() < 1e-6, "{all}");
    }
}

/// The last step gives the number.
#[track_caller]
fn gives(working: &Derivation, wanted: f64) {
    whole(working);
    let last = working.steps.last().expect("a step");
    let same = (last.result - wanted).abs() <= 1e-9 * wanted.abs().max(1e-3);
    assert!(same, "{}: {} {wanted}", last.explanation.name, last.result);
}

#[test]
fn movement_since_it_was_last_flat() {
    let state = state();
    let (mut told, mut limits) = (0, 0);
    for piece in state.pieces() {
        for check in queries::moved(&state, piece, feeler()) {
            for change in check.changes.iter().flatten() {
                let working = queries::change_worked(&state, piece, &check, change.warp);
                let Some(by) = change.by else {
                    assert_eq!(working, None, "{}", piece.mark);
                    continue;
                };
                let working = working.expect("a change is told");
                gives(&working, in_mm(by));
                let spread = working.spread.as_ref().expect("a gap is never certain");
                assert!((spread.expanded - 2.0 * in_mm(change.standard)).abs() < 1e-9);
                let limit = change.limit.map(|limit| limit.reject_mm);
                let found = working
                    .steps
                    .iter()
                    .find(|step| step.explanation.symbol == "d′");
                if let (Some(limit), Some(found)) = (limit, found) {
                    assert_eq!(found.result, limit, "{}", piece.mark);
                    limits += 1;
                }
                told += 1;
            }
        }
    }
    assert!(told > 20 && limits > 20, "{told} {limits}");
}

#[test]
fn drying_density_rest_and_what_a_cut_lost() {
    let (state, tools) = (state(), Instruments::default());
    let mut told = [0; 10];
    for piece in state.pieces() {
        let working = |figure| queries::explain_piece_figure(&state, piece.id, figure, &tools);
        if let Some(Ok(report)) = queries::drying_report(&state, piece, kg(tools.scale_kg)) {
            let of = |what| working(PieceFigure::Drying(what));
            gives(
                &of(DriedTo::OnePercent).expect("told"),
                1000.0 * in_kg(report.one_percent),
            );
            if let Some(fit) = report.fit {
                gives(
                    &of(DriedTo::Left).expect("told"),
                    fit.left.value.in_percent(),
                );
                let settles = 1000.0 * in_kg(fit.settles_at.value);
                gives(&of(DriedTo::SettlesAt).expect("told"), settles);
                let near = of(DriedTo::NearIn).expect("told");
                match fit.days_until_near.value > 0.0 {
                    true => gives(&near, fit.days_until_near.value),
                    false => whole(&near),
                }
                told[0] += 1;
            }
        }
        if let Some(density) = queries::density_in_shop(&state, piece) {
            gives(
                &working(PieceFigure::Density).expect("told"),
                in_kg_per_m3(density),
            );
            told[1] += 1;
        }
        if let Some(account) = queries::cut_account(&state, piece.id, &tools) {
            if let Some(wood) = account.wood {
                gives(
                    &working(PieceFigure::Lost).expect("told"),
                    wood.lost_percent(),
                );
                told[2] += 1;
            }
            if let Some(mass) = account.mass {
                gives(
                    &working(PieceFigure::MassGone).expect("told"),
                    in_kg(mass.waste),
                );
                let open = show::number(2.0 * in_kg(mass.standard), 3);
                let note = &working(PieceFigure::MassGone).expect("told").notes[0];
                assert!(note.contains(&format!("± {open} kg")), "{note}");
                told[8] += 1;
            }
        }
        if piece.work.rest().is_some() {
            let due = working(PieceFigure::RestOverOn).expect("told");
            whole(&due);
            assert!(
                due.notes[0].contains("calendar months = 20"),
                "{:?}",
                due.notes
            );
            told[3] += 1;
        }
        whole(&working(PieceFigure::Size).expect("told"));
        if let Some((cost, _)) = queries::wood_cost(&state, piece.id) {
            let cents = |value: f64| (value * 100.0).round();
            let last = |working: &Derivation| working.steps.last().map(|step| step.result);
            let whole_cost = working(PieceFigure::WoodCost).expect("told");
            whole(&whole_cost);
            if let Some(found) = last(&whole_cost) {
                let wanted = cost.to_f64().expect("an amount");
                assert_eq!(cents(found), cents(wanted), "{}", piece.mark);
                told[4] += 1;
            }
            let each = working(PieceFigure::CostEach(7)).expect("told");
            let wanted = cost_per_part(cost, 7).and_then(|each| each.to_f64());
            assert_eq!(last(&each).map(cents), wanted.map(cents), "{}", piece.mark);
            assert!(each.steps.iter().all(|step| !step.unit.is_empty()));
        }
        if let (PieceKind::Blank, Some((mass, weighed))) =
            (piece.work.kind, queries::blank_weight(&state, piece))
        {
            let weight = working(PieceFigure::Weight).expect("told");
            match weighed {
                true => whole(&weight),
                false => gives(&weight, in_kg(mass)),
            }
            told[5] += 1;
        }
        let section = queries::section_of(&state, piece);
        if let Some(stiff) = section.and_then(|section| section.stiffness()) {
            let working = working(PieceFigure::Stiffness).expect("told");
            gives(&working, stiff.in_newton_square_metres());
            told[6] += 1;
        }
        if let Some(so_far) = queries::moved_so_far(&state, piece, feeler()) {
            let working = working(PieceFigure::MovedSoFar).expect("told");
            match so_far.largest.and_then(|(_, change)| change.by) {
                Some(by) => {
                    gives(&working, in_mm(by));
                    told[9] += 1;
                }
                None => whole(&working),
            }
            told[7] += 1;
        }
        let year = queries::blank_over_year(&state, piece).map(|moved| in_mm(moved.across));
        assert_eq!(working(PieceFigure::OverYear).is_some(), year.is_ok());
    }
    assert!(told.iter().all(|count| *count > 0), "{told:?}");
    let mut rooms = 0;
    for read in queries::rooms(&state).values().flatten() {
        if let Some(Ok(settles)) = read.payload.settles_at() {
            gives(
                &read.payload.explain_equilibrium().expect("told"),
                settles.in_percent(),
            );
            rooms += 1;
        }
    }
    assert!(rooms > 0);
}

fn laminates(state: &State) -> Vec<ReadyLaminate> {
    let today = date("2028-06-01").expect("a day");
    let lines = queries::resting(state, today, feeler(), kg(0.1));
    queries::laminates_to_glue(state, &lines, today, feeler(), &Instruments::default()).0
}

#[test]
fn a_set_of_laminates_to_the_last_digit() {
    let state = state();
    let ready = laminates(&state);
    let stock: Vec<_> = ready.iter().map(|one| one.laminate).collect();
    assert!(stock.len() >= 3, "the example has laminates to glue");
    let within = MatchLimits::default();
    let mut weighed = 0;
    for first in 0..stock.len() - 2 {
        for turned in 0..4 {
            let placed = |n: usize| Placed {
                laminate: first + n,
                turn: Turn {
                    turned_over: (turned + n) % 2 == 1,
                    end_for_end: turned > 1,
                },
            };
            let blank: Vec<Placed> = (0..3).map(placed).collect();
            let judged = judge_match(&stock, &blank, &within).expect("it is judged");
            for (figure, wanted) in [
                (MatchFigure::Crook, in_mm(judged.mean_crook)),
                (MatchFigure::Twist, in_mm(judged.mean_twist)),
                (MatchFigure::Bow, in_mm(judged.bow_left)),
                (MatchFigure::Cost, judged.cost),
            ] {
                let working = explain_match(figure, &stock, &blank, &within).expect("it is told");
                gives(&working, wanted);
            }
            let size = blank_of(&ready, &blank).expect("a size");
            whole(&explain_blank_size(&ready, &blank).expect("told"));
            if let Some(weight) = size.weight {
                gives(
                    &explain_blank_weight(&ready, &blank).expect("told"),
                    in_kg(weight),
                );
                weighed += 1;
            }
        }
    }
    assert!(weighed > 0);
}

#[test]
fn what_came_of_it() {
    let (state, tools) = (state(), Instruments::default());
    let mut told = 0;
    for kind in [PieceKind::Piece, PieceKind::Laminate, PieceKind::Blank] {
        for by in GroupedBy::ALL {
            for found in queries::what_came(&state, kind, by, &tools)
                .into_iter()
                .filter_map(|one| one.survival)
            {
                let working = explain_survival(&found);
                gives(&working, 100.0 * found.share);
                let ends = [found.low, found.high].map(|end| format!("{:.1} %", 100.0 * end));
                assert!(
                    ends.iter().all(|end| working.notes[0].contains(end)),
                    "{:?}",
                    working.notes
                );
                told += 1;
            }
        }
    }
    assert!(told > 5, "{told}");
    let mut told = 0;
    for sign in queries::predictors(&state, &tools) {
        let working = sign.working();
        match &sign.predictor {
            Err(_) => assert_eq!(working, None, "{:?}", sign.reading),
            Ok(cue) => {
                let working = working.expect("a sign is told");
                whole(&working);
                assert_eq!(working.steps[0].result, cue.spearman, "{:?}", sign.reading);
                if let (Some((_, high)), Some(last)) = (cue.interval, working.steps.last()) {
                    assert_eq!(last.result, high, "{:?}", sign.reading);
                    told += 1;
                }
                if let Some(chance) = cue.chance {
                    let chance = format!("{:.1} % go together", 100.0 * chance);
                    assert!(working.notes.iter().any(|note| note.contains(&chance)));
                    told += 1;
                }
            }
        }
    }
    assert!(told > 0);
    let wish = StartTarget {
        blanks: 20,
        laminates_per_plank: 9,
        laminates_per_blank: 5,
        confidence: 0.6,
        share_unknown: 0.85,
        by_own_counts: true,
    };
    let today = date("2026-11-25").expect("a day");
    let lines = queries::resting(&state, today, mm(FEELER_MM), kg(0.1));
    let padauk = record::SpeciesNamed {
        id: None,
        text: "African padauk".into(),
    };
    let (wood, _) = queries::wood_in_hand(&state, &[padauk], &lines, 9, today);
    let answer = queries::start_for(&state, &wish, &wood).expect("an answer");
    let working = |figure| answer.worked(figure).expect("it is told");
    gives(&working(StartFigure::OnAverage), answer.on_average);
    let planks = working(StartFigure::Planks);
    whole(&planks);
    let chance = format!(
        "With {} it is {:.1} %",
        answer.planks.expect("enough planks"),
        100.0 * answer.chance()
    );
    assert!(
        planks.notes.iter().any(|note| note.contains(&chance)),
        "{:?}",
        planks.notes
    );
    whole(&working(StartFigure::IntraclassCorrelation));
    let mut counted = 0;
    for share in answer.shares {
        if let Some(StageShare::Counted(count)) = share {
            let found = survival_of(count).expect("counts");
            gives(&explain_survival(&found), 100.0 * found.share);
            counted += 1;
        }
    }
    assert!(counted > 0);
}

#[test]
fn every_figure_of_a_plank_in_a_list() {
    let (state, tools) = (state(), Instruments::default());
    let (mut told, mut billed) = (0, 0);
    for row in queries::rows(&state, &tools) {
        let working =
            |figure| queries::explain_plank_figure(&state, row.piece, figure, None, &tools);
        let last = |figure| working(figure)?.steps.last().map(|step| step.result);
        for (number, wanted) in [
            (Number::Mass, row.mass_kg),
            (Number::DensityAt12, row.density_at_12),
            (Number::Moisture, row.moisture),
            (Number::PlankScore, row.score),
            (Number::Held, row.parts.map(f64::from)),
        ] {
            if wanted.is_some() {
                whole(&working(PlankFigure::Sheet(number)).expect("it is told"));
                told += 1;
            }
        }
        let cents = |value: f64| (value * 100.0).round();
        if let (Some(wanted), Some(paid)) = (row.cost_per_part, row.money) {
            let wanted = wanted.to_f64().map(cents);
            assert_eq!(
                last(PlankFigure::CostPerPart).map(cents),
                wanted,
                "{}",
                row.mark
            );
            let bill = working(PlankFigure::Bill).expect("it is told");
            whole(&bill);
            let last = bill.steps.last().expect("a bill has its steps");
            assert_eq!(
                cents(last.result),
                cents(paid.gross.to_f64().expect("an amount"))
            );
            assert_eq!(last.unit, row.currency);
            whole(&working(PlankFigure::Exact).expect("it is told"));
            billed += 1;
        }
    }
    assert!(told > 40 && billed > 10, "{told} {billed}");
}

#[test]
fn every_total_of_a_visit() {
    let state = state();
    let mut budgets = 0;
    for visit in state.visits() {
        let (spec, currency) = (&visit.opened.spec, &visit.opened.currency);
        let tally = queries::tally_of(&state, visit.id).expect("a tally");
        let working = |total| explain_total(total, &tally, spec, currency);
        for total in [
            Total::ByTheRule,
            Total::Exact,
            Total::Mass,
            Total::Net,
            Total::Tax,
            Total::Gross,
        ] {
            whole(&working(total).expect("it is told"));
        }
        if let Some(left) = tally.budget_left {
            gives(
                &working(Total::BudgetLeft).expect("told"),
                left.to_f64().expect("an amount"),
            );
            budgets += 1;
        }
        let tax = tally.tally.money.tax.to_f64().expect("an amount");
        assert!((working(Total::Tax).expect("told").steps[0].result - tax).abs() < 1e-6);
    }
    assert!(budgets > 0);
}

#[test]
fn a_cutting_plan_and_its_parts() {
    use stillwood_core::neck::{PartCut, PartWorth, plan_cuts};
    let state = state();
    let mut told = 0;
    for piece in state.pieces() {
        let Some(stock) = queries::stock_to_cut(&state, piece) else {
            continue;
        };
        let cut = PartCut {
            length: mm(900.0),
            thickness: mm(16.0),
            planing: mm(1.5),
            kerf: mm(3.0),
            end_trim: mm(20.0),
            edge_trim: mm(5.0),
            step: mm(0.1),
        };
        let rings = |offset| Some(queries::rings_in(&state, piece, offset)?.angle);
        let worth = PartWorth {
            quartersawn: 1.0,
            rift: 1.0,
            flatsawn: 1.0,
            unknown: 1.0,
        };
        let Ok(plan) = plan_cuts(&stock, &cut, &rings, &worth) else {
            continue;
        };
        let told_plan = explain_plan(&stock, &cut, &plan);
        whole(&told_plan);
        let fullest = plan.rows.iter().map(|row| row.parts.len()).max();
        if let Some(fullest) = fullest {
            // Parts of 16 mm, 1.5 mm to plane off each face.
            let used = 19.0 * fullest as f64;
            let says = format!("takes {} of ", show::number(used, 1));
            assert!(
                told_plan.notes[1].contains(&says),
                "{says} {:?}",
                told_plan.notes
            );
            let share = show::number(100.0 * used / in_mm(stock.width), 0);
            assert!(told_plan.notes[1].ends_with(&format!("parts, {share} % of it.")));
        }
        for part in plan.rows.iter().flat_map(|row| &row.parts) {
            let working = queries::explain_part(&state, piece, part, &cut, true);
            whole(&working);
            let rough = in_mm(part.across.to - part.across.from);
            assert!((working.steps[0].result - 19.0).abs() < 1e-9);
            assert!((working.steps[0].result - rough).abs() < 0.11, "{rough}");
            if let Some(angle) = part.ring_angle {
                let found = working.steps.last().expect("a step").result;
                let wanted = stillwood_core::quantity::in_degrees(angle);
                assert!(
                    (found - wanted).abs() < 1e-6,
                    "{}: {found} {wanted}",
                    piece.mark
                );
                told += 1;
            }
        }
    }
    assert!(told > 10, "{told}");
}

#[test]
fn the_pace_and_the_last_days_at_it() {
    let state = state();
    let today = date("2026-11-25").unwrap();
    let paces = queries::paces(&state, feeler(), today);
    let mut known = 0;
    for stage in &paces.stages {
        let told = stage.worked();
        whole(&told);
        // All that is counted adds up.
        let gone_on = stage.lays.iter().filter(|lay| lay.went_on).count();
        assert_eq!(gone_on + stage.waiting + stage.left, stage.lays.len());
        let counted = [gone_on, stage.waiting, stage.left].map(|count| count.to_string());
        assert!(
            counted.iter().all(|count| told.notes[0].contains(count)),
            "{told:?}"
        );
        if let Ok(pace) = &stage.pace {
            let half = format!("half by day {} ", pace.half);
            assert!(
                told.notes.iter().any(|note| note.contains(&half)),
                "{told:?}"
            );
            known += 1;
        }
    }
    assert!(known > 0);
    let rests = paces.rests(&queries::least_rests(&state)).unwrap();
    let by = date("2028-09-01").unwrap();
    let told = explain_latest(by, &rests).unwrap();
    whole(&told);
    let days = latest_days(by, &rests).unwrap();
    for (note, day) in told
        .notes
        .iter()
        .zip([days.glue_by, days.rip_by, days.cut_by])
    {
        assert!(note.ends_with(&format!(": {day}.")), "{note}");
    }
}
