//! The order in which entries are read: by step and id, with what is damaged and what begins earlier in its
//! place.

use crate::order;
use crate::record::log::id::Id;
use crate::record::log::{Entry, Event};
use std::collections::BTreeMap;

/// Entries in the order of the fold. What has damaged numbering comes after all others; what corrects it
/// or undoes the import that brought it comes after that again, or the maker could never put it right.
pub(crate) fn in_order<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Vec<&'a Entry> {
    let mut ordered: Vec<&Entry> = entries.into_iter().collect();
    order::sort_by_key(&mut ordered, |entry| (entry.order(), entry.id));
    let sound = ordered.partition_point(|entry| !entry.is_ordered_last());
    if sound == ordered.len() {
        return ordered;
    }
    let mut last = order::set_of(ordered[sound..].iter().map(|entry| entry.id));
    let mut moved = Vec::new();
    let mut stays = Vec::with_capacity(sound);
    for entry in &ordered[..sound] {
        let names_last = entry.supersedes.iter().any(|id| last.contains(id))
            || matches!(&entry.event, Event::ImportUndone(undone)
                if undone.brought.iter().any(|id| last.contains(&id)));
        if names_last {
            last.insert(entry.id);
            moved.push(*entry);
        } else {
            stays.push(*entry);
        }
    }
    let unsound: Vec<&Entry> = ordered[sound..].iter().copied().chain(moved).collect();
    stays.extend(corrections_after(&unsound));
    stays
}

/// The same entries in their order, but each after what it replaces. Where that goes round in a circle the
/// order stands as it was.
fn corrections_after<'a>(entries: &[&'a Entry]) -> Vec<&'a Entry> {
    let place = order::map_of(entries.iter().enumerate().map(|(at, entry)| (entry.id, at)));
    let mut waits_for = vec![0_usize; entries.len()];
    let mut frees: Vec<Vec<usize>> = vec![Vec::new(); entries.len()];
    for (at, entry) in entries.iter().enumerate() {
        for target in entry.supersedes.iter().filter_map(|id| place.get(id)) {
            frees[*target].push(at);
            waits_for[at] += 1;
        }
    }
    let mut free = order::set_of((0..entries.len()).filter(|at| waits_for[*at] == 0));
    let mut left = order::set_of(0..entries.len());
    let mut out = Vec::with_capacity(entries.len());
    while let Some(next) = free.pop_first().or_else(|| left.first().copied()) {
        if !left.remove(&next) {
            continue;
        }
        out.push(entries[next]);
        for at in &frees[next] {
            waits_for[*at] = waits_for[*at].saturating_sub(1);
            if waits_for[*at] == 0 {
                free.insert(*at);
            }
        }
    }
    out
}

/// What happened in the workshop, each entry in its place: a correction stands where the first of what it
/// corrects stood, or a slip put right a year later would come after all that was made of the wood.
pub(crate) fn in_their_places<'a>(ordered: &[&'a Entry]) -> Vec<((u64, Id), &'a Entry)> {
    let replaced = ordered.iter().flat_map(|entry| &entry.supersedes);
    let replaced = order::set_of(replaced.copied());
    let mut places = BTreeMap::new();
    let mut all = Vec::new();
    for entry in ordered {
        let before = entry.supersedes.iter().filter_map(|id| places.get(id));
        let place = before.copied().fold(entry.order(), Ord::min);
        if replaced.contains(&entry.id) {
            places.insert(entry.id, place);
        }
        if entry.event.has_a_place() {
            all.push((place, *entry));
        }
    }
    order::sort_by_key(&mut all, |(place, entry)| (*place, entry.order()));
    all
}
