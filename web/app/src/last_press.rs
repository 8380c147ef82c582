//! A key that is pressed twice where it was meant once: the thumb fell twice, or the key was held down.

/// A press so many milliseconds after the one before it was not meant.
const NOT_MEANT: u64 = 300;

/// When one of some keys was pressed last.
#[derive(Debug, Default)]
pub struct LastPress(Option<u64>);

impl LastPress {
    /// Takes note of a press, in milliseconds since 1970; whether it follows the one before it so soon that it was not
    /// meant. Of a key that is held down only the first press is meant, however long it is held.
    pub fn is_repeated(&mut self, now: u64) -> bool {
        let before = self.0.replace(now);
        before.is_some_and(|before| now.saturating_sub(before) < NOT_MEANT)
    }
}
