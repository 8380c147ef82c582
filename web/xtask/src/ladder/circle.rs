//! Circles in a graph: its strongly connected parts with more than one member, after Tarjan (1972), from
//! memory.

use std::collections::{BTreeMap, BTreeSet};

/// The circles, each with its members in order.
pub(super) fn circles<'a>(edges: &BTreeSet<(&'a str, &'a str)>) -> Vec<Vec<&'a str>> {
    let mut next: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for (from, to) in edges {
        next.entry(from).or_default().push(to);
    }
    let mut search = Search {
        next: &next,
        order: BTreeMap::new(),
        open: Vec::new(),
        found: Vec::new(),
    };
    for from in next.keys() {
        if !search.order.contains_key(from) {
            search.visit(from);
        }
    }
    search.found.sort();
    search.found
}

struct Search<'a, 'n> {
    next: &'n BTreeMap<&'a str, Vec<&'a str>>,
    /// When a node was first seen, and the earliest node that it leads back to.
    order: BTreeMap<&'a str, (usize, usize)>,
    open: Vec<&'a str>,
    found: Vec<Vec<&'a str>>,
}

impl<'a> Search<'a, '_> {
    /// Visits a node and all that it leads to; the earliest open node that it leads back to.
    fn visit(&mut self, node: &'a str) -> usize {
        let seen = self.order.len();
        self.order.insert(node, (seen, seen));
        self.open.push(node);
        let mut earliest = seen;
        for to in self.next.get(node).into_iter().flatten() {
            let back = match self.order.get(to) {
                None => self.visit(to),
                Some((_, back)) if self.open.contains(to) => *back,
                Some(_) => continue,
            };
            earliest = earliest.min(back);
        }
        self.order.insert(node, (seen, earliest));
        if earliest == seen
            && let Some(place) = self.open.iter().position(|one| *one == node)
        {
            let mut members = self.open.split_off(place);
            if members.len() > 1 {
                members.sort_unstable();
                self.found.push(members);
            }
        }
        earliest
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_leads_back_is_a_circle() {
        let edges = [
            ("a", "b"),
            ("b", "c"),
            ("c", "b"),
            ("c", "d"),
            ("e", "a"),
            ("f", "f"),
        ];
        assert_eq!(circles(&edges.into_iter().collect()), [["b", "c"]]);
    }

    #[test]
    fn circles_that_share_a_file_are_one() {
        let edges = [("a", "b"), ("b", "a"), ("b", "c"), ("c", "b")];
        assert_eq!(circles(&edges.into_iter().collect()), [["a", "b", "c"]]);
    }
}
