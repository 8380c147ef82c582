//! What the seasoning years are reckoned with, held against published values.

use stillwood_core::quantity::{Moisture, in_kg, kg};
use stillwood_core::season::{
    BetaSpread, DryingFit, InHand, Lay, StageShare, StartSearch, StartTask, SurvivalStep, Watched,
    Way, Weighing, fit_drying, fit_rate, pace, rank_correlation, score_interval, share_difference,
    student_factor, survival, survival_curve,
};
use stillwood_tests::starts::{AS_GOOD_AS_SURE, start_one_by_one};
use stillwood_tests::{Row, rows};

fn numbers(text: &str) -> Vec<f64> {
    text.split(' ').map(|one| one.parse().unwrap()).collect()
}

/// What the formula named in the row gives for the row's inputs.
fn compute(row: &Row) -> f64 {
    let number = |name| row.number(name, "");
    let count = |name| number(name) as u32;
    let spread = || BetaSpread::new(number("a"), number("b")).unwrap();
    let found = || survival(count("through"), count("of")).unwrap();
    let score = || score_interval(count("through"), count("of")).unwrap();
    let difference = || share_difference(of(row, "first"), of(row, "second")).unwrap();
    match row.formula.as_str() {
        "student_factor" => student_factor(count("degrees")).unwrap(),
        "BetaSpread::below" => spread().below(number("x")),
        "survival low" => found().low,
        "survival high" => found().high,
        "score_interval low" => score().0,
        "score_interval high" => score().1,
        "share_difference low" => difference().low,
        "share_difference high" => difference().high,
        "survival_curve share" => step(row).share,
        "survival_curve at_risk" => f64::from(step(row).at_risk),
        "survival_curve standard" => step(row).standard,
        "survival_curve low" => step(row).interval.unwrap().0,
        "survival_curve high" => step(row).interval.unwrap().1,
        "pace half" => f64::from(pace(&lays(row)).unwrap().half),
        "rank_correlation spearman" => rank_correlation(&pairs(row)).unwrap().spearman,
        "fit_rate" => fitted(row.text("set"), row.text("of")),
        "fit_drying time_constant" => dried(row).time_constant.value,
        "fit_drying left" => 1000.0 * in_kg(dried(row).left_mass.value),
        "fit_drying settles" => 1000.0 * in_kg(dried(row).settles_at.value),
        "StartSearch::finish planks" => {
            let most = 5000;
            let task =
                start_one_by_one(count("wanted"), number("share"), number("confidence"), most);
            (chances(task).len() - 1) as f64
        }
        "StartSearch::finish chance" => {
            let known = |name| numbers(row.text(name)).into_iter().map(StageShare::Known);
            let way = Way {
                parts_per_plank: count("laminates"),
                part_stages: known("shares").collect(),
                intraclass_correlation: number("likeness"),
                parts_per_blank: count("to_a_blank"),
                blank_stages: known("blank_shares").collect(),
            };
            let task = StartTask {
                way,
                in_hand: InHand::default(),
                wanted: count("wanted"),
                confidence: AS_GOOD_AS_SURE,
                most: count("planks"),
            };
            *chances(task).last().unwrap()
        }
        other => panic!("row {} names {other}, which is not checked here", row.id),
    }
}

fn chances(task: StartTask) -> Vec<f64> {
    StartSearch::new(task).unwrap().finish().chances
}

fn of(row: &Row, name: &str) -> (u32, u32) {
    let (through, of) = row.text(name).split_once('/').unwrap();
    (through.parse().unwrap(), of.parse().unwrap())
}

/// The step of the survival curve at a time; a time with a plus was last seen good.
fn watched(row: &Row) -> Vec<Watched> {
    let pieces = row.text("pieces").split(' ').map(|one| Watched {
        time: one.trim_end_matches('+').parse().unwrap(),
        failed: !one.ends_with('+'),
    });
    pieces.collect()
}

fn lays(row: &Row) -> Vec<Lay> {
    let lay = |one: Watched| Lay {
        days: one.time as u32,
        went_on: one.failed,
    };
    watched(row).into_iter().map(lay).collect()
}

fn step(row: &Row) -> SurvivalStep {
    let pieces = watched(row);
    let at = row.number("at", "");
    let curve = survival_curve(&pieces).unwrap();
    *curve.iter().find(|step| step.time == at).unwrap()
}

fn pairs(row: &Row) -> Vec<(f64, f64)> {
    let (x, y) = (numbers(row.text("x")), numbers(row.text("y")));
    assert_eq!(x.len(), y.len());
    x.into_iter().zip(y).collect()
}

fn dried(row: &Row) -> DryingFit {
    let air = Moisture::percent(row.number("air", "%"));
    let weighings: Vec<Weighing> = numbers(row.text("days"))
        .into_iter()
        .zip(numbers(row.text("grams")))
        .map(|(day, grams)| Weighing {
            day,
            mass: kg(grams / 1000.0),
            air,
        })
        .collect();
    fit_drying(&weighings, kg(0.0005)).unwrap()
}

const MISRA: [(f64, f64); 14] = [
    (77.6, 10.07),
    (114.9, 14.73),
    (141.1, 17.94),
    (190.8, 23.93),
    (239.9, 29.61),
    (289.0, 35.18),
    (332.8, 40.02),
    (378.4, 44.82),
    (434.8, 50.76),
    (477.3, 55.05),
    (536.8, 61.01),
    (593.1, 66.40),
    (689.1, 75.47),
    (760.0, 81.78),
];
const BOXBOD: [(f64, f64); 6] = [
    (1.0, 109.0),
    (2.0, 149.0),
    (3.0, 149.0),
    (5.0, 191.0),
    (7.0, 213.0),
    (10.0, 224.0),
];
const DANWOOD: [(f64, f64); 6] = [
    (1.309, 2.138),
    (1.471, 3.421),
    (1.490, 3.597),
    (1.565, 4.340),
    (1.611, 4.882),
    (1.680, 5.660),
];

/// The sets of NIST's Statistical Reference Datasets whose model is one factor and one rate.
fn fitted(set: &str, of: &str) -> f64 {
    type Model = fn(f64, f64) -> f64;
    let rising: Model = |b, x| 1.0 - libm::exp(-b * x);
    let (data, model, from, to): (&[(f64, f64)], Model, f64, f64) = match set {
        "misra1a" => (&MISRA, rising, 1e-6, 1.0),
        "boxbod" => (&BOXBOD, rising, 1e-3, 100.0),
        "danwood" => (&DANWOOD, |b, x| libm::pow(x, b), 0.1, 100.0),
        "misra1b" => (
            &MISRA,
            |b, x| 1.0 - libm::pow(1.0 + b * x / 2.0, -2.0),
            1e-6,
            1.0,
        ),
        "misra1c" => (
            &MISRA,
            |b, x| 1.0 - 1.0 / (1.0 + 2.0 * b * x).sqrt(),
            1e-6,
            1.0,
        ),
        "misra1d" => (&MISRA, |b, x| b * x / (1.0 + b * x), 1e-6, 1.0),
        other => panic!("no set {other}"),
    };
    let y: Vec<f64> = data.iter().map(|point| point.1).collect();
    let columns = |b: f64| vec![data.iter().map(|point| model(b, point.0)).collect()];
    let fit = fit_rate(&y, &columns, from, to).unwrap();
    assert!(!fit.at_end);
    match of {
        "rate" => fit.rate,
        "factor" => fit.held.factors[0],
        "squares" => fit.held.squares,
        other => panic!("nothing called {other}"),
    }
}

#[test]
fn every_row_comes_out() {
    let rows = rows(include_str!("../published/season.csv"));
    assert!(rows.iter().filter(|row| row.read).count() >= 90);
    for row in &rows {
        row.check(compute(row));
    }
}
