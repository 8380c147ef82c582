//! Save and share, what is to be settled, settings and quick questions: open, press, type, read.

#[path = "../at_the_desk/mod.rs"]
mod at_the_desk;
mod handing_over;
mod long_file;
mod settling;

use at_the_desk::{DAY, SAMPLE, press, region, sample, says, says_not};
use serde_json::Value;
use stillwood_app::book::{self, Persistence, Storage, VersionFound};
use stillwood_app::desk::Desk;
use stillwood_app::effect::FileMade;
use stillwood_app::model::Saving;
use stillwood_app::record::Device;
use stillwood_app::settings::{Scheme, Settings};
use stillwood_app::{Action, Effect, Route};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::{HandingEnd, KeptElsewhere, Limits, State, read, sealed};

/// A device that holds the sample as its own record, by the name of the phone that was in both yards.
fn phone() -> Desk {
    ready(sample())
}

/// A device that holds nothing.
fn empty() -> Desk {
    ready(Desk::new(DAY))
}

fn laptop() -> Desk {
    let mut desk = empty();
    desk.model.record.becomes(Device {
        id: "M4-7T2KXQWE8B".into(),
        sign: "M4".into(),
    });
    desk.act(Action::Wide(true));
    desk.model.shell.can_share = false;
    desk
}

fn ready(mut desk: Desk) -> Desk {
    desk.model.shell.can_share = true;
    desk.model.shell.version = "0.11.0".into();
    desk.act(Action::Book(book::Action::Kept(KeptElsewhere::default())));
    desk
}

fn text(file: &FileMade) -> String {
    String::from_utf8(file.bytes().to_vec()).unwrap()
}

fn entries(file: &FileMade) -> usize {
    read(file.bytes(), &Limits::default())
        .unwrap()
        .accepted
        .len()
}

/// The lines of the sample that one device wrote, or that begin with its visits: a file of its own.
fn lines_of(keep: impl Fn(&Value) -> bool) -> Vec<u8> {
    let sample = std::str::from_utf8(SAMPLE).unwrap();
    let lines = sample.lines().map(|line| line.trim_end_matches(','));
    let kept = lines.filter(|line| line.starts_with("{\"about\""));
    let kept: Vec<&str> = kept
        .filter(|line| keep(&serde_json::from_str(line).unwrap()))
        .collect();
    file_of(&kept)
}

fn file_of<T: AsRef<str>>(lines: &[T]) -> Vec<u8> {
    let head = r#"{"header":{"format":"stillwood-notebook","reader":1,"version":1,"what":"whole"},"entries":["#;
    let lines: Vec<&str> = lines.iter().map(AsRef::as_ref).collect();
    format!("{head}\n{}\n]}}\n", lines.join(",\n")).into_bytes()
}

/// An entry of the sample, changed and sealed again.
fn changed(happening: &str, from: &str, to: &str) -> String {
    let sample = std::str::from_utf8(SAMPLE).unwrap();
    let mut lines = sample.lines().map(|line| line.trim_end_matches(','));
    let named = format!("\"happening\":\"{happening}\"");
    let line = lines
        .find(|line| line.contains(&named) && line.contains(from))
        .unwrap();
    sealed(&line.replacen(from, to, 1)).unwrap()
}
