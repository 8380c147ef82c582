//! A density beside what is usual for the wood.

use super::DensityRange;
use crate::quantity::{Conformance, MassDensity, in_kg_per_m3};

/// How a density lies beside what is usual for the wood.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BesideUsual {
    /// Lighter than usual.
    Lighter,
    /// As usual.
    AsUsual,
    /// Heavier than usual.
    Heavier,
    /// So near an end of the range that it can't be told.
    TooClose,
}

impl BesideUsual {
    /// A density, with its standard uncertainty, beside the range that is usual at the same moisture content; the
    /// ends of the range are usual. It is told as a limit is ([`Conformance::of`]).
    pub fn of(density: MassDensity, standard: MassDensity, usual: &DensityRange) -> Self {
        let above =
            |margin: MassDensity| Conformance::of(in_kg_per_m3(margin), in_kg_per_m3(standard));
        match (above(density - usual.low), above(usual.high - density)) {
            (Conformance::Beyond, _) => BesideUsual::Lighter,
            (_, Conformance::Beyond) => BesideUsual::Heavier,
            (Conformance::Inside, Conformance::Inside) => BesideUsual::AsUsual,
            _ => BesideUsual::TooClose,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::kg_per_m3;
    use crate::wood::find;

    fn of(density: f64, standard: f64) -> BesideUsual {
        let usual = find("padauk").unwrap().usual_density_at_12().unwrap();
        BesideUsual::of(kg_per_m3(density), kg_per_m3(standard), &usual)
    }

    #[test]
    fn a_density_lies_beside_what_is_usual() {
        assert_eq!(of(660.0, 0.0), BesideUsual::Lighter);
        assert_eq!(of(670.0, 0.0), BesideUsual::AsUsual);
        assert_eq!(of(820.0, 0.0), BesideUsual::AsUsual);
        assert_eq!(of(830.0, 0.0), BesideUsual::Heavier);
    }

    #[test]
    fn what_its_uncertainty_leaves_open_is_too_close_to_tell() {
        assert_eq!(of(660.0, 10.0), BesideUsual::TooClose);
        assert_eq!(of(680.0, 10.0), BesideUsual::TooClose);
        assert_eq!(of(700.0, 10.0), BesideUsual::AsUsual);
        assert_eq!(of(815.0, 10.0), BesideUsual::TooClose);
        assert_eq!(of(850.0, 10.0), BesideUsual::Heavier);
        assert_eq!(of(740.0, 100.0), BesideUsual::TooClose);
    }
}
