//! Planks that two phones may both have recorded.
//!
//! A pair is only ever offered: nothing is joined unasked, and a pair that the maker has spoken about
//! is never offered again. How sure an offer is follows from how rare it is in that yard on that day that two
//! planks agree so well ([`alike`]), from the order in which both phones went through the pile ([`walked`]),
//! and from whom else each plank might be. Few are compared: those next to each other in size or in the pile.

pub(crate) mod alike;
pub(crate) mod walked;

use crate::order;
use crate::record::log::Mark;
use crate::record::log::id::Id;
use crate::record::state::{Piece, State};
use alike::{Lot, Sized};
use std::collections::{BTreeMap, BTreeSet};
use walked::{PossiblePair, Walk};

/// So many pairs are put before the maker at once: one takes about half a minute with both planks in view, and
/// after ten minutes nobody looks closely any more (common practice, no source). The others follow as these are
/// settled.
pub const PAIRS_AT_ONCE: usize = 20;

/// Pairs that are less likely than this are not offered: the more of them, the more false ones.
const LEAST_CHANCE: f64 = 0.4;
/// From this on a pair is called likely.
const LIKELY: f64 = 0.8;
/// To so many neighbours each way a plank is held, in each order of sizes and in the pile.
const NEIGHBOURS: usize = 24;

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sure {
    /// It may well be so.
    Possible,
    /// Four times in five or more.
    Likely,
}

impl Sure {
    /// In the maker's words.
    pub fn in_words(self) -> &'static str {
        match self {
            Sure::Possible => "Possible",
            Sure::Likely => "Likely",
        }
    }
}

/// Two pieces that may be one plank.
#[derive(Debug, Clone, PartialEq)]
pub struct PairOffered {
    pub a: Id,
    pub b: Id,
    /// How far apart they are: 0 is alike, 1 at the edge of every tolerance.
    pub apart: f64,
    /// How many measurements both have.
    pub compared: u32,
    /// How many kinds of defects were found on both.
    pub defects: u32,
    /// Both phones came to it at the same place of the pile.
    pub same_place: bool,
    /// The chance that they are one, as far as it can be told.
    pub chance: f64,
}

impl PairOffered {
    pub fn sure(&self) -> Sure {
        match self.chance >= LIKELY {
            true => Sure::Likely,
            false => Sure::Possible,
        }
    }

    /// `Likely: 4 measurements, 1 defect and the place in the pile agree.`
    pub fn in_words(&self) -> String {
        let counted = |count: u32, one: &str| match count {
            0 => None,
            1 => Some(format!("1 {one}")),
            several => Some(format!("{several} {one}s")),
        };
        let place = self.same_place.then(|| "the place in the pile".to_owned());
        let found = [
            counted(self.compared, "measurement"),
            counted(self.defects, "defect"),
            place,
        ];
        let found: Vec<String> = found.into_iter().flatten().collect();
        let verb = match found.len() == 1 && self.compared + self.defects < 2 {
            true => "agrees",
            false => "agree",
        };
        let listed = match found.split_last() {
            Some((last, [])) => last.clone(),
            Some((last, before)) => format!("{} and {last}", before.join(", ")),
            None => "nothing that was measured".to_owned(),
        };
        format!("{}: {listed} {verb}.", self.sure().in_words())
    }
}

/// The pairs to offer, likeliest first; each piece at most once.
pub fn pairs(state: &State) -> Vec<PairOffered> {
    let spoken = spoken_pairs(state);
    let mut found: BTreeMap<(Id, Id), PairOffered> = BTreeMap::new();
    for planks in lots(state) {
        // Nobody measures one plank twice: most days in a yard are one phone's.
        if of_one_phone(&planks) {
            continue;
        }
        let offered = offered_in(&Lot::new(planks), &spoken);
        // Of a pair that stands in two lots the likelier counts.
        for pair in offered {
            let known = found.get(&(pair.a, pair.b));
            if known.is_none_or(|known| known.chance < pair.chance) {
                found.insert((pair.a, pair.b), pair);
            }
        }
    }
    let mut offered: Vec<PairOffered> = found.into_values().collect();
    order::sort_by(&mut offered, |x, y| {
        y.chance
            .total_cmp(&x.chance)
            .then(x.apart.total_cmp(&y.apart))
            .then(y.compared.cmp(&x.compared))
            .then((x.a, x.b).cmp(&(y.a, y.b)))
    });
    let mut used = BTreeSet::new();
    offered.retain(|pair| {
        let free = !used.contains(&pair.a) && !used.contains(&pair.b);
        if free {
            used.extend([pair.a, pair.b]);
        }
        free
    });
    offered
}

/// The planks of one yard and one day that have a length; a piece's own day and its visit's may differ.
fn lots(state: &State) -> Vec<Vec<Sized<'_>>> {
    let mut lots: BTreeMap<(String, chrono::NaiveDate), Vec<Sized<'_>>> = BTreeMap::new();
    for piece in state.planks() {
        let Some(visit) = state.visit_of(piece) else {
            continue;
        };
        for day in order::set_of([piece.recorded.on, visit.recorded.on]) {
            if let Some(sized) = Sized::new(state, piece) {
                let yard = plain_name(&visit.opened.yard);
                lots.entry((yard, day)).or_default().push(sized);
            }
        }
    }
    lots.into_values().collect()
}

/// Whether one phone has a hand in all of them.
fn of_one_phone(planks: &[Sized<'_>]) -> bool {
    let Some(first) = planks.first() else {
        return true;
    };
    let all_by = |phone: &String| planks.iter().all(|one| one.piece.by.contains(phone));
    first.piece.by.iter().any(all_by)
}

/// Of each plank those after it that it is compared with.
type Near = Vec<Vec<usize>>;

fn offered_in(lot: &Lot<'_>, spoken: &BTreeSet<(Id, Id)>) -> Vec<PairOffered> {
    let walked = places_in_the_pile(lot);
    let mut near: Near = vec![Vec::new(); lot.len()];
    for key in lot.keys() {
        neighbours(lot, &key, &mut near);
    }
    // In the order of the pile, each phone's from its first plank to its last.
    let share = |at: usize| walked.share(at);
    neighbours(
        lot,
        &(0..lot.len()).map(|at| Some(share(at))).collect::<Vec<_>>(),
        &mut near,
    );
    let mut candidates = compared(lot, near);
    // What both phones came to in one order leads to those that were overlooked.
    let mut walks = walks(&candidates, &walked);
    let more = expected(&walks, &walked, &candidates);
    if more.iter().any(|others| !others.is_empty()) {
        candidates.extend(compared(lot, more));
        order::sort_by_key(&mut candidates, |one| (one.a, one.b));
        walks = self::walks(&candidates, &walked);
    }
    let mut chances = weigh(&candidates, &walks, &walked);
    let mut offered = Vec::new();
    for (one, (chance, same_place)) in candidates.iter().zip(chances.drain(..)) {
        let ids = [one.a, one.b].map(|at| lot.id(at));
        let (a, b) = (ids[0].min(ids[1]), ids[0].max(ids[1]));
        if chance >= LEAST_CHANCE && !spoken.contains(&(a, b)) {
            offered.push(PairOffered {
                a,
                b,
                apart: one.apart,
                compared: one.compared,
                defects: one.defects,
                same_place,
                chance,
            });
        }
    }
    offered
}

/// Planks next to each other by a number, those of one phone left out.
fn neighbours(lot: &Lot<'_>, key: &[Option<f64>], near: &mut Near) {
    let known = (0..lot.len()).filter(|at| key[*at].is_some_and(f64::is_finite));
    let mut ordered: Vec<usize> = known.collect();
    order::sort_by(&mut ordered, |a, b| {
        let by = |at: usize| key[at].unwrap_or_default();
        by(*a).total_cmp(&by(*b)).then(a.cmp(b))
    });
    for (place, one) in ordered.iter().enumerate() {
        for other in ordered[place + 1..].iter().take(NEIGHBOURS) {
            near[*one.min(other)].push(*one.max(other));
        }
    }
}

/// Those that may be one plank, in the order of their places.
fn compared(lot: &Lot<'_>, near: Near) -> Vec<PossiblePair> {
    let mut found = Vec::new();
    for (a, mut others) in near.into_iter().enumerate() {
        order::sort(&mut others);
        others.dedup();
        found.extend(others.into_iter().filter_map(|b| lot.compare(a, b)));
    }
    found
}

/// The places of a lot's planks in the pile, phone by phone.
struct Places {
    /// Of each plank: its phone, its place among that phone's.
    of: Vec<(usize, usize)>,
    /// How many planks each phone has.
    counts: Vec<usize>,
    /// The planks of each phone, in their order.
    phones: Vec<Vec<usize>>,
}

impl Places {
    /// How far through the pile a phone had come, 0 to 1.
    fn share(&self, at: usize) -> f64 {
        let (phone, place) = self.of[at];
        (place as f64 + 0.5) / self.counts[phone] as f64
    }

    fn phones(&self, one: &PossiblePair) -> (usize, usize) {
        (self.of[one.a].0, self.of[one.b].0)
    }

    fn places(&self, one: &PossiblePair) -> (usize, usize) {
        (self.of[one.a].1, self.of[one.b].1)
    }
}

/// By the numbers of the marks, which only grow; where a mark is none of ours, by the entries' ids.
fn places_in_the_pile(lot: &Lot<'_>) -> Places {
    let mut phones: BTreeMap<Vec<&str>, Vec<usize>> = BTreeMap::new();
    for at in 0..lot.len() {
        let by = lot.piece(at).by.iter().map(String::as_str).collect();
        phones.entry(by).or_default().push(at);
    }
    let number = |piece: &Piece| Mark::parse(&piece.mark).ok().map(|mark| mark.number());
    let mut places = Places {
        of: vec![(0, 0); lot.len()],
        counts: Vec::new(),
        phones: Vec::new(),
    };
    for (phone, mut planks) in phones.into_values().enumerate() {
        let ours = planks.iter().all(|at| number(lot.piece(*at)).is_some());
        order::sort_by_key(&mut planks, |at| {
            let piece = lot.piece(*at);
            (number(piece).filter(|_| ours), piece.recorded.entry)
        });
        for (place, at) in planks.iter().enumerate() {
            places.of[*at] = (phone, place);
        }
        places.counts.push(planks.len());
        places.phones.push(planks);
    }
    places
}

/// Two phones, the smaller number first.
type Phones = (usize, usize);
/// The places of candidates in the two piles, and what speaks for each.
type Steps = Vec<(usize, usize, f64)>;

/// The common walk of every two phones that have one.
fn walks(candidates: &[PossiblePair], places: &Places) -> BTreeMap<Phones, Walk> {
    let mut steps: BTreeMap<Phones, Steps> = BTreeMap::new();
    for one in candidates {
        let (a, b) = places.phones(one);
        let (at, there) = places.places(one);
        let (phones, step) = match a < b {
            true => ((a, b), (at, there, one.evidence)),
            false => ((b, a), (there, at, one.evidence)),
        };
        steps.entry(phones).or_default().push(step);
    }
    let walk = |(phones, steps): (Phones, Steps)| {
        let counts = (places.counts[phones.0], places.counts[phones.1]);
        Some((phones, Walk::of(steps, counts)?))
    };
    order::map_of(steps.into_iter().filter_map(walk))
}

/// Pairs at the places where a common walk expects them, those that are candidates already left out; these are in
/// the order of their places.
fn expected(
    walks: &BTreeMap<(usize, usize), Walk>,
    places: &Places,
    candidates: &[PossiblePair],
) -> Near {
    let known = |pair| {
        let place = candidates.binary_search_by_key(&pair, |one| (one.a, one.b));
        place.is_ok()
    };
    let mut found: Near = vec![Vec::new(); places.of.len()];
    for ((a, b), walk) in walks {
        let (of_a, of_b) = (&places.phones[*a], &places.phones[*b]);
        for (place, at) in of_a.iter().enumerate() {
            let (from, to) = walk.between(place);
            let from = from.saturating_sub(NEIGHBOURS / 4);
            let to = (to + NEIGHBOURS / 4).min(from + 2 * NEIGHBOURS);
            for there in of_b.iter().take(to).skip(from) {
                let pair = (*at.min(there), *at.max(there));
                if !known(pair) {
                    found[pair.0].push(pair.1);
                }
            }
        }
    }
    found
}

/// The chance of each candidate, and whether a common walk has it at one place: its evidence against that of all
/// that its planks might be instead, none of these among them.
fn weigh(
    candidates: &[PossiblePair],
    walks: &BTreeMap<(usize, usize), Walk>,
    places: &Places,
) -> Vec<(f64, bool)> {
    let mut sums = vec![0.0; places.of.len()];
    let weighed: Vec<(f64, bool)> = candidates
        .iter()
        .map(|one| {
            let (a, b) = places.phones(one);
            let (at, there) = places.places(one);
            let (phones, step) = match a < b {
                true => ((a, b), (at, there)),
                false => ((b, a), (there, at)),
            };
            let most = places.counts[a].max(places.counts[b]) as f64;
            let (prior, same_place) = match walks.get(&phones) {
                Some(walk) => walk.prior(step, most),
                None => (1.0 / most, false),
            };
            // Beyond this it is sure either way.
            let weight = libm::exp(one.evidence.clamp(-50.0, 50.0)) * prior;
            for at in [one.a, one.b] {
                sums[at] += weight;
            }
            (weight, same_place)
        })
        .collect();
    let chance = |(one, (weight, same_place)): (&PossiblePair, (f64, bool))| {
        let others = sums[one.a] + sums[one.b] - weight;
        (weight / (1.0 + others), same_place)
    };
    candidates.iter().zip(weighed).map(chance).collect()
}

/// The pairs that the maker has spoken about, by the ids that stand for them.
pub(crate) fn spoken_pairs(state: &State) -> BTreeSet<(Id, Id)> {
    let stand = |(a, b): &(Id, Id)| {
        let (a, b) = (state.stands_for(*a), state.stands_for(*b));
        (a.min(b), a.max(b))
    };
    order::set_of(state.told.keys().map(stand))
}

/// A yard's name as it is compared: small letters, spaces between words only and single.
fn plain_name(name: &str) -> String {
    name.split_whitespace()
        .map(str::to_lowercase)
        .collect::<Vec<_>>()
        .join(" ")
}
