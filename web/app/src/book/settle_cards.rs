//! The screen of what is to be settled: entries of two texts, corrections made apart, planks that may be one, each
//! with what differs; and what the record says of its own gaps.

use super::parts::screen;
use super::settle::{Action, STORIES, ToSettle, chosen_text, found, pairs_of};
use crate::model::Model;
use crate::page::{Page, Ui};
use crate::parts::{Judged, sign};
use crate::racks::stock::rack_name;
use crate::route::Route;
use crate::words::{Spoken, fill, show, wood_names};
use maud::{Markup, html};
use stillwood_core::plank::{Field, Measure, Sign};
use stillwood_core::record::queries;
use stillwood_core::record::{
    Conflict, Dispute, Id, Life, PAIRS_AT_ONCE, PairOffered, Piece, PieceKind, Sure,
};

/// Conflicts, and lines of one trouble, shown at once.
const SHOWN: usize = 20;
/// Differences shown of one conflict.
const ROWS: usize = 30;

/// The screen.
pub fn view(model: &Model) -> Page {
    let words = &model.words().share;
    screen(model, words.settle_title, "").with(model, "body", "main", body)
}

fn body(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.share;
    let all = found(ui.model);
    let settled = ui.model.record.log().conflicts();
    let settled: Vec<&Conflict<'_>> = settled.iter().filter(|one| one.settled).collect();
    html! {
        @if !all.iter().any(|one| !one.calm) {
            p.notice { (sign(Judged::Good)) (words.nothing_to_settle) }
        }
        @for one in &all {
            section.trouble id=(one.id) aria-label=(one.name) {
                h2 { (one.name) }
                p.below { (one.line) " " (one.meaning) }
                @match one.id {
                    "conflicts" => (conflicts(ui)),
                    "disputes" => {
                        @for dispute in ui.model.state().disputes().iter().take(SHOWN) { (dispute_card(ui, dispute)) }
                    },
                    "pairs" => (pairs(ui)),
                    _ => (listed(ui, one)),
                }
            }
        }
        @if !settled.is_empty() {
            details {
                summary { (fill(words.settled_texts, &[("n", &settled.len())])) }
                @for one in settled.iter().take(SHOWN) { (conflict_card(ui, one)) }
            }
        }
    }
}

fn listed(ui: &Ui<'_>, one: &ToSettle) -> Markup {
    let more = one.found.len().saturating_sub(SHOWN);
    html! {
        ul.list {
            @for found in one.found.iter().take(SHOWN) {
                li.settle-line {
                    @for (id, mark) in &found.planks {
                        (open_key(ui, page_of(ui.model, one, *id), mark))
                    }
                    bdi { (found.text) }
                }
            }
        }
        @if more > 0 { p.below { (fill(ui.w.share.and_more, &[("n", &more)])) } }
    }
}

/// Where a piece is looked at: two stories where the keys are that delete one; what was never bought on its plank's
/// sheet, all else on its page in the racks.
fn page_of(model: &Model, one: &ToSettle, id: Id) -> Route {
    let piece = model.state().piece(id);
    match piece.map(|piece| (piece.work.kind, piece.life().0)) {
        Some((PieceKind::Plank, Life::AtYard | Life::Left)) if one.id != STORIES => {
            Route::Plank(id)
        }
        _ => Route::Piece(id),
    }
}

/// Leads to a piece.
fn open_key(ui: &Ui<'_>, to: Route, mark: &str) -> Markup {
    html! {
        button.key type="button" data-press=(ui.press(to)) {
            (fill(ui.w.today.open_it, &[("mark", &mark)]))
        }
    }
}

fn conflicts(ui: &Ui<'_>) -> Markup {
    let conflicts = ui.model.record.log().conflicts();
    let open: Vec<&Conflict<'_>> = conflicts.iter().filter(|one| !one.settled).collect();
    html! {
        @for one in open.iter().take(SHOWN) { (conflict_card(ui, one)) }
        @if open.len() > SHOWN {
            p.below { (fill(ui.w.share.more_follow, &[("n", &(open.len() - SHOWN))])) }
        }
    }
}

fn letter(at: usize) -> char {
    char::from(b'A'.saturating_add(u8::try_from(at).unwrap_or(25).min(25)))
}

/// The texts of one entry, with what differs.
fn conflict_card(ui: &Ui<'_>, conflict: &Conflict<'_>) -> Markup {
    let (words, state) = (&ui.w.share, ui.model.state());
    let title = conflict.variants.first().map_or(String::new(), |entry| {
        ui.w.about(ui.model.state(), entry.about)
    });
    let rows = conflict.differences();
    let more = rows.len().saturating_sub(ROWS);
    let rows = rows.into_iter().take(ROWS).map(|(key, values)| Compared {
        name: key_in_words(ui, &key),
        apart: !OF_ITS_WRITING.contains(&key.as_str()),
        leads: false,
        values,
    });
    let rows: Vec<Compared> = rows.collect();
    let unseen = conflict.total.saturating_sub(conflict.variants.len());
    let chosen = chosen_text(ui.model, conflict.id);
    let heads: Vec<String> = (0..conflict.variants.len())
        .map(|at| letter(at).to_string())
        .collect();
    html! {
        section.card aria-label=(title) {
            h3 { (title) }
            (compared(&heads, &rows.iter().collect::<Vec<_>>()))
            @if more > 0 { p.below { (fill(words.and_more, &[("n", &more)])) } }
            div role="radiogroup" aria-label=(words.which_is_right) {
                p { strong { (words.which_is_right) } }
                @for (at, entry) in conflict.variants.iter().enumerate() {
                    @let device = queries::device_shown(state, &entry.by);
                    button.story type="button" role="radio" aria-checked=((at == chosen).to_string())
                        data-press=(ui.press(Action::ChooseText(conflict.id, at)))
                    {
                        strong {
                            (letter(at)) ": " (ui.model.day(entry.on)) ", " (device)
                            @if at == 0 { " (" (words.counts_now) ")" }
                        }
                        span { bdi { (ui.w.events.event(ui.model.units(), &entry.event)) } }
                    }
                }
            }
            @if unseen > 0 { p.below { (fill(words.more_texts, &[("n", &unseen)])) } }
            div.keys.decide {
                button.key.big.grow.main type="button" data-press=(ui.press(Action::SettleText(conflict.id))) {
                    (fill(words.this_text_holds, &[("letter", &letter(chosen))]))
                }
            }
        }
    }
}

/// Keys of an entry that say who wrote it and when, and nothing of the wood.
const OF_ITS_WRITING: [&str; 6] = ["at", "by", "on_insisted", "seq", "step", "v"];

/// What a key of an entry stands for.
fn key_in_words(ui: &Ui<'_>, key: &str) -> String {
    let words = &ui.w.share;
    let whole = match key {
        "about" => words.key_about,
        "at" => words.key_at,
        "by" => words.key_by,
        "happening" => words.key_happening,
        "on" => words.key_on,
        "on_insisted" => words.key_on_confirmed,
        "seq" => words.key_seq,
        "step" => words.key_step,
        "v" => words.key_version,
        _ => "",
    };
    if !whole.is_empty() {
        return whole.to_owned();
    }
    let key = key.strip_prefix("body.").unwrap_or(key);
    key.replace('_', " ").replace('.', ", ")
}

/// Corrections of one entry that were made apart.
fn dispute_card(ui: &Ui<'_>, dispute: &Dispute) -> Markup {
    let (words, state) = (&ui.w.share, ui.model.state());
    let title = ui.w.about(ui.model.state(), dispute.about);
    let entries = dispute
        .candidates
        .iter()
        .filter_map(|id| ui.model.record.log().entry(*id));
    html! {
        section.card aria-label=(title) {
            h3 { (title) }
            @for entry in entries {
                div.story {
                    strong {
                        (ui.model.day(entry.on)) ", " (queries::device_shown(state, &entry.by))
                        @if dispute.in_force() == Some(entry.id) { " (" (words.counts_now) ")" }
                    }
                    span { bdi { (ui.w.events.event(ui.model.units(), &entry.event)) } }
                    button.key type="button" data-press=(ui.press(Action::Holds(dispute.of, entry.id))) { (words.this_holds) }
                }
            }
        }
    }
}

fn pairs(ui: &Ui<'_>) -> Markup {
    let offered = pairs_of(ui.model);
    html! {
        @for pair in offered.iter().take(PAIRS_AT_ONCE) { (pair_card(ui, pair)) }
        @if offered.len() > PAIRS_AT_ONCE {
            p.below { (fill(ui.w.share.more_pairs, &[("n", &(offered.len() - PAIRS_AT_ONCE))])) }
        }
    }
}

/// Two planks side by side, with what differs.
fn pair_card(ui: &Ui<'_>, pair: &PairOffered) -> Markup {
    let (words, state) = (&ui.w.share, ui.model.state());
    let (Some(a), Some(b)) = (state.piece(pair.a), state.piece(pair.b)) else {
        return Markup::default();
    };
    let tell = |same| {
        ui.press(Action::Tell {
            a: pair.a,
            b: pair.b,
            same,
        })
    };
    let judged = match pair.sure() {
        Sure::Likely => Judged::Doubt,
        Sure::Possible => Judged::Unknown,
    };
    let title = fill(words.pair_of, &[("a", &a.mark), ("b", &b.mark)]);
    let heads = [a.mark.clone(), b.mark.clone()];
    let rows = rows_of(ui, a, b);
    let (first, others): (Vec<&Compared>, Vec<&Compared>) =
        rows.iter().partition(|row| row.leads || row.apart);
    let differ = rows.iter().filter(|row| row.apart).count();
    // The smaller id stays, and its mark with it.
    let stays = if a.id < b.id { a } else { b };
    html! {
        section.card aria-label=(title) {
            h3 { (title) }
            p.below { (sign(judged)) (pair.in_words().spoken()) }
            (compared(&heads, &first))
            p.below { @if differ > 0 { (words.apart_how) } @else { (words.none_apart) } }
            details {
                summary { (words.all_readings) }
                @if !others.is_empty() { (compared(&heads, &others)) }
                div.keys {
                    (open_key(ui, Route::Plank(pair.a), &a.mark))
                    (open_key(ui, Route::Plank(pair.b), &b.mark))
                }
            }
            p.below { (fill(words.joined_how, &[("mark", &stays.mark)])) " " (words.pair_undone) }
            div.keys.decide {
                button.key.big.grow type="button" data-press=(tell(false)) { (words.two_planks) }
                button.key.big.grow type="button" data-press=(tell(true)) { (words.one_plank) }
            }
        }
    }
}

/// A row of what stands beside each other.
struct Compared {
    name: String,
    values: Vec<String>,
    /// It tells that the two are not one; readings that may be as far off, or what one of them lacks, do not.
    apart: bool,
    /// It says which plank is meant, and stands before the readings.
    leads: bool,
}

fn rows_of(ui: &Ui<'_>, a: &Piece, b: &Piece) -> Vec<Compared> {
    let (words, state, units) = (&ui.w.share, ui.model.state(), ui.model.units());
    let yard = |piece: &Piece| {
        let visit = state.visit_of(piece);
        visit.map_or(String::new(), |visit| {
            format!("{}, {}", visit.opened.yard, ui.model.day(piece.recorded.on))
        })
    };
    let device = |piece: &Piece| {
        let names = piece.by.iter().map(|by| queries::device_shown(state, by));
        names.collect::<Vec<_>>().join(", ")
    };
    let decided = |piece: &Piece| {
        piece
            .decision()
            .map_or(String::new(), |one| ui.w.events.decision(one).to_owned())
    };
    let row = |name: &str, of: &dyn Fn(&Piece) -> String, tells: bool| {
        let values = vec![of(a), of(b)];
        let both = values.iter().all(|value| !value.is_empty());
        Compared {
            name: name.to_owned(),
            apart: tells && both && values.first() != values.last(),
            leads: false,
            values,
        }
    };
    let wood = |piece: &Piece| wood_names::shown(&queries::woods_named(state, piece.id));
    let rack = |piece: &Piece| {
        let place = piece.work.place();
        place.map_or(String::new(), |place| {
            rack_name(&ui.w.racks, &place.payload)
        })
    };
    let mut rows = vec![
        row(words.wood, &wood, true),
        row(words.yard_and_day, &yard, true),
        row(words.device, &device, false),
        row(words.decided, &decided, true),
        row(ui.w.racks.fact_rack, &rack, true),
    ];
    rows.retain(|row| row.values.iter().any(|value| !value.is_empty()));
    for row in &mut rows {
        row.leads = true;
    }
    for field in Field::ALL {
        let both = a.reading(*field).zip(b.reading(*field));
        // Of a reading with its side and one without, only how large they are is compared.
        let one_sided =
            field.measure() == Measure::Gap && both.is_some_and(|(a, b)| a.sign != b.sign);
        let value = |piece: &Piece| {
            let Some(reading) = piece.reading(*field) else {
                return String::new();
            };
            let shown = show::reading(*field, reading.value, units);
            match reading.sign {
                Sign::Unknown if one_sided && reading.value != 0.0 => {
                    fill(words.side_not_noted, &[("value", &shown)])
                }
                _ => shown,
            }
        };
        let tools = &ui.model.settings.instruments;
        let apart = both.is_some_and(|(a, b)| tools.tells_apart(*field, a, b));
        let row = row(&field.label().spoken(), &value, apart);
        if row.values.iter().any(|value| !value.is_empty()) {
            rows.push(row);
        }
    }
    rows
}

/// A table of what stands beside each other; what tells them apart is bold and has a sign.
fn compared(heads: &[String], rows: &[&Compared]) -> Markup {
    html! {
        div.scroll tabindex="0" role="region" aria-label=(heads.join(", ")) {
            table.compared.texts {
                thead { tr { td {} @for head in heads { th scope="col" { bdi { (head) } } } } }
                tbody {
                    @for row in rows {
                        tr.apart[row.apart] {
                            th scope="row" { @if row.apart { (sign(Judged::Doubt)) } (row.name) }
                            @for value in &row.values { td { bdi { @if value.is_empty() { "–" } @else { (value) } } } }
                        }
                    }
                }
            }
        }
    }
}
