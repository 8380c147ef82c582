//! How much a blank moves over the year of the room that it lies in: across its glue lines and along them.
//!
//! It takes each laminate to be free of its neighbours and to follow the mean air of each month fully, so
//! the blank itself moves no more. A year that was hardly read says nothing.

use super::dries::ROOM_CELSIUS;
use crate::notebook::{Book, Piece};
use crate::quantity::{Length, Moisture, Pen, Silent, Working, celsius, formula, in_mm, mm, show};
use crate::wood::{Across, Air, Humidity, OverYear, WorkshopYear, emc_worked};
use chrono::{Datelike, Months, NaiveDate};
use std::collections::BTreeMap;
use uuid::Uuid;

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

/// A blank over a year.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BlankOverYear {
    /// The moistures between which its wood goes.
    pub year: WorkshopYear,
    /// How much wider it is across its glue lines at the dampest than at the driest.
    pub across: Length,
    /// How much deeper its laminate that moves most is along them.
    pub along: Length,
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

impl Book {
    /// The mean air of each month of a piece's room, of the twelve up to its last reading; `None` where
    /// fewer than ten of them were read, or one is outside the table of [`crate::wood::emc`].
    fn year_of_room(&self, piece: &Piece) -> Option<Vec<Settled>> {
        let read = self.room_of(piece)?;
        let begins = read.last()?.on.checked_sub_months(Months::new(12))?;
        let mut months: BTreeMap<(i32, u32), Read> = BTreeMap::new();
        for said in read.iter().filter(|said| said.on > begins) {
            let climate = &said.said.climate;
            if let Some(humidity) = &climate.humidity {
                let month = months.entry(month_of(said.on)).or_default();
                month.0.push(humidity.value);
                month
                    .1
                    .extend(climate.temperature.iter().map(|taken| taken.value));
            }
        }
        if months.len() < LEAST_MONTHS {
            return None;
        }
        let settled = |(month, (humid, warm)): ((i32, u32), Read)| {
            let air = Air {
                temperature: celsius(mean(&warm).unwrap_or(ROOM_CELSIUS)),
                humidity: Humidity::percent(mean(&humid)?),
            };
            let moisture = emc_worked(&mut Silent, air.temperature, air.humidity).ok()?;
            Some(Settled {
                month,
                air,
                moisture,
            })
        };
        months.into_iter().map(settled).collect()
    }

    /// How much a blank moves over the year of its room; `None` where that was not read for a year, or a
    /// size, the rings or the shrinkage of a laminate are not known.
    pub fn blank_over_year(&self, blank: &Piece) -> Option<BlankOverYear> {
        let year = OverYear::between_months(&self.year_of_room(blank)?)?;
        self.over_year(&mut Silent, blank, &year)
    }

    fn over_year(
        &self,
        pen: &mut impl Pen,
        blank: &Piece,
        year: &OverYear<Settled>,
    ) -> Option<BlankOverYear> {
        let section = self.section_of(blank)?;
        let (driest, dampest) = (year.driest.moisture, year.dampest.moisture);
        let (mut through, mut along) = (Vec::new(), mm(0.0));
        for one in &section.laminates {
            let piece = self.piece(one.piece)?;
            let wood = self.wood_of(self.species_of(piece)?)?;
            let rings = self.rings_in(piece, mm(0.0))?.angle;
            let mut moves = |size, across| {
                let moved = wood.movement_worked(pen, size, (rings, across), driest, dampest);
                Some(moved?.ok()?.change)
            };
            through.push([in_mm(moves(one.thickness, Across::Thickness)?)]);
            along = moves(section.depth, Across::Width)?.max(along);
        }
        Some(BlankOverYear {
            year: OverYear { driest, dampest },
            across: mm(pen.add_up(&ACROSS, &through)),
            along,
        })
    }

    /// How [`Self::blank_over_year`] was worked out.
    pub(super) fn over_year_told(&self, id: Uuid) -> Option<Working> {
        let blank = self.piece(id)?;
        let months = self.year_of_room(blank)?;
        let year = OverYear::between_months(&months)?;
        let mut working = Working::default();
        for month in [year.driest, year.dampest] {
            emc_worked(
                &mut working.steps,
                month.air.temperature,
                month.air.humidity,
            )
            .ok()?;
        }
        let moved = self.over_year(&mut working.steps, blank, &year)?;
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
}

impl OverYear<Settled> {
    /// The driest and the dampest of the months; `None` for none.
    fn between_months(months: &[Settled]) -> Option<Self> {
        let by = |a: &&Settled, b: &&Settled| {
            let percent = |one: &Settled| one.moisture.in_percent();
            percent(a).total_cmp(&percent(b))
        };
        Some(Self {
            driest: *months.iter().min_by(by)?,
            dampest: *months.iter().max_by(by)?,
        })
    }
}

fn month_of(day: NaiveDate) -> (i32, u32) {
    (day.year(), day.month())
}
