//! Today: what stands on this device only, rest over and ready, rest over and not yet still, what is unfinished, what
//! the target is short of, and the rests that end in the next twelve months.

use super::start;
use crate::action::Action;
use crate::book;
use crate::half_typed;
use crate::model::{HalfTyped, Model};
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, bar, capital, icon, notices, place_head, toast};
use crate::racks::line::Rows;
use crate::racks::stock::{Stock, rack_name, scale};
use crate::racks::{self, put_away, shown};
use crate::route::Route;
use crate::starts;
use crate::words::{Spoken, count, dates, fill};
use crate::yard::{self, recorded::drafts_in_sight};
use chrono::NaiveDate;
use maud::{Markup, html};
use stillwood_core::order;
use stillwood_core::quantity::mm;
use stillwood_core::record::queries::{self, ShortQuestion, TargetShort};
use stillwood_core::record::{Due, DueRow, DueWhen, OnlyHere, ThisDevice, due_by_day};
use stillwood_core::season::{FEELER_MM, StartTask};

/// So many rows of each part are drawn; the others are in the racks.
const ROWS: usize = 5;
/// After so many days without handing a file over, it is told louder.
const LONG_DAYS: i64 = 14;
/// So many entries are worth a file at once.
const MANY: usize = 40;

/// Nothing is recorded.
fn is_empty(model: &Model) -> bool {
    let state = model.state();
    state.visits().next().is_none() && state.pieces().next().is_none() && !model.shell.sample
}

/// Whether the start stands here: nothing is recorded, and nothing is begun.
pub fn is_start(model: &Model) -> bool {
    is_empty(model) && model.drafts.is_empty() && model.forms.is_empty()
}

/// The screen.
pub fn view(model: &Model) -> Page {
    if is_start(model) {
        return start::view(model);
    }
    let title = model.words().common.today;
    Page::new(title, Layout::Place)
        .with(model, "bar", "nav", bar)
        .with(model, "head", "header", |ui| {
            place_head(ui, title, html! {})
        })
        .with(model, "notices", "div", notices)
        .with(model, "body", "main", body)
        .with(model, "toast", "div", toast)
}

fn body(ui: &Ui<'_>) -> Markup {
    let stock = Stock::of(ui.model);
    let due = stock.due();
    let of = |wanted: &[DueWhen]| -> Vec<Due> {
        due_by_day(due.clone(), ui.model.now.date())
            .into_iter()
            .filter(|(when, _)| wanted.contains(when))
            .flat_map(|(_, lines)| lines)
            .collect()
    };
    let words = &ui.w.today;
    let ready = of(&[DueWhen::Ready, DueWhen::MayBeCut]);
    let not_still = of(&[DueWhen::Late]);
    let look_again = of(&[DueWhen::LookAgain]);
    let not_known = of(&[DueWhen::WeightNotKnown]);
    let soon = of(&[DueWhen::ThisWeek]);
    let to_put_away = put_away::waiting(ui);
    let parts = [&ready, &not_still, &look_again, &not_known, &soon];
    let nothing = to_put_away.0.is_empty() && parts.iter().all(|lines| lines.is_empty());
    html! {
        (sample(ui))
        (only_here(ui))
        (settle(ui))
        (to_put_away)
        (unfinished(ui))
        div.columns {
            div {
                (part(ui, &stock, (words.ready, true), ready))
                (part(ui, &stock, (words.not_yet_still, false), not_still.clone()))
                (part(ui, &stock, (ui.w.racks.over_look_again, false), look_again.clone()))
                (look_over(ui, &not_still, &look_again))
                (part(ui, &stock, (words.weight_not_known, true), not_known))
                (part(ui, &stock, (words.this_week, false), soon))
                @if nothing { p.empty { (words.nothing_due) } }
            }
            div {
                (target(ui))
                (months(ui, &due))
            }
        }
    }
}

/// The sample is open: how to close it.
fn sample(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.today;
    let by = &ui.model.record.device().id;
    let own = ui
        .model
        .record
        .log()
        .entries()
        .filter(|entry| entry.by == *by)
        .count();
    let close = Action::OpenSample(false);
    let close = match own {
        0 => close,
        own => Action::Ask {
            question: count(own as u64, words.sample_own_one, words.sample_own_other),
            yes: words.close_sample.to_owned(),
            action: Box::new(close),
        },
    };
    html! {
        @if ui.model.shell.sample {
            div.notice {
                p { (words.in_sample) }
                div.keys { button.key type="button" data-press=(ui.press(close)) { (words.close_sample) } }
            }
        }
    }
}

/// What stands on this device only.
fn only_here(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.today;
    let Some(kept) = ui
        .model
        .shell
        .kept
        .as_ref()
        .filter(|_| !ui.model.shell.sample)
    else {
        return html! {};
    };
    let found: OnlyHere = kept.only_here(ui.model.record.log(), ui.model.state());
    if found.entries == 0 {
        return html! {};
    }
    let device = if ui.model.shell.wide {
        ThisDevice::Laptop
    } else {
        ThisDevice::Phone
    };
    let (n, one, other) = match found.planks {
        0 => (
            found.entries,
            words.entries_here_one,
            words.entries_here_other,
        ),
        n => (n, words.planks_here_one, words.planks_here_other),
    };
    let sentence = if n == 1 { one } else { other };
    let name = fill(sentence, &[("n", &n), ("device", &device.name().spoken())]);
    let days = kept.days_since_handed(ui.model.now.date());
    let loud = days.is_none_or(|days| days > LONG_DAYS) || found.entries > MANY;
    html! {
        div.notice.beside.doubt[loud] #only-here {
            div {
                p { strong { (name) } }
                p.below {
                    @match days {
                        None => (words.never_handed),
                        Some(days) => (count(days.max(0) as u64, words.handed_one, words.handed_other)),
                    }
                }
            }
            a.key href=(Route::Share.address()) data-press=(ui.press(Route::Share)) { (words.share) }
        }
    }
}

/// What the maker has to settle.
fn settle(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.today;
    let mut all = book::settle::found(ui.model);
    all.retain(|one| !one.calm);
    html! {
        @if !all.is_empty() {
            div.notice.beside {
                div {
                    p { strong { (words.to_settle) } }
                    @for one in &all { p.below { (one.line) } }
                }
                a.key href=(Route::Settle.address()) data-press=(ui.press(Route::Settle)) { (words.settle) }
            }
        }
    }
}

/// Planks and forms that were left half typed.
fn unfinished(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.today;
    let drafts = drafts_in_sight(ui.model);
    let drafts: Vec<_> = drafts.filter(|draft| !draft.is_empty()).collect();
    let forms: Vec<(&String, &HalfTyped)> = half_typed::in_sight(ui.model).collect();
    html! {
        @if !drafts.is_empty() || !forms.is_empty() {
            h2.small { (words.unfinished) }
            ul.list {
                @for draft in &drafts { (yard::place::half_typed(ui, draft)) }
                @for (key, form) in &forms {
                    li {
                        a.item href=(half_typed::screen(ui.model, key, form).address()) data-press=(ui.press(half_typed::key_of(key))) {
                            span.what { strong { (capital(&form.words)) } span.below { (words.half_typed) } }
                            (icon(Icon::Forward))
                        }
                    }
                }
            }
        }
    }
}

/// One part of the list: a few rows, and the way to the others.
fn part(ui: &Ui<'_>, stock: &Stock, (name, told_above): (&str, bool), lines: Vec<Due>) -> Markup {
    if lines.is_empty() {
        return html! {};
    }
    let rows = Rows {
        by_id: stock.by_id(),
        with_place: true,
        open: shown::list(
            ui.model,
            crate::racks::list::SCREEN,
            crate::racks::list::OPEN,
        ),
    };
    let all = lines.len();
    let mut folded = DueRow::folded(lines);
    folded.truncate(ROWS);
    let drawn: usize = folded.iter().map(|row| row.lines().len()).sum();
    html! {
        h2.small { (name) " (" (all) ")" }
        (rows.draw(ui, &folded, told_above))
        @if drawn < all {
            a.key.quiet.whole href=(Route::Racks.address()) data-press=(ui.press(Route::Racks)) {
                (count((all - drawn) as u64, ui.w.today.more_in_racks_one, ui.w.today.more_in_racks_other))
            }
        }
    }
}

/// Keys to look over the racks on which something is only not looked over yet, or not for long.
fn look_over(ui: &Ui<'_>, not_still: &[Due], look_again: &[Due]) -> Markup {
    let lacking = not_still.iter().filter(|due| due.lacks_looks());
    let lacking = lacking.chain(look_again);
    let racks = order::set_of(lacking.map(|due| &due.place));
    let words = &ui.w.racks;
    html! {
        @if !racks.is_empty() {
            div.keys {
                @for rack in racks {
                    button.key type="button" data-press=(ui.press(racks::Action::LookOver(rack.clone()))) {
                        (fill(words.look_over_rack, &[("rack", &rack_name(words, rack))]))
                    }
                }
            }
        }
    }
}

/// What is asked of the target that is kept; none before the first screen is drawn.
fn short(model: &Model) -> Option<ShortQuestion> {
    if model.shell.starting {
        return None;
    }
    let today = model.now.date();
    queries::short_question(model.state(), today, mm(FEELER_MM), scale(model))
}

/// The search that the screen needs.
pub fn task(model: &Model) -> Option<StartTask> {
    short(model)?.task().cloned()
}

/// What the target is short of.
fn target(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.today;
    let state = ui.model.state();
    let Some((target, _)) = queries::target(state) else {
        return html! {};
    };
    let short = short(ui.model);
    let waits = |asked: &ShortQuestion| starts::short_answer(ui.model, asked).is_none();
    let said = if ui.model.shell.starting {
        words.working_out.to_owned()
    } else {
        match short
            .as_ref()
            .map(|asked| starts::short_answer(ui.model, asked))
        {
            Some(Some(short)) => still_to_buy(ui, &short),
            Some(None) => starts::in_a_word(ui).to_owned(),
            None => String::new(),
        }
    };
    let blanks = count(
        u64::from(target.blanks),
        words.blanks_one,
        words.blanks_other,
    );
    let by = target.by.map(|by| {
        fill(
            words.by_day,
            &[("day", &dates::day(ui.w, by, ui.model.now.date()))],
        )
    });
    html! {
        h2.small { (words.target) }
        ul.list {
            li {
                a.item href=(Route::Plan.address()) data-press=(ui.press(Route::Plan)) {
                    span.what {
                        strong { (blanks) } " " (by.unwrap_or_default())
                        span.below { (said) }
                    }
                    (icon(Icon::Forward))
                }
            }
        }
        @if short.as_ref().is_some_and(waits) { (starts::view(ui)) }
    }
}

/// How many planks are still to be bought, in words.
fn still_to_buy(ui: &Ui<'_>, short: &TargetShort) -> String {
    let words = &ui.w.today;
    match (short.planks(), short.is_in_time()) {
        (Some(0), _) => words.enough.to_owned(),
        (_, false) => words.too_late.to_owned(),
        (Some(planks), true) => count(
            u64::from(planks),
            words.buy_planks_one,
            words.buy_planks_other,
        ),
        (None, true) => match &short.answer.start {
            Ok(_) => words.no_number.to_owned(),
            Err(why) => why.spoken(),
        },
    }
}

/// The height of the tallest bar.
const TALL: f64 = 64.0;

/// The rests that end in the next twelve months, as bars.
fn months(ui: &Ui<'_>, due: &[Due]) -> Markup {
    let words = &ui.w.today;
    let months: Vec<(NaiveDate, usize)> = queries::rests_ending(due, ui.model.now.date());
    let most = months.iter().map(|(_, n)| *n).max().unwrap_or_default();
    if most == 0 {
        return html! {};
    }
    let said: Vec<String> = months
        .iter()
        .filter(|(_, n)| *n > 0)
        .map(|(month, n)| format!("{}: {n}", dates::month(ui.w, *month)))
        .collect();
    html! {
        h2.small { (words.rests_ending) }
        a.card.months-ahead href=(Route::Racks.address()) data-press=(ui.press(Route::Racks)) {
            svg.months viewBox="0 0 336 108" role="img" aria-label=(said.join(", ")) {
                @for (at, (month, n)) in months.iter().enumerate() {
                    @let x = at as f64 * 28.0;
                    @let high = *n as f64 / most as f64 * TALL;
                    @if *n > 0 {
                        rect.bar x=(format!("{:.1}", x + 3.0)) y=(format!("{:.1}", 86.0 - high)) width="22" height=(format!("{high:.1}")) rx="3" {}
                        text.n x=(format!("{:.1}", x + 14.0)) y=(format!("{:.1}", 80.0 - high)) text-anchor="middle" { (n) }
                    }
                    path.foot d=(format!("M{:.1} 86h22", x + 3.0)) {}
                    text x=(format!("{:.1}", x + 14.0)) y="103" text-anchor="middle" { (dates::month(ui.w, *month).chars().next().unwrap_or(' ')) }
                }
            }
        }
    }
}
