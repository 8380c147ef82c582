//! What can go wrong with keeping things in the browser, told apart by what a maker can do about
//! it. It never hides the browser's own name for the fault.

use indexed_db_futures::error::{DomException, Error, JSError, OpenDbError};
use wasm_bindgen::{JsCast, JsValue};

/// Why something was not kept or not read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub(crate) enum StoreError {
    /// `QuotaExceededError`.
    #[error(
        "There is no room left on this device, so this was not kept. Save the record as a file, \
         make room, then try again."
    )]
    Full,
    /// No IndexedDB, a private window that refuses it, or a browser that never answers.
    #[error(
        "This browser does not let Stillwood keep anything here ({0}). A private window may be the \
         reason. Whatever you enter now, save it as a file before you close the page."
    )]
    Unavailable(String),
    /// A later Stillwood has changed the shape of what is kept.
    #[error(
        "A newer Stillwood has been at this record. Close every Stillwood window and open it again."
    )]
    Newer,
    /// The connection went away in the middle, even after opening it again.
    #[error(
        "The browser lost touch with the record ({0}), so this was not kept. What was kept before \
         is still there. Close Stillwood and open it again."
    )]
    Lost(String),
    /// What was in the store before is gone: it was emptied or set back from outside.
    #[error("The store was emptied from outside, so this was not kept.")]
    Emptied,
    /// Everything was deleted on purpose, from another window.
    #[error("Everything was deleted from another window. Load the page again to start empty.")]
    Deleted,
    /// What was handed over and what the store gives back differ.
    #[error("The browser gave back something else than was written, so this was not kept.")]
    NotAsMeant,
    /// There is no store at all.
    #[error("This browser keeps nothing: save the record as a file before you leave.")]
    NoStore,
    /// What was to be written down could not be made; nothing was touched.
    #[error("{0}")]
    NotMade(String),
    /// The maker stopped it; nothing was written.
    #[error("It was stopped, and nothing was written.")]
    Stopped,
    /// Anything else, by the browser's own name for it.
    #[error("The browser did not do as asked ({name}: {message}), so this was not kept.")]
    Other { name: String, message: String },
}

impl StoreError {
    /// Whether opening afresh may help.
    pub(super) fn may_pass(&self) -> bool {
        !matches!(
            self,
            Self::Emptied | Self::Deleted | Self::NotMade(_) | Self::Stopped
        )
    }

    /// The fault behind the browser's name for it, while reading or writing.
    pub(crate) fn from_name(name: &str, message: &str) -> Self {
        // Safari reports its lost server as an UnknownError, told apart by the message only;
        // Firefox names a full disk in the message.
        let says = |word: &str| message.to_ascii_lowercase().contains(word);
        match name {
            "QuotaExceededError" => Self::Full,
            "VersionError" => Self::Newer,
            "InvalidStateError" | "AbortError" | "TransactionInactiveError" => {
                Self::Lost(name.to_owned())
            }
            "UnknownError" if says("lost") || says("clos") => Self::Lost(name.to_owned()),
            "UnknownError" if says("space") || says("full") => Self::Full,
            _ => Self::Other {
                name: name.to_owned(),
                message: message.to_owned(),
            },
        }
    }

    /// The same while opening, where most faults mean that this browser keeps nothing.
    fn from_name_at_opening(name: &str, message: &str) -> Self {
        match Self::from_name(name, message) {
            Self::Full => Self::Full,
            Self::Newer => Self::Newer,
            _ => Self::Unavailable(format!("{name}: {message}")),
        }
    }

    /// From whatever the browser threw.
    pub(crate) fn from_js(value: &JsValue) -> Self {
        let (name, message) = name_and_message(value);
        Self::from_name(&name, &message)
    }
}

impl From<Error> for StoreError {
    fn from(error: Error) -> Self {
        let (name, message) = describe(&error);
        Self::from_name(&name, &message)
    }
}

impl From<OpenDbError> for StoreError {
    fn from(error: OpenDbError) -> Self {
        match error {
            OpenDbError::Base(base) => {
                let (name, message) = describe(&base);
                Self::from_name_at_opening(&name, &message)
            }
            // The library gives this answer to whatever is thrown while asking to open.
            OpenDbError::VersionZero => Self::Unavailable("opening is refused".to_owned()),
            OpenDbError::UnsupportedEnvironment | OpenDbError::NullFactory => {
                Self::Unavailable("it has no IndexedDB".to_owned())
            }
        }
    }
}

/// The name and message of a thrown DOMException, Error or anything at all.
pub(crate) fn name_and_message(value: &JsValue) -> (String, String) {
    let text = |key: &str| {
        js_sys::Reflect::get(value, &JsValue::from_str(key))
            .ok() // nothing lost: it is about words for a fault
            .and_then(|found| found.as_string())
    };
    // nothing lost: it is about words for a fault
    let name = text("name").unwrap_or_else(|| "no name".to_owned());
    let message = text("message")
        .or_else(|| value.as_string())
        .unwrap_or_default(); // nothing lost: it is about words for a fault
    (name, message)
}

fn describe(error: &Error) -> (String, String) {
    match error {
        Error::DomException(exception) => name_and_message(DomException::as_ref(exception)),
        Error::Unknown(JSError::Error(thrown)) => name_and_message(thrown.unchecked_ref()),
        Error::Unknown(JSError::Unknown(thrown)) => name_and_message(thrown),
        Error::Serialisation(_) => ("Serialisation".to_owned(), error.to_string()),
        // The library's word for a transaction that ended the other way.
        Error::MissingData(_) => ("AbortError".to_owned(), error.to_string()),
    }
}
