//! What the screens of `racks` say.

words! {
    /// What the screens of `racks` say.
    RacksWords {
        title: "Racks",
    }
}
