//! The licences of all crates: whether each is one that we may use, which crates are in the app twice,
//! and the notices that go with the app.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use anyhow::{Context, Result, bail};
use serde_json::Value;

use crate::command;
use crate::place;
use crate::wasm;

/// Licences under which anything may be built into the app or used to build it.
const ALLOWED: [&str; 10] = [
    "0BSD",
    "Apache-2.0",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "CC0-1.0",
    "ISC",
    "MIT",
    "Unicode-3.0",
    "Zlib",
];

/// Crates that are in the app in two versions, for another crate asks for the older one.
const TWICE: [&str; 0] = [];

#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Crate {
    name: String,
    version: String,
    licence: String,
    folder: String,
    is_ours: bool,
}

/// Fails for a licence that is not allowed, and for a crate that is in the app twice and not known to be.
pub(crate) fn check() -> Result<()> {
    let mut problems = Vec::new();
    let all = all_crates(None)?;
    for one in &all {
        if !is_allowed(&one.licence) {
            problems.push(format!(
                "{} {} is under \"{}\"",
                one.name, one.version, one.licence
            ));
        }
    }
    let in_app = crates_of_the_app()?;
    let twice = twice(&in_app);
    for name in &twice {
        if !TWICE.contains(&name.as_str()) {
            problems.push(format!("{name} is in the app in two versions"));
        }
    }
    for name in TWICE {
        if !twice.contains(name) {
            problems.push(format!(
                "{name} is no longer in the app twice: take it out of the list"
            ));
        }
    }
    for problem in &problems {
        println!("{problem}");
    }
    if !problems.is_empty() {
        bail!("{} crates are not as they should be", problems.len());
    }
    println!("{} crates, {} of them in the app", all.len(), in_app.len());
    Ok(())
}

/// The notices of all that is in the app, as a text: each crate with its licence, then the texts, each
/// once with the crates that it came with. The same crates give the same bytes.
pub(crate) fn notices() -> Result<Vec<u8>> {
    let mut out = String::from(
        "Stillwood is made of the software below, which stands under the licences named, beside the \
         Rust standard library (MIT OR Apache-2.0, copyright The Rust Project Contributors).\n\n",
    );
    let ours = [("MIT", "LICENSE-MIT"), ("Apache-2.0", "LICENSE-APACHE")];
    let mut texts: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    let mut without_a_text = BTreeSet::new();
    for one in crates_of_the_app()?.iter().filter(|one| !one.is_ours) {
        let name = format!("{} {}", one.name, one.version);
        out.push_str(&format!("{name}: {}\n", one.licence));
        let found = texts_of(Path::new(&one.folder), &one.licence)?;
        if found.is_empty() {
            without_a_text.insert(name.clone());
        }
        for text in found {
            texts.entry(text).or_default().insert(name.clone());
        }
    }
    let line = format!("\n{}\n", "=".repeat(72));
    for (text, of) in &texts {
        out.push_str(&line);
        let of: Vec<&str> = of.iter().map(String::as_str).collect();
        out.push_str(&format!("{}\n\n{text}\n", of.join(", ")));
    }
    if !without_a_text.is_empty() {
        let of: Vec<String> = without_a_text.into_iter().collect();
        out.push_str(&line);
        out.push_str(&format!(
            "These are published without a text of their licences; the standard texts follow: {}\n",
            of.join(", ")
        ));
        for (name, file) in ours {
            let text = fs::read_to_string(place::root().join(file))
                .with_context(|| format!("cannot read {file}"))?;
            let text = match name {
                "MIT" => without_our_name(&text),
                _ => text,
            };
            out.push_str(&format!("\n{name}\n\n{}\n", plain(&text)));
        }
    }
    Ok(out.into_bytes())
}

/// Our own copyright line is of our own text only.
fn without_our_name(text: &str) -> String {
    text.lines()
        .filter(|line| !line.starts_with("Copyright"))
        .map(|line| format!("{line}\n"))
        .collect()
}

/// The texts of a crate's licence; where it may be had under MIT, that text alone, and every notice.
fn texts_of(folder: &Path, licence: &str) -> Result<Vec<String>> {
    let mut names = Vec::new();
    let cannot = || format!("cannot read {}", folder.display());
    for entry in fs::read_dir(folder).with_context(cannot)? {
        let name = entry.with_context(cannot)?.file_name();
        let name = name.to_string_lossy().into_owned();
        if is_notice(&name) && folder.join(&name).is_file() {
            names.push(name);
        }
    }
    names.sort();
    let either = !licence.contains(" AND ");
    let is_mit = |name: &String| name.to_ascii_uppercase().contains("MIT");
    if either && names.iter().any(is_mit) {
        let is_choice = |name: &String| name.to_ascii_uppercase().starts_with("LICEN");
        names.retain(|name| is_mit(name) || !is_choice(name) && !is_other_choice(name));
    }
    let mut texts = Vec::new();
    for name in names {
        let bytes = fs::read(folder.join(&name)).with_context(|| format!("cannot read {name}"))?;
        texts.push(plain(&String::from_utf8_lossy(&bytes)));
    }
    Ok(texts)
}

fn is_notice(name: &str) -> bool {
    let name = name.to_ascii_uppercase();
    ["LICEN", "COPYING", "COPYRIGHT", "NOTICE", "UNLICEN"]
        .iter()
        .any(|start| name.starts_with(start))
}

/// Files that tell of the choice or of the licence not chosen.
fn is_other_choice(name: &str) -> bool {
    let name = name.to_ascii_uppercase();
    name.starts_with("COPYING") || name.starts_with("UNLICEN")
}

/// One kind of line end, and nothing at the ends: texts that say the same are the same.
fn plain(text: &str) -> String {
    let lines: Vec<&str> = text.lines().map(str::trim_end).collect();
    lines.join("\n").trim().to_owned()
}

/// What is compiled into the app: procedural macros and what only builds or tests it is not.
fn crates_of_the_app() -> Result<Vec<Crate>> {
    let mut cargo = command::cargo();
    cargo.args(["tree", "--locked", "--package", wasm::APP]);
    cargo.args(["--target", wasm::TARGET, "--edges", "normal,no-proc-macro"]);
    cargo.args(["--prefix", "none", "--format", "{p}"]);
    let text = command::output(&mut cargo)?;
    let in_app: BTreeSet<(&str, &str)> = text.lines().filter_map(named).collect();
    let mut found = all_crates(Some(wasm::TARGET))?;
    found.retain(|one| in_app.contains(&(one.name.as_str(), one.version.as_str())));
    if found.len() != in_app.len() {
        bail!(
            "{} crates are in the app, and cargo tells of {} of them",
            in_app.len(),
            found.len()
        );
    }
    Ok(found)
}

/// `serde v1.0.229 (*)` and the like.
fn named(line: &str) -> Option<(&str, &str)> {
    let mut words = line.split_whitespace();
    let name = words.next()?;
    let version = words.next()?.strip_prefix('v')?;
    Some((name, version))
}

/// Every crate of the workspace and all that they need, for one target or any, in order.
fn all_crates(target: Option<&str>) -> Result<Vec<Crate>> {
    let mut cargo = command::cargo();
    cargo.args(["metadata", "--locked", "--format-version", "1"]);
    if let Some(target) = target {
        cargo.args(["--filter-platform", target]);
    }
    let text = command::output(&mut cargo)?;
    let value: Value = serde_json::from_str(&text).context("cargo metadata is not JSON")?;
    let packages = value["packages"].as_array();
    let packages = packages.context("cargo metadata names no packages")?;
    let mut found: Vec<Crate> = packages.iter().filter_map(one_crate).collect();
    if found.len() != packages.len() {
        bail!("cargo metadata tells of a crate without its name, version or place");
    }
    found.sort();
    Ok(found)
}

fn one_crate(package: &Value) -> Option<Crate> {
    let text = |key: &str| package[key].as_str().map(str::to_owned);
    let manifest = text("manifest_path")?;
    Some(Crate {
        name: text("name")?,
        version: text("version")?,
        licence: text("license").unwrap_or_default(),
        folder: Path::new(&manifest)
            .parent()?
            .to_string_lossy()
            .into_owned(),
        is_ours: package["source"].is_null(),
    })
}

/// The names that come in more than one version.
fn twice(crates: &[Crate]) -> BTreeSet<String> {
    let mut names = BTreeSet::new();
    crates
        .iter()
        .filter(|one| !names.insert(one.name.as_str()))
        .map(|one| one.name.clone())
        .collect()
}

/// Whether a licence expression (SPDX; `/` is an old way to write OR) can be met with what is allowed.
fn is_allowed(expression: &str) -> bool {
    let spaced = expression
        .replace('/', " OR ")
        .replace('(', " ( ")
        .replace(')', " ) ");
    let words: Vec<&str> = spaced.split_whitespace().collect();
    let mut rest = words.as_slice();
    either(&mut rest).unwrap_or(false) && rest.is_empty()
}

fn either(words: &mut &[&str]) -> Option<bool> {
    let mut found = both(words)?;
    while let ["OR", rest @ ..] = *words {
        *words = rest;
        found |= both(words)?;
    }
    Some(found)
}

fn both(words: &mut &[&str]) -> Option<bool> {
    let mut found = single(words)?;
    while let ["AND", rest @ ..] = *words {
        *words = rest;
        found &= single(words)?;
    }
    Some(found)
}

fn single(words: &mut &[&str]) -> Option<bool> {
    match *words {
        ["(", rest @ ..] => {
            *words = rest;
            let found = either(words)?;
            *words = words.strip_prefix(&[")"])?;
            Some(found)
        }
        // An exception gives more leave, never less.
        [name, "WITH", _, rest @ ..] | [name, rest @ ..] => {
            *words = rest;
            Some(ALLOWED.contains(name))
        }
        [] => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_licence_is_allowed_if_it_can_be_met() {
        for fine in [
            "MIT",
            "MIT OR Apache-2.0",
            "MIT/Apache-2.0",
            "Unlicense/MIT",
            "(MIT OR Apache-2.0) AND Unicode-3.0",
            "Apache-2.0 WITH LLVM-exception OR Apache-2.0 OR MIT",
            "MIT OR GPL-3.0-only",
        ] {
            assert!(is_allowed(fine), "{fine}");
        }
        for not in [
            "",
            "GPL-3.0-only",
            "MIT AND GPL-3.0-only",
            "(MIT OR GPL-3.0-only) AND AGPL-3.0-only",
            "MIT OR",
            "(MIT",
            "MIT)",
            "MIT Apache-2.0",
        ] {
            assert!(!is_allowed(not), "{not}");
        }
    }

    #[test]
    fn the_notices_name_every_crate_of_the_app_and_are_always_the_same() {
        let text = notices().unwrap();
        assert_eq!(text, notices().unwrap());
        let text = String::from_utf8(text).unwrap();
        for one in crates_of_the_app().unwrap() {
            let line = format!("\n{} {}: ", one.name, one.version);
            assert_eq!(text.contains(&line), !one.is_ours, "{line}");
        }
        // What is only used to build or test the app is not in it.
        for other in ["\nproptest ", "\nthirtyfour "] {
            assert!(!text.contains(other), "{other}");
        }
        assert!(text.contains("Permission is hereby granted"));
        let folder = place::root();
        assert!(
            !text.contains(&*folder.to_string_lossy()),
            "no place of this machine"
        );
    }

    #[test]
    fn a_crate_in_two_versions_is_seen() {
        let one = |version: &str| Crate {
            name: "a".into(),
            version: version.into(),
            licence: "MIT".into(),
            folder: String::new(),
            is_ours: false,
        };
        assert!(twice(&[one("1.0.0")]).is_empty());
        assert!(twice(&[one("1.0.0"), one("2.0.0")]).contains("a"));
    }
}
