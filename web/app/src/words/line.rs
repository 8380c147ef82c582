//! A line of a catalogue.

/// A sentence of core's and what it is called in a language. `{}` stands for anything, `{#}` for a number with what
/// belongs to it. In the other language `{}` takes them in order, `{0}` by their place.
pub type Line = (&'static str, &'static str);
