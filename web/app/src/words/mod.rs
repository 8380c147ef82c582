//! Every sentence that is shown, a table a language: English stands here, German in `german/`. Where a language
//! lacks a sentence, it does not compile. What core says (errors, names, workings) is put into words by [`Spoken`],
//! numbers as a language writes them by [`show`].

use serde::{Deserialize, Serialize};
use std::fmt::Display;

/// A language.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Language {
    /// English.
    #[default]
    English,
    /// German.
    German,
}

impl Language {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Language; 2] = [Language::English, Language::German];

    /// What it is called in itself.
    pub fn own_name(self) -> &'static str {
        match self {
            Language::English => "English",
            Language::German => "Deutsch",
        }
    }

    /// Its tag, as a page's `lang` has it.
    pub fn tag(self) -> &'static str {
        match self {
            Language::English => "en",
            Language::German => "de",
        }
    }

    /// The first of a browser's languages (`de-AT`, `en`) that there is a table for; English where there is none.
    pub fn preferred<'a>(tags: impl IntoIterator<Item = &'a str>) -> Self {
        let primary = |tag: &str| tag.split(['-', '_']).next().map(str::to_ascii_lowercase);
        let known = |tag: &str| {
            Self::ALL
                .into_iter()
                .find(|one| primary(tag).as_deref() == Some(one.tag()))
        };
        tags.into_iter().find_map(known).unwrap_or_default()
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

/// Declares lines of a catalogue: a name or a sentence, and what is shown for it.
macro_rules! lines {
    ($($of:literal => $shown:literal;)*) => { &[$(($of, $shown)),*] };
}

/// Declares what fields are called: the stored name, the label, and the hint where there is one.
macro_rules! fields {
    ($($of:literal => $label:literal $(, $hint:literal)?;)*) => {
        &[$(($of, $label, concat!($($hint)?))),*]
    };
}

mod bill;
mod blanks;
mod book;
mod common;
pub mod dates;
mod english_core;
pub mod fields;
pub mod german;
pub mod happened;
pub mod line;
mod planks;
mod racks;
mod share;
pub mod show;
pub mod spoken;
mod today;
mod track;
pub mod wood_names;
mod woods;
pub mod workshop;
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
pub use spoken::{
    Spoken, called, in_table_file, speaking, spoken_language, spoken_name, spoken_whole,
};
pub use today::TodayWords;
pub use track::TrackWords;
pub use woods::WoodsWords;
pub use workshop::WorkshopWords;
pub use yard::YardWords;

/// Declares the tables of a language.
macro_rules! tables {
    ($($(#[$doc:meta])* $key:ident: $table:ident,)*) => {
        /// All words of a language.
        #[derive(Debug)]
        pub struct Words {
            $($(#[$doc])* pub $key: $table,)*
            fields: &'static [fields::FieldLine],
            commands: &'static [(&'static str, &'static str)],
            choices: &'static [(&'static str, &'static str)],
        }

        impl Words {
            /// Every sentence of every table, with the table and the key.
            pub fn all(&self) -> Vec<(&'static str, &'static str, &'static str)> {
                let mut all = Vec::new();
                $(all.extend(self.$key.all().into_iter().map(|(key, says)| (stringify!($key), key, says)));)*
                all
            }
        }

        static ENGLISH: Words = Words {
            $($key: $table::ENGLISH,)*
            fields: fields::ENGLISH,
            commands: fields::ENGLISH_COMMANDS,
            choices: fields::ENGLISH_CHOICES,
        };

        static GERMAN: Words = Words {
            $($key: $table::GERMAN,)*
            fields: german::fields::FIELDS,
            commands: german::fields::COMMANDS,
            choices: german::fields::CHOICES,
        };
    };
}

tables! {
    /// What more than one place says.
    common: CommonWords,
    /// Days and months.
    dates: DateWords,
    /// What happened.
    events: EventWords,
    /// What happened in the workshop.
    workshop: WorkshopWords,
    /// Today.
    today: TodayWords,
    /// The yard.
    yard: YardWords,
    /// Visits, piles and planks.
    planks: PlanksWords,
    /// Tally and bill.
    bill: BillWords,
    /// The racks.
    racks: RacksWords,
    /// The blanks.
    blanks: BlanksWords,
    /// The book.
    book: BookWords,
    /// Saving, sharing and settling.
    share: ShareWords,
    /// Track record and plan.
    track: TrackWords,
    /// Woods.
    woods: WoodsWords,
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

    /// Whether the language has a label of its own for a field.
    pub fn has_field(&self, key: &str) -> bool {
        self.fields.iter().any(|(of, ..)| *of == key)
    }

    /// Whether the language has a name of its own for a command.
    pub fn has_command(&self, key: &str) -> bool {
        self.commands.iter().any(|(of, _)| *of == key)
    }

    /// Whether the language has a name of its own for a choice.
    pub fn has_choice(&self, key: &str) -> bool {
        self.choices.iter().any(|(of, _)| *of == key)
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

/// The words of a language.
pub fn words_of(language: Language) -> &'static Words {
    match language {
        Language::English => &ENGLISH,
        Language::German => &GERMAN,
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
        // A sentence that ends with a shortened month or a sentence of its own ends once.
        rest = match after.strip_prefix('.') {
            Some(more) if filled.ends_with('.') && !more.starts_with('.') => more,
            _ => after,
        };
    }
    filled.push_str(rest);
    filled
}

/// The sentence for one or for another number of things, with `{n}` filled.
pub fn count(n: impl Display + Copy + Into<u64>, one: &str, other: &str) -> String {
    let sentence = if n.into() == 1 { one } else { other };
    fill(sentence, &[("n", &n)])
}
