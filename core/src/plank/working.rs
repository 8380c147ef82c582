//! How a number was worked out, to be told: its steps, what else there is to say, its uncertainty and
//! where that comes from. It computes nothing.

use super::Source;
use crate::quantity::{Estimate, Scalar, Step};

/// How wide the 95 % interval is, and what makes it so.
#[derive(Debug, Clone, PartialEq)]
pub struct Spread {
    /// Half the width of the 95 % interval, in the unit of the last step.
    pub expanded: f64,
    /// Each measurement's share of the variance, in percent, largest first.
    pub shares: Vec<(Source, f64)>,
}

/// How a number was worked out.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Working {
    /// The steps, in order; the last gives the number.
    pub steps: Vec<Step>,
    /// What else there is to say: what was left out, what was taken as it was read.
    pub notes: Vec<String>,
    /// Its uncertainty, where it has one.
    pub spread: Option<Spread>,
}

impl Spread {
    /// The spread of an estimate; `None` where it is certain.
    pub fn of<Q: Scalar>(figure: &Option<Estimate<Q, Source>>) -> Option<Self> {
        let estimate = figure.as_ref()?;
        let variance = estimate.standard.raw() * estimate.standard.raw();
        (variance > 0.0).then(|| Self {
            expanded: estimate.expanded().raw(),
            shares: estimate
                .parts
                .iter()
                .map(|(source, part)| (*source, 100.0 * part.raw() * part.raw() / variance))
                .collect(),
        })
    }
}
