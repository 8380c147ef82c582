//! Laminates and limits as plain numbers, checked once, and the sum that is made of them place by place.

use super::formulas::{COST, MEAN_CROOK, MEAN_TWIST};
use super::{Laminate, MatchError, MatchLimits};
use crate::neck::{Layer, stiffness_along_glue_lines};
use crate::plank::{RingClass, RingTilt, RunoutDirection};
use crate::quantity::TraceOff;
use crate::quantity::{Length, in_kg_per_m3, in_mm, is_positive};
use uom::si::f64::Pressure;
use uom::si::pressure::gigapascal;

/// What a warning adds to the cost: more than all else together, so that warnings come first.
pub(super) const WARNED: f64 = 100.0;
/// What a limit's worth counts that matters less.
pub(super) const QUIET: f64 = 0.2;

/// A laminate in millimetres, percent, kg/m³ and GPa.
#[derive(Debug, Clone, Copy)]
pub(super) struct Numbers {
    pub(super) wood: u32,
    /// What its crook counts by: its edgewise stiffness, N m².
    pub(super) say: f64,
    pub(super) crook: Option<f64>,
    pub(super) twist: Option<f64>,
    pub(super) bow: Option<f64>,
    /// -1 or 1 for the side to which the rings lean; 0 for neither, or where it is not known.
    pub(super) lean: f64,
    /// -1 or 1 for the way in which the grain runs out; 0 for none, or where it is not known.
    pub(super) rise: f64,
    pub(super) lean_unknown: bool,
    pub(super) rise_unknown: bool,
    moisture: Option<f64>,
    class: Option<RingClass>,
    density: Option<f64>,
    modulus: Option<f64>,
    thickness: f64,
}

impl Numbers {
    pub(super) fn moisture_unknown(&self) -> bool {
        self.moisture.is_none()
    }

    /// -1 or 1 for the way in which its grain runs out once it is rolled or not, and spun so that its
    /// rings lean as they should at a place: to one side at even places, to the other at odd ones. 0 where
    /// that can be chosen, or is not known.
    pub(super) fn runs_at(&self, place: usize, turned_over: bool) -> f64 {
        let side = if place.is_multiple_of(2) { 1.0 } else { -1.0 };
        let turned = if turned_over { -1.0 } else { 1.0 };
        self.rise * self.lean * turned * side
    }
}

pub(super) fn numbers(stock: &[Laminate]) -> Result<Vec<Numbers>, MatchError> {
    // One modulus that is not known would give its laminate a say of its own: then all have the same.
    let all_known = stock.iter().all(|laminate| laminate.modulus.is_some());
    stock.iter().map(|one| number(one, all_known)).collect()
}

fn number(laminate: &Laminate, moduli_known: bool) -> Result<Numbers, MatchError> {
    let known = |value: Option<f64>| match value {
        Some(value) if !value.is_finite() => Err(MatchError::Number(value)),
        other => Ok(other),
    };
    let layer = Layer {
        thickness: laminate.thickness,
        width: laminate.width,
        modulus: laminate
            .modulus
            .filter(|_| moduli_known)
            .unwrap_or(Pressure::new::<gigapascal>(10.0)),
    };
    let say = stiffness_along_glue_lines(&mut TraceOff, &[layer])
        .map_err(|_| MatchError::Size(laminate.thickness.min(laminate.width)))?
        .in_newton_square_metres();
    let length = |value: Option<Length>| known(value.map(in_mm));
    Ok(Numbers {
        wood: laminate.wood,
        say,
        crook: length(laminate.crook)?,
        twist: length(laminate.twist)?,
        bow: length(laminate.bow)?,
        lean: laminate.lean.map_or(0.0, RingTilt::sign),
        rise: laminate.rise.map_or(0.0, RunoutDirection::sign),
        lean_unknown: laminate.lean.is_none(),
        rise_unknown: laminate.rise.is_none(),
        moisture: known(laminate.moisture.map(|moisture| moisture.in_percent()))?,
        class: laminate.ring_class,
        density: known(laminate.density.map(in_kg_per_m3))?,
        modulus: known(laminate.modulus.map(|modulus| modulus.get::<gigapascal>()))?,
        thickness: in_mm(laminate.thickness),
    })
}

/// Limits in the same units.
#[derive(Debug, Clone, Copy)]
pub(super) struct Limits {
    crook: f64,
    twist: f64,
    moisture: f64,
    density: f64,
    thickness: f64,
    modulus: f64,
}

pub(super) fn limits(limits: &MatchLimits) -> Result<Limits, MatchError> {
    let limit = |value: f64| {
        if is_positive(value) {
            Ok(value)
        } else {
            Err(MatchError::Number(value))
        }
    };
    Ok(Limits {
        crook: limit(in_mm(limits.crook))?,
        twist: limit(in_mm(limits.twist))?,
        moisture: limit(limits.moisture_spread.in_percent())?,
        density: limit(in_kg_per_m3(limits.density))?,
        thickness: limit(in_mm(limits.thickness))?,
        modulus: limit(limits.modulus_share)?,
    })
}

impl Limits {
    /// What a twist in one laminate adds to the mean of a blank of so many places, in limits.
    pub(super) fn twist_of(&self, twist: f64, places: usize) -> f64 {
        twist / places as f64 / self.twist
    }
}

/// How unlike two mirrored laminates are, in limits; another wood is a warning.
pub(super) fn unlike(a: &Numbers, b: &Numbers, limits: &Limits) -> f64 {
    // What was not measured counts as off by a limit.
    let off =
        |pair: Option<(f64, f64)>, limit: f64| pair.map_or(1.0, |(a, b)| (a - b).abs() / limit);
    let share = |(a, b): (f64, f64)| {
        let larger = a.abs().max(b.abs());
        if larger > 0.0 {
            (a / larger, b / larger)
        } else {
            (0.0, 0.0)
        }
    };
    off(Some((a.thickness, b.thickness)), limits.thickness)
        + QUIET * off(a.density.zip(b.density), limits.density)
        + QUIET * off(a.modulus.zip(b.modulus).map(share), limits.modulus)
        + if a.wood == b.wood { 0.0 } else { WARNED }
}

/// The laminates placed so far, added up.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Sum {
    count: f64,
    /// Sum of crook times say, and of the says.
    crooks: f64,
    says: f64,
    twists: f64,
    /// What can only grow: unlike pairs and what was not measured.
    fixed: f64,
    /// How many run out one way, and how many the other.
    ways: (f64, f64),
    moisture: Option<(f64, f64)>,
    class: Option<RingClass>,
    pub(super) mixed: bool,
}

impl Sum {
    /// One more, rolled or not; `runs` is -1 or 1 for the way in which its grain runs out there.
    pub(super) fn with(mut self, one: &Numbers, turned_over: bool, runs: f64) -> Self {
        let turned = if turned_over { -1.0 } else { 1.0 };
        self.count += 1.0;
        self.says += one.say;
        self.crooks += turned * one.say * one.crook.unwrap_or_default();
        self.twists += one.twist.unwrap_or_default();
        self.ways.0 += runs.max(0.0);
        self.ways.1 += (-runs).max(0.0);
        let unknown = [
            one.crook.is_none(),
            one.twist.is_none(),
            one.moisture.is_none(),
        ];
        self.fixed += unknown.iter().filter(|unknown| **unknown).count() as f64;
        if let Some(moisture) = one.moisture {
            let (low, high) = self.moisture.unwrap_or((moisture, moisture));
            self.moisture = Some((low.min(moisture), high.max(moisture)));
        }
        match (self.class, one.class) {
            (Some(before), Some(now)) => self.mixed |= before != now,
            (None, now) => self.class = now,
            (Some(_), None) => {}
        }
        self
    }

    pub(super) fn mirrored(mut self, unlike: f64) -> Self {
        self.fixed += unlike;
        self
    }

    pub(super) fn mean_crook(&self) -> f64 {
        if self.says > 0.0 {
            MEAN_CROOK.of([self.crooks, self.says])
        } else {
            0.0
        }
    }

    pub(super) fn mean_twist(&self) -> f64 {
        if self.count > 0.0 {
            MEAN_TWIST.of([self.twists, self.count])
        } else {
            0.0
        }
    }

    pub(super) fn moisture_spread(&self) -> Option<f64> {
        self.moisture.map(|(low, high)| high - low)
    }

    pub(super) fn too_unlike_moisture(&self, limits: &Limits) -> bool {
        // A hair more, so that 8.1 and 9.1 % are 1 % apart.
        self.moisture_spread()
            .is_some_and(|spread| spread > limits.moisture + 1e-9)
    }

    /// What can't get less as more laminates are added.
    pub(super) fn settled(&self, limits: &Limits) -> f64 {
        let warned =
            f64::from(u8::from(self.too_unlike_moisture(limits))) + f64::from(u8::from(self.mixed));
        self.fixed + WARNED * warned + QUIET * self.ways.0.min(self.ways.1)
    }

    /// The cost in limits: mean crook, mean twist, unlike mirrored pairs, grain that runs out against the
    /// rest, warnings.
    pub(super) fn cost(&self, limits: &Limits) -> f64 {
        COST.of([
            self.mean_crook(),
            limits.crook,
            self.mean_twist(),
            limits.twist,
            self.settled(limits),
        ])
    }

    /// What no blank that goes on from here can cost less than. `to_come` is what the twist so far, in
    /// limits of the whole blank's mean, and the laminates still to be placed cost at least.
    pub(super) fn bound(&self, limits: &Limits, rest: &Reach, to_come: impl Fn(f64) -> f64) -> f64 {
        let crooks = (self.crooks.abs() - rest.crooks).max(0.0);
        let places = self.count as usize + rest.count;
        self.settled(limits)
            + crooks / (self.says + rest.says) / limits.crook
            + to_come(limits.twist_of(self.twists, places))
    }
}

/// The most that the laminates still to be placed can add.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Reach {
    count: usize,
    crooks: f64,
    says: f64,
}

/// For 0 to `places` laminates still to be placed, the most that any of the stock can add.
pub(super) fn reaches(stock: &[Numbers], places: usize) -> Vec<Reach> {
    let largest = |of: &dyn Fn(&Numbers) -> f64| {
        let mut all: Vec<f64> = stock.iter().map(of).collect();
        crate::order::sort_by(&mut all, |a, b| b.total_cmp(a));
        all
    };
    let crooks = largest(&|one| one.say * one.crook.unwrap_or_default().abs());
    let says = largest(&|one| one.say);
    let sum = |all: &[f64], count: usize| all.iter().take(count).sum();
    (0..=places)
        .map(|count| Reach {
            count,
            crooks: sum(&crooks, count),
            says: sum(&says, count),
        })
        .collect()
}
