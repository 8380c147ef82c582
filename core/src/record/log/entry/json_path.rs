//! Where in a JSON text a byte stands, named by its keys, and which text in it is too long.
//!
//! It follows text that may be damaged: it never fails, it only knows less.

/// The byte at a line and a column as serde_json counts them, both from 1.
pub(crate) fn byte_of(text: &str, line: usize, column: usize) -> usize {
    let mut start = 0;
    for _ in 1..line {
        match text.as_bytes()[start..].iter().position(|b| *b == b'\n') {
            Some(length) => start += length + 1,
            None => break,
        }
    }
    (start + column.saturating_sub(1)).min(text.len())
}

/// The keys that lead to the byte, joined by points: `body.readings.length`. Empty at the top.
pub(crate) fn field_at(text: &str, byte: usize) -> String {
    let mut walk = Walk::default();
    walk.run(text.as_bytes(), byte, usize::MAX);
    walk.path()
}

/// The first text (between quotes) longer than the limit: its keys, where it starts, its length.
pub(crate) fn long_text(text: &str, limit: usize) -> Option<(String, usize, usize)> {
    let mut walk = Walk::default();
    let (start, length) = walk.run(text.as_bytes(), text.len(), limit)?;
    Some((walk.path(), start, length))
}

/// Longest part of a key that is shown.
const KEY_SHOWN: usize = 40;
/// Deepest level that is named.
const DEEPEST: usize = 12;

#[derive(Default)]
struct Walk {
    keys: Vec<String>,
    depth: usize,
}

impl Walk {
    fn path(&self) -> String {
        let named: Vec<&str> = self
            .keys
            .iter()
            .map(String::as_str)
            .filter(|key| !key.is_empty())
            .collect();
        named.join(".")
    }

    fn name(&mut self, key: &[u8]) {
        if let Some(last) = self.keys.last_mut() {
            let shown = key.get(..KEY_SHOWN).unwrap_or(key);
            *last = String::from_utf8_lossy(shown).into_owned();
        }
    }

    fn run(&mut self, src: &[u8], until: usize, limit: usize) -> Option<(usize, usize)> {
        let mut at = 0;
        while at < until.min(src.len()) {
            match src[at] {
                b'{' | b'[' => {
                    self.depth += 1;
                    if self.keys.len() < DEEPEST && self.keys.len() + 1 == self.depth {
                        self.keys.push(String::new());
                    }
                }
                b'}' | b']' => {
                    if self.keys.len() == self.depth {
                        self.keys.pop();
                    }
                    self.depth = self.depth.saturating_sub(1);
                }
                b'"' => {
                    let end = end_of_text(src, at);
                    let is_key = src.get(end..).is_some_and(|rest| {
                        rest.iter().find(|b| !b.is_ascii_whitespace()) == Some(&b':')
                    });
                    if is_key && self.keys.len() == self.depth {
                        let inside = src.get(at + 1..end.saturating_sub(1));
                        self.name(inside.unwrap_or_default());
                    }
                    if end - at > limit.saturating_add(2) {
                        return Some((at, end - at));
                    }
                    at = end;
                    continue;
                }
                _ => {}
            }
            at += 1;
        }
        None
    }
}

/// The byte after the closing quote of the text that opens at `start`.
fn end_of_text(src: &[u8], start: usize) -> usize {
    let mut at = start + 1;
    while at < src.len() {
        match src[at] {
            b'\\' => at += 2,
            b'"' => return at + 1,
            _ => at += 1,
        }
    }
    src.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_byte_is_named_by_its_keys() {
        let text = r#"{"a":1,"body":{"readings":{"length":{"value":12}},"x":[{"y":3}]},"v":1}"#;
        let at = |part: &str| text.find(part).unwrap();
        assert_eq!(field_at(text, at("12")), "body.readings.length.value");
        assert_eq!(field_at(text, at("3}]")), "body.x.y");
        assert_eq!(field_at(text, text.len() - 1), "v");
        assert_eq!(field_at("[[[[", 3), "");
    }

    #[test]
    fn a_long_text_is_named() {
        let text = format!(r#"{{"body":{{"text":"{}"}}}}"#, "x".repeat(50));
        assert_eq!(long_text(&text, 40), Some(("body.text".to_owned(), 16, 52)));
        assert_eq!(long_text(&text, 50), None);
    }
}
