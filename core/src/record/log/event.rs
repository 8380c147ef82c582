//! What can happen to wood: a closed list of happenings and what each of them says.
//!
//! A body keeps what was typed and decided. It never holds what can be computed from it, except the
//! score that the maker saw when deciding. Keys are declared in the order of the alphabet, as the file
//! writes them. The bodies of what happens in the workshop are in the room of that name.

use crate::plank::{DefectFound, Reading, Readings, Reason};
use crate::record::log::DeviceRenamed;
use crate::record::log::id::Id;
use crate::record::log::species_named::SpeciesNamed;
use crate::record::log::{ConflictSettled, ImportUndone};
use crate::record::log::{
    Cut, Discarded, Downgraded, Glued, GluingSet, GrainSeen, Machined, Missing, MoistureRead,
    MovementChecked, Placed, Released, Reserved, RoomRead, SetToRest, StageSet, StressTested,
    TargetSet, Used, Weighed,
};
use crate::trade::{PriceBasis, TallyRule};
use crate::verdict::{Criterion, Spec};
use crate::wood::Dust;
use rust_decimal::Decimal;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::sync::Arc;

/// What was decided about a plank.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    schemars::JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Decision {
    Take,
    /// Left at the yard.
    Leave,
    /// Put on one side, to be looked at again.
    SetAside,
}

/// A visit to a yard begins. `about` is the visit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct VisitOpened {
    /// What may be spent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<String>")]
    pub budget: Option<Decimal>,
    /// The currency's letters.
    #[serde(default)]
    pub currency: String,
    /// Taken off the price, in percent.
    #[serde(default)]
    #[schemars(with = "String")]
    pub discount_percent: Decimal,
    /// The maker's note.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// What the yard's prices are per.
    pub price_basis: PriceBasis,
    /// Whether the prices on the board hold the tax already.
    #[serde(default)]
    pub prices_include_tax: bool,
    /// How the yard takes its tally.
    pub rule: TallyRule,
    /// What the wood is wanted for.
    pub spec: Spec,
    /// The tax, in percent.
    #[serde(default)]
    #[schemars(with = "String")]
    pub tax_percent: Decimal,
    /// The yard's name.
    pub yard: String,
}

/// A pile is begun. `about` is the pile. What is absent is as the visit says.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct PileOpened {
    /// The country in which the trees were felled, for the wood's papers.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub country_of_harvest: String,
    /// The number of the yard's invoice, for the wood's papers.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub invoice: String,
    /// What the meter showed for the pile.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub moisture: Option<Reading>,
    /// The maker's name for it.
    #[serde(default)]
    pub name: String,
    /// The thickness it is sold as.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub nominal_thickness: Option<Reading>,
    /// Its price, before discount.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<String>")]
    pub price: Option<Decimal>,
    /// What the price is per, where it is not as the visit says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price_basis: Option<PriceBasis>,
    /// The maker said "yes, really" to a question about the price.
    #[serde(
        rename = "price_insisted",
        default,
        skip_serializing_if = "std::ops::Not::not"
    )]
    pub price_confirmed: bool,
    /// The tally rule, where it is not as the visit says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rule: Option<TallyRule>,
    /// The wood.
    pub species: SpeciesNamed,
    /// The visit that it belongs to.
    pub visit: Id,
    /// How warm the wood is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wood_temperature: Option<Reading>,
}

/// Planks looked at and left in the quick sort. `about` is the pile.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct PassedOver {
    /// How many.
    pub count: u32,
    /// Why, the main reason first; empty where no reason was given.
    #[serde(default)]
    pub reasons: Vec<Reason>,
}

/// A plank that may be worth having is given its mark. `about` is the piece, which begins here.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Marked {
    /// What is chalked on it.
    pub mark: String,
    /// The pile that it came from.
    pub pile: Id,
}

/// A piece is measured. `about` is the piece. Later readings are laid over earlier ones, field by
/// field; both are kept.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Measured {
    /// Defects found; added to those found before.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub defects: Vec<DefectFound>,
    /// The readings.
    #[serde(default)]
    pub readings: Readings,
    /// The wood, where it is not as the pile says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub species: Option<SpeciesNamed>,
}

/// A piece is judged. `about` is the piece.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Judged {
    /// What the maker decided.
    pub decision: Decision,
    /// What was proposed, if anything was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub proposed: Option<Decision>,
    /// Why, the main reason first.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub reasons: Vec<Reason>,
    /// The score that the maker saw.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub score: Option<f64>,
    /// The weakest criterion that the maker saw.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weakest: Option<Criterion>,
}

impl Judged {
    /// Whether the maker decided otherwise than was proposed.
    pub fn overruled(&self) -> bool {
        self.proposed.is_some_and(|p| p != self.decision)
    }
}

/// What the yard counts and asks for one plank, or for a whole visit.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema)]
pub struct YardFigures {
    /// Board feet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<String>")]
    pub board_feet: Option<Decimal>,
    /// Cubic metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<String>")]
    pub cubic_metres: Option<Decimal>,
    /// Money.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<String>")]
    pub money: Option<Decimal>,
}

impl YardFigures {
    /// Its figures, and of those that it does not have what was said before.
    pub(crate) fn over(&self, before: &Self) -> Self {
        Self {
            board_feet: self.board_feet.or(before.board_feet),
            cubic_metres: self.cubic_metres.or(before.cubic_metres),
            money: self.money.or(before.money),
        }
    }
}

/// A note. `about` is a visit, a pile or a piece.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Noted {
    /// What was written.
    pub text: String,
}

/// Two records are told to be of the same plank, or of different ones. `about` is one of them.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct SamePlank {
    /// The other.
    pub other: Id,
    /// The same plank, or not.
    pub same: bool,
}

/// A number about a wood and where it comes from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct SourcedNumber {
    /// Where the maker has it from.
    #[serde(default)]
    pub source: String,
    /// Exactly what was typed.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub typed: String,
    /// Its unit.
    #[serde(default)]
    pub unit: String,
    /// The number.
    pub value: f64,
}

/// A wood of the maker's own. `about` is the wood. It travels in the record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, schemars::JsonSchema)]
pub struct WoodAdded {
    /// The name in use.
    pub common: String,
    /// What its dust is known to do; absent is not known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dust: Option<Dust>,
    /// What [`SpeciesNamed::id`] refers to.
    pub id: String,
    /// The maker's note.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// What is known of it, by the name of [`crate::wood::OwnNumber::key`]; every number is optional.
    #[serde(default)]
    pub numbers: BTreeMap<String, SourcedNumber>,
    /// The botanical name, where it is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub scientific: Option<String>,
}

/// What the entry replaces is taken back, and nothing is put in its place.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, schemars::JsonSchema)]
pub struct Withdrawn {}

/// Reads what an event says. It is kept out of what calls it: a start compiles the code of those events only that its
/// record holds.
#[inline(never)]
fn read<T: DeserializeOwned>(body: &str) -> Result<T, serde_json::Error> {
    serde_json::from_str(body)
}

macro_rules! events {
    ($($variant:ident, $name:literal, $body:ty, $doc:literal;)*) => {
        /// One event, or one from a newer version that this one does not know.
        #[derive(Debug, Clone, PartialEq)]
        pub enum Event {
            $(#[doc = $doc] $variant($body),)*
            /// Not known to this version: carried along untouched. What it says is in
            /// [`crate::record::log::Entry::body`].
            Unknown {
                /// What the newer version calls it.
                kind: String,
            },
        }

        impl Event {
            /// The names of all that this version knows.
            pub const NAMES: &'static [&'static str] = &[$($name),*];

            /// Its name in the file.
            pub fn kind(&self) -> &str {
                match self {
                    $(Event::$variant(_) => $name,)*
                    Event::Unknown { kind } => kind,
                }
            }

            /// Reads a body of the named kind; `None` where this version knows no such kind.
            pub(crate) fn from_body(kind: &str, body: &str) -> Option<Result<Self, serde_json::Error>> {
                match kind {
                    $($name => Some(read(body).map(Event::$variant)),)*
                    _ => None,
                }
            }

            /// Writes the body; nothing where the kind is unknown, because its body is kept as text.
            pub(crate) fn write_body(&self, out: &mut Vec<u8>) -> Result<(), serde_json::Error> {
                match self {
                    $(Event::$variant(body) => serde_json::to_writer(out, body),)*
                    Event::Unknown { .. } => Ok(()),
                }
            }

            pub(crate) fn body_schemas(
                generator: &mut schemars::SchemaGenerator,
            ) -> Vec<(&'static str, schemars::Schema)> {
                vec![$(($name, generator.subschema_for::<$body>())),*]
            }
        }
    };
}

// What is said of a piece again and again is shared with the state, not copied into it: `Arc`. What is large
// and seldom is in a `Box`.
events! {
    VisitOpened, "visit_opened", Box<VisitOpened>, "A visit to a yard begins.";
    PileOpened, "pile_opened", Box<PileOpened>, "A pile is begun.";
    PassedOver, "passed_over", PassedOver, "Planks looked at and left.";
    Marked, "marked", Marked, "A plank is given its mark.";
    Measured, "measured", Measured, "A piece is measured.";
    Judged, "judged", Judged, "A piece is judged.";
    YardLine, "yard_line", YardFigures, "The yard's own line for a piece.";
    YardTotal, "yard_total", YardFigures, "The yard's own total.";
    Noted, "noted", Noted, "A note.";
    SamePlank, "told", SamePlank, "Two records are told to be of one plank, or of two.";
    WoodAdded, "wood_added", Box<WoodAdded>, "A wood of the maker's own.";
    Withdrawn, "withdrawn", Withdrawn, "An entry is taken back.";
    ConflictSettled, "conflict_settled", Box<ConflictSettled>, "The maker says which of several lines under one id is right.";
    ImportUndone, "import_undone", Box<ImportUndone>, "What an import brought is taken out of force.";
    DeviceRenamed, "device_renamed", Box<DeviceRenamed>, "A device gets another name or identity.";
    Cut, "cut", Arc<Cut>, "A piece is cut into others.";
    Machined, "machined", Box<Machined>, "A piece is machined flat: its movement counts from here.";
    StressTested, "stress_tested", Box<StressTested>, "An offcut was tested for stress.";
    Placed, "placed", Placed, "A piece is put in its place: it arrived, was moved or was found.";
    SetToRest, "set_to_rest", Arc<SetToRest>, "A piece is set to rest.";
    Weighed, "weighed", Arc<Weighed>, "A piece is weighed.";
    MoistureRead, "moisture_read", Arc<MoistureRead>, "A piece's moisture is read.";
    MovementChecked, "movement_checked", Arc<MovementChecked>, "A piece is looked at for movement.";
    RoomRead, "room_read", Box<RoomRead>, "The air of a room is read.";
    Glued, "glued", Box<Glued>, "Laminates are glued to a blank.";
    Discarded, "discarded", Discarded, "A piece is thrown out.";
    Downgraded, "downgraded", Downgraded, "A piece is put to another use than a neck.";
    Missing, "missing", Missing, "A piece can't be found.";
    Reserved, "reserved", Reserved, "A piece is kept for somebody.";
    Released, "released", Released, "A piece is no longer kept for anybody.";
    Used, "used", Used, "A piece went into an instrument, or was handed over.";
    StageSet, "stage_set", Box<StageSet>, "The maker sets the terms of a stage.";
    TargetSet, "wished", Box<TargetSet>, "The maker says which blanks are needed.";
    GluingSet, "gluing_set", Box<GluingSet>, "The maker sets how far laminates glued together may be off.";
    GrainSeen, "grain_seen", Box<GrainSeen>, "The rings and the grain of a laminate are looked at.";
}

impl Event {
    /// The marks that it puts on wood.
    pub fn marks(&self) -> Vec<&str> {
        match self {
            Event::Marked(marked) => vec![&marked.mark],
            Event::Cut(cut) => cut.children.iter().map(|c| c.mark.as_str()).collect(),
            Event::Glued(glued) => vec![&glued.mark],
            _ => Vec::new(),
        }
    }
}
