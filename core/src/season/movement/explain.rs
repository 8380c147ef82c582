//! How a change was worked out, to be told.

use super::change::{COVERAGE, Change, change_worked};
use super::limit::LimitError;
use super::shape::{Warp, Warps};
use crate::quantity::{Derivation, GUARD_FACTOR, Length, Spread, in_mm};
use crate::season::stage::StageLimits;

/// How the change of one shape was worked out; `None` where one of its two gaps was not measured. Errors
/// as in [`super::changes`].
pub fn explain_change(
    warp: Warp,
    (from, to): (&Warps, &Warps),
    terms: &StageLimits,
    length: Option<Length>,
) -> Result<Option<Derivation>, LimitError> {
    let mut working = Derivation::default();
    let gaps = (from.get(&warp), to.get(&warp));
    let found = change_worked(&mut working.steps, warp, gaps, terms, length)?;
    let (Some(first), Some(last), true) = (gaps.0, gaps.1, found.by.is_some()) else {
        return Ok(None);
    };
    let parts = [
        ("earlier gap", first.standard),
        ("gap at this check", last.standard),
    ];
    working.spread = spread(&found, parts);
    working.notes = stands(&found, terms.over_mm);
    working.source = "guarded decisions after JCGM 106:2012, 8.3 (from memory); limits: common practice, yours to set";
    Ok(Some(working))
}

fn spread(found: &Change, parts: [(&'static str, Length); 2]) -> Option<Spread> {
    let whole = in_mm(found.standard);
    let mut shares = parts.map(|(name, u)| (name, 100.0 * in_mm(u) * in_mm(u) / (whole * whole)));
    if shares[1].1 > shares[0].1 {
        shares.swap(0, 1);
    }
    (whole > 0.0).then(|| Spread {
        expanded: COVERAGE * whole,
        shares: shares.to_vec(),
    })
}

fn stands(found: &Change, over_mm: f64) -> Vec<String> {
    let Some((movement, limit)) = found.movement.zip(found.limit) else {
        return vec!["This stage sets no limit for it.".into()];
    };
    let watch = limit.warn_mm.map_or_else(String::new, |watch| {
        format!(" It is watched only where it is over {watch:.2} mm by {GUARD_FACTOR} u.")
    });
    vec![
        format!(
            "It stands: {}. Beyond counts only what is over {:.2} mm by {GUARD_FACTOR} u, within only what \
             is under it by as much, steady only what is no more than {COVERAGE} u.{watch}",
            movement.in_words(),
            limit.reject_mm
        ),
        format!(
            "The limit of the stage holds over {over_mm:.0} mm; a cup's does not ask for the length."
        ),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::mm;

    #[test]
    fn what_leaves_most_open_is_named_first() {
        let found = Change {
            warp: Warp::Bow,
            by: Some(mm(0.2)),
            at_most: Some(mm(0.2)),
            standard: mm(0.05),
            signed: true,
            limit: None,
            movement: None,
        };
        let parts = |first: f64, second: f64| {
            let told = spread(&found, [("before", mm(first)), ("after", mm(second))]).unwrap();
            assert!((told.expanded - COVERAGE * 0.05).abs() < 1e-12);
            let named = |(name, share): &(&str, f64)| format!("{name} {share:.0}");
            told.shares.iter().map(named).collect::<Vec<_>>()
        };
        assert_eq!(parts(0.03, 0.04), ["after 64", "before 36"]);
        assert_eq!(parts(0.04, 0.03), ["before 64", "after 36"]);
    }
}
