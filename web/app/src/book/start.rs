//! How many planks to start, by the maker's own counts; and what such an answer stands on.

use super::parts::percent;
use super::worked::worked;
use crate::effect::Effect;
use crate::explain::{Asked, figure};
use crate::model::Model;
use crate::page::Ui;
use crate::parts::{Typed, typed as field};
use crate::starts;
use crate::words::{Spoken, count, fill, show};
use maud::{Markup, html};
use std::rc::Rc;
use stillwood_core::quantity::{kg, mm};
use stillwood_core::record::queries;
use stillwood_core::record::{
    InHandCount, PieceKind, RestLine, StartAnswer, StartFigure, StartQuestion, StartTarget,
};
use stillwood_core::season::{
    FEELER_MM, StageShare, StartError, StartTask, explain_survival, survival_of,
};

/// The fields, by their names.
const BLANKS: &str = "start blanks";
const SURE: &str = "start sure";
const PER_PLANK: &str = "start per plank";
const PER_BLANK: &str = "start per blank";
const UNKNOWN: &str = "start unknown";

/// Something typed into a field.
pub fn typed(model: &mut Model, name: &str, text: String) -> Vec<Effect> {
    model.book.texts.insert(name.to_owned(), text);
    Vec::new()
}

/// All that rests.
pub fn resting(model: &Model) -> Vec<RestLine> {
    let scale = kg(model.settings.instruments.scale_kg);
    queries::resting(model.state(), model.now.date(), mm(FEELER_MM), scale)
}

/// What is in hand: `2 planks, 8 laminates, about 20 laminates to come of planks and pieces`.
pub fn in_hand_words(ui: &Ui<'_>, of: &InHandCount, per_blank: u32) -> String {
    let (words, common) = (&ui.w.track, &ui.w.common);
    let kinds = [
        (of.planks, common.planks_one, common.planks_other),
        (of.pieces, words.piece_one, words.piece_other),
        (of.laminates, words.laminate_one, words.laminate_other),
        (of.blanks, words.blank_one, words.blank_other),
    ];
    let some = kinds.into_iter().filter(|(n, ..)| *n > 0);
    let mut said: Vec<String> = some
        .map(|(n, one, other)| count(n as u64, one, other))
        .collect();
    if said.is_empty() {
        return words.nothing.to_owned();
    }
    if of.planks + of.pieces > 0 {
        let (one, other) = match per_blank {
            1 => (words.part_one, words.part_other),
            _ => (words.laminate_one, words.laminate_other),
        };
        let mut to_come = fill(words.to_come, &[("n", &count(of.expected, one, other))]);
        if of.unknown > 0 {
            to_come.push_str(&fill(words.none_told, &[("n", &of.unknown)]));
        }
        if of.give_none > 0 {
            let gives = count(
                of.give_none as u64,
                words.gives_none_one,
                words.gives_none_other,
            );
            to_come.push_str(&gives);
        }
        said.push(to_come);
    }
    said.join(", ")
}

/// What stands in a field: its name, its label, the text, the hint.
type Asks = (&'static str, &'static str, String, String);

/// The fields as they stand.
fn fields(model: &Model) -> [Asks; 5] {
    let (words, state) = (&model.words().track, model.state());
    let given = queries::laminates_per_plank(state);
    let target = queries::target_now(state);
    let share_unknown = queries::percent_of_a_stage_now(state);
    let begins = |name: &'static str, label, number: f64, hint: String| -> Asks {
        let text = model.book.texts.get(name).cloned();
        (
            name,
            label,
            text.unwrap_or_else(|| format!("{number:.0}")),
            hint,
        )
    };
    let gave = given.map(|(_, planks)| {
        count(
            planks as u64,
            words.your_average_one,
            words.your_average_other,
        )
    });
    let gave = gave.unwrap_or_else(|| words.none_ripped.to_owned());
    let all = show::whole_percent(queries::yield_expected_now(state));
    let of_stages = fill(words.yield_means, &[("all", &all)]);
    [
        begins(
            BLANKS,
            words.good_blanks,
            f64::from(target.blanks),
            String::new(),
        ),
        begins(
            SURE,
            words.how_sure_percent,
            f64::from(target.sure_percent),
            String::new(),
        ),
        begins(
            PER_PLANK,
            words.laminates_of_plank,
            given.map_or(9.0, |(mean, _)| mean),
            gave,
        ),
        begins(
            PER_BLANK,
            words.laminates_in_blank,
            f64::from(target.laminates_per_blank),
            String::new(),
        ),
        begins(UNKNOWN, words.yield_unknown, share_unknown, of_stages),
    ]
}

fn whole(field: &Asks) -> Option<u32> {
    field.2.trim().parse().ok()
}

/// What is asked; none where a field is not understood.
fn wish(model: &Model, fields: &[Asks; 5]) -> Option<StartTarget> {
    let [blanks, sure, per_plank, per_blank, unknown] = fields.each_ref().map(whole);
    let mut wish = StartTarget::of_percents(blanks?, sure?, per_plank?, per_blank?, unknown?);
    // The field shows the share in whole percents. As long as nothing is typed there, the plan's own share counts.
    if !model.book.texts.contains_key(UNKNOWN) {
        wish.share_unknown = queries::share_of_a_stage_now(model.state());
    }
    Some(wish)
}

/// It, as the record answers it.
fn question(model: &Model, wish: &StartTarget) -> Rc<Result<StartQuestion, StartError>> {
    worked(model, "start", wish, || {
        let (state, per_plank) = (model.state(), wish.laminates_per_plank);
        let lines = resting(model);
        let (wood, _) = queries::wood_in_hand(state, &[], &lines, per_plank, model.now.date());
        queries::start_question(state, wish, &wood)
    })
}

/// The search that the screen needs.
pub fn task(model: &Model) -> Option<StartTask> {
    let question = question(model, &wish(model, &fields(model))?);
    let question = question.as_ref().as_ref().ok()?;
    Some(question.task().clone())
}

/// The part of the screen.
pub fn view(ui: &Ui<'_>) -> Markup {
    let (words, model) = (&ui.w.track, ui.model);
    let fields = fields(model);
    html! {
        section aria-label=(words.start) {
            h2 { (words.start) }
            div.pair {
                @for one in &fields {
                    @let (name, label, value, hint) = one;
                    (field(&Typed {
                        name,
                        label,
                        value,
                        below: hint,
                        error: if whole(one).is_some() { "" } else { words.whole_number },
                        number: true,
                        ..Typed::default()
                    }))
                }
            }
            @if let Some(wish) = wish(model, &fields) {
                @match &*question(model, &wish) {
                    Ok(question) => @match starts::answer(model, question) {
                        Some(answer) => (answered(ui, &answer, &wish)),
                        None => (starts::view(ui)),
                    },
                    Err(why) => p.bad { (why.spoken()) },
                }
            }
        }
    }
}

fn answered(ui: &Ui<'_>, answer: &StartAnswer, wish: &StartTarget) -> Markup {
    let words = &ui.w.track;
    let blanks = count(wish.blanks, words.good_blank_one, words.good_blank_other);
    let chance = show::whole_percent(answer.chance());
    let (large, rest) = match answer.planks {
        Some(0) => (
            words.start_none.to_owned(),
            fill(
                words.start_in_hand,
                &[("blanks", &blanks), ("chance", &chance)],
            ),
        ),
        Some(planks) => {
            let planks = count(planks, ui.w.common.planks_one, ui.w.common.planks_other);
            (
                fill(words.start_planks, &[("planks", &planks)]),
                fill(
                    words.start_gives,
                    &[("blanks", &blanks), ("chance", &chance)],
                ),
            )
        }
        None => {
            let most = answer.chances.len().saturating_sub(1);
            match answer.known_badly().is_empty() {
                true => (
                    fill(words.start_over, &[("n", &most)]),
                    fill(words.even_most, &[("n", &most)]),
                ),
                false => (
                    words.few_to_say.to_owned(),
                    fill(words.start_more_than, &[("n", &most)]),
                ),
            }
        }
    };
    html! {
        div.notice {
            p.lead { (asked(ui, words.planks_to_start, &large, answer, StartFigure::Planks)) }
            p { (rest) " " (answer.range_in_words().unwrap_or_default().spoken()) }
        }
        p.below { (fill(words.in_hand_counted, &[("what", &in_hand_words(ui, &answer.in_hand, wish.laminates_per_blank))])) }
        (stands_on(ui, answer))
    }
}

/// A figure of an answer, that tells how it was worked out where there is something to tell.
pub fn asked(
    ui: &Ui<'_>,
    name: &str,
    shown: &str,
    answer: &StartAnswer,
    of: StartFigure,
) -> Markup {
    match answer.worked(of) {
        Some(working) => figure(ui, name, shown, Asked::Known(Box::new(working))),
        None => html! { (shown) },
    }
}

/// What an answer stands on: the yields, and which are known badly.
pub fn stands_on(ui: &Ui<'_>, answer: &StartAnswer) -> Markup {
    let words = &ui.w.track;
    let [pieces, laminates, blanks] = answer.shares;
    let average = match answer.on_average {
        0.0 => words.none.to_owned(),
        some => show::decimal(&format!("{some:.1}")),
    };
    html! {
        details {
            summary { (words.stands_on) }
            dl.facts {
                dt { (words.on_average) }
                dd { (asked(ui, words.on_average, &average, answer, StartFigure::OnAverage)) }
                @for (name, of) in [(words.yield_pieces, pieces), (words.yield_laminates, laminates), (words.yield_blanks, blanks)] {
                    @if let Some(of) = of { (share(ui, name, of)) }
                }
                dt { (words.family_effect) }
                dd { (asked(ui, words.family_effect, &show::decimal(&format!("{:.2}", answer.intraclass_correlation)), answer, StartFigure::IntraclassCorrelation)) span.below { (words.family_effect_means) } }
            }
        }
        (known_badly(ui, answer))
    }
}

/// Which shares an answer does not know well: those that are taken for granted, and those by few counts.
pub fn known_badly(ui: &Ui<'_>, answer: &StartAnswer) -> Markup {
    let words = &ui.w.track;
    let named = [
        (PieceKind::Piece, words.pieces),
        (PieceKind::Laminate, words.laminates),
        (PieceKind::Blank, words.blanks),
    ];
    let badly = answer.known_badly();
    let (mut taken, mut few) = (Vec::new(), Vec::new());
    for ((kind, name), share) in named.into_iter().zip(&answer.shares) {
        match share {
            Some(StageShare::Known(_)) => taken.push(name),
            Some(StageShare::Counted(_)) if badly.contains(&kind) => few.push(name),
            Some(StageShare::Counted(_)) | None => {}
        }
    }
    html! {
        @if !taken.is_empty() { p.notice.doubt { (fill(words.yield_taken, &[("kinds", &taken.join(", "))])) } }
        @if !few.is_empty() { p.notice.doubt { (fill(words.few_decided, &[("kinds", &few.join(", "))])) } }
    }
}

/// A stage's yield, as counted or as taken.
fn share(ui: &Ui<'_>, name: &str, share: StageShare) -> Markup {
    let words = &ui.w.track;
    html! {
        dt { (name) }
        dd {
            @match share {
                StageShare::Known(share) => (fill(words.share_taken, &[("share", &percent(share))])),
                StageShare::Counted(counted) => {
                    @let shown = fill(words.came_of, &[("through", &counted.through), ("of", &counted.of)]);
                    @match survival_of(counted) {
                        Ok(found) => (figure(ui, name, &shown, Asked::Known(Box::new(explain_survival(&found))))),
                        Err(_) => (shown),
                    }
                },
            }
        }
    }
}
