//! What version 0.1 left on a device, for the tests: its laid-out files, and a dump of its databases that
//! is put into a browser before the app is opened there.

use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use stillwood_tests::browser::{Folder, Page};

/// Where the fixtures of a version are kept for good.
fn fixture(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("fixtures/version-0.1")
        .join(name)
}

fn unpacked(name: &str) -> Vec<u8> {
    let path = fixture(name);
    let packed = fs::read(&path).unwrap_or_else(|why| panic!("{}: {why}", path.display()));
    let mut bytes = Vec::new();
    brotli::BrotliDecompress(&mut packed.as_slice(), &mut bytes).expect("a packed file");
    bytes
}

/// The build of that version, in a folder that a server can give and that can be changed.
pub(crate) fn dist() -> Folder {
    let folder = Folder::new("version-0.1");
    tar::Archive::new(unpacked("dist.tar.br").as_slice())
        .unpack(folder.path())
        .expect("the files of the version");
    folder
}

/// The dump of a device's databases and of its web storage.
pub(crate) struct Dump(Value);

/// A half-typed form as it is kept.
#[derive(Debug, Clone)]
pub(crate) struct Half {
    /// The address of its screen.
    pub(crate) at: String,
    /// What it is called on the first screen; empty where it is not listed.
    pub(crate) words: String,
    pub(crate) typed: Vec<String>,
}

impl Dump {
    pub(crate) fn read() -> Self {
        Self(serde_json::from_slice(&unpacked("dump.json.br")).expect("JSON"))
    }

    /// The rows of a store of the maker's own database.
    fn rows(&self, database: &str, store: &str) -> Vec<(Value, Value)> {
        let rows = &self.0["databases"][database]["stores"][store]["rows"];
        let rows = rows.as_array().expect("rows");
        rows.iter()
            .map(|row| (row[0].clone(), row[1].clone()))
            .collect()
    }

    pub(crate) fn ids(&self, database: &str) -> BTreeSet<String> {
        let mut ids = BTreeSet::new();
        for (_, page) in self.rows(database, "pages") {
            let text = page["bytes"].as_str().expect("a page of text").to_owned();
            for line in text.lines().filter(|line| !line.is_empty()) {
                let entry: Value = serde_json::from_str(line).expect("an entry");
                ids.insert(entry["id"].as_str().expect("an id").to_owned());
            }
        }
        ids
    }

    /// What all entries of a kind are about.
    pub(crate) fn about(&self, database: &str, event: &str) -> Vec<String> {
        let mut about = Vec::new();
        for (_, page) in self.rows(database, "pages") {
            for line in page["bytes"].as_str().unwrap_or_default().lines() {
                let entry: Value = serde_json::from_str(line).unwrap_or_default();
                if entry["happening"] == event
                    && let Some(id) = entry["about"].as_str()
                    && !about.iter().any(|known| known == id)
                {
                    about.push(id.to_owned());
                }
            }
        }
        about
    }

    /// A store of texts by their keys.
    pub(crate) fn texts(&self, database: &str, store: &str) -> Vec<(String, String)> {
        let text = |value: Value| value.as_str().unwrap_or_default().to_owned();
        let rows = self.rows(database, store).into_iter();
        rows.map(|(key, value)| (text(key), text(value))).collect()
    }

    pub(crate) fn setting(&self, key: &str) -> Value {
        let texts = self.texts("stillwood", "settings");
        let found = texts.iter().find(|(known, _)| known == key);
        serde_json::from_str(&found.expect("the setting").1).expect("JSON")
    }

    /// Every half-typed form.
    pub(crate) fn forms(&self) -> Vec<Half> {
        let texts = self.texts("stillwood", "drafts");
        let forms = texts.iter().filter_map(|(key, json)| {
            key.strip_prefix("form/")?;
            let form: Value = serde_json::from_str(json).expect("a form");
            let typed = form["texts"].as_object().expect("texts");
            let seen = typed.iter().filter(|(name, _)| *name != NOT_SHOWN);
            let by_hand = seen
                .filter_map(|(_, text)| text.as_str())
                .filter(|text| is_typed(text));
            Some(Half {
                at: form["at"].as_str().expect("an address").to_owned(),
                words: form["words"].as_str().expect("words").to_owned(),
                typed: by_hand.map(str::to_owned).collect(),
            })
        });
        forms.collect()
    }

    /// Every half-typed plank: its piece, and the texts in its fields.
    pub(crate) fn planks(&self) -> Vec<(String, Vec<String>)> {
        let texts = self.texts("stillwood", "drafts");
        let planks = texts.iter().filter(|(key, _)| !key.contains('/'));
        planks
            .map(|(key, json)| {
                let draft: Value = serde_json::from_str(json).expect("a draft");
                let typed = draft["typed"].as_object().expect("fields");
                let text = |value: &Value| value["text"].as_str().unwrap_or_default().to_owned();
                (key.clone(), typed.values().map(text).collect())
            })
            .collect()
    }

    /// Puts one more row into a store, as damage would leave it.
    pub(crate) fn plant(&mut self, store: &str, key: &str, value: &str) {
        let rows = &mut self.0["databases"]["stillwood"]["stores"][store]["rows"];
        let rows = rows.as_array_mut().expect("rows");
        rows.retain(|row| row[0] != key);
        rows.push(json!([key, value]));
    }

    /// Without the sample that was open.
    pub(crate) fn sample_closed(mut self) -> Self {
        self.0["localStorage"] = json!({});
        self
    }

    /// Puts it into the browser, before the app is opened at that address.
    pub(crate) async fn restore(&self, page: &Page, address: &str) {
        // A text: what is JSON, Firefox shows in a page of another origin.
        let beside = format!("{address}sw.js");
        page.web()
            .goto(&beside)
            .await
            .expect("a page beside the app");
        let script = include_str!("restore.js");
        let said = page.js_async(script, vec![self.0.clone()]).await;
        assert_eq!(said, "restored");
    }
}

/// A field of the cut that is kept while it can't be seen: it is of laminates, and pieces are chosen.
const NOT_SHOWN: &str = "thickness of a laminate";

/// What the maker of the fixture typed, and no form fills in by itself.
fn is_typed(text: &str) -> bool {
    let number = text.split_once('.').is_some_and(|(whole, end)| {
        let digits = |text: &str| text.chars().all(|sign| sign.is_ascii_digit());
        !whole.is_empty() && digits(whole) && end.len() == 3 && digits(end)
    });
    text.starts_with("half ") || number
}

/// What stands in a store of texts in the browser now.
pub(crate) async fn stored(page: &Page, database: &str, store: &str) -> Vec<(String, String)> {
    let script = "const open = indexedDB.open(arguments[0]);\
        open.onupgradeneeded = () => open.transaction.abort();\
        open.onerror = () => done([]);\
        open.onsuccess = () => {\
            const store = open.result.transaction(arguments[1]).objectStore(arguments[1]);\
            const [keys, values] = [store.getAllKeys(), store.getAll()];\
            const text = (of) => typeof of === 'string' ? of : new TextDecoder().decode(of);\
            values.onsuccess = () => {\
                open.result.close();\
                done(keys.result.map((key, i) => [String(key), text(values.result[i])]));\
            };\
        };";
    let rows = page
        .js_async(script, vec![json!(database), json!(store)])
        .await;
    serde_json::from_value(rows).expect("rows")
}

/// The ids of all entries in the browser now.
pub(crate) async fn stored_ids(page: &Page, database: &str) -> BTreeSet<String> {
    let mut ids = BTreeSet::new();
    for (_, page) in stored(page, database, "pages").await {
        for line in page.lines().filter(|line| !line.is_empty()) {
            let entry: Value = serde_json::from_str(line).expect("an entry");
            ids.insert(entry["id"].as_str().expect("an id").to_owned());
        }
    }
    ids
}
