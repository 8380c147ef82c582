//! How alike the pieces of one plank are in coming through, from what came of planks before.
//!
//! It estimates and never rounds up: with few planks the estimate may well lie under nothing.

use crate::quantity::{Derivation, Trace, formula};

/// Likeness of the pieces of one plank, from how many came through of how many, plank by plank: the
/// intraclass correlation, rho = (B - W)/(B + (n0 - 1) W).
///
/// B = sum n (p - P)²/(k - 1) between k planks, W = sum n p (1 - p)/(N - k) within, p the share of a plank
/// of n pieces, P that of all N, n0 = (N - sum n²/N)/(k - 1). At most 1; under nothing, no likeness shows.
/// `None` for fewer than two planks, planks of one piece only, more through than there were, or where all
/// or none came through. Analysis of variance estimator for counts, from memory.
///
/// ```
/// use stillwood_core::quantity::TraceOff;
/// use stillwood_core::season::intraclass_correlation;
/// // All or none of a plank.
/// assert_eq!(intraclass_correlation(&mut TraceOff, &[(6, 6), (0, 6), (6, 6)]), Some(1.0));
/// assert!(intraclass_correlation(&mut TraceOff, &[(3, 6), (3, 6), (3, 6)]).unwrap() < 0.0);
/// ```
///
/// No published value: the moment estimate of a beta-binomial, worked by hand in a test.
pub fn intraclass_correlation(trace: &mut impl Trace, planks: &[(u32, u32)]) -> Option<f64> {
    if planks.iter().any(|(through, of)| through > of) {
        return None;
    }
    let seen: Vec<(f64, f64)> = planks
        .iter()
        .filter(|plank| plank.1 > 0)
        .map(|(through, of)| (f64::from(*through), f64::from(*of)))
        .collect();
    let k = seen.len() as f64;
    let all: f64 = seen.iter().map(|(_, n)| n).sum();
    let share = seen.iter().map(|(x, _)| x).sum::<f64>() / all;
    let (mut between, mut within, mut squares) = (0.0, 0.0, 0.0);
    for (x, n) in seen {
        let p = x / n;
        between += n * (p - share) * (p - share);
        within += n * p * (1.0 - p);
        squares += n * n;
    }
    let (between, within) = (between / (k - 1.0), within / (all - k));
    let usual = (all - squares / all) / (k - 1.0);
    let found = trace.work(&INTRACLASS_CORRELATION, [between, within, usual]);
    found.is_finite().then_some(found)
}

formula! {
    /// Likeness of the pieces of one plank.
    INTRACLASS_CORRELATION: "Family effect of one plank's pieces", "ρ", "";
    between: "B", "spread between planks: sum of n (p − P)² over k − 1", "";
    within: "W", "spread within planks: sum of n p (1 − p) over N − k", "";
    usual: "n₀", "usual count of a plank: (N − sum of n² / N) / (k − 1)", "";
    = (between - within) / (between + (usual - 1.0) * within);
    range "at most 1; under nothing no family effect shows";
    source "analysis of variance estimator for counts (from memory)";
}

/// How the likeness was worked out; `None` where none is.
pub fn explain_intraclass_correlation(planks: &[(u32, u32)]) -> Option<Derivation> {
    let mut working = Derivation::default();
    intraclass_correlation(&mut working.steps, planks)?;
    let seen = planks.iter().filter(|(_, of)| *of > 0);
    let all: Vec<String> = seen.map(|(x, n)| format!("{x} of {n}")).collect();
    Some(working.and(format!("Plank by plank came through: {}.", all.join("; "))))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::TraceOff;
    use proptest::prelude::*;

    #[test]
    fn what_shows_nothing_gives_nothing() {
        for planks in [
            vec![],
            vec![(3, 6)],
            vec![(1, 1), (0, 1)],
            vec![(6, 6), (6, 6)],
            vec![(7, 6), (1, 6)],
        ] {
            assert_eq!(
                intraclass_correlation(&mut TraceOff, &planks),
                None,
                "{planks:?}"
            );
        }
    }

    #[test]
    fn by_hand() {
        // Two planks of four, 4 and 2 through: B = 0.5, W = 1/6, n0 = 4.
        let found = intraclass_correlation(&mut TraceOff, &[(4, 4), (2, 4)]).unwrap();
        assert!(
            (found - (0.5 - 1.0 / 6.0) / (0.5 + 3.0 / 6.0)).abs() < 1e-12,
            "{found}"
        );
        // Three of unlike counts: 7 of 10; B = 0.6/2, W = 1.5/7, n0 = (10 - 36/10)/2 = 3.2.
        let planks = [(4, 4), (2, 4), (1, 2)];
        let found = intraclass_correlation(&mut TraceOff, &planks).unwrap();
        assert!((found - 1.0 / 9.0).abs() < 1e-12, "{found}");
        // What is told is that number; a plank of which nothing is decided says nothing.
        let told = explain_intraclass_correlation(&[(4, 4), (2, 4), (0, 0), (1, 2)]).unwrap();
        assert_eq!(told.steps[0].result, found);
        assert_eq!(
            told.notes,
            ["Plank by plank came through: 4 of 4; 2 of 4; 1 of 2."]
        );
    }

    proptest! {
        // For planks of n pieces it lies between -1/(n - 1) and 1.
        #[test]
        fn it_stays_between_its_ends(planks in prop::collection::vec(0u32..=7, 2..30)) {
            let planks: Vec<_> = planks.iter().map(|through| (*through, 7)).collect();
            match intraclass_correlation(&mut TraceOff, &planks) {
                Some(found) => prop_assert!((-1.0 / 6.0 - 1e-9..=1.0 + 1e-9).contains(&found), "{found}"),
                // Where all came through, or none, nothing shows.
                None => prop_assert!([0, 7].iter().any(|all| planks.iter().all(|one| one.0 == *all))),
            }
        }
    }
}
