//! The ladder: each room of the core uses the rooms below it, none above; and no files of core, app or shell use
//! each other in a circle.
//!
//! What a file uses is read from its paths, imports and all, followed through re-exports to the file that
//! declares what is meant. Tests are left out: they may stand anywhere.

mod circle;
mod module;
mod read;

use std::collections::BTreeSet;
use std::path::Path;

use anyhow::{Result, bail};

use crate::place;
use module::Modules;

/// The rooms of the core, the lowest first.
const ROOMS: [&str; 8] = [
    "quantity", "wood", "plank", "trade", "neck", "verdict", "season", "record",
];

/// The rooms of the record, the lowest first.
const RECORD: [&str; 4] = ["log", "state", "queries", "commands"];

/// The rooms of the app, the lowest first.
const APP: [&str; 2] = ["words", "drawings"];

/// Files of the app that put the types of the places together and call nothing of theirs: a model holds what each
/// place holds, an action is an action of one of them. So the types that they name make no circle.
const SUMS: [&str; 8] = [
    "action.rs",
    "effect.rs",
    "model.rs",
    "today/mod.rs",
    "yard/mod.rs",
    "racks/mod.rs",
    "blanks/mod.rs",
    "book/mod.rs",
];

/// The ladder of a folder, by what its files' names begin with: the rooms, the lowest first.
type Ladder = (&'static str, &'static [&'static str]);

/// Each crate: its folder, its ladders, and the files that put types together.
type Crate = (&'static str, &'static [Ladder], &'static [&'static str]);

const CRATES: [Crate; 3] = [
    ("core/src", &[("", &ROOMS), ("record/", &RECORD)], &[]),
    ("web/app/src", &[("", &APP)], &SUMS),
    ("web/src", &[], &[]),
];

/// One file uses what another declares.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Use {
    from: String,
    to: String,
    name: String,
}

/// `cargo xtask ladder`
pub(crate) fn command(mut words: lexopt::Parser) -> Result<()> {
    let mut folder = place::root();
    while let Some(word) = words.next()? {
        match word {
            lexopt::Arg::Long("of") => folder = words.value()?.into(),
            other => return Err(other.unexpected().into()),
        }
    }
    check(&folder)
}

/// Fails on a use that runs up the ladder or in a circle.
pub(crate) fn check(root: &Path) -> Result<()> {
    let mut count = 0;
    for (folder, ladders, sums) in CRATES {
        for problem in problems_of(&Modules::read(&root.join(folder))?, ladders, sums) {
            println!("{folder}: {problem}");
            count += usize::from(!problem.starts_with(' '));
        }
    }
    match count {
        0 => Ok(()),
        count => bail!("{count} uses run up the ladder or in a circle"),
    }
}

/// What runs up or round in one crate.
fn problems_of(modules: &Modules, ladders: &[Ladder], sums: &[&str]) -> Vec<String> {
    let uses = modules.uses();
    let named_by_a_sum = |one: &Use| {
        let is_sum = |file: &str| sums.contains(&file);
        let is_type = one.name.starts_with(char::is_uppercase);
        is_sum(&one.from) && (is_type || is_sum(&one.to))
    };
    let uses: BTreeSet<Use> = uses
        .into_iter()
        .filter(|one| !named_by_a_sum(one))
        .collect();
    let mut problems = Vec::new();
    for (before, rooms) in ladders {
        problems.extend(uses.iter().filter_map(|one| upward(one, before, rooms)));
    }
    let edges: BTreeSet<(&str, &str)> = uses
        .iter()
        .map(|one| (one.from.as_str(), one.to.as_str()))
        .collect();
    for files in circle::circles(&edges) {
        let inside: BTreeSet<&str> = files.iter().copied().collect();
        problems.push(format!("a circle of files: {}", files.join(", ")));
        let within = uses
            .iter()
            .filter(|one| inside.contains(one.from.as_str()) && inside.contains(one.to.as_str()));
        problems
            .extend(within.map(|one| format!("    {} uses {} of {}", one.from, one.name, one.to)));
    }
    problems
}

/// A use of a room that stands higher.
fn upward(one: &Use, before: &str, rooms: &[&str]) -> Option<String> {
    let place = |file: &str| {
        let room = file.strip_prefix(before)?.split(['/', '.']).next()?;
        rooms.iter().position(|name| *name == room)
    };
    let (from, to) = (place(&one.from)?, place(&one.to)?);
    (to > from).then(|| {
        format!(
            "{} uses {} of {}, which stands higher",
            one.from, one.name, one.to
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn crate_of(files: &[(&str, &str)]) -> Modules {
        Modules::of(files.iter().map(|(name, text)| (*name, *text))).unwrap()
    }

    fn problems(files: &[(&str, &str)]) -> Vec<String> {
        problems_of(&crate_of(files), &[("", &["low", "high"])], &[])
    }

    const ROOT: (&str, &str) = ("lib.rs", "pub mod low; pub mod high;");

    #[test]
    fn down_the_ladder_is_fine_and_up_is_not() {
        let low = ("low.rs", "pub struct Board;");
        let high = ("high.rs", "use crate::low::Board; pub struct Price(Board);");
        assert!(problems(&[ROOT, low, high]).is_empty());
        let low = ("low.rs", "pub fn f() -> crate::high::Price { todo!() }");
        let found = problems(&[ROOT, low, ("high.rs", "pub struct Price;")]);
        assert_eq!(found, ["low.rs uses Price of high.rs, which stands higher"]);
    }

    #[test]
    fn a_circle_is_followed_through_re_exports() {
        let front = ("low/mod.rs", "mod a; mod b; pub use a::A; pub use b::*;");
        let a = ("low/a.rs", "use super::B; pub struct A(B);");
        let high = ("high.rs", "pub struct Price;");
        let b = ("low/b.rs", "pub struct B;");
        assert!(problems(&[ROOT, front, a, b, high]).is_empty());
        let b = (
            "low/b.rs",
            "pub struct B; impl B { fn f() -> Option<super::A> { None } }",
        );
        let found = problems(&[ROOT, front, a, b, high]);
        assert_eq!(found[0], "a circle of files: low/a.rs, low/b.rs");
        assert_eq!(found.len(), 3);
    }

    #[test]
    fn tests_may_stand_anywhere() {
        let low = (
            "low.rs",
            "#[cfg(test)] mod tests { use crate::high::Price; }",
        );
        assert!(problems(&[ROOT, low, ("high.rs", "pub struct Price;")]).is_empty());
    }

    #[test]
    fn a_file_that_declares_what_its_own_parts_use_is_a_circle() {
        let front = (
            "low/mod.rs",
            "mod a; pub struct Board; pub use a::A; pub fn f(_: A) {}",
        );
        let a = ("low/a.rs", "use super::Board; pub struct A(Board);");
        let found = problems(&[ROOT, front, a, ("high.rs", "pub struct Price;")]);
        assert_eq!(found[0], "a circle of files: low/a.rs, low/mod.rs");
    }

    #[test]
    fn a_sum_may_name_the_types_of_its_parts_and_call_nothing_of_theirs() {
        let root = ("lib.rs", "pub mod model; pub mod yard;");
        let yard = (
            "yard.rs",
            "use crate::model::Model; pub struct Local; pub fn view(_: &Model) {}",
        );
        let with = |model| {
            let modules = crate_of(&[root, yard, ("model.rs", model)]);
            problems_of(&modules, &[], &["model.rs"])
        };
        let names = "use crate::yard::Local; pub struct Model { yard: Local }";
        assert!(with(names).is_empty());
        let calls =
            "use crate::yard::view; pub struct Model; impl Model { fn f(&self) { view(self) } }";
        assert_eq!(with(calls)[0], "a circle of files: model.rs, yard.rs");
    }

    #[test]
    fn a_variable_that_is_called_as_a_module_is_no_use_of_it() {
        let low = (
            "low/mod.rs",
            "mod piece; pub struct Low; pub fn f(piece: u8) -> u8 { piece }",
        );
        let piece = ("low/piece.rs", "use super::Low; pub struct Piece(Low);");
        assert!(problems(&[ROOT, low, piece, ("high.rs", "")]).is_empty());
    }
}
