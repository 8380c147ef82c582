//! The tally rule of a yard, as it is asked for on a visit and on a pile that has one of its own.

use super::field_kind::{FieldKind, FormField};
use super::form::{FormReader, Texts, as_json, texts_of};
use crate::record::commands::field_error::FieldError;
use crate::trade::TallyRule;
use rust_decimal::Decimal;

/// How the footage is taken.
pub const MEASURE: FormField =
    FormField::new("measure", FieldKind::Named(&["exact", "surface_measure"]));
/// How the width is rounded.
pub const WIDTH: FormField = FormField::new("width", ROUNDINGS);
/// How the length is rounded.
pub const LENGTH: FormField = FormField::new("length", ROUNDINGS);
/// Which thickness is charged.
pub const THICKNESS: FormField =
    FormField::new("thickness", FieldKind::Named(&["nominal", "measured"]));
/// What is added to the footage, in percent.
pub const ADDED: FormField = FormField::new("Percent added", FieldKind::Percent);

const ROUNDINGS: FieldKind = FieldKind::Named(&["none", "down", "nearest", "up"]);
/// More than this is not added to any footage, %.
const MOST_ADDED: Decimal = Decimal::ONE_THOUSAND;

/// A number as it stands in a form; nothing for nought.
pub(super) fn number(value: Decimal) -> String {
    match value.is_zero() {
        true => String::new(),
        false => value.normalize().to_string(),
    }
}

/// A rule as it stands in a form.
pub(super) fn begins(rule: &TallyRule) -> Texts {
    texts_of([
        (MEASURE, as_json(&rule.measure)),
        (WIDTH, as_json(&rule.width)),
        (LENGTH, as_json(&rule.length)),
        (THICKNESS, as_json(&rule.thickness)),
        (ADDED, number(rule.added_percent)),
    ])
}

/// The rule as it stands; what is not chosen is as a rule is supplied.
pub(super) fn read(read: &mut FormReader<'_>) -> TallyRule {
    let supplied = TallyRule::default();
    let form = read.form();
    let added = read.any_percent(ADDED).unwrap_or_default();
    if added > MOST_ADDED {
        read.wrong(ADDED, FieldError::TooMuchAdded(added));
    }
    TallyRule {
        measure: form.json(MEASURE.key).unwrap_or(supplied.measure),
        width: form.json(WIDTH.key).unwrap_or(supplied.width),
        length: form.json(LENGTH.key).unwrap_or(supplied.length),
        thickness: form.json(THICKNESS.key).unwrap_or(supplied.thickness),
        added_percent: added,
    }
}
