//! German: days and months.

use super::super::DateWords;

impl DateWords {
    /// The German column.
    pub const GERMAN: DateWords = DateWords {
        january: "Jan.",
        february: "Feb.",
        march: "März",
        april: "Apr.",
        may: "Mai",
        june: "Juni",
        july: "Juli",
        august: "Aug.",
        september: "Sept.",
        october: "Okt.",
        november: "Nov.",
        december: "Dez.",
        day_of_month: "{day}. {month}",
        day_of_year: "{day}. {month} {year}",
        month_of_year: "{month} {year}",
    };
}
