//! What the screens of `today` say.

words! {
    /// What the screens of `today` say.
    TodayWords {
        title: "Today",
    }
}
