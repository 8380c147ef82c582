//! What visits, piles and planks are called, and a day.

use crate::model::Model;
use crate::words::{count, dates, fill, spoken_whole, wood_names};
use chrono::NaiveDate;
use stillwood_core::record::{Deletion, Id, Pile, State, Visit};
use stillwood_core::verdict::Spec;

/// What can be deleted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Deletable {
    /// A visit with all that was recorded on it.
    Visit(Id),
    /// A pile with its planks.
    Pile(Id),
    /// A plank.
    Plank(Id),
}

impl Deletable {
    /// What an id is of.
    pub fn of(state: &State, id: Id) -> Self {
        match (state.visit(id), state.pile(id)) {
            (Some(_), _) => Deletable::Visit(id),
            (None, Some(_)) => Deletable::Pile(id),
            (None, None) => Deletable::Plank(id),
        }
    }

    /// Its id.
    pub fn id(self) -> Id {
        match self {
            Deletable::Visit(id) | Deletable::Pile(id) | Deletable::Plank(id) => id,
        }
    }
}

/// A visit, unless it was deleted: no screen of it stands then, also not behind Back.
pub fn visit_here(model: &Model, id: Id) -> Option<&Visit> {
    model.state().visit(id).filter(|visit| !visit.withdrawn)
}

/// A pile, unless it or its visit was deleted.
pub fn pile_here(model: &Model, id: Id) -> Option<&Pile> {
    model.state().pile(id).filter(|pile| !pile.withdrawn)
}

/// How much goes or went with something that is deleted, in words.
pub fn how_much(model: &Model, what: Deletable, deletion: &Deletion) -> String {
    let (words, common) = (&model.words().planks, &model.words().common);
    let mut parts = Vec::new();
    let mut add = |n: u64, one: &'static str, other: &'static str| {
        if n > 0 {
            parts.push(count(n, one, other));
        }
    };
    if matches!(what, Deletable::Visit(_)) {
        add(
            deletion.piles.len() as u64,
            words.piles_one,
            words.piles_other,
        );
    }
    if !matches!(what, Deletable::Plank(_)) {
        add(
            deletion.planks.len() as u64,
            common.planks_one,
            common.planks_other,
        );
        add(
            deletion.left_in_sort,
            words.sorted_out_one,
            words.sorted_out_other,
        );
    }
    add(
        deletion.made_of_them.len() as u64,
        words.made_of_them_one,
        words.made_of_them_other,
    );
    parts.join(", ")
}

/// What something that can be deleted is called.
pub fn name_of(model: &Model, what: Deletable) -> String {
    let (state, words) = (model.state(), &model.words().planks);
    match what {
        Deletable::Visit(id) => {
            let visit = state.visit(id);
            let yard = visit.map_or("", |visit| &visit.opened.yard);
            let day = visit
                .map(|visit| day_of(model, visit.recorded.on))
                .unwrap_or_default();
            fill(words.the_visit, &[("yard", &yard), ("day", &day)])
        }
        Deletable::Pile(id) => {
            let title = state.pile(id).map(pile_title).unwrap_or_default();
            fill(words.the_pile, &[("pile", &title)])
        }
        Deletable::Plank(id) => {
            let mark = state.piece(id).map_or("", |piece| &piece.mark);
            fill(words.the_plank, &[("mark", &mark)])
        }
    }
}

/// A pile in a line.
pub fn pile_title(pile: &Pile) -> String {
    let opened = &pile.opened;
    let name = if opened.name.is_empty() {
        wood_names::shown(&opened.species.text)
    } else {
        opened.name.clone()
    };
    match &opened.nominal_thickness {
        Some(thickness) => format!("{name}, {}", thickness.typed),
        None => name,
    }
}

/// What specs are called, each so that it is told from the others: where a name occurs twice, with the last visit that
/// wanted it.
pub fn spec_names(model: &Model, specs: &[Spec]) -> Vec<String> {
    let is_twice = |name: &str| specs.iter().filter(|spec| spec.name == name).count() > 1;
    let one = |spec: &Spec| {
        let name = spoken_whole(&spec.name);
        let visits = model.state().visits();
        let of_it = visits.filter(|visit| is_twice(&spec.name) && visit.opened.spec == *spec);
        match of_it.max_by_key(|visit| (visit.recorded.on, visit.id)) {
            Some(visit) => {
                let day = dates::with_year(model.words(), visit.recorded.on);
                format!("{name}, {} {day}", visit.opened.yard)
            }
            None => name,
        }
    };
    specs.iter().map(one).collect()
}

/// A day, with its year where that is not the one of today.
pub fn day_of(model: &Model, on: NaiveDate) -> String {
    dates::day(model.words(), on, model.now.date())
}
