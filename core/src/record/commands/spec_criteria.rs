//! The criteria of a spec in its form: each may be asked for, with its targets and limits; slopes stand as the
//! run of 1 in n.

use super::field_error::FieldError;
use super::field_kind::{FieldKind, FormField};
use super::form::{Form as TypedForm, FormReader, Texts, as_json, texts_of};
use crate::quantity::show;
use crate::verdict::{Criterion, Form, Requirement, Spec};
use std::sync::LazyLock;

/// The stored names of a criterion's fields: whether it is asked for, and its numbers.
struct Keys {
    criterion: Criterion,
    on: String,
    numbers: [String; 4],
}

static KEYS: LazyLock<Vec<Keys>> = LazyLock::new(|| {
    let one = |criterion: &Criterion| {
        let name = stored_name(*criterion);
        Keys {
            criterion: *criterion,
            on: name.to_owned(),
            numbers: [0, 1, 2, 3].map(|n| format!("{name} {n}")),
        }
    };
    Criterion::ALL.iter().map(one).collect()
});

/// The name under which a criterion is kept in a half-typed form: it never changes, whatever it is called.
fn stored_name(criterion: Criterion) -> &'static str {
    match criterion {
        Criterion::Straightness => "straight slab",
        Criterion::Crook => "crook",
        Criterion::Density => "density at 12 %",
        Criterion::GrainSlope => "slope of grain",
        Criterion::RingAngle => "ring angle",
        Criterion::Moisture => "moisture",
        Criterion::Size => "size",
    }
}

/// The fields of a criterion: whether it is asked for, and its numbers: target and limit, or of a window the low
/// limit, the low target, the high target and the high limit.
pub fn fields_of(criterion: Criterion) -> (FormField, [FormField; 4]) {
    // Every criterion is in the list.
    let at = Criterion::ALL.iter().position(|one| *one == criterion);
    let keys: &'static Keys = &KEYS[at.unwrap_or_default()];
    debug_assert_eq!(keys.criterion, criterion);
    let number = |n: usize| FormField::new(keys.numbers[n].as_str(), FieldKind::Plain);
    (
        FormField::new(keys.on.as_str(), FieldKind::Switch),
        [number(0), number(1), number(2), number(3)],
    )
}

/// A number as it stands in the form.
pub(super) fn number(value: f64) -> String {
    show::number(value, 3).replace('−', "-")
}

/// How many numbers a criterion has.
fn numbers(form: Form) -> usize {
    match form {
        Form::Within { .. } => 4,
        Form::AtMost { .. } | Form::AtLeast { .. } => 2,
    }
}

fn values(form: Form) -> [f64; 4] {
    match form {
        Form::AtMost { target, limit } | Form::AtLeast { target, limit } => {
            [target, limit, 0.0, 0.0]
        }
        Form::Within {
            low_limit,
            low_target,
            high_target,
            high_limit,
        } => [low_limit, low_target, high_target, high_limit],
    }
}

/// The same form with other numbers.
fn with_values(form: Form, values: [f64; 4]) -> Form {
    let [first, second, third, fourth] = values;
    match form {
        Form::AtMost { .. } => Form::AtMost {
            target: first,
            limit: second,
        },
        Form::AtLeast { .. } => Form::AtLeast {
            target: first,
            limit: second,
        },
        Form::Within { .. } => Form::Within {
            low_limit: first,
            low_target: second,
            high_target: third,
            high_limit: fourth,
        },
    }
}

/// A form to start from for a criterion that the spec does not have.
pub fn start_form(spec: &Spec, criterion: Criterion) -> Form {
    let supplied = Spec::supplied();
    let known = supplied.iter().find_map(|spec| spec.requirement(criterion));
    let known = spec.requirement(criterion).or(known);
    known.map_or(
        Form::AtLeast {
            target: 60.0,
            limit: 45.0,
        },
        |requirement| requirement.form,
    )
}

/// A slope stands as the run of 1 in n; all else as it is.
fn turned(criterion: Criterion, value: f64) -> f64 {
    match criterion {
        Criterion::GrainSlope if value > 0.0 => 1.0 / value,
        _ => value,
    }
}

/// A criterion as it stands in the form.
pub(super) fn begins_of(criterion: Criterion, spec: &Spec) -> Texts {
    let (on, fields) = fields_of(criterion);
    let values = values(start_form(spec, criterion));
    let shown = |n: usize| number(turned(criterion, values[n]));
    texts_of([
        (on, as_json(&spec.requirement(criterion).is_some())),
        (fields[0], shown(0)),
        (fields[1], shown(1)),
        (fields[2], shown(2)),
        (fields[3], shown(3)),
    ])
}

/// Whether the limits of the clean thickness in a spec follow from the size of its part.
pub(super) fn follows(spec: &Spec) -> bool {
    let form = start_form(spec, Criterion::Straightness);
    same_as_typed(form, Form::of_slab(spec.slab_needed_mm()))
}

/// Whether the limits of the clean thickness that are typed follow from what the part needs, mm.
pub(super) fn are_of_slab(form: &TypedForm<'_>, needed_mm: f64) -> bool {
    let mut read = form.reader();
    let (_, fields) = fields_of(Criterion::Straightness);
    let mut value = |at: usize| Some(read.reading(fields[at])?.value);
    let typed = value(0).zip(value(1));
    typed.is_some_and(|(target, limit)| {
        same_as_typed(Form::AtLeast { target, limit }, Form::of_slab(needed_mm))
    })
}

/// Whether two forms are the same as they are typed, to a thousandth.
fn same_as_typed(a: Form, b: Form) -> bool {
    let near = values(a)
        .iter()
        .zip(values(b))
        .all(|(a, b)| (a - b).abs() < 0.0005);
    near && std::mem::discriminant(&a) == std::mem::discriminant(&b)
}

/// What is asked of a criterion; `None` where it is not asked for, or where something is wrong. `slab` is the
/// thickness that the limits of the clean thickness follow from, where they do.
pub(super) fn requirement(
    read: &mut FormReader<'_>,
    criterion: Criterion,
    before: &Spec,
    slab: Option<f64>,
) -> Option<Requirement> {
    let (on, fields) = fields_of(criterion);
    let asked: Option<bool> = read.form().json(on.key);
    if !asked.unwrap_or_else(|| before.requirement(criterion).is_some()) {
        return None;
    }
    if let (Criterion::Straightness, Some(needed)) = (criterion, slab) {
        let form = Form::of_slab(needed);
        return Some(Requirement { criterion, form });
    }
    let like = start_form(before, criterion);
    let mut found = [Some(0.0); 4];
    for (found, field) in found.iter_mut().zip(fields).take(numbers(like)) {
        let reading = read.needed_reading(field);
        *found = reading.map(|reading| turned(criterion, reading.value));
        if criterion == Criterion::GrainSlope && *found == Some(0.0) {
            read.wrong(field, FieldError::Zero);
        }
    }
    let [first, second, third, fourth] = found;
    let form = with_values(like, [first?, second?, third?, fourth?]);
    let wrong = fields.iter().any(|field| read.is_wrong(*field));
    if !wrong && !form.is_sound() {
        read.wrong(fields[0], FieldError::LimitBeforeTarget);
    }
    Some(Requirement { criterion, form })
}
