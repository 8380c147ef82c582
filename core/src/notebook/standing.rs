//! Which entries are in force: corrections, corrections of corrections, what was taken back, and
//! corrections made apart.
//!
//! A correction counts only if it comes after what it corrects in the order of the fold, so nothing can
//! go round in a circle. Taking a correction back puts what it had replaced in force again. Where two
//! corrections were made apart, the later in the order of the fold is in force by rule, and the
//! dispute stays open until an entry replaces both. Nothing here looks at what an entry says, except
//! whether it is a withdrawal.

use super::by_id::ById;
use super::{Entry, Happening, Notebook};
use crate::order;
use std::collections::{BTreeMap, BTreeSet};
use uuid::Uuid;

/// How an entry stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// It counts.
    InForce,
    /// A later entry says it better.
    Replaced {
        /// The entry that counts in its place.
        by: Uuid,
    },
    /// It was taken back.
    TakenBack {
        /// The withdrawal.
        by: Uuid,
    },
    /// It corrects what another entry corrects as well, and the other is in force by rule.
    Outvoted {
        /// The entry in force.
        by: Uuid,
    },
}

/// Corrections of one entry that were made apart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Dispute {
    /// What it is about.
    pub about: Uuid,
    /// The entry that was corrected more than once.
    pub of: Uuid,
    /// The corrections, in the order of the fold; the last is in force.
    pub candidates: Vec<Uuid>,
}

impl Dispute {
    /// The correction that is in force until the maker settles it.
    pub fn in_force(&self) -> Option<Uuid> {
        self.candidates.last().copied()
    }

    /// What to write down so that the chosen correction is in force and the dispute is settled: what
    /// happens, and what it replaces. `None` where the chosen entry is not here or no candidate.
    ///
    /// A correction is said again in place of all of them. A taking back is not: said in place of
    /// another taking back it would undo that, so the other corrections are taken back instead.
    pub fn settle(&self, chosen: Uuid, notebook: &Notebook) -> Option<(Happening, Vec<Uuid>)> {
        if !self.candidates.contains(&chosen) {
            return None;
        }
        let happening = notebook.entry(chosen)?.happening.clone();
        let replaced = match happening {
            Happening::Withdrawn(_) => {
                let others = self.candidates.iter().copied();
                others.filter(|id| *id != chosen).collect()
            }
            _ => self.candidates.clone(),
        };
        Some((happening, replaced))
    }
}

/// How all entries of a record stand; what is not listed is in force.
#[derive(Debug, Default)]
pub(super) struct Standings {
    listed: ById<Standing>,
    pub(super) disputes: Vec<Dispute>,
}

impl Standings {
    pub(super) fn of(&self, id: Uuid) -> Standing {
        self.listed.get(&id).copied().unwrap_or(Standing::InForce)
    }

    /// From the entries in the order of the fold.
    pub(super) fn settle(ordered: &[&Entry]) -> Self {
        let mut standings = Self::default();
        let wanted = order::set_of(
            ordered
                .iter()
                .flat_map(|entry| entry.supersedes.iter().copied()),
        );
        if wanted.is_empty() {
            return standings;
        }
        let place = order::map_of(
            ordered
                .iter()
                .enumerate()
                .filter(|(_, entry)| wanted.contains(&entry.id))
                .map(|(index, entry)| (entry.id, index)),
        );
        let mut replacing: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for (index, entry) in ordered.iter().enumerate() {
            for target in &entry.supersedes {
                if let Some(&at) = place.get(target)
                    && at < index
                {
                    replacing.entry(at).or_default().push(index);
                }
            }
        }
        // Last to first: what replaces an entry is settled before it.
        let mut ends: BTreeMap<usize, BTreeSet<usize>> = BTreeMap::new();
        let mut undone = BTreeSet::new();
        for (&target, by) in replacing.iter().rev() {
            let by: Vec<usize> = by.iter().copied().filter(|b| !undone.contains(b)).collect();
            let mut reached = BTreeSet::new();
            for index in &by {
                match ends.get(index) {
                    Some(further) => reached.extend(further),
                    None => {
                        reached.insert(*index);
                    }
                }
            }
            let Some(&last) = reached.last() else {
                continue;
            };
            let (entry, winner) = (ordered[target], ordered[last].id);
            if by.len() > 1 && reached.len() > 1 {
                standings.dispute(ordered, entry, &reached);
            }
            let taken_back = matches!(ordered[last].happening, Happening::Withdrawn(_));
            standings.listed.insert(
                entry.id,
                if taken_back {
                    undone.insert(target);
                    Standing::TakenBack { by: winner }
                } else {
                    Standing::Replaced { by: winner }
                },
            );
            ends.insert(target, reached);
        }
        standings
    }

    fn dispute(&mut self, ordered: &[&Entry], entry: &Entry, reached: &BTreeSet<usize>) {
        let candidates: Vec<Uuid> = reached.iter().map(|index| ordered[*index].id).collect();
        let Some((&by, losers)) = candidates.split_last() else {
            return;
        };
        for loser in losers {
            self.listed
                .entry(*loser)
                .or_insert(Standing::Outvoted { by });
        }
        if self.disputes.iter().all(|d| d.candidates != candidates) {
            self.disputes.push(Dispute {
                about: entry.about,
                of: entry.id,
                candidates,
            });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::notebook::{Author, Moment, Noted, Withdrawn};

    fn entry(n: u64, happening: Happening, replaces: &[u64]) -> Entry {
        let id = |n: u64| Uuid::from_u128(u128::from(n));
        let moment = Moment {
            id: id(n),
            seq: n,
            step: n,
            on: "2026-03-07".parse().unwrap(),
            on_insisted: false,
            at: String::new(),
        };
        let replaces = replaces.iter().map(|n| id(*n)).collect();
        let author = Author { by: "K".into() };
        author
            .correction(moment, id(90), happening, replaces)
            .unwrap()
    }

    fn noted(text: &str) -> Happening {
        Happening::Noted(Noted { text: text.into() })
    }

    fn settled(rivals: [Happening; 2], choose: usize) -> Standings {
        let [second, third] = rivals;
        let mut notebook = Notebook::new();
        notebook.merge([
            entry(1, noted("first"), &[]),
            entry(2, second, &[1]),
            entry(3, third, &[1]),
        ]);
        let [dispute] = notebook.fold().disputes().to_vec().try_into().unwrap();
        let chosen = dispute.candidates[choose];
        let (happening, replaced) = dispute.settle(chosen, &notebook).unwrap();
        let replaced: Vec<u64> = replaced.iter().map(|id| id.as_u128() as u64).collect();
        notebook.merge([entry(4, happening, &replaced)]);
        let ordered: Vec<&Entry> = notebook.entries().collect();
        Standings::settle(&ordered)
    }

    #[test]
    fn a_dispute_is_settled_whatever_is_chosen() {
        let gone = || Happening::Withdrawn(Withdrawn {});
        for choose in [0, 1] {
            let found = settled([noted("this"), noted("that")], choose);
            assert!(found.disputes.is_empty());
            assert_eq!(found.of(Uuid::from_u128(4)), Standing::InForce);
        }
        let found = settled([noted("this"), gone()], 0);
        assert!(found.disputes.is_empty());
        assert!(matches!(
            found.of(Uuid::from_u128(1)),
            Standing::Replaced { .. }
        ));
        for (rivals, choose) in [([noted("this"), gone()], 1), ([gone(), gone()], 0)] {
            let found = settled(rivals, choose);
            assert!(found.disputes.is_empty());
            assert!(matches!(
                found.of(Uuid::from_u128(1)),
                Standing::TakenBack { .. }
            ));
        }
    }
}
