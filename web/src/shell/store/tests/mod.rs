//! The store's promises, tried in a real browser, each in a database of its own.

mod drafts;
mod figures;

use super::*;
use crate::shell::clock;
use indexed_db_futures::internals::SystemRepr;
use js_sys::Reflect;
use std::cell::RefCell;
use wasm_bindgen::JsValue;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

type Outcome = Result<(), StoreError>;

async fn fresh() -> Result<Store, StoreError> {
    let name = clock::random_bytes16().map(|bytes| format!("test-{bytes:02x?}"));
    Store::open_named(&name.unwrap_or_default()).await
}

/// Two tabs: two connections to one database.
async fn two_tabs() -> Result<(Store, Store), StoreError> {
    let name = clock::random_bytes16().map(|bytes| format!("test-{bytes:02x?}"));
    let name = name.unwrap_or_default();
    Ok((
        Store::open_named(&name).await?,
        Store::open_named(&name).await?,
    ))
}

thread_local! {
    /// How many write attempts fail from here on, and as what.
    static FAULTS: RefCell<(u32, String)> = const { RefCell::new((0, String::new())) };
}

/// So many write attempts fail with the browser's name for a fault. A write is tried twice, so 1 is
/// mended and 2 is reported.
fn plant_faults(count: u32, name: &str) {
    FAULTS.set((count, name.to_owned()));
}

/// What the connection asks at every write attempt, in these tests alone.
pub(super) fn take_planted_fault() -> Result<(), StoreError> {
    FAULTS.with_borrow_mut(|(left, name)| match left.checked_sub(1) {
        Some(fewer) => {
            *left = fewer;
            Err(StoreError::from_name(name, "planted by a test"))
        }
        None => Ok(()),
    })
}

fn texts(pages: &Pages) -> Vec<&str> {
    pages
        .pages
        .iter()
        .map(|page| std::str::from_utf8(&page.lines).unwrap_or("not UTF-8"))
        .collect()
}

#[wasm_bindgen_test]
async fn what_one_tab_appends_the_other_reads() -> Outcome {
    let (one, other) = two_tabs().await?;
    let first = one.append("{\"id\":1}\n{\"id\":2}\n").await?;
    let second = other.append("{\"id\":\"é⅜\"}\n").await?;
    assert!(first < second);
    let all = one.read_all().await?;
    assert_eq!(
        texts(&all),
        ["{\"id\":1}\n{\"id\":2}\n", "{\"id\":\"é⅜\"}\n"]
    );
    assert_eq!(all.last_key(), Some(second));
    let since = one.read_since(first).await?;
    assert_eq!(texts(&since), ["{\"id\":\"é⅜\"}\n"]);
    assert_eq!(one.read_since(second).await?, Pages::default());
    Ok(())
}

#[wasm_bindgen_test]
async fn compacting_leaves_alone_what_another_tab_wrote() -> Outcome {
    let (one, other) = two_tabs().await?;
    let keys = [one.append("a\n").await?, one.append("b\n").await?];
    let late = other.append("c\n").await?;
    let merged = one.compact(&keys, "a\nb\n").await?;
    assert!(merged > late);
    assert_eq!(texts(&other.read_all().await?), ["c\n", "a\nb\n"]);
    // The same pages compacted again by the other tab: a repeat, not a loss.
    other.compact(&keys, "a\nb\n").await?;
    assert_eq!(texts(&one.read_all().await?), ["c\n", "a\nb\n", "a\nb\n"]);
    Ok(())
}

#[wasm_bindgen_test]
async fn every_write_is_strict() -> Outcome {
    let store = fresh().await?;
    let durability = store
        .connection
        .write(&[DRAFTS], async |transaction| {
            let raw: &JsValue = transaction.as_sys().as_ref();
            Reflect::get(raw, &JsValue::from_str("durability"))
                .map_err(|thrown| StoreError::from_js(&thrown))
        })
        .await?;
    assert_eq!(durability.as_string().as_deref(), Some("strict"));
    Ok(())
}

#[wasm_bindgen_test]
async fn one_failed_write_is_mended_and_two_are_told_apart() -> Outcome {
    let store = fresh().await?;
    plant_faults(1, "UnknownError");
    store.append("a\n").await?;
    for (name, expected) in [
        ("QuotaExceededError", StoreError::Full),
        (
            "InvalidStateError",
            StoreError::Lost("InvalidStateError".to_owned()),
        ),
        ("VersionError", StoreError::Newer),
        (
            "DataCloneError",
            StoreError::Other {
                name: "DataCloneError".to_owned(),
                message: "planted by a test".to_owned(),
            },
        ),
    ] {
        plant_faults(2, name);
        assert_eq!(store.append("b\n").await, Err(expected));
    }
    assert_eq!(texts(&store.read_all().await?), ["a\n"]);
    Ok(())
}

#[wasm_bindgen_test]
async fn a_lost_connection_is_opened_again() -> Outcome {
    let store = fresh().await?;
    store.append("a\n").await?;
    // As the browser does it: the connection closes under the store.
    let database = store.connection.database().await?;
    database.close();
    store.append("b\n").await?;
    store.connection.database().await?.close();
    assert_eq!(texts(&store.read_all().await?), ["a\n", "b\n"]);
    Ok(())
}

#[wasm_bindgen_test]
async fn another_tab_may_delete_the_database() -> Outcome {
    let store = fresh().await?;
    store.append("a\n").await?;
    let name = store.connection.database().await?.name();
    let deleting = indexed_db_futures::database::Database::delete_by_name(&name)?;
    // It waits for ever unless every connection lets go.
    let deleted = crate::shell::timer::within(5_000, deleting).await;
    assert_eq!(deleted, Some(Ok(())));
    assert_eq!(store.read_all().await?, Pages::default());
    Ok(())
}

#[wasm_bindgen_test]
async fn numbers_of_two_tabs_neither_repeat_nor_leave_a_gap() -> Outcome {
    let (one, other) = two_tabs().await?;
    let counter = |seen| Counter {
        setting: "seq",
        seen,
        take: 2,
    };
    let line = |first: u64| format!("{first} {}\n", first + 1);
    let nothing = Change::new();
    assert_eq!(one.append_numbered(&counter(0), &nothing, line).await?.1, 1);
    plant_faults(2, "QuotaExceededError");
    let failed = one.append_numbered(&counter(0), &nothing, line).await;
    assert_eq!(failed, Err(StoreError::Full));
    let saved = Change::new().without_draft("plank");
    assert_eq!(other.append_numbered(&counter(0), &saved, line).await?.1, 3);
    assert_eq!(one.append_numbered(&counter(9), &saved, line).await?.1, 10);
    let all = one.read_all().await?;
    assert_eq!(texts(&all), ["1 2\n", "3 4\n", "10 11\n"]);
    let kept = vec![("seq".to_owned(), "11".to_owned())];
    assert_eq!(one.all_settings().await?, kept);
    Ok(())
}

#[wasm_bindgen_test]
async fn settings_stay() -> Outcome {
    let store = fresh().await?;
    store.put_setting("units", "\"metric\"").await?;
    store.put_setting("units", "\"inch\"").await?;
    let kept = vec![("units".to_owned(), "\"inch\"".to_owned())];
    assert_eq!(store.all_settings().await?, kept);
    Ok(())
}
