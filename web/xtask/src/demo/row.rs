//! A row of the demo's table: what a hand typed for one plank, read as the app reads it.
//!
//! A text that begins with `~` was judged by eye. Stations are divided by `|`, faults as well. A text
//! that the app would question or not understand is an error here, so the table can't go wrong unseen.

use anyhow::{Context, Result, bail};
use serde::de::DeserializeOwned;
use stillwood_core::plank::{
    DefectFound, Field, Reading, Readings, Reason, Seen, Understood, understand,
};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::Decision;

/// One plank, as typed.
#[derive(Debug, Clone, serde::Deserialize)]
pub(super) struct Row {
    /// The phone that it was typed into.
    pub(super) phone: String,
    /// The pile's short name.
    pub(super) pile: String,
    length: String,
    width: String,
    thickness: String,
    weight: String,
    moisture: String,
    temperature: String,
    bow: String,
    crook: String,
    twist: String,
    cup: String,
    grain_face: String,
    grain_edge: String,
    rings: String,
    defects: String,
    decision: String,
    reasons: String,
    /// What was noted; empty for nothing.
    pub(super) note: String,
    then: String,
}

/// What became of a plank after it was first measured.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Then {
    /// First one field was typed wrong, and then put right: the field as it was first.
    Mistyped(Field, Reading),
    /// Some fields were measured once more.
    Again(Readings),
    /// It was judged once more.
    Later(Decision, Vec<Reason>),
    Withdrawn,
}

pub(super) fn rows(table: &str) -> Result<Vec<Row>> {
    csv::Reader::from_reader(table.as_bytes())
        .deserialize()
        .collect::<Result<_, _>>()
        .context("the table of planks")
}

impl Row {
    /// Its readings, field by field.
    pub(super) fn readings(&self, units: Units) -> Result<Readings> {
        use Field as F;
        let mut found = Found(Readings::new(), units);
        found.put(F::Length, &self.length)?;
        found.stations([F::WidthNear, F::WidthMiddle, F::WidthFar], &self.width)?;
        let thicknesses = [F::ThicknessNear, F::ThicknessMiddle, F::ThicknessFar];
        found.stations(thicknesses, &self.thickness)?;
        found.weight(&self.weight)?;
        found.put(F::Moisture, &self.moisture)?;
        found.put(F::WoodTemperature, &self.temperature)?;
        found.with(
            F::Bow,
            &self.bow,
            &[(" kink at ", F::BowKink), (" under ", F::BowOver)],
        )?;
        let crook = [(" kink at ", F::CrookKink), (" under ", F::CrookOver)];
        found.with(F::Crook, &self.crook, &crook)?;
        found.with(F::Twist, &self.twist, &[(" stick ", F::TwistStick)])?;
        found.with(F::Cup, &self.cup, &[(" under ", F::CupOver)])?;
        found.put(F::GrainFace, &self.grain_face)?;
        found.put(F::GrainEdge, &self.grain_edge)?;
        match self.rings.strip_prefix("chord ") {
            Some(ring) => {
                let rest = [(" dip ", F::RingDip), (" pith ", F::PithOffset)];
                found.with(F::RingChord, ring, &rest)?;
            }
            None => found.put(F::RingAngle, &self.rings)?,
        }
        Ok(found.0)
    }

    /// Its faults: `kind 100..180 (note)`, the place and the note as they are known.
    pub(super) fn faults(&self, units: Units) -> Result<Vec<DefectFound>> {
        self.defects
            .split('|')
            .filter(|text| !text.is_empty())
            .map(|text| {
                let (front, note) = match text.split_once(" (") {
                    Some((front, note)) => (front, note.trim_end_matches(')')),
                    None => (text, ""),
                };
                let (kind, place) = front.split_once(' ').unwrap_or((front, ""));
                let (from, to) = place.split_once("..").unwrap_or((place, ""));
                // Places are read without a question, as the app does.
                let at = |text: &str| {
                    let echo = understand(Field::BowKink, text, Seen::Measured, true, units);
                    echo.taken().cloned()
                };
                Ok(DefectFound {
                    kind: named(kind)?,
                    from: at(from),
                    to: at(to),
                    note: note.to_owned(),
                })
            })
            .collect()
    }

    /// What was decided, if anything was.
    pub(super) fn decision(&self) -> Result<Option<(Decision, Vec<Reason>)>> {
        if self.decision.is_empty() {
            return Ok(None);
        }
        Ok(Some((named(&self.decision)?, reasons(&self.reasons)?)))
    }

    /// What came after, in order.
    pub(super) fn then(&self, units: Units) -> Result<Vec<Then>> {
        self.then
            .split("; ")
            .filter(|text| !text.is_empty())
            .map(|text| {
                let (word, rest) = text.split_once(' ').unwrap_or((text, ""));
                Ok(match word {
                    "typed" => {
                        let (field, typed) = field_and_text(rest)?;
                        let mut found = Found(Readings::new(), units);
                        found.put(field, typed)?;
                        match found.0.remove(&field) {
                            Some(taken) => Then::Mistyped(field, taken),
                            None => bail!("\"{text}\": nothing is typed"),
                        }
                    }
                    "again" => {
                        let (field, typed) = field_and_text(rest)?;
                        let mut found = Found(Readings::new(), units);
                        found.put(field, typed)?;
                        Then::Again(found.0)
                    }
                    "later" => {
                        let (decision, why) = rest.split_once(' ').unwrap_or((rest, ""));
                        Then::Later(named(decision)?, reasons(why)?)
                    }
                    "withdrawn" => Then::Withdrawn,
                    _ => bail!("\"{text}\" is nothing that comes after"),
                })
            })
            .collect()
    }
}

/// Reads what a field of a pile says.
pub(super) fn taken(field: Field, text: &str, units: Units) -> Result<Option<Reading>> {
    let mut found = Found(Readings::new(), units);
    found.put(field, text)?;
    Ok(found.0.remove(&field))
}

fn reasons(text: &str) -> Result<Vec<Reason>> {
    text.split('|')
        .filter(|name| !name.is_empty())
        .map(named)
        .collect()
}

/// Something of a closed list, by its name in the record.
fn named<T: DeserializeOwned>(name: &str) -> Result<T> {
    serde_json::from_value(name.into()).with_context(|| format!("\"{name}\""))
}

fn field_and_text(text: &str) -> Result<(Field, &str)> {
    let (name, typed) = text.split_once('=').context("no \"field=text\"")?;
    // `thickness` alone is the one that stands for the whole plank.
    let field = match name {
        "thickness" => Field::ThicknessNear,
        _ => named(name)?,
    };
    Ok((field, typed))
}

struct Found(Readings, Units);

impl Found {
    fn put(&mut self, field: Field, text: &str) -> Result<()> {
        let (text, seen) = match text.strip_prefix('~') {
            Some(words) => (words, Seen::ByEye),
            None => (text, Seen::Measured),
        };
        match understand(field, text, seen, false, self.1) {
            Understood::Empty => Ok(()),
            Understood::Unreadable(why) => bail!("{} \"{text}\": {why}", field.label()),
            Understood::Read {
                warning: Some(warning),
                ..
            } => {
                bail!("{} \"{text}\": {}", field.label(), warning.question)
            }
            Understood::Read { taken, .. } => {
                self.0.insert(field, taken);
                Ok(())
            }
        }
    }

    fn stations(&mut self, [near, middle, far]: [Field; 3], text: &str) -> Result<()> {
        match text.split('|').collect::<Vec<_>>()[..] {
            [one] => self.put(near, one),
            [first, second, third] => {
                self.put(near, first)?;
                self.put(middle, second)?;
                self.put(far, third)
            }
            _ => bail!("\"{text}\": one station or three"),
        }
    }

    /// A field with others behind it, each after its words.
    fn with(&mut self, field: Field, text: &str, others: &[(&str, Field)]) -> Result<()> {
        let mut rest = text;
        for (words, other) in others.iter().rev() {
            if let Some((front, value)) = rest.split_once(words) {
                self.put(*other, value)?;
                rest = front;
            }
        }
        self.put(field, rest)
    }

    /// `19.7`, whole; `10.3 + 9.4`, both ends; `9.9 one end`; with ` over 300`, the overhang; or
    /// `5 hung at 1037`, balanced.
    fn weight(&mut self, text: &str) -> Result<()> {
        if let Some((mass, arm)) = text.split_once(" hung at ") {
            self.put(Field::BalanceMass, mass)?;
            return self.put(Field::BalanceArm, arm);
        }
        let (masses, overhang) = text.split_once(" over ").unwrap_or((text, ""));
        self.put(Field::WeightOverhang, overhang)?;
        if let Some(one) = masses.strip_suffix(" one end") {
            return self.put(Field::WeightFirst, one);
        }
        match masses.split_once(" + ") {
            Some((first, second)) => {
                self.put(Field::WeightFirst, first)?;
                self.put(Field::WeightSecond, second)
            }
            None => self.put(Field::WeightWhole, masses),
        }
    }
}
