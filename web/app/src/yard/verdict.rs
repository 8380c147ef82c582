//! The verdict on a plank that is being measured: one number and one sentence, the plank with the parts laid in it,
//! a gauge for each criterion, and the decision.

use super::Action;
use super::amounts::{feet, money};
use super::beside_usual::beside_usual;
use super::drawn::{ON_FACE, edge_and_end, weak_place};
use super::entering::Entering;
use super::laid::laid;
use crate::action::Action as Any;
use crate::explain::{Asked, figure};
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Gauge, Judged, Segment, capital, gauge, sign, task_head, toast};
use crate::route::Route;
use crate::words::{Spoken, count, fill, show, spoken_name, wood_names};
use maud::{Markup, html};
use stillwood_core::neck::PartCount;
use stillwood_core::plank::Field;
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{Conformance, in_celsius};
use stillwood_core::record::queries::own_readings;
use stillwood_core::record::{Decision, DraftReadings, Id, queries};
use stillwood_core::trade::TalliedLine;
use stillwood_core::verdict::{
    Advice, Criterion, CriterionScore, Evaluation, Form, Number, Recommendation, Requirement,
    Sheet, Spec, parts_in_words,
};
use stillwood_core::wood::Species;

/// How a plank stands so far.
pub struct PlankSoFar {
    /// The ring: a segment a criterion of the spec.
    pub segments: Vec<Segment>,
    /// How many criteria of the spec's own were looked at.
    pub looked: usize,
    /// How many there are.
    pub all: usize,
    /// What is near or beyond its limit.
    pub news: Option<(Judged, String)>,
    /// Everything that was worked out.
    pub sheet: Sheet,
}

/// How a scored criterion is judged: nothing is good while a hard limit has not been looked at.
fn judged(scored: &CriterionScore, all_looked: bool) -> Judged {
    match scored.conformance {
        Conformance::Beyond => Judged::Bad,
        Conformance::TooClose => Judged::Doubt,
        Conformance::Inside if all_looked => Judged::Good,
        Conformance::Inside => Judged::Unknown,
    }
}

/// How a plank stands so far, by what was read of it.
pub fn reading_of(model: &Model, entering: &Entering, read: &DraftReadings) -> PlankSoFar {
    let own = own_readings(model.state(), entering.draft.pile, &read.readings);
    let shared =
        |criterion| criterion == Criterion::Moisture && !own.contains_key(&Field::Moisture);
    let sheet = entering.sheet_of(model, read);
    standing_of(model, &entering.spec, sheet, &shared)
}

/// How a plank stands under a spec. `shared` says whether a criterion was read on the pile, not on the plank.
pub fn standing_of(
    model: &Model,
    spec: &Spec,
    sheet: Sheet,
    shared: &dyn Fn(Criterion) -> bool,
) -> PlankSoFar {
    let words = &model.words().yard;
    let verdict = &sheet.verdict;
    let scored = |one: &Requirement| {
        let found = verdict
            .scored
            .iter()
            .find(|scored| scored.requirement.criterion == one.criterion);
        found.filter(|_| !shared(one.criterion))
    };
    let own = spec.criteria.iter().any(|one| scored(one).is_some());
    // What was read on the pile counts as looked at once anything was looked at on the plank.
    let seen = |one: &Requirement| {
        let mut all = verdict.scored.iter();
        let found = all.find(|scored| scored.requirement.criterion == one.criterion);
        found.filter(|_| own)
    };
    let looked = spec
        .criteria
        .iter()
        .filter(|one| seen(one).is_some())
        .count();
    let all_looked = verdict.unscored.is_empty();
    let segments = spec.criteria.iter().map(|one| {
        // What was looked at fills its segment; it is green only once nothing is open.
        seen(one).map_or(Segment::Judged(Judged::Unknown), |found| {
            match judged(found, all_looked) {
                Judged::Unknown => Segment::Looked,
                other => Segment::Judged(other),
            }
        })
    });
    let news = verdict.fatal_defects.first().map(|defect| {
        (
            Judged::Bad,
            fill(words.fatal, &[("defect", &defect.name().spoken())]),
        )
    });
    let news = news.or_else(|| {
        let worst = verdict
            .scored
            .iter()
            .filter(|one| scored(&one.requirement).is_some());
        let worst = worst.min_by_key(|one| match one.conformance {
            Conformance::Beyond => 0,
            Conformance::TooClose => 1,
            Conformance::Inside => 2,
        })?;
        let what = spoken_name(worst.requirement.criterion.name());
        match worst.conformance {
            Conformance::Beyond => {
                Some((Judged::Bad, fill(words.beyond_limit, &[("what", &what)])))
            }
            Conformance::TooClose => {
                Some((Judged::Doubt, fill(words.near_limit, &[("what", &what)])))
            }
            Conformance::Inside => None,
        }
    });
    PlankSoFar {
        segments: segments.collect(),
        looked,
        all: spec.criteria.len(),
        news,
        sheet,
    }
}

/// Feet, price and parts held, as far as the plank was measured.
pub fn money_of(
    ui: &Ui<'_>,
    entering: &Entering,
    charged: Option<&TalliedLine>,
    held: Option<&PartCount>,
) -> Markup {
    let words = &ui.w.yard;
    let volume = charged.and_then(|line| line.board_feet.as_ref().ok());
    let paid = charged.and_then(|line| line.money.as_ref().ok());
    let currency = ui
        .model
        .state()
        .visit(entering.visit)
        .map_or("", |visit| &visit.opened.currency);
    html! {
        @match volume {
            Some(volume) => strong { (feet(*volume)) },
            None => (words.no_measure),
        }
        span.below {
            @if let Some(paid) = paid { (money(paid.gross, currency)) }
            @if let Some(held) = held {
                @if paid.is_some() { " · " }
                (count(held.parts, ui.w.common.parts_one, ui.w.common.parts_other))
            }
        }
    }
}

/// A criterion's value in words, with its unit.
pub fn criterion_value(criterion: Criterion, value: f64, expanded: f64, units: Units) -> String {
    match criterion {
        Criterion::Straightness | Criterion::Crook => show::length_within(value, expanded, units),
        Criterion::Density => show::density_within(value, expanded, units),
        Criterion::GrainSlope => show::slope_within(value, expanded),
        Criterion::RingAngle => format!("{}°", show::give_or_take(value, expanded, 0)),
        Criterion::Moisture => format!("{} %", show::give_or_take(value, expanded, 1)),
        Criterion::Size => parts_in_words(value, expanded).spoken(),
    }
}

/// What is wanted of a criterion, in words.
pub fn wanted(ui: &Ui<'_>, requirement: Requirement) -> String {
    let words = &ui.w.yard;
    let shown = |value| criterion_value(requirement.criterion, value, 0.0, ui.model.units());
    match requirement.form {
        Form::AtMost { target, limit } => {
            let sentence = match requirement.criterion {
                Criterion::GrainSlope => words.slope_at_most,
                _ => words.at_most,
            };
            fill(
                sentence,
                &[("limit", &shown(limit)), ("target", &shown(target))],
            )
        }
        Form::AtLeast { target, limit } => fill(
            words.at_least,
            &[("limit", &shown(limit)), ("target", &shown(target))],
        ),
        Form::Within {
            low_limit,
            low_target,
            high_target,
            high_limit,
        } => fill(
            words.within,
            &[
                ("low", &shown(low_target)),
                ("high", &shown(high_target)),
                ("low_limit", &shown(low_limit)),
                ("high_limit", &shown(high_limit)),
            ],
        ),
    }
}

/// The score's colour and the sentence beside it: what decides, and what to do about it.
fn headline(ui: &Ui<'_>, standing: &PlankSoFar) -> (Judged, &'static str, String, String) {
    let words = &ui.w.yard;
    let verdict = &standing.sheet.verdict;
    let none = || "–".to_owned();
    let number = verdict
        .score
        .map_or_else(none, |score| format!("{score:.0}"));
    let why = advice(ui, verdict);
    match verdict.recommendation {
        Recommendation::Refused => (Judged::Bad, words.refused, number, why),
        Recommendation::TooClose => (Judged::Doubt, words.close_to_limit, number, why),
        Recommendation::Good => (Judged::Good, words.good, number, why),
        Recommendation::GoodSoFar => (Judged::Unknown, words.good_so_far, number, why),
        Recommendation::NothingYet => (Judged::Unknown, words.nothing_yet, none(), why),
    }
}

/// What decides, with its value.
fn decides(ui: &Ui<'_>, verdict: &Evaluation, criterion: Criterion) -> String {
    let mut scored = verdict.scored.iter();
    let found = scored.find(|one| one.requirement.criterion == criterion);
    found.map_or_else(String::new, |one| {
        let (value, within) = (one.estimate.value, one.estimate.expanded());
        let value = criterion_value(criterion, value, within, ui.model.units());
        let what = capital(criterion_name(ui, criterion));
        fill(ui.w.yard.decides, &[("what", &what), ("value", &value)])
    })
}

/// A criterion as it stands beside its value. What is judged in the part and read on the plank says so: the two differ.
fn criterion_name(ui: &Ui<'_>, criterion: Criterion) -> &'static str {
    match criterion {
        Criterion::Crook => ui.w.yard.crook_in_part,
        Criterion::RingAngle => ui.w.yard.ring_angle_in_part,
        other => spoken_name(other.name()),
    }
}

/// What to do about the plank, in a sentence: about the criterion that decides.
fn advice(ui: &Ui<'_>, verdict: &Evaluation) -> String {
    let words = &ui.w.yard;
    match verdict.advice(ui.model.units()) {
        Advice::Defect(defect) => fill(
            words.fatal,
            &[("defect", &capital(&defect.name().spoken()))],
        ),
        Advice::Beyond(criterion) => decides(ui, verdict, criterion),
        Advice::MeasureAgain {
            criterion,
            source,
            settles_at,
            also_close,
        } => {
            let mut said = vec![decides(ui, verdict, criterion)];
            if let Some(source) = source {
                // Parts are counted: no share of one settles anything.
                let settles_at = settles_at.filter(|_| criterion != Criterion::Size);
                let settles = settles_at
                    .map(|value| criterion_value(criterion, value, 0.0, ui.model.units()));
                let sentence = match settles {
                    None => words.measure_again,
                    Some(_) => words.measure_again_settles,
                };
                let values: [(&str, &dyn std::fmt::Display); 3] = [
                    ("source", &source.name().spoken()),
                    ("what", &criterion_name(ui, criterion)),
                    ("value", &settles.unwrap_or_default()),
                ];
                said.push(fill(sentence, &values));
            }
            said.extend(also_close.into_iter().map(|also| {
                let what = capital(criterion_name(ui, also));
                fill(words.close_too, &[("what", &what)])
            }));
            said.join(" ")
        }
        Advice::LookAt { criterion, .. } => {
            fill(words.look_next, &[("what", &criterion.name().spoken())])
        }
        Advice::Nothing => {
            let weakest = verdict.weakest;
            weakest.map_or_else(String::new, |weakest| decides(ui, verdict, weakest))
        }
    }
}

/// The screen.
pub fn view(model: &Model, id: Id) -> Option<Page> {
    let entering = model.yard.entering.as_ref().filter(|one| one.piece == id)?;
    if entering.rejecting.is_some() {
        return Some(super::reasons::rejecting(model, entering));
    }
    let read = entering.readings(model);
    let standing = reading_of(model, entering, &read);
    let is_asked = !entering.warnings(model, &read).is_empty();
    let named = entering.named(model);
    let wood = queries::wood_of(model.state(), &named);
    let mark = &entering.draft.mark;
    let page = Page::new(mark.clone(), Layout::Task)
        .with(model, "head", "header", |ui| task_head(ui, mark, &wood_names::shown(&named.text), html! {}))
        .with(model, "body", "main", |ui| {
            html! {
                div.halves {
                    div {
                        (scored(ui, &standing, Asked::Measuring(Number::PlankScore)))
                        (laid(ui, &entering.spec, &standing.sheet, wood.as_ref(), Asked::Measuring(Number::Held)))
                        @if weak_place(&standing.sheet).is_some_and(|(place, _)| !ON_FACE.contains(&place)) {
                            (edge_and_end(ui, &standing.sheet, wood.as_ref()))
                        }
                    }
                    (gauges(ui, &entering.spec, &standing, wood.as_ref(), Asked::Measuring))
                }
            }
        })
        .with(model, "toast", "div", toast)
        .with(model, "foot", "footer", |ui| decision_keys(ui, entering, &standing, is_asked));
    Some(page)
}

/// What was read on the pile and is close to its limit, where the number says good without it.
fn left_out(ui: &Ui<'_>, verdict: &Evaluation) -> Option<String> {
    let good = matches!(
        verdict.recommendation,
        Recommendation::Good | Recommendation::GoodSoFar
    );
    let criterion = verdict.of_pile.filter(|_| good)?;
    let mut scored = verdict.scored.iter();
    let found = scored.find(|one| one.requirement.criterion == criterion)?;
    let (value, within) = (found.estimate.value, found.estimate.expanded());
    let value = criterion_value(criterion, value, within, ui.model.units());
    let what = spoken_name(criterion.name());
    let said = fill(
        ui.w.yard.left_out_of_pile,
        &[("what", &what), ("value", &value)],
    );
    (found.conformance == Conformance::TooClose).then_some(said)
}

/// The number and its sentence.
pub fn scored(ui: &Ui<'_>, standing: &PlankSoFar, asked: Asked) -> Markup {
    let (judged, said, number, why) = headline(ui, standing);
    let said = fill(said, &[("n", &standing.looked), ("all", &standing.all)]);
    html! {
        div class={ "verdict " (judged.class()) } aria-live="polite" {
            div.number {
                @if number == "–" { "–" } @else {
                    (figure(ui, ui.w.yard.score, &number, asked))
                }
            }
            div {
                p.said { (sign(judged)) strong { (said) } }
                p.below { (why) }
                @if let Some(open) = left_out(ui, &standing.sheet.verdict) { p.below { (sign(Judged::Doubt)) (open) } }
            }
        }
    }
}

/// A gauge for each criterion of the spec, the weakest first and marked; then the density beside what is usual for the wood.
pub fn gauges(
    ui: &Ui<'_>,
    spec: &Spec,
    standing: &PlankSoFar,
    wood: Option<&Species>,
    asked: impl Fn(Number) -> Asked,
) -> Markup {
    let verdict = &standing.sheet.verdict;
    let weakest = |one: &&Requirement| is_marked_weakest(verdict, one.criterion);
    let others = spec.criteria.iter().filter(|one| !weakest(one));
    html! {
        ul.gauges {
            @for requirement in spec.criteria.iter().filter(weakest).chain(others) { li { (one_gauge(ui, *requirement, standing, &asked)) } }
            (beside_usual(ui, &standing.sheet, wood, &asked))
        }
    }
}

/// The score of what could not be better.
const BEST: f64 = 100.0;

/// Whether a criterion is the weakest and leaves something to be better.
fn is_marked_weakest(verdict: &Evaluation, criterion: Criterion) -> bool {
    let mut scored = verdict.scored.iter();
    let found = scored.find(|one| one.requirement.criterion == criterion);
    verdict.weakest == Some(criterion) && found.is_some_and(|found| found.score < BEST)
}

fn one_gauge(
    ui: &Ui<'_>,
    requirement: Requirement,
    standing: &PlankSoFar,
    asked: &impl Fn(Number) -> Asked,
) -> Markup {
    let words = &ui.w.yard;
    let criterion = requirement.criterion;
    let verdict = &standing.sheet.verdict;
    let all_looked = verdict.unscored.is_empty();
    let mut scored = verdict.scored.iter();
    let found = scored.find(|one| one.requirement.criterion == criterion);
    let judged = found.map_or(Judged::Unknown, |found| judged(found, all_looked));
    let value = found.map(|found| (found.estimate.value, found.estimate.expanded()));
    html! {
        p.row {
            span {
                (capital(criterion_name(ui, criterion)))
                @if is_marked_weakest(verdict, criterion) { " " strong class=(judged.class()) { (words.weakest) } }
            }
            @match value {
                Some((value, within)) => {
                    @let shown = criterion_value(criterion, value, within, ui.model.units());
                    strong { (sign(judged)) (figure(ui, criterion_name(ui, criterion), &shown, asked(Number::Score(criterion)))) }
                },
                None => strong.open { (words.not_looked_at) },
            }
        }
        (gauge(&Gauge { form: requirement.form, value, judged }))
        p.below {
            (wanted(ui, requirement))
            @let remarks = remarks(ui, standing, criterion, found);
            @for said in &remarks { ". " (capital(said)) }
            @if !remarks.is_empty() { "." }
        }
    }
}

/// What is to be said of a criterion beside what is wanted of it.
fn remarks(
    ui: &Ui<'_>,
    standing: &PlankSoFar,
    criterion: Criterion,
    found: Option<&CriterionScore>,
) -> Vec<String> {
    let verdict = &standing.sheet.verdict;
    let mut unscored = verdict.unscored.iter();
    let left = unscored.find(|one| one.criterion == criterion);
    let mut said = Vec::new();
    said.extend(left.map(|left| left.why.spoken()));
    said.extend(found.and_then(|found| Some(found.at_best.as_ref()?.spoken())));
    let meter = standing.sheet.plank.meter;
    if let (Criterion::Moisture, Some(found), Some(meter)) = (criterion, found, meter) {
        let (read, now) = (meter.shown.in_percent(), found.estimate.value);
        said.extend(
            meter
                .wood
                .and_then(|wood| corrected(ui, read, now, in_celsius(wood))),
        );
        if verdict.of_pile == Some(criterion) && found.conformance != Conformance::Beyond {
            said.push(ui.w.yard.ranks_none.to_owned());
        }
    }
    said
}

/// From what a moisture was corrected, in per cent, and for which wood; none where that changes nothing that is shown.
pub fn corrected(ui: &Ui<'_>, read: f64, now: f64, celsius: f64) -> Option<String> {
    let read = show::moisture(read);
    let temperature = show::temperature(celsius, ui.model.units());
    (read != show::moisture(now)).then(|| {
        fill(
            ui.w.yard.corrected_for,
            &[("read", &read), ("temperature", &temperature)],
        )
    })
}

/// To the measuring screen: back to it where it lies below, else in place of the verdict. It never lies there twice.
fn measuring(entering: &Entering) -> Any {
    match entering.from_measuring {
        true => Any::Back,
        false => Any::Replace(Route::Measure(entering.piece)),
    }
}

fn decision_keys(
    ui: &Ui<'_>,
    entering: &Entering,
    standing: &PlankSoFar,
    is_asked: bool,
) -> Markup {
    let words = &ui.w.yard;
    let charged = entering.charged(ui.model, &standing.sheet);
    let paid = charged.as_ref().and_then(|line| line.money.as_ref().ok());
    let currency = ui
        .model
        .state()
        .visit(entering.visit)
        .map_or("", |visit| &visit.opened.currency);
    let buy = match paid {
        Some(paid) => fill(words.buy_for, &[("price", &money(paid.gross, currency))]),
        None => words.buy.to_owned(),
    };
    // The key that stands out is the one that fits the verdict. While a value is asked about, that is not Buy.
    let fitting = match standing.sheet.verdict.recommendation {
        Recommendation::Good | Recommendation::GoodSoFar if is_asked => Some(Decision::SetAside),
        Recommendation::Good | Recommendation::GoodSoFar => Some(Decision::Take),
        Recommendation::TooClose => Some(Decision::SetAside),
        Recommendation::Refused => Some(Decision::Leave),
        Recommendation::NothingYet => None,
    };
    let one = |name: &str, decision: Decision| {
        html! {
            button.key.big type="button" .main[Some(decision) == fitting] .wide[decision == Decision::Take]
                data-press=(ui.press(Action::Decide(decision))) { (name) }
        }
    };
    html! {
        @if fitting.is_none() {
            button.key.main.big.row-of-its-own type="button" data-press=(ui.press(measuring(entering))) { (ui.w.planks.measure_it) }
        }
        (one(words.reject, Decision::Leave))
        (one(words.hold, Decision::SetAside))
        (one(&buy, Decision::Take))
    }
}
