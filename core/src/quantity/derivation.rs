//! How a number was worked out, to be told: its steps, what else there is to say, where that is from, its
//! uncertainty and where that comes from. It computes nothing.

use super::{Estimate, Scalar, Step};

/// How wide the 95 % interval is, and what makes it so.
#[derive(Debug, Clone, PartialEq)]
pub struct Spread {
    /// Half the width of the 95 % interval, in the unit of the last step.
    pub expanded: f64,
    /// Each measurement's share of the variance, in percent, largest first.
    pub shares: Vec<(&'static str, f64)>,
}

impl Spread {
    /// The shares that come to a per cent when they are shown.
    pub fn shares_shown(&self) -> impl Iterator<Item = &(&'static str, f64)> {
        self.shares.iter().filter(|(_, share)| *share >= 0.5)
    }
}

/// How a number was worked out.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Derivation {
    /// The steps, in order; the last gives the number.
    pub steps: Vec<Step>,
    /// What else there is to say: what was counted, left out, taken as it was read.
    pub notes: Vec<String>,
    /// Where it is from, as far as the steps don't say it.
    pub source: &'static str,
    pub spread: Option<Spread>,
}

impl Derivation {
    /// Of words alone: what was counted, added up or looked for.
    pub fn note(note: impl Into<String>, source: &'static str) -> Self {
        Self {
            notes: vec![note.into()],
            source,
            ..Self::default()
        }
    }

    pub fn of(steps: Vec<Step>) -> Self {
        Self {
            steps,
            ..Self::default()
        }
    }

    /// With something more to say.
    pub fn and(mut self, note: impl Into<String>) -> Self {
        self.notes.push(note.into());
        self
    }
}

impl Spread {
    /// The spread of an estimate, its sources by their names; `None` where it is certain.
    pub fn of<Q: Scalar, S: Copy>(
        figure: &Option<Estimate<Q, S>>,
        name: fn(S) -> &'static str,
    ) -> Option<Self> {
        let estimate = figure.as_ref()?;
        let variance = estimate.standard.raw() * estimate.standard.raw();
        (variance > 0.0).then(|| Self {
            expanded: estimate.expanded().raw(),
            shares: estimate
                .parts
                .iter()
                .map(|(source, part)| (name(*source), 100.0 * part.raw() * part.raw() / variance))
                .collect(),
        })
    }
}
