//! Two markups of the same shape: the same elements, by their ids too, with the same attributes and texts in the same
//! places. What differs are values, and the page sets those alone: that takes a fraction of what it takes to read markup
//! and compare it.

use std::fmt::Write;

/// Elements whose state the page holds besides their attributes: they are patched as a whole.
const WITH_STATE: [&str; 6] = ["input", "textarea", "select", "option", "details", "dialog"];
/// Between the values that are handed to the page; no markup has it.
const APART: char = '\0';

/// A piece of markup.
#[derive(Debug, PartialEq, Eq)]
enum Token<'a> {
    /// `<name attributes>`.
    Start { name: &'a str, attributes: &'a str },
    /// `</name>`.
    End(&'a str),
    /// What stands between tags.
    Text(&'a str),
}

/// Takes the next piece off the front.
fn next<'a>(rest: &mut &'a str) -> Option<Token<'a>> {
    let whole = *rest;
    let Some(tag) = whole.strip_prefix('<') else {
        let end = whole.find('<').unwrap_or(whole.len());
        let (text, after) = whole.split_at(end);
        *rest = after;
        return (!text.is_empty()).then_some(Token::Text(text));
    };
    // No value holds a bare `>`: maud writes it as an entity.
    let (inside, after) = tag.split_once('>')?;
    *rest = after;
    if let Some(name) = inside.strip_prefix('/') {
        return Some(Token::End(name));
    }
    let end = inside.find([' ', '/']).unwrap_or(inside.len());
    let (name, attributes) = inside.split_at(end);
    Some(Token::Start { name, attributes })
}

/// Takes the next attribute off the front: its name, and its value where it has one.
fn next_attribute<'a>(rest: &mut &'a str) -> Option<(&'a str, Option<&'a str>)> {
    let whole = rest.trim_start_matches([' ', '/']);
    if whole.is_empty() {
        return None;
    }
    let end = whole.find([' ', '=', '/']).unwrap_or(whole.len());
    let (name, after) = whole.split_at(end);
    let Some(quoted) = after.strip_prefix("=\"") else {
        *rest = after;
        return Some((name, None));
    };
    let (value, after) = quoted.split_once('"')?;
    *rest = after;
    Some((name, Some(value)))
}

/// A value as it is, of what stands in markup; `None` where it holds what maud does not write.
fn plain(escaped: &str) -> Option<String> {
    if !escaped.contains('&') {
        return Some(escaped.to_owned());
    }
    let mut plain = String::with_capacity(escaped.len());
    let mut parts = escaped.split('&');
    plain.push_str(parts.next()?);
    for part in parts {
        let (entity, after) = part.split_once(';')?;
        plain.push(match entity {
            "amp" => '&',
            "lt" => '<',
            "gt" => '>',
            "quot" => '"',
            _ => return None,
        });
        plain.push_str(after);
    }
    Some(plain)
}

/// What differs between two markups of one element that have the same shape, for the page to set: how many nodes there
/// are, then for each value the place of its node in the order of the document, the node's name, the attribute's name
/// (nothing for a text) and the value, all apart by a sign that no markup has. Nothing where nothing differs, `None`
/// where the shape does.
pub fn differing(before: &str, after: &str) -> Option<String> {
    let (mut was, mut is) = (before, after);
    let mut place = 0_usize;
    let mut found = String::new();
    let mut set = |place: usize, node: &str, name: &str, value: &str| {
        let value = plain(value).filter(|value| !value.contains(APART))?;
        write!(
            found,
            "{APART}{place}{APART}{node}{APART}{name}{APART}{value}"
        )
        .ok()
    };
    while !(was.is_empty() && is.is_empty()) {
        match (next(&mut was)?, next(&mut is)?) {
            (Token::End(one), Token::End(other)) if one == other => continue,
            (Token::Text(one), Token::Text(other)) => {
                if one != other {
                    set(place, "#text", "", other)?;
                }
            }
            (
                Token::Start {
                    name,
                    attributes: mut old,
                },
                Token::Start {
                    name: other,
                    attributes: mut new,
                },
            ) if name == other => {
                if old != new && WITH_STATE.contains(&name) {
                    return None;
                }
                while old != new {
                    let (attribute, value) = next_attribute(&mut old)?;
                    let (same, now) = next_attribute(&mut new)?;
                    if attribute != same || value.is_some() != now.is_some() {
                        return None;
                    }
                    if let Some(now) = now.filter(|now| value != Some(*now)) {
                        if attribute == "id" {
                            return None;
                        }
                        set(place, name, attribute, now)?;
                    }
                }
            }
            _ => return None,
        }
        place += 1;
    }
    Some(match found.as_str() {
        "" => found,
        _ => format!("{place}{found}"),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn values(before: &str, after: &str) -> Option<Vec<String>> {
        let found = differing(before, after)?;
        Some(found.split(APART).map(str::to_owned).collect())
    }

    #[test]
    fn attributes_and_texts_that_differ_are_named_by_their_places() {
        let of = |d: &str, text: &str| {
            format!(
                "<div id=\"a\"><svg><path d=\"{d}\"></path></svg><br><b>x</b>{text}</div><p hidden>y</p>"
            )
        };
        let found = values(&of("M0 1", "one"), &of("M0 2", "one &amp; &quot;two&quot;"));
        let expected = [
            "9",
            "2",
            "path",
            "d",
            "M0 2",
            "6",
            "#text",
            "",
            "one & \"two\"",
        ];
        assert_eq!(found.unwrap(), expected);
        assert_eq!(
            values(&of("M0 1", "one"), &of("M0 1", "one")).unwrap(),
            [""]
        );
    }

    #[test]
    fn another_shape_is_none() {
        for (before, after) in [
            ("<p>a</p>", "<b>a</b>"),
            ("<p>a</p>", "<p></p>"),
            ("<p>a</p>", "<p>a</p><p>b</p>"),
            ("<p>a</p>", "<p><i>a</i></p>"),
            ("<p class=\"x\">a</p>", "<p>a</p>"),
            ("<p hidden>a</p>", "<p>a</p>"),
            ("<p hidden>a</p>", "<p hidden=\"\">a</p>"),
            ("<p id=\"x\">a</p>", "<p class=\"x\">a</p>"),
            // Another element in its place: who had the first in hand would hold the second.
            ("<tr id=\"row-1\"></tr>", "<tr id=\"row-2\"></tr>"),
            ("<p>a</p>", "<p>&nbsp;</p>"),
            // The page holds their state: what is typed, what is folded open.
            ("<input value=\"1\">", "<input value=\"2\">"),
            ("<details open></details>", "<details></details>"),
        ] {
            assert_eq!(values(before, after), None, "{before} {after}");
        }
        // As long as nothing of them differs they are in nobody's way.
        let field = |text: &str| format!("<input value=\"1\"><p>{text}</p>");
        assert_eq!(
            values(&field("a"), &field("b")).unwrap(),
            ["3", "2", "#text", "", "b"]
        );
    }

    /// Lays values over markup, as the page does over its nodes.
    fn laid_over(before: &str, values: &str) -> String {
        let mut rest = before;
        let mut all = Vec::new();
        while let Some(token) = next(&mut rest) {
            all.push(match token {
                Token::Start { name, attributes } => format!("<{name}{attributes}>"),
                Token::End(name) => format!("</{name}>"),
                Token::Text(text) => text.to_owned(),
            });
        }
        let nodes: Vec<usize> = (0..all.len())
            .filter(|at| !all[*at].starts_with("</"))
            .collect();
        let values: Vec<&str> = values.split(APART).skip(1).collect();
        for set in values.chunks(4) {
            let [place, _, name, value] = set else {
                continue;
            };
            let node = &mut all[nodes[place.parse::<usize>().unwrap()]];
            let value = maud::html! { (value) }.into_string();
            *node = match *name {
                "" => value,
                name => {
                    let (start, after) = node.split_once(&format!(" {name}=\"")).unwrap();
                    let (_, end) = after.split_once('"').unwrap();
                    format!("{start} {name}=\"{value}\"{end}")
                }
            };
        }
        all.concat()
    }

    /// Keys on the measuring screen change values alone, and the values make the screen before into the screen after.
    #[test]
    fn a_key_that_is_typed_on_sets_values_alone() {
        let mut desk = crate::desk::Desk::new("2026-11-20");
        desk.go(crate::Route::Yard);
        for (press, field, text) in [
            ("Start a visit", "Yard", "Hopple"),
            ("Save", "", ""),
            ("New pile", "Wood", "hard maple"),
            ("Save", "", ""),
            ("Measure it now", "", ""),
        ] {
            assert!(desk.press(press), "{press}");
            if !field.is_empty() {
                desk.type_into(field, text);
            }
        }
        for typed in ["2620", "214", "205", "193", "52", "19.7", "9", "4"] {
            desk.keys(typed);
            assert!(desk.press("Next"));
        }
        desk.keys("1");
        let before = desk.page();
        desk.keys("2");
        let after = desk.page();
        let mut changed = 0;
        for (was, is) in before.regions.iter().zip(&after.regions) {
            let found = differing(&was.html, &is.html);
            let found = found.unwrap_or_else(|| panic!("{}: {} {}", is.id, was.html, is.html));
            changed += usize::from(!found.is_empty());
            assert_eq!(laid_over(&was.html, &found), is.html, "{}", is.id);
        }
        assert!(changed >= 2, "{changed}");
    }
}
