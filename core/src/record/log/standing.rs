//! Which entries are in force: corrections, corrections of corrections, what was taken back, and
//! corrections made apart.
//!
//! A correction counts only if it comes after what it corrects in the order of the entries, so nothing can
//! go round in a circle. Taking a correction back puts what it had replaced in force again. Where two
//! corrections were made apart, the later in the order of the entries is in force by rule, and the
//! dispute stays open until an entry replaces both. Of what an entry says this looks at little: whether it is
//! a withdrawal, what an undone import brought, and, of entries of before checksums, whether two say the same.

use crate::order;
use crate::record::log::FIRST_WITH_CHECKSUM;
use crate::record::log::id::Id;
use crate::record::log::{Entry, Event};
use std::collections::{BTreeMap, BTreeSet};

/// How an entry stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EventStatus {
    InForce,
    /// A later entry says it better.
    Replaced {
        /// The entry that counts in its place.
        by: Id,
    },
    TakenBack {
        by: Id,
    },
    /// The import that brought it was undone.
    Undone {
        /// The entry that says so.
        by: Id,
    },
    /// It corrects what another entry corrects as well, and the other is in force by rule.
    Outvoted {
        /// The entry in force.
        by: Id,
    },
}

/// Corrections of one entry that were made apart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Dispute {
    pub about: Id,
    /// The entry that was corrected more than once.
    pub of: Id,
    /// The corrections, in the order of the entries; the last is in force.
    pub candidates: Vec<Id>,
}

impl Dispute {
    /// The correction that is in force until the maker settles it.
    pub fn in_force(&self) -> Option<Id> {
        self.candidates.last().copied()
    }

    /// What to write down so that the chosen correction is in force and the dispute is settled: what
    /// happens, and what it replaces. `None` where the chosen entry is no candidate.
    ///
    /// A correction is said again in place of all of them. A taking back is not: said in place of
    /// another taking back it would undo that, so the other corrections are taken back instead.
    pub fn settle(&self, chosen: &Entry) -> Option<(Event, Vec<Id>)> {
        if !self.candidates.contains(&chosen.id) {
            return None;
        }
        let event = chosen.event.clone();
        let replaced = match event {
            Event::Withdrawn(_) => {
                let others = self.candidates.iter().copied();
                others.filter(|id| *id != chosen.id).collect()
            }
            _ => self.candidates.clone(),
        };
        Some((event, replaced))
    }
}

/// How all entries of a record stand; what is not listed is in force.
#[derive(Debug, Default)]
pub(crate) struct EventStatuses {
    listed: BTreeMap<Id, EventStatus>,
    pub(crate) disputes: Vec<Dispute>,
}

impl EventStatuses {
    pub(crate) fn of(&self, id: Id) -> EventStatus {
        self.listed
            .get(&id)
            .copied()
            .unwrap_or(EventStatus::InForce)
    }

    /// Entries whose import was undone, with the entry that says so.
    pub(crate) fn undone(&self) -> impl Iterator<Item = (Id, Id)> {
        self.listed
            .iter()
            .filter_map(|(id, standing)| match standing {
                EventStatus::Undone { by } => Some((*id, *by)),
                _ => None,
            })
    }

    /// From the entries in the order of the entries.
    pub(crate) fn settle(ordered: &[&Entry]) -> Self {
        let mut standings = Self::default();
        let edges = Edges::of(ordered);
        let copies = copies(ordered, &edges);
        if edges.is_empty() && copies.is_empty() {
            return standings;
        }
        // Last to first: what takes an entry out of force is settled before it. Of all that an entry leads
        // to only the first and the last are kept: the last wins, and where they differ it is disputed.
        let mut ends: BTreeMap<usize, (usize, usize)> = BTreeMap::new();
        let mut gone = order::set_of(copies.keys().copied());
        for (copy, right) in copies {
            let by = ordered[right].id;
            standings
                .listed
                .insert(ordered[copy].id, EventStatus::Replaced { by });
        }
        let mut undone: BTreeMap<usize, usize> = BTreeMap::new();
        let mut forked = Vec::new();
        for target in edges.places() {
            let entry = ordered[target];
            if standings.listed.contains_key(&entry.id) {
                continue;
            }
            if let Some(&by) = undone.get(&target) {
                gone.insert(target);
                let by = ordered[by].id;
                standings
                    .listed
                    .insert(entry.id, EventStatus::Undone { by });
                continue;
            }
            let by = edges.replacing(target).filter(|by| !gone.contains(by));
            let led = by.map(|by| ends.get(&by).copied().unwrap_or((by, by)));
            let Some((first, last)) = led.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1))) else {
                for brought in edges.undoing(target) {
                    undone.entry(brought).or_insert(target);
                }
                continue;
            };
            if first != last {
                forked.push(target);
            }
            let by = ordered[last].id;
            let standing = if matches!(ordered[last].event, Event::Withdrawn(_)) {
                gone.insert(target);
                EventStatus::TakenBack { by }
            } else {
                EventStatus::Replaced { by }
            };
            standings.listed.insert(entry.id, standing);
            ends.insert(target, (first, last));
        }
        forked.reverse();
        for (of, candidates) in edges.disputes(&forked, &gone) {
            standings.dispute(ordered, ordered[of], &candidates);
        }
        standings
    }

    fn dispute(&mut self, ordered: &[&Entry], entry: &Entry, reached: &BTreeSet<usize>) {
        let candidates: Vec<Id> = reached.iter().map(|index| ordered[*index].id).collect();
        let Some((&by, losers)) = candidates.split_last() else {
            return;
        };
        for loser in losers {
            self.listed
                .entry(*loser)
                .or_insert(EventStatus::Outvoted { by });
        }
        self.disputes.push(Dispute {
            about: entry.about,
            of: entry.id,
            candidates,
        });
    }
}

/// Entries of before checksums that say the same as another, under the same number of the same device, and
/// differ in nothing but their id: a copy whose id is damaged. The one that others name is right, else the
/// first. By their places, with the place of the right one.
fn copies(ordered: &[&Entry], edges: &Edges) -> BTreeMap<usize, usize> {
    let mut found = BTreeMap::new();
    let mut start = 0;
    for one_step in ordered.chunk_by(|a, b| a.step == b.step) {
        let places: Vec<usize> = (start..start + one_step.len()).collect();
        start += one_step.len();
        if places.len() < 2 {
            continue;
        }
        let mut by_words: BTreeMap<(&str, u64, Id, &str, &str), Vec<usize>> = BTreeMap::new();
        for &at in &places {
            let entry = ordered[at];
            if entry.v < FIRST_WITH_CHECKSUM {
                let (by, at_clock) = (entry.by.as_str(), entry.at.as_str());
                let words = (by, entry.seq, entry.about, at_clock, entry.body());
                by_words.entry(words).or_default().push(at);
            }
        }
        for alike in by_words.values().filter(|alike| alike.len() > 1) {
            let is_named = |at: &&usize| edges.replacing(**at).next().is_some();
            let right = alike.iter().find(is_named).unwrap_or(&alike[0]);
            let same = |at: &&usize| {
                at != &right
                    && ordered[**at].event.kind() == ordered[*right].event.kind()
                    && ordered[**at].supersedes == ordered[*right].supersedes
            };
            found.extend(alike.iter().filter(same).map(|at| (*at, *right)));
        }
    }
    found
}

/// Which entry takes which out of force, by their places in the order of the entries. Only what comes later
/// takes out of force what comes before, so nothing goes round in a circle.
struct Edges {
    replacing: BTreeMap<usize, Vec<usize>>,
    undoing: BTreeMap<usize, Vec<usize>>,
    /// Every place with something to settle.
    places: BTreeSet<usize>,
}

impl Edges {
    fn of(ordered: &[&Entry]) -> Self {
        let undoes = |entry: &Entry| match &entry.event {
            Event::ImportUndone(undone) => Some(undone.brought.clone()),
            _ => None,
        };
        let named = |entry: &&Entry| {
            let brought = undoes(entry).unwrap_or_default();
            let mut ids = entry.supersedes.clone();
            ids.extend(brought.iter());
            ids
        };
        let wanted = order::set_of(ordered.iter().flat_map(named));
        let place = order::map_of(
            ordered
                .iter()
                .enumerate()
                .filter(|(_, entry)| wanted.contains(&entry.id))
                .map(|(index, entry)| (entry.id, index)),
        );
        let before = |index: usize, id: &Id| place.get(id).copied().filter(|at| *at < index);
        let mut edges = Self {
            replacing: BTreeMap::new(),
            undoing: BTreeMap::new(),
            places: BTreeSet::new(),
        };
        for (index, entry) in ordered.iter().enumerate() {
            for at in entry.supersedes.iter().filter_map(|id| before(index, id)) {
                edges.replacing.entry(at).or_default().push(index);
                edges.places.insert(at);
            }
            if let Some(brought) = undoes(entry) {
                let brought: Vec<usize> =
                    brought.iter().filter_map(|id| before(index, &id)).collect();
                edges.places.extend(&brought);
                edges.places.insert(index);
                edges.undoing.insert(index, brought);
            }
        }
        edges
    }

    fn is_empty(&self) -> bool {
        self.places.is_empty()
    }

    /// Every place with something to settle, the last first.
    fn places(&self) -> impl Iterator<Item = usize> {
        self.places.iter().rev().copied()
    }

    fn replacing(&self, at: usize) -> impl Iterator<Item = usize> {
        self.replacing.get(&at).into_iter().flatten().copied()
    }

    fn undoing(&self, at: usize) -> impl Iterator<Item = usize> {
        self.undoing.get(&at).into_iter().flatten().copied()
    }

    /// For the first fork and all below it one dispute, with all that it leads to. Every entry is walked
    /// once; where two disputes meet in an entry that corrects both, they are one.
    fn disputes(
        &self,
        forked: &[usize],
        gone: &BTreeSet<usize>,
    ) -> BTreeMap<usize, BTreeSet<usize>> {
        let by = |at: usize| self.replacing(at).filter(|by| !gone.contains(by));
        let mut found: Vec<(usize, BTreeSet<usize>)> = Vec::new();
        let mut walked: BTreeMap<usize, usize> = BTreeMap::new();
        // The dispute that one has become a part of.
        let mut part_of: Vec<usize> = Vec::new();
        let root = |part_of: &[usize], mut number: usize| {
            while part_of[number] != number {
                number = part_of[number];
            }
            number
        };
        for &target in forked {
            if walked.contains_key(&target) || by(target).count() < 2 {
                continue;
            }
            let number = found.len();
            found.push((target, BTreeSet::new()));
            part_of.push(number);
            let mut open = vec![target];
            while let Some(at) = open.pop() {
                if let Some(&known) = walked.get(&at) {
                    let (a, b) = (root(&part_of, known), root(&part_of, number));
                    part_of[a.max(b)] = a.min(b);
                    continue;
                }
                walked.insert(at, number);
                let before = open.len();
                open.extend(by(at));
                if open.len() == before {
                    found[number].1.insert(at);
                }
            }
        }
        let mut whole: BTreeMap<usize, BTreeSet<usize>> = BTreeMap::new();
        for number in 0..found.len() {
            let ends = std::mem::take(&mut found[number].1);
            let first = found[root(&part_of, number)].0;
            whole.entry(first).or_default().extend(ends);
        }
        whole.retain(|_, ends| ends.len() > 1);
        whole
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::log::Log;
    use crate::record::log::{DeviceId, EventMeta, Noted, Withdrawn};
    use crate::record::state::State;

    fn entry(n: u64, event: Event, replaces: &[u64]) -> Entry {
        let id = |n: u64| Id::from_u128(u128::from(n));
        let moment = EventMeta {
            id: id(n),
            seq: n,
            step: n,
            on: "2026-03-07".parse().unwrap(),
            on_confirmed: false,
            at: String::new(),
        };
        let replaces = replaces.iter().map(|n| id(*n)).collect();
        let author = DeviceId { by: "K".into() };
        author.correction(moment, id(90), event, replaces).unwrap()
    }

    fn noted(text: &str) -> Event {
        Event::Noted(Noted { text: text.into() })
    }

    fn settled(rivals: [Event; 2], choose: usize) -> EventStatuses {
        let [second, third] = rivals;
        let mut log = Log::new();
        log.merge([
            entry(1, noted("first"), &[]),
            entry(2, second, &[1]),
            entry(3, third, &[1]),
        ]);
        let [dispute] = State::project(&log).disputes().to_vec().try_into().unwrap();
        let chosen = dispute.candidates[choose];
        let (event, replaced) = dispute.settle(log.entry(chosen).unwrap()).unwrap();
        let replaced: Vec<u64> = replaced.iter().map(|id| id.as_u128() as u64).collect();
        log.merge([entry(4, event, &replaced)]);
        let ordered: Vec<&Entry> = log.entries().collect();
        EventStatuses::settle(&ordered)
    }

    #[test]
    fn a_dispute_is_settled_whatever_is_chosen() {
        let gone = || Event::Withdrawn(Withdrawn {});
        for choose in [0, 1] {
            let found = settled([noted("this"), noted("that")], choose);
            assert!(found.disputes.is_empty());
            assert_eq!(found.of(Id::from_u128(4)), EventStatus::InForce);
        }
        let found = settled([noted("this"), gone()], 0);
        assert!(found.disputes.is_empty());
        assert!(matches!(
            found.of(Id::from_u128(1)),
            EventStatus::Replaced { .. }
        ));
        for (rivals, choose) in [([noted("this"), gone()], 1), ([gone(), gone()], 0)] {
            let found = settled(rivals, choose);
            assert!(found.disputes.is_empty());
            assert!(matches!(
                found.of(Id::from_u128(1)),
                EventStatus::TakenBack { .. }
            ));
        }
    }
}
