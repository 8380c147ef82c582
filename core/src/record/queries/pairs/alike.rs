//! How alike two planks are, and how much that says: agreement in what many of the lot have in common says
//! nothing, agreement in what is rare says much.
//!
//! Each thing that both have gives the logarithm of how much likelier its gap is between two readings of one
//! plank than between two planks of the lot (Fellegi and Sunter 1969, from memory). How far two makers'
//! readings of one plank lie apart is common practice, no source.

use crate::order;
use crate::plank::{DefectKind, Field};
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::queries::pairs::walked::PossiblePair;
use crate::record::state::{Piece, State};
use std::collections::BTreeMap;

const LENGTH_MM: f64 = 15.0;
const WIDTH_MM: f64 = 6.0;
const THICKNESS_MM: f64 = 2.0;
const WEIGHT_SHARE: f64 = 0.03;
/// The largest gap that is looked at is so many standard deviations of a gap.
const DEVIATIONS: f64 = 3.0;
/// Two meters on one plank, standard deviation of the gap, % moisture.
const MOISTURE: f64 = 1.2;
/// A defect's place lies within so many mm for both makers.
const DEFECT_MM: f64 = 60.0;
/// A defect that one maker found, the other finds so often.
const FOUND_AGAIN: f64 = 0.7;
/// Planks of no lot in particular, which count as so many of it: they keep a small lot from saying too much.
const ANY_PLANKS: f64 = 3.0;

/// A defect, and where it begins and ends.
type Found = (DefectKind, Option<(f64, f64)>);

/// What is compared of a piece.
pub(crate) struct Sized<'a> {
    pub(crate) piece: &'a Piece,
    length: f64,
    widths: [Option<f64>; 3],
    thicknesses: [Option<f64>; 3],
    weight: Option<f64>,
    moisture: Option<f64>,
    species: Option<&'a str>,
    defects: Vec<Found>,
}

impl<'a> Sized<'a> {
    pub(crate) fn new(state: &'a State, piece: &'a Piece) -> Option<Self> {
        let value = |field| piece.value(field);
        let ends = || Some(value(Field::WeightFirst)? + value(Field::WeightSecond)?);
        let mut defects: Vec<Found> = Vec::new();
        for (_, found) in piece.defects.iter().take(MOST_DEFECTS) {
            let from = found.from.as_ref().map(|taken| taken.value);
            let to = found.to.as_ref().map(|taken| taken.value);
            defects.push((found.kind, from.map(|from| (from, to.unwrap_or(from)))));
        }
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
            moisture: value(Field::Moisture),
            species: queries::species_of(state, piece).and_then(|s| s.id.as_deref()),
            defects,
        })
    }
}

/// More defects of a plank than these are not compared one by one.
const MOST_DEFECTS: usize = 12;

#[derive(Clone, Copy)]
enum Number {
    Length,
    Width,
    Thickness,
    Weight,
    Moisture,
}

const NUMBERS: [Number; 5] = [
    Number::Length,
    Number::Width,
    Number::Thickness,
    Number::Weight,
    Number::Moisture,
];

impl Number {
    fn of(self, plank: &Sized<'_>) -> Option<f64> {
        match self {
            Number::Length => Some(plank.length),
            Number::Width => mean(plank.widths),
            Number::Thickness => mean(plank.thicknesses),
            Number::Weight => plank.weight,
            Number::Moisture => plank.moisture,
        }
    }

    /// The standard deviation of the gap between two makers' readings of one plank, at a value.
    fn deviation(self, value: f64) -> f64 {
        match self {
            Number::Length => LENGTH_MM / DEVIATIONS,
            Number::Width => WIDTH_MM / DEVIATIONS,
            Number::Thickness => THICKNESS_MM / DEVIATIONS,
            Number::Weight => (WEIGHT_SHARE / DEVIATIONS * value).max(f64::MIN_POSITIVE),
            Number::Moisture => MOISTURE,
        }
    }

    /// Over which range planks of any lot are spread.
    fn range(self, value: f64) -> f64 {
        match self {
            Number::Length => 1500.0,
            Number::Width => 150.0,
            Number::Thickness => 40.0,
            Number::Weight => value.max(f64::MIN_POSITIVE),
            Number::Moisture => 10.0,
        }
    }

    /// The gap between two planks; `None` where one has none.
    fn gap(self, a: &Sized<'_>, b: &Sized<'_>) -> Option<f64> {
        match self {
            Number::Width => stations_apart(a.widths, b.widths),
            Number::Thickness => stations_apart(a.thicknesses, b.thicknesses),
            _ => Some((self.of(a)? - self.of(b)?).abs()),
        }
    }
}

fn mean(stations: [Option<f64>; 3]) -> Option<f64> {
    let taken = || stations.iter().flatten();
    let count = taken().count();
    (count > 0).then(|| taken().sum::<f64>() / count as f64)
}

/// The widest gap between two sets of stations, whichever end each maker began from; `None` where one
/// of them has none. Stations that only one has are compared by the mean.
fn stations_apart(a: [Option<f64>; 3], b: [Option<f64>; 3]) -> Option<f64> {
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

/// The planks of one yard and one day.
pub(crate) struct Lot<'a> {
    planks: Vec<Sized<'a>>,
    /// Of each number, what the planks have, in order.
    spread: Vec<Vec<f64>>,
    /// On what share of the planks each kind of defect was found.
    common: BTreeMap<DefectKind, f64>,
}

impl<'a> Lot<'a> {
    pub(crate) fn new(planks: Vec<Sized<'a>>) -> Self {
        let sorted = |number: &Number| {
            let mut values: Vec<f64> = planks.iter().filter_map(|one| number.of(one)).collect();
            order::sort_by(&mut values, f64::total_cmp);
            values
        };
        let spread = NUMBERS.iter().map(sorted).collect();
        let mut common: BTreeMap<DefectKind, f64> = BTreeMap::new();
        for plank in &planks {
            for kind in order::set_of(plank.defects.iter().map(|(kind, _)| *kind)) {
                *common.entry(kind).or_default() += 1.0 / planks.len() as f64;
            }
        }
        Self {
            planks,
            spread,
            common,
        }
    }

    pub(crate) fn len(&self) -> usize {
        self.planks.len()
    }

    pub(crate) fn piece(&self, at: usize) -> &Piece {
        self.planks[at].piece
    }

    pub(crate) fn id(&self, at: usize) -> Id {
        self.planks[at].piece.id
    }

    /// The numbers by which planks are laid next to each other.
    pub(crate) fn keys(&self) -> impl Iterator<Item = Vec<Option<f64>>> {
        let key = |number: &Number| self.planks.iter().map(|one| number.of(one)).collect();
        NUMBERS[..4].iter().map(key)
    }

    /// How alike two planks are; `None` where they can't be one, or too little of them is known.
    pub(crate) fn compare(&self, a: usize, b: usize) -> Option<PossiblePair> {
        let (one, other) = (&self.planks[a], &self.planks[b]);
        let species = (one.species, other.species);
        let other_wood = matches!(species, (Some(a), Some(b)) if a != b);
        if other_wood || !one.piece.by.is_disjoint(&other.piece.by) {
            return None;
        }
        let (mut evidence, mut apart, mut compared) = (0.0, 0.0, 0);
        for (at, number) in NUMBERS.iter().enumerate() {
            let Some(gap) = number.gap(one, other) else {
                continue;
            };
            let middle = (number.of(one)? + number.of(other)?) / 2.0;
            let gap = gap / number.deviation(middle);
            // A gap that is no number is not within anything.
            let within = gap <= DEVIATIONS;
            if !within && !matches!(number, Number::Moisture) {
                return None;
            }
            evidence += self.evidence(at, *number, middle, gap.min(DEVIATIONS));
            if !matches!(number, Number::Moisture) {
                apart += gap / DEVIATIONS;
                compared += 1;
            }
        }
        let (of_defects, defects) = self.defects(one, other);
        (compared > 1).then(|| PossiblePair {
            a,
            b,
            evidence: evidence + of_defects,
            apart: apart / f64::from(compared),
            compared,
            defects,
        })
    }

    /// How much likelier a gap is between two readings of one plank than between two planks of this lot; `gap`
    /// in standard deviations.
    fn evidence(&self, at: usize, number: Number, middle: f64, gap: f64) -> f64 {
        /// The square root of two pi.
        const ROOT: f64 = 2.506_628_274_631_000_7;
        let deviation = number.deviation(middle);
        let of_one = libm::exp(-gap * gap / 2.0) / (ROOT * deviation);
        // So wide that where all are alike nothing is said by one that is alike too.
        let half = ROOT / 2.0 * deviation;
        let values = &self.spread[at];
        let from = values.partition_point(|value| *value < middle - half);
        let to = values.partition_point(|value| *value <= middle + half);
        // The two themselves are not among the others.
        let near = to.saturating_sub(from).saturating_sub(2) as f64;
        let others = values.len().saturating_sub(2) as f64;
        let any = ANY_PLANKS / number.range(middle);
        let of_two = (near / (2.0 * half) + any) / (others + ANY_PLANKS);
        libm::log(of_one / of_two)
    }

    /// What the defects say, and how many kinds were found on both.
    fn defects(&self, one: &Sized<'_>, other: &Sized<'_>) -> (f64, u32) {
        let kinds = |plank: &Sized<'_>| order::set_of(plank.defects.iter().map(|(kind, _)| *kind));
        let (of_one, of_other) = (kinds(one), kinds(other));
        let (mut evidence, mut both) = (0.0, 0);
        for kind in of_one.union(&of_other) {
            let usual = self.common.get(kind).copied().unwrap_or_default();
            let usual = usual.clamp(0.01, FOUND_AGAIN);
            if !(of_one.contains(kind) && of_other.contains(kind)) {
                evidence += libm::log((1.0 - FOUND_AGAIN) / (1.0 - usual)).min(0.0);
                continue;
            }
            both += 1;
            evidence += libm::log(FOUND_AGAIN / usual);
            if let Some(near) = at_one_place(*kind, one, other) {
                // By chance it lies so near in few planks.
                evidence += if near { 1.5 } else { -1.0 };
            }
        }
        (evidence, both)
    }
}

/// Whether a kind of defect lies at one place in both, from whichever end each maker measured; `None` where a
/// place was not noted.
fn at_one_place(kind: DefectKind, one: &Sized<'_>, other: &Sized<'_>) -> Option<bool> {
    let places = |plank: &Sized<'_>| {
        let places = plank.defects.iter().filter(|(found, _)| *found == kind);
        let places = places
            .filter_map(|(_, place)| *place)
            .map(|(from, to)| (from + to) / 2.0);
        places.collect::<Vec<f64>>()
    };
    let (of_one, of_other) = (places(one), places(other));
    if of_one.is_empty() || of_other.is_empty() {
        return None;
    }
    let near = |a: f64, b: f64| (a - b).abs() <= DEFECT_MM;
    let turned = |at: f64| other.length - at;
    Some(of_one.iter().any(|a| {
        let mut all = of_other.iter();
        all.any(|b| near(*a, *b) || near(*a, turned(*b)))
    }))
}
