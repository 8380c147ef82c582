//! How many steps of the app lie behind the screen that is shown. Each step notes it in the history of the window: what
//! stands there before the first one is another page, which a way back in the app does not lead to.

use crate::page::told;
use web_sys::{History, Window};

/// How many steps are noted; none where none was noted yet.
pub(crate) fn steps_behind(history: &History) -> Option<f64> {
    // nothing lost: what can't be read was not noted by the app
    history.state().ok()?.as_f64()
}

/// Notes how many there are, where nothing is noted yet.
pub(crate) fn note(window: &Window, steps: f64) {
    // nothing lost: without a history there is no way back in it
    if let Ok(history) = window.history()
        && steps_behind(&history).is_none()
    {
        told(history.replace_state(&steps.into(), ""));
    }
}
