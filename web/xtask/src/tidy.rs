//! The rules of the house that no compiler knows: what the top level holds, how a file opens, how
//! long it may be.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, bail};

use crate::arithmetic;

/// The most lines a Rust file may have; about 400 is what to aim for.
const LINES: usize = 600;

/// What the top level holds, beside dot files and licences.
const TOP: [&str; 9] = [
    "Cargo.toml",
    "Cargo.lock",
    "README.md",
    "DEVELOPERS.md",
    "CHANGELOG.md",
    "core",
    "web",
    "static",
    "tests",
];

/// The invented scenario; what rustup reads only under this name; what cargo and the build write.
const TOP_TOO: [&str; 4] = ["demo-data", "rust-toolchain.toml", "target", "dist"];

/// What lies between a deed and the disk: nothing is passed over in silence there.
const TO_THE_DISK: [&str; 16] = [
    "web/app/src/half_typed.rs",
    "web/app/src/record.rs",
    "web/app/src/settings.rs",
    "web/app/src/taken_up.rs",
    "web/app/src/tell.rs",
    "web/src/app.rs",
    "web/src/effects.rs",
    "web/src/files.rs",
    "web/src/half_typed.rs",
    "web/src/identity.rs",
    "web/src/keep",
    "web/src/kept_elsewhere.rs",
    "web/src/new_name.rs",
    "web/src/start.rs",
    "web/src/shell/second_copy.rs",
    "web/src/shell/store/",
];

/// Where the app and its shell work nothing out of wood, money or dates.
const SHOWS: [&str; 1] = ["web/app/src/"];

/// Beside drawings, these lay things out on a screen: a gauge, a ring, a chart's axes, bars, rows of a long list.
const LAID_OUT: [&str; 10] = [
    "web/app/src/drawings/",
    "web/app/src/parts/gauge.rs",
    "web/app/src/parts/ring.rs",
    "web/app/src/blanks/match_view.rs",
    "web/app/src/racks/over_time.rs",
    "web/app/src/racks/rests.rs",
    "web/app/src/today/home.rs",
    "web/app/src/today/start.rs",
    "web/app/src/yard/table.rs",
    "web/app/src/yard/table_drawn.rs",
];

/// Rooms of core that hold quantities: the shell names none of them.
const QUANTITIES: [&str; 7] = [
    "quantity", "wood", "plank", "trade", "neck", "verdict", "season",
];

/// What drops an error or puts something else in its place.
const SILENT: [&str; 7] = [
    ".unwrap_or",
    ".ok()",
    ".flatten()",
    "let _ =",
    "Err(_)",
    "map_or_else(|_|",
    "filter_map(Result::ok)",
];

/// Allows a line that does so, or the line after it, with the reason.
const ALLOWED: &str = "// nothing lost: ";

/// Words that the glossary replaced: nothing is declared under them. What a file of the
/// record calls by them stands in attributes.
const REPLACED: &str = "Happening Notebook Book Deed Doing DOINGS Author Moment Told Working Pen Silent Standing Held \
    Begun Quality Ruling Candidate Wanted Laid Beside Taken Doubt Echo RingLean GrainRise Cue StageTerms Wished Ledger \
    RipeOn nudged put_back ledger likeness lessons clash in_doubt watch_mm out_mm";

/// Lists every breach.
pub(crate) fn check(root: &Path) -> Result<()> {
    let mut problems = Vec::new();
    for name in names(root)? {
        if !belongs_on_top(&name) {
            problems.push(format!("{name} does not belong on the top level"));
        }
    }
    for folder in ["core", "web", "tests"] {
        rust_files(root, folder, &mut problems)?;
    }
    for problem in &problems {
        println!("{problem}");
    }
    match problems.len() {
        0 => Ok(()),
        1 => bail!("1 file is not as it should be"),
        count => bail!("{count} files are not as they should be"),
    }
}

fn belongs_on_top(name: &str) -> bool {
    name.starts_with('.')
        || name.starts_with("LICENSE-")
        || TOP.contains(&name)
        || TOP_TOO.contains(&name)
}

fn rust_files(root: &Path, folder: &str, problems: &mut Vec<String>) -> Result<()> {
    for name in names(&root.join(folder))? {
        let path = format!("{folder}/{name}");
        let full = root.join(&path);
        if full.is_dir() {
            if name != "target" && !name.starts_with('.') {
                rust_files(root, &path, problems)?;
            }
        } else if name.ends_with(".rs") {
            let text = fs::read_to_string(&full).with_context(|| format!("cannot read {path}"))?;
            problems.extend(breach(&text).map(|what| format!("{path} {what}")));
            let old = replaced(&text).into_iter();
            problems.extend(old.map(|(line, name)| {
                format!("{path}:{line} declares `{name}`: the glossary has another word for it")
            }));
            let lies_there = |place: &&str| path.starts_with(*place);
            if SHOWS.iter().any(lies_there) && !LAID_OUT.iter().any(lies_there) {
                let worked_out = arithmetic::found(&text).into_iter();
                problems.extend(worked_out.map(|(line, what)| {
                    format!("{path}:{line} works something out (`{what}`): that is core's")
                }));
            }
            if path.starts_with("web/src/") {
                let named = QUANTITIES
                    .iter()
                    .filter(|room| text.contains(&format!("stillwood_core::{room}")));
                problems.extend(named.map(|room| {
                    format!("{path} names core's `{room}`: the shell knows nothing of wood")
                }));
            }
            if TO_THE_DISK.iter().any(lies_there) && !path.contains("/tests") {
                let silent = silent(&text).into_iter();
                problems.extend(silent.map(|line| {
                    format!("{path}:{line} may drop an error: mend it, or say `{ALLOWED}why`")
                }));
            }
        }
    }
    Ok(())
}

fn breach(text: &str) -> Option<String> {
    let lines = text.lines().count();
    if !text.starts_with("//! ") {
        Some("does not open with a `//!` line that says what it is".into())
    } else if lines > LINES {
        Some(format!("has {lines} lines, more than {LINES}"))
    } else {
        None
    }
}

/// The lines that pass something over without a reason. A module of tests may do as it likes.
fn silent(text: &str) -> Vec<usize> {
    let mut found = Vec::new();
    let mut before = "";
    for (line, number) in text.lines().zip(1..) {
        if line.starts_with("mod tests {") {
            break;
        }
        let code = line.split("//").next().unwrap_or(line);
        let reason = |line: &str| {
            let given = line.split_once(ALLOWED);
            given.is_some_and(|(_, why)| why.split_whitespace().count() > 1)
        };
        if SILENT.iter().any(|what| code.contains(what)) && !reason(line) && !reason(before) {
            found.push(number);
        }
        before = line;
    }
    found
}

/// The declarations under a word that was replaced, with their lines.
fn replaced(text: &str) -> Vec<(usize, String)> {
    const DECLARES: [&str; 8] = [
        "struct", "enum", "trait", "type", "fn", "mod", "static", "const",
    ];
    let mut found = Vec::new();
    for (line, number) in text.lines().zip(1..) {
        let mut words = line
            .split("//")
            .next()
            .unwrap_or(line)
            .split(|c: char| !c.is_alphanumeric() && c != '_')
            .filter(|word| !word.is_empty());
        while let Some(word) = words.next() {
            if DECLARES.contains(&word)
                && let Some(name) = words.next()
                && REPLACED.split_whitespace().any(|old| old == name)
                && !line.contains('"')
            {
                found.push((number, name.to_owned()));
            }
        }
    }
    found
}

fn names(folder: &Path) -> Result<Vec<String>> {
    let cannot = || format!("cannot read {}", folder.display());
    let mut names = Vec::new();
    for entry in fs::read_dir(folder).with_context(cannot)? {
        let entry = entry.with_context(cannot)?;
        names.push(entry.file_name().to_string_lossy().into_owned());
    }
    names.sort();
    Ok(names)
}

#[cfg(test)]
mod tests {
    use super::{LINES, belongs_on_top, breach, replaced, silent};

    #[test]
    fn a_file_says_what_it_is_and_is_not_long() {
        assert_eq!(breach("//! The species table.\n\nfn f() {}\n"), None);
        assert!(breach("fn f() {}\n").is_some());
        assert!(breach(&format!("//! Long.\n{}", "\n".repeat(LINES))).is_some());
    }

    #[test]
    fn an_error_on_the_way_to_the_disk_is_not_dropped_without_a_reason() {
        for line in [
            "let page = entries.unwrap_or_default();",
            "let by = serde_json::from_str(&json).ok();",
            "let _ = store.put(page).await;",
            "Err(_) => String::new(),",
            "for entry in read.flatten() {",
            "let x = a.unwrap_or(0); // nothing lost:",
            "let x = a.unwrap_or(0); // nothing",
        ] {
            assert_eq!(silent(&format!("fn f() {{\n{line}\n}}\n")), [2], "{line}");
        }
        for fine in [
            "let x = a.unwrap_or(0); // nothing lost: there is none",
            "// nothing lost: it is only said\nlet _ = say();",
            "// An entry is never `.ok()`.\nlet x = entry?;",
            "mod tests {\nlet x = a.unwrap_or(0);",
        ] {
            assert_eq!(silent(fine), [0; 0], "{fine}");
        }
    }

    #[test]
    fn a_name_that_the_glossary_replaced_is_found_where_it_is_declared() {
        let old = "pub(crate) struct Deed {\n    told: u8,\n}\n// fn ledger\nfn ledger() {}\n";
        let found = replaced(old);
        assert_eq!(found, [(1, "Deed".into()), (5, "ledger".into())]);
        assert!(replaced("pub struct Command;\nlet held = Deed::new();\n").is_empty());
    }

    #[test]
    fn the_top_level_is_short() {
        assert!(belongs_on_top("LICENSE-MIT"));
        assert!(belongs_on_top(".clippy.toml"));
        assert!(!belongs_on_top("notes.txt"));
    }
}
