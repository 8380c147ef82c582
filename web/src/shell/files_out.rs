//! Carrying a file off the device: download, share, print. The file is built before the maker
//! taps, since a browser shares only within the tap. It never decides what is in the file.

use super::bytes::give_back;
use super::store::name_and_message;
use js_sys::{Array, Function, Object, Promise, Reflect, Uint8Array};
use std::future::Future;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{Blob, BlobPropertyBag, File, FilePropertyBag, HtmlAnchorElement};

/// A download's address is kept for so long: some browsers fetch it well after the tap.
const ADDRESS_KEPT_MS: i32 = 60_000;

const JSON: &str = "application/json";
const TEXT: &str = "text/plain";

/// A file could not be made or handed to the browser.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub(crate) enum FileOutError {
    #[error("The file could not be made ({0}).")]
    NotMade(String),
    #[error("The browser did not take the file for download ({0}).")]
    NotTaken(String),
    #[error("This browser cannot print from here. Use its own menu.")]
    NoPrinting,
}

/// How a share ended.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum ShareEnd {
    /// Handed to the other app. Whether that one kept it, no browser tells.
    Shared,
    /// The maker changed their mind.
    Cancelled,
    Failed(String),
}

/// The text of a file, handed to the browser as it is written: a long record never lies in memory as one text.
#[derive(Clone, Default)]
pub(crate) struct Pieces {
    blobs: Array,
    refused: Option<FileOutError>,
}

impl Pieces {
    /// Puts a piece behind the others.
    pub(crate) fn push(&mut self, text: &str) {
        match to_blob(text, "") {
            Ok(blob) => drop(self.blobs.push(&blob)),
            Err(why) => self.refused = Some(why),
        }
    }

    fn into_blob(self, mime: &str) -> Result<Blob, FileOutError> {
        match self.refused {
            Some(why) => Err(why),
            None => {
                let options = BlobPropertyBag::new();
                options.set_type(mime);
                Blob::new_with_blob_sequence_and_options(&self.blobs, &options).map_err(not_made)
            }
        }
    }
}

/// A file ready to leave the device.
#[derive(Clone)]
pub(crate) struct Parcel {
    file: File,
    /// What [`Parcel::share`] hands over: the file as it is, or the same bytes with a `.txt` name where the browser
    /// lets no JSON through (reading a file back never asks for its name). `None` where it shares neither.
    shareable: Option<File>,
}

impl Parcel {
    /// A JSON file called `stem.json`.
    pub(crate) fn json(stem: &str, text: Pieces) -> Result<Self, FileOutError> {
        let blob = text.into_blob(JSON)?;
        let file = to_file(&blob, &format!("{stem}.json"), JSON)?;
        if can_share(&file) {
            return Ok(Self {
                shareable: Some(file.clone()),
                file,
            });
        }
        // The second file refers to the first one's bytes; nothing is copied.
        let as_text = to_file(&blob, &format!("{stem}.txt"), TEXT)?;
        let shareable = can_share(&as_text).then_some(as_text);
        Ok(Self { file, shareable })
    }

    /// Opens the device's share sheet. Call it in the tap itself: it calls the browser before it
    /// returns, and the future only waits for the end.
    pub(crate) fn share(&self) -> impl Future<Output = ShareEnd> + use<> {
        let asked = self
            .shareable
            .as_ref()
            .ok_or_else(|| JsValue::from_str("this browser shares no files"))
            .and_then(call_share);
        async move {
            let ended = match asked {
                Ok(promise) => JsFuture::from(promise).await,
                Err(thrown) => Err(thrown),
            };
            match ended {
                Ok(_) => ShareEnd::Shared,
                Err(thrown) => outcome_of(&thrown),
            }
        }
    }

    /// Hands the file to the browser's downloads.
    pub(crate) fn download(&self) -> Result<(), FileOutError> {
        offer_download(&self.file, &self.file.name())
    }
}

/// Hands any text to the browser's downloads: a table, a calendar, a drawing.
pub(crate) fn download(name: &str, text: &str, mime: &str) -> Result<(), FileOutError> {
    offer_download(&to_blob(text, mime)?, name)
}

/// Opens the browser's print view of the page as it stands.
pub(crate) fn print() -> Result<(), FileOutError> {
    web_sys::window()
        .and_then(|window| window.print().ok())
        .ok_or(FileOutError::NoPrinting)
}

fn not_made(thrown: JsValue) -> FileOutError {
    FileOutError::NotMade(reason(&thrown))
}

fn not_taken(thrown: JsValue) -> FileOutError {
    FileOutError::NotTaken(reason(&thrown))
}

fn reason(thrown: &JsValue) -> String {
    let (name, message) = name_and_message(thrown);
    format!("{name}: {message}")
}

fn to_blob(text: &str, mime: &str) -> Result<Blob, FileOutError> {
    let bytes = Uint8Array::from(text.as_bytes());
    let parts = Array::of1(&bytes);
    let options = BlobPropertyBag::new();
    options.set_type(mime);
    let blob = Blob::new_with_u8_array_sequence_and_options(&parts, &options).map_err(not_made);
    // The blob has a copy of its own.
    give_back(&bytes);
    blob
}

fn to_file(blob: &Blob, name: &str, mime: &str) -> Result<File, FileOutError> {
    let options = FilePropertyBag::new();
    options.set_type(mime);
    File::new_with_blob_sequence_and_options(&Array::of1(blob), name, &options).map_err(not_made)
}

fn offer_download(blob: &Blob, name: &str) -> Result<(), FileOutError> {
    let document = web_sys::window()
        .and_then(|window| window.document())
        .ok_or_else(|| FileOutError::NotTaken("no page".to_owned()))?;
    let address = web_sys::Url::create_object_url_with_blob(blob).map_err(not_taken)?;
    let anchor: HtmlAnchorElement = document
        .create_element("a")
        .map_err(not_taken)?
        .dyn_into()
        .map_err(|_| FileOutError::NotTaken("no link".to_owned()))?;
    anchor.set_href(&address);
    anchor.set_download(name);
    anchor.click();
    spawn_local(async move {
        super::timer::sleep(ADDRESS_KEPT_MS).await;
        // At worst the address lives as long as the page does.
        let _ = web_sys::Url::revoke_object_url(&address);
    });
    Ok(())
}

/// `{ files: [file] }`.
fn share_data(file: &File) -> Result<Object, JsValue> {
    let data = Object::new();
    Reflect::set(&data, &JsValue::from_str("files"), &Array::of1(file))?;
    Ok(data)
}

fn navigator_function(name: &str) -> Result<(JsValue, Function), JsValue> {
    let navigator: JsValue = web_sys::window()
        .ok_or_else(|| JsValue::from_str("no page"))?
        .navigator()
        .into();
    let function = Reflect::get(&navigator, &JsValue::from_str(name))?.dyn_into()?;
    Ok((navigator, function))
}

/// Asked of the very file, since only the browser knows which kinds it lets through.
fn can_share(file: &File) -> bool {
    let ask = || -> Result<bool, JsValue> {
        let (navigator, function) = navigator_function("canShare")?;
        let answer = function.call1(&navigator, &share_data(file)?.into())?;
        Ok(answer.is_truthy())
    };
    ask().unwrap_or(false)
}

fn call_share(file: &File) -> Result<Promise, JsValue> {
    let (navigator, function) = navigator_function("share")?;
    let promise = function.call1(&navigator, &share_data(file)?.into())?;
    Ok(promise.unchecked_into())
}

/// What a refused share means.
fn outcome_of(thrown: &JsValue) -> ShareEnd {
    let (name, message) = name_and_message(thrown);
    match name.as_str() {
        "AbortError" => ShareEnd::Cancelled,
        _ => ShareEnd::Failed(format!("{name}: {message}")),
    }
}

#[cfg(test)]
mod tests;
