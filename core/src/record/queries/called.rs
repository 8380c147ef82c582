//! What the screens call what core names in English.

/// The name that the maker's language has for a name of core's; none where it is called the same.
pub type Called<'a> = &'a dyn Fn(&str) -> Option<String>;
