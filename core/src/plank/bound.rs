//! Whether a value is what is there, or the least of it.

/// What the value says of what is there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bound {
    Point,
    /// It is the value or more: the eye's last step.
    AtLeast,
}
