//! Which of several values is surely the least: what is marked as the best of a row.

/// A value, and how far it may be off, either way.
pub type Within = (f64, f64);

/// The place of the value that is the least, whatever the others are within their ranges; `None` where two may be
/// alike, one is not known, or there is nothing to compare.
///
/// ```
/// use stillwood_core::record::queries::surely_least;
/// assert_eq!(surely_least(&[Some((2.36, 0.1)), Some((2.38, 0.1)), Some((1.39, 0.1))]), Some(2));
/// // Of 2.36 and 2.38 kg a scale that may be off by 0.1 kg does not know the lighter one.
/// assert_eq!(surely_least(&[Some((2.36, 0.1)), Some((2.38, 0.1))]), None);
/// assert_eq!(surely_least(&[Some((1.0, 0.0)), None]), None);
/// assert_eq!(surely_least(&[Some((1.0, 0.0))]), None);
/// ```
pub fn surely_least(values: &[Option<Within>]) -> Option<usize> {
    let known: Vec<Within> = values.iter().copied().collect::<Option<_>>()?;
    if known.len() < 2 {
        return None;
    }
    let is_below = |one: Within, other: Within| one.0 + one.1 < other.0 - other.1;
    (0..known.len()).find(|at| {
        let mut others = known.iter().enumerate().filter(|(other, _)| other != at);
        others.all(|(_, other)| is_below(known[*at], *other))
    })
}
