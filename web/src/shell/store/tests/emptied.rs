//! A store that was emptied, set back or deleted on purpose: every write notices, and what is held is
//! written again once, whoever notices first.

use super::*;
use crate::shell::store::names::PAGES;

/// Two tabs that look whether the store is still what it was; its name.
async fn two_claimed() -> Result<(Store, Store, String), StoreError> {
    let (one, other) = two_tabs().await?;
    one.claim().await?;
    other.claim().await?;
    let name = one.connection.database().await?.name();
    Ok((one, other, name))
}

async fn delete(name: &str) -> Outcome {
    let deleting = indexed_db_futures::database::Database::delete_by_name(name)?;
    assert_eq!(
        crate::shell::timer::within(5_000, deleting).await,
        Some(Ok(()))
    );
    Ok(())
}

/// What this tab holds and the pages do not.
fn missing(held: &str) -> impl Fn(&Pages) -> Vec<u8> {
    move |pages| {
        let there = texts(pages).concat();
        let missing = held.lines().filter(|line| !there.contains(line));
        missing
            .map(|line| format!("{line}\n"))
            .collect::<String>()
            .into_bytes()
    }
}

#[wasm_bindgen_test]
async fn every_write_and_every_look_notices_a_store_that_was_emptied() -> Outcome {
    let (store, _other, name) = two_claimed().await?;
    let added = store.append("a\n").await?;
    assert!(store.wrote(added));
    store.put_draft("plank", "1");
    store.drafts_kept().await?;
    delete(&name).await?;
    let counter = Counter {
        setting: "seq",
        seen: &|| 0,
        take: 1,
    };
    let line = |_| Ok("b\n".to_owned());
    let numbered = store.append_numbered(&counter, &Change::new(), line).await;
    assert_eq!(numbered, Err(StoreError::Emptied));
    assert_eq!(store.append("b\n").await, Err(StoreError::Emptied));
    assert_eq!(store.read_new().await, Err(StoreError::Emptied));
    assert_eq!(
        store.put_setting("units", "1").await,
        Err(StoreError::Emptied)
    );
    store.put_draft("plank", "12");
    assert_eq!(store.drafts_kept().await, Err(StoreError::Emptied));

    let again = store.write_again(missing("a\n")).await?;
    assert!(again.was_another && again.missed);
    store.drafts_kept().await?;
    assert_eq!(texts(&store.read_all().await?), ["a\n"]);
    let kept = vec![("plank".to_owned(), "12".to_owned())];
    assert_eq!(store.all_drafts().await?, kept);
    let added = store.append("b\n").await?;
    assert!(store.wrote(added));
    Ok(())
}

#[wasm_bindgen_test]
async fn two_tabs_that_both_notice_neither_double_nor_lose() -> Outcome {
    let (one, other, name) = two_claimed().await?;
    one.put_setting("by", "\"K7\"").await?;
    one.put_draft("first", "1");
    other.put_draft("second", "2");
    one.drafts_kept().await?;
    other.drafts_kept().await?;
    one.append("a\n").await?;
    other.append("b\n").await?;
    one.read_all().await?;
    other.read_all().await?;
    delete(&name).await?;
    // An older window opens it anew and writes at once.
    let old = Store::open_named(&name).await?;
    old.append("old\n").await?;
    let first = one.write_again(missing("a\nb\n")).await?;
    assert_eq!(texts(&first.pages), ["old\n"]);
    let second = other.write_again(missing("a\nb\n")).await?;
    assert!(second.was_another);
    assert_eq!(texts(&second.pages), ["old\n", "a\nb\n"]);
    assert_eq!(texts(&one.read_all().await?), ["old\n", "a\nb\n"]);
    let drafts = [("first", "1"), ("second", "2")].map(|(key, text)| (key.into(), text.into()));
    assert_eq!(one.all_drafts().await?, drafts);
    let settings = vec![("by".to_owned(), "\"K7\"".to_owned())];
    assert_eq!(other.read_settings().await?.texts, settings);
    // Nothing is amiss any more.
    one.read_new().await?;
    let added = other.append("c\n").await?;
    assert!(other.wrote(added));
    Ok(())
}

#[wasm_bindgen_test]
async fn a_store_that_was_set_back_is_noticed_and_a_gathered_one_is_not() -> Outcome {
    let (one, other, _) = two_claimed().await?;
    let first = one.append("a\n").await?;
    assert!(one.wrote(first));
    let second = one.append("b\n").await?;
    assert!(one.wrote(second));
    other.read_all().await?;
    let keys = [first.last, second.last];
    assert!(other.gather(&keys, |_| true).await?.is_some());
    let third = one.append("c\n").await?;
    assert!(!one.wrote(third), "the gathered page is still to be read");
    one.read_new().await?;
    // The last page goes without a word.
    one.connection
        .write_onto_any(&[PAGES], async |transaction| {
            let pages = transaction.object_store(PAGES)?;
            indexed_db_futures::prelude::BuildPrimitive::primitive(
                pages.delete(third.last.number()),
            )?;
            Ok(())
        })
        .await?;
    assert_eq!(one.append("d\n").await, Err(StoreError::Emptied));
    let again = one.write_again(missing("a\nb\nc\n")).await?;
    assert!(!again.was_another && again.missed);
    assert_eq!(texts(&one.read_all().await?), ["a\nb\n", "c\n"]);
    Ok(())
}

#[wasm_bindgen_test]
async fn what_was_deleted_on_purpose_is_written_again_by_nobody() -> Outcome {
    let (one, other, name) = two_claimed().await?;
    one.append("a\n").await?;
    one.read_all().await?;
    other.read_all().await?;
    // Emptied from outside first, which the other has not noticed yet.
    delete(&name).await?;
    one.write_again(missing("a\n")).await?;
    one.put_draft("plank", "1");
    one.delete_everything().await?;
    assert_eq!(one.append("b\n").await, Err(StoreError::Deleted));
    assert_eq!(one.drafts_kept().await, Err(StoreError::Deleted));
    assert_eq!(other.append("b\n").await, Err(StoreError::Emptied));
    let again = other.write_again(missing("a\n")).await;
    assert_eq!(again.map(|_| ()), Err(StoreError::Deleted));
    let fresh = Store::open_named(&name).await?;
    fresh.claim().await?;
    assert_eq!(fresh.read_all().await?, Pages::default());
    assert_eq!(fresh.all_drafts().await?, []);
    fresh.append("new\n").await?;
    Ok(())
}

#[wasm_bindgen_test]
async fn what_cannot_be_read_is_kept_aside_before_it_is_written_over() -> Outcome {
    let (store, other, _) = two_claimed().await?;
    other.put_setting("settings", "{\"units\":").await?;
    other.put_draft("plank", "{\"at\":");
    other.drafts_kept().await?;
    assert_eq!(store.read_settings().await?.texts.len(), 1);
    store.can_not_read(&Place::Setting("settings".into()));
    store.can_not_read(&Place::Draft("plank".into()));
    for text in ["{}", "{ }"] {
        store.put_setting("settings", text).await?;
        store.put_draft("plank", text);
        store.drafts_kept().await?;
    }
    let aside = |key: &str, text: &str| (format!("{ASIDE}{key}/1"), text.to_owned());
    let now = |key: &str| (key.to_owned(), "{ }".to_owned());
    let settings = store.read_settings().await?.texts;
    assert_eq!(
        settings,
        [now("settings"), aside("settings", "{\"units\":")]
    );
    assert_eq!(
        store.all_drafts().await?,
        [now("plank"), aside("plank", "{\"at\":")]
    );
    Ok(())
}

#[wasm_bindgen_test]
async fn a_text_that_is_none_does_not_hide_the_others() -> Outcome {
    let store = fresh().await?;
    store.put_draft("plank", "1");
    store.drafts_kept().await?;
    store
        .connection
        .write(&[DRAFTS], async |transaction| {
            let drafts = transaction.object_store(DRAFTS)?;
            indexed_db_futures::prelude::BuildPrimitive::primitive(
                drafts.put(JsValue::from_f64(7.0)).with_key("damaged"),
            )?;
            Ok(())
        })
        .await?;
    let found = store.read_drafts().await?;
    assert_eq!(found.texts, vec![("plank".to_owned(), "1".to_owned())]);
    let place = Place::Draft("damaged".to_owned());
    assert_eq!(found.damaged, [Damage::of(place, "it is no text")]);
    Ok(())
}
