//! A maker in a yard, for the scenarios: what is typed, and what a [`Phone`] records of it. All invented.

pub use crate::phone::{Phone, from_file};
use rust_decimal::Decimal;
use stillwood_core::plank::{
    Field, Instruments, Plank, Readings, Seen, mean_of_stations, understand,
};
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{Length, mm};
use stillwood_core::record::{Id, Log, State};
use stillwood_core::trade::{PriceBasis, PricesAre, Sawn, TallyLine, TallyRule, Terms};
use stillwood_core::verdict::{Part, Sheet, Spec, sheet};

/// Readings from what is typed, metric; panics on what is not understood.
pub fn typed(texts: &[(Field, &str)]) -> Readings {
    texts
        .iter()
        .map(|(field, text)| {
            let echo = understand(*field, text, Seen::Measured, false, Units::Metric);
            let taken = echo.taken().unwrap_or_else(|| panic!("{text}: {echo:?}"));
            (*field, taken.clone())
        })
        .collect()
}

/// The plank of the happy day.
pub const A7: [(Field, &str); 17] = [
    (Field::Length, "2620"),
    (Field::WidthNear, "214"),
    (Field::WidthMiddle, "205"),
    (Field::WidthFar, "193"),
    (Field::ThicknessNear, "52"),
    (Field::WeightFirst, "10.3"),
    (Field::WeightSecond, "9.4"),
    (Field::Moisture, "10.5"),
    (Field::WoodTemperature, "8"),
    (Field::Bow, "9"),
    (Field::Crook, "4"),
    (Field::Twist, "12 left"),
    (Field::Cup, "4"),
    (Field::RingChord, "150"),
    (Field::RingDip, "25"),
    (Field::GrainFace, "12/300"),
    (Field::GrainEdge, "15/300"),
];

/// Pieces of 950 x 80, to be ripped and turned on edge.
pub fn wanted() -> Spec {
    Spec {
        part: Part {
            length_mm: 950.0,
            width_mm: 45.0,
            thickness_mm: 80.0,
        },
        ..Spec::supplied().swap_remove(0)
    }
}

/// Its sheet, with the usual tools.
pub fn sheet_of(readings: &Readings, spec: &Spec) -> Sheet {
    sheet(readings, &[], &Instruments::default(), spec)
}

/// A7 with some fields typed anew.
pub fn a7_with(more: &[(Field, &str)]) -> Readings {
    let mut readings = typed(&A7);
    readings.extend(typed(more));
    readings
}

/// The yard's terms in the scenarios: 14.50 a board foot net, 20 % tax.
pub fn terms(rule: TallyRule) -> Terms {
    Terms {
        rule,
        price: Some((Decimal::new(1450, 2), PriceBasis::BoardFoot)),
        discount_percent: Decimal::ZERO,
        tax_percent: Decimal::from(20),
        prices_are: PricesAre::Net,
    }
}

/// A plank as it is charged: mean width, least thickness, nominal 8/4.
pub fn line(mark: &str, plank: &Plank) -> TallyLine {
    TallyLine {
        mark: mark.into(),
        sawn: Sawn {
            length: plank.length,
            width: mean_of_stations(&plank.widths),
            thickness: plank.thicknesses.least(),
            nominal: Some(nominal()),
        },
        width_with_wane: None,
        mass: None,
    }
}

/// 8/4.
pub fn nominal() -> Length {
    mm(50.8)
}

impl Phone {
    pub fn plank(&mut self, pile: Id, mark: &str, texts: &[(Field, &str)]) -> Id {
        let piece = self.marked(pile, mark.to_owned());
        self.measure(piece, typed(texts));
        piece
    }
}

/// How many pieces a record holds.
pub fn count(log: &Log) -> usize {
    State::project(log).pieces().count()
}
