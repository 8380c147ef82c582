//! Measurements rather than promises: the figures are in the output.

use super::*;
use wasm_bindgen_test::console_log;

#[wasm_bindgen_test]
async fn asking_about_room_and_promise_comes_back() {
    console_log!(
        "persisted: {:?}; room: {:?}",
        persisted().await,
        bytes_used().await
    );
}

/// About 400 bytes that no compression makes much smaller.
fn some_line(number: u64) -> String {
    let mut state = number;
    let hex: String = (0..24)
        .map(|_| {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            format!("{state:016x}")
        })
        .collect();
    format!("{{\"id\":\"{hex}\"}}\n")
}

#[wasm_bindgen_test]
async fn a_page_of_forty_megabytes_goes_in_and_comes_back() -> Outcome {
    let store = fresh().await?;
    let lines: String = (0..100_000).map(some_line).collect();
    let start = js_sys::Date::now();
    store.append(&lines).await?;
    let written = js_sys::Date::now();
    let back = store.read_all().await?;
    let read = js_sys::Date::now();
    assert!(back.pages.iter().all(|page| page.lines.ends_with(b"\n")));
    assert!(texts(&back).concat() == lines, "in pieces, and whole");
    console_log!(
        "{} MB: written in {} ms, read in {} ms",
        lines.len() / 1_000_000,
        written - start,
        read - written
    );
    Ok(())
}

/// The same for the small writes of a day at the yard.
#[wasm_bindgen_test]
async fn small_pages_are_quick() -> Outcome {
    let store = fresh().await?;
    let line = some_line(7);
    let mut times = Vec::new();
    for _ in 0..200 {
        let start = js_sys::Date::now();
        store.append(&line).await?;
        times.push(js_sys::Date::now() - start);
    }
    times.sort_by(f64::total_cmp);
    let start = js_sys::Date::now();
    let read = store.read_all().await?;
    console_log!(
        "append: median {} ms, 95 % {} ms, worst {} ms; {} pages read in {} ms",
        times.get(100).copied().unwrap_or_default(),
        times.get(190).copied().unwrap_or_default(),
        times.last().copied().unwrap_or_default(),
        read.pages.len(),
        js_sys::Date::now() - start
    );
    Ok(())
}
