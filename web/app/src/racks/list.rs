//! The racks: drawn as racks, or by the day on which each rest is over; what is chosen of them; what waits for no
//! day.

use super::Action;
use super::line::{CHOSEN, Rows, heading_tells, kinds, not_at_rest};
use super::rack::{drawn, legend, with_own_tile};
use super::shown;
use super::stock::{Stock, rack_name, sign_word};
use crate::effect::Effect;
use crate::model::Model;
use crate::page::{Page, Ui};
use crate::parts::{Icon, icon, place_with_pane};
use crate::route::Route;
use crate::words::{RacksWords, Spoken, count, fill, show, wood_names};
use maud::{Markup, html};
use stillwood_core::record::queries::{self, Rack, RackPiece};
use stillwood_core::record::{Due, DueRow, DueWhen, Id, due_by_day};
use stillwood_core::season::DateKey;

/// Under which the choices are kept, by their names.
pub const SCREEN: &str = "workshop";
/// Words that are looked for.
pub const WORDS: &str = "words";
/// Which are shown.
const WANTED: &str = "shown";
/// In which order.
const ORDER: &str = "order";
/// The lots that are open.
pub const OPEN: &str = "open";
/// So many rows are shown at first, and more at each press.
pub const ROWS: usize = 60;
/// From so many pieces on racks are rows, each to be opened.
const MANY_PIECES: usize = 240;

/// The orders, by what is kept for each.
const BY_DAY: usize = 0;
/// So many choices are there.
const WANTED_ALL: usize = 6;

fn wanted_words(words: &RacksWords, wanted: usize) -> &'static str {
    match wanted {
        1 => words.rest_over,
        2 => words.due_this_week,
        3 => words.resting,
        4 => words.weight_changes,
        5 => words.still_early_short,
        _ => words.all,
    }
}

/// Whether a line is among what is wanted.
fn fits(line: Option<&Due>, wanted: usize) -> bool {
    let key = line.and_then(Due::date_key);
    match wanted {
        1 => key == Some(DateKey::RestOver),
        2 => key == Some(DateKey::DueSoon),
        3 => key == Some(DateKey::Resting),
        4 => line.is_some_and(Due::weight_changes),
        5 => line.is_some_and(Due::is_early),
        _ => true,
    }
}

/// Whether all words that were typed stand in a text.
fn has(text: &str, typed: &str) -> bool {
    let text = text.to_lowercase();
    typed
        .to_lowercase()
        .split_whitespace()
        .all(|word| text.contains(word))
}

/// What is chosen.
struct Chosen<'a> {
    wanted: usize,
    typed: &'a str,
    by_day: bool,
}

impl<'a> Chosen<'a> {
    fn of(model: &'a Model) -> Self {
        Self {
            wanted: shown::place(model, SCREEN, WANTED),
            typed: model.chosen(SCREEN, WORDS),
            by_day: model.chosen(SCREEN, ORDER) == BY_DAY.to_string(),
        }
    }

    fn takes(&self, place: &str, piece: &RackPiece) -> bool {
        let text = || {
            format!(
                "{} {} {} {place} {} {}",
                piece.mark,
                piece.wood,
                wood_names::shown(&piece.wood),
                piece.kind.name(),
                piece.kind.name().spoken()
            )
        };
        fits(piece.due.as_ref(), self.wanted)
            && (self.typed.trim().is_empty() || has(&text(), self.typed))
    }

    fn narrows(&self) -> bool {
        self.wanted != 0 || !self.typed.trim().is_empty()
    }
}

/// Up and down in what is shown, on a wide screen.
pub fn key(model: &mut Model, key: &str) -> Vec<Effect> {
    if !model.shell.wide {
        return Vec::new();
    }
    let back = match key {
        "ArrowDown" => false,
        "ArrowUp" => true,
        "Enter" => {
            let chosen = model.racks.chosen.map(|id| Effect::Go(Route::Piece(id)));
            return chosen.into_iter().collect();
        }
        _ => return Vec::new(),
    };
    let ids = shown_ids(model);
    let at = model
        .racks
        .chosen
        .and_then(|id| ids.iter().position(|one| *one == id));
    let next = match (at, back) {
        (Some(at), true) => at.saturating_sub(1),
        (Some(at), false) => at + 1,
        (None, _) => 0,
    };
    let Some(id) = ids.get(next) else {
        return Vec::new();
    };
    model.racks.chosen = Some(*id);
    vec![Effect::ScrollTo(CHOSEN.to_owned())]
}

/// The pieces at rest that are drawn one by one, in their order.
fn shown_ids(model: &Model) -> Vec<Id> {
    let stock = Stock::of(model);
    let chosen = Chosen::of(model);
    if !chosen.by_day {
        let racks = racks(&stock, &chosen);
        let alone = racks.iter().filter(|_| !are_many(&racks));
        return alone.flat_map(with_own_tile).collect();
    }
    let open = shown::list(model, SCREEN, OPEN);
    let is_open = |row: &&DueRow| match row {
        DueRow::One(_) => true,
        DueRow::Lot(lot) => open.contains(&lot.key()),
    };
    let (stretches, _) = first_rows(model, &stock, &chosen);
    let rows = stretches.iter().flat_map(|stretch| &stretch.rows);
    let due = rows.filter(is_open).flat_map(DueRow::lines);
    let downgraded = downgraded(&stock, &chosen).into_iter();
    due.map(|line| line.piece)
        .chain(downgraded.map(|one| one.piece))
        .collect()
}

/// What of the racks is chosen.
fn racks(stock: &Stock, chosen: &Chosen<'_>) -> Vec<Rack> {
    let racks = stock.racks().iter().map(|rack| {
        let takes = |one: &&RackPiece| chosen.takes(&rack.place, one);
        Rack {
            place: rack.place.clone(),
            pieces: rack.pieces.iter().filter(takes).cloned().collect(),
        }
    });
    racks.filter(|rack| !rack.pieces.is_empty()).collect()
}

/// Whether there is more on racks than can be looked at: each is a row then.
fn are_many(racks: &[Rack]) -> bool {
    racks.iter().map(|rack| rack.pieces.len()).sum::<usize>() > MANY_PIECES
}

/// What is due in a stretch of days, as far as it is drawn.
struct Stretch {
    when: DueWhen,
    /// So many pieces are due in it.
    pieces: usize,
    /// Its rows that are drawn.
    rows: Vec<DueRow>,
}

/// The rows by day that are drawn until more are asked for, and how many pieces stand in those beyond.
fn first_rows(model: &Model, stock: &Stock, chosen: &Chosen<'_>) -> (Vec<Stretch>, usize) {
    let pieces = |rows: &[DueRow]| rows.iter().map(|row| row.lines().len()).sum::<usize>();
    let mut left = ROWS + model.racks.more_rows;
    let mut beyond = 0;
    let mut drawn = Vec::new();
    for (when, mut rows) in stretches(model, stock, chosen) {
        let all = pieces(&rows);
        let later = rows.split_off(left.min(rows.len()));
        left -= rows.len();
        beyond += pieces(&later);
        if !rows.is_empty() {
            drawn.push(Stretch {
                when,
                pieces: all,
                rows,
            });
        }
    }
    (drawn, beyond)
}

/// What is shown by day, stretch by stretch.
fn stretches(model: &Model, stock: &Stock, chosen: &Chosen<'_>) -> Vec<(DueWhen, Vec<DueRow>)> {
    let by_id = stock.by_id();
    let takes = |line: &Due| {
        let piece = by_id.get(&line.piece);
        piece.is_some_and(|one| chosen.takes(&line.place, one))
    };
    let due: Vec<Due> = stock.due().into_iter().filter(takes).collect();
    let stretches = due_by_day(due, model.now.date()).into_iter();
    stretches
        .map(|(when, lines)| (when, DueRow::folded(lines)))
        .collect()
}

/// Wood that was put to another use: no day comes for it, but it lies there and is counted, so it stands in the list.
fn downgraded<'a>(stock: &'a Stock, chosen: &Chosen<'_>) -> Vec<&'a RackPiece> {
    let racks = stock.racks().iter();
    let of = racks.flat_map(|rack| rack.pieces.iter().map(move |one| (rack, one)));
    let of = of.filter(|(rack, one)| one.is_downgraded && chosen.takes(&rack.place, one));
    of.map(|(_, one)| one).collect()
}

/// The screen.
pub fn view(model: &Model) -> Page {
    // Where there is nothing to choose from, nothing stands beside it.
    let stock = Stock::of(model);
    let beside = stock.pieces().next().is_some();
    let title = model.words().racks.title;
    place_with_pane(
        model,
        title,
        body,
        beside.then_some(|ui: &Ui<'_>| pane(ui, &stock)),
    )
}

/// The piece that is chosen; before one is, that which is due first.
fn pane(ui: &Ui<'_>, stock: &Stock) -> Markup {
    let words = &ui.w.racks;
    let piece = |id: Id| ui.model.state().piece(id);
    if let Some(chosen) = ui.model.racks.chosen.and_then(piece) {
        return super::piece::beside(ui, chosen);
    }
    let stretches = due_by_day(stock.due(), ui.model.now.date());
    let first = stretches.iter().flat_map(|(_, lines)| lines).next();
    html! {
        @if let Some(first) = first.and_then(|line| piece(line.piece)) {
            p.small { (words.due_first) }
            (super::piece::beside(ui, first))
        }
        p.below.hint { (words.choose_a_piece) }
    }
}

fn body(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.racks;
    let stock = Stock::of(ui.model);
    let chosen = Chosen::of(ui.model);
    let all: usize = stock.racks().iter().map(|rack| rack.pieces.len()).sum();
    let idle = queries::not_at_rest(ui.model.state());
    let idle: Vec<_> = idle
        .iter()
        .filter(|one| {
            let woods = queries::woods_named(ui.model.state(), one.piece);
            let downgraded = stock.piece(one.piece).is_some_and(|one| one.is_downgraded);
            chosen.wanted == 0
                && !downgraded
                && has(
                    &format!("{} {woods} {}", one.mark, wood_names::shown(&woods)),
                    chosen.typed,
                )
        })
        .collect();
    html! {
        (conflicts(ui))
        (super::round::half_typed_forms(ui))
        (super::put_away::waiting(ui))
        @if all == 0 && idle.is_empty() && !chosen.narrows() {
            p.empty { (words.nothing_yet) }
            button.key.main.big.whole type="button" data-press=(ui.press(Route::NewVisit)) { (ui.w.today.start_a_visit) }
        } @else {
            (choices(ui, &stock, &chosen))
            @if chosen.by_day { (by_day(ui, &stock, &chosen)) } @else { (by_rack(ui, &stock, &chosen)) }
            @if !idle.is_empty() && (chosen.by_day || idle.iter().any(|one| stock.piece(one.piece).is_none())) {
                @let idle: Vec<_> = idle.iter().filter(|one| chosen.by_day || stock.piece(one.piece).is_none()).copied().collect();
                h2.small { (fill(words.not_at_rest, &[("n", &idle.len())])) }
                @let (first, beyond) = idle.split_at(idle.len().min(ROWS + ui.model.racks.more_rows));
                (not_at_rest(ui, first))
                (show_more(ui, beyond.len()))
            }
            div.keys.last {
                a.key href=(Route::RestTimes.address()) data-press=(ui.press(Route::RestTimes)) { (icon(Icon::Settings)) (words.rest_times) }
                button.key type="button" data-press=(ui.press(Action::Calendar)) { (icon(Icon::Plan)) (words.calendar_file) }
            }
        }
    }
}

/// How the racks are shown, and what of them.
fn choices(ui: &Ui<'_>, stock: &Stock, chosen: &Chosen<'_>) -> Markup {
    let words = &ui.w.racks;
    let put = |name: &'static str, value: usize| {
        ui.press(crate::Action::Choose {
            screen: SCREEN,
            name,
            value: value.to_string(),
        })
    };
    let count = |wanted: usize| {
        stock
            .pieces()
            .filter(|one| fits(one.due.as_ref(), wanted))
            .count()
    };
    let what = match (chosen.wanted, chosen.typed.trim()) {
        (0, "") => words.search_and_choose.to_owned(),
        (0, typed) => fill(words.shown, &[("what", &show::quoted(typed))]),
        (wanted, "") => fill(words.shown, &[("what", &wanted_words(words, wanted))]),
        (wanted, typed) => fill(
            words.shown,
            &[(
                "what",
                &format!("{}, {}", wanted_words(words, wanted), show::quoted(typed)),
            )],
        ),
    };
    html! {
        div.chips role="radiogroup" aria-label=(words.order) {
            button.chip type="button" role="radio" aria-checked=((!chosen.by_day).to_string()) data-press=(put(ORDER, 1)) { (words.by_rack) }
            button.chip type="button" role="radio" aria-checked=(chosen.by_day.to_string()) data-press=(put(ORDER, BY_DAY)) { (words.by_day) }
        }
        details #narrow open[chosen.narrows()] {
            summary { (what) }
            div.field {
                label for="words" { (words.search) }
                input id="words" name=(WORDS) value=(chosen.typed) autocomplete="off" autocapitalize="none" type="search";
            }
            div.chips role="radiogroup" aria-label=(words.which) {
                @for wanted in 0..WANTED_ALL {
                    button.chip type="button" role="radio" aria-checked=((wanted == chosen.wanted).to_string())
                        data-press=(put(WANTED, wanted)) { (fill(words.with_count, &[("what", &wanted_words(words, wanted)), ("n", &count(wanted))])) }
                }
            }
        }
    }
}

fn by_rack(ui: &Ui<'_>, stock: &Stock, chosen: &Chosen<'_>) -> Markup {
    let words = &ui.w.racks;
    let racks = racks(stock, chosen);
    html! {
        @if racks.is_empty() { p.empty { (words.none) } }
        @else { (legend(ui)) }
        @if are_many(&racks) { (folded(ui, &racks)) }
        @else { @for rack in &racks { (drawn(ui, rack)) } }
    }
}

/// Racks as rows, where there is more than can be looked at: how many stand in which way.
fn folded(ui: &Ui<'_>, racks: &[Rack]) -> Markup {
    let words = &ui.w.racks;
    html! {
        ul.list {
            @for rack in racks {
                @if let Some(first) = rack.pieces.first() {
                    li {
                        a.item href=(Route::Rack(first.piece).address()) data-press=(ui.press(Route::Rack(first.piece))) {
                            span.what {
                                strong { (rack_name(words, &rack.place)) }
                                span.below { (kinds(words, rack)) }
                                span.signs {
                                    @for (sign, n) in rack.signs() {
                                        span class=(super::stock::judged(sign).class()) {
                                            (crate::parts::sign(super::stock::judged(sign))) (n) " " (sign_word(words, sign))
                                        }
                                    }
                                }
                            }
                            (icon(Icon::Forward))
                        }
                    }
                }
            }
        }
    }
}

/// What a stretch of the order by day is called.
pub fn when_in_words(words: &crate::words::Words, when: DueWhen) -> String {
    let racks = &words.racks;
    match when {
        DueWhen::Late => racks.over_not_still.to_owned(),
        DueWhen::LookAgain => racks.over_look_again.to_owned(),
        DueWhen::WeightNotKnown => racks.over_weight_not_known.to_owned(),
        DueWhen::Ready => racks.over_ready.to_owned(),
        DueWhen::MayBeCut => racks.planks_to_cut.to_owned(),
        DueWhen::ThisWeek => racks.due_this_week.to_owned(),
        DueWhen::ThisMonth => racks.later_this_month.to_owned(),
        DueWhen::Month(first) => {
            format!(
                "{} {}",
                crate::words::dates::month(words, first),
                chrono::Datelike::year(&first)
            )
        }
        DueWhen::NoDay => racks.without_a_day.to_owned(),
    }
}

/// Shows as many rows more as are left.
fn show_more(ui: &Ui<'_>, left: usize) -> Markup {
    let words = &ui.w.racks;
    html! {
        @if left > 0 {
            button.key.whole type="button" data-press=(ui.press(Action::MoreRows)) {
                (count(left as u64, words.show_more_one, words.show_more_other))
            }
        }
    }
}

fn by_day(ui: &Ui<'_>, stock: &Stock, chosen: &Chosen<'_>) -> Markup {
    let words = &ui.w.racks;
    let rows = Rows {
        by_id: stock.by_id(),
        with_place: true,
        open: shown::list(ui.model, SCREEN, OPEN),
    };
    let (shown, beyond) = first_rows(ui.model, stock, chosen);
    let downgraded = downgraded(stock, chosen);
    html! {
        @if !shown.is_empty() { (legend(ui)) }
        @if shown.is_empty() && downgraded.is_empty() { p.empty { (words.none) } }
        @for stretch in &shown {
            h2.small { (when_in_words(ui.w, stretch.when)) " (" (stretch.pieces) ")" }
            (rows.draw(ui, &stretch.rows, heading_tells(stretch.when)))
        }
        (show_more(ui, beyond))
        @if !downgraded.is_empty() {
            h2.small { (fill(words.downgraded, &[("n", &downgraded.len())])) }
            ul.list { @for one in downgraded { li { (rows.piece(ui, one)) } } }
        }
    }
}

/// Entries that can't both be true.
fn conflicts(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.racks;
    let state = ui.model.state();
    let all = queries::piece_conflicts(state);
    html! {
        @if !all.is_empty() {
            div.notice.doubt role="status" {
                @for one in all {
                    p {
                        (words.two_stories) " "
                        a href=(Route::Piece(one.about).address()) data-press=(ui.press(Route::Piece(one.about))) {
                            (state.piece(one.about).map_or("", |piece| &piece.mark))
                        }
                        ": " (one.why.in_words().spoken()) "."
                    }
                }
            }
        }
    }
}
