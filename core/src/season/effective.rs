//! For how many pieces by themselves the pieces of a few planks count: what comes of one plank is alike, and so
//! tells less than as many pieces of as many planks.
//!
//! It widens what is known of a share; it never changes the share.

use super::family::intraclass_correlation;
use super::spread::student_factor;
use super::survival_error::SurvivalError;
use crate::quantity::{Trace, TraceOff, formula};
use serde::{Deserialize, Serialize};

/// How many came through, and for how many pieces by themselves they count.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct ShareCount {
    pub through: u32,
    pub of: u32,
    /// All of them count as so many pieces by themselves.
    pub counts_as: f64,
}

formula! {
    /// Pieces by themselves for which the pieces of some planks count.
    EFFECTIVE: "Pieces that they count as", "n′", "";
    of: "n", "decided: came through or failed", "";
    usual: "m", "pieces of one plank, as each piece sees it: sum of squares over the sum", "";
    alike: "ρ", "family effect: correlation of two pieces of one plank; none under nothing", "";
    by_pieces: "t", "Student's factor for n − 1, at most t′", "";
    by_planks: "t′", "Student's factor for the planks less one", "";
    = of / (1.0 + (usual - 1.0) * alike) * sq(by_pieces / by_planks);
    range "two planks and more, some through and some not";
    source "design effect of clusters, Kish 1965; with Student's factors as Korn and Graubard 1998 (both from memory)";
}

/// How alike what comes of one plank turned out, over all planks that were seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FamilyEffect {
    /// The correlation of two pieces of one plank; under nothing, none shows.
    correlation: f64,
    /// Student's factor for the planks less one.
    by_planks: f64,
}

impl FamilyEffect {
    /// Of how many came through of how many decided, plank by plank. `None` where nothing can be told: one plank, or
    /// all or none came through.
    pub fn of_planks(planks: &[(u32, u32)]) -> Option<Self> {
        Some(Self {
            correlation: intraclass_correlation(&mut TraceOff, planks)?,
            by_planks: factor(seen(planks))?,
        })
    }
}

/// Planks of which a piece is decided.
fn seen(planks: &[(u32, u32)]) -> usize {
    planks.iter().filter(|plank| plank.1 > 0).count()
}

/// Student's factor for one less.
fn factor(of: usize) -> Option<f64> {
    student_factor(u32::try_from(of.checked_sub(1)?).ok()?)
}

impl ShareCount {
    /// Pieces that have nothing to do with one another.
    pub fn by_themselves(through: u32, of: u32) -> Self {
        Self {
            through,
            of,
            counts_as: f64::from(of),
        }
    }

    /// Of some planks, how many came through of how many decided each; `alike` is how alike the pieces of one plank
    /// are, of all planks that were seen.
    ///
    /// n' = n/(1 + (m - 1) rho) min(t(n - 1)/t(k - 1), 1)², m = sum n²/sum n, k planks seen in all: the second factor
    /// widens for few planks, and a group of fewer pieces than planks were seen is not narrowed by it. Where no
    /// correlation can be told, each plank counts as one. An error for more through than there were. Kish 1965; Korn and Graubard 1998 (both from memory); held against simulated planks.
    ///
    /// ```
    /// use stillwood_core::quantity::TraceOff;
    /// use stillwood_core::season::{FamilyEffect, ShareCount};
    /// let planks = [(6, 6), (5, 6), (2, 6), (6, 6), (4, 6)];
    /// let alike = FamilyEffect::of_planks(&planks);
    /// let found = ShareCount::of_planks(&mut TraceOff, &planks, alike).unwrap();
    /// assert_eq!((found.through, found.of), (23, 30));
    /// assert!(found.counts_as < 15.0);
    /// ```
    ///
    /// No published value: two textbook factors; its intervals are held against simulated planks.
    pub fn of_planks(
        trace: &mut impl Trace,
        planks: &[(u32, u32)],
        alike: Option<FamilyEffect>,
    ) -> Result<Self, SurvivalError> {
        if let Some((through, of)) = planks.iter().find(|(through, of)| through > of) {
            return Err(SurvivalError::MoreThanAll {
                through: *through,
                of: *of,
            });
        }
        let sum = |of: fn(&(u32, u32)) -> u32| planks.iter().map(of).fold(0, u32::saturating_add);
        let (through, of) = (sum(|plank| plank.0), sum(|plank| plank.1));
        let count = f64::from(of);
        let squares: f64 = planks
            .iter()
            .map(|plank| f64::from(plank.1))
            .map(|n| n * n)
            .sum();
        let counts_as = match alike.zip(factor(of as usize)) {
            Some((alike, by_pieces)) => {
                let rho = alike.correlation.max(0.0);
                let by_pieces = by_pieces.min(alike.by_planks);
                let values = [count, squares / count, rho, by_pieces, alike.by_planks];
                trace.work(&EFFECTIVE, values)
            }
            None => seen(planks) as f64,
        };
        Ok(Self {
            through,
            of,
            counts_as,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::season::spread::BetaSpread;
    use crate::season::{Watched, still_in, survival_of};
    use stillwood_tests::dice::Dice;

    #[test]
    fn what_shows_no_correlation_counts_by_planks() {
        let of = |planks: &[(u32, u32)]| {
            ShareCount::of_planks(&mut TraceOff, planks, FamilyEffect::of_planks(planks))
                .unwrap()
                .counts_as
        };
        assert_eq!(of(&[(8, 9)]), 1.0);
        assert_eq!(of(&[(9, 9), (9, 9), (0, 0)]), 2.0);
        // Pieces of one plank each have nothing to do with one another.
        assert_eq!(of(&[(1, 1), (0, 1), (1, 1)]), 3.0);
        assert!(ShareCount::of_planks(&mut TraceOff, &[(3, 2)], None).is_err());
    }

    /// Student's factors widen for few planks; they never undo what the family effect widens.
    #[test]
    fn a_group_of_few_pieces_counts_as_no_more_than_its_planks_leave() {
        let all: Vec<(u32, u32)> = (0..20).map(|plank| (plank % 4, 3)).collect();
        let alike = FamilyEffect::of_planks(&all).unwrap();
        assert!(alike.correlation > 0.1);
        let found = ShareCount::of_planks(&mut TraceOff, &[(1, 3)], Some(alike)).unwrap();
        assert!((found.counts_as - 3.0 / (1.0 + 2.0 * alike.correlation)).abs() < 1e-12);
    }

    #[test]
    fn by_hand() {
        // Two planks of four, 4 and 2 through: rho = 1/3 (see there); m = 4, n = 8: 8/2 = 4 pieces, times the square
        // of 2.3646/12.706 (Student's factors of 7 and of 1 degree of freedom, printed tables).
        let planks = [(4, 4), (2, 4)];
        let found = ShareCount::of_planks(&mut TraceOff, &planks, FamilyEffect::of_planks(&planks))
            .unwrap()
            .counts_as;
        let ratio = 2.364_6 / 12.706_2;
        let wanted = 4.0 * ratio * ratio;
        assert!((found - wanted).abs() < 1e-4, "{found} {wanted}");
    }

    /// The shares of simulated records of `planks` planks of `pieces` each whose interval holds the true share p,
    /// the planks' shares beta with correlation rho: as counted here, and as pieces by themselves.
    fn held(planks: usize, pieces: u32, p: f64, rho: f64, records: u32) -> [f64; 2] {
        let mut dice = Dice::of_seed(11);
        let of_plank = (rho > 0.0)
            .then(|| BetaSpread::new(p * (1.0 - rho) / rho, (1.0 - p) * (1.0 - rho) / rho))
            .flatten();
        let mut held = [0.0; 2];
        for _ in 0..records {
            let mut counts = Vec::new();
            for _ in 0..planks {
                let share = of_plank.map_or(p, |spread| spread.quantile(dice.even()));
                let through = (0..pieces).filter(|_| dice.even() < share).count();
                counts.push((through as u32, pieces));
            }
            let alike = FamilyEffect::of_planks(&counts);
            let counted = ShareCount::of_planks(&mut TraceOff, &counts, alike).unwrap();
            let alone = ShareCount::by_themselves(counted.through, counted.of);
            for (held, count) in held.iter_mut().zip([counted, alone]) {
                let found = survival_of(count).unwrap();
                let holds = found.low <= p && p <= found.high;
                *held += f64::from(u8::from(holds)) / f64::from(records);
            }
        }
        held
    }

    /// 300 records hold 95 % with a standard deviation of 1.3 %; few planks are widened for their fewness as well.
    #[test]
    fn intervals_hold_though_the_pieces_of_a_plank_are_alike() {
        for (planks, rho) in [(10, 0.1), (10, 0.3), (20, 0.1), (20, 0.3)] {
            let [found, alone] = held(planks, 9, 0.75, rho, 300);
            assert!(found > 0.915, "{planks} planks, {rho}: {found}");
            assert!(alone < 0.9, "{planks} planks, {rho}: {alone}");
        }
    }

    /// The share of simulated records whose band holds the true share that outlasts 12 months: planks of 9 pieces, a
    /// plank's pieces failing with a chance of its own, at any time of 24 months, watched for 6 to 24; as counted
    /// here, and as pieces by themselves.
    fn bands_held(planks: usize, rho: f64, records: u32) -> [f64; 2] {
        let mut dice = Dice::of_seed(23);
        // They fail with a chance of 0.5 on average in all of the 24 months, half of those in the first 12.
        let chance = BetaSpread::new(0.5 * (1.0 - rho) / rho, 0.5 * (1.0 - rho) / rho).unwrap();
        let mut held = [0.0; 2];
        for _ in 0..records {
            let (mut watched, mut counts) = (Vec::new(), Vec::new());
            for _ in 0..planks {
                let fails = chance.quantile(dice.even());
                let mut failed_here = 0;
                for _ in 0..9 {
                    let fails = dice.even() < fails;
                    let (at, until) = (24.0 * dice.even(), 6.0 + 18.0 * dice.even());
                    let failed = fails && at <= until;
                    failed_here += u32::from(failed);
                    let time = if failed { at } else { until };
                    watched.push(Watched { time, failed });
                }
                counts.push((9 - failed_here, 9));
            }
            let alike = FamilyEffect::of_planks(&counts);
            let counted = ShareCount::of_planks(&mut TraceOff, &counts, alike).unwrap();
            for (held, counts_as) in held
                .iter_mut()
                .zip([counted.counts_as, watched.len() as f64])
            {
                let found = still_in(&watched, counts_as, 12.0).unwrap().unwrap();
                let (low, high) = found.interval.unwrap_or((found.share, found.share));
                *held += f64::from(u8::from(low <= 0.75 && 0.75 <= high)) / f64::from(records);
            }
        }
        held
    }

    #[test]
    fn bands_of_survival_hold_though_the_pieces_of_a_plank_are_alike() {
        for (planks, rho) in [(10, 0.3), (20, 0.1), (20, 0.3)] {
            let [found, alone] = bands_held(planks, rho, 500);
            assert!(found > 0.92, "{planks} planks, {rho}: {found}");
            assert!(alone < 0.92, "{planks} planks, {rho}: {alone}");
        }
    }

    /// The table of coverage; `cargo test --release -p stillwood-core --lib coverage -- --ignored --nocapture`.
    #[test]
    #[ignore = "takes long; prints a table"]
    fn table_of_coverage() {
        println!("planks pieces  share  rho   held %  as pieces by themselves %");
        for p in [0.75, 0.9] {
            for planks in [3, 5, 10, 20, 40] {
                for rho in [0.0, 0.1, 0.3] {
                    let [found, alone] = held(planks, 9, p, rho, 2000).map(|share| 100.0 * share);
                    println!("{planks:6} {:6} {p:6} {rho:4} {found:8.1} {alone:8.1}", 9);
                }
            }
        }
    }
}
