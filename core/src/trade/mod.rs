//! The trade: board measure, price, tally and the yard's bill, in exact decimal money.
//!
//! It counts and charges what was measured. It never judges wood, and never rounds but by a rule of the yard.

mod bill;
mod board_measure;
mod odd_price;
mod price;
pub mod show;
mod tally;

pub use bill::{
    Bill, BillExplanation, Billed, BilledLine, Comparison, Conclusion, Habit, TallyUnit,
    compare_with_bill,
};
pub(crate) use board_measure::in_cubic_metres;
pub use board_measure::{
    ExactLength, Halves, MeasureError, Sawn, board_feet, board_feet_of, cubic_metres,
    exact_board_feet, inches_in_quarters, surface_measure,
};
pub use odd_price::{day_warning, price_warning};
pub use price::{PriceBasis, Rounding, TallyMeasure, TallyRule, ThicknessBasis};
pub(crate) use tally::AMOUNT;
pub use tally::{
    Money, PricesAre, TalliedLine, Tally, TallyError, TallyLine, Terms, explain_charge, tally,
    tally_visit,
};
