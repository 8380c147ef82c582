//! A screen as it is put into the page: regions of markup, each patched by itself, and what a press on each of
//! its keys does.

use crate::action::Action;
use crate::model::Model;
use crate::words::{Language, Words};
use maud::Markup;
use std::cell::RefCell;

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
    pub presses: Vec<Action>,
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
        mut self,
        model: &Model,
        id: &'static str,
        tag: &'static str,
        draw: impl FnOnce(&Ui<'_>) -> Markup,
    ) -> Self {
        let ui = Ui {
            model,
            w: model.words(),
            region: id,
            presses: RefCell::new(Vec::new()),
        };
        let html = draw(&ui).into_string();
        self.regions.push(Region {
            id,
            tag,
            html,
            presses: ui.presses.into_inner(),
        });
        self
    }

    /// What a press does, by what stands at its key (`region:number`).
    pub fn action(&self, press: &str) -> Option<&Action> {
        let (region, number) = press.split_once(':')?;
        let region = self.regions.iter().find(|one| one.id == region)?;
        region.presses.get(number.parse::<usize>().ok()?)
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
}

impl Ui<'_> {
    /// Takes note of what a key does; what is returned stands at the key as `data-press`.
    pub fn press(&self, action: impl Into<Action>) -> String {
        let mut presses = self.presses.borrow_mut();
        presses.push(action.into());
        format!("{}:{}", self.region, presses.len().saturating_sub(1))
    }
}
