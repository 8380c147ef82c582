//! The page: regions of markup, of which only those are patched whose text has changed, and in them only what
//! differs.

use stillwood_app::long_list;
use stillwood_app::page::{Changed, Part, Region};
use stillwood_app::same_shape;
use stillwood_app::settings::Scheme;
use stillwood_app::{Action, Page};
use wasm_bindgen::prelude::*;
use web_sys::{Document, Element};

#[wasm_bindgen]
extern "C" {
    /// Makes the element like the markup, changing only what differs. It is loaded before the module.
    #[wasm_bindgen(js_name = stillwoodPatch, catch)]
    fn patch(element: &Element, markup: &str) -> Result<(), JsValue>;

    /// Sets values in an element whose shape stays; false where the page does not have the nodes that are named.
    #[wasm_bindgen(js_name = stillwoodSet, catch)]
    fn set(element: &Element, values: &str) -> Result<bool, JsValue>;

    /// Moves a long list on; false where the page has other rows than were drawn, or the focus is in one that goes.
    #[wasm_bindgen(js_name = stillwoodRows, catch)]
    fn move_rows(
        list: &Element,
        count: usize,
        gone_before: usize,
        stay: usize,
        before: &str,
        after: &str,
    ) -> Result<bool, JsValue>;

    /// Leaves the focus to what lies over the screen, where something does, and gives it back once that is gone.
    #[wasm_bindgen(js_name = stillwoodOver, catch)]
    fn leave_focus_to_what_lies_over() -> Result<(), JsValue>;
}

/// What stands in the page now.
#[derive(Default)]
pub(crate) struct Painted {
    page: Option<Page>,
    looks: Option<(Option<Scheme>, bool)>,
    lies_over: bool,
}

fn document() -> Option<Document> {
    web_sys::window()?.document()
}

/// A region's element, whole.
fn whole(region: &Region) -> String {
    format!(
        "<{0} id=\"{1}\">{2}</{0}>",
        region.tag, region.id, region.html
    )
}

impl Painted {
    /// What a press does, by what stands at its key.
    pub(crate) fn action(&self, press: &str) -> Option<Action> {
        self.page.as_ref()?.action(press).cloned()
    }

    /// Puts one region of the screen that stands there into the page; whether it looks any different.
    pub(crate) fn put_alone(&mut self, region: Region) -> bool {
        let Some(document) = document() else {
            return false;
        };
        let mut stands = self.page.iter_mut().flat_map(|page| &mut page.regions);
        let Some(was) = stands.find(|was| (was.id, was.tag) == (region.id, region.tag)) else {
            return false;
        };
        let differs = put_region(&document, was, &region);
        *was = region;
        self.leave_focus();
        differs
    }

    /// What is patched is as its markup has it: what may have the focus is said anew.
    fn leave_focus(&mut self) {
        let lies_over = self.page.as_ref().is_some_and(Page::has_something_over_it);
        if std::mem::replace(&mut self.lies_over, lies_over) || lies_over {
            told(leave_focus_to_what_lies_over());
        }
    }

    /// Puts a screen into the page; whether it looks any different.
    pub(crate) fn put(&mut self, page: Page, looks: (Option<Scheme>, bool)) -> bool {
        let Some(document) = document() else {
            return false;
        };
        let Some(root) = document.get_element_by_id("app") else {
            return false;
        };
        if self.looks.replace(looks) != Some(looks) {
            show_looks(&document, looks);
        }
        if self
            .page
            .as_ref()
            .is_none_or(|before| before.title != page.title)
        {
            document.set_title(&page.title);
        }
        if let Some(root) = document.document_element()
            && root.get_attribute("lang").as_deref() != Some(page.language.tag())
        {
            told(root.set_attribute("lang", page.language.tag()));
        }
        let same = self
            .page
            .as_ref()
            .filter(|before| is_built_alike(before, &page));
        let mut differs = same.is_none();
        match same {
            Some(before) => {
                for (was, is) in before.regions.iter().zip(&page.regions) {
                    differs |= put_region(&document, was, is);
                }
            }
            None => {
                root.set_class_name(page.layout.class());
                let all: String = page.regions.iter().map(whole).collect();
                root.set_inner_html(&all);
            }
        }
        self.page = Some(page);
        self.leave_focus();
        differs
    }
}

/// Patches what of a region has changed; whether anything has.
fn put_region(document: &Document, was: &Region, is: &Region) -> bool {
    let put = |id: &str, before: &str, markup: &str| {
        let Some(element) = document.get_element_by_id(id) else {
            return;
        };
        if is_moved(&element, before, markup) {
            return;
        }
        let is_set = same_shape::differing(before, markup)
            .is_some_and(|values| set(&element, &values).is_ok_and(|set| set));
        if !is_set {
            told(patch(&element, markup));
        }
    };
    match is.changed(was) {
        Changed::Nothing => return false,
        Changed::Parts(parts) => {
            for Part { id, was, is } in parts {
                put(id, was, is);
            }
        }
        Changed::Whole => put(is.id, &whole(was), &whole(is)),
    }
    true
}

/// Moves a long list on, where that is all that differs; whether it was.
fn is_moved(element: &Element, was: &str, is: &str) -> bool {
    long_list::moved(was, is).is_some_and(|to| {
        let done = move_rows(
            element,
            to.rows,
            to.gone_before,
            to.stay,
            to.before,
            to.after,
        );
        done.is_ok_and(|done| done)
    })
}

/// Whether two screens have the same regions in the same layout.
fn is_built_alike(one: &Page, other: &Page) -> bool {
    let ids = |page: &Page| {
        page.regions
            .iter()
            .map(|one| (one.id, one.tag))
            .collect::<Vec<_>>()
    };
    one.layout == other.layout && ids(one) == ids(other)
}

/// The colours and the hand, where they are not as the device has them.
fn show_looks(document: &Document, (scheme, left): (Option<Scheme>, bool)) {
    let Some(root) = document.document_element() else {
        return;
    };
    let scheme = scheme.map(|scheme| match scheme {
        Scheme::Paper => "paper",
        Scheme::Shed => "shed",
        Scheme::Sun => "sun",
    });
    for (name, value) in [
        ("data-scheme", scheme),
        ("data-hand", left.then_some("left")),
    ] {
        let now = root.get_attribute(name);
        if now.as_deref() == value {
            continue;
        }
        told(match value {
            Some(value) => root.set_attribute(name, value),
            None => root.remove_attribute(name),
        });
    }
}

/// What the browser refuses is told on its console.
pub(crate) fn told(done: Result<(), JsValue>) {
    if let Err(why) = done {
        web_sys::console::error_1(&why);
    }
}
