//! The list of planks: worked out once for a state of the record, sorted and filtered, with a plank chosen in it.

pub use super::table_choice::{Action, under};
use super::table_choice::{screen, shown};
use super::table_work;
use crate::effect::{Effect, FileMade};
use crate::model::Model;
use crate::route::Route;
use crate::tell::{choose as choose_shown, say};
use crate::words::{Spoken, called, in_table_file, spoken_whole};
use serde::Serialize;
use std::cell::RefCell;
use std::collections::BTreeSet;
use std::rc::Rc;
use stillwood_core::order;
use stillwood_core::plank::Reason;
use stillwood_core::quantity::float_of;
use stillwood_core::record::{
    Column, Decision, Filter, Id, PlankRow, Table, date, queries, sort_rows, table_rows,
};
use stillwood_core::verdict::Recommendation;

/// The rows that are drawn before it is known how many are in view: enough for a tall screen.
const DRAWN_AT_FIRST: usize = 80;
/// The view moves by so many rows before others are drawn.
const STEP: usize = 10;
/// So many rows are drawn further below the view, for a frame that shows the list before it is drawn anew.
const AHEAD: usize = 5;
/// The first row that is drawn where a row is the first in view.
fn drawn_from(first_in_view: usize) -> usize {
    (first_in_view / STEP * STEP).saturating_sub(STEP)
}

/// The height of a row on a wide screen and on a phone; the style sheet has the same.
pub const ROW: [usize; 2] = [40, 72];

/// The order of recommendations in the filter.
pub const CALLS: [Recommendation; 5] = [
    Recommendation::Good,
    Recommendation::GoodSoFar,
    Recommendation::TooClose,
    Recommendation::Refused,
    Recommendation::NothingYet,
];

/// What only the list knows.
#[derive(Debug, Default)]
pub struct Local {
    /// The plank that is shown beside the list.
    pub chosen: Option<Id>,
    /// The first row that is drawn.
    pub first: usize,
    /// How many rows are in view; none before that is known.
    in_view: Option<usize>,
    pub(super) work: table_work::Work,
    picked: RefCell<Option<Picked>>,
    there_is: RefCell<Option<(Rc<Table>, Rc<ThereIs>)>>,
}

impl Local {
    /// Whether other rows are to be drawn where this one is the first in view, of so many.
    pub fn changes_with(&self, first: usize, in_view: usize) -> bool {
        self.first != drawn_from(first) || self.in_view != Some(in_view)
    }

    /// How many rows are drawn: those in view, a step before them and one below.
    pub(super) fn drawn(&self) -> usize {
        let near = |in_view| in_view + 2 * STEP + AHEAD;
        self.in_view.map_or(DRAWN_AT_FIRST, near)
    }

    /// The order of the rows is worked out anew when it is next asked for.
    pub(super) fn forget_order(&self) {
        self.picked.take();
    }
}

/// What the rows can be filtered by: what there is among them, and how many planks of each decision.
#[derive(Debug)]
pub struct ThereIs {
    pub yards: Vec<String>,
    pub woods: Vec<String>,
    pub reasons: BTreeSet<Reason>,
    decided: Vec<(Option<Decision>, usize)>,
}

impl ThereIs {
    pub(super) fn of(rows: &[PlankRow]) -> Self {
        let names = |of: fn(&PlankRow) -> &str| -> Vec<String> {
            let names = order::set_of(rows.iter().map(of).filter(|name| !name.is_empty()));
            names.into_iter().map(str::to_owned).collect()
        };
        let mut decided: Vec<(Option<Decision>, usize)> = Vec::new();
        for row in rows {
            match decided.iter_mut().find(|(one, _)| *one == row.decision) {
                Some((_, planks)) => *planks += 1,
                None => decided.push((row.decision, 1)),
            }
        }
        Self {
            yards: names(|row| &row.yard),
            woods: names(|row| &row.species),
            reasons: order::set_of(rows.iter().flat_map(|row| row.reasons.iter().copied())),
            decided,
        }
    }

    /// How many planks are so decided; none is all.
    pub fn planks(&self, wanted: Option<Option<Decision>>) -> usize {
        let fits = |one: &Option<Decision>| wanted.is_none_or(|wanted| *one == wanted);
        let planks = self.decided.iter().filter(|(one, _)| fits(one));
        planks.map(|(_, planks)| planks).sum()
    }
}

/// What the rows can be filtered by. Of all planks it is kept until the rows change.
pub fn there_is(model: &Model, rows: &Rows) -> Rc<ThereIs> {
    let Rows::All(table) = rows else {
        return Rc::new(ThereIs::of(rows.rows()));
    };
    let mut kept = model.yard.table.there_is.borrow_mut();
    if let Some((of, known)) = kept.as_ref()
        && Rc::ptr_eq(of, table)
    {
        return Rc::clone(known);
    }
    let found = Rc::new(ThereIs::of(rows.rows()));
    *kept = Some((Rc::clone(table), Rc::clone(&found)));
    found
}

/// The places of the rows that were wanted, in order, and of what.
#[derive(Debug)]
struct Picked {
    table: Rc<Table>,
    filter: Filter,
    order: Option<(Column, bool)>,
    places: Vec<usize>,
}

fn choose(model: &mut Model, name: &'static str, what: &impl Serialize) -> Vec<Effect> {
    let screen = screen(model);
    model.yard.table.first = 0;
    match serde_json::to_string(what) {
        Ok(value) => choose_shown(model, screen, name, value),
        Err(why) => say(model, why.spoken()),
    }
}

/// What is filtered.
pub fn filter(model: &Model) -> Filter {
    shown(model, "filter").unwrap_or_default()
}

/// The column that sorts, and whether its greatest comes first; none on a visit whose own order holds, as it does in
/// a narrow window, where nothing on a visit's screen sorts.
pub fn order(model: &Model) -> Option<(Column, bool)> {
    match model.route {
        Route::Planks => shown(model, "order").or(Some((Column::Score, true))),
        _ if model.shell.wide => shown(model, "order"),
        _ => None,
    }
}

/// The columns that are shown on a wide screen.
pub fn columns(model: &Model) -> Vec<Column> {
    shown(model, "columns").unwrap_or_else(|| {
        vec![
            Column::Species,
            Column::Size,
            Column::Weight,
            Column::Score,
            Column::Weakest,
            Column::Decision,
        ]
    })
}

/// What a spec is called: its name ends with the day of its visit where it is that of one.
pub fn spec_shown(model: &Model, name: &str) -> String {
    match name.rsplit_once(' ') {
        Some((rest, day)) if date(day).is_some() => format!("{rest} {}", model.day_kept(day)),
        _ => spoken_whole(name),
    }
}

/// The rows that are wanted, in order. Of all planks the order is kept until the rows, the filter or the order change.
pub fn picked<'a>(model: &Model, rows: &'a Rows) -> Vec<&'a PlankRow> {
    let (filter, order) = (filter(model), order(model));
    let sorted = || {
        let mut picked = filter.of_called(rows.rows(), &called);
        if let Some((column, falls)) = order {
            sort_rows(&mut picked, column, falls);
        }
        picked
    };
    let Rows::All(table) = rows else {
        return sorted();
    };
    let mut kept = model.yard.table.picked.borrow_mut();
    if let Some(known) = kept.as_ref()
        && Rc::ptr_eq(&known.table, table)
        && (&known.filter, known.order) == (&filter, order)
    {
        let places = known.places.iter();
        return places.filter_map(|at| rows.rows().get(*at)).collect();
    }
    let found = sorted();
    // The rows stand in the order of the planks' ids.
    let place = |row: &&PlankRow| {
        table
            .rows()
            .binary_search_by_key(&row.piece, |one| one.piece)
    };
    *kept = Some(Picked {
        places: found.iter().filter_map(|row| place(row).ok()).collect(),
        table: Rc::clone(table),
        filter,
        order,
    });
    found
}

/// The rows of a screen, before anything is filtered.
pub enum Rows {
    /// All planks.
    All(Rc<Table>),
    /// Those of a visit, in the order of their worth.
    OfVisit(Vec<PlankRow>),
    /// Those of a long record, while they are worked out: so many planks are, of so many.
    UnderWay(usize, usize),
}

impl Rows {
    /// Of the screen that is shown.
    pub fn of(model: &Model) -> Self {
        match model.route {
            Route::Visit(id) => Rows::OfVisit(queries::ranked(
                model.state(),
                id,
                &model.settings.instruments,
            )),
            _ => match table_work::table(model) {
                Some(table) => Rows::All(table),
                None => {
                    let (done, of) = table_work::progress(model);
                    Rows::UnderWay(done, of)
                }
            },
        }
    }

    /// The rows.
    pub fn rows(&self) -> &[PlankRow] {
        match self {
            Rows::All(table) => table.rows(),
            Rows::OfVisit(rows) => rows,
            Rows::UnderWay(..) => &[],
        }
    }
}

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    match action {
        Action::Scrolled(first) => {
            model.yard.table.first = drawn_from(first);
            Vec::new()
        }
        Action::InView(first, in_view) => {
            model.yard.table.first = drawn_from(first);
            model.yard.table.in_view = Some(in_view);
            Vec::new()
        }
        Action::Choose(id) => {
            if !model.shell.wide {
                return vec![Effect::Go(Route::Plank(id))];
            }
            model.yard.table.chosen = Some(id);
            Vec::new()
        }
        Action::Sort(column) => {
            let first = (column, column.falls_first());
            let turned = (column, !column.falls_first());
            let order = match order(model) {
                Some(now) if now == first => Some(turned),
                // On a visit a third press goes back to its own order.
                Some(now) if now == turned && matches!(model.route, Route::Visit(_)) => None,
                _ => Some(first),
            };
            choose(model, "order", &order)
        }
        Action::Decided(decision) => {
            let filter = Filter {
                decision,
                ..filter(model)
            };
            choose(model, "filter", &filter)
        }
        Action::Column(column) => {
            let mut shown = columns(model);
            match shown.iter().position(|one| *one == column) {
                Some(at) => drop(shown.remove(at)),
                None => shown.push(column),
            }
            order::sort_by_key(&mut shown, |column| {
                Column::ALL.iter().position(|one| one == column)
            });
            choose(model, "columns", &shown)
        }
        Action::WorkOn => {
            table_work::work_on(model);
            Vec::new()
        }
        Action::Clear => choose(model, "filter", &Filter::default()),
        Action::SaveCsv => save_csv(model),
    }
}

fn save_csv(model: &mut Model) -> Vec<Effect> {
    let rows = Rows::of(model);
    if matches!(rows, Rows::UnderWay(..)) {
        return Vec::new();
    }
    let picked = picked(model, &rows);
    let text = queries::to_csv(table_rows(picked, &in_table_file));
    let file = FileMade::table_of_planks(&model.now.day, &text);
    vec![Effect::Download(file)]
}

/// Something typed or chosen in one of its fields.
pub fn typed(model: &mut Model, name: &str, text: String) -> Vec<Effect> {
    let mut filter = filter(model);
    let some = (!text.is_empty()).then(|| text.clone());
    match name {
        "search" => filter.text = text,
        "by-yard" => filter.yard = some,
        "by-wood" => filter.species = some,
        "by-verdict" => {
            filter.recommendation = text
                .parse::<usize>()
                .ok()
                .and_then(|at| CALLS.get(at).copied())
        }
        "by-reason" => {
            filter.reason = text
                .parse::<usize>()
                .ok()
                .and_then(|at| Reason::ALL.get(at).copied())
        }
        "least-score" => filter.least_score = float_of(&text.trim().replace(',', ".")),
        "judged-by" => return choose(model, "under", &text),
        "sort-by" => {
            let column = text
                .parse::<usize>()
                .ok()
                .and_then(|at| Column::ALL.get(at).copied());
            return column.map_or_else(Vec::new, |column| {
                choose(model, "order", &(column, column.falls_first()))
            });
        }
        _ => return Vec::new(),
    }
    choose(model, "filter", &filter)
}

/// Keys of a keyboard: up and down through the list, Enter opens the sheet.
pub fn key(model: &mut Model, key: &str) -> Vec<Effect> {
    if !model.shell.wide {
        return Vec::new();
    }
    let rows = Rows::of(model);
    let picked = picked(model, &rows);
    let beside = beside(model, &picked);
    let picked: Vec<Id> = picked.into_iter().map(|row| row.piece).collect();
    let now = picked.iter().position(|id| Some(*id) == beside);
    let to = match (key, now) {
        ("ArrowDown", Some(at)) => at + 1,
        ("ArrowUp", Some(at)) => at.saturating_sub(1),
        ("Enter", Some(at)) => {
            return picked
                .get(at)
                .map_or_else(Vec::new, |id| vec![Effect::Go(Route::Plank(*id))]);
        }
        _ => return Vec::new(),
    };
    let Some(id) = picked.get(to) else {
        return Vec::new();
    };
    let local = &mut model.yard.table;
    local.chosen = Some(*id);
    if !(local.first..local.first + local.drawn()).contains(&to) {
        local.first = drawn_from(to);
    }
    vec![Effect::ScrollTo("chosen-row".to_owned())]
}

/// The plank that is shown beside the list: the one chosen, else the first.
pub fn beside(model: &Model, picked: &[&PlankRow]) -> Option<Id> {
    let chosen = model.yard.table.chosen;
    let listed = chosen.filter(|id| picked.iter().any(|row| row.piece == *id));
    listed.or_else(|| picked.first().map(|row| row.piece))
}
