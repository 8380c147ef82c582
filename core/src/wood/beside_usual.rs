//! A density beside what is usual for the wood.

use super::DensityRange;
use crate::quantity::MassDensity;

/// How a density lies beside what is usual for the wood.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BesideUsual {
    /// Lighter than usual.
    Lighter,
    /// As usual.
    AsUsual,
    /// Heavier than usual.
    Heavier,
    /// No usual range is known for the wood.
    NotKnown,
}

impl BesideUsual {
    /// A density beside the range that is usual at the same moisture content; the ends of the range are usual.
    pub fn of(density: MassDensity, usual: Option<&DensityRange>) -> Self {
        match usual {
            None => BesideUsual::NotKnown,
            Some(usual) if density < usual.low => BesideUsual::Lighter,
            Some(usual) if density > usual.high => BesideUsual::Heavier,
            Some(_) => BesideUsual::AsUsual,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::kg_per_m3;
    use crate::wood::find;

    #[test]
    fn a_density_lies_beside_what_is_usual() {
        let usual = find("padauk").unwrap().usual_density_at_12().unwrap();
        let of = |density| BesideUsual::of(kg_per_m3(density), Some(&usual));
        assert_eq!(of(660.0), BesideUsual::Lighter);
        assert_eq!(of(670.0), BesideUsual::AsUsual);
        assert_eq!(of(820.0), BesideUsual::AsUsual);
        assert_eq!(of(830.0), BesideUsual::Heavier);
        let none = BesideUsual::of(kg_per_m3(660.0), None);
        assert_eq!(none, BesideUsual::NotKnown);
    }
}
