//! Which of several values is surely the least or the most: what is marked as the best of a row.

/// Which end of a row of values is looked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Extreme {
    /// The least value.
    Least,
    /// The greatest.
    Most,
}

/// A value, and how far it may be off, either way.
pub type Within = (f64, f64);

/// The place of the value that is the least or the most, whatever the others are within their ranges; `None` where two
/// may be alike, one is not known, or there is nothing to compare.
///
/// ```
/// use stillwood_core::record::queries::{Extreme, stands_out};
/// let weights = [Some((2.36, 0.1)), Some((2.38, 0.1)), Some((1.39, 0.1))];
/// assert_eq!(stands_out(&weights, Extreme::Least), Some(2));
/// // Of 2.36 and 2.38 kg a scale that may be off by 0.1 kg does not know the heavier one.
/// assert_eq!(stands_out(&weights, Extreme::Most), None);
/// assert_eq!(stands_out(&[Some((1.0, 0.0)), None], Extreme::Least), None);
/// assert_eq!(stands_out(&[Some((1.0, 0.0))], Extreme::Least), None);
/// ```
pub fn stands_out(values: &[Option<Within>], extreme: Extreme) -> Option<usize> {
    let known: Vec<Within> = values.iter().copied().collect::<Option<_>>()?;
    if known.len() < 2 {
        return None;
    }
    let beats = |one: Within, other: Within| match extreme {
        Extreme::Least => one.0 + one.1 < other.0 - other.1,
        Extreme::Most => one.0 - one.1 > other.0 + other.1,
    };
    (0..known.len()).find(|at| {
        let others = known.iter().enumerate().filter(|(other, _)| other != at);
        others
            .into_iter()
            .all(|(_, other)| beats(known[*at], *other))
    })
}
