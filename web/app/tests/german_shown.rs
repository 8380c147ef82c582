//! German as it is put together on screens: what core says is in German there too, numbers have a comma, sentences end
//! once.

mod gallery;

use gallery::{Stage, every_state};
use std::collections::BTreeSet;
use stillwood_app::desk::Desk;
use stillwood_app::words::Language;

const SAMPLE: &[u8] = include_bytes!("../../../demo-data/two-yards.json");

/// What no German line says: words of core's in the middle of a line, and what putting together leaves over.
const NEVER: &[&str] = &[
    "still drying",
    "too few weighings",
    "taking up water",
    "too close to call",
    "Ring chord",
    "Ring dip",
    "(phone)",
    "(laptop)",
    "?.",
    "6.25 %",
    "vor 18 Monate",
    "in 6 Monate",
    "bei Stücke",
    "Von 7 Stücke",
    "mit 2 Stapel,",
];

/// A sentence that ends twice; three points that were typed are none.
fn ends_twice(line: &str) -> bool {
    line.contains("..") && !line.contains("...")
}

#[test]
fn what_is_put_together_in_german_is_german() {
    Desk::new_ones_speak(Language::German);
    let (mut screens, mut found) = (0, BTreeSet::new());
    for wide in [false, true] {
        let stage = Stage {
            sample: SAMPLE,
            wide,
        };
        every_state(stage, &mut |name, desk| {
            screens += 1;
            for line in desk.reads().lines() {
                if ends_twice(line) || NEVER.iter().any(|never| line.contains(never)) {
                    found.insert(format!("{name}: {line}"));
                }
            }
        });
    }
    assert!(screens > 200, "only {screens} screens were seen");
    let found: Vec<String> = found.into_iter().collect();
    assert!(found.is_empty(), "{}", found.join("\n"));
}
