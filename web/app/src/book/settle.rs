//! What the maker has to settle, found in one place. It is reported, never mended: the maker knows more.

use super::worked::worked;
use crate::effect::Effect;
use crate::model::Model;
use crate::tell::{record, say};
use crate::words::{Spoken, count, fill};
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
    let mut all: Vec<ToSettle> = in_record(model).to_vec();
    all.push(damage(model));
    all.retain(|one| one.count > 0);
    all
}

fn look(model: &Model, offered: usize) -> Vec<ToSettle> {
    let mut all = vec![
        conflicts(model),
        disputes(model),
        pairs_offered(model, offered),
        shared_signs(model),
        cloned_devices(model),
        stories(model),
        doubled_marks(model),
        damaged_numbering(model),
        newer_entries(model),
        orphans(model),
        gaps(model),
    ];
    all.retain(|one| one.count > 0);
    all
}

/// A kind of what is to be settled, in words.
struct Kind {
    id: &'static str,
    name: &'static str,
    meaning: &'static str,
    /// The line where there is one.
    one: &'static str,
    /// The line where there are several.
    other: &'static str,
}

impl Kind {
    /// So many, which have cards of their own.
    fn counted(self, n: usize) -> ToSettle {
        ToSettle {
            id: self.id,
            name: self.name,
            meaning: self.meaning,
            line: many(n, self.one, self.other),
            count: n,
            calm: false,
            found: Vec::new(),
        }
    }

    /// These.
    fn listed(self, found: Vec<Found>) -> ToSettle {
        ToSettle {
            found: found.clone(),
            ..self.counted(found.len())
        }
    }

    /// These, which may be as they should.
    fn calm(self, found: Vec<Found>) -> ToSettle {
        ToSettle {
            calm: true,
            ..self.listed(found)
        }
    }
}

impl Found {
    /// Of no plank.
    fn plain(text: String) -> Self {
        Self {
            text,
            planks: Vec::new(),
        }
    }
}

fn many(n: usize, one: &str, other: &str) -> String {
    count(n as u64, one, other)
}

/// What of the store can't be read.
fn damage(model: &Model) -> ToSettle {
    let words = &model.words().share;
    let damaged = model.shell.storage.damaged.iter();
    let kind = Kind {
        id: "damage",
        name: words.damage,
        meaning: words.damage_means,
        one: words.damage_one,
        other: words.damage_other,
    };
    kind.listed(damaged.cloned().map(Found::plain).collect())
}

/// Entries of which there are several texts.
fn conflicts(model: &Model) -> ToSettle {
    let words = &model.words().share;
    let all = model.record.log().conflicts();
    let kind = Kind {
        id: "conflicts",
        name: words.conflicts,
        meaning: words.conflicts_means,
        one: words.conflicts_one,
        other: words.conflicts_other,
    };
    kind.counted(all.iter().filter(|one| !one.settled).count())
}

/// Entries that were corrected apart.
fn disputes(model: &Model) -> ToSettle {
    let words = &model.words().share;
    let kind = Kind {
        id: "disputes",
        name: words.disputes,
        meaning: words.disputes_means,
        one: words.disputes_one,
        other: words.disputes_other,
    };
    kind.counted(model.state().disputes().len())
}

/// Planks that may be one.
fn pairs_offered(model: &Model, offered: usize) -> ToSettle {
    let words = &model.words().share;
    let kind = Kind {
        id: "pairs",
        name: words.pairs,
        meaning: words.pairs_means,
        one: words.pairs_one,
        other: words.pairs_other,
    };
    kind.counted(offered)
}

/// Devices that begin their marks alike.
fn shared_signs(model: &Model) -> ToSettle {
    let (words, state) = (&model.words().share, model.state());
    let shared = queries::shared_signs(state);
    let found = shared.iter().map(|one| {
        let devices = one.devices.iter();
        let devices: Vec<&str> = devices.map(|by| queries::device_shown(state, by)).collect();
        Found::plain(fill(
            words.shared_sign,
            &[("sign", &one.sign), ("devices", &devices.join("; "))],
        ))
    });
    let kind = Kind {
        id: "signs",
        name: words.signs,
        meaning: words.signs_means,
        one: words.signs_one,
        other: words.signs_other,
    };
    kind.listed(found.collect())
}

/// Numbers named of a copied device.
const SEVERAL: usize = 8;

/// Devices that write under one name.
fn cloned_devices(model: &Model) -> ToSettle {
    let (words, state) = (&model.words().share, model.state());
    let clones = queries::cloned_devices(state);
    let devices = order::set_of(clones.iter().map(|one| one.by.as_str()));
    let found = devices.into_iter().map(|by| {
        let of_device = clones.iter().filter(|one| one.by == by);
        let numbers = of_device.map(|one| one.seq.to_string()).take(SEVERAL);
        let numbers: Vec<String> = numbers.collect();
        let device = queries::device_shown(state, by);
        Found::plain(fill(
            words.cloned_device,
            &[("device", &device), ("numbers", &numbers.join(", "))],
        ))
    });
    let kind = Kind {
        id: "clones",
        name: words.clones,
        meaning: words.clones_means,
        one: words.clones_one,
        other: words.clones_other,
    };
    kind.listed(found.collect())
}

/// The id of what two entries say of one piece that can't both be true.
pub const STORIES: &str = "stories";

/// Pieces of which two entries can't both be true.
fn stories(model: &Model) -> ToSettle {
    let (words, state) = (&model.words().share, model.state());
    let all = queries::piece_conflicts(state);
    let found = all.iter().map(|one| Found {
        text: one.why.in_words().spoken().to_owned(),
        planks: state
            .piece(one.about)
            .map(|piece| (one.about, piece.mark.clone()))
            .into_iter()
            .collect(),
    });
    let kind = Kind {
        id: STORIES,
        name: words.stories,
        meaning: words.stories_means,
        one: words.stories_one,
        other: words.stories_other,
    };
    kind.listed(found.collect())
}

/// Marks that stand on several pieces.
fn doubled_marks(model: &Model) -> ToSettle {
    let (words, state) = (&model.words().share, model.state());
    let found = queries::doubled_marks(state).into_iter().map(|doubled| {
        let planks = doubled.pieces.iter().filter_map(|id| {
            let piece = state.piece(*id)?;
            let on = model.day(piece.recorded.on);
            Some((*id, format!("{}, {on}", piece.mark)))
        });
        Found {
            planks: planks.collect(),
            text: doubled.mark,
        }
    });
    let kind = Kind {
        id: "marks",
        name: words.marks,
        meaning: words.marks_means,
        one: words.marks_one,
        other: words.marks_other,
    };
    kind.listed(found.collect())
}

/// Entries whose number or day no shop reaches.
fn damaged_numbering(model: &Model) -> ToSettle {
    let (words, state) = (&model.words().share, model.state());
    let damaged = model.record.log().damaged_numbering().into_iter();
    let found = damaged.map(|entry| {
        Found::plain(fill(
            words.number_of,
            &[
                ("device", &queries::device_shown(state, &entry.by)),
                ("n", &entry.seq),
                ("day", &model.day(entry.on)),
                ("about", &model.words().about(state, entry.about)),
            ],
        ))
    });
    let kind = Kind {
        id: "numbering",
        name: words.numbering,
        meaning: words.numbering_means,
        one: words.numbering_one,
        other: words.numbering_other,
    };
    kind.listed(found.collect())
}

/// Entries of a newer version: one line for all of them.
fn newer_entries(model: &Model) -> ToSettle {
    let words = &model.words().share;
    let n = model.state().newer().len();
    let entries = many(n, words.entries_one, words.entries_other);
    let kind = Kind {
        id: "newer",
        name: words.newer,
        meaning: words.newer_means,
        one: words.newer_line,
        other: words.newer_line,
    };
    kind.calm((n > 0).then(|| Found::plain(entries)).into_iter().collect())
}

/// Entries that wait for the beginning of what they are about.
fn orphans(model: &Model) -> ToSettle {
    let words = &model.words().share;
    let found = queries::orphans(model.state()).into_iter().map(|orphan| {
        let entries = orphan.entries.len();
        Found::plain(many(entries, words.waits_one, words.waits_other))
    });
    let kind = Kind {
        id: "orphans",
        name: words.orphans,
        meaning: words.orphans_means,
        one: words.orphans_one,
        other: words.orphans_other,
    };
    kind.listed(found.collect())
}

/// Entries of a device that are not here.
fn gaps(model: &Model) -> ToSettle {
    let (words, state) = (&model.words().share, model.state());
    let found = queries::missing_runs(state).into_iter().map(|run| {
        let device = queries::device_shown(state, &run.by);
        Found::plain(match run.from == run.to {
            true => fill(words.gap_number, &[("device", &device), ("n", &run.from)]),
            false => fill(
                words.gap_numbers,
                &[("device", &device), ("from", &run.from), ("to", &run.to)],
            ),
        })
    });
    let kind = Kind {
        id: "gaps",
        name: words.gaps,
        meaning: words.gaps_means,
        one: words.gaps_one,
        other: words.gaps_other,
    };
    kind.calm(found.collect())
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
