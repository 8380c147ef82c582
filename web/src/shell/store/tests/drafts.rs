//! Drafts: the newest text follows, and a draft that was saved stays gone.

use super::*;
use std::cell::RefCell;

async fn next_microtask() {
    let done = js_sys::Promise::resolve(&JsValue::NULL);
    assert!(wasm_bindgen_futures::JsFuture::from(done).await.is_ok());
}

#[wasm_bindgen_test]
async fn the_newest_draft_follows_and_the_rest_is_skipped() -> Outcome {
    let store = fresh().await?;
    let written = Rc::new(RefCell::new(0));
    let count = Rc::clone(&written);
    store.watch_drafts(move |outcome| {
        assert_eq!(outcome, Ok(()));
        *count.borrow_mut() += 1;
    });
    for length in 1..=200 {
        store.put_draft("plank", &format!("{{\"length\":{length}}}"));
        if length % 50 == 0 {
            crate::shell::timer::sleep(0).await;
        }
    }
    store.put_draft("other", "{}");
    store.remove_draft("other");
    store.drafts_kept().await?;
    let expected = vec![("plank".to_owned(), "{\"length\":200}".to_owned())];
    assert_eq!(store.all_drafts().await?, expected);
    assert!(*written.borrow() <= 5, "{} writes", written.borrow());
    Ok(())
}

/// Whatever moment the save comes at, and whichever of the writes around it fails.
#[wasm_bindgen_test]
async fn a_saved_draft_does_not_come_back() -> Outcome {
    for faults in 0..=4 {
        for moment in 0..8 {
            let store = fresh().await?;
            store.put_draft("plank", "1");
            store.put_draft("pile", "p");
            store.put_draft("plank", "12");
            plant_faults(faults, "QuotaExceededError");
            for _ in 0..moment {
                next_microtask().await;
            }
            // A maker presses again when told that it was not kept.
            while store
                .append_and_remove_draft("{\"id\":1}\n", "plank")
                .await
                .is_err()
            {}
            store.drafts_kept().await?;
            let kept = vec![("pile".to_owned(), "p".to_owned())];
            assert_eq!(store.all_drafts().await?, kept, "{faults} {moment}");
            assert_eq!(texts(&store.read_all().await?), ["{\"id\":1}\n"]);
        }
    }
    Ok(())
}

#[wasm_bindgen_test]
async fn typing_on_after_a_save_begins_a_new_draft() -> Outcome {
    let store = fresh().await?;
    store.put_draft("plank", "1");
    let saving = store.append_and_remove_draft("{\"id\":1}\n", "plank");
    let typing = async {
        next_microtask().await;
        store.put_draft("plank", "2");
    };
    // Both begin before either ends.
    let mut saving = std::pin::pin!(saving);
    let begun = crate::shell::timer::within(0, saving.as_mut()).await;
    typing.await;
    if begun.is_none() {
        saving.await?;
    }
    store.drafts_kept().await?;
    let kept = vec![("plank".to_owned(), "2".to_owned())];
    assert_eq!(store.all_drafts().await?, kept);
    Ok(())
}

#[wasm_bindgen_test]
async fn a_failed_save_leaves_the_draft_and_no_page() -> Outcome {
    let store = fresh().await?;
    store.put_draft("plank", "1");
    store.drafts_kept().await?;
    plant_faults(2, "QuotaExceededError");
    let outcome = store.append_and_remove_draft("{\"id\":1}\n", "plank").await;
    assert_eq!(outcome, Err(StoreError::Full));
    assert_eq!(store.all_drafts().await?.len(), 1);
    assert_eq!(store.read_all().await?, Pages::default());
    Ok(())
}
