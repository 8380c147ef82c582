//! What the JSON reader says, in plain words.
//!
//! It only changes words: a message that it does not know is passed on as it is.

/// The reader's message in a maker's words, without its place.
pub(crate) fn plain(said: &str) -> String {
    let said = said.rfind(" at line ").map_or(said, |end| &said[..end]);
    for kind in ["invalid type: ", "invalid value: "] {
        if let Some((found, wanted)) = said
            .strip_prefix(kind)
            .and_then(|rest| rest.rsplit_once(", expected "))
        {
            return format!(
                "{} stands where {} should be",
                what(found),
                wanted_here(wanted)
            );
        }
    }
    if let Some(name) = said.strip_prefix("missing field ") {
        return format!("{} is missing", quoted(name));
    }
    if let Some(name) = said.strip_prefix("duplicate field ") {
        return format!("the key {} comes twice", quoted(name));
    }
    if let Some(rest) = said.strip_prefix("unknown variant ") {
        let name = rest.split(", expected ").next().unwrap_or(rest);
        return format!("{} is not known here", quoted(name));
    }
    said.replace('`', "\"")
}

fn quoted(name: &str) -> String {
    name.replace('`', "\"")
}

fn what(found: &str) -> String {
    match found.split_once(' ') {
        Some(("string", text)) => text.to_owned(),
        Some(("integer" | "boolean", value)) => value.replace('`', ""),
        Some(("floating", rest)) => rest.trim_start_matches("point ").replace('`', ""),
        _ => match found {
            "null" => "nothing (null)".to_owned(),
            "map" => "a group of keys".to_owned(),
            "sequence" => "a list".to_owned(),
            other => other.to_owned(),
        },
    }
}

fn wanted_here(wanted: &str) -> &str {
    match wanted {
        "f64" | "f32" => "a number",
        "u64" | "u32" | "i64" | "i32" | "usize" => "a whole number",
        "a string" | "string" => "a text",
        "a boolean" => "true or false",
        "a sequence" => "a list",
        "a map" => "a group of keys",
        "a Decimal type representing a fixed-point number" => {
            "a price or a share, such as \"14.50\","
        }
        _ if wanted.starts_with("struct ") => "a group of keys",
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::plain;

    #[test]
    fn messages_are_put_in_plain_words() {
        for (said, words) in [
            (
                "invalid type: string \"8 1/4\", expected f64 at line 1 column 20",
                "\"8 1/4\" stands where a number should be",
            ),
            ("missing field `by` at line 1 column 2", "\"by\" is missing"),
            (
                "unknown variant `moon_shake`, expected one of `knot`, `pith`",
                "\"moon_shake\" is not known here",
            ),
            (
                "invalid type: null, expected struct Taken",
                "nothing (null) stands where a group of keys should be",
            ),
            ("expected value at line 1 column 1", "expected value"),
        ] {
            assert_eq!(plain(said), words);
        }
    }
}
