//! What the app has said was saved, and what of it is missing in what is stored.

use serde::Deserialize;
use std::collections::{BTreeMap, BTreeSet};

/// What was found in the browser's database.
#[derive(Debug, Default, Deserialize)]
pub(super) struct Stored {
    pub(super) there: bool,
    /// Every entry.
    pub(super) ids: Vec<String>,
    /// Every mark that a plank was given.
    pub(super) marks: Vec<String>,
    /// How many were passed over in the pile of the siege.
    pub(super) passed: u64,
    /// Lines that are no entries.
    pub(super) damaged: u64,
    /// What is half typed, by its key.
    pub(super) drafts: Vec<(String, String)>,
}

/// A half-typed text: so much was in the store, and so much was typed.
#[derive(Debug, Clone)]
pub(super) struct Half {
    pub(super) sure: String,
    pub(super) whole: String,
}

#[derive(Debug, Default)]
pub(super) struct Model {
    ids: BTreeSet<String>,
    marks: BTreeSet<String>,
    passed: u64,
    /// Files that are being brought in: all of their entries or none.
    files: Vec<BTreeSet<String>>,
    half: BTreeMap<String, Half>,
    /// Acknowledged since the last look.
    fresh: u64,
}

impl Model {
    /// The app said that a plank of this mark is kept.
    pub(super) fn marked(&mut self, mark: String) {
        self.marks.insert(mark);
        self.fresh += 1;
    }

    /// The app said that so many more are passed over.
    pub(super) fn passed(&mut self, count: u64) {
        self.passed += count;
        self.fresh += count;
    }

    /// A file is being brought in.
    pub(super) fn file(&mut self, ids: BTreeSet<String>) {
        self.files.push(ids);
    }

    /// The app said that a file is in.
    pub(super) fn file_is_in(&mut self) {
        if let Some(ids) = self.files.pop() {
            self.fresh += ids.len() as u64;
            self.ids.extend(ids);
        }
    }

    /// Something is half typed, under a name of its own.
    pub(super) fn half_typed(&mut self, name: String, half: Half) {
        self.half.insert(name, half);
    }

    /// What is missing or there twice. What is there beyond what was acknowledged is held to from now on.
    /// Returns how many entries were acknowledged since the last look.
    pub(super) fn hold_against(&mut self, stored: &Stored) -> Result<u64, Vec<String>> {
        let mut lost = Vec::new();
        let ids: BTreeSet<String> = stored.ids.iter().cloned().collect();
        let gone = self.ids.difference(&ids).count();
        if gone > 0 {
            lost.push(format!("{gone} of {} known entries", self.ids.len()));
        }
        for mark in &self.marks {
            match stored.marks.iter().filter(|known| *known == mark).count() {
                0 => lost.push(format!("the plank {mark}")),
                1 => {}
                times => lost.push(format!("the mark {mark} was given {times} times")),
            }
        }
        if stored.passed < self.passed {
            let gone = self.passed - stored.passed;
            lost.push(format!("{gone} of {} passed over", self.passed));
        }
        for file in &self.files {
            let there = file.intersection(&ids).count();
            if there != 0 && there != file.len() {
                lost.push(format!("{there} of the {} entries of a file", file.len()));
            }
        }
        for half in self.half.values() {
            if !half.is_in(stored) {
                lost.push(format!("half typed: {} of {}", half.sure, half.whole));
            }
        }
        if stored.damaged > 0 {
            lost.push(format!("{} lines that are no entries", stored.damaged));
        }
        if !stored.there {
            lost.insert(0, "there is no database".to_owned());
        }
        if !lost.is_empty() {
            return Err(lost);
        }
        self.ids = ids;
        self.marks = stored.marks.iter().cloned().collect();
        self.passed = stored.passed;
        self.files.clear();
        Ok(std::mem::take(&mut self.fresh))
    }
}

impl Half {
    /// Whether some of it that is no shorter than what was sure is in the store.
    fn is_in(&self, stored: &Stored) -> bool {
        let texts = (self.sure.len()..=self.whole.len()).filter_map(|end| self.whole.get(..end));
        let quoted: Vec<String> = texts.map(|text| format!("\"{text}\"")).collect();
        let has = |(_, json): &(String, String)| quoted.iter().any(|text| json.contains(text));
        stored.drafts.iter().any(has)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stored(ids: &[&str], marks: &[&str], passed: u64) -> Stored {
        let own = |texts: &[&str]| texts.iter().map(|text| (*text).to_owned()).collect();
        Stored {
            there: true,
            ids: own(ids),
            marks: own(marks),
            passed,
            ..Stored::default()
        }
    }

    #[test]
    fn what_is_there_from_then_on_has_to_stay() {
        let mut model = Model::default();
        model.marked("K7-1-A".into());
        model.passed(2);
        let found = model.hold_against(&stored(&["a", "b", "c"], &["K7-1-A"], 2));
        assert_eq!(found, Ok(3));
        let found = model.hold_against(&stored(&["a", "c"], &["K7-1-A"], 2));
        assert_eq!(found, Err(vec!["1 of 3 known entries".to_owned()]));
        let found = model.hold_against(&stored(&["a", "b", "c"], &[], 1));
        let told = ["the plank K7-1-A", "1 of 2 passed over"].map(str::to_owned);
        assert_eq!(found, Err(told.into()));
        let twice = stored(&["a", "b", "c"], &["K7-1-A", "K7-1-A"], 2);
        assert!(model.hold_against(&twice).is_err());
    }

    #[test]
    fn a_file_is_in_as_a_whole_or_not_at_all() {
        let file = |model: &mut Model| model.file(["a", "b"].map(str::to_owned).into());
        let mut model = Model::default();
        file(&mut model);
        assert!(model.hold_against(&stored(&["a"], &[], 0)).is_err());
        assert_eq!(model.hold_against(&stored(&[], &[], 0)), Ok(0));
        file(&mut model);
        model.file_is_in();
        assert!(model.hold_against(&stored(&[], &[], 0)).is_err());
        assert_eq!(model.hold_against(&stored(&["a", "b"], &[], 0)), Ok(2));
    }

    #[test]
    fn half_typed_text_may_lack_the_last_keys_but_not_what_was_kept() {
        let mut model = Model::default();
        let (sure, whole) = ("900".to_owned(), "90012".to_owned());
        model.half_typed("plank".into(), Half { sure, whole });
        for (text, well) in [
            ("90", false),
            ("900", true),
            ("90012", true),
            ("900125", false),
        ] {
            let mut stored = stored(&[], &[], 0);
            stored.drafts = vec![("x".into(), format!("{{\"text\":\"{text}\"}}"))];
            assert_eq!(model.hold_against(&stored).is_ok(), well, "{text}");
        }
    }
}
