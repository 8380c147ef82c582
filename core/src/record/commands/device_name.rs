//! The name of this device, which others show beside what was entered on it.

use super::field_error::{FieldError, FieldErrors};
use super::field_kind::{FieldKind, FormField};
use super::filled::{Filled, NewEvent};
use super::form::{Form, Texts, texts_of};
use crate::record::log::{DeviceRenamed, Event, Id};
use crate::record::queries::name_of_device;
use crate::record::state::State;

/// The name.
pub const NAME: FormField = FormField::new("Name of this device", FieldKind::Words);

/// The name that it has.
pub fn begins(state: &State, device: &str) -> Texts {
    let name = name_of_device(state, device).unwrap_or_default();
    texts_of([(NAME, name.to_owned())])
}

/// What a filled form becomes; no event where that is its name already.
pub fn command(
    form: &Form<'_>,
    state: &State,
    device: &str,
    new_id: &mut impl FnMut() -> Id,
) -> Result<Filled, FieldErrors> {
    let mut read = form.reader();
    let name = read.words(NAME);
    if name.is_empty() {
        read.wrong(NAME, FieldError::NoDeviceName);
    }
    let name = read.finish(|| Some(name))?;
    if name_of_device(state, device) == Some(name.as_str()) {
        return Ok(Filled::default());
    }
    let renamed = DeviceRenamed {
        by: device.to_owned(),
        name,
        ..DeviceRenamed::default()
    };
    let event = Event::DeviceRenamed(Box::new(renamed));
    Ok(Filled::of(vec![NewEvent::new(new_id(), event)]))
}
