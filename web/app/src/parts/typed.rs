//! A field that belongs to no form: its value is told to the place at every key. Its label stands above it; below it
//! stands what was understood or what is wrong, read out with the field.

use crate::form::field_id;
use maud::{Markup, html};

/// A field that belongs to no form.
#[derive(Debug, Clone, Copy, Default)]
pub struct Typed<'a> {
    /// Its name, by which it is told apart.
    pub name: &'a str,
    /// What it is called.
    pub label: &'a str,
    /// What stands in it.
    pub value: &'a str,
    /// What was understood, or a hint.
    pub below: &'a str,
    /// What is wrong with it.
    pub error: &'a str,
    /// A number is typed.
    pub number: bool,
    /// What it offers while it is typed in.
    pub offered: &'a [&'a str],
}

/// A field that belongs to no form.
pub fn typed(of: &Typed<'_>) -> Markup {
    let id = field_id(of.name);
    let wrong = !of.error.is_empty();
    let list = (!of.offered.is_empty()).then(|| format!("{id}-list"));
    html! {
        div.field {
            label for=(id) { (of.label) }
            input id=(id) name=(of.name) value=(of.value) type="text" autocomplete="off" list=[list.as_deref()]
                inputmode=[of.number.then_some("decimal")] aria-invalid=[wrong.then_some("true")]
                aria-describedby={ (id) "-below" };
            @if let Some(list) = &list { datalist id=(list) { @for name in of.offered { option value=(name) {} } } }
            div.below id={ (id) "-below" } {
                @if wrong { span.bad role="alert" { (of.error) } } @else { (of.below) }
            }
        }
    }
}
