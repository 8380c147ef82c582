//! What the maker has to settle, found in one place. It is reported, never mended: the maker knows more.

use super::worked::worked;
use crate::effect::Effect;
use crate::model::Model;
use crate::tell::{record, say};
use crate::words::{Spoken, Words, count, fill};
use std::rc::Rc;
use stillwood_core::order;
use stillwood_core::record::commands::settle;
use stillwood_core::record::queries;
use stillwood_core::record::{Id, PairOffered, pairs};

/// Something to settle, or something that the record says of itself.
#[derive(Debug, Clone, PartialEq)]
pub struct ToSettle {
    /// It is told from the others by this.
    pub id: &'static str,
    /// Its heading.
    pub name: &'static str,
    /// What it means, and what to do.
    pub meaning: &'static str,
    /// In a line, with its count.
    pub line: String,
    /// How many there are.
    pub count: usize,
    /// It may be as it should: nobody is sent there.
    pub calm: bool,
    /// What there is, with planks to look at; empty where it has cards of its own.
    pub found: Vec<Found>,
}

/// One of what there is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Found {
    /// In words.
    pub text: String,
    /// Planks to look at, by their marks.
    pub planks: Vec<(Id, String)>,
}

/// What may be done.
#[derive(Debug, Clone)]
pub enum Action {
    /// Choose one of the texts of an entry.
    ChooseText(Id, usize),
    /// The chosen one is right.
    SettleText(Id),
    /// Of corrections made apart this one holds: what was corrected, and the correction.
    Holds(Id, Id),
    /// Two planks are one, or two.
    Tell {
        /// The one.
        a: Id,
        /// The other.
        b: Id,
        /// They are one.
        same: bool,
    },
}

/// Planks that may be one, likeliest first.
pub fn pairs_of(model: &Model) -> Rc<Vec<PairOffered>> {
    worked(model, "pairs", &(), || pairs(model.state()))
}

/// How many deletions are in force.
pub fn deletions(model: &Model) -> usize {
    *worked(model, "deletions", &(), || {
        queries::deleted_entries(model.record.log()).len()
    })
}

/// All that is to be settled in the record.
pub fn in_record(model: &Model) -> Rc<Vec<ToSettle>> {
    let offered = pairs_of(model).len();
    worked(model, "settle", &model.settings.language, || {
        look(model, offered)
    })
}

/// All that is to be settled, and what the device's store says.
pub fn found(model: &Model) -> Vec<ToSettle> {
    let words = &model.words().share;
    let mut all: Vec<ToSettle> = in_record(model).to_vec();
    let damaged = &model.shell.storage.damaged;
    let plain = |text: &String| Found {
        text: text.clone(),
        planks: Vec::new(),
    };
    all.push(ToSettle {
        id: "damage",
        name: words.damage,
        meaning: words.damage_means,
        line: count(damaged.len() as u64, words.damage_one, words.damage_other),
        count: damaged.len(),
        calm: false,
        found: damaged.iter().map(plain).collect(),
    });
    all.retain(|one| one.count > 0);
    all
}

fn many(n: usize, one: &str, other: &str) -> String {
    count(n as u64, one, other)
}

fn look(model: &Model, offered: usize) -> Vec<ToSettle> {
    let words = model.words();
    let mut all = apart(model, words, offered);
    all.extend(of_devices(model, words));
    all.extend(listed(model, words));
    all.retain(|one| one.count > 0);
    all
}

/// What was recorded apart and does not fit together: it has cards of its own.
fn apart(model: &Model, words: &Words, offered: usize) -> Vec<ToSettle> {
    let w = &words.share;
    let conflicts = model.record.log().conflicts();
    let conflicts = conflicts.iter().filter(|one| !one.settled).count();
    let disputes = model.state().disputes().len();
    let one = |id, name, meaning, count, line| ToSettle {
        id,
        name,
        meaning,
        line,
        count,
        calm: false,
        found: Vec::new(),
    };
    vec![
        one(
            "conflicts",
            w.conflicts,
            w.conflicts_means,
            conflicts,
            many(conflicts, w.conflicts_one, w.conflicts_other),
        ),
        one(
            "disputes",
            w.disputes,
            w.disputes_means,
            disputes,
            many(disputes, w.disputes_one, w.disputes_other),
        ),
        one(
            "pairs",
            w.pairs,
            w.pairs_means,
            offered,
            many(offered, w.pairs_one, w.pairs_other),
        ),
    ]
}

/// Devices that can't be told apart.
fn of_devices(model: &Model, words: &Words) -> Vec<ToSettle> {
    let (w, state) = (&words.share, model.state());
    let signs: Vec<Found> = queries::shared_signs(state)
        .iter()
        .map(|one| {
            let devices: Vec<&str> = one
                .devices
                .iter()
                .map(|by| queries::device_shown(state, by))
                .collect();
            let text = fill(
                w.shared_sign,
                &[("sign", &one.sign), ("devices", &devices.join("; "))],
            );
            Found {
                text,
                planks: Vec::new(),
            }
        })
        .collect();
    let clones = queries::cloned_devices(state);
    let devices = order::set_of(clones.iter().map(|one| one.by.as_str()));
    let cloned: Vec<Found> = devices
        .into_iter()
        .map(|by| {
            let numbers = clones
                .iter()
                .filter(|one| one.by == by)
                .map(|one| one.seq.to_string());
            let numbers: Vec<String> = numbers.take(SEVERAL).collect();
            let device = queries::device_shown(state, by);
            let text = fill(
                w.cloned_device,
                &[("device", &device), ("numbers", &numbers.join(", "))],
            );
            Found {
                text,
                planks: Vec::new(),
            }
        })
        .collect();
    let one = |id, name, meaning, found: Vec<Found>, line| ToSettle {
        id,
        name,
        meaning,
        line,
        count: found.len(),
        calm: false,
        found,
    };
    vec![
        one(
            "signs",
            w.signs,
            w.signs_means,
            signs.clone(),
            many(signs.len(), w.signs_one, w.signs_other),
        ),
        one(
            "clones",
            w.clones,
            w.clones_means,
            cloned.clone(),
            many(cloned.len(), w.clones_one, w.clones_other),
        ),
    ]
}

/// The id of what two entries say of one piece that can't both be true.
pub const STORIES: &str = "stories";

/// Numbers named of a copied device.
const SEVERAL: usize = 8;

/// What the record shows of its own gaps and damage.
fn listed(model: &Model, words: &Words) -> Vec<ToSettle> {
    let (w, state, log) = (&words.share, model.state(), model.record.log());
    let plain = |text: String| Found {
        text,
        planks: Vec::new(),
    };
    let plank = |id: Id| {
        let piece = state.piece(id)?;
        Some((id, piece.mark.clone()))
    };
    let stories = queries::piece_conflicts(state).iter().map(|one| Found {
        text: one.why.in_words().spoken().to_owned(),
        planks: plank(one.about).into_iter().collect(),
    });
    let stories: Vec<Found> = stories.collect();
    let marks: Vec<Found> = queries::doubled_marks(state)
        .into_iter()
        .map(|doubled| {
            let planks = doubled.pieces.iter().filter_map(|id| {
                let piece = state.piece(*id)?;
                Some((
                    *id,
                    format!("{}, {}", piece.mark, model.day(piece.recorded.on)),
                ))
            });
            Found {
                text: doubled.mark,
                planks: planks.collect(),
            }
        })
        .collect();
    let numbering = log.damaged_numbering().into_iter().map(|entry| {
        let device = queries::device_shown(state, &entry.by);
        plain(fill(
            w.number_of,
            &[
                ("device", &device),
                ("n", &entry.seq),
                ("day", &model.day(entry.on)),
                ("about", &model.words().about(model.state(), entry.about)),
            ],
        ))
    });
    let numbering: Vec<Found> = numbering.collect();
    let newer = state.newer().len();
    let orphans = queries::orphans(state).into_iter().map(|orphan| {
        let entries = many(orphan.entries.len(), w.waits_one, w.waits_other);
        plain(entries)
    });
    let orphans: Vec<Found> = orphans.collect();
    let gaps = queries::missing_runs(state).into_iter().map(|run| {
        let device = queries::device_shown(state, &run.by);
        plain(match run.from == run.to {
            true => fill(w.gap_number, &[("device", &device), ("n", &run.from)]),
            false => fill(
                w.gap_numbers,
                &[("device", &device), ("from", &run.from), ("to", &run.to)],
            ),
        })
    });
    let gaps: Vec<Found> = gaps.collect();
    let one = |id, name, meaning, found: Vec<Found>, one: &str, other: &str, calm| ToSettle {
        id,
        name,
        meaning,
        line: many(found.len(), one, other),
        count: found.len(),
        calm,
        found,
    };
    let newer_found = if newer == 0 {
        Vec::new()
    } else {
        vec![plain(many(newer, w.entries_one, w.entries_other))]
    };
    vec![
        one(
            STORIES,
            w.stories,
            w.stories_means,
            stories,
            w.stories_one,
            w.stories_other,
            false,
        ),
        one(
            "marks",
            w.marks,
            w.marks_means,
            marks,
            w.marks_one,
            w.marks_other,
            false,
        ),
        one(
            "numbering",
            w.numbering,
            w.numbering_means,
            numbering,
            w.numbering_one,
            w.numbering_other,
            false,
        ),
        one(
            "newer",
            w.newer,
            w.newer_means,
            newer_found,
            w.newer_line,
            w.newer_line,
            true,
        ),
        one(
            "orphans",
            w.orphans,
            w.orphans_means,
            orphans,
            w.orphans_one,
            w.orphans_other,
            false,
        ),
        one(
            "gaps",
            w.gaps,
            w.gaps_means,
            gaps,
            w.gaps_one,
            w.gaps_other,
            true,
        ),
    ]
}

/// What an action does.
pub fn update(model: &mut Model, action: Action) -> Vec<Effect> {
    let words = &model.words().share;
    match action {
        Action::ChooseText(id, at) => {
            model.book.chosen_text.retain(|(of, _)| *of != id);
            model.book.chosen_text.push((id, at));
            Vec::new()
        }
        Action::SettleText(id) => {
            let chosen = chosen_text(model, id);
            match settle::conflict(model.record.log(), id, chosen) {
                Some(filled) => record(filled.events, words.settled.to_owned()),
                None => say(model, words.text_gone),
            }
        }
        Action::Holds(of, chosen) => {
            match settle::dispute(model.state(), model.record.log(), of, chosen) {
                Some(filled) => record(filled.events, words.settled.to_owned()),
                None => say(model, words.text_gone),
            }
        }
        Action::Tell { a, b, same } => {
            let mark = |id| {
                model
                    .state()
                    .piece(id)
                    .map_or("", |piece| piece.mark.as_str())
            };
            let said = if same {
                words.told_same
            } else {
                words.told_different
            };
            let said = fill(said, &[("a", &mark(a)), ("b", &mark(b))]);
            record(settle::pair(a, b, same).events, said)
        }
    }
}

/// Which text of an entry is chosen; the one in force until another is.
pub fn chosen_text(model: &Model, id: Id) -> usize {
    let chosen = model.book.chosen_text.iter().find(|(of, _)| *of == id);
    chosen.map_or(0, |(_, at)| *at)
}
