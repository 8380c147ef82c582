//! Where a number comes from: a published table that was read, memory, or the maker.
//! It never vouches for a number; it only says whose it is.

use std::fmt;
use std::sync::OnceLock;

/// A source of the species table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Citation {
    /// The letter that stands for it in the data file.
    pub key: char,
    /// Whether the number was read there; otherwise it is from memory.
    pub read: bool,
    /// Document, edition, table.
    pub text: String,
}

/// Whose a number is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NumberOrigin {
    /// From the species table, with its source.
    Table(&'static Citation),
    /// Entered by the maker.
    YourData,
}

impl fmt::Display for NumberOrigin {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NumberOrigin::Table(citation) => f.write_str(&citation.text),
            NumberOrigin::YourData => f.write_str("your data"),
        }
    }
}

/// What was done to a number after it was taken from its source.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Adjustment {
    AsGiven,
    MiddleOfRange,
    /// Density from the specific gravity at 12 %.
    FromGravityAt12,
    FromBasicGravity,
    /// A change coefficient from the total shrinkage.
    FromTotalShrinkage,
    /// A total shrinkage from the change coefficient.
    FromCoefficient,
}

/// A number with its source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sourced<T> {
    pub value: T,
    pub origin: NumberOrigin,
    pub adjustment: Adjustment,
}

impl<T> Sourced<T> {
    /// As it stands in its source.
    pub(super) fn given(value: T, origin: NumberOrigin) -> Self {
        Self {
            value,
            origin,
            adjustment: Adjustment::AsGiven,
        }
    }

    /// The same origin with another value, and how that was found.
    pub(super) fn derived<U>(&self, value: U, adjustment: Adjustment) -> Sourced<U> {
        Sourced {
            value,
            origin: self.origin,
            adjustment,
        }
    }

    /// The source in words: "from memory", "your data", or the citation; and what was done.
    pub fn source(&self) -> String {
        let done = match self.adjustment {
            Adjustment::AsGiven => return self.origin.to_string(),
            Adjustment::MiddleOfRange => "middle of the range",
            Adjustment::FromGravityAt12 => "computed from the specific gravity at 12 %",
            Adjustment::FromBasicGravity => "computed from the basic specific gravity",
            Adjustment::FromTotalShrinkage => "computed from the total shrinkage",
            Adjustment::FromCoefficient => "computed from the change coefficient",
        };
        format!("{done}: {}", self.origin)
    }
}

/// Every source of the species table.
pub fn citations() -> &'static [Citation] {
    static CITATIONS: OnceLock<Vec<Citation>> = OnceLock::new();
    CITATIONS.get_or_init(|| {
        include_str!("sources.csv")
            .lines()
            .skip(1)
            .filter_map(citation)
            .collect()
    })
}

fn citation(line: &str) -> Option<Citation> {
    let (key, rest) = line.split_once(',')?;
    let (read, text) = rest.split_once(',')?;
    Some(Citation {
        key: key.chars().next()?,
        read: read == "read",
        text: text.trim_matches('"').to_owned(),
    })
}

/// The origin behind a letter of the species table.
pub(super) fn origin(key: char) -> Option<NumberOrigin> {
    citations()
        .iter()
        .find(|citation| citation.key == key)
        .map(NumberOrigin::Table)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_source_line_is_understood_and_has_its_own_letter() {
        let lines = include_str!("sources.csv").lines().skip(1).count();
        assert_eq!(citations().len(), lines);
        let keys: BTreeSet<char> = citations().iter().map(|c| c.key).collect();
        assert_eq!(keys.len(), lines);
        assert!(citations().iter().all(|c| c.text.len() > 5));
        assert_eq!(origin('M').unwrap().to_string(), "from memory");
    }
}
