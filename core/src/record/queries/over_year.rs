//! How much a blank moves over the year of the room that it lies in: across its glue lines and along them.
//!
//! It takes each laminate to be free of its neighbours and to follow the mean air of each month fully, so
//! the blank itself moves no more. A year that was hardly read says nothing.

use crate::quantity::{
    Derivation, Length, Moisture, Trace, TraceOff, celsius, formula, in_mm, mm, show,
};
use crate::record::log::RoomRead;
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::queries::drying::ROOM_CELSIUS;
use crate::record::state::Dated;
use crate::record::state::{Piece, State};
use crate::wood::{Across, Air, EmcError, Humidity, OverYear, ShrinkageError, WorkshopYear, emc};
use chrono::{Datelike, Months};
use std::collections::BTreeMap;
use thiserror::Error;

/// In fewer months of a year than these the air has to be read for it to count as read (common practice, no
/// source).
const LEAST_MONTHS: usize = 10;

formula! {
    /// Movements added up.
    ACROSS: "All its laminates across the glue lines", "Δ", "mm";
    one: "Δ₁", "movement of each through its thickness", "mm";
    = one;
    range "each free to move";
    source "a sum";
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BlankOverYear {
    /// The moistures between which its wood goes.
    pub year: WorkshopYear,
    /// How much wider it is across its glue lines at the dampest than at the driest.
    pub across: Length,
    /// How much deeper its laminate that moves most is along them.
    pub along: Length,
}

/// Why nothing can be told of a blank's year.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum NoYear {
    /// The room that it lies in is not known, or its humidity was never read.
    #[error("the air of its room was not read")]
    NoRoom,
    /// Its air was read in few months.
    #[error("of the last twelve months of its room {0} were read: it takes {LEAST_MONTHS}")]
    FewMonths(usize),
    /// An air that no equilibrium is known of.
    #[error(transparent)]
    Air(#[from] EmcError),
    /// A size is not known.
    #[error("the sizes of its laminates are not known")]
    Sizes,
    /// The rings of a laminate are not known.
    #[error("how the rings of {0} stand was not looked at")]
    Rings(String),
    /// How a wood shrinks is not known.
    #[error("how {0} shrinks is not known")]
    Wood(String),
    /// A moisture at which no movement can be given.
    #[error(transparent)]
    Moisture(#[from] ShrinkageError),
}

/// The air of a month, and where wood settles in it.
#[derive(Debug, Clone, Copy)]
struct Settled {
    month: (i32, u32),
    air: Air,
    moisture: Moisture,
}

/// The humidities and temperatures that were read in a month.
type Read = (Vec<f64>, Vec<f64>);

fn mean(values: &[f64]) -> Option<f64> {
    let sum: f64 = values.iter().sum();
    (!values.is_empty()).then(|| sum / values.len() as f64)
}

/// The mean air of each month of a piece's room, of the twelve months of the calendar of which its last reading is
/// in the last.
fn year_of_room(state: &State, piece: &Piece) -> Result<Vec<Settled>, NoYear> {
    let read = queries::drying::room_of(state, piece).unwrap_or_default();
    let humid = |said: &&Dated<RoomRead>| said.payload.climate.humidity.is_some();
    let last = read.iter().rfind(humid).ok_or(NoYear::NoRoom)?.on;
    let eleven_before = last.checked_sub_months(Months::new(11)).unwrap_or(last);
    let begins = eleven_before.with_day(1).unwrap_or(eleven_before);
    let mut months: BTreeMap<(i32, u32), Read> = BTreeMap::new();
    for said in read.iter().filter(|said| said.on >= begins) {
        let climate = &said.payload.climate;
        if let Some(humidity) = &climate.humidity {
            let month = months.entry((said.on.year(), said.on.month())).or_default();
            month.0.push(humidity.value);
            let warm = climate.temperature.as_ref();
            month.1.extend(warm.map(|taken| taken.value));
        }
    }
    if months.len() < LEAST_MONTHS {
        return Err(NoYear::FewMonths(months.len()));
    }
    let settled = |(month, (humid, warm)): ((i32, u32), Read)| {
        let air = Air {
            temperature: celsius(mean(&warm).unwrap_or(ROOM_CELSIUS)),
            humidity: Humidity::percent(mean(&humid).unwrap_or(f64::NAN)),
        };
        Ok(Settled {
            month,
            air,
            moisture: emc(&mut TraceOff, air.temperature, air.humidity)?,
        })
    };
    months.into_iter().map(settled).collect()
}

/// How much a blank moves over the year of its room, the twelve months of the calendar up to that of the
/// last reading there, each by its mean air.
///
/// An error where that was not read for a year, or where a size, the rings or the shrinkage of a
/// laminate are not known. Derived here: each laminate free of its neighbours, see
/// [`crate::wood::Species::movement`].
///
/// No published value: sums of movements that have rows.
pub fn blank_over_year(state: &State, blank: &Piece) -> Result<BlankOverYear, NoYear> {
    let year = driest_and_dampest(&year_of_room(state, blank)?)?;
    over_year(state, &mut TraceOff, blank, &year)
}

fn over_year(
    state: &State,
    trace: &mut impl Trace,
    blank: &Piece,
    year: &OverYear<Settled>,
) -> Result<BlankOverYear, NoYear> {
    let section = queries::section_of(state, blank).ok_or(NoYear::Sizes)?;
    let (driest, dampest) = (year.driest.moisture, year.dampest.moisture);
    let (mut through, mut along) = (Vec::new(), mm(0.0));
    for one in &section.laminates {
        let piece = state.piece(one.piece).ok_or(NoYear::Sizes)?;
        let unknown = || NoYear::Wood(one.wood.clone());
        let wood =
            queries::species_of(state, piece).and_then(|named| queries::wood_of(state, named));
        let wood = wood.ok_or_else(unknown)?;
        let rings = queries::rings_in(state, piece, mm(0.0));
        let rings = rings.ok_or_else(|| NoYear::Rings(one.mark.clone()))?.angle;
        let mut moves = |size, across| -> Result<Length, NoYear> {
            let moved = wood.movement(trace, size, (rings, across), driest, dampest);
            Ok(moved.ok_or_else(unknown)??.change)
        };
        through.push([in_mm(moves(one.thickness, Across::Thickness)?)]);
        along = moves(section.depth, Across::Width)?.max(along);
    }
    Ok(BlankOverYear {
        year: OverYear { driest, dampest },
        across: mm(trace.add_up(&ACROSS, &through)),
        along,
    })
}

/// How [`blank_over_year`] was worked out.
pub(crate) fn explain_over_year(state: &State, id: Id) -> Option<Derivation> {
    let blank = state.piece(id)?;
    let months = year_of_room(state, blank).ok()?;
    let year = driest_and_dampest(&months).ok()?;
    let mut working = Derivation::default();
    for month in [year.driest, year.dampest] {
        emc(
            &mut working.steps,
            month.air.temperature,
            month.air.humidity,
        )
        .ok()?;
    }
    let moved = over_year(state, &mut working.steps, blank, &year).ok()?;
    let at = |one: Settled| {
        let (year, month) = one.month;
        let moisture = show::moisture(one.moisture.in_percent());
        format!("{year}-{month:02}, {moisture}")
    };
    Some(
        working
            .and(format!(
                "The mean air of each month, {} of the last twelve read: driest {}; dampest {}. Wood is \
                 taken to follow it fully; thick wood lags behind and moves less.",
                months.len(),
                at(year.driest),
                at(year.dampest),
            ))
            .and(format!(
                "Along the glue lines it is the laminate that moves most: {} mm. Each is taken to be free of \
                 its neighbours.",
                show::number(in_mm(moved.along), 2),
            )),
    )
}

fn driest_and_dampest(months: &[Settled]) -> Result<OverYear<Settled>, NoYear> {
    let by = |a: &&Settled, b: &&Settled| {
        let percent = |one: &Settled| one.moisture.in_percent();
        percent(a).total_cmp(&percent(b))
    };
    let (driest, dampest) = (months.iter().min_by(by), months.iter().max_by(by));
    match driest.zip(dampest) {
        Some((driest, dampest)) => Ok(OverYear {
            driest: *driest,
            dampest: *dampest,
        }),
        None => Err(NoYear::NoRoom),
    }
}
