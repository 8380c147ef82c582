//! A bow by eye whose kink is cut at.

use super::tests::{plank, spec, value};
use super::*;
use crate::plank::{AtLeast, Bend, BendShape, Cup};
use crate::quantity::mm;
use crate::verdict::SlabCounted;

#[test]
fn a_kinked_bow_that_is_cut_at_is_not_asked_to_be_measured() {
    let bent = |shape| Plank {
        cup: Some(Cup {
            gap: mm(1.0),
            over: None,
        }),
        bow: Some(Bend {
            gap: mm(10.0),
            over: None,
            shape,
            signed: true,
        }),
        at_least: AtLeast {
            bow: true,
            ..AtLeast::default()
        },
        ..plank()
    };
    let kinked = bent(BendShape::Kink(mm(1310.0)));
    for criterion in [Criterion::Straightness, Criterion::Size] {
        let cut_at = value(criterion, &kinked, &spec());
        assert!(matches!(cut_at, CriterionValue::Value(_)), "{cut_at:?}");
        let even = value(criterion, &bent(BendShape::Even), &spec());
        assert!(matches!(even, CriterionValue::AtBest(..)), "{even:?}");
    }
    let counted = evaluate(&kinked, &[], &spec()).slab.unwrap().counted;
    assert_eq!(counted, SlabCounted::CutOnKink);
}
