//! Sorting and gathering that take little code: the standard library's sort is compiled anew for every
//! type, here only the last step is.

use std::cmp::Ordering;
use std::collections::{BTreeMap, BTreeSet};

/// Sorts; what is equal stays in its order.
pub fn sort<T: Ord>(items: &mut [T]) {
    sort_by(items, T::cmp);
}

/// Sorts by a key; what is equal stays in its order.
pub fn sort_by_key<T, K: Ord>(items: &mut [T], key: impl Fn(&T) -> K) {
    sort_by(items, |a, b| key(a).cmp(&key(b)));
}

/// Sorts by a comparison; what is equal stays in its order.
pub fn sort_by<T>(items: &mut [T], order: impl Fn(&T, &T) -> Ordering) {
    let mut from = sorted_places(items.len(), &|a, b| order(&items[a], &items[b]));
    // Each round of places is walked once; a place that is done points at itself.
    for start in 0..from.len() {
        let mut place = start;
        while from[place] != start {
            let next = from[place];
            items.swap(place, next);
            from[place] = place;
            place = next;
        }
        from[place] = place;
    }
}

/// For every place after sorting, where what belongs there stands now.
fn sorted_places(count: usize, order: &dyn Fn(usize, usize) -> Ordering) -> Vec<usize> {
    let mut places: Vec<usize> = (0..count).collect();
    places.sort_by(|a, b| order(*a, *b));
    places
}

/// Each once, in order.
pub fn set_of<T: Ord>(items: impl IntoIterator<Item = T>) -> BTreeSet<T> {
    let mut set = BTreeSet::new();
    set.extend(items);
    set
}

/// By their keys; of equal keys the last counts.
pub fn map_of<K: Ord, V>(pairs: impl IntoIterator<Item = (K, V)>) -> BTreeMap<K, V> {
    let mut map = BTreeMap::new();
    map.extend(pairs);
    map
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_the_standard_sort() {
        for count in 0..60_usize {
            let mut ours: Vec<(usize, usize)> = (0..count).map(|n| (n * 37 % 11, n)).collect();
            let mut theirs = ours.clone();
            sort_by_key(&mut ours, |one| one.0);
            theirs.sort_by_key(|one| one.0);
            assert_eq!(ours, theirs);
            sort_by(&mut ours, |a, b| b.cmp(a));
            theirs.sort_by(|a, b| b.cmp(a));
            assert_eq!(ours, theirs);
            sort(&mut ours);
            theirs.sort();
            assert_eq!(ours, theirs);
        }
    }

    #[test]
    fn each_once_and_the_last_counts() {
        assert_eq!(set_of([3, 1, 3]), BTreeSet::from([1, 3]));
        assert_eq!(map_of([(1, 'a'), (1, 'b')]), BTreeMap::from([(1, 'b')]));
    }
}
