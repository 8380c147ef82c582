//! A few invented planks, sorted, filtered and written.

use super::*;
use crate::record::log::Decision;
use crate::record::log::{Event, Noted};
use crate::record::queries;
use crate::record::queries::to_csv;
use crate::record::queries::visit_tally::tests::{Writer, id, pile, plank, visit};
use crate::record::queries::{
    Column, Filter, HEADINGS, PlankFigure, TableUnderWay, sort_rows, table_rows,
};
use crate::trade::TallyMeasure;
use crate::verdict::Recommendation;

fn rows() -> Vec<PlankRow> {
    let mut writer = Writer::default();
    writer.write(1, Event::VisitOpened(Box::new(visit())));
    writer.write(2, Event::PileOpened(Box::new(pile("14.50"))));
    plank(&mut writer, 10, 2, (2620.0, 204.0), Decision::Take);
    plank(&mut writer, 11, 2, (2400.0, 190.0), Decision::Leave);
    plank(&mut writer, 12, 2, (3000.0, 181.0), Decision::Take);
    let noted = Noted {
        text: "Blue chalk, =1+1".into(),
    };
    writer.write(11, Event::Noted(noted));
    queries::rows(&writer.state(), &Instruments::default())
}

fn marks(rows: &[&PlankRow]) -> Vec<u128> {
    rows.iter().map(|row| row.piece.as_u128()).collect()
}

#[test]
fn a_row_says_what_is_known() {
    let rows = rows();
    assert_eq!(rows.len(), 3);
    let first = &rows[0];
    assert_eq!((first.yard.as_str(), first.visit), ("North", Some(id(1))));
    assert_eq!(first.money.unwrap().net.to_string(), "166.84");
    assert_eq!(first.width_mm.map(f64::round), Some(204.0));
    assert_eq!(first.mass_kg, Some(19.7));
    // Moisture was not read: no density at 12 %.
    assert_eq!(first.density_at_12, None);
    assert!(first.parts.unwrap() > 0 && first.cost_per_part.is_some());
}

#[test]
fn sorted_both_ways_with_the_unknown_last() {
    let mut rows = rows();
    rows[1].length_mm = None;
    let mut all: Vec<&PlankRow> = rows.iter().collect();
    sort_rows(&mut all, Column::Size, false);
    assert_eq!(marks(&all), [10, 12, 11]);
    sort_rows(&mut all, Column::Size, true);
    assert_eq!(marks(&all), [12, 10, 11]);
    for column in Column::ALL {
        sort_rows(&mut all, *column, true);
        sort_rows(&mut all, *column, false);
    }
    sort_rows(&mut all, Column::Decision, false);
    assert_eq!(marks(&all), [10, 12, 11]);
}

#[test]
fn by_cost_the_good_come_first_and_the_rejected_last() {
    let mut rows = rows();
    let standing = [
        // The cheapest, but a reading might still put it beyond the limit.
        (0.0, Recommendation::TooClose, 1, Decision::Take),
        (100.0, Recommendation::Good, 9, Decision::Take),
        (80.0, Recommendation::GoodSoFar, 7, Decision::SetAside),
    ];
    for (row, (score, call, cost, decision)) in rows.iter_mut().zip(standing) {
        (row.score, row.recommendation) = (Some(score), Some(call));
        (row.cost_per_part, row.decision) = (Some(Decimal::from(cost)), Some(decision));
    }
    let marks = |rows: &[PlankRow]| {
        rows.iter()
            .map(|row| row.piece.as_u128())
            .collect::<Vec<_>>()
    };
    put_in_order(&mut rows, Order::CostPerPart);
    assert_eq!(marks(&rows), [12, 11, 10]);
    put_in_order(&mut rows, Order::Score);
    assert_eq!(marks(&rows), [11, 12, 10]);
    rows[0].decision = Some(Decision::Leave);
    for order in [Order::Score, Order::CostPerPart] {
        put_in_order(&mut rows, order);
        assert_eq!(marks(&rows), [12, 10, 11]);
    }
}

#[test]
fn the_best_score_first_and_among_equals_the_best_mean() {
    let mut rows = rows();
    let mut scored = |scores: [Option<(f64, f64)>; 3]| {
        for (row, score) in rows.iter_mut().zip(scores) {
            (row.score, row.mean) = (score.map(|s| s.0), score.map(|s| s.1));
        }
        let mut all: Vec<&PlankRow> = rows.iter().collect();
        all.sort_by(|a, b| b.worth().total_cmp(&a.worth()));
        marks(&all)
    };
    // A better mean never buys off a weaker score; what has no score stands behind a score of nothing.
    assert_eq!(
        scored([Some((40.0, 99.0)), Some((41.0, 50.0)), None]),
        [11, 10, 12]
    );
    assert_eq!(
        scored([Some((40.0, 60.0)), None, Some((40.0, 61.0))]),
        [12, 10, 11]
    );
    assert_eq!(
        scored([None, Some((0.0, 0.0)), Some((0.0, 20.0))]),
        [12, 11, 10]
    );
}

#[test]
fn filtered_by_words_and_decisions() {
    let rows = rows();
    let by = |filter: Filter| marks(&filter.of(&rows));
    assert_eq!(by(Filter::default()), [10, 11, 12]);
    let text = |text: &str| Filter {
        text: text.into(),
        ..Filter::default()
    };
    assert_eq!(by(text("NORTH  chalk")), [11]);
    assert_eq!(by(text("nothing like it")), [0u128; 0]);
    let left = Filter {
        decision: Some(Some(Decision::Leave)),
        ..Filter::default()
    };
    assert_eq!(by(left), [11]);
    let undecided = Filter {
        decision: Some(None),
        ..Filter::default()
    };
    assert_eq!(by(undecided), [0u128; 0]);
    let elsewhere = Filter {
        yard: Some("South".into()),
        ..Filter::default()
    };
    assert_eq!(by(elsewhere), [0u128; 0]);
    let called = |recommendation| {
        by(Filter {
            recommendation: Some(recommendation),
            ..Filter::default()
        })
    };
    for recommendation in [
        Recommendation::NothingYet,
        Recommendation::Refused,
        Recommendation::TooClose,
        Recommendation::GoodSoFar,
        Recommendation::Good,
    ] {
        let wanted: Vec<u128> = rows
            .iter()
            .filter(|row| row.recommendation == Some(recommendation))
            .map(|row| row.piece.as_u128())
            .collect();
        assert_eq!(called(recommendation), wanted);
    }
    let scored = Filter {
        least_score: Some(101.0),
        ..Filter::default()
    };
    assert_eq!(by(scored), [0u128; 0]);
}

#[test]
fn another_spec_is_laid_on_all_as_if_the_visit_had_it() {
    let book_with = |spec: Option<&Spec>| {
        let mut writer = Writer::default();
        let mut terms = visit();
        if let Some(spec) = spec {
            terms.spec = spec.clone();
        }
        writer.write(1, Event::VisitOpened(Box::new(terms)));
        writer.write(2, Event::PileOpened(Box::new(pile("14.50"))));
        plank(&mut writer, 10, 2, (2620.0, 204.0), Decision::Take);
        plank(&mut writer, 11, 2, (700.0, 190.0), Decision::Leave);
        writer.state()
    };
    let tools = Instruments::default();
    let own = book_with(None);
    let mut table = Table::of(&own, &tools);
    assert_eq!(table.rows(), queries::rows(&own, &tools));
    for spec in Spec::supplied() {
        table.judge(&own, Some(&spec));
        assert_eq!(
            table.rows(),
            queries::rows(&book_with(Some(&spec)), &tools),
            "{}",
            spec.name
        );
    }
    table.judge(&own, None);
    assert_eq!(table.rows(), queries::rows(&own, &tools));
}

#[test]
fn a_sheet_and_its_workings_go_by_the_spec_that_the_table_is_judged_by() {
    let state = {
        let mut writer = Writer::default();
        writer.write(1, Event::VisitOpened(Box::new(visit())));
        writer.write(2, Event::PileOpened(Box::new(pile("14.50"))));
        plank(&mut writer, 10, 2, (2620.0, 204.0), Decision::Take);
        writer.state()
    };
    let tools = Instruments::default();
    let piece = state.piece(id(10)).unwrap();
    let mut table = Table::of(&state, &tools);
    let mut parts = Vec::new();
    for spec in Spec::supplied() {
        table.judge(&state, Some(&spec));
        let (row, sheet) = (&table.rows()[0], piece.sheet_under(&spec, &tools));
        assert_eq!(row.score, sheet.verdict.score, "{}", spec.name);
        assert_eq!(row.parts, sheet.held.map(|held| held.parts));
        let told =
            |figure| queries::explain_plank_figure(&state, id(10), figure, Some(&spec), &tools);
        let each = told(PlankFigure::CostPerPart).map(|told| told.steps[0].result);
        let wanted: Option<f64> = row.cost_per_part.map(|cost| cost.try_into().unwrap());
        assert_eq!(
            each.map(|each| (each * 100.0).round()),
            wanted.map(|each| (each * 100.0).round())
        );
        parts.push(row.parts);
    }
    assert!(parts.iter().any(|held| *held != parts[0]), "{parts:?}");
    let own = queries::explain_plank_figure(&state, id(10), PlankFigure::CostPerPart, None, &tools);
    let spec = &state.visit(id(1)).unwrap().opened.spec;
    let same =
        queries::explain_plank_figure(&state, id(10), PlankFigure::CostPerPart, Some(spec), &tools);
    assert_eq!(own, same);
}

#[test]
fn the_planks_of_a_visit_cost_what_its_tally_says() {
    let mut writer = Writer::default();
    let mut terms = visit();
    terms.rule.measure = TallyMeasure::SurfaceMeasure;
    writer.write(1, Event::VisitOpened(Box::new(terms)));
    writer.write(2, Event::PileOpened(Box::new(pile("10"))));
    // 11 feet by 6 inches of 8/4: half a square foot goes down for the one and up for the other.
    for n in [10, 11] {
        plank(&mut writer, n, 2, (3352.8, 152.4), Decision::Take);
    }
    let state = writer.state();
    let tally = queries::tally_of(&state, id(1)).unwrap();
    assert_eq!(tally.tally.board_feet, Decimal::from(22));
    for plank in &tally.planks {
        let rows = queries::ranked(&state, id(1), &Instruments::default());
        let row = rows.iter().find(|row| row.piece == plank.piece).unwrap();
        assert_eq!(row.board_feet, plank.tallied.board_feet.ok());
        assert_eq!(row.money, plank.tallied.money.ok());
    }
}

#[test]
fn specs_to_choose_from_stand_there_once() {
    let mut writer = Writer::default();
    let mut bodies = visit();
    bodies.spec = Spec::supplied().swap_remove(2);
    for (n, terms) in [visit(), bodies, visit()].into_iter().enumerate() {
        writer.write(n as u128 + 1, Event::VisitOpened(Box::new(terms)));
    }
    let specs = queries::specs(&writer.state());
    let names: Vec<&str> = specs.iter().map(|(name, _)| name.as_str()).collect();
    let of_visits = names
        .iter()
        .filter(|name| name.contains("North 2026"))
        .count();
    assert_eq!(of_visits, 2, "{names:?}");
    for (at, (_, spec)) in specs.iter().enumerate() {
        assert!(specs[at + 1..].iter().all(|(_, other)| other != spec));
    }
    assert!(
        Spec::supplied()
            .iter()
            .all(|spec| specs.iter().any(|(_, one)| one == spec))
    );
}

#[test]
fn a_table_for_a_spreadsheet() {
    let rows = rows();
    let out = table_rows(&rows, &|_| None);
    assert!(out.iter().all(|row| row.len() == HEADINGS.len()));
    let csv = to_csv(out);
    assert!(csv.contains("K-10,North,2026-03-07,river maple,2620.0,204.0,52.0,19.70,"));
    assert!(csv.contains("\"Blue chalk, =1+1\""));
}

#[test]
fn a_row_is_found_and_written_by_what_the_screens_call_it() {
    let rows = rows();
    let called = |name: &str| match name {
        "river maple" => Some("Flussahorn".to_owned()),
        "mark" => Some("Zeichen".to_owned()),
        _ => None,
    };
    let filter = Filter {
        text: "flussahorn north".to_owned(),
        ..Filter::default()
    };
    assert!(filter.of(&rows).is_empty());
    assert!(!filter.of_called(&rows, &called).is_empty());
    let csv = to_csv(table_rows(&rows, &called));
    assert!(csv.starts_with("Zeichen,yard,day,"));
    assert!(csv.contains("K-10,North,2026-03-07,Flussahorn,2620.0,204.0,52.0,19.70,"));
}

#[test]
fn some_planks_at_a_time_it_is_the_table_that_is_made_at_once() {
    let mut writer = Writer::default();
    for n in [1, 3] {
        writer.write(n, Event::VisitOpened(Box::new(visit())));
        let mut of = pile("14.50");
        of.visit = id(n);
        writer.write(n + 1, Event::PileOpened(Box::new(of)));
    }
    for n in 0..7_u32 {
        let decision = [Decision::Take, Decision::Leave][n as usize % 2];
        let size = (2400.0 + f64::from(n) * 50.0, 190.0);
        plank(
            &mut writer,
            10 + u128::from(n),
            2 + u128::from(n % 2) * 2,
            size,
            decision,
        );
    }
    let (state, tools) = (writer.state(), Instruments::default());
    let mut whole = Table::of(&state, &tools);
    let mut under_way = TableUnderWay::begin(&state);
    assert_eq!(under_way.progress(), (0, 7));
    assert!(under_way.go_on(&state, &tools, None, 3));
    assert_eq!(under_way.progress(), (3, 7));
    assert!(under_way.clone().finish().is_none());
    assert!(under_way.go_on(&state, &tools, None, 3));
    assert!(!under_way.go_on(&state, &tools, None, 3));
    let made = under_way.finish().unwrap();
    assert_eq!(made.rows(), whole.rows());

    // Under another spec, and back.
    for spec in [Spec::supplied().pop(), None] {
        whole.judge(&state, spec.as_ref());
        let mut anew = TableUnderWay::judge_anew(made.clone());
        while anew.go_on(&state, &tools, spec.as_ref(), 2) {}
        assert_eq!(anew.finish().unwrap().rows(), whole.rows());
    }
}
