//! Every sentence that is shown, a table a language. A second language is a second table: where it lacks a
//! sentence, it does not compile.

use serde::{Deserialize, Serialize};
use std::fmt::Display;

/// A language.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Language {
    /// English.
    #[default]
    English,
}

impl Language {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Language; 1] = [Language::English];

    /// What it is called in itself.
    pub fn own_name(self) -> &'static str {
        match self {
            Language::English => "English",
        }
    }
}

/// Declares a table of sentences and its English column.
macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $($key:ident: $english:literal,)* }) => {
        $(#[$doc])*
        #[allow(missing_docs)]
        #[derive(Debug)]
        pub struct $name {
            $(pub $key: &'static str,)*
        }

        impl $name {
            /// The English column.
            pub const ENGLISH: $name = $name { $($key: $english,)* };

            /// Each sentence by its key.
            pub fn all(&self) -> Vec<(&'static str, &'static str)> {
                vec![$((stringify!($key), self.$key)),*]
            }
        }
    };
}

mod bill;
mod blanks;
mod book;
mod common;
pub mod dates;
pub mod fields;
pub mod happened;
mod planks;
mod racks;
mod share;
mod today;
mod track;
mod woods;
mod yard;

pub use bill::BillWords;
pub use blanks::BlanksWords;
pub use book::BookWords;
pub use common::CommonWords;
pub use dates::DateWords;
pub use happened::EventWords;
pub use planks::PlanksWords;
pub use racks::RacksWords;
pub use share::ShareWords;
pub use today::TodayWords;
pub use track::TrackWords;
pub use woods::WoodsWords;
pub use yard::YardWords;

/// All words of a language.
#[derive(Debug)]
pub struct Words {
    /// What more than one place says.
    pub common: CommonWords,
    /// Days and months.
    pub dates: DateWords,
    /// What happened.
    pub events: EventWords,
    /// Today.
    pub today: TodayWords,
    /// The yard.
    pub yard: YardWords,
    /// Visits, piles and planks.
    pub planks: PlanksWords,
    /// Tally and bill.
    pub bill: BillWords,
    /// The racks.
    pub racks: RacksWords,
    /// The blanks.
    pub blanks: BlanksWords,
    /// The book.
    pub book: BookWords,
    /// Saving, sharing and settling.
    pub share: ShareWords,
    /// Track record and plan.
    pub track: TrackWords,
    /// Woods.
    pub woods: WoodsWords,
    fields: &'static [fields::FieldLine],
    commands: &'static [(&'static str, &'static str)],
    choices: &'static [(&'static str, &'static str)],
}

impl Words {
    /// A field's label and hint, by its stored name.
    pub fn field(&self, key: &'static str) -> fields::FieldLabel {
        let found = self.fields.iter().find(|(of, ..)| *of == key);
        let (label, hint) = found.map_or((key, ""), |(_, label, hint)| (*label, *hint));
        fields::FieldLabel { label, hint }
    }

    /// What something done with a piece is called, by its stored name.
    pub fn command(&self, key: &'static str) -> &'static str {
        named(self.commands, key)
    }

    /// What a choice is called, by its stored name.
    pub fn choice(&self, key: &'static str) -> &'static str {
        named(self.choices, key)
    }
}

fn named(list: &[(&'static str, &'static str)], key: &'static str) -> &'static str {
    let found = list.iter().find(|(of, _)| *of == key);
    found.map_or(key, |(_, name)| name)
}

static ENGLISH: Words = Words {
    common: CommonWords::ENGLISH,
    dates: DateWords::ENGLISH,
    events: EventWords::ENGLISH,
    today: TodayWords::ENGLISH,
    yard: YardWords::ENGLISH,
    planks: PlanksWords::ENGLISH,
    bill: BillWords::ENGLISH,
    racks: RacksWords::ENGLISH,
    blanks: BlanksWords::ENGLISH,
    book: BookWords::ENGLISH,
    share: ShareWords::ENGLISH,
    track: TrackWords::ENGLISH,
    woods: WoodsWords::ENGLISH,
    fields: fields::ENGLISH,
    commands: fields::ENGLISH_COMMANDS,
    choices: fields::ENGLISH_CHOICES,
};

/// The words of a language.
pub fn words_of(language: Language) -> &'static Words {
    match language {
        Language::English => &ENGLISH,
    }
}

/// A sentence with its blanks filled: `{name}` stands for the value of that name.
///
/// ```
/// use stillwood_app::words::fill;
/// assert_eq!(fill("{n} of {all}", &[("n", &3), ("all", &6)]), "3 of 6");
/// ```
pub fn fill(sentence: &str, values: &[(&str, &dyn Display)]) -> String {
    let mut filled = String::with_capacity(sentence.len() + 16);
    let mut rest = sentence;
    while let Some((before, after)) = rest.split_once('{') {
        filled.push_str(before);
        let Some((name, after)) = after.split_once('}') else {
            filled.push('{');
            rest = after;
            continue;
        };
        if let Some((_, value)) = values.iter().find(|(known, _)| *known == name) {
            filled.push_str(&value.to_string());
        }
        rest = after;
    }
    filled.push_str(rest);
    filled
}

/// The sentence for one or for another number of things, with `{n}` filled.
pub fn count(n: impl Display + Copy + Into<u64>, one: &str, other: &str) -> String {
    let sentence = if n.into() == 1 { one } else { other };
    fill(sentence, &[("n", &n)])
}
