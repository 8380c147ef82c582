//! What kind of device this is, as far as the app has to behave differently: where to install
//! before the first entry, whether a thumb does the work. It never decides what the app can do:
//! that is asked of each function of the browser itself.

use wasm_bindgen::JsValue;

/// An iPhone or iPad, whatever it calls itself. There a tab and the installed app keep separate
/// records, and a tab's record is cleared after a week without a visit.
pub(crate) fn is_ios() -> bool {
    let Some(navigator) = web_sys::window().map(|window| window.navigator()) else {
        return false;
    };
    let agent = navigator.user_agent().unwrap_or_default();
    looks_like_ios(&agent, navigator.max_touch_points())
}

/// Started from its own icon rather than in a browser tab.
pub(crate) fn is_installed() -> bool {
    let own_window = ["standalone", "fullscreen", "minimal-ui"]
        .iter()
        .any(|mode| matches_media(&format!("(display-mode: {mode})")));
    own_window || ios_home_screen()
}

/// iPads ask for desktop pages by calling themselves a Macintosh; no Macintosh has a touch screen.
fn looks_like_ios(agent: &str, touch_points: i32) -> bool {
    ["iPhone", "iPad", "iPod"]
        .iter()
        .any(|name| agent.contains(name))
        || (agent.contains("Macintosh") && touch_points > 1)
}

/// Safari's own sign, older than display modes.
fn ios_home_screen() -> bool {
    let Some(navigator) = web_sys::window().map(|window| window.navigator()) else {
        return false;
    };
    js_sys::Reflect::get(&navigator, &JsValue::from_str("standalone"))
        .is_ok_and(|value| value.is_truthy())
}

/// The languages that the browser is set to, the best first.
pub(crate) fn languages() -> Vec<String> {
    let navigator = web_sys::window().map(|window| window.navigator());
    let listed = navigator.map(|navigator| navigator.languages());
    let listed = listed.map_or_else(Vec::new, |listed| listed.iter().collect());
    listed.iter().filter_map(JsValue::as_string).collect()
}

fn matches_media(query: &str) -> bool {
    web_sys::window()
        .and_then(|window| window.match_media(query).ok().flatten())
        .is_some_and(|list| list.matches())
}

/// Said to whoever looks at the console.
pub(crate) fn warn(what: &str) {
    web_sys::console::warn_1(&what.into());
}

/// Whether the browser has a network, as far as it knows.
pub(crate) fn has_network() -> bool {
    web_sys::window().is_some_and(|window| window.navigator().on_line())
}

#[cfg(test)]
mod tests {
    use super::looks_like_ios;
    use wasm_bindgen_test::wasm_bindgen_test;

    #[wasm_bindgen_test]
    fn an_ipad_in_disguise_is_known_by_its_touch_points() {
        let mac = "Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1.15";
        assert!(looks_like_ios(mac, 5));
        assert!(!looks_like_ios(mac, 0));
        assert!(looks_like_ios(
            "Mozilla/5.0 (iPhone; CPU iPhone OS 18_0)",
            5
        ));
        assert!(!looks_like_ios("Mozilla/5.0 (Linux; Android 15)", 5));
    }
}
