//! A screen as it is put into the page: regions of markup, each patched by itself, and what a press on each of
//! its keys does.

use crate::action::Action;
use crate::model::Model;
use crate::number_and_unit::number_and_unit_together;
use crate::words::{Language, Words};
use maud::{Markup, PreEscaped};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::ops::Range;

/// How the regions are laid out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Layout {
    /// A place with its bar: head, body, bar.
    Place,
    /// A place on a wide screen: a list and what is chosen in it side by side.
    ListAndPane,
    /// One task on the whole height, with a way back: head, body, foot.
    Task,
    /// Measuring: drawing, state, what is active, keys.
    Measure,
    /// Nothing but what is shown, as a mark to be chalked.
    Bare,
}

impl Layout {
    /// Its class on the page.
    pub fn class(self) -> &'static str {
        match self {
            Layout::Place => "place",
            Layout::ListAndPane => "place two",
            Layout::Task => "task",
            Layout::Measure => "task measure",
            Layout::Bare => "bare",
        }
    }
}

/// A part of the page that is patched by itself. One whose markup has not changed costs nothing.
#[derive(Debug)]
pub struct Region {
    /// The id of its element.
    pub id: &'static str,
    /// Its element's name.
    pub tag: &'static str,
    /// Its markup.
    pub html: String,
    /// What the presses in it do, by their numbers.
    presses: Vec<Action>,
    /// What the presses on the rows of a long list do, by the row's place in the list.
    row_presses: BTreeMap<usize, Action>,
    /// Elements in it that are patched by themselves where nothing else has changed: their ids, and where they stand
    /// in the markup, in order.
    parts: Vec<(&'static str, Range<usize>)>,
}

/// A part of a region that differs from before.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Part<'a> {
    /// The id of its element.
    pub id: &'static str,
    /// Its markup before.
    pub was: &'a str,
    /// Its markup now.
    pub is: &'a str,
}

/// What of a region differs from before.
#[derive(Debug, PartialEq, Eq)]
pub enum Changed<'a> {
    /// Nothing.
    Nothing,
    /// These elements alone.
    Parts(Vec<Part<'a>>),
    /// More than its parts: it is patched as a whole.
    Whole,
}

impl Region {
    /// What of it differs from what stood there before.
    pub fn changed<'a>(&'a self, before: &'a Self) -> Changed<'a> {
        if self.html == before.html {
            return Changed::Nothing;
        }
        let ids = |of: &Self| of.parts.iter().map(|(id, _)| *id).collect::<Vec<_>>();
        if self.parts.is_empty() || ids(self) != ids(before) || !self.frame().eq(before.frame()) {
            return Changed::Whole;
        }
        let pairs = self.parts.iter().zip(&before.parts);
        let parts = pairs.filter_map(|((id, is), (_, was))| {
            let is = self.html.get(is.clone())?;
            let was = before.html.get(was.clone())?;
            (is != was).then_some(Part { id, was, is })
        });
        Changed::Parts(parts.collect())
    }

    /// The markup between the parts.
    fn frame(&self) -> impl Iterator<Item = &str> {
        let ends = self.parts.iter().map(|(_, at)| at.start);
        let starts = self.parts.iter().map(|(_, at)| at.end);
        std::iter::once(0)
            .chain(starts)
            .zip(ends.chain([self.html.len()]))
            .filter_map(|(from, to)| self.html.get(from..to))
    }
}

/// Where parts stand in the markup of a region, in the order in which they were drawn. One that is not found after the
/// one before, as a part in another, is none: what holds it is patched.
fn places(html: &str, parts: Vec<(&'static str, String)>) -> Vec<(&'static str, Range<usize>)> {
    let mut from = 0;
    let found = parts.into_iter().filter_map(|(id, part)| {
        let at = from + html.get(from..)?.find(&part)?;
        from = at + part.len();
        Some((id, at..from))
    });
    found.collect()
}

/// A screen.
#[derive(Debug)]
pub struct Page {
    /// The title of the page.
    pub title: String,
    /// The language that it is in.
    pub language: Language,
    /// How it is laid out.
    pub layout: Layout,
    /// Its regions, in order.
    pub regions: Vec<Region>,
}

impl Page {
    /// An empty page.
    pub fn new(title: impl Into<String>, layout: Layout) -> Self {
        Self {
            title: title.into(),
            language: Language::default(),
            layout,
            regions: Vec::new(),
        }
    }

    /// Adds a region.
    pub fn with(
        self,
        model: &Model,
        id: &'static str,
        tag: &'static str,
        draw: impl FnOnce(&Ui<'_>) -> Markup,
    ) -> Self {
        if model
            .shell
            .draws_alone
            .is_some_and(|alone| !alone.contains(&id))
        {
            return self;
        }
        let ui = Ui::new(model, id);
        let html = number_and_unit_together(&draw(&ui).into_string());
        self.with_drawn(ui, tag, html)
    }

    /// Apart from the drawing, so that it is compiled once.
    #[inline(never)]
    fn with_drawn(mut self, ui: Ui<'_>, tag: &'static str, html: String) -> Self {
        self.regions.push(Region {
            id: ui.region,
            tag,
            parts: places(&html, ui.parts.into_inner()),
            html,
            presses: ui.presses.into_inner(),
            row_presses: ui.row_presses.into_inner(),
        });
        self
    }

    /// Whether something lies over the screen that waits for an answer: nothing beside it can be reached meanwhile.
    pub fn has_something_over_it(&self) -> bool {
        let mut regions = self.regions.iter();
        regions.any(|region| region.html.contains(" aria-modal=\"true\""))
    }

    /// What a press does, by what stands at its key (`region:number`, of a row `region:row-place`).
    pub fn action(&self, press: &str) -> Option<&Action> {
        let (region, number) = press.split_once(':')?;
        let region = self.regions.iter().find(|one| one.id == region)?;
        match number.strip_prefix("row-") {
            Some(place) => region.row_presses.get(&place.parse::<usize>().ok()?),
            None => region.presses.get(number.parse::<usize>().ok()?),
        }
    }
}

/// What a part of a screen is drawn with: the model, the words, and where it leaves what its keys do.
pub struct Ui<'a> {
    /// What the app knows.
    pub model: &'a Model,
    /// The words of the language.
    pub w: &'static Words,
    region: &'static str,
    presses: RefCell<Vec<Action>>,
    row_presses: RefCell<BTreeMap<usize, Action>>,
    parts: RefCell<Vec<(&'static str, String)>>,
}

impl<'a> Ui<'a> {
    fn new(model: &'a Model, region: &'static str) -> Self {
        Ui {
            model,
            w: model.words(),
            region,
            presses: RefCell::default(),
            row_presses: RefCell::default(),
            parts: RefCell::default(),
        }
    }

    /// A part of the region that is patched by itself where only parts have changed: one element with this id. Parts
    /// stand beside one another, never in each other, and are drawn in the order in which they stand.
    pub fn part(&self, id: &'static str, element: Markup) -> Markup {
        let html = number_and_unit_together(&element.into_string());
        self.parts.borrow_mut().push((id, html.clone()));
        PreEscaped(html)
    }

    /// Takes note of what a key does; what is returned stands at the key as `data-press`.
    pub fn press(&self, action: impl Into<Action>) -> String {
        self.noted(action.into())
    }

    /// The same for a row of a long list. Its text names the row's place in the whole list: a row that is still in view
    /// after scrolling is drawn with the same text, and need not be patched.
    pub fn press_of_row(&self, place: usize, action: impl Into<Action>) -> String {
        self.row_presses.borrow_mut().insert(place, action.into());
        format!("{}:row-{place}", self.region)
    }

    fn noted(&self, action: Action) -> String {
        let mut presses = self.presses.borrow_mut();
        presses.push(action);
        format!("{}:{}", self.region, presses.len().saturating_sub(1))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use maud::html;

    fn region(html: &str, parts: &[(&'static str, &str)]) -> Region {
        let parts = parts.iter().map(|(id, part)| (*id, (*part).to_owned()));
        Region {
            id: "body",
            tag: "main",
            html: html.to_owned(),
            presses: Vec::new(),
            row_presses: BTreeMap::new(),
            parts: places(html, parts.collect()),
        }
    }

    #[test]
    fn where_only_parts_differ_only_those_are_patched() {
        let of = |a: &str, b: &str, end: &str| {
            let (a, b) = (
                format!("<p id=\"a\">{a}</p>"),
                format!("<p id=\"b\">{b}</p>"),
            );
            region(
                &format!("<h2>x</h2>{a}<i>y</i>{b}{end}"),
                &[("a", &a), ("b", &b)],
            )
        };
        let before = of("one", "two", "<hr>");
        assert_eq!(of("one", "two", "<hr>").changed(&before), Changed::Nothing);
        let longer = of("one and more", "two", "<hr>");
        let first = "<p id=\"a\">one and more</p>";
        let a = Part {
            id: "a",
            was: "<p id=\"a\">one</p>",
            is: first,
        };
        assert_eq!(longer.changed(&before), Changed::Parts(vec![a]));
        let both = of("1", "2", "<hr>");
        let Changed::Parts(parts) = both.changed(&before) else {
            panic!("more than parts");
        };
        let named = |part: &Part<'_>| (part.id, part.is.to_owned());
        let expected =
            [("a", "1"), ("b", "2")].map(|(id, is)| (id, format!("<p id=\"{id}\">{is}</p>")));
        assert_eq!(parts.iter().map(named).collect::<Vec<_>>(), expected);
        // Something beside the parts differs, before, between or after them.
        assert_eq!(of("one", "2", "<br>").changed(&before), Changed::Whole);
        assert_eq!(of("one", "two", "").changed(&before), Changed::Whole);
    }

    #[test]
    fn other_parts_or_none_are_patched_as_a_whole() {
        let (a, b) = ("<p id=\"a\">1</p>", "<p id=\"b\">1</p>");
        let one = region(a, &[("a", a)]);
        assert_eq!(region(b, &[("b", b)]).changed(&one), Changed::Whole);
        assert_eq!(
            region("<p>2</p>", &[]).changed(&region(a, &[])),
            Changed::Whole
        );
        // A part that stands in another is none.
        let around = format!("<div id=\"c\">{a}</div>");
        let nested = region(&around, &[("a", a), ("c", &around)]);
        assert_eq!(nested.parts.len(), 1);
    }

    #[test]
    fn a_screen_knows_whether_something_lies_over_it() {
        let page = |html: &str| {
            let mut page = Page::new("x", Layout::Task);
            page.regions.push(region(html, &[]));
            page
        };
        assert!(!page("<p>aria-modal</p>").has_something_over_it());
        let asked = html! { section role="dialog" aria-modal="true" { "Really?" } };
        assert!(page(&asked.into_string()).has_something_over_it());
    }

    #[test]
    fn a_part_is_found_in_what_was_drawn() {
        let desk = crate::desk::Desk::new("2026-11-20");
        let page = Page::new("x", Layout::Task).with(&desk.model, "body", "main", |ui| {
            html! {
                p { "before" }
                (ui.part("one", html! { p #one { "<1>" } }))
                (ui.part("two", html! { p #two { "2" } }))
            }
        });
        let parts = page.regions.iter().flat_map(|region| {
            let texts = region.parts.iter();
            texts.filter_map(|(_, at)| region.html.get(at.clone()))
        });
        let parts: Vec<&str> = parts.collect();
        assert_eq!(
            parts,
            ["<p id=\"one\">&lt;1&gt;</p>", "<p id=\"two\">2</p>"]
        );
    }
}
