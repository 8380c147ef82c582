//! A form that stands open: what is typed is kept at every key and taken up again when the form is next opened,
//! until it is recorded. All that is wrong stands at its field, and an odd value is asked about once.

use crate::effect::{AfterRecorded, Effect};
use crate::model::{HalfTyped, Model, Texts};
use crate::route::Route;
use crate::tell::keep;
use stillwood_core::plank::Reason;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::{
    FieldErrors, FieldKind, FieldQuestion, Form, FormField, Id, as_json, confirm,
};

pub use crate::form_id::{FormId, names_a_wood};

/// What stands before the key of a half-typed form in the store.
pub const FORM: &str = "form/";

/// A form that stands open.
#[derive(Debug, Clone)]
pub struct OpenForm {
    /// Which it is.
    pub id: FormId,
    /// Under which it is kept while it is half typed.
    pub key: String,
    /// What stands in its fields.
    pub texts: Texts,
    /// What stood in them when it was opened afresh.
    first: Texts,
    /// It was half typed before: what a bare number stood for then.
    pub found: Option<Units>,
    /// All that is wrong, field by field.
    pub errors: FieldErrors,
    /// What is asked, field by field.
    pub questions: Vec<FieldQuestion>,
    /// What is wrong with none of the fields.
    pub line: String,
    /// It is being written down.
    pub busy: bool,
}

impl OpenForm {
    /// What stands in a field.
    pub fn text(&self, key: &str) -> &str {
        self.texts.get(key).map_or("", String::as_str)
    }

    /// Puts a text into a field: what was wrong there may be so no more, and what was asked was asked of another text.
    fn put(&mut self, key: String, text: &str) {
        self.line.clear();
        self.errors.remove(&key);
        self.questions.retain(|asked| asked.key != key);
        let text = self.id.text_kept(&key, text);
        self.texts.insert(key, text);
    }
}

/// What may be done with the form that stands open.
#[derive(Debug, Clone)]
pub enum FormAction {
    /// Choose in a field, or tick it: what stands in it from now on.
    Put(&'static str, String),
    /// Choose a reason, or take it away.
    Reason(&'static str, Reason),
    /// What stands in a field is as it should be.
    Confirm(String),
    /// Start afresh.
    Afresh,
    /// Record it.
    Save,
}

/// Opens a form: as it was left half typed, else afresh.
pub fn open(model: &mut Model, id: FormId) {
    let context = model.context();
    let key = id.key();
    let first = id.begins(&context, model.settings.units);
    let mut texts = first.clone();
    let known = model.forms.get(&key);
    if let Some(known) = known {
        texts.extend(known.texts.clone());
    }
    model.form = Some(OpenForm {
        id,
        found: known.map(|known| known.units),
        key,
        texts,
        first,
        errors: FieldErrors::default(),
        questions: Vec::new(),
        line: String::new(),
        busy: false,
    });
}

/// Puts a text into a field in which nothing stands, as if it had stood there when the form was opened.
pub fn offer(model: &mut Model, id: FormId, key: &str, text: String) {
    if let Some(form) = model
        .form
        .as_mut()
        .filter(|form| form.id == id && form.text(key).is_empty())
    {
        form.texts.insert(key.to_owned(), text.clone());
        form.first.insert(key.to_owned(), text);
    }
}

/// Opens a form with texts that another part of the screen holds.
pub fn open_with(model: &mut Model, id: FormId, texts: Texts) {
    open(model, id);
    if let Some(form) = &mut model.form {
        form.first.extend(texts.clone());
        form.texts.extend(texts);
    }
}

/// Lets a field of the form that stands open begin with a text, where nothing was half typed in it.
pub fn begin_with(model: &mut Model, key: &str, text: String) {
    if let Some(form) = &mut model.form
        && form.first.get(key).is_none_or(String::is_empty)
    {
        if form.text(key).is_empty() && form.found.is_none() {
            form.texts.insert(key.to_owned(), text.clone());
        }
        form.first.insert(key.to_owned(), text);
    }
}

/// Something typed into one of its fields: what stands in it and in others that follow from it.
pub fn typed(model: &mut Model, name: &str, texts: Texts) -> Vec<Effect> {
    if let Some(form) = &mut model.form {
        form.errors.remove(name);
        for (key, text) in texts {
            form.put(key, &text);
        }
    }
    keep_open(model)
}

/// What an action does.
pub fn update(model: &mut Model, action: FormAction) -> Vec<Effect> {
    let Some(form) = &mut model.form else {
        return Vec::new();
    };
    match action {
        FormAction::Put(key, text) => {
            form.put(key.to_owned(), &text);
            keep_open(model)
        }
        FormAction::Reason(key, reason) => {
            let chosen = serde_json::from_str(form.text(key));
            // nothing lost: a list that this version can't read is one that it did not write
            let mut chosen: Vec<Reason> = chosen.unwrap_or_default();
            match chosen.iter().position(|one| *one == reason) {
                Some(at) => drop(chosen.remove(at)),
                None => chosen.push(reason),
            }
            form.put(key.to_owned(), &as_json(&chosen));
            keep_open(model)
        }
        FormAction::Confirm(key) => {
            confirm(&mut form.texts, &key);
            form.questions.retain(|question| question.key != key);
            if form.questions.is_empty() {
                save(model)
            } else {
                keep_open(model)
            }
        }
        FormAction::Afresh => {
            let mut texts = form.first.clone();
            for field in form.id.stays() {
                let stands = form.texts.remove(field.key);
                texts.extend(stands.map(|text| (field.key.to_owned(), text)));
            }
            form.texts = texts;
            form.found = None;
            form.errors = FieldErrors::default();
            form.questions.clear();
            form.line.clear();
            keep_open(model)
        }
        FormAction::Save => save(model),
    }
}

/// Keeps the form that stands open as it is; as it was opened afresh, nothing of it is half typed.
fn keep_open(model: &mut Model) -> Vec<Effect> {
    let Some(form) = &model.form else {
        return Vec::new();
    };
    let key = format!("{FORM}{}", form.key);
    if form.texts == form.first {
        model.forms.remove(&form.key);
        return vec![Effect::RemoveDraft(key)];
    }
    let form_key = form.key.clone();
    let Some(half_typed) = as_it_stands(model, &form_key) else {
        return Vec::new();
    };
    let effects = keep(key, &half_typed);
    model.forms.insert(form_key, half_typed);
    effects
}

fn save(model: &mut Model) -> Vec<Effect> {
    let Some(form) = model.form.as_ref().filter(|form| !form.busy) else {
        return Vec::new();
    };
    let mut random = std::mem::take(&mut model.random);
    let millis = model.now.millis;
    let mut out_of_ids = false;
    let mut new_id = || match random.pop() {
        Some(random) => Id::version_7(millis, &random),
        None => {
            out_of_ids = true;
            Id::from_u128(0)
        }
    };
    let context = model.context();
    let read = Form::new(&form.texts, model.settings.units);
    let filled = form
        .id
        .command(&read, model.record.log(), &context, &mut new_id);
    let (id, key) = (form.id, form.key.clone());
    model.random = random;
    let no_names = model.words().common.no_new_names;
    let asks = model.words().common.asked_first;
    let Some(form) = &mut model.form else {
        return Vec::new();
    };
    match filled {
        _ if out_of_ids => {
            form.line = no_names.to_owned();
            Vec::new()
        }
        Err(errors) => {
            let first = errors.all().first().map(|(key, _)| field_id(key));
            form.errors = errors;
            form.questions.clear();
            form.line.clear();
            first.map_or_else(Vec::new, |first| vec![Effect::Focus(first)])
        }
        Ok(filled) if !filled.questions.is_empty() => {
            form.errors = FieldErrors::default();
            let first = filled.questions.first().map(|asked| field_id(&asked.key));
            form.questions = filled.questions;
            form.line = asks.to_owned();
            first.map_or_else(Vec::new, |first| vec![Effect::ScrollTo(first)])
        }
        Ok(filled) => {
            form.busy = true;
            form.errors = FieldErrors::default();
            let go = match (&model.racks.weighing, id) {
                // A rack is weighed piece by piece.
                (Some(round), FormId::Workshop(piece, _)) if round.at == piece => {
                    Some(round.next.map_or(Route::Racks, Route::Deed))
                }
                _ => id.then(&filled, model.route),
            };
            let said = id.said(&filled, model);
            vec![Effect::Record {
                events: filled.events,
                after: AfterRecorded {
                    said,
                    go,
                    form: Some(key),
                    next: id.next(),
                    ..AfterRecorded::default()
                },
            }]
        }
    }
}

/// A form as it stands: the one that is open, else as it is kept half typed.
pub fn as_it_stands(model: &Model, key: &str) -> Option<HalfTyped> {
    let open = model.form.as_ref().filter(|form| form.key == key);
    let open = open.map(|form| HalfTyped {
        at: model.route.address(),
        words: form.id.words(model),
        // Numbers typed under other units keep them, until the form is begun afresh.
        units: form.found.unwrap_or_else(|| model.units()),
        texts: form.texts.clone(),
    });
    open.or_else(|| model.forms.get(key).cloned())
}

/// It is recorded: it is half typed no more.
pub fn recorded(model: &mut Model, key: &str) {
    model.forms.remove(key);
    if model.form.as_ref().is_some_and(|form| form.key == key) {
        model.form = None;
    }
}

/// The id of a field's element: its stored name, as far as an id can hold it.
pub fn field_id(key: &str) -> String {
    let letters = key
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { '-' });
    format!("field-{}", letters.collect::<String>())
}

/// Whether a field is shown beside others in a row: numbers are.
pub fn is_short(field: &FormField) -> bool {
    field.kind.is_number() || field.kind == FieldKind::Day
}
