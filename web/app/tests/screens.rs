//! The words of every screen stand in `tests/screens/`, so that a change of wording is seen in review. Where one is
//! meant, `STILLWOOD_RENEW=1 cargo test -p stillwood-app --test screens` writes them anew.

mod gallery;
mod plain_text;

use gallery::{SCREENS, Stage, every_state, number};
use plain_text::plain_text;
use std::collections::{BTreeMap, BTreeSet};
use std::env;
use std::fs;
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn sample() -> Vec<u8> {
    fs::read(root().join("demo-data/two-yards.json")).expect("the sample")
}

/// Of all states on the phone, by their names; of those of the laptop where other words stand there.
fn words() -> BTreeMap<String, String> {
    let sample = sample();
    let mut words = BTreeMap::new();
    for wide in [false, true] {
        let stage = Stage {
            sample: &sample,
            wide,
        };
        every_state(stage, &mut |name, desk| {
            let page = desk.page();
            let text = plain_text(&page);
            let of_laptop = format!("{name}.laptop");
            if !wide {
                assert!(words.insert(name.to_owned(), text).is_none(), "{name}");
            } else if words.get(name) != Some(&text) {
                assert!(words.insert(of_laptop, text).is_none(), "{name}");
            }
        });
    }
    words
}

#[test]
fn the_words_of_every_screen_are_as_they_were_reviewed() {
    let folder = root().join("tests/screens");
    let words = words();
    if env::var_os("STILLWOOD_RENEW").is_some() {
        fs::create_dir_all(&folder).expect("the folder");
        for entry in fs::read_dir(&folder).expect("the folder") {
            fs::remove_file(entry.expect("a file").path()).expect("an old file");
        }
        for (name, text) in &words {
            fs::write(folder.join(format!("{name}.txt")), text).expect("a file");
        }
        return;
    }
    let stands: BTreeSet<String> = fs::read_dir(&folder)
        .expect("the folder")
        .map(|entry| entry.expect("a file").file_name())
        .map(|name| name.to_string_lossy().trim_end_matches(".txt").to_owned())
        .collect();
    let mut wrong: Vec<String> = stands
        .iter()
        .filter(|name| !words.contains_key(*name))
        .map(|name| format!("{name}: no such screen"))
        .collect();
    for (name, text) in &words {
        match fs::read_to_string(folder.join(format!("{name}.txt"))) {
            Err(_) => wrong.push(format!("{name}: a new screen")),
            Ok(before) => wrong.extend(first_difference(name, &before, text)),
        }
    }
    assert!(
        wrong.is_empty(),
        "{} screens read otherwise. If that is meant: STILLWOOD_RENEW=1 cargo test -p stillwood-app --test screens\n{}",
        wrong.len(),
        wrong.join("\n")
    );
}

fn first_difference(name: &str, before: &str, now: &str) -> Option<String> {
    let mut lines = before.lines().zip(now.lines());
    if before == now {
        return None;
    }
    let at = lines.position(|(one, other)| one != other);
    let at = at.unwrap_or_else(|| before.lines().count().min(now.lines().count()));
    let line = |text: &str| text.lines().nth(at).unwrap_or("(its end)").to_owned();
    Some(format!(
        "{name}, line {}:\n  was: {}\n  is:  {}",
        at + 1,
        line(before),
        line(now)
    ))
}

#[test]
fn every_screen_is_in_the_gallery() {
    let sample = sample();
    let mut seen = BTreeSet::new();
    let stage = Stage {
        sample: &sample,
        wide: false,
    };
    every_state(stage, &mut |_, desk| {
        seen.insert(number(desk.model.route));
    });
    let missing: Vec<usize> = (0..SCREENS).filter(|one| !seen.contains(one)).collect();
    assert_eq!(missing, [0; 0], "see `number` in tests/gallery/mod.rs");
}

#[test]
fn a_difference_is_told_with_its_line() {
    assert_eq!(first_difference("a", "one\ntwo\n", "one\ntwo\n"), None);
    let told = first_difference("a", "one\ntwo\n", "one\nthree\n");
    assert_eq!(
        told.as_deref(),
        Some("a, line 2:\n  was: two\n  is:  three")
    );
    let longer = first_difference("a", "one\n", "one\ntwo\n");
    assert_eq!(
        longer.as_deref(),
        Some("a, line 2:\n  was: (its end)\n  is:  two")
    );
}
