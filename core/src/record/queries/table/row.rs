//! A plank as a row of a table.

use crate::plank::Reason;
use crate::record::log::Decision;
use crate::record::log::id::Id;
use crate::record::queries::marks::MarkPart;
use crate::trade::Money;
use crate::verdict::Recommendation;
use chrono::NaiveDate;
use rust_decimal::Decimal;

#[derive(Debug, Clone, PartialEq)]
pub struct PlankRow {
    pub piece: Id,
    pub visit: Option<Id>,
    pub mark: String,
    pub yard: String,
    /// The day on which it got its mark.
    pub on: NaiveDate,
    /// The wood, as named.
    pub species: String,
    /// Length, mm.
    pub length_mm: Option<f64>,
    /// Mean of the widths, mm.
    pub width_mm: Option<f64>,
    /// Least of the thicknesses, mm.
    pub thickness_mm: Option<f64>,
    /// Weight, kg.
    pub mass_kg: Option<f64>,
    /// Moisture, corrected, %.
    pub moisture: Option<f64>,
    /// Density at 12 %, kg/m3.
    pub density_at_12: Option<f64>,
    /// Score, 0 to 100.
    pub score: Option<f64>,
    /// Geometric mean of all scores: orders planks of one score.
    pub mean: Option<f64>,
    /// What the computation says; `None` where its visit, and so its spec, is not here.
    pub recommendation: Option<Recommendation>,
    /// The defect that refuses it, or the weakest criterion.
    pub weakest: Option<&'static str>,
    pub decision: Option<Decision>,
    /// Why, the main reason first.
    pub reasons: Vec<Reason>,
    /// Footage by the yard's rule, board feet.
    pub board_feet: Option<Decimal>,
    pub money: Option<Money>,
    pub currency: String,
    pub parts: Option<u32>,
    /// What one of them costs, with tax.
    pub cost_per_part: Option<Decimal>,
    pub notes: Vec<String>,
    /// The number of the yard's invoice.
    pub invoice: String,
    pub country_of_harvest: String,
    /// What a text search looks through, in small letters.
    pub(crate) text: String,
    /// The place of its mark among others, worked out once for a row and not at every comparison.
    pub(crate) by_mark: Vec<MarkPart>,
}

impl PlankRow {
    /// A number that orders planks by score, those of one score by the geometric mean; highest is best.
    pub(crate) fn worth(&self) -> f64 {
        match self.score {
            Some(score) => score * 1000.0 + self.mean.unwrap_or(0.0),
            None => -1.0,
        }
    }

    pub(crate) fn is_good(&self) -> bool {
        matches!(
            self.recommendation,
            Some(Recommendation::Good | Recommendation::GoodSoFar)
        )
    }
}

/// What a text search looks through.
pub(crate) fn text_of(row: &PlankRow) -> String {
    let mut text = format!("{} {} {} ", row.mark, row.yard, row.species);
    for reason in &row.reasons {
        text.push_str(reason.name());
        text.push(' ');
    }
    for note in &row.notes {
        text.push_str(note);
        text.push(' ');
    }
    text.to_lowercase()
}
