//! What the screens of `blanks` say.

words! {
    /// What the screens of `blanks` say.
    BlanksWords {
        title: "Blanks",
    }
}
