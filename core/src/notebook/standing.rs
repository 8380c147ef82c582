//! Which entries are in force: corrections, corrections of corrections, what was taken back, and
//! corrections made apart.
//!
//! A correction counts only if it comes after what it corrects in the order of the fold, so nothing can
//! go round in a circle. Taking a correction back puts what it had replaced in force again. Where two
//! corrections were made apart, the later in the order of the fold is in force by rule, and the
//! dispute stays open until an entry replaces both. Nothing here looks at what an entry says, except
//! whether it is a withdrawal.

use super::{Entry, Happening};
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
}

/// How all entries of a record stand; what is not listed is in force.
#[derive(Debug, Default)]
pub(super) struct Standings {
    listed: BTreeMap<Uuid, Standing>,
    pub(super) disputes: Vec<Dispute>,
}

impl Standings {
    pub(super) fn of(&self, id: Uuid) -> Standing {
        self.listed.get(&id).copied().unwrap_or(Standing::InForce)
    }

    /// From the entries in the order of the fold.
    pub(super) fn settle(ordered: &[&Entry]) -> Self {
        let mut standings = Self::default();
        let wanted: BTreeSet<Uuid> = ordered
            .iter()
            .flat_map(|entry| entry.supersedes.iter().copied())
            .collect();
        if wanted.is_empty() {
            return standings;
        }
        let place: BTreeMap<Uuid, usize> = ordered
            .iter()
            .enumerate()
            .filter(|(_, entry)| wanted.contains(&entry.id))
            .map(|(index, entry)| (entry.id, index))
            .collect();
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
