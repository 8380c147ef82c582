//! A screen as plain text: a line a block, keys in brackets, fields with what stands in them.

use stillwood_app::Page;

/// Elements that stand in a line of text with what is around them.
const IN_LINE: [&str; 12] = [
    "span", "strong", "b", "small", "em", "abbr", "sup", "sub", "time", "code", "br", "wbr",
];

/// What begins the line of a list or a heading.
const BEGINNINGS: [&str; 6] = ["#", "##", "###", "-", "- ##", "- ###"];

/// Its title, then its regions in their order.
pub(crate) fn plain_text(page: &Page) -> String {
    let mut text = format!("Title: {}\n", page.title);
    for region in &page.regions {
        // The bar is the same everywhere.
        if region.id == "bar" {
            continue;
        }
        let lines = lines_of(&region.html);
        if !lines.is_empty() {
            text.push_str(&format!("\n{}:\n", region.id));
            for line in lines {
                text.push_str(&line);
                text.push('\n');
            }
        }
    }
    text
}

#[derive(Default)]
struct Lines {
    done: Vec<String>,
    line: String,
    /// Keys that stand open: what closes each.
    open: Vec<(String, bool)>,
    /// Inside a drawing: what it says to the ear is its text.
    drawing: usize,
}

impl Lines {
    fn end(&mut self) {
        let mut line = self.line.split_whitespace().collect::<Vec<_>>().join(" ");
        // Signs that follow an element in the line stand at its word.
        for sign in [". ", ": ", ", "] {
            line = line.replace(&format!(" {sign}"), sign);
        }
        if let Some(before) = line.strip_suffix(" .") {
            line = format!("{before}.");
        }
        // What stands for a list or a heading waits for its text.
        if BEGINNINGS.contains(&line.as_str()) {
            return;
        }
        if !line.is_empty() && line != "[]" {
            self.done.push(line);
        }
        self.line.clear();
    }

    fn say(&mut self, text: &str) {
        if self.drawing == 0 && !text.trim().is_empty() {
            if !self.line.is_empty() && !self.line.ends_with('[') {
                self.line.push(' ');
            }
            self.line.push_str(text.trim());
        }
    }

    fn prefix(&mut self, sign: &str) {
        if !self.line.is_empty() {
            self.line.push(' ');
        }
        self.line.push_str(sign);
    }

    fn open(&mut self, name: &str, tag: &str) {
        let label = attribute(tag, "aria-label").filter(|label| !label.is_empty());
        if name == "svg" {
            if let Some(label) = label.filter(|_| self.drawing == 0) {
                self.say(&format!("(drawing: {label})"));
            }
            self.drawing += usize::from(!tag.ends_with('/'));
            return;
        }
        if self.drawing > 0 || IN_LINE.contains(&name) {
            return;
        }
        if name == "input" {
            return self.field(tag);
        }
        // A figure is a word of its sentence; a cell and what is said of a name stand in its line.
        if is_figure(tag) {
            return self.open.push((name.to_owned(), false));
        }
        match name {
            "td" | "th" if !self.line.is_empty() => self.line.push_str(" |"),
            "dd" if !self.line.is_empty() => self.line.push(':'),
            "td" | "th" | "dd" => {}
            _ => self.end(),
        }
        let is_key = has(tag, "data-press");
        if is_key {
            self.prefix("[");
            let chosen = [
                "aria-pressed",
                "aria-checked",
                "aria-current",
                "aria-selected",
            ];
            let value = |name: &&str| attribute(tag, name).is_some_and(|value| value != "false");
            if chosen.iter().any(value) {
                self.say("(chosen)");
            }
            if let Some(label) = label {
                self.say(&format!("“{label}”"));
            }
        }
        match name {
            "h1" => self.prefix("#"),
            "h2" => self.prefix("##"),
            "h3" => self.prefix("###"),
            "li" => {
                // One that said nothing leaves its sign to the next.
                self.line.clear();
                self.prefix("-");
            }
            "textarea" => self.field(tag),
            _ => {}
        }
        self.open.push((name.to_owned(), is_key));
    }

    fn field(&mut self, tag: &str) {
        let said = |name: &str| attribute(tag, name).filter(|text| !text.is_empty());
        let value = said("value").or_else(|| said("placeholder").map(|text| format!("({text})")));
        match said("type").as_deref() {
            Some("checkbox" | "radio") => self.say(if has(tag, "checked") { "(x)" } else { "( )" }),
            Some("hidden") => {}
            _ => self.say(&format!("____{}", value.unwrap_or_default())),
        }
        if let Some(label) = said("aria-label") {
            self.say(&format!("“{label}”"));
        }
        if attribute(tag, "aria-invalid").is_some_and(|value| value == "true") {
            self.say("(wrong)");
        }
    }

    fn close(&mut self, name: &str) {
        if name == "svg" {
            self.drawing = self.drawing.saturating_sub(1);
            return;
        }
        if self.drawing > 0 || IN_LINE.contains(&name) {
            return;
        }
        let found = self.open.iter().rposition(|(open, _)| open == name);
        let is_key = found.is_some_and(|at| self.open[at].1);
        let stays_in_line =
            matches!(name, "td" | "th" | "dt" | "dd") || (name == "button" && !is_key);
        if let Some(at) = found {
            self.open.truncate(at);
        }
        if is_key {
            self.line.push(']');
            if matches!(self.line.trim(), "]" | "- ]") && !self.done.is_empty() {
                // What it says took lines of its own: the last of them ends it.
                self.line.clear();
                if let Some(last) = self.done.last_mut() {
                    last.push(']');
                }
            }
        }
        if !stays_in_line {
            self.end();
        }
    }
}

fn lines_of(html: &str) -> Vec<String> {
    let mut lines = Lines::default();
    let mut rest = html;
    while let Some((text, after)) = rest.split_once('<') {
        lines.say(&signs(text));
        let Some((tag, after)) = after.split_once('>') else {
            break;
        };
        rest = after;
        let name = |tag: &str| tag.split([' ', '/']).next().unwrap_or_default().to_owned();
        match tag.strip_prefix('/') {
            Some(tag) => lines.close(&name(tag)),
            None => lines.open(&name(tag), tag),
        }
    }
    lines.say(&signs(rest));
    lines.end();
    lines.done
}

fn is_figure(tag: &str) -> bool {
    attribute(tag, "class").is_some_and(|class| class == "figure")
}

fn has(tag: &str, name: &str) -> bool {
    tag.split(' ')
        .any(|word| word == name || word.starts_with(&format!("{name}=")))
}

fn attribute(tag: &str, name: &str) -> Option<String> {
    let (_, after) = tag.split_once(&format!(" {name}=\""))?;
    after.split_once('"').map(|(value, _)| signs(value))
}

fn signs(text: &str) -> String {
    let text = text.replace("&lt;", "<").replace("&gt;", ">");
    text.replace("&quot;", "\"").replace("&amp;", "&")
}
