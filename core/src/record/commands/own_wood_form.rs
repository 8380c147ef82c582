//! A wood of the maker's own, new or changed, as a form.

use super::field_error::{FieldError, FieldErrors};
use super::field_kind::{FieldKind, FormField};
use super::filled::{Context, Filled, NewEvent};
use super::form::{Form, Texts, as_json, begun_from, texts_of};
use super::own_wood::WoodTyped;
use crate::quantity::read::Units;
use crate::record::log::{Event, Id};
use crate::wood::OwnNumber;

/// The name in use.
pub const NAME: FormField = FormField::new("Name of the wood", FieldKind::Words);
/// The botanical name.
pub const SCIENTIFIC: FormField = FormField::new("Botanical name", FieldKind::Words);
/// The maker's note.
pub const NOTE: FormField = FormField::new("Note on the wood", FieldKind::Note);
/// What its dust is known to do.
pub const DUST: FormField = FormField::new("Its dust", FieldKind::Offered);

/// A number, and where it is from.
pub fn fields_of(number: OwnNumber) -> [FormField; 2] {
    [
        FormField::new(number.label(), FieldKind::Plain),
        FormField::new(number.source_label(), FieldKind::Note),
    ]
}

/// The key under which the form is kept while it is half typed; `about` is the wood.
pub fn form_key(about: Option<Id>) -> String {
    about.map_or_else(
        || "own-wood".to_owned(),
        |about| format!("own-wood/{about}"),
    )
}

/// A wood as it is, by its id in the record; a new one under the name that was typed elsewhere.
pub fn begins(wood: Option<&str>, name: &str, context: &Context<'_>, units: Units) -> Texts {
    let known = wood.and_then(|id| context.state.woods().get(id));
    let typed = known.map_or_else(
        || WoodTyped {
            name: name.to_owned(),
            ..WoodTyped::default()
        },
        |wood| WoodTyped::of(&wood.added, units),
    );
    let mut texts = texts_of([
        (NAME, typed.name),
        (SCIENTIFIC, typed.scientific),
        (NOTE, typed.note),
        (DUST, as_json(&typed.dust)),
    ]);
    for number in OwnNumber::ALL {
        let of = typed.numbers.iter().find(|(of, _, _)| of == number);
        let (text, source) = of
            .map(|(_, text, source)| (text.clone(), source.clone()))
            .unwrap_or_default();
        let [value, from] = fields_of(*number);
        texts.extend(texts_of([(value, text), (from, source)]));
    }
    begun_from(texts, known.map(|wood| wood.entry))
}

/// What a filled form becomes; `wood` is the id of the wood that is changed.
pub fn command(
    form: &Form<'_>,
    wood: Option<&str>,
    context: &Context<'_>,
    new_id: &mut impl FnMut() -> Id,
) -> Result<Filled, FieldErrors> {
    let state = context.state;
    let known = wood.and_then(|id| state.woods().get(id));
    let mut read = form.reader();
    let mut typed = WoodTyped {
        name: read.words(NAME),
        scientific: read.words(SCIENTIFIC),
        note: read.words(NOTE),
        dust: read.kept(DUST),
        numbers: Vec::new(),
    };
    for number in OwnNumber::ALL {
        let [value, from] = fields_of(*number);
        let (text, source) = (form.text(value.key), form.text(from.key));
        match number.read(text, form.units) {
            _ if text.is_empty() => {}
            Ok(_) => typed
                .numbers
                .push((*number, text.to_owned(), source.to_owned())),
            Err(why) => {
                let (typed, why) = (text.to_owned(), why.to_string());
                read.wrong(value, FieldError::NotRead { typed, why });
            }
        }
    }
    let about = known.map_or_else(new_id, |wood| wood.about);
    let id = known.map_or_else(|| about.to_string(), |wood| wood.added.id.clone());
    if let Err(fault) = typed.named_alone(state, &id) {
        read.wrong(NAME, FieldError::Wood(fault));
    }
    if let Err(fault) = typed.density_range_is_whole(form.units) {
        let [high, _] = fields_of(OwnNumber::DensityHigh);
        read.wrong(high, FieldError::Wood(fault));
    }
    let added = typed.added(state, &id, form.units);
    let added = read.finish(|| added.ok())?;
    let replaced = form.replaces(&begins(wood, "", context, form.units));
    let event = Event::WoodAdded(Box::new(added));
    Ok(Filled::of(vec![NewEvent::instead_of(
        about, event, replaced,
    )]))
}
