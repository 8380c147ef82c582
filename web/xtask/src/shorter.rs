//! Scripts and styles without what only their readers need: whole-line comments, and the blanks at the start of
//! lines. It changes no name and joins no lines, so it can't change what they do; compressed, what a true minifier
//! would add to that is 3 KB.

/// A script without the lines that are comments alone. A line inside a text of several lines must not begin with
/// `//`, `/*` or `*`; those of the app have no such text.
pub(crate) fn script(text: &str) -> String {
    let mut in_comment = false;
    let mut out = String::with_capacity(text.len());
    for line in text.lines().map(str::trim) {
        let begins = line.starts_with("/*") && (line.ends_with("*/") || !line.contains("*/"));
        if in_comment || begins {
            in_comment = !line.ends_with("*/");
        } else if !line.is_empty() && !line.starts_with("//") {
            out.push_str(line);
            out.push('\n');
        }
    }
    out
}

/// A style sheet without comments. A text in quotes must not hold `/*`.
pub(crate) fn style(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, after)) = rest.split_once("/*") {
        out.push_str(before);
        rest = after.split_once("*/").map_or("", |(_, after)| after);
    }
    out.push_str(rest);
    let lines = out.lines().map(str::trim).filter(|line| !line.is_empty());
    lines.collect::<Vec<_>>().join("\n") + "\n"
}

#[cfg(test)]
mod tests {
    use super::{script, style};
    use crate::place;

    #[test]
    fn comments_of_a_script_go_and_code_stays() {
        let text = "// what it is\n\n/** A page\n * of words */\n  const a = \"https://b\"; // why\n    /* c */\n  f(); /* d */\n/* e */ g();\n";
        assert_eq!(
            script(text),
            "const a = \"https://b\"; // why\nf(); /* d */\n/* e */ g();\n"
        );
    }

    #[test]
    fn comments_of_a_style_go_and_rules_stay() {
        let text = "/* one */\na { b: c; } /* two\nlines */\n  d { e: \"f\"; }\n";
        assert_eq!(style(text), "a { b: c; }\nd { e: \"f\"; }\n");
    }

    /// What the two take for granted of the app's own files.
    #[test]
    fn no_text_of_the_app_looks_like_a_comment() {
        let folder = place::root().join("static");
        for (name, bytes) in crate::wasm::files_below(&folder, "").expect("the page's files") {
            if !(name.ends_with(".js") || name.ends_with(".css")) {
                continue;
            }
            let text = String::from_utf8(bytes).expect("text");
            if name.ends_with(".css") {
                assert_eq!(
                    text.matches("/*").count(),
                    text.matches("*/").count(),
                    "{name}"
                );
                let quoted = text.split('"').skip(1).step_by(2);
                assert!(
                    quoted.into_iter().all(|text| !text.contains("/*")),
                    "{name}"
                );
            } else {
                // A text of several lines stands between backquotes: each must close on its own line.
                let is_open = |line: &&str| line.matches('`').count() % 2 == 1;
                let comment = |line: &&str| line.trim().starts_with("//");
                let open = text.lines().filter(|line| !comment(line)).find(is_open);
                assert_eq!(open, None, "{name}");
            }
        }
    }
}
