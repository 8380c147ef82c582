//! A set of entries as running numbers by device: short, however many entries it holds, as long as they
//! follow one another.
//!
//! It says which entries a device has seen elsewhere. It does not tell two entries under one number apart.

use crate::record::log::Entry;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Running numbers by device, as runs from the first to the last of a row.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(from = "BTreeMap<String, Vec<(u64, u64)>>")]
pub struct NumberRanges(BTreeMap<String, Vec<(u64, u64)>>);

impl From<BTreeMap<String, Vec<(u64, u64)>>> for NumberRanges {
    fn from(read: BTreeMap<String, Vec<(u64, u64)>>) -> Self {
        let joined = |(by, runs)| (by, joined(runs));
        Self(crate::order::map_of(read.into_iter().map(joined)))
    }
}

/// Runs in order, those that touch made one; a run that ends before it begins is left out.
fn joined(mut runs: Vec<(u64, u64)>) -> Vec<(u64, u64)> {
    runs.retain(|(from, to)| from <= to);
    crate::order::sort(&mut runs);
    let mut out: Vec<(u64, u64)> = Vec::with_capacity(runs.len());
    for (from, to) in runs {
        match out.last_mut() {
            Some((_, end)) if from <= end.saturating_add(1) => *end = to.max(*end),
            _ => out.push((from, to)),
        }
    }
    out
}

impl NumberRanges {
    pub fn of<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Self {
        let mut runs: BTreeMap<String, Vec<(u64, u64)>> = BTreeMap::new();
        for entry in entries {
            let run = (entry.seq, entry.seq);
            match runs.get_mut(&entry.by) {
                Some(of_device) => match of_device.last_mut() {
                    // Entries mostly come in the order of their numbers.
                    Some((_, end)) if end.checked_add(1) == Some(entry.seq) => *end = entry.seq,
                    _ => of_device.push(run),
                },
                None => {
                    runs.insert(entry.by.clone(), vec![run]);
                }
            }
        }
        Self::from(runs)
    }

    /// Adds one number.
    pub fn insert(&mut self, by: &str, seq: u64) {
        if !self.contains(by, seq) {
            let runs = self.0.entry(by.to_owned()).or_default();
            let before = std::mem::take(runs);
            *runs = joined([before, vec![(seq, seq)]].concat());
        }
    }

    /// Whether it holds a number.
    pub fn contains(&self, by: &str, seq: u64) -> bool {
        self.0.get(by).is_some_and(|runs| {
            let after = runs.partition_point(|(from, _)| *from <= seq);
            after > 0 && seq <= runs[after - 1].1
        })
    }

    /// Adds all that another holds.
    pub fn merge(&mut self, other: &Self) {
        for (by, runs) in &other.0 {
            let own = self.0.entry(by.clone()).or_default();
            let before = std::mem::take(own);
            *own = joined([before, runs.clone()].concat());
        }
    }

    /// How many numbers it holds.
    pub fn count(&self) -> u64 {
        let runs = self.0.values().flatten();
        runs.fold(0, |sum: u64, (from, to)| {
            sum.saturating_add((to - from).saturating_add(1))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use std::collections::BTreeSet;

    proptest! {
        #[test]
        fn it_is_the_set_of_its_numbers(a in proptest::collection::vec(0_u64..60, 0..40),
                                        b in proptest::collection::vec(0_u64..60, 0..40)) {
            let of = |numbers: &[u64]| {
                let mut ranges = NumberRanges::default();
                for seq in numbers {
                    ranges.insert("K7", *seq);
                }
                ranges
            };
            let mut both = of(&a);
            both.merge(&of(&b));
            let known: BTreeSet<u64> = a.iter().chain(&b).copied().collect();
            for seq in 0..60 {
                prop_assert_eq!(both.contains("K7", seq), known.contains(&seq));
                prop_assert!(!both.contains("M4", seq));
            }
            prop_assert_eq!(both.count(), known.len() as u64);
            let text = serde_json::to_string(&both).unwrap();
            prop_assert_eq!(serde_json::from_str::<NumberRanges>(&text).unwrap(), both);
        }
    }

    #[test]
    fn what_is_written_in_any_order_is_read_as_one_set() {
        let read: NumberRanges = serde_json::from_str(
            r#"{"K7":[[7,9],[1,3],[4,5],[9,8],[18446744073709551615,18446744073709551615]]}"#,
        )
        .unwrap();
        let text = serde_json::to_string(&read).unwrap();
        assert_eq!(
            text,
            r#"{"K7":[[1,5],[7,9],[18446744073709551615,18446744073709551615]]}"#
        );
    }
}
