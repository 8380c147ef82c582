//! Rest times and limits of a stage, as the maker sets them.

use super::field_error::{FieldError, FieldErrors};
use super::field_kind::{FieldKind, FormField};
use super::filled::{Context, Filled, NewEvent, on_its_day};
use super::form::{DAY, Form, FormReader, Texts, texts_of};
use crate::quantity::show;
use crate::record::log::{Event, Id, StageSet};
use crate::record::queries::stage_limits;
use crate::season::{Limit, Stage, StageLimits};

/// So long a plank lies in the room before it is cut, in weeks; empty is as supplied. Of pieces only.
pub const WEEKS: FormField = FormField::new("Weeks in the room", FieldKind::Weeks);
/// The least rest, in months.
pub const MONTHS: FormField = FormField::new("Months at least", FieldKind::Months);
/// The longest rest, in months.
pub const MONTHS_MOST: FormField = FormField::new("Months at most", FieldKind::Months);
/// Over which length limits hold: a longer piece may bend by more.
pub const OVER: FormField = FormField::new("Limits hold over", FieldKind::Length);

const fn gap(key: &'static str) -> FormField {
    FormField::new(key, FieldKind::SmallLength)
}

/// Reject and warn limits of bow, crook, twist and cup.
const BOW: [FormField; 2] = [gap("Bow: out beyond"), gap("Bow: watched beyond")];
const CROOK: [FormField; 2] = [gap("Crook: out beyond"), gap("Crook: watched beyond")];
const TWIST: [FormField; 2] = [gap("Twist: out beyond"), gap("Twist: watched beyond")];
const CUP: [FormField; 2] = [gap("Cup: out beyond"), gap("Cup: watched beyond")];

/// More months or weeks than wood rests.
const LONGEST: u32 = 600;

static FIELDS: [FormField; 13] = [
    WEEKS,
    MONTHS,
    MONTHS_MOST,
    BOW[0],
    BOW[1],
    CROOK[0],
    CROOK[1],
    CUP[0],
    CUP[1],
    TWIST[0],
    TWIST[1],
    OVER,
    DAY,
];

/// What is asked of a stage.
pub fn fields(stage: Stage) -> &'static [FormField] {
    match stage {
        Stage::Pieces => &FIELDS,
        Stage::Laminates | Stage::Blanks => &FIELDS[1..],
    }
}

/// The key under which the form is kept while it is half typed.
pub fn form_key(stage: Stage) -> String {
    let name = match stage {
        Stage::Pieces => "pieces",
        Stage::Laminates => "laminates",
        Stage::Blanks => "blanks",
    };
    format!("terms/{name}")
}

/// The limits in force.
pub fn begins(stage: Stage, context: &Context<'_>) -> Texts {
    let limits = stage_limits(context.state, stage);
    let length = |mm: f64| format!("{} mm", show::number(mm, 3));
    let count = |count: Option<u32>| count.map(|count| count.to_string()).unwrap_or_default();
    let mut texts = texts_of([
        (MONTHS, limits.months.to_string()),
        (MONTHS_MOST, count(limits.months_most)),
        (OVER, length(limits.over_mm)),
        (DAY, context.today.to_string()),
    ]);
    if stage == Stage::Pieces {
        texts.extend(texts_of([(WEEKS, count(limits.weeks_in_room))]));
    }
    let shapes = [
        (BOW, limits.bow),
        (CROOK, limits.crook),
        (TWIST, limits.twist),
        (CUP, limits.cup),
    ];
    for ([reject, warn], limit) in shapes {
        let reject_mm = limit.map(|limit| length(limit.reject_mm));
        let warn_mm = limit.and_then(|limit| limit.warn_mm).map(length);
        texts.extend(texts_of([
            (reject, reject_mm.unwrap_or_default()),
            (warn, warn_mm.unwrap_or_default()),
        ]));
    }
    texts
}

/// What a filled form becomes.
pub fn command(
    form: &Form<'_>,
    stage: Stage,
    context: &Context<'_>,
    new_id: &mut impl FnMut() -> Id,
) -> Result<Filled, FieldErrors> {
    let mut read = form.reader();
    let months = read.count(MONTHS, LONGEST);
    if months.is_none() && !read.is_wrong(MONTHS) {
        read.wrong(MONTHS, FieldError::Missing);
    }
    let months_most = read.count(MONTHS_MOST, LONGEST);
    if let (Some(least), Some(most)) = (months, months_most)
        && most < least
    {
        read.wrong(MONTHS_MOST, FieldError::FewerThanLeast { least, most });
    }
    let weeks_in_room = match stage {
        Stage::Pieces => read.count(WEEKS, LONGEST),
        Stage::Laminates | Stage::Blanks => None,
    };
    let [bow, crook, twist, cup] = [BOW, CROOK, TWIST, CUP].map(|of| limit(&mut read, of));
    let over = read.needed_reading(OVER).map(|over| over.value);
    if over.is_some_and(|over| over <= 0.0) {
        read.wrong(OVER, FieldError::Zero);
    }
    let on = read.needed_day(DAY);
    let (terms, on) = read.finish(|| {
        let terms = StageLimits {
            bow,
            crook,
            cup,
            months: months?,
            months_most,
            over_mm: over?,
            twist,
            weeks_in_room,
        };
        Some((terms, on?))
    })?;
    let event = Event::StageSet(Box::new(StageSet { stage, terms }));
    let event = NewEvent::new(new_id(), event).on(on);
    let event = event.on_confirmed(form.is_confirmed(DAY.key));
    Ok(on_its_day(form, context, event, fields(stage)))
}

fn limit(read: &mut FormReader<'_>, [reject, warn]: [FormField; 2]) -> Option<Limit> {
    let warn_mm = read.reading(warn).map(|warn| warn.value);
    let reject_mm = match warn_mm {
        Some(_) => read.needed_reading(reject),
        None => read.reading(reject),
    };
    let reject_mm = reject_mm?.value;
    if warn_mm.is_some_and(|warn_mm| warn_mm >= reject_mm) {
        read.wrong(warn, FieldError::WarnsTooLate);
    }
    Some(Limit { reject_mm, warn_mm })
}
