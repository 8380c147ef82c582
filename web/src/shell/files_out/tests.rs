//! The share ladder and its ends, with a browser that is told what to answer.

use super::*;
use wasm_bindgen::closure::Closure;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

/// A browser that shares only files whose name ends in `suffix` and whose share ends as
/// `ends` says.
fn pretend(suffix: &'static str, ends: impl Fn() -> Promise + 'static) {
    let navigator = web_sys::window().map(|window| window.navigator());
    let navigator: JsValue = navigator.into();
    let can = Closure::<dyn Fn(JsValue) -> bool>::new(move |data: JsValue| {
        Reflect::get(&data, &JsValue::from_str("files"))
            .ok()
            .map(|files| Array::from(&files).get(0))
            .and_then(|file| file.dyn_into::<File>().ok())
            .is_some_and(|file| !suffix.is_empty() && file.name().ends_with(suffix))
    });
    let share = Closure::<dyn Fn() -> Promise>::new(ends);
    for (name, function) in [
        ("canShare", can.into_js_value()),
        ("share", share.into_js_value()),
    ] {
        let property = Object::new();
        for (key, value) in [("value", function), ("configurable", JsValue::TRUE)] {
            assert_eq!(Reflect::set(&property, &key.into(), &value), Ok(true));
        }
        let set = Reflect::define_property::<Object>(
            navigator.unchecked_ref(),
            &JsValue::from_str(name),
            &property,
        );
        assert_eq!(set, Ok(true));
    }
}

fn refused(name: &str) -> Promise {
    let error = web_sys::DomException::new_with_message_and_name("no", name);
    Promise::reject(&error.map(JsValue::from).unwrap_or_default())
}

fn pieces(text: &[&str]) -> Pieces {
    let mut pieces = Pieces::default();
    text.iter().for_each(|piece| pieces.push(piece));
    pieces
}

#[wasm_bindgen_test]
fn the_ladder_goes_from_json_to_text_to_nothing() {
    for (suffix, expected) in [
        (".json", Some("stillwood.json")),
        (".txt", Some("stillwood.txt")),
        ("", None),
    ] {
        pretend(suffix, || Promise::resolve(&JsValue::NULL));
        let parcel = Parcel::json("stillwood", pieces(&["{}\n"]));
        let shared = parcel.map(|parcel| parcel.shareable.map(|file| file.name()));
        assert_eq!(shared, Ok(expected.map(str::to_owned)));
    }
}

#[wasm_bindgen_test]
async fn a_share_called_off_is_no_error() {
    for (error, expected) in [
        ("AbortError", ShareEnd::Cancelled),
        (
            "NotAllowedError",
            ShareEnd::Failed("NotAllowedError: no".to_owned()),
        ),
    ] {
        pretend(".json", move || refused(error));
        let parcel = Parcel::json("stillwood", pieces(&["{}\n"]));
        assert!(parcel.is_ok());
        if let Ok(parcel) = parcel {
            assert_eq!(parcel.share().await, expected);
        }
    }
    pretend(".json", || Promise::resolve(&JsValue::NULL));
    if let Ok(parcel) = Parcel::json("stillwood", pieces(&["{}\n"])) {
        assert_eq!(parcel.share().await, ShareEnd::Shared);
    }
}

#[wasm_bindgen_test]
async fn the_parcel_holds_the_text_to_the_byte() {
    let text = ["{\"wood\":", "\"Ébène 7⅜″\"", "}\n"];
    let parcel = Parcel::json("stillwood", pieces(&text));
    assert!(parcel.is_ok());
    if let Ok(parcel) = parcel {
        let read = crate::shell::files_in::read(&parcel.file).await;
        assert_eq!(
            read.map(|incoming| incoming.bytes),
            Ok(text.concat().into_bytes())
        );
        assert_eq!(parcel.file.name(), "stillwood.json");
    }
}
