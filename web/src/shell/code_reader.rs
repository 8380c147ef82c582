//! A code read out of a picture, where the browser can (`BarcodeDetector`, a draft of the Web Incubator Community
//! Group). The picture is taken by the device's own camera program; nothing is kept of it.

use super::store::name_and_message;
use js_sys::{Array, Object, Promise, Reflect};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, ImageBitmap};

#[wasm_bindgen]
extern "C" {
    type BarcodeDetector;

    #[wasm_bindgen(constructor, catch)]
    fn new(options: &Object) -> Result<BarcodeDetector, JsValue>;

    #[wasm_bindgen(method, catch)]
    fn detect(this: &BarcodeDetector, picture: &ImageBitmap) -> Result<Promise, JsValue>;
}

/// Whether the browser reads codes at all.
pub(crate) fn is_there() -> bool {
    web_sys::window().is_some_and(|window| {
        // nothing lost: then it is not offered
        Reflect::has(&window, &"BarcodeDetector".into()).unwrap_or(false)
    })
}

/// The text of the first code in a picture; none where it shows none.
pub(crate) async fn read(picture: &Blob) -> Result<Option<String>, String> {
    found_in(picture).await.map_err(|why| {
        let (name, message) = name_and_message(&why);
        format!("The picture could not be read ({name}: {message}). Type the mark.")
    })
}

async fn found_in(picture: &Blob) -> Result<Option<String>, JsValue> {
    let window = web_sys::window().ok_or_else(|| JsValue::from_str("there is no window"))?;
    let formats = Array::of1(&"qr_code".into());
    let options = Object::new();
    Reflect::set(&options, &"formats".into(), &formats)?;
    let reader = BarcodeDetector::new(&options)?;
    let picture = JsFuture::from(window.create_image_bitmap_with_blob(picture)?).await?;
    let found = JsFuture::from(reader.detect(picture.unchecked_ref())?).await?;
    let first = Array::from(&found).get(0);
    if first.is_undefined() {
        return Ok(None);
    }
    Ok(Reflect::get(&first, &"rawValue".into())?.as_string())
}

#[cfg(test)]
mod tests {
    use super::*;
    use js_sys::{Function, Uint8Array};
    use wasm_bindgen_test::wasm_bindgen_test;

    /// A picture of one point.
    fn picture() -> Result<Blob, JsValue> {
        let bytes: &[u8] = b"GIF89a\x01\0\x01\0\x80\0\0\0\0\0\xff\xff\xff!\xf9\x04\x01\0\0\0\0,\0\0\0\0\x01\0\x01\0\0\x02\x02D\x01\0;";
        let parts = Array::of1(&Uint8Array::from(bytes));
        Blob::new_with_u8_array_sequence(&parts)
    }

    /// The browser that runs the tests may read no codes: one that finds what it is told stands in its place.
    fn stand_in(finds: &str) -> Result<(), JsValue> {
        let class = format!(
            "globalThis.BarcodeDetector = class {{ \
               constructor(options) {{ this.formats = options.formats; }} \
               async detect(picture) {{ \
                 if (this.formats.join() !== 'qr_code' || picture.width !== 1) throw new Error('asked otherwise'); \
                 {finds} }} }}"
        );
        Function::new_no_args(&class).call0(&JsValue::UNDEFINED)?;
        Ok(())
    }

    #[wasm_bindgen_test]
    async fn a_code_is_read_or_missed_or_the_reason_is_told() -> Result<(), JsValue> {
        stand_in("return [{ rawValue: 'K7-13-M a' }, { rawValue: 'other' }];")?;
        assert!(is_there());
        let found = read(&picture()?).await;
        assert_eq!(found, Ok(Some("K7-13-M a".to_owned())));
        stand_in("return [];")?;
        assert_eq!(read(&picture()?).await, Ok(None));
        stand_in("throw new Error('no light');")?;
        let told = read(&picture()?).await;
        assert!(told.is_err_and(|why| why.contains("no light")));
        assert!(read(&Blob::new()?).await.is_err(), "it is no picture");
        Ok(())
    }
}
