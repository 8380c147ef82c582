//! A stage's limit carried over to a piece of another length.

use super::formulas::{LIMIT_OF_CURVE, LIMIT_OF_TWIST};
use super::shape::Warp;
use crate::quantity::{Length, Trace, in_mm};
use crate::season::stage::Limit;
use thiserror::Error;

/// Why a limit can't be carried over to a piece.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum LimitError {
    /// A length of nothing.
    #[error("a limit over {0} mm: it has to be over more than nothing")]
    Over(f64),
    /// The piece's length was not measured.
    #[error("the length was not measured: a limit over {0} mm can't be carried over to it")]
    NoLength(f64),
}

/// A stage's limit carried over to a piece of length L.
///
/// The limit d holds over the length s. An even curve that is allowed d over s is allowed d (L/s)^2 over
/// L; an even twist of d over s comes to d L/s; a cup does not ask for the length. Derived here:
/// geometry. An error where s is nothing or less, or L was not measured.
///
/// No published value: the scaling of a sagitta, see `even_gap_over`, which is held in plank.
pub fn limit_over(
    trace: &mut impl Trace,
    warp: Warp,
    limit: Limit,
    over_mm: f64,
    length: Option<Length>,
) -> Result<Limit, LimitError> {
    if warp == Warp::Cup {
        return Ok(limit);
    }
    if !(over_mm > 0.0 && over_mm.is_finite()) {
        return Err(LimitError::Over(over_mm));
    }
    let length = length.map(in_mm).filter(|length| *length > 0.0);
    let length = length.ok_or(LimitError::NoLength(over_mm))?;
    let formula = match warp {
        Warp::Twist => &LIMIT_OF_TWIST,
        _ => &LIMIT_OF_CURVE,
    };
    Ok(Limit {
        reject_mm: trace.work(formula, [limit.reject_mm, length, over_mm]),
        warn_mm: limit
            .warn_mm
            .map(|watch| formula.of([watch, length, over_mm])),
    })
}
