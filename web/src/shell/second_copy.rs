//! A second copy of the record beside the database, among the browser's cached files. It is kept only after
//! the disk refused a write: a browser may then find its database damaged when it is next started and throw it
//! away, though it read it back whole before. A start takes from it what is missing. It stays for a day: a page that
//! is loaded anew does not show what the browser does with its database when it starts.

use super::store::StoreError;
use js_sys::{JsString, Reflect};
use std::cell::Cell;
use stillwood_core::order;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Cache, CacheStorage, Response};

const CACHE: &str = "stillwood-second-copy";
/// The copy of the maker's own record.
pub(crate) const OF_RECORD: &str = "record";
/// The copy of the sample's.
pub(crate) const OF_SAMPLE: &str = "sample";
/// The header that says when the disk refused a write last, in milliseconds since 1970.
const REFUSED_AT: &str = "stillwood-refused-at";

thread_local! {
    static IN_USE_SINCE: Cell<Option<u64>> = const { Cell::new(None) };
}

/// When the disk refused a write last, where this window keeps a copy.
pub(crate) fn in_use_since() -> Option<u64> {
    IN_USE_SINCE.get()
}

/// This window goes on keeping a copy that it found.
pub(crate) fn go_on(refused_at: u64) {
    IN_USE_SINCE.set(Some(refused_at));
}

/// The copy as it was found.
pub(crate) struct SecondCopy {
    /// Entries, one a line.
    pub(crate) lines: String,
    /// When the disk refused a write last; long ago where an older version kept the copy.
    pub(crate) refused_at: u64,
}

/// `None` where the browser has no such place.
fn caches() -> Option<CacheStorage> {
    let has = Reflect::has(&js_sys::global(), &JsValue::from_str("caches"));
    if has != Ok(true) {
        return None;
    }
    // nothing lost: then it has none
    web_sys::window()?.caches().ok()
}

fn failed(thrown: JsValue) -> StoreError {
    StoreError::from_js(&thrown)
}

async fn open(caches: &CacheStorage) -> Result<Cache, StoreError> {
    let cache = JsFuture::from(caches.open(CACHE)).await.map_err(failed)?;
    Ok(cache.unchecked_into())
}

/// Keeps the lines of a record, with those of the copy before that are not among them; false where the browser has no
/// such place.
pub(crate) async fn keep(of: &str, lines: &str, refused_at: u64) -> Result<bool, StoreError> {
    let Some(caches) = caches() else {
        return Ok(false);
    };
    go_on(refused_at);
    let cache = open(&caches).await?;
    let mut all = lines.to_owned();
    if let Some(before) = read_in(&cache, of).await? {
        let held = order::set_of(lines.lines());
        for line in before.lines.lines().filter(|line| !held.contains(line)) {
            all.push_str(line);
            all.push('\n');
        }
    }
    let response = Response::new_with_opt_str(Some(&all)).map_err(failed)?;
    let said = response.headers().set(REFUSED_AT, &refused_at.to_string());
    said.map_err(failed)?;
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

/// The copy, if there is one.
pub(crate) async fn read(of: &str) -> Result<Option<SecondCopy>, StoreError> {
    match where_kept().await? {
        Some(cache) => read_in(&cache, of).await,
        None => Ok(None),
    }
}

async fn read_in(cache: &Cache, of: &str) -> Result<Option<SecondCopy>, StoreError> {
    let found = JsFuture::from(cache.match_with_str(&address(of)))
        .await
        .map_err(failed)?;
    let Ok(response) = found.dyn_into::<Response>() else {
        return Ok(None);
    };
    let said = response.headers().get(REFUSED_AT).map_err(failed)?;
    // nothing lost: an older version does not say it
    let refused_at = said.and_then(|said| said.parse().ok()).unwrap_or_default();
    let text = JsFuture::from(response.text().map_err(failed)?)
        .await
        .map_err(failed)?;
    let lines = String::from(text.unchecked_into::<JsString>());
    Ok(Some(SecondCopy { lines, refused_at }))
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

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    async fn a_copy_keeps_the_lines_that_a_newer_one_does_not_hold() -> Result<(), StoreError> {
        let of = "a test";
        discard(of).await?;
        assert!(keep(of, "a\nb\n", 7).await?);
        assert!(keep(of, "b\nc\n", 9).await?);
        let copy = read(of).await?.map(|copy| (copy.lines, copy.refused_at));
        assert_eq!(copy, Some(("b\nc\na\n".to_owned(), 9)));
        discard(of).await?;
        assert!(read(of).await?.is_none());
        Ok(())
    }
}
