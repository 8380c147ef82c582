//! What the device says the time is, and chance. Both are handed to core as arguments. It never
//! judges the clock: a wrong one is a remark in the record.

use js_sys::Date;

/// One moment by the device's clock.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Now {
    /// Milliseconds since 1970 in UTC, for ids.
    pub(crate) millis: u64,
    /// RFC 3339 with the local offset, as `2026-03-07T14:05:09+01:00`.
    pub(crate) at: String,
    /// The local day, as `2026-03-07`.
    pub(crate) day: String,
}

/// The device gives no random bytes, so nothing new can be named.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("This browser gives no random numbers, so Stillwood cannot name new entries here.")]
pub(crate) struct NoRandom;

/// The moment now.
pub(crate) fn now() -> Now {
    read(&Date::new_0())
}

/// Sixteen random bytes, for ids.
pub(crate) fn random_bytes16() -> Result<[u8; 16], NoRandom> {
    let mut bytes = [0; 16];
    fill_with_chance(&mut bytes)?;
    Ok(bytes)
}

/// Ten random bytes each for so many ids, asked for together.
pub(crate) fn random_for_ids(ids: usize) -> Result<Vec<[u8; 10]>, NoRandom> {
    let mut bytes = vec![0; 10 * ids];
    fill_with_chance(&mut bytes)?;
    let (each, _) = bytes.as_chunks();
    Ok(each.to_vec())
}

fn fill_with_chance(bytes: &mut [u8]) -> Result<(), NoRandom> {
    web_sys::window()
        .and_then(|window| window.crypto().ok())
        .and_then(|crypto| crypto.get_random_values_with_u8_array(bytes).ok())
        .ok_or(NoRandom)?;
    Ok(())
}

fn read(date: &Date) -> Now {
    // JavaScript counts the minutes from local time to UTC, RFC 3339 the other way.
    let offset = -date.get_timezone_offset();
    let year = date.get_full_year();
    let day = format!(
        "{:04}-{:02}-{:02}",
        // RFC 3339 has four digits for a year. A clock beyond them is stuck at their end.
        year.min(9999),
        date.get_month() + 1,
        date.get_date()
    );
    let at = format!(
        "{day}T{:02}:{:02}:{:02}{}",
        date.get_hours(),
        date.get_minutes(),
        date.get_seconds(),
        offset_text(offset)
    );
    Now {
        // A clock before 1970 counts as 1970; float to integer keeps within bounds by itself.
        millis: date.get_time() as u64,
        at,
        day,
    }
}

/// `+01:00`, `-03:30`, `+00:00`.
fn offset_text(minutes: f64) -> String {
    let sign = if minutes < 0.0 { '-' } else { '+' };
    // Offsets are within a day and a half, so the conversion is exact.
    let whole = minutes.abs().round() as u32;
    format!("{sign}{:02}:{:02}", whole / 60, whole % 60)
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_bindgen::JsValue;
    use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

    wasm_bindgen_test_configure!(run_in_browser);

    #[wasm_bindgen_test]
    fn the_stamp_names_the_moment_it_was_taken_at() {
        let now = now();
        assert_eq!(now.at.len(), "2026-03-07T14:05:09+01:00".len(), "{now:?}");
        assert!(now.at.starts_with(&now.day));
        let back = Date::new(&JsValue::from_str(&now.at)).get_time();
        assert!((now.millis as f64 - back).abs() < 1000.0, "{now:?}");
    }

    #[wasm_bindgen_test]
    fn offsets_carry_a_sign_and_minutes() {
        assert_eq!(offset_text(0.0), "+00:00");
        assert_eq!(offset_text(-0.0), "+00:00");
        assert_eq!(offset_text(60.0), "+01:00");
        assert_eq!(offset_text(-210.0), "-03:30");
        assert_eq!(offset_text(345.0), "+05:45");
    }

    #[wasm_bindgen_test]
    fn a_clock_gone_wild_still_gives_a_stamp() {
        let far = read(&Date::new(&JsValue::from_f64(8.0e15)));
        assert!(far.day.starts_with("9999-"), "{far:?}");
        let before = read(&Date::new(&JsValue::from_f64(-1.0e12)));
        assert_eq!(before.millis, 0);
        assert!(before.day.starts_with("1938-"), "{before:?}");
    }

    #[wasm_bindgen_test]
    fn chance_does_not_repeat() {
        let first = random_bytes16();
        assert!(first.is_ok());
        assert_ne!(first, random_bytes16());
        let many = random_for_ids(512).unwrap_or_default();
        let distinct: std::collections::BTreeSet<_> = many.iter().collect();
        assert_eq!(distinct.len(), 512);
    }
}
