//! The joints of a glued blank: how large the area is that is glued.

use crate::quantity::{Area, Length, Trace, formula, in_mm, mm2};

formula! {
    pub(super) JOINTS: "Area of the joints", "A", "m²";
    n: "n", "laminates", "";
    l: "l", "length of the blank", "mm";
    w: "w", "width of the laminates", "mm";
    = (n - 1.0) * l * w / 1e6;
    range "each joint once; glue on both faces covers twice as much";
    source "a definition";
}

/// The area of the joints of so many laminates, each joint once: A = (n − 1) l w.
///
/// n is the number of laminates, l the length of the blank, w the width of its laminates, the size along the joints. None
/// for fewer than two. Arithmetic.
///
/// ```
/// use stillwood_core::{neck::joint_area, quantity::{TraceOff, in_mm2, mm}};
/// let area = joint_area(&mut TraceOff, 5, mm(950.0), mm(48.0)).unwrap();
/// assert!((in_mm2(area) / 1e6 - 0.1824).abs() < 1e-9);
/// assert_eq!(joint_area(&mut TraceOff, 1, mm(950.0), mm(48.0)), None);
/// ```
///
/// No published value: a definition.
pub fn joint_area(
    trace: &mut impl Trace,
    laminates: usize,
    length: Length,
    width: Length,
) -> Option<Area> {
    let sizes = [laminates as f64, in_mm(length), in_mm(width)];
    (laminates > 1).then(|| mm2(1e6 * trace.work(&JOINTS, sizes)))
}
