//! What can be judged by eye, and in which steps.

use super::{Field, Measure};

/// The eye's coarse steps for a field, as words and the value they stand for. Fields that the eye
/// can't judge have none. Common practice, no source.
///
/// No published value: steps of practice, not worked out.
pub fn eye_steps(field: Field) -> &'static [(&'static str, f64)] {
    match field {
        Field::Bow | Field::Twist => &[
            ("none", 0.0),
            ("about 3", 3.0),
            ("about 6", 6.0),
            ("10 or more", 10.0),
        ],
        Field::Crook => &[
            ("none", 0.0),
            ("about 3", 3.0),
            ("about 6", 6.0),
            ("10 or more", 10.0),
        ],
        Field::Cup => &[
            ("none", 0.0),
            ("about 1", 1.0),
            ("about 3", 3.0),
            ("5 or more", 5.0),
        ],
        Field::GrainFace | Field::GrainEdge => &[
            ("straight", 0.0),
            ("1 in 25", 0.04),
            ("1 in 15", 1.0 / 15.0),
            ("worse", 0.1),
        ],
        Field::RingAngle => &[("flat", 15.0), ("rift", 45.0), ("quartered", 80.0)],
        _ => &[],
    }
}

/// The eye's last step for a field, where it has no upper end: "10 or more" is a bound and no value.
pub fn open_step(field: Field) -> Option<&'static str> {
    match field.measure() {
        Measure::Gap | Measure::Slope => eye_steps(field).last().map(|(words, _)| *words),
        _ => None,
    }
}
