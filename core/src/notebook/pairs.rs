//! Planks that two phones may both have recorded.
//!
//! A pair is only ever offered: nothing is joined unasked, and a pair that the maker has spoken about
//! is never offered again. The tolerances are common practice, no source.

use super::{Book, Piece};
use crate::order;
use crate::plank::Field;
use std::collections::{BTreeMap, BTreeSet};
use uuid::Uuid;

const LENGTH_MM: f64 = 15.0;
const WIDTH_MM: f64 = 6.0;
const THICKNESS_MM: f64 = 2.0;
const WEIGHT_SHARE: f64 = 0.03;

/// Two pieces that may be one plank.
#[derive(Debug, Clone, PartialEq)]
pub struct PairOffered {
    /// The smaller id.
    pub a: Uuid,
    /// The larger id.
    pub b: Uuid,
    /// How far apart they are: 0 is alike, 1 at the edge of every tolerance.
    pub apart: f64,
    /// How many measurements both have.
    pub compared: u32,
}

/// The pairs to offer, likeliest first; each piece at most once.
pub fn pairs(book: &Book) -> Vec<PairOffered> {
    let mut offered = candidates(book);
    order::sort_by(&mut offered, |x, y| {
        x.apart
            .total_cmp(&y.apart)
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

/// What is compared of a piece.
struct Measures<'a> {
    piece: &'a Piece,
    length: f64,
    widths: [Option<f64>; 3],
    thicknesses: [Option<f64>; 3],
    weight: Option<f64>,
    species: Option<&'a str>,
}

impl<'a> Measures<'a> {
    fn new(book: &'a Book, piece: &'a Piece) -> Option<Self> {
        let value = |field| piece.value(field);
        let ends = || Some(value(Field::WeightFirst)? + value(Field::WeightSecond)?);
        Some(Self {
            piece,
            length: value(Field::Length)?,
            widths: [Field::WidthNear, Field::WidthMiddle, Field::WidthFar].map(value),
            thicknesses: [
                Field::ThicknessNear,
                Field::ThicknessMiddle,
                Field::ThicknessFar,
            ]
            .map(value),
            weight: value(Field::WeightWhole).or_else(ends),
            species: book.species_of(piece).and_then(|s| s.id.as_deref()),
        })
    }

    fn against(&self, other: &Self) -> Option<PairOffered> {
        let species = (self.species, other.species);
        if matches!(species, (Some(a), Some(b)) if a != b) || !self.apart_by_device(other) {
            return None;
        }
        let mut gaps = vec![(self.length - other.length).abs() / LENGTH_MM];
        gaps.extend(stations_apart(self.widths, other.widths).map(|gap| gap / WIDTH_MM));
        gaps.extend(
            stations_apart(self.thicknesses, other.thicknesses).map(|gap| gap / THICKNESS_MM),
        );
        if let (Some(a), Some(b)) = (self.weight, other.weight) {
            gaps.push((a - b).abs() / (WEIGHT_SHARE * a.max(b)));
        }
        // A gap that is no number (nought over nought) is not within anything.
        let within = gaps.iter().all(|gap| *gap <= 1.0);
        (within && gaps.len() > 1).then(|| PairOffered {
            a: self.piece.id.min(other.piece.id),
            b: self.piece.id.max(other.piece.id),
            apart: gaps.iter().sum::<f64>() / gaps.len() as f64,
            compared: gaps.len() as u32,
        })
    }

    fn apart_by_device(&self, other: &Self) -> bool {
        self.piece.by.is_disjoint(&other.piece.by)
    }
}

/// The widest gap between two sets of stations, whichever end each maker began from; `None` where one
/// of them has none. Stations that only one has are compared by the mean.
fn stations_apart(a: [Option<f64>; 3], b: [Option<f64>; 3]) -> Option<f64> {
    let mean = |stations: [Option<f64>; 3]| {
        let taken: Vec<f64> = stations.into_iter().flatten().collect();
        (!taken.is_empty()).then(|| taken.iter().sum::<f64>() / taken.len() as f64)
    };
    let means = (mean(a)? - mean(b)?).abs();
    let widest = |b: [Option<f64>; 3]| {
        let same = a.iter().zip(&b).all(|(x, y)| x.is_some() == y.is_some());
        let gaps = a
            .iter()
            .zip(&b)
            .filter_map(|(x, y)| Some((x.as_ref()? - y.as_ref()?).abs()));
        same.then(|| gaps.fold(0.0, f64::max))
    };
    let ways = [widest(b), widest([b[2], b[1], b[0]])];
    Some(ways.into_iter().flatten().reduce(f64::min).unwrap_or(means))
}

fn candidates(book: &Book) -> Vec<PairOffered> {
    // Pieces of one yard and one day; a piece's own day and its visit's may differ.
    let mut lots: BTreeMap<(String, chrono::NaiveDate), Vec<Measures<'_>>> = BTreeMap::new();
    for piece in book.planks() {
        let Some(visit) = book.visit_of(piece) else {
            continue;
        };
        for day in order::set_of([piece.recorded.on, visit.recorded.on]) {
            if let Some(sized) = Measures::new(book, piece) {
                let yard = plain_name(&visit.opened.yard);
                lots.entry((yard, day)).or_default().push(sized);
            }
        }
    }
    let spoken = book.spoken_pairs();
    let mut found: BTreeMap<(Uuid, Uuid), PairOffered> = BTreeMap::new();
    for lot in lots.values_mut() {
        order::sort_by(lot, |x, y| x.length.total_cmp(&y.length));
        for (i, one) in lot.iter().enumerate() {
            for other in &lot[i + 1..] {
                if other.length - one.length > LENGTH_MM {
                    break;
                }
                if let Some(pair) = one.against(other)
                    && !spoken.contains(&(pair.a, pair.b))
                {
                    found.insert((pair.a, pair.b), pair);
                }
            }
        }
    }
    found.into_values().collect()
}

impl Book {
    /// The pairs that the maker has spoken about, by the ids that stand for them.
    fn spoken_pairs(&self) -> BTreeSet<(Uuid, Uuid)> {
        let stand = |(a, b): &(Uuid, Uuid)| {
            let (a, b) = (self.stands_for(*a), self.stands_for(*b));
            (a.min(b), a.max(b))
        };
        order::set_of(self.told.keys().map(stand))
    }
}

/// A yard's name as it is compared: small letters, spaces between words only and single.
fn plain_name(name: &str) -> String {
    name.split_whitespace()
        .map(str::to_lowercase)
        .collect::<Vec<_>>()
        .join(" ")
}
