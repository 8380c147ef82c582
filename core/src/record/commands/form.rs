//! A form as it is typed: texts by the stored names of its fields. A reader takes values out of them and
//! gathers what is wrong with all of them at once.
//!
//! The names are kept in the store of the device beside what is half typed: they never change. What a
//! field is called on a screen is the business of the screen.

use super::field_error::{FieldError, FieldErrors};
use super::field_kind::{FieldKind, FormField, read_as};
use crate::plank::{Reading, Readings, Reason};
use crate::quantity::read::{NotAnAmount, Units, amount, under_a_thousand};
use crate::record::log::{Id, NAME_SIGNS, date, has_hidden_sign, visible_text};
use chrono::NaiveDate;
use rust_decimal::Decimal;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// What stands in a form, by the stored names of its fields: exactly what is kept while it is half typed.
/// Choices, lists and maps stand there as JSON.
pub type Texts = BTreeMap<String, String>;

/// The stored name of the map that holds, for each field of which the maker said "yes, really", the text
/// of which it was said.
pub const CONFIRMED: &str = "yes, really";

/// The stored name of what a form that changes something was begun from.
const BEGUN_FROM: &str = "begun from";

/// What a form that changes something was begun from: the entry, and what it said.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
struct BegunFrom {
    entry: Id,
    texts: Texts,
}

/// Notes in the texts that a form begins with which entry they are from.
pub(super) fn begun_from(mut texts: Texts, entry: Option<Id>) -> Texts {
    if let Some(entry) = entry {
        let begun = BegunFrom {
            entry,
            texts: texts.clone(),
        };
        texts.insert(BEGUN_FROM.to_owned(), as_json(&begun));
    }
    texts
}

/// So many letters has a name or a few words at most: more fit on no label. Of some names the record takes fewer
/// ([`FormReader::needed_name`]).
pub const NAME_LETTERS: usize = 80;

/// The day on which something happened.
pub const DAY: FormField = FormField::new("Day", FieldKind::Day);

/// The last day for which a piece is kept for somebody.
pub(super) const UNTIL: FormField = FormField::new("Until, the last day", FieldKind::Day);

/// A form while it is read.
#[derive(Debug, Clone, Copy)]
pub struct Form<'a> {
    /// What stands in it.
    pub texts: &'a Texts,
    /// What a bare number stands for.
    pub units: Units,
}

impl<'a> Form<'a> {
    /// A form as it stands.
    pub fn new(texts: &'a Texts, units: Units) -> Self {
        Self { texts, units }
    }

    /// The text of a field as it stands; empty where there is none.
    pub fn raw(&self, key: &str) -> &'a str {
        self.texts.get(key).map_or("", String::as_str)
    }

    /// The text of a field without the blanks around it.
    pub fn text(&self, key: &str) -> &'a str {
        self.raw(key).trim()
    }

    /// What stands as JSON in a field; `None` where nothing is chosen, or where a newer version chose what
    /// this one does not know.
    pub fn json<T: DeserializeOwned>(&self, key: &str) -> Option<T> {
        serde_json::from_str(self.raw(key)).ok()
    }

    /// Whether the maker said "yes, really" of what stands in a field now.
    pub fn is_confirmed(&self, key: &str) -> bool {
        let confirmed: Option<BTreeMap<String, String>> = self.json(CONFIRMED);
        confirmed.is_some_and(|all| all.get(key).is_some_and(|text| text == self.raw(key)))
    }

    /// The entry that a change replaces, where `now` is what the form would begin with by now: the one in force. Where
    /// that says something else than what this form was begun from, it is the one that was seen, and both stand. A form
    /// that an older version kept does not say what it was begun from.
    pub(super) fn replaces(&self, now: &Texts) -> Vec<Id> {
        let now: Option<BegunFrom> = Form::new(now, self.units).json(BEGUN_FROM);
        let now = now.map(|now| match self.json::<BegunFrom>(BEGUN_FROM) {
            Some(begun) if begun.texts != now.texts => begun.entry,
            _ => now.entry,
        });
        now.into_iter().collect()
    }

    /// Takes values out of it.
    pub fn reader(self) -> FormReader<'a> {
        FormReader {
            form: self,
            errors: FieldErrors::default(),
        }
    }
}

/// Says "yes, really" of what stands in a field now.
pub fn confirm(texts: &mut Texts, key: &str) {
    let known = texts.get(CONFIRMED);
    let known = known.and_then(|json| serde_json::from_str(json).ok());
    let mut confirmed: BTreeMap<String, String> = known.unwrap_or_default();
    let text = texts.get(key).cloned().unwrap_or_default();
    confirmed.insert(key.to_owned(), text);
    texts.insert(CONFIRMED.to_owned(), as_json(&confirmed));
}

/// What a choice, a list or a map is kept as.
pub fn as_json<T: Serialize>(value: &T) -> String {
    // nothing lost: choices, lists and maps by name can always be written
    serde_json::to_string(value).unwrap_or_default()
}

/// Texts of fields by their names.
pub(super) fn texts_of<const N: usize>(of: [(FormField, String); N]) -> Texts {
    let one = |(field, text): (FormField, String)| (field.key.to_owned(), text);
    crate::order::map_of(of.into_iter().map(one))
}

/// Takes values out of a form. What can't be read is noted, and the rest is read all the same.
#[derive(Debug)]
pub struct FormReader<'a> {
    form: Form<'a>,
    errors: FieldErrors,
}

impl<'a> FormReader<'a> {
    /// The form.
    pub fn form(&self) -> Form<'a> {
        self.form
    }

    /// Notes what is wrong with a field.
    pub fn wrong(&mut self, field: FormField, error: FieldError) {
        self.wrong_at(field.key, error);
    }

    /// Notes what is wrong with a field of that stored name.
    pub fn wrong_at(&mut self, key: &str, error: FieldError) {
        self.errors.push(key, error);
    }

    /// Takes in what another reader of the same form found wrong.
    pub fn wrong_too(&mut self, errors: FieldErrors) {
        self.errors.extend(errors);
    }

    /// Whether something is wrong with a field.
    pub fn is_wrong(&self, field: FormField) -> bool {
        self.errors.of(field.key).is_some()
    }

    /// What was made of the form, or all that is wrong with it. `make` gives `None` where a value is
    /// missing that was noted as wrong.
    pub fn finish<T>(self, make: impl FnOnce() -> Option<T>) -> Result<T, FieldErrors> {
        if self.errors.is_empty() {
            make().ok_or(self.errors)
        } else {
            Err(self.errors)
        }
    }

    /// Words; a name has a greatest length, a note has none.
    pub fn words(&mut self, field: FormField) -> String {
        let text = self.form.text(field.key);
        if matches!(field.kind, FieldKind::Words | FieldKind::Species) {
            self.no_longer_than(field, text, NAME_LETTERS);
        }
        text.to_owned()
    }

    /// A name that has to be there, and that the record takes as one.
    pub fn needed_name(&mut self, field: FormField) -> String {
        let name = self.needed_words(field);
        if has_hidden_sign(&name) {
            let shown = visible_text(&name).into_owned();
            self.wrong(field, FieldError::HiddenSign(shown));
        }
        self.no_longer_than(field, &name, NAME_SIGNS);
        name
    }

    fn no_longer_than(&mut self, field: FormField, text: &str, most: usize) {
        if let Some(error) = FieldError::if_longer(text, most) {
            self.wrong(field, error);
        }
    }

    /// Words that have to be there.
    pub fn needed_words(&mut self, field: FormField) -> String {
        let words = self.words(field);
        if words.is_empty() {
            self.wrong(field, FieldError::Missing);
        }
        words
    }

    /// The reading typed in a field, in the way of the field's kind.
    pub fn reading(&mut self, field: FormField) -> Option<Reading> {
        match read_as(field.kind, self.form.raw(field.key), self.form.units) {
            Ok(found) => found.map(|(reading, _)| Reading {
                confirmed: self.form.is_confirmed(field.key),
                ..reading
            }),
            Err(error) => {
                self.wrong(field, error);
                None
            }
        }
    }

    /// The reading, which has to be there.
    pub fn needed_reading(&mut self, field: FormField) -> Option<Reading> {
        let reading = self.reading(field);
        if reading.is_none() && !self.is_wrong(field) {
            self.wrong(field, FieldError::Missing);
        }
        reading
    }

    /// All measurements of a plank that were typed.
    pub fn readings(&mut self, fields: &[FormField]) -> Readings {
        let mut readings = Readings::new();
        for field in fields {
            if let FieldKind::Of(of) = field.kind
                && let Some(reading) = self.reading(*field)
            {
                readings.insert(of, reading);
            }
        }
        readings
    }

    /// A day, where one was typed.
    pub fn day(&mut self, field: FormField) -> Option<NaiveDate> {
        let text = self.form.text(field.key);
        let day = date(text);
        if day.is_none() && !text.is_empty() {
            self.wrong(field, FieldError::NotADay(text.to_owned()));
        }
        day
    }

    /// A day that has to be there.
    pub fn needed_day(&mut self, field: FormField) -> Option<NaiveDate> {
        let day = self.day(field);
        if day.is_none() && !self.is_wrong(field) {
            self.wrong(field, FieldError::NoDay);
        }
        day
    }

    /// Whether it is ticked.
    pub fn is_ticked(&self, field: FormField) -> bool {
        match field.kind {
            FieldKind::Switch => self.form.json(field.key) == Some(true),
            _ => !self.form.text(field.key).is_empty(),
        }
    }

    /// The place in the list of the one that is chosen; the first where none is.
    pub fn chosen(&self, field: FormField) -> usize {
        self.form.json(field.key).unwrap_or_default()
    }

    /// What is chosen or listed; as it stands at first where nothing is.
    pub fn kept<T: DeserializeOwned + Default>(&self, field: FormField) -> T {
        self.form.json(field.key).unwrap_or_default()
    }

    /// The reasons chosen, the main one first.
    pub fn reasons(&self, field: FormField) -> Vec<Reason> {
        self.kept(field)
    }

    /// An amount of money, exact.
    pub fn amount(&mut self, field: FormField) -> Option<Decimal> {
        self.exact(field, amount)
    }

    /// A percentage, exact.
    pub fn any_percent(&mut self, field: FormField) -> Option<Decimal> {
        self.exact(field, under_a_thousand)
    }

    fn exact(
        &mut self,
        field: FormField,
        read: fn(&str) -> Result<Option<Decimal>, NotAnAmount>,
    ) -> Option<Decimal> {
        let text = self.form.raw(field.key);
        match read(text) {
            Ok(amount) => amount,
            Err(why) => {
                let (typed, why) = (text.trim().to_owned(), why.to_string());
                self.wrong(field, FieldError::NotRead { typed, why });
                None
            }
        }
    }

    /// A percentage from 0 to 100, exact.
    pub fn percent(&mut self, field: FormField) -> Option<Decimal> {
        let percent = self.any_percent(field)?;
        if percent > Decimal::ONE_HUNDRED {
            self.wrong(field, FieldError::OverAHundred(percent));
            return None;
        }
        Some(percent)
    }

    /// A whole number up to a greatest one.
    pub fn count(&mut self, field: FormField, most: u32) -> Option<u32> {
        let reading = self.reading(field)?;
        let value = reading.value;
        if value.fract() != 0.0 || !(0.0..=f64::from(most)).contains(&value) {
            let typed = reading.typed;
            self.wrong(field, FieldError::NotWhole { typed, most });
            return None;
        }
        Some(value as u32)
    }

    /// A whole number from 1 up that has to be there.
    pub fn needed_count(&mut self, field: FormField, most: u32) -> Option<u32> {
        let count = self.count(field, most);
        match count {
            Some(0) => self.wrong(field, FieldError::Zero),
            None if !self.is_wrong(field) => self.wrong(field, FieldError::Missing),
            _ => {}
        }
        count.filter(|count| *count > 0)
    }
}
