//! What can be judged by eye, and in which steps.

use super::Field;
use super::bound::Bound;

#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EyeStep {
    /// What the record keeps as typed. A screen may call the step by any other words.
    pub typed: &'static str,
    /// What it stands for, in the unit in which the field is kept.
    pub value: f64,
    pub bound: Bound,
}

const fn point(typed: &'static str, value: f64) -> EyeStep {
    EyeStep {
        typed,
        value,
        bound: Bound::Point,
    }
}

const fn at_least(typed: &'static str, value: f64) -> EyeStep {
    EyeStep {
        typed,
        value,
        bound: Bound::AtLeast,
    }
}

const GAP: [EyeStep; 4] = [
    point("none", 0.0),
    point("about 3", 3.0),
    point("about 6", 6.0),
    at_least("10 or more", 10.0),
];
const CUP: [EyeStep; 4] = [
    point("none", 0.0),
    point("about 1", 1.0),
    point("about 3", 3.0),
    at_least("5 or more", 5.0),
];
const SLOPE: [EyeStep; 4] = [
    point("straight", 0.0),
    point("1 in 25", 0.04),
    point("1 in 15", 1.0 / 15.0),
    at_least("worse", 0.1),
];
const RINGS: [EyeStep; 3] = [
    point("flat", 15.0),
    point("rift", 45.0),
    point("quartered", 80.0),
];

/// The eye's coarse steps for a field. Fields that the eye can't judge have none. Common practice, no
/// source.
///
/// No published value: steps of practice, not worked out.
pub fn eye_steps(field: Field) -> &'static [EyeStep] {
    match field {
        Field::Bow | Field::Twist | Field::Crook => &GAP,
        Field::Cup => &CUP,
        Field::GrainFace | Field::GrainEdge => &SLOPE,
        Field::RingAngle => &RINGS,
        _ => &[],
    }
}

/// How far off a value judged by eye may be for the eye's steps alone: half the way to the next step, above it where
/// there is one, else below; `None` for fields that have no steps. A slope is told in tangents: "1 in 25" may be off by
/// 0.013, 4 mm in 300. Derived here: what lies nearer to one step than to the next is called by it.
///
/// No published value: half a difference.
pub(super) fn half_step(field: Field, value: f64) -> Option<f64> {
    let value = value.abs();
    let apart = eye_steps(field).iter().map(|step| step.value - value);
    let apart: Vec<f64> = apart.filter(|apart| apart.abs() > NO_STEP).collect();
    let above = apart.iter().copied().find(|apart| *apart > 0.0);
    Some(above.or(apart.last().copied())?.abs() / 2.0)
}

/// Less between a value and a step is a trace of binary arithmetic.
const NO_STEP: f64 = 1e-9;

/// Whether what was typed is a step without an upper end: "10 or more" is a bound and no value.
pub(super) fn is_open_step(typed: &str) -> bool {
    let steps = GAP.iter().chain(&CUP).chain(&SLOPE).chain(&RINGS);
    steps
        .filter(|step| step.bound == Bound::AtLeast)
        .any(|step| step.typed == typed)
}
