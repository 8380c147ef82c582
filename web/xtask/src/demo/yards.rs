//! The two invented yards: their terms, what is wanted of their wood, and their piles.

use std::borrow::Cow;

use anyhow::Result;
use rust_decimal::Decimal;
use stillwood_core::plank::{Field, Reason};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::Id;
use stillwood_core::record::{PileOpened, SpeciesNamed, VisitOpened};
use stillwood_core::trade::{PriceBasis, Rounding, TallyMeasure, TallyRule, ThicknessBasis};
use stillwood_core::verdict::{Criterion, Form, Order, Requirement, Spec};

use super::phone::Day;
use super::row::taken;

/// A Friday in spring at the metric yard, a year and a half before.
pub(super) const FIRST_DAY: Day = Day {
    date: Cow::Borrowed("2024-03-22"),
    midnight_utc: 1_711_065_600_000,
    ahead: 1,
};
/// A Friday at the metric yard.
pub(super) const METRIC_DAY: Day = Day {
    date: Cow::Borrowed("2025-10-17"),
    midnight_utc: 1_760_659_200_000,
    ahead: 2,
};
/// A Friday at the yard of inches.
pub(super) const INCH_DAY: Day = Day {
    date: Cow::Borrowed("2025-11-14"),
    midnight_utc: 1_763_078_400_000,
    ahead: -5,
};

/// The wood that no table knows.
pub(super) const RIVER_CHERRY: &str = "own-river-cherry";

/// A pile, and what was left of it at the first look.
pub(super) struct PileGiven {
    /// Its short name in the table of planks.
    pub(super) key: &'static str,
    name: &'static str,
    species: &'static str,
    called: &'static str,
    nominal: &'static str,
    price: &'static str,
    basis: Option<PriceBasis>,
    moisture: &'static str,
    temperature: &'static str,
    /// How many were left together, and why.
    pub(super) passed: &'static [(u32, &'static [Reason])],
    pub(super) partner_passed: &'static [(u32, &'static [Reason])],
    pub(super) note: &'static str,
}

use Reason as R;

pub(super) const FIRST_PILES: [PileGiven; 2] = [
    PileGiven {
        key: "syc24",
        name: "Sycamore, narrow stuff",
        species: "maple-european",
        called: "European maple",
        nominal: "52",
        price: "1720",
        basis: None,
        moisture: "8,6",
        temperature: "11",
        passed: &[(9, &[R::Runout]), (7, &[R::TooSmall]), (4, &[R::Knot])],
        partner_passed: &[],
        note: "Off the edger: one row of laminates each.",
    },
    PileGiven {
        key: "wal24",
        name: "Walnut, offcuts of a staircase",
        species: "walnut-black",
        called: "black walnut",
        nominal: "52",
        price: "3900",
        basis: None,
        moisture: "8,5",
        temperature: "11",
        passed: &[(6, &[R::Sapwood]), (3, &[R::Checks])],
        partner_passed: &[],
        note: "",
    },
];

pub(super) const METRIC_PILES: [PileGiven; 3] = [
    PileGiven {
        key: "syc",
        name: "Sycamore, back wall",
        species: "maple-european",
        called: "European maple",
        nominal: "52",
        price: "1850",
        basis: None,
        moisture: "8,7",
        temperature: "9",
        passed: &[
            (12, &[R::Runout]),
            (8, &[R::Knot]),
            (6, &[R::Bow, R::Twist]),
            (5, &[R::Figure]),
            (4, &[R::NotSeen]),
            (3, &[]),
        ],
        partner_passed: &[],
        note: "Planks 4 to 9 look like one tree: same grey streak at the pith side.",
    },
    PileGiven {
        key: "wal",
        name: "Walnut, under the loft",
        species: "walnut-black",
        called: "black walnut",
        nominal: "8/4",
        price: "12.60",
        basis: Some(PriceBasis::BoardFoot),
        moisture: "8,5",
        temperature: "9",
        passed: &[
            (15, &[R::Sapwood]),
            (9, &[R::Knot]),
            (7, &[R::Checks, R::Split]),
            (4, &[R::Crook]),
            (3, &[R::TooSmall]),
        ],
        partner_passed: &[],
        note: "",
    },
    PileGiven {
        key: "pad",
        name: "Padauk, by the office",
        species: "padauk",
        called: "African padauk",
        nominal: "52",
        price: "6900",
        basis: None,
        moisture: "9",
        temperature: "9",
        passed: &[
            (6, &[R::TooSmall]),
            (5, &[R::Runout]),
            (3, &[R::Worm]),
            (2, &[]),
        ],
        partner_passed: &[],
        note: "Dark centre laminates. Wear the mask when it is planed.",
    },
];

/// The piles of the yard of inches; the second was opened by the partner.
pub(super) const INCH_PILES: [PileGiven; 2] = [
    PileGiven {
        key: "hard",
        name: "Hard maple, shed 2",
        species: "maple-sugar",
        called: "hard maple",
        nominal: "8/4",
        price: "9.40",
        basis: None,
        moisture: "7.5",
        temperature: "58",
        passed: &[
            (17, &[R::Runout]),
            (11, &[R::Twist, R::Bow]),
            (9, &[R::Figure]),
            (6, &[R::WrongRings]),
            (4, &[R::Knot]),
            (2, &[R::Decay]),
        ],
        partner_passed: &[(8, &[R::Runout]), (5, &[R::Checks]), (3, &[])],
        note: "",
    },
    PileGiven {
        key: "river",
        name: "River cherry, outside rack",
        species: RIVER_CHERRY,
        called: "river cherry",
        nominal: "8/4",
        price: "6.20",
        basis: None,
        moisture: "8",
        temperature: "57",
        passed: &[
            (12, &[R::Knot]),
            (9, &[R::Sapwood]),
            (6, &[R::Bow]),
            (4, &[R::Worm]),
            (5, &[]),
        ],
        partner_passed: &[],
        note: "Nobody here knows its botanical name. Trees from the river bank, sawn on the spot.",
    },
];

impl PileGiven {
    /// As it is written down.
    pub(super) fn opened(&self, visit: Id, units: Units) -> Result<PileOpened> {
        Ok(PileOpened {
            country_of_harvest: String::new(),
            invoice: String::new(),
            moisture: taken(Field::Moisture, self.moisture, units)?,
            name: self.name.to_owned(),
            nominal_thickness: taken(Field::ThicknessNear, self.nominal, units)?,
            price: Some(self.price()?),
            price_basis: self.basis,
            price_confirmed: false,
            rule: None,
            species: SpeciesNamed {
                id: Some(self.species.to_owned()),
                text: self.called.to_owned(),
            },
            visit,
            wood_temperature: taken(Field::WoodTemperature, self.temperature, units)?,
        })
    }

    /// What the yard asks for it.
    pub(super) fn price(&self) -> Result<Decimal> {
        Ok(self.price.parse()?)
    }
}

/// The metric yard: cubic metres, the thickness as it is sold, tax on top.
pub(super) fn metric_visit() -> VisitOpened {
    VisitOpened {
        budget: Some(Decimal::from(1600)),
        currency: "EUR".to_owned(),
        discount_percent: Decimal::ZERO,
        note: "Picking allowed, restack as found. They close at four.".to_owned(),
        price_basis: PriceBasis::CubicMetre,
        prices_include_tax: false,
        rule: TallyRule::default(),
        spec: metric_spec(),
        tax_percent: Decimal::from(20),
        yard: "Vessingholt Timber Yard".to_owned(),
    }
}

/// The metric yard a year and a half before: a small purse.
pub(super) fn first_visit() -> VisitOpened {
    VisitOpened {
        budget: Some(Decimal::from(300)),
        note: "A first try: enough for a few necks.".to_owned(),
        spec: Spec {
            blanks_wanted: 4,
            ..metric_spec()
        },
        ..metric_visit()
    }
}

/// The yard of inches: surface measure, from what the tape says.
pub(super) fn inch_visit() -> VisitOpened {
    VisitOpened {
        budget: Some(Decimal::from(1000)),
        currency: "USD".to_owned(),
        discount_percent: Decimal::ZERO,
        note: "Agreed at the gate: surface measure, width and length as the tape says.".to_owned(),
        price_basis: PriceBasis::BoardFoot,
        prices_include_tax: false,
        rule: TallyRule {
            measure: TallyMeasure::SurfaceMeasure,
            width: Rounding::None,
            length: Rounding::None,
            thickness: ThicknessBasis::Nominal,
            added_percent: Decimal::ZERO,
        },
        spec: inch_spec(),
        tax_percent: Decimal::new(625, 2),
        yard: "Plumlatch Lumber".to_owned(),
    }
}

/// How the yard of inches takes its tally in truth: width and length both go up.
pub(super) fn yards_own_rule() -> TallyRule {
    TallyRule {
        width: Rounding::Up,
        length: Rounding::Up,
        ..inch_visit().rule
    }
}

fn laminates() -> Spec {
    let mut supplied = Spec::supplied();
    supplied.swap_remove(0)
}

fn put(spec: &mut Spec, criterion: Criterion, form: Form) {
    spec.criteria.retain(|c| c.criterion != criterion);
    spec.criteria.push(Requirement { criterion, form });
}

/// Laminates of sycamore and walnut, dark ones of padauk between them: the window is wide.
fn metric_spec() -> Spec {
    let mut spec = Spec {
        name: "Laminates, light and dark".to_owned(),
        blanks_wanted: 12,
        ..laminates()
    };
    let density = Form::Within {
        low_limit: 520.0,
        low_target: 580.0,
        high_target: 780.0,
        high_limit: 860.0,
    };
    put(&mut spec, Criterion::Density, density);
    spec
}

/// Laminates for stiff necks: the rings must stand once they are turned on edge.
fn inch_spec() -> Spec {
    let mut spec = Spec {
        name: "Laminates, rings upright".to_owned(),
        blanks_wanted: 8,
        order: Order::Score,
        ..laminates()
    };
    let density = Form::Within {
        low_limit: 480.0,
        low_target: 560.0,
        high_target: 760.0,
        high_limit: 840.0,
    };
    put(&mut spec, Criterion::Density, density);
    let rings = Form::AtLeast {
        target: 60.0,
        limit: 30.0,
    };
    put(&mut spec, Criterion::RingAngle, rings);
    spec
}
