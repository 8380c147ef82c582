//! What a maker does in the app, step by step: the same steps for every test, by touch alone.

use super::page::Page;
use super::place::program;
use serde_json::{Value, json};
use std::fs;

/// An invented yard.
pub const HOPPLE: &str = "Hopple Lane Timber";

/// What is wanted from a plank, as it is typed.
#[derive(Debug, Clone, Copy)]
pub struct Spec {
    /// Length, width and thickness of the part, in mm.
    pub part: [&'static str; 3],
    /// Whether the part lies flat in the plank; else it is turned on edge.
    pub flat: bool,
}

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

impl Page {
    /// Opens a visit to a yard from the home screen. Ends on the visit's screen.
    pub async fn new_visit(&self, yard: &str) {
        self.press("New visit to a yard").await;
        self.fill("#in-yard", yard).await;
        self.fill("#in-currency", "EUR").await;
        self.fill("#in-tax---", "20").await;
        self.tap("#save-visit").await;
        self.see("header.top h1", yard).await;
        self.saved().await;
    }

    /// Sets the part that is wanted, from the visit's screen and back to it.
    pub async fn set_part(&self, spec: Spec) {
        self.press("Sizes and limits").await;
        let [length, width, thickness] = spec.part;
        self.fill("#in-length--mm", length).await;
        self.fill("#in-width--mm", width).await;
        self.fill("#in-thickness--mm", thickness).await;
        let laid = if spec.flat {
            "flat"
        } else {
            "ripped and turned on edge"
        };
        self.press(laid).await;
        self.tap("#save-spec").await;
        self.see("#still-needed", "blanks").await;
        self.saved().await;
    }

    /// Opens a pile from the visit's screen. Ends on the pile's screen.
    pub async fn new_pile(&self, pile: Pile) {
        self.press("New pile").await;
        self.fill("#in-wood", pile.wood).await;
        if let Some(chosen) = pile.chosen {
            self.see("#woods", chosen).await;
            self.tap("#woods button").await;
        }
        self.fill("#in-thickness-it-is-sold-as", pile.thickness)
            .await;
        self.fill("#in-price", pile.price).await;
        self.fill("#in-moisture---", pile.moisture).await;
        self.fill("#in-wood-temperature", pile.warmth).await;
        self.tap("#save-pile").await;
        self.see("#pile-counts", "looked at").await;
        self.saved().await;
    }

    /// Opens the app with the invented example.
    pub async fn open_example(&self, address: &str) {
        self.open(address).await;
        self.tap("#open-demo").await;
        self.see("#demo-note", "invented example").await;
    }

    /// Begins a plank from the pile's screen; its mark.
    pub async fn begin_plank(&self) -> String {
        self.tap("#measure-new").await;
        self.wait_for("the keys", "document.querySelector('.keypad')", vec![])
            .await;
        self.mark().await
    }

    /// The mark of the plank on the screen.
    pub async fn mark(&self) -> String {
        self.text("header.top h1").await
    }

    /// The screen's title.
    pub async fn title(&self) -> String {
        self.text("header.top h1").await
    }

    /// Waits until a criterion of the verdict on the screen says something; all that it says.
    pub async fn criterion(&self, name: &str, says: &str) -> String {
        let found = self
            .wait_for(
                &format!("“{says}” of the criterion “{name}”"),
                "[...document.querySelectorAll('.criteria li')].map(e => e.innerText.replace(/\\s+/g, ' ').trim())\
                 .find(t => t.toLowerCase().startsWith(arguments[0]) && t.includes(arguments[1]))",
                vec![name.into(), says.into()],
            )
            .await;
        found.as_str().unwrap_or_default().to_owned()
    }

    /// Touches keys of the keypad. Words stand for themselves (`next`, `left`, `1:`); digits and the
    /// decimal signs are touched one by one.
    pub async fn keys(&self, keys: &str) {
        for word in keys.split(' ').filter(|word| !word.is_empty()) {
            if word.chars().all(|c| c.is_ascii_digit() || ".,".contains(c)) {
                for digit in word.chars() {
                    let label = match digit {
                        '.' => "decimal point".to_owned(),
                        ',' => "decimal comma".to_owned(),
                        digit => digit.to_string(),
                    };
                    self.key(&label).await;
                }
            } else {
                let label = match word {
                    "next" => "next field",
                    "back" => "delete",
                    "hide" => "hide the keys",
                    word => word,
                };
                self.key(label).await;
            }
        }
    }

    async fn key(&self, label: &str) {
        let css = format!(".keypad .keys button[aria-label=\"{label}\"]");
        self.tap(&css).await;
    }

    /// Touches a field, then keys.
    pub async fn key_into(&self, field: &str, keys: &str) {
        self.tap(&format!("#f-{field}")).await;
        self.keys(keys).await;
    }

    /// One touch of a judgement by eye.
    pub async fn by_eye(&self, what: &str, step: &str) {
        let css = format!(".steps[aria-label=\"{what} by eye\"] button");
        self.tap_named(&css, step).await;
    }

    /// Takes the plank on the screen and waits until that is acknowledged; what was said.
    pub async fn take(&self) -> String {
        let mark = self.mark().await;
        self.tap("#take").await;
        self.acknowledged(&mark, "taken").await
    }

    /// Waits until the app says that a plank is saved, and the next one is there to measure.
    pub async fn acknowledged(&self, mark: &str, word: &str) -> String {
        let said = self.see(".toast", &format!("{mark} {word}")).await;
        self.saved().await;
        self.wait_for(
            "the next plank",
            "(t => t && t !== arguments[0])(document.querySelector('header.top h1')?.innerText)",
            vec![mark.into()],
        )
        .await;
        said
    }

    /// Waits until everything is kept.
    pub async fn saved(&self) {
        self.wait_for(
            "“saved”",
            "document.querySelector('#saving')?.innerText.trim() === 'saved'",
            vec![],
        )
        .await;
    }

    /// What is half typed, as the store has it, to know what a kill has to leave.
    pub async fn half_typed(&self) -> String {
        let script = "const open = indexedDB.open('stillwood');\
            open.onsuccess = () => {\
                const all = open.result.transaction('drafts').objectStore('drafts').getAll();\
                all.onsuccess = () => { open.result.close(); done(JSON.stringify(all.result)); };\
            };";
        let texts = self.js_async(script, vec![]).await;
        texts.as_str().unwrap_or_default().replace('\\', "")
    }

    /// Waits until something half typed or chosen is in the store.
    pub async fn kept(&self, wanted: &str) {
        for _ in 0..200 {
            if self.half_typed().await.contains(wanted) {
                return;
            }
        }
        let found = self.half_typed().await;
        self.fail(&format!("{wanted} was never kept: {found}"))
            .await;
    }

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

    /// What axe-core has against the screen that is open.
    pub async fn by_the_rules(&self) -> Vec<String> {
        let there = self.js("return typeof axe === 'object'", vec![]).await;
        if there != Value::Bool(true) {
            let axe = fs::read_to_string(program("STILLWOOD_AXE")).expect("axe-core");
            self.js(&format!("{axe}\nwindow.axe = axe;"), vec![]).await;
        }
        let script = "axe.run(document, { resultTypes: ['violations'] }).then(\
            found => done(found.violations.map(v => `${v.id} (${v.impact}): ${v.help}: ` +\
                v.nodes.slice(0, 4).map(n => n.target.join(' ') + ' ' + (n.any[0]?.message ?? '')).join('; '))),\
            error => done([String(error)]))";
        let found = self.js_async(script, vec![]).await;
        serde_json::from_value(found).expect("a list")
    }

    /// Goes to the home screen, wherever it is.
    pub async fn home(&self) {
        self.go_to("#/").await;
        self.see("header.top h1", "Stillwood").await;
    }

    /// Waits until a figure on the screen begins so: it stands beside the name that begins so. (Figures
    /// follow when the typing pauses.)
    pub async fn figure(&self, name: &str, begins: &str) -> String {
        let found = self
            .wait_for(
                &format!("the figure “{name}” of {begins}"),
                "[...document.querySelectorAll('dl.facts dt')].filter(e => e.innerText.startsWith(arguments[0]))\
                 .map(e => e.nextElementSibling.innerText.replace(/\\s+/g, ' ').trim())\
                 .find(t => t.startsWith(arguments[1]))",
                vec![name.into(), begins.into()],
            )
            .await;
        found.as_str().unwrap_or_default().to_owned()
    }

    /// Opens the app in a profile that has nothing yet, with a visit and a pile of maple.
    pub async fn set_up(&self, address: &str) {
        self.open(address).await;
        self.new_visit(HOPPLE).await;
        self.set_part(Spec::PART).await;
        self.new_pile(Pile::MAPLE).await;
    }

    /// Opens the form of something that was done with the piece that is open: what is likely next stands
    /// there, all else behind one touch.
    pub async fn open_deed(&self, name: &str) {
        self.wait_for(
            "what can be done",
            "document.querySelector('#doings')",
            vec![],
        )
        .await;
        let script = "return [...document.querySelectorAll('#doings button')]\
            .some(e => e.innerText.trim().startsWith(arguments[0]))";
        let stands = self.js(script, vec![json!(name)]).await;
        if stands != Value::Bool(true) {
            self.tap("#something-else").await;
        }
        self.tap_named("#doings button", name).await;
    }

    /// Opens all lots in the list of what is due.
    pub async fn open_lots(&self) {
        while self.shows(".lot > [aria-expanded='false']").await {
            self.tap(".lot > [aria-expanded='false']").await;
        }
    }

    /// A quick plank by touch, taken; its mark. The measure screen has to be there.
    pub async fn quick_plank(&self, length: &str) -> String {
        let mark = self.mark().await;
        self.keys(&format!("{length} next 205")).await;
        self.key_into("ThicknessNear", "52").await;
        self.take().await;
        mark
    }
}

impl Spec {
    /// A part of 950 x 80 mm, flat.
    pub const PART: Spec = Spec {
        part: ["950", "80", "45"],
        flat: true,
    };
}
