//! What the screens of `book` say.

words! {
    /// What the screens of `book` say.
    BookWords {
        title: "Book",
    }
}
