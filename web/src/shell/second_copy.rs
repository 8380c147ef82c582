//! A second copy of the record beside the database, among the browser's cached files. It is kept only after
//! the disk refused a write: a browser may then find its database damaged at its next start and throw it
//! away, though it read it back whole before. The next start takes from it what is missing, and drops it.

use super::store::StoreError;
use js_sys::{JsString, Reflect};
use std::cell::Cell;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Cache, CacheStorage, Response};

const CACHE: &str = "stillwood-second-copy";

thread_local! {
    static IN_USE: Cell<bool> = const { Cell::new(false) };
}

/// Whether this window keeps one.
pub(crate) fn in_use() -> bool {
    IN_USE.get()
}

/// `None` where the browser has no such place.
fn caches() -> Option<CacheStorage> {
    let has = Reflect::has(&js_sys::global(), &JsValue::from_str("caches"));
    if has != Ok(true) {
        return None;
    }
    web_sys::window()?.caches().ok()
}

fn failed(thrown: JsValue) -> StoreError {
    StoreError::from_js(&thrown)
}

async fn open(caches: &CacheStorage) -> Result<Cache, StoreError> {
    let cache = JsFuture::from(caches.open(CACHE)).await.map_err(failed)?;
    Ok(cache.unchecked_into())
}

/// Puts the lines of a record in place of the copy before; false where the browser has no such place.
pub(crate) async fn keep(of: &str, lines: &str) -> Result<bool, StoreError> {
    let Some(caches) = caches() else {
        return Ok(false);
    };
    IN_USE.set(true);
    let cache = open(&caches).await?;
    let response = Response::new_with_opt_str(Some(lines)).map_err(failed)?;
    let put = cache.put_with_str(&address(of), &response);
    JsFuture::from(put).await.map_err(failed)?;
    Ok(true)
}

/// Where copies lie, if any was ever kept.
async fn where_kept() -> Result<Option<Cache>, StoreError> {
    let Some(caches) = caches() else {
        return Ok(None);
    };
    let has = JsFuture::from(caches.has(CACHE)).await.map_err(failed)?;
    match has.is_truthy() {
        true => Ok(Some(open(&caches).await?)),
        false => Ok(None),
    }
}

/// The lines of the copy, if there is one.
pub(crate) async fn read(of: &str) -> Result<Option<String>, StoreError> {
    let Some(cache) = where_kept().await? else {
        return Ok(None);
    };
    let found = JsFuture::from(cache.match_with_str(&address(of)))
        .await
        .map_err(failed)?;
    let Ok(response) = found.dyn_into::<Response>() else {
        return Ok(None);
    };
    let text = JsFuture::from(response.text().map_err(failed)?)
        .await
        .map_err(failed)?;
    Ok(text.dyn_into::<JsString>().ok().map(String::from))
}

/// Drops the copy, if there is one: all that it holds is in the database, or is to be deleted.
pub(crate) async fn discard(of: &str) -> Result<(), StoreError> {
    let Some(cache) = where_kept().await? else {
        return Ok(());
    };
    JsFuture::from(cache.delete_with_str(&address(of)))
        .await
        .map_err(failed)?;
    Ok(())
}

fn address(of: &str) -> String {
    format!("./second-copy-of-{of}")
}
