//! Blanks side by side, for whoever chooses one: what differs first, what is alike below, and reserving one. What is
//! the maker's own, money, names and yards, stands there only when asked for.

use super::figures::{self, Figure};
use super::row::{self, Row};
use super::{Action, CHOICE, MOST_SIDE_BY_SIDE, chosen_side_by_side, customers_view, page};
use crate::action::Action as Any;
use crate::drawings::section::{room, section, section_unknown};
use crate::model::Model;
use crate::page::{Layout, Page, Ui};
use crate::parts::{Icon, icon, notices, sign, task_head, toast};
use crate::route::Route;
use crate::words::{fill, wood_names};
use maud::{Markup, html};
use stillwood_core::quantity::mm;
use stillwood_core::record::Piece;
use stillwood_core::record::queries::{self, Within};
use stillwood_core::season::FEELER_MM;

/// A blank beside others.
struct Column<'a> {
    piece: &'a Piece,
    row: Row,
}

/// A line of the table: its name, what stands in each column, and as it is drawn.
struct Line {
    name: &'static str,
    texts: Vec<String>,
    drawn: Vec<Markup>,
    /// Something is known of one of them at least.
    known: bool,
    /// The column whose value is surely the best, and the word for it.
    best: Option<(usize, &'static str)>,
}

/// Where a line stands in the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Stands {
    Differs,
    Alike,
    /// It is known of none of them: that is no value that is the same.
    NotKnown,
}

impl Line {
    fn stands(&self) -> Stands {
        let differs = || {
            let mut pairs = self.texts.windows(2);
            pairs.any(|pair| pair.first() != pair.last())
        };
        match self.known {
            false => Stands::NotKnown,
            true if differs() => Stands::Differs,
            true => Stands::Alike,
        }
    }
}

/// The screen.
pub fn view(model: &Model) -> Page {
    let title = model.words().blanks.side_by_side;
    Page::new(title, Layout::Task)
        .with(model, "head", "header", |ui| {
            task_head(ui, title, "", html! {})
        })
        .with(model, "notices", "div", notices)
        .with(model, "body", "main", body)
        .with(model, "toast", "div", toast)
}

fn body(ui: &Ui<'_>) -> Markup {
    let words = &ui.w.blanks;
    let state = ui.model.state();
    let pieces = chosen_side_by_side(ui.model)
        .into_iter()
        .filter_map(|id| state.piece(id));
    let columns: Vec<Column<'_>> = pieces
        .map(|piece| Column {
            piece,
            row: row::row(ui.model, piece),
        })
        .collect();
    if columns.is_empty() {
        return html! {
            p.empty #none-chosen { (fill(words.none_chosen, &[("n", &MOST_SIDE_BY_SIDE)])) }
            button.key.main.big.whole type="button" data-press=(ui.press(Route::Blanks)) { (words.to_the_blanks) }
        };
    }
    let (hide, wide) = (customers_view(ui.model), ui.model.shell.wide);
    let lines = lines(ui, &columns, hide);
    let of = |stands| lines.iter().filter(move |line| line.stands() == stands);
    let below = [
        (Stands::Alike, words.alike),
        (Stands::NotKnown, words.not_known_of_any),
    ];
    let choose = Any::Choose {
        screen: CHOICE,
        name: "hide",
        value: (!hide).to_string(),
    };
    let open = columns
        .iter()
        .find_map(|column| page::recording(ui, column.row.id, Some(&column.row.mark)));
    html! {
        div.row.no-print {
            button.chip type="button" role="checkbox" aria-checked=(hide.to_string()) data-press=(ui.press(choose)) {
                @if hide { (icon(Icon::Done)) } (words.customers_view)
            }
            span.below { (words.customers_view_how) }
        }
        div.scroll tabindex="0" role="region" aria-label=(words.side_by_side) {
            table class={ "beside of-" (columns.len()) @if wide { " wide" } } #choice {
                thead { tr { @if wide { td {} } @for column in &columns { (head(ui, column, &columns)) } } }
                tbody { @for line in of(Stands::Differs) { (drawn(ui, line, columns.len())) } }
                @for (stands, heading) in below {
                    @if of(stands).next().is_some() {
                        tbody.alike {
                            tr.name { th colspan=(columns.len() + usize::from(wide)) scope="rowgroup" { (heading) } }
                            @for line in of(stands) { (drawn(ui, line, columns.len())) }
                        }
                    }
                }
                tbody.no-print { tr { @if wide { td {} } @for column in &columns { td.taps { (taps(ui, column)) } } } }
            }
        }
        @if let Some(open) = open { (open) }
        p.below { (words.sections_to_scale) " " (words.stiffness_is_usual) }
    }
}

/// The section, large, and the mark.
fn head(ui: &Ui<'_>, column: &Column<'_>, all: &[Column<'_>]) -> Markup {
    let room = room(all.iter().filter_map(|one| one.row.section.as_ref()));
    let said = row::section_said(ui, column.row.id);
    let (id, mark) = (column.row.id, &column.row.mark);
    html! {
        th scope="col" {
            @match &column.row.section {
                Some(one) => (section(one, room, &said)),
                None => (section_unknown(&said)),
            }
            a.mark href=(Route::Blank(id).address()) data-press=(ui.press(Route::Blank(id))) { (mark) }
        }
    }
}

/// A line: its name before it where there is room, else above it.
fn drawn(ui: &Ui<'_>, line: &Line, columns: usize) -> Markup {
    let cells = line.drawn.iter().enumerate().map(|(at, cell)| {
        let best = line.best.filter(|(best, _)| *best == at);
        html! {
            td {
                (cell)
                @if let Some((_, word)) = best { " " span.best { (icon(Icon::Done)) (word) } }
            }
        }
    });
    html! {
        @if ui.model.shell.wide {
            tr.named { th scope="row" { (line.name) } @for cell in cells { (cell) } }
        } @else {
            tr.name { th colspan=(columns) scope="rowgroup" { (line.name) } }
            tr { @for cell in cells { (cell) } }
        }
    }
}

/// What is known of the blanks, a line each.
fn lines(ui: &Ui<'_>, columns: &[Column<'_>], hide: bool) -> Vec<Line> {
    let words = &ui.w.blanks;
    let text = |name, of: &dyn Fn(&Column<'_>) -> String| {
        let texts: Vec<String> = columns.iter().map(of).collect();
        let drawn = texts.iter().map(|text| html! { (text) }).collect();
        Line {
            name,
            texts,
            drawn,
            known: true,
            best: None,
        }
    };
    let mut lines = vec![text(words.woods_by_place, &|column| {
        woods(ui, column.piece)
    })];
    let figures: Vec<Vec<Figure>> = columns
        .iter()
        .map(|column| {
            let mut all = figures::chosen_by(ui, column.piece, &column.row);
            all.push(figures::age(ui, &column.row));
            if !hide {
                all.push(figures::cost(ui, &column.row));
            }
            all
        })
        .collect();
    for at in 0..figures.first().map_or(0, Vec::len) {
        let of: Vec<&Figure> = figures.iter().filter_map(|all| all.get(at)).collect();
        let name = of.first().map_or("", |one| one.name);
        lines.push(Line {
            name,
            best: best(ui, columns, name),
            texts: of.iter().map(|one| one.text().to_owned()).collect(),
            drawn: of.iter().map(|one| one.drawn(ui)).collect(),
            known: of.iter().any(|one| one.shown.is_ok()),
        });
    }
    lines.push(Line {
        name: words.rest,
        texts: columns
            .iter()
            .map(|column| {
                let due = column.row.rest.as_ref();
                let due = due.map_or_else(String::new, |ready| row::due_beside(ui, ready));
                format!("{} {due}", row::stands(ui, &column.row).1)
            })
            .collect(),
        drawn: columns.iter().map(|column| rest(ui, &column.row)).collect(),
        known: true,
        best: None,
    });
    if columns
        .iter()
        .any(|column| column.row.reserved_for.is_some())
    {
        lines.push(text(words.reservation, &|column| {
            row::reserved_words(ui, &column.row, hide).unwrap_or_else(|| words.free_word.to_owned())
        }));
    }
    if !hide {
        lines.push(text(words.yards, &|column| yards(ui, column.piece)));
        if columns.iter().any(|column| !notes(column.piece).is_empty()) {
            lines.push(text(words.notes, &|column| notes(column.piece)));
        }
    }
    lines
}

/// Which of the blanks is surely the best by a figure, and the word for it. By stiffness none is: it is worked out of
/// what is usual for the woods, and how far that may be off is not known.
fn best(ui: &Ui<'_>, columns: &[Column<'_>], name: &str) -> Option<(usize, &'static str)> {
    let words = &ui.w.blanks;
    let scale = ui.model.settings.instruments.scale_kg;
    // A smaller one is lighter by its size: that says nothing of its wood.
    let first = columns.first().map(|column| column.row.sizes);
    let of_one_size = first.is_some_and(|first| {
        let same = |column: &Column<'_>| column.row.sizes == first;
        first.iter().all(Option::is_some) && columns.iter().all(same)
    });
    let weight = |column: &Column<'_>| {
        let weighed = column.row.kilograms;
        let weighed = weighed.filter(|_| column.row.weighed && of_one_size);
        weighed.map(|kilograms| (kilograms, scale))
    };
    let moved = |column: &Column<'_>| {
        queries::moved_so_far(ui.model.state(), column.piece, mm(FEELER_MM))?.largest_within()
    };
    let of: (Vec<Option<Within>>, &'static str) = match name {
        name if name == words.weight => (columns.iter().map(weight).collect(), words.lightest),
        name if name == words.largest => (columns.iter().map(moved).collect(), words.moved_least),
        _ => return None,
    };
    let (values, word) = of;
    queries::surely_least(&values).map(|at| (at, word))
}

/// Its woods, each with its places from one side: `walnut 2, 4`.
fn woods(ui: &Ui<'_>, piece: &Piece) -> String {
    let Some(section) = queries::section_of(ui.model.state(), piece) else {
        return wood_names::shown(&queries::woods_named(ui.model.state(), piece.id));
    };
    let mut woods: Vec<(&str, Vec<String>)> = Vec::new();
    for (at, one) in section.laminates.iter().enumerate() {
        let place = (at + 1).to_string();
        match woods.iter_mut().find(|(wood, _)| *wood == one.wood) {
            Some((_, places)) => places.push(place),
            None => woods.push((&one.wood, vec![place])),
        }
    }
    let one = |(wood, places): (&str, Vec<String>)| {
        format!("{} {}", wood_names::shown(wood), places.join(", "))
    };
    woods.into_iter().map(one).collect::<Vec<_>>().join("; ")
}

fn rest(ui: &Ui<'_>, row: &Row) -> Markup {
    let (judged, stands) = row::stands(ui, row);
    html! {
        span class=(judged.class()) { (sign(judged)) (stands) }
        @if let Some(ready) = &row.rest { " " span.below { (row::due_beside(ui, ready)) } }
    }
}

/// The yards that its planks came from.
fn yards(ui: &Ui<'_>, piece: &Piece) -> String {
    let state = ui.model.state();
    let mut names: Vec<String> = Vec::new();
    for plank in queries::planks_of(state, piece.id) {
        let visit = state.piece(plank).and_then(|plank| state.visit_of(plank));
        if let Some(visit) = visit
            && !names.contains(&visit.opened.yard)
        {
            names.push(visit.opened.yard.clone());
        }
    }
    names.join(", ")
}

/// What the maker noted of it.
fn notes(piece: &Piece) -> String {
    let texts: Vec<&str> = piece.notes.iter().map(|note| note.text.as_str()).collect();
    texts.join("; ")
}

/// Reserve it, or take it out of the choice.
fn taps(ui: &Ui<'_>, column: &Column<'_>) -> Markup {
    let words = &ui.w.blanks;
    let (id, mark) = (column.row.id, &column.row.mark);
    html! {
        @if !column.row.reserved {
            button.key.main type="button" aria-label=(fill(words.reserve_mark, &[("mark", mark)])) data-press=(ui.press(Action::Open(id, "Reserve"))) {
                (ui.w.command("Reserve"))
            }
        }
        button.key.quiet type="button" aria-label=(fill(words.leave_out_mark, &[("mark", mark)])) data-press=(ui.press(Action::SideBySide(id))) {
            (words.leave_out)
        }
    }
}
