//! The store's promises, tried in a real browser, each in a database of its own.

mod drafts;
mod emptied;
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
    assert!(first.last < second.first);
    let all = one.read_all().await?;
    assert_eq!(
        texts(&all),
        ["{\"id\":1}\n{\"id\":2}\n", "{\"id\":\"é⅜\"}\n"]
    );
    assert_eq!(all.pages.last().map(|page| page.key), Some(second.last));
    assert_eq!(one.read_new().await?, Pages::default());
    let since = other.read_new().await?;
    assert_eq!(texts(&since).len(), 2, "it has read none so far");
    assert!(other.wrote(second));
    let third = one.append("c\n").await?;
    assert!(one.wrote(third), "it follows what was read");
    assert_eq!(texts(&other.read_new().await?), ["c\n"]);
    Ok(())
}

#[wasm_bindgen_test]
async fn gathering_leaves_alone_what_another_tab_wrote_and_what_is_damaged() -> Outcome {
    let (one, other) = two_tabs().await?;
    let mut keys = Vec::new();
    // One lacks its final newline, one is damaged.
    for lines in ["a\n", "b", "damaged", "c\n"] {
        keys.push(one.append(lines).await?.last);
    }
    let late = other.append("d\n").await?;
    let whole = |page: &[u8]| page != b"damaged";
    let gathered = one.gather(&keys, whole).await?;
    assert!(gathered.is_some_and(|gathered| gathered.first > late.last));
    let expected = ["damaged", "d\n", "a\nb\nc\n"];
    assert_eq!(texts(&other.read_all().await?), expected);
    // The same pages gathered again by the other tab: there is nothing left to do.
    assert_eq!(other.gather(&keys, whole).await?, None);
    assert_eq!(texts(&one.read_all().await?), expected);
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
    let none: &dyn Fn() -> u64 = &|| 0;
    let line = |first: u64| Ok(format!("{first} {}\n", first + 1));
    let nothing = Change::new();
    one.append_numbered(&counter(none), &nothing, line).await?;
    plant_faults(2, "QuotaExceededError");
    let failed = one.append_numbered(&counter(none), &nothing, line).await;
    assert_eq!(failed, Err(StoreError::Full));
    let saved = Change::new().without_draft("plank");
    other.append_numbered(&counter(none), &saved, line).await?;
    one.append_numbered(&counter(&|| 9), &saved, line).await?;
    // What can't be made changes nothing, not even the counter.
    let refused = || StoreError::NotMade("no".to_owned());
    let failed = one
        .append_numbered(&counter(none), &saved, |_| Err(refused()))
        .await;
    assert_eq!(failed, Err(refused()));
    let all = one.read_all().await?;
    assert_eq!(texts(&all), ["1 2\n", "3 4\n", "10 11\n"]);
    let kept = vec![("seq".to_owned(), "11".to_owned())];
    assert_eq!(one.read_settings().await?.texts, kept);
    Ok(())
}

#[wasm_bindgen_test]
async fn settings_stay() -> Outcome {
    let store = fresh().await?;
    store.put_setting("units", "\"metric\"").await?;
    store.put_setting("units", "\"inch\"").await?;
    let kept = vec![("units".to_owned(), "\"inch\"".to_owned())];
    assert_eq!(store.read_settings().await?.texts, kept);
    Ok(())
}
