//! How far laminates that are glued together may be off.

use super::field_error::{FieldError, FieldErrors};
use super::field_kind::{FieldKind, FormField};
use super::filled::{Context, Filled, NewEvent};
use super::form::{Form, Texts};
use crate::neck::MatchLimits;
use crate::order;
use crate::quantity::show;
use crate::record::log::{Event, GluingSet, Id};
use crate::record::queries::match_limits;

/// One limit: its field, and its number in the setting.
type LimitOf = (FormField, fn(&mut GluingSet) -> &mut f64);

const fn limit(key: &'static str) -> FormField {
    FormField::new(key, FieldKind::Plain)
}

const SHARE: FormField = limit("Stiffness apart, a share");

const LIMITS: [LimitOf; 6] = [
    (limit("Crook left, mm"), |set| &mut set.crook_mm),
    (limit("Twist, mm"), |set| &mut set.twist_mm),
    (limit("Moisture apart, %"), |set| &mut set.moisture_percent),
    (limit("Thickness apart, mm"), |set| &mut set.thickness_mm),
    (limit("Density apart, kg/m³"), |set| &mut set.density_kg_m3),
    (SHARE, |set| &mut set.modulus_share),
];

/// What is asked.
pub const FIELDS: [FormField; 6] = [
    LIMITS[0].0,
    LIMITS[1].0,
    LIMITS[2].0,
    LIMITS[3].0,
    LIMITS[4].0,
    LIMITS[5].0,
];

/// The key under which the form is kept while it is half typed.
pub const FORM_KEY: &str = "gluing limits";

/// Limits as they stand in the form.
pub fn texts(limits: &MatchLimits) -> Texts {
    let mut set = GluingSet::of(limits);
    let one = |(field, at): &LimitOf| {
        let text = show::number(*at(&mut set), 3);
        (field.key.to_owned(), text)
    };
    order::map_of(LIMITS.iter().map(one))
}

/// The limits in force.
pub fn begins(context: &Context<'_>) -> Texts {
    texts(&match_limits(context.state))
}

/// What a filled form becomes.
pub fn command(
    form: &Form<'_>,
    context: &Context<'_>,
    new_id: &mut impl FnMut() -> Id,
) -> Result<Filled, FieldErrors> {
    let mut read = form.reader();
    let mut set = GluingSet::of(&match_limits(context.state));
    for (field, at) in LIMITS {
        if let Some(reading) = read.needed_reading(field) {
            if reading.value <= 0.0 {
                read.wrong(field, FieldError::Zero);
            }
            if field == SHARE && reading.value > 1.0 {
                read.wrong(field, FieldError::MoreThanAll(reading.typed));
            }
            *at(&mut set) = reading.value;
        }
    }
    let set = read.finish(|| Some(set))?;
    let event = NewEvent::new(new_id(), Event::GluingSet(Box::new(set)));
    Ok(Filled::of(vec![event]))
}
