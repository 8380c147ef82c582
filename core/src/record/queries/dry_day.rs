//! The day by which a piece is about as dry as its air makes it.

use crate::record::state::Piece;
use crate::season::DryingReport;
use chrono::{Days, NaiveDate};

/// When a piece is within half a per cent of the equilibrium of its air.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum DryDay {
    /// It was so at its last weighing.
    Since(NaiveDate),
    /// It will be so on about this day, if the air stays as it was logged.
    About(NaiveDate),
}

/// When a piece is within half a per cent of the equilibrium of its air, by the curve through its weighings; `None`
/// where no curve fits, or where the day lies beyond any calendar.
pub fn dry_day(piece: &Piece, report: &DryingReport) -> Option<DryDay> {
    let days = report.fit.as_ref()?.days_until_near.value;
    let last = piece.work.weighings.last()?.on;
    if days > 0.0 {
        // Whole days: part of one is the next.
        let later = last.checked_add_days(Days::new(days.ceil() as u64))?;
        Some(DryDay::About(later))
    } else {
        Some(DryDay::Since(last))
    }
}
