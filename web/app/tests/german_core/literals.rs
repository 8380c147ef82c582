//! Texts in the source of core: of its errors and its formulas.

use std::fs;
use std::path::{Path, PathBuf};

/// Every Rust file of core, without its tests.
pub(crate) fn sources() -> Vec<(PathBuf, String)> {
    sources_in("../../core/src")
}

/// Every Rust file of a folder beside the app's, without its tests.
pub(crate) fn sources_in(folder: &str) -> Vec<(PathBuf, String)> {
    let mut found = Vec::new();
    let mut folders = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join(folder)];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|end| end == "rs") && !path.ends_with("tests.rs")
            {
                let text = fs::read_to_string(&path).unwrap();
                let text = text
                    .split("#[cfg(test)]\nmod tests {")
                    .next()
                    .unwrap()
                    .to_owned();
                found.push((path, text));
            }
        }
    }
    found.sort();
    found
}

/// The texts in quotes in a stretch of source, as they are when it runs.
pub(crate) fn texts(source: &str) -> Vec<String> {
    let mut texts = Vec::new();
    for line in source
        .split('\n')
        .filter(|line| !line.trim_start().starts_with("//"))
    {
        // A text may go on over the line's end: those are put together below.
        texts.push(line);
    }
    let source = texts.join("\n");
    let mut found = Vec::new();
    let mut signs = source.chars().peekable();
    while let Some(sign) = signs.next() {
        if sign != '"' {
            continue;
        }
        let mut text = String::new();
        while let Some(sign) = signs.next() {
            match sign {
                '"' => break,
                '\\' => match signs.next() {
                    Some('\n') => while signs.next_if(|next| next.is_whitespace()).is_some() {},
                    Some(other) => text.push(other),
                    None => break,
                },
                other => text.push(other),
            }
        }
        found.push(text);
    }
    found
}

/// A message with a number in each of its open places.
pub(crate) fn filled(message: &str) -> String {
    let mut said = String::new();
    let mut rest = message;
    while let Some((before, after)) = rest.split_once('{') {
        said.push_str(before);
        said.push('7');
        rest = after.split_once('}').map_or("", |(_, after)| after);
    }
    said.push_str(rest);
    said
}

/// The stretches of a source between a beginning and its closing bracket.
pub(crate) fn blocks<'a>(source: &'a str, begins: &str, open: char, close: char) -> Vec<&'a str> {
    let mut found = Vec::new();
    for (at, _) in source.match_indices(begins) {
        let block = &source[at + begins.len()..];
        let (mut depth, mut quoted, mut before) = (1, false, ' ');
        for (end, sign) in block.char_indices() {
            if sign == '"' && before != '\\' {
                quoted = !quoted;
            }
            before = sign;
            if quoted {
                continue;
            }
            depth += i32::from(sign == open) - i32::from(sign == close);
            if depth == 0 {
                found.push(&block[..end]);
                break;
            }
        }
    }
    found
}
