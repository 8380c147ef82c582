//! The plan: the blanks needed, whether what is in hand is enough, the last day of each step, and what is in hand
//! on its way ahead; by the shortest rests and at the maker's usual pace.

use super::last_visit;
use super::parts::{Choice, choose, screen};
use super::plan_ahead::{self, Planned, Shown};
use super::start::{asked, in_hand_words, resting, stands_on};
use super::worked::worked;
use crate::action::Action as AppAction;
use crate::explain::{Asked, figure};
use crate::form::{self, FormAction, FormId, OpenForm};
use crate::model::Model;
use crate::page::{Page, Ui};
use crate::parts::field::{begun, field};
use crate::parts::{Judged, sign};
use crate::starts;
use crate::words::{Spoken, count, fill, wood_names};
use chrono::NaiveDate;
use maud::{Markup, html};
use std::rc::Rc;
use stillwood_core::quantity::{mm, show};
use stillwood_core::record::commands::save_target;
use stillwood_core::record::queries;
use stillwood_core::record::{
    Expected, Form, FormField, Paces, SpeciesNamed, StagePace, StartAnswer, StartFigure,
    TargetAnswer, TargetSet, as_json,
};
use stillwood_core::season::{FEELER_MM, LatestDays, Rests, Stage, StartTask, explain_latest};

/// The plan opens: the target stands open to be changed.
pub fn opened(model: &mut Model) {
    form::open(model, FormId::Target(None));
}

fn shown(model: &Model, target: TargetSet) -> Shown {
    let (state, today) = (model.state(), model.now.date());
    let per_plank = queries::laminates_to_expect(state, None);
    let (wood, not_counted) = queries::wood_in_hand(
        state,
        target.wood.as_slice(),
        &resting(model),
        per_plank,
        today,
    );
    let expected = Expected {
        per_plank,
        share_unknown: queries::share_of_a_stage_now(state),
        by_own_counts: true,
    };
    let planned = |rests: Rests| Planned {
        question: queries::target_question(state, &target, &wood, expected, &rests, today),
        ahead: queries::plan_ahead(&wood, target.laminates_per_blank, &rests, today)
            .map_err(|why| why.spoken()),
        rests,
    };
    let least = queries::least_rests(state);
    let paces = queries::paces(state, mm(FEELER_MM), today);
    Shown {
        today,
        least: planned(least),
        paced: paces.rests(&least).map(planned),
        paces,
        target,
        not_counted,
    }
}

/// What is shown of the target as it is typed; none where that is not understood.
fn shown_now(model: &Model) -> Option<Rc<Shown>> {
    let open = model.form.as_ref()?;
    let read = Form::new(&open.texts, model.units());
    let target = save_target::typed(&read).ok()?;
    Some(worked(model, "plan", &target.clone(), || {
        shown(model, target)
    }))
}

/// At the usual pace, where that makes a difference to whether it is enough.
fn paced_by_a_day(shown: &Shown) -> Option<&Planned> {
    let paced = shown.paced.as_ref();
    paced.filter(|_| shown.target.by.is_some())
}

/// Whether it is enough, and that at the usual pace too where that makes a difference; none while either is being
/// worked out.
fn answers(model: &Model, shown: &Shown) -> Option<(TargetAnswer, Option<TargetAnswer>)> {
    let least = starts::target_answer(model, &shown.least.question)?;
    let paced = match paced_by_a_day(shown) {
        Some(paced) => Some(starts::target_answer(model, &paced.question)?),
        None => None,
    };
    Some((least, paced))
}

/// The searches that the screen needs.
pub fn tasks(model: &Model) -> Vec<StartTask> {
    let shown = shown_now(model);
    let of_target = shown.iter().flat_map(|shown| {
        let both = std::iter::once(&shown.least).chain(paced_by_a_day(shown));
        both.filter_map(|planned| planned.question.task())
    });
    of_target.cloned().chain(last_visit::task(model)).collect()
}

/// The screen.
pub fn view(model: &Model) -> Page {
    screen(model, model.words().book.plan, "").with(model, "body", "main", |ui| {
        let Some(open) = &ui.model.form else {
            return Markup::default();
        };
        let shown = shown_now(ui.model);
        let waits = shown.as_ref().is_some_and(|shown| answers(ui.model, shown).is_none());
        html! {
            div.columns {
                div {
                    (target_form(ui, open, shown.as_ref().map(|shown| &shown.target)))
                    @if let Some(shown) = &shown { (enough(ui, shown)) (latest(ui, shown)) }
                }
                div {
                    @if let Some(shown) = &shown { (plan_ahead::view(ui, shown)) (pace(ui, &shown.paces)) }
                    (last_visit::view(ui, !waits))
                }
            }
        }
    })
}

/// The blanks needed, to be changed; its key saves them as the target.
fn target_form(ui: &Ui<'_>, open: &OpenForm, typed: Option<&TargetSet>) -> Markup {
    let words = &ui.w.track;
    let none = |_: &FormField| Vec::new();
    let put = |field: FormField, value: String| AppAction::Form(FormAction::Put(field.key, value));
    let sure = save_target::SURE.map(|percent| {
        let value = as_json(&percent);
        (
            open.text(save_target::HOW_SURE.key) == value,
            format!("{percent} %"),
            put(save_target::HOW_SURE, value),
        )
    });
    let form = Form::new(&open.texts, ui.model.units());
    let woods = save_target::woods(&form, ui.model.state());
    let wood = |named: Option<&SpeciesNamed>| {
        let value = as_json(&named);
        let name = named.map_or(words.any_wood.to_owned(), |wood| {
            wood_names::shown(&wood.text)
        });
        (
            open.text(save_target::WOOD.key) == value,
            name,
            put(save_target::WOOD, value),
        )
    };
    let woods = std::iter::once(None).chain(woods.iter().map(Some));
    let woods: Vec<(bool, String, AppAction)> = woods.map(wood).collect();
    let saved = queries::target(ui.model.state()).filter(|(saved, _)| Some(*saved) == typed);
    html! {
        section aria-label=(words.blanks_needed) {
            h2 { (words.blanks_needed) }
            (begun(ui, open))
            div.pair {
                (field(ui, open, &save_target::BLANKS, &none))
                (field(ui, open, &save_target::PER_BLANK, &none))
                (field(ui, open, &save_target::BY, &none))
            }
            (choose(ui, ui.w.field(save_target::HOW_SURE.key).label, named(&sure)))
            (choose(ui, ui.w.field(save_target::WOOD.key).label, named(&woods)))
            @match saved {
                Some((_, on)) => p.below { (sign(Judged::Good)) (fill(words.target_saved, &[("day", &ui.model.day(on))])) },
                None => {
                    @if !open.line.is_empty() { p.bad role="alert" { (open.line.spoken()) } }
                    button.key.main.big.whole type="button" disabled[open.busy] data-press=(ui.press(FormAction::Save)) {
                        (words.save_as_target)
                    }
                },
            }
        }
    }
}

/// Choices whose names were made here.
fn named(of: &[(bool, String, AppAction)]) -> Vec<Choice<'_>> {
    let all = of.iter();
    all.map(|(chosen, name, action)| (*chosen, name.as_str(), action.clone()))
        .collect()
}

fn times(chance: f64) -> String {
    show::whole_percent(chance)
}

/// Whether what is in hand is enough; at the usual pace too where that makes a difference.
fn enough(ui: &Ui<'_>, shown: &Shown) -> Markup {
    let words = &ui.w.track;
    let target = &shown.target;
    let in_hand = |of: &TargetAnswer| in_hand_words(ui, &of.in_time, target.laminates_per_blank);
    let Some((answer, paced)) = answers(ui.model, shown) else {
        return html! {
            section aria-label=(words.is_it_enough) {
                h2 { (words.is_it_enough) }
                (starts::view(ui))
            }
        };
    };
    let answer = &answer;
    let counted = match &target.wood {
        Some(wood) => wood_names::shown(&wood.text),
        None => words.any_wood_counted.to_owned(),
    };
    html! {
        section aria-label=(words.is_it_enough) {
            h2 { (words.is_it_enough) }
            (verdict(ui, target, answer, ""))
            p.below { (fill(words.in_time, &[("wood", &counted), ("what", &in_hand(answer))])) }
            @if let Some(paced) = &paced {
                @if paced.in_time == answer.in_time && paced.planks_in_time == answer.planks_in_time {
                    p.below { (words.at_usual_same) }
                } @else {
                    (verdict(ui, target, paced, words.at_usual))
                    p.below { (fill(words.in_time_usual, &[("what", &in_hand(paced))])) }
                }
            }
            @if let Ok(start) = &answer.start { (chances(ui, start)) (stands_on(ui, start)) }
        }
    }
}

/// Whether it is enough, and what to start.
fn verdict(ui: &Ui<'_>, target: &TargetSet, answer: &TargetAnswer, way: &str) -> Markup {
    let words = &ui.w.track;
    let start = match &answer.start {
        Ok(start) => start,
        Err(why) => return html! { p.notice.doubt { (why.spoken()) } },
    };
    let blanks = count(target.blanks, words.good_blank_one, words.good_blank_other);
    let by = target.by.map_or(String::new(), |day| {
        fill(words.by_day, &[("day", &ui.model.day(day))])
    });
    let alone = fill(
        words.in_hand_gives,
        &[
            ("blanks", &blanks),
            ("by", &by),
            ("chance", &times(start.chance_in_hand())),
        ],
    );
    let range = start.range_in_words().unwrap_or_default().spoken();
    let (judged, large, rest) = match start.planks {
        Some(0) => (Judged::Good, words.enough.to_owned(), String::new()),
        _ if !answer.planks_in_time => (
            Judged::Bad,
            words.too_late_to_start.to_owned(),
            String::new(),
        ),
        Some(planks) => {
            let planks = count(planks, ui.w.common.planks_one, ui.w.common.planks_other);
            let with = fill(words.with_them, &[("chance", &times(start.chance()))]);
            (
                Judged::Doubt,
                fill(words.start_more, &[("planks", &planks)]),
                format!("{with} {range}"),
            )
        }
        None => {
            let most = start.chances.len().saturating_sub(1);
            let (large, why) = match start.known_badly().is_empty() {
                true => (fill(words.start_over, &[("n", &most)]), words.even_most),
                false => (words.few_to_say.to_owned(), words.even_more),
            };
            (
                Judged::Unknown,
                large,
                format!("{} {range}", fill(why, &[("n", &most)])),
            )
        }
    };
    html! {
        div class={ "notice " (judged.class()) } {
            p.lead { (sign(judged)) (way) (asked(ui, words.is_it_enough, &large, start, StartFigure::Planks)) }
            p { (alone) " " (rest) }
        }
    }
}

/// How the chance grows with every plank: those around the answer.
fn chances(ui: &Ui<'_>, start: &StartAnswer) -> Markup {
    let words = &ui.w.track;
    let last = start.chances.len().saturating_sub(1);
    let step = last.div_ceil(5).max(1);
    let shown = (0..last).step_by(step).chain([last]);
    html! {
        @if last > 0 {
            details {
                summary { (words.how_sure_with) }
                dl.facts {
                    @for planks in shown {
                        dt { @if planks == 0 { (words.none_more) } @else { (count(planks as u64, words.plank_more_one, words.plank_more_other)) } }
                        dd { (fill(words.times, &[("n", &times(start.chances.get(planks).copied().unwrap_or_default()))])) }
                    }
                }
            }
        }
    }
}

/// A step's name, and its day among the latest.
type Step<'a> = (&'a str, fn(&LatestDays) -> NaiveDate);

/// The last day of each step, by the shortest rests and at the usual pace.
fn latest(ui: &Ui<'_>, shown: &Shown) -> Markup {
    let words = &ui.w.track;
    let Some(by) = shown.target.by else {
        return Markup::default();
    };
    let days = |planned: &Planned| {
        planned
            .question
            .latest
            .map(|days| days.map_err(|why| why.spoken()))
    };
    let least = match days(&shown.least) {
        Some(Ok(days)) => days,
        Some(Err(why)) => return html! { p.notice.doubt { (why.spoken()) } },
        None => return Markup::default(),
    };
    let paced = shown
        .paced
        .as_ref()
        .and_then(|paced| Some((paced, days(paced)?.ok()?)));
    let mut steps: Vec<Step<'_>> = vec![
        (words.buy_by, |days| days.buy_by),
        (words.cut_by, |days| days.cut_by),
    ];
    if !shown.least.rests.pieces.is_none() {
        steps.push((words.rip_by, |days| days.rip_by));
    }
    steps.push((words.glue_by, |days| days.glue_by));
    let day = |name: &str, rests: &Rests, day: NaiveDate| {
        html! {
            @match explain_latest(by, rests) {
                Ok(working) => (figure(ui, name, &ui.model.day(day), Asked::Known(Box::new(working)))),
                Err(_) => (ui.model.day(day)),
            }
            @if day < shown.today { " " span.bad { (sign(Judged::Bad)) (words.too_late) } }
        }
    };
    html! {
        section aria-label=(words.last_days) {
            table.compared {
                thead { tr {
                    th scope="col" { (words.last_days) }
                    th scope="col" { (words.shortest) }
                    @if paced.is_some() { th scope="col" { (words.your_usual) } }
                } }
                tbody {
                    @for (name, of) in steps {
                        tr {
                            th scope="row" { (name) }
                            td { (day(name, &shown.least.rests, of(&least))) }
                            @if let Some((paced, own)) = &paced { td { (day(name, &paced.rests, of(own))) } }
                        }
                    }
                }
            }
        }
    }
}

/// The maker's usual pace, stage by stage.
fn pace(ui: &Ui<'_>, paces: &Paces) -> Markup {
    let words = &ui.w.track;
    let name = |one: &StagePace| match one.stage {
        Stage::Pieces => words.pace_pieces,
        Stage::Laminates => words.pace_laminates,
        Stage::Blanks => words.pace_blanks,
    };
    let known = paces.stages.iter().filter_map(|one| {
        let pace = one.pace.as_ref().ok()?;
        Some(format!("{} {}", pace.gone_on, one.stage.name().spoken()))
    });
    let known: Vec<String> = known.collect();
    html! {
        section aria-label=(words.usual_pace) {
            h2 { (words.usual_pace) }
            p.below { (words.usual_pace_means) }
            ul.lines {
                @for one in &paces.stages {
                    @let said = match &one.pace { Ok(pace) => pace.in_words().spoken(), Err(why) => why.spoken() };
                    li { strong { (name(one)) } div.below { (figure(ui, name(one), &said, Asked::Known(Box::new(one.worked())))) } }
                }
            }
            p.below {
                @if known.is_empty() { (words.pace_none) } @else { (fill(words.pace_cases, &[("what", &known.join(", "))])) }
            }
        }
    }
}
