//! What a maker does in the app, step by step and by touch alone: the same steps for every story. A key is found by
//! what it says, a field by its own name.

use super::page::Page;
use super::place::program;
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use stillwood_app::words::{Language, words_of};

/// An invented yard.
pub const HOPPLE: &str = "Hopple Lane Timber";

/// What the planks of a pile share, as it is typed.
#[derive(Debug, Clone, Copy)]
pub struct Pile {
    pub wood: &'static str,
    /// The wood of the table that is then chosen.
    pub chosen: Option<&'static str>,
    pub thickness: &'static str,
    pub price: &'static str,
    /// What the meter shows.
    pub moisture: &'static str,
    /// How warm the wood is.
    pub warmth: &'static str,
}

impl Pile {
    /// Hard maple, as most tests have it.
    pub const MAPLE: Pile = Pile {
        wood: "hard maple",
        chosen: Some("maple"),
        thickness: "8/4",
        price: "14,50",
        moisture: "10.5",
        warmth: "8",
    };
}

/// The database of the maker's own record.
pub const OWN: &str = "stillwood";
/// The database of the sample workshop.
pub const SAMPLE: &str = "stillwood-demo";

/// Touches the key that says this.
pub async fn press(page: &Page, says: &str) {
    page.tap_named("[data-press]", says).await;
}

/// Touches the only key that has this in what it says.
pub async fn press_with(page: &Page, part: &str) {
    page.tap_with("[data-press]", part).await;
}

/// Waits until the screen of this title stands.
pub async fn titled(page: &Page, title: &str) {
    page.reads("#title", title).await;
}

/// The title of the screen: of a plank that is measured its mark.
pub async fn title(page: &Page) -> String {
    page.text("#title").await
}

/// The part of the address after the page's own.
pub async fn address(page: &Page) -> String {
    let hash = page.js("return location.hash", vec![]).await;
    hash.as_str().unwrap_or_default().to_owned()
}

/// The field of a form, by its stored name.
pub fn field(name: &str) -> String {
    let letters = name
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { '-' });
    format!("#field-{}", letters.collect::<String>())
}

/// Types into a field of a form, in place of what is there.
pub async fn fill(page: &Page, name: &str, text: &str) {
    page.fill(&field(name), text).await;
}

/// Waits until this stands in a field of a form.
pub async fn holds(page: &Page, name: &str, text: &str) {
    page.holds(&field(name), text).await;
}

/// Opens the sample workshop. Ends on today's screen.
pub async fn open_sample(page: &Page, at: &str) {
    page.open(at).await;
    press(page, "Open the sample workshop").await;
    page.wait_for(
        "the sample",
        "document.querySelector('#head .chip.note')",
        vec![],
    )
    .await;
}

/// Opens the app in a profile that has nothing yet, with a visit and a pile. Ends on the pile's sort.
pub async fn set_up(page: &Page, at: &str, yard: &str, pile: Pile) {
    page.open(at).await;
    start_visit(page, yard).await;
    new_pile(page, pile).await;
}

/// Starts a visit, from the start or the yard. Ends on the visit's screen.
pub async fn start_visit(page: &Page, yard: &str) {
    press_with(page, "Start a visit").await;
    fill(page, "Yard", yard).await;
    fill(page, "Tax, %", "20").await;
    fill(page, "Currency", "EUR").await;
    press(page, "Save").await;
    titled(page, yard).await;
}

/// Opens a pile, from the visit's screen. Ends on the pile's sort.
pub async fn new_pile(page: &Page, pile: Pile) {
    press(page, "New pile").await;
    fill(page, "Wood", pile.wood).await;
    let offered = "#body [aria-label='Woods in the table'] button";
    if pile.chosen.is_some() && page.shows(offered).await {
        page.tap(offered).await;
    }
    fill(page, "Thickness it is sold as", pile.thickness).await;
    fill(page, "Price", pile.price).await;
    fill(page, "Moisture, %", pile.moisture).await;
    fill(page, "Wood temperature", pile.warmth).await;
    press(page, "Save").await;
    turned_over(page, 0).await;
}

/// Waits until the pile on the screen has so many planks turned over.
pub async fn turned_over(page: &Page, planks: u32) {
    let word = if planks == 1 { "plank" } else { "planks" };
    page.reads("#body .count", &format!("{planks} {word} turned over"))
        .await;
}

/// Begins to measure a plank of the pile on the screen; its mark.
pub async fn begin_plank(page: &Page) -> String {
    press(page, "Measure it now").await;
    measuring(page).await
}

/// Waits for the screen of a plank that is measured; its mark.
pub async fn measuring(page: &Page) -> String {
    page.text("#active-field .name").await;
    title(page).await
}

/// Touches keys of the keypad. Words are keys by what they say (`left`, `1:`, `mm`), `next` and `back` go on and take
/// the last sign off; digits and the point are touched one by one.
pub async fn keys(page: &Page, keys: &str) {
    for word in keys.split(' ').filter(|word| !word.is_empty()) {
        let signs: Vec<String> = match word {
            "next" => vec!["Next".to_owned()],
            "back" => vec!["Delete the last sign".to_owned()],
            word if word.chars().all(|c| c.is_ascii_digit() || c == '.') => {
                word.chars().map(String::from).collect()
            }
            word => vec![word.to_owned()],
        };
        for sign in signs {
            page.tap_named("#keypad [data-press]", &sign).await;
        }
    }
}

/// Touches keys of the keypad by all that they say, as `not looked at`.
pub async fn keys_named(page: &Page, names: &[&str]) {
    for name in names {
        page.tap_named("#keypad [data-press]", name).await;
    }
}

/// Chooses the field of the drawing that is typed into, by its name.
pub async fn into_field(page: &Page, name: &str) {
    page.tap_with("#drawing .dimension", &format!("{name}: "))
        .await;
    page.reads("#active-field .name", name).await;
}

/// What is typed into a field of the plank on the screen, in its very characters; nothing where it is empty.
pub async fn typed(page: &Page, name: &str) -> String {
    into_field(page, name).await;
    let text = page
        .js(
            "return document.querySelector('#active-field .typed').textContent",
            vec![],
        )
        .await;
    match text.as_str().unwrap_or_default() {
        "–" => String::new(),
        text => text.to_owned(),
    }
}

/// From measuring to the verdict.
pub async fn to_verdict(page: &Page) {
    page.tap("#standing .standing").await;
    page.text("#body .verdict").await;
}

/// Holds the plank of the verdict on the screen; what was said once it was kept.
pub async fn hold(page: &Page) -> String {
    let mark = title(page).await;
    press(page, "Hold").await;
    decided(page, &mark, "held").await
}

/// Buys the plank of the verdict on the screen, whatever is still asked; what was said once it was kept.
pub async fn buy(page: &Page) -> String {
    let mark = title(page).await;
    page.tap_with("#foot [data-press]", "Buy").await;
    let asked = format!(
        "document.querySelector('.toast')?.innerText.includes('{mark} bought') ? 'bought'\
         : document.querySelector('#dialog')?.checkVisibility() ? 'asked' : null"
    );
    let asked = page.wait_for("an answer to Buy", &asked, vec![]).await;
    if asked == "asked" {
        page.tap_named("#dialog [data-press]", "Buy").await;
    }
    decided(page, &mark, "bought").await
}

/// Rejects the plank of the verdict on the screen; what was said once it was kept.
pub async fn reject(page: &Page, reason: &str) -> String {
    let mark = title(page).await;
    press(page, "Reject").await;
    page.tap_named("#body .chip", reason).await;
    page.tap_with("#foot [data-press]", "Reject").await;
    decided(page, &mark, "rejected").await
}

/// Waits until the app says what was decided on a plank, and another screen stands.
pub async fn decided(page: &Page, mark: &str, word: &str) -> String {
    let said = page.see(".toast", &format!("{mark} {word}.")).await;
    page.wait_for(
        "the next screen",
        "(t => t && t !== arguments[0])(document.querySelector('#title')?.innerText)",
        vec![mark.into()],
    )
    .await;
    said
}

/// A plank of two sizes, held, from the pile's sort and back to it; its mark.
pub async fn quick_plank(page: &Page, length: &str) -> String {
    let pile = address(page).await;
    let mark = begin_plank(page).await;
    keys(page, &format!("{length} next 205")).await;
    to_verdict(page).await;
    hold(page).await;
    page.go_to(&pile).await;
    page.text("#body .count").await;
    mark
}

/// Whether nothing is told to be unsaved on the screen.
pub async fn all_is_saved(page: &Page) -> bool {
    !page.text("#app").await.contains("Not saved")
}

/// What is half typed, as a database has it, to know what a kill has to leave.
pub async fn half_typed(page: &Page, database: &str) -> String {
    let script = "const open = indexedDB.open(arguments[0]);\
        open.onupgradeneeded = () => open.transaction.abort();\
        open.onerror = (event) => { event.preventDefault(); done('[]'); };\
        open.onsuccess = () => {\
            const all = open.result.transaction('drafts').objectStore('drafts').getAll();\
            all.onsuccess = () => { open.result.close(); done(JSON.stringify(all.result)); };\
        };";
    let texts = page.js_async(script, vec![json!(database)]).await;
    texts.as_str().unwrap_or_default().replace('\\', "")
}

/// Waits until something half typed or chosen is in a database.
pub async fn kept(page: &Page, database: &str, wanted: &str) {
    for _ in 0..400 {
        if half_typed(page, database).await.contains(wanted) {
            return;
        }
    }
    let found = half_typed(page, database).await;
    page.fail(&format!("{wanted} was never kept: {found}"))
        .await;
}

/// Waits until this text of a form's field is in the maker's own database.
pub async fn form_kept(page: &Page, name: &str, text: &str) {
    kept(page, OWN, &format!("\"{name}\":\"{text}\"")).await;
}

/// The marks of all planks of the record, as the list of planks has them: each once for each line.
pub async fn marks(page: &Page) -> Vec<String> {
    page.go_to("#/planks").await;
    titled(page, "All planks").await;
    page.texts("#body a.item .what strong").await
}

/// The same, none of them twice.
pub async fn marks_once(page: &Page) -> BTreeSet<String> {
    let marks = marks(page).await;
    let once: BTreeSet<String> = marks.iter().cloned().collect();
    assert_eq!(
        once.len(),
        marks.len(),
        "a plank stands there twice: {marks:?}"
    );
    once
}

/// Opens a file by the system's own dialog, which is stood in for by its field; what its card says of it.
pub async fn look_at(page: &Page, path: &Path) -> String {
    look_at_in(page, path, Language::English).await
}

/// The same in another language.
pub async fn look_at_in(page: &Page, path: &Path, language: Language) -> String {
    let words = &words_of(language).share;
    page.go_to("#/carry").await;
    titled(page, words.title).await;
    let script = "HTMLInputElement.prototype.click = function () {\
        document.querySelector('#chosen-file')?.remove();\
        this.id = 'chosen-file';\
        document.body.append(this);\
    };";
    page.js(script, vec![]).await;
    press(page, words.open_file).await;
    page.choose_file("#chosen-file", path).await;
    let name = path.file_name().and_then(|name| name.to_str());
    page.see("#body .incoming", name.unwrap_or_default()).await;
    page.js("document.querySelector('#chosen-file').remove()", vec![])
        .await;
    page.wait_for(
        "the file to be read",
        "document.querySelector('#body .incoming') && !document.querySelector('#body .incoming [role=status]')",
        vec![],
    )
    .await;
    page.text("#body .incoming").await
}

/// Brings a file in. Ends on the book's screen of files; what was said.
pub async fn bring_in(page: &Page, path: &Path) -> String {
    look_at(page, path).await;
    press(page, "Bring in").await;
    let name = path.file_name().and_then(|name| name.to_str());
    page.see("#brought-in", name.unwrap_or_default()).await
}

/// Saves the whole record to the downloads, from the screen of files.
pub async fn save_record(page: &Page) {
    titled(page, "Save and share").await;
    let of_the_whole = "#body section.card:has(h2) + section.card [data-press]";
    page.tap_named(of_the_whole, "Save the record to downloads")
        .await;
}

/// The browser refuses every write in this window, as from a full device, or takes them again.
pub async fn refuse_writes(page: &Page, refuse: bool) {
    let script = "const all = IDBDatabase.prototype;\
        window.transactionOfTheBrowser ??= all.transaction;\
        all.transaction = !arguments[0] ? window.transactionOfTheBrowser : function (stores, mode, how) {\
            if (mode === 'readwrite') throw new DOMException('no room', 'QuotaExceededError');\
            return window.transactionOfTheBrowser.call(this, stores, mode, how);\
        }";
    page.js(script, vec![Value::Bool(refuse)]).await;
}

impl Page {
    /// Sets the device's clock to noon of a day, now and after a reload.
    pub async fn clock(&self, day: &str) {
        let source = format!(
            "(() => {{ const Real = window.__Date ??= Date;\
             const ahead = Real.parse('{day}T12:00:00') - Real.now();\
             window.Date = class extends Real {{\
                 constructor(...of) {{ of.length ? super(...of) : super(Real.now() + ahead); }}\
                 static now() {{ return Real.now() + ahead; }}\
             }}; }})()"
        );
        self.js(&source, vec![]).await;
        let on_load = json!({ "source": source });
        self.cdp("Page.addScriptToEvaluateOnNewDocument", on_load)
            .await;
    }

    /// Brings axe-core into the page, which is gone when the page is loaded anew.
    pub async fn bring_axe(&self) {
        let there = self.js("return typeof axe === 'object'", vec![]).await;
        if there != Value::Bool(true) {
            let axe = fs::read_to_string(program("STILLWOOD_AXE")).expect("axe-core");
            self.js(&format!("{axe}\nwindow.axe = axe;"), vec![]).await;
        }
    }
}
