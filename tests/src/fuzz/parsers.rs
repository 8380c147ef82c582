//! What is asked of every parser: it never panics, what it refuses has a reason, and what it accepts is
//! the same when it is written and read again.

use super::inputs::Corpus;
use crate::dice::Dice;
use std::fmt::Display;
use stillwood_core::plank::{Field, Seen, Understood, retyped, understand};
use stillwood_core::quantity::read::{self, UnderstoodNumber, Units, Unreadable};
use stillwood_core::quantity::show;
use stillwood_core::record::{
    Draft, Entry, FileProblem, FileReading, Limits, Mark, Problem, date, read as read_file, to_csv,
    write,
};
use stillwood_core::wood::search;

/// How an input ended that was treated as it should be.
pub(super) enum Tried {
    Accepted,
    Refused,
}

type Checked = Result<Tried, String>;

pub(super) struct Parser {
    pub(super) name: &'static str,
    /// How many inputs in a round.
    pub(super) often: u64,
    pub(super) input: fn(&Corpus, &mut Dice) -> Vec<u8>,
    pub(super) check: fn(&[u8], Dice) -> Checked,
}

macro_rules! parsers {
    ($($name:literal, $often:literal, $input:ident, $check:ident;)*) => {
        pub(super) const PARSERS: &[Parser] = &[$(Parser {
            name: $name, often: $often, input: Corpus::$input, check: $check,
        }),*];
    };
}

parsers! {
    "length", 10, typed, length;
    "gap", 10, typed, gap;
    "twist", 10, typed, twist;
    "mass", 10, typed, mass;
    "moisture", 5, typed, moisture;
    "temperature", 10, typed, temperature;
    "angle", 5, typed, angle;
    "slope", 10, typed, slope;
    "field", 10, typed, field;
    "mark", 5, typed, mark;
    "date", 2, typed, a_date;
    "wood", 1, typed, wood;
    "cells", 5, typed, cells;
    "entry", 4, entry, entry;
    "draft", 2, draft, draft;
    "file", 1, file, file;
    "file, one entry damaged", 1, one_line_damaged, one_line_damaged;
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

fn refused(why: &impl Display) -> Checked {
    if why.to_string().trim().is_empty() {
        Err("refused without a reason".into())
    } else {
        Ok(Tried::Refused)
    }
}

fn same<T: PartialEq + std::fmt::Debug>(what: &str, again: T, first: T) -> Result<(), String> {
    if again == first {
        Ok(())
    } else {
        Err(format!("{what}: {again:?} in place of {first:?}"))
    }
}

fn either(dice: &mut Dice) -> Units {
    *dice.pick(&[Units::Metric, Units::Inch])
}

/// Beyond this, what is shown has more digits than are read.
const SHOWN_UP_TO: f64 = 1e7;

/// What is shown reads as the same value, to half the step that is shown; the step of either system.
fn shown_again(
    bytes: &[u8],
    dice: &mut Dice,
    read: impl Fn(&str, Units) -> Result<UnderstoodNumber, Unreadable>,
    show: impl Fn(f64, Units) -> String,
    steps: [f64; 2],
) -> Checked {
    let value = match read(&text(bytes), either(dice)) {
        Ok(understood) => understood.value,
        Err(why) => return refused(&why),
    };
    if !value.is_finite() {
        return Err(format!("it reads as {value}"));
    }
    let units = either(dice);
    if value.abs() > SHOWN_UP_TO {
        return Ok(Tried::Accepted);
    }
    let step = match units {
        Units::Metric => steps[0],
        Units::Inch => steps[1],
    };
    let shown = show(value, units);
    // Read under either units: what is shown has its unit with it.
    match read(&shown, either(dice)) {
        Ok(again) if (again.value - value).abs() <= step * 0.501 + value.abs() * 1e-12 => {
            Ok(Tried::Accepted)
        }
        Ok(again) => Err(format!(
            "{value} is shown as {shown} and reads {}",
            again.value
        )),
        Err(why) => Err(format!("{value} is shown as {shown}: {why}")),
    }
}

const INCH: f64 = 25.4;
const POUND: f64 = 0.453_592_37;

fn length(bytes: &[u8], mut dice: Dice) -> Checked {
    let steps = [0.1, INCH / 64.0];
    shown_again(bytes, &mut dice, read::length, show::length, steps)
}

fn gap(bytes: &[u8], mut dice: Dice) -> Checked {
    let steps = [0.01, INCH / 1000.0];
    shown_again(bytes, &mut dice, read::gap, show::gap, steps)
}

fn twist(bytes: &[u8], mut dice: Dice) -> Checked {
    let show = |value, units| stillwood_core::plank::shown(Field::Twist, value, units);
    shown_again(bytes, &mut dice, read::sided, show, [0.1, INCH / 64.0])
}

fn mass(bytes: &[u8], mut dice: Dice) -> Checked {
    let steps = [0.01, POUND / 100.0];
    shown_again(bytes, &mut dice, read::mass, show::mass, steps)
}

fn moisture(bytes: &[u8], mut dice: Dice) -> Checked {
    let read = |text: &str, _| read::moisture(text);
    let show = |value, _| show::moisture(value);
    shown_again(bytes, &mut dice, read, show, [0.1; 2])
}

fn temperature(bytes: &[u8], mut dice: Dice) -> Checked {
    let steps = [0.1, 0.5 / 9.0];
    shown_again(
        bytes,
        &mut dice,
        read::temperature,
        show::temperature,
        steps,
    )
}

fn angle(bytes: &[u8], mut dice: Dice) -> Checked {
    let read = |text: &str, _| read::angle(text);
    let show = |value, _| show::angle(value);
    shown_again(bytes, &mut dice, read, show, [1.0; 2])
}

/// The run of a slope is what is shown; a slope that is called straight, or is steeper than any grain,
/// has none.
fn slope(bytes: &[u8], mut dice: Dice) -> Checked {
    let tangent = match read::slope(&text(bytes), either(&mut dice)) {
        Ok(understood) => understood.value,
        Err(why) => return refused(&why),
    };
    if !tangent.is_finite() {
        return Err(format!("it reads as {tangent}"));
    }
    if !(0.002..1.0).contains(&tangent) {
        return Ok(Tried::Accepted);
    }
    let shown = show::slope(tangent);
    match read::slope(&shown, either(&mut dice)) {
        Ok(again) if (1.0 / again.value - 1.0 / tangent).abs() <= 0.0501 => Ok(Tried::Accepted),
        Ok(again) => Err(format!(
            "{tangent} is shown as {shown} and reads {}",
            again.value
        )),
        Err(why) => Err(format!("{tangent} is shown as {shown}: {why}")),
    }
}

/// A field of a plank: what was taken reads the same under the other units.
fn field(bytes: &[u8], mut dice: Dice) -> Checked {
    let field = *dice.pick(Field::ALL);
    let seen = *dice.pick(&[Seen::Measured, Seen::ByEye]);
    let confirmed = dice.once_in(2);
    match understand(field, &text(bytes), seen, confirmed, either(&mut dice)) {
        Understood::Empty if !text(bytes).trim().is_empty() => {
            Err("what is typed is taken for nothing".into())
        }
        Understood::Empty => Ok(Tried::Refused),
        Understood::Unreadable(why) => refused(&why),
        Understood::Read { taken, warning, .. } => {
            if let Some(warning) = warning.filter(|warning| warning.question.is_empty()) {
                return Err(format!("a doubt without a question: {warning:?}"));
            }
            let again = retyped(field, &taken);
            match understand(field, &again, seen, confirmed, either(&mut dice)).taken() {
                Some(second) if second.value == taken.value => Ok(Tried::Accepted),
                second => Err(format!("{field:?}: {taken:?}, retyped {again}: {second:?}")),
            }
        }
    }
}

fn mark(bytes: &[u8], _: Dice) -> Checked {
    match Mark::parse(&text(bytes)) {
        Err(why) => refused(&why),
        Ok(mark) => {
            same("mark", Mark::parse(&mark.to_string()), Ok(mark))?;
            Ok(Tried::Accepted)
        }
    }
}

fn a_date(bytes: &[u8], _: Dice) -> Checked {
    let Some(day) = date(&text(bytes)) else {
        return Ok(Tried::Refused);
    };
    same("day", date(&day.to_string()), Some(day))?;
    Ok(Tried::Accepted)
}

/// Each wood is offered once, by a name that leads to it again, letter by letter.
fn wood(bytes: &[u8], _: Dice) -> Checked {
    let found = search(&text(bytes));
    let mut ids: Vec<&str> = found.iter().map(|one| one.species.id()).collect();
    ids.sort_unstable();
    ids.dedup();
    same("woods", ids.len(), found.len())?;
    for one in &found {
        let again = search(one.name);
        if !again
            .iter()
            .any(|again| again.exact && again.species == one.species)
        {
            return Err(format!(
                "{} is not found by its name {}",
                one.species.id(),
                one.name
            ));
        }
    }
    Ok(match found.is_empty() {
        true => Tried::Refused,
        false => Tried::Accepted,
    })
}

/// Cells come out of a table as they went in, or with apostrophes before what may be a formula.
fn cells(bytes: &[u8], _: Dice) -> Checked {
    let row: Vec<String> = bytes.split(|b| *b == b' ').map(text).collect();
    // A line of headings stands first: at its front a mark of the byte order would be no cell's own.
    let table = to_csv([&vec!["cell".to_owned()], &row]);
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .from_reader(table.as_bytes());
    let read: Vec<csv::StringRecord> = reader
        .records()
        .collect::<Result<_, _>>()
        .map_err(|why| why.to_string())?;
    let [_, read] = read.as_slice() else {
        return Err(format!("{} rows", read.len()));
    };
    same("cells", read.len(), row.len())?;
    for (cell, wrote) in read.iter().zip(&row) {
        let bare = |text: &str| text.replace('\'', "");
        same("cell", bare(cell), bare(wrote))?;
    }
    Ok(Tried::Accepted)
}

fn entry(bytes: &[u8], _: Dice) -> Checked {
    let limits = Limits::default();
    // A page that is damaged may say anything.
    if let Err(why) = Entry::from_kept(&text(bytes), &limits) {
        refused(&why)?;
    }
    match Entry::from_json(&text(bytes), &limits) {
        Err(why) => refused(&why),
        Ok(entry) => {
            let line = entry.to_line();
            let again = Entry::from_json(&line, &limits).map_err(|why| format!("{line}: {why}"))?;
            same("line", again.to_line(), line.clone())?;
            same("entry", &again, &entry)?;
            let kept = Entry::from_kept(&line, &limits).map_err(|why| format!("{line}: {why}"))?;
            same("entry as kept", kept, entry)?;
            Ok(Tried::Accepted)
        }
    }
}

fn draft(bytes: &[u8], _: Dice) -> Checked {
    match Draft::from_json(&text(bytes)) {
        Err(why) => refused(&why),
        Ok(draft) => {
            let json = draft.to_json().map_err(|why| why.to_string())?;
            let again = Draft::from_json(&json).map_err(|why| format!("{json}: {why}"))?;
            same("draft", again, draft)?;
            Ok(Tried::Accepted)
        }
    }
}

/// Whatever the damage, what was accepted is read again as it is, without a problem.
fn file(bytes: &[u8], _: Dice) -> Checked {
    let reading = match read_file(bytes, &Limits::default()) {
        Err(why) => return refused(&why),
        Ok(reading) => reading,
    };
    for problem in &reading.problems {
        refused(problem)?;
    }
    let written = write(&reading.header, &reading.accepted);
    let again = read_file(written.as_bytes(), &Limits::default())
        .map_err(|why| format!("what was accepted can't be read again: {why}"))?;
    // Two that differ under one id are both kept, and told again.
    let altered = |problem: &&Problem| matches!(problem.what, FileProblem::Altered(_));
    let new = again.problems.iter().find(|problem| !altered(problem));
    same("problem", new, None)?;
    let told = reading.problems.iter().filter(altered).count();
    same("altered", again.problems.len(), told)?;
    same("entries", lines(&again), lines(&reading))?;
    same("file", write(&again.header, &again.accepted), written)?;
    Ok(Tried::Accepted)
}

/// The entries of a reading, each once.
fn lines(reading: &FileReading) -> Vec<String> {
    let mut lines: Vec<String> = reading.accepted.iter().map(Entry::to_line).collect();
    lines.sort_unstable();
    lines.dedup();
    lines
}

/// Damage to one entry of a file costs that entry at most, and is told.
fn one_line_damaged(bytes: &[u8], dice: Dice) -> Checked {
    let corpus_lines = include_str!("../../samples/notebook-v1.json").lines();
    let good: Vec<&str> = corpus_lines.collect();
    let reading = read_file(bytes, &Limits::default()).map_err(|why| why.to_string())?;
    let accepted = lines(&reading);
    let entries = good[1..good.len() - 1].iter();
    let lost = entries.filter(|line| {
        let line = line.trim_end_matches(',');
        !accepted.iter().any(|found| found == line)
    });
    match (lost.count(), reading.problems.len()) {
        (0, _) => {}
        (1, 1..) => {}
        // Read as another entry than it was.
        (1, 0) if reading.accepted.len() == good.len() - 2 => {}
        (lost, told) => return Err(format!("{lost} entries lost, {told} problems told")),
    }
    file(bytes, dice)
}
