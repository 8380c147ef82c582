//! The track record: what came through each stage, grouped by what was known of the plank; how long wood lasts; how
//! many planks to start; where the money went; what the yard's readings foretold.

use super::parts::{choose, percent, screen};
use super::start;
use super::worked::worked;
use crate::action::Action as AppAction;
use crate::drawings::lasting::{LastingDrawn, StepDrawn, lasting_drawn, share_bar, share_scale};
use crate::explain::{Asked, figure};
use crate::model::Model;
use crate::page::{Page, Ui};
use crate::parts::capital;
use crate::words::show::{self, money};
use crate::words::{Spoken, TrackWords, count, fill, spoken_name, wood_names};
use maud::{Markup, html};
use stillwood_core::record::queries::{self, GroupName, YardReading};
use stillwood_core::record::{Came, CostAccount, GroupedBy, Lasting, PieceKind, PredictorFound};
use stillwood_core::season::{
    FEWEST_TO_COMPARE, PredictorSays, StillIn, explain_difference, explain_survival,
};

/// The months at which it is told how many are still in.
const TOLD_AT: [u32; 5] = [3, 6, 12, 18, 24];
/// Under which what is chosen is kept on the device.
const SCREEN: &str = "track-record";

fn choice(name: &'static str, value: &str) -> AppAction {
    AppAction::Choose {
        screen: SCREEN,
        name,
        value: value.to_owned(),
    }
}

fn kind_of(model: &Model, name: &str) -> Option<PieceKind> {
    match model.chosen(SCREEN, name) {
        "pieces" => Some(PieceKind::Piece),
        "blanks" => Some(PieceKind::Blank),
        "all" => None,
        _ => Some(PieceKind::Laminate),
    }
}

/// The screen.
pub fn view(model: &Model) -> Page {
    screen(model, model.words().book.track_record, "").with(model, "body", "main", |ui| {
        html! {
            div.columns {
                div { (came_through(ui)) (foretold(ui)) }
                div { (lasts(ui)) (start::view(ui)) (money_went(ui)) }
            }
        }
    })
}

/// The kinds of wood that are chosen between.
fn kinds(ui: &Ui<'_>, name: &'static str, all: bool) -> Markup {
    let words = &ui.w.track;
    let now = kind_of(ui.model, name);
    let mut of = vec![
        (
            now == Some(PieceKind::Piece),
            words.pieces,
            choice(name, "pieces"),
        ),
        (
            now == Some(PieceKind::Laminate),
            words.laminates,
            choice(name, "laminates"),
        ),
        (
            now == Some(PieceKind::Blank),
            words.blanks,
            choice(name, "blanks"),
        ),
    ];
    if all {
        of.push((now.is_none(), words.all, choice(name, "all")));
    }
    choose(ui, words.of, of)
}

fn came_through(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.track;
    let kind = kind_of(ui.model, "kind").unwrap_or(PieceKind::Laminate);
    let by = ui.model.chosen(SCREEN, "by");
    let by = GroupedBy::ALL.iter().find(|one| one.name() == by);
    let by = by.copied().unwrap_or(GroupedBy::Yard);
    let groups = GroupedBy::ALL.iter();
    let groups = groups.map(|one| {
        (
            *one == by,
            spoken_name(one.name()),
            choice("by", one.name()),
        )
    });
    let came = worked(ui.model, "came", &(kind, by), || {
        queries::what_came(ui.model.state(), kind, by, &ui.model.settings.instruments)
    });
    html! {
        section aria-label=(words.came_through) {
            h2 { (words.came_through) }
            (kinds(ui, "kind", false))
            (choose(ui, words.group_by, groups.collect()))
            @if came.is_empty() { p.notice { (words.nothing_came) } } @else {
                (share_scale())
                ul.shares { @for one in came.iter() { (group(ui, by, one)) } }
                (compared(ui, by, &came))
                p.below { (words.came_means) }
            }
            @if by == GroupedBy::Yard { (turned_over(ui)) }
        }
    }
}

/// How many planks were turned over in each yard for each that was bought.
fn turned_over(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.track;
    let yards = queries::turned_over(ui.model.state());
    let lines = yards.into_iter().map(|(yard, of)| {
        let for_each = of.for_each_bought().map(|planks| show::number(planks, 1));
        let sentence = match for_each {
            Some(_) => words.turned_over_for_each,
            None => words.turned_over_none_bought,
        };
        fill(
            sentence,
            &[
                ("yard", &yard),
                ("looked", &of.looked_at),
                ("bought", &of.bought),
                ("n", &for_each.unwrap_or_default()),
            ],
        )
    });
    html! { @for line in lines { p.below { (line) } } }
}

/// What a group is called.
fn name_of(ui: &Ui<'_>, by: GroupedBy, one: &Came) -> String {
    match (by, &one.name) {
        (GroupedBy::Wood, GroupName::Named(wood)) => wood_names::shown(wood),
        (GroupedBy::Yard, GroupName::Named(yard)) => yard.clone(),
        (_, name) => name.in_words(ui.model.units()).spoken(),
    }
}

/// Whether it is evidence that the two largest groups differ.
fn compared(ui: &Ui<'_>, by: GroupedBy, came: &[Came]) -> Markup {
    let words = &ui.w.track;
    let Some((more, less, difference)) = queries::largest_compared(came) else {
        return Markup::default();
    };
    let sentence = match difference.is_evidence() {
        true => words.is_evidence,
        false => words.no_evidence_yet,
    };
    let names = [more, less].map(|one| name_of(ui, by, one));
    let said = fill(sentence, &[("more", &names[0]), ("less", &names[1])]);
    let [by, low, high] = difference.in_points().map(|points| show::number(points, 0));
    let shown = fill(words.points, &[("by", &by), ("low", &low), ("high", &high)]);
    let derivation = more.survival.zip(less.survival);
    let derivation =
        derivation.and_then(|(more, less)| explain_difference(more.count(), less.count()));
    html! {
        p {
            (said) " "
            @match derivation {
                Some(derivation) => (figure(ui, words.difference, &shown, Asked::Known(Box::new(derivation)))),
                None => (shown),
            }
            "."
        }
    }
}

/// A group: counts, the share, its interval, or words where they are few.
fn group(ui: &Ui<'_>, by: GroupedBy, one: &Came) -> Markup {
    let words = &ui.w.track;
    let tally = &one.count;
    let parts = [
        (tally.sprang, words.sprang),
        (tally.failed, words.failed),
        (tally.waiting, words.waiting),
        (tally.missing, words.missing),
        (tally.aside, words.aside),
    ];
    let parts = parts
        .into_iter()
        .filter(|(n, _)| *n > 0)
        .map(|(n, words)| fill(words, &[("n", &n)]));
    let planks = count(
        one.planks as u64,
        ui.w.common.planks_one,
        ui.w.common.planks_other,
    );
    let below: Vec<String> = std::iter::once(planks).chain(parts).collect();
    let name = name_of(ui, by, one);
    let share_name = fill(words.share_name, &[("name", &name)]);
    let name = capital(&name);
    let said = match &one.survival {
        Some(found) => fill(
            words.bar_said,
            &[
                ("name", &name),
                ("share", &percent(found.share)),
                ("low", &percent(found.low)),
                ("high", &percent(found.high)),
            ],
        ),
        None => fill(words.bar_unknown, &[("name", &name)]),
    };
    let share = one
        .survival
        .map(|found| (found.low, found.share, found.high));
    let few = one.survival.is_none_or(|found| found.few);
    html! {
        li {
            p.row {
                strong { (name) }
                @match &one.survival {
                    None => span.open { (words.nothing_decided) },
                    Some(found) => span {
                        @let of = fill(words.came_of, &[("through", &found.through), ("of", &found.of)]);
                        @let shown = if found.few { format!("{of}, {}", words.too_few) } else { format!("{of}, {}", percent(found.share)) };
                        (figure(ui, &share_name, &shown, Asked::Known(Box::new(explain_survival(found)))))
                    },
                }
            }
            (share_bar(share, few, &said))
            p.below {
                @if let Some(found) = &one.survival {
                    (fill(words.between, &[("low", &percent(found.low)), ("high", &percent(found.high))])) " · "
                }
                (below.join(" · "))
            }
        }
    }
}

fn lasts(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.track;
    let kind = kind_of(ui.model, "lasts");
    let lasting = worked(ui.model, "lasting", &kind, || {
        queries::lasting(ui.model.state(), kind, ui.model.now.date())
    });
    html! {
        section aria-label=(words.lasts) {
            h2 { (words.lasts) }
            (kinds(ui, "lasts", true))
            (lasting_told(ui, &lasting, kind))
        }
    }
}

fn lasting_told(ui: &Ui<'_>, lasting: &Lasting, kind: Option<PieceKind>) -> Markup {
    let words = &ui.w.track;
    let Ok(curve) = lasting.curve() else {
        return html! { p.notice { (words.nothing_came) } };
    };
    let (one, other) = match kind {
        Some(PieceKind::Laminate) => (words.laminate_one, words.laminate_other),
        Some(PieceKind::Blank) => (words.blank_one, words.blank_other),
        _ => (words.piece_one, words.piece_other),
    };
    let failed = if lasting.failed == 0 {
        words.none.to_owned()
    } else {
        lasting.failed.to_string()
    };
    let counts = fill(
        words.lasts_counts,
        &[
            ("all", &count(lasting.watched.len() as u64, one, other)),
            ("failed", &failed),
            ("waiting", &lasting.waiting),
            ("left", &lasting.left),
        ],
    );
    let told: Vec<(u32, String)> = TOLD_AT
        .into_iter()
        .filter_map(|months| {
            let found = lasting.still_in(f64::from(months)).ok()??;
            Some((months, still_words(ui, &found)))
        })
        .collect();
    let said = told.iter().map(|(months, words_of)| {
        format!("{}: {words_of}", fill(words.still_after, &[("n", months)]))
    });
    let said = format!(
        "{} {counts} {}.",
        words.lasts_drawn,
        said.collect::<Vec<_>>().join("; ")
    );
    let good = lasting.watched.iter().filter(|piece| !piece.failed);
    let drawn = LastingDrawn {
        steps: curve
            .iter()
            .map(|step| StepDrawn {
                at: step.time,
                share: step.share,
                band: step.interval,
            })
            .collect(),
        good: good.map(|piece| piece.time).collect(),
    };
    html! {
        p { (counts) }
        figure.card { (lasting_drawn(&drawn, &said, words.months)) }
        dl.facts {
            @for (months, shown) in &told {
                @let name = fill(words.still_after, &[("n", months)]);
                dt { (name) }
                dd { @if let Some(working) = lasting.worked(f64::from(*months)) {
                    (figure(ui, &name, shown, Asked::Known(Box::new(working))))
                } @else { (shown) } }
            }
        }
        p.below { (words.lasts_means) }
    }
}

fn still_words(ui: &Ui<'_>, found: &StillIn) -> String {
    let words = &ui.w.track;
    let of = &found.watched;
    match found.interval {
        None if found.all_still() => fill(words.still_all, &[("of", of)]),
        None => fill(words.still_none, &[("of", of)]),
        Some((low, high)) if found.few() => fill(
            words.still_few,
            &[("low", &percent(low)), ("high", &percent(high)), ("of", of)],
        ),
        Some((low, high)) => fill(
            words.still_share,
            &[
                ("share", &percent(found.share)),
                ("low", &percent(low)),
                ("high", &percent(high)),
            ],
        ),
    }
}

/// Where the money went that was paid for planks.
fn money_went(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.track;
    let account = worked(ui.model, "money", &(), || {
        queries::cost_account(ui.model.state())
    });
    let (accounts, unknown) = (&account.0, account.1);
    html! {
        section aria-label=(words.money) {
            h2 { (words.money) }
            @for (currency, account) in accounts { (account_told(ui, account, currency)) }
            @if unknown > 0 {
                p.below { (count(unknown as u64, words.money_left_out_one, words.money_left_out_other)) }
            }
            p.below { (words.money_means) }
        }
    }
}

fn account_told(ui: &Ui<'_>, account: &CostAccount, currency: &str) -> Markup {
    let words = &ui.w.track;
    let names = [
        words.money_blanks,
        words.money_used,
        words.money_downgraded,
        words.money_waiting,
        words.money_lost,
    ];
    let parts = names
        .into_iter()
        .zip(account.parts())
        .filter(|(_, part)| !part.is_zero());
    let lines = std::iter::once((words.paid, account.paid)).chain(parts);
    html! {
        dl.facts {
            @for (name, value) in lines {
                dt { (name) }
                dd { (figure(ui, name, &money(value, currency), Asked::Known(Box::new(account.worked(currency))))) }
            }
        }
    }
}

/// Each reading of the yard, and what it foretold: first what is answered.
fn foretold(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.track;
    let told = worked(ui.model, "foretold", &(), || {
        queries::predictors(ui.model.state(), &ui.model.settings.instruments)
    });
    let (answered, open): (Vec<_>, Vec<_>) = told.iter().partition(|one| is_answered(one));
    html! {
        section aria-label=(words.foretold) {
            h2 { (words.foretold) }
            p.below { (words.foretold_means) }
            ul.lines { @for one in &answered { (reading(ui, one)) } }
            @if !open.is_empty() {
                details {
                    summary { (count(open.len() as u64, words.not_answered_one, words.not_answered_other)) }
                    ul.lines { @for one in &open { (reading(ui, one)) } }
                }
            }
        }
    }
}

/// Whether more or less came through with it, beyond what chance does.
fn is_answered(told: &PredictorFound) -> bool {
    told.predictor.as_ref().is_ok_and(|found| {
        matches!(
            found.says,
            PredictorSays::MoreWithMore | PredictorSays::MoreWithLess
        )
    })
}

/// What the maker asks of a reading, and what it has to say for a yes.
fn asks(words: &TrackWords, of: YardReading) -> (&'static str, PredictorSays) {
    let (more, less) = (PredictorSays::MoreWithMore, PredictorSays::MoreWithLess);
    match of {
        YardReading::Score => (words.asks_score, more),
        YardReading::Slope => (words.asks_slope, less),
        YardReading::Rings => (words.asks_rings, more),
        YardReading::Density => (words.asks_density, more),
        YardReading::Moisture => (words.asks_moisture, less),
        YardReading::Bow => (words.asks_bow, less),
        YardReading::Crook => (words.asks_crook, less),
        YardReading::Twist => (words.asks_twist, less),
        YardReading::Slab => (words.asks_slab, more),
    }
}

fn reading(ui: &Ui<'_>, told: &PredictorFound) -> Markup {
    let words = &ui.w.track;
    let (question, yes) = asks(words, told.reading);
    let planks = |n: usize| count(n as u64, ui.w.common.planks_one, ui.w.common.planks_other);
    let shown = match &told.predictor {
        Err(_) => words.nothing_to_compare.to_owned(),
        Ok(found) => {
            let sentence = match found.says {
                PredictorSays::TooFew => words.says_too_few,
                PredictorSays::NoSignYet => words.says_open,
                says if says == yes => words.says_yes,
                _ => words.says_reverse,
            };
            fill(
                sentence,
                &[
                    ("planks", &planks(found.pairs)),
                    ("least", &FEWEST_TO_COMPARE),
                ],
            )
        }
    };
    html! {
        li {
            strong { (question) }
            div.below {
                @match told.working() {
                    Some(working) if told.predictor.is_ok() => {
                        (figure(ui, &fill(words.reading_of, &[("name", &spoken_name(told.reading.name()))]), &shown, Asked::Known(Box::new(working))))
                    },
                    _ => (shown),
                }
            }
        }
    }
}
