//! Specs to start from. Every number is common practice, no source, and the maker's to change.

use super::{Criterion, FirstCut, Form, Order, Orientation, Part, Purpose, Requirement, Spec};
use crate::plank::{DefectKind, DefectSeverity};

/// The share of neck laminates that is expected to come through all its stages. Common practice, no source.
pub(crate) const NECK_LAMINATES_YIELD: f64 = 0.5;

impl Spec {
    /// A spec for each purpose, to start from.
    pub fn supplied() -> Vec<Spec> {
        vec![neck_laminates(), one_piece_neck(), body(), fingerboard()]
    }
}

/// Slope of grain for necks: good at 1:20 or better, refused beyond 1:15.
const NECK_GRAIN: Form = Form::AtMost {
    target: 1.0 / 20.0,
    limit: 1.0 / 15.0,
};
/// Moisture to buy at: 6 to 10 %, refused above 12 %.
const KILN_DRY: Form = Form::Within {
    low_limit: 4.0,
    low_target: 6.0,
    high_target: 10.0,
    high_limit: 12.0,
};

/// By how much a straight slab may be thicker than the part needs, mm, until nothing is left to wish. Common
/// practice, no source.
const SLAB_TO_SPARE: f64 = 2.0;

impl Form {
    /// The limits of a straight slab that follow from the thickness that a part needs, mm: refused below it, and
    /// good from 2 mm more on.
    pub fn of_slab(needed_mm: f64) -> Form {
        Form::AtLeast {
            target: needed_mm + SLAB_TO_SPARE,
            limit: needed_mm,
        }
    }
}

fn criteria(slab_mm: f64, crook_mm: f64, density: Form, grain: Form) -> Vec<Requirement> {
    vec![
        Requirement {
            criterion: Criterion::Straightness,
            form: Form::of_slab(slab_mm),
        },
        Requirement {
            criterion: Criterion::Crook,
            form: Form::AtMost {
                target: crook_mm / 2.0,
                limit: crook_mm * 2.0,
            },
        },
        Requirement {
            criterion: Criterion::GrainSlope,
            form: grain,
        },
        Requirement {
            criterion: Criterion::Density,
            form: density,
        },
        Requirement {
            criterion: Criterion::Moisture,
            form: KILN_DRY,
        },
        Requirement {
            criterion: Criterion::Size,
            form: Form::AtLeast {
                target: 1.0,
                limit: 1.0,
            },
        },
    ]
}

fn fatal() -> Vec<DefectKind> {
    DefectKind::ALL
        .iter()
        .copied()
        .filter(|kind| kind.severity() == DefectSeverity::Fatal)
        .collect()
}

fn window(low_limit: f64, low_target: f64, high_target: f64, high_limit: f64) -> Form {
    Form::Within {
        low_limit,
        low_target,
        high_target,
        high_limit,
    }
}

fn neck_laminates() -> Spec {
    Spec {
        name: "Neck laminates".into(),
        purpose: Purpose::NeckLaminates,
        part: Part {
            length_mm: 950.0,
            width_mm: 45.0,
            thickness_mm: 16.0,
        },
        orientation: Orientation::OnEdge,
        first_cut: FirstCut::Part,
        parts_per_blank: 5,
        blanks_wanted: 10,
        kerf_mm: 3.2,
        planing_mm: 1.0,
        end_trim_mm: 70.0,
        edge_trim_mm: 10.0,
        expected_yield: NECK_LAMINATES_YIELD,
        criteria: criteria(45.0, 1.0, window(550.0, 620.0, 800.0, 900.0), NECK_GRAIN),
        fatal: fatal(),
        order: Order::CostPerPart,
    }
}

fn one_piece_neck() -> Spec {
    let mut criteria = criteria(27.0, 2.0, window(550.0, 620.0, 780.0, 850.0), NECK_GRAIN);
    criteria.push(Requirement {
        criterion: Criterion::RingAngle,
        form: Form::AtLeast {
            target: 60.0,
            limit: 45.0,
        },
    });
    Spec {
        name: "One-piece necks".into(),
        purpose: Purpose::OnePieceNeck,
        part: Part {
            length_mm: 760.0,
            width_mm: 80.0,
            thickness_mm: 27.0,
        },
        orientation: Orientation::Flat,
        first_cut: FirstCut::Part,
        parts_per_blank: 1,
        blanks_wanted: 4,
        kerf_mm: 3.2,
        planing_mm: 1.0,
        end_trim_mm: 70.0,
        edge_trim_mm: 10.0,
        expected_yield: 0.6,
        criteria,
        fatal: fatal(),
        order: Order::Score,
    }
}

fn body() -> Spec {
    let grain = Form::AtMost {
        target: 1.0 / 10.0,
        limit: 1.0 / 5.0,
    };
    Spec {
        name: "Bodies".into(),
        purpose: Purpose::Body,
        part: Part {
            length_mm: 520.0,
            width_mm: 180.0,
            thickness_mm: 45.0,
        },
        orientation: Orientation::Flat,
        first_cut: FirstCut::Part,
        parts_per_blank: 2,
        blanks_wanted: 2,
        kerf_mm: 3.2,
        planing_mm: 1.0,
        end_trim_mm: 70.0,
        edge_trim_mm: 10.0,
        expected_yield: 0.9,
        criteria: criteria(45.0, 4.0, window(380.0, 450.0, 620.0, 720.0), grain),
        fatal: vec![
            DefectKind::Decay,
            DefectKind::Honeycomb,
            DefectKind::Collapse,
            DefectKind::Shake,
        ],
        order: Order::Score,
    }
}

fn fingerboard() -> Spec {
    Spec {
        name: "Fingerboards".into(),
        purpose: Purpose::Fingerboard,
        part: Part {
            length_mm: 760.0,
            width_mm: 80.0,
            thickness_mm: 9.0,
        },
        orientation: Orientation::Flat,
        first_cut: FirstCut::Part,
        parts_per_blank: 1,
        blanks_wanted: 6,
        kerf_mm: 3.2,
        planing_mm: 0.8,
        end_trim_mm: 50.0,
        edge_trim_mm: 6.0,
        expected_yield: 0.85,
        criteria: criteria(9.0, 2.0, window(650.0, 750.0, 1100.0, 1250.0), NECK_GRAIN),
        fatal: fatal(),
        order: Order::Score,
    }
}
