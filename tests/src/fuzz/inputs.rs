//! What the parsers are fed with: good inputs, good inputs damaged, and noise.

use crate::dice::Dice;
use std::fs;
use std::path::Path;

/// Good inputs to start from.
pub(crate) struct Corpus {
    /// Whole files: good ones, and those damaged by hand.
    files: Vec<Vec<u8>>,
    /// A good file, line by line.
    pub(crate) good: Vec<String>,
    drafts: Vec<Vec<u8>>,
}

/// What hands type, in every form that is read.
const TYPED: [&str; 44] = [
    "2.4 m",
    "2400",
    "94 1/2\"",
    "7'10 1/2\"",
    "7 ft 10 in",
    "8/4",
    "52mm",
    "52,5",
    "13.2 kg",
    "29 lb 2 oz",
    "4500 g",
    "10,5 %",
    "10.5",
    "-3 C",
    "46 °F",
    "12/300",
    "12 in 300",
    "1:25",
    "2.3°",
    "4 %",
    "64 deg",
    "12 left",
    "12 L",
    "+12 R",
    "-9",
    "−9 mm",
    "½",
    "1 ⅜ in",
    "3/8",
    "about 3",
    "none",
    "7’ 10”",
    "0",
    "0.0",
    "999999999999",
    "0.000000001",
    "5' 6\"",
    "K7-13-M",
    "A0-999999-Z",
    "k7 13 m",
    "2026-02-29",
    "2026-11-25",
    "1:0",
    "1/0",
];

/// Signs and pieces that mean something to one reader or another.
const PIECES: [&str; 60] = [
    "0", "1", "4", "9", "12", "300", ".", ",", "'", "''", "\"", "/", "-", "+", "−", "°", "%", ":",
    " ", "in", "ft", "m", "mm", "cm", "kg", "g", "lb", "oz", "C", "F", "deg", "L", "R", "left",
    "½", "⅞", "′", "″", "⁄", "º", "\u{200b}", "\u{202e}", "\u{feff}", "\0", "\n", "\t", "ß", "İ",
    "٣", "𝟗", "{", "}", "[", "]", "\\", "\\u0000", "null", "1e999", "NaN", "\":",
];

impl Corpus {
    pub(crate) fn read() -> Self {
        let here = Path::new(env!("CARGO_MANIFEST_DIR"));
        let mut files = Vec::new();
        for folder in ["broken", "samples"] {
            let listed = fs::read_dir(here.join(folder)).expect("a folder of files");
            let mut paths: Vec<_> = listed.map(|file| file.expect("a file").path()).collect();
            paths.sort();
            files.extend(paths.iter().map(|path| fs::read(path).expect("a file")));
        }
        let sample = fs::read_to_string(here.join("samples/notebook-v1.json")).expect("the sample");
        let drafts = [
            r#"{"pile":"00000000-0000-7000-8000-000000000007","mark":"K7-13-M","started_at":"","values":{"length":{"text":"2480"},"width_near":{"text":"21"}},"defects":[]}"#,
            r#"{"pile":null,"new":[1,{"a":2}]}"#,
        ];
        Self {
            files,
            good: sample.lines().map(str::to_owned).collect(),
            drafts: drafts.iter().map(|text| text.as_bytes().to_vec()).collect(),
        }
    }

    /// What might be typed in a field.
    pub(super) fn typed(&self, dice: &mut Dice) -> Vec<u8> {
        if dice.once_in(3) {
            let pieces = 1 + dice.below(8);
            let text: String = (0..pieces).map(|_| *dice.pick(&PIECES)).collect();
            return text.into_bytes();
        }
        let good = dice.pick(&TYPED).as_bytes().to_vec();
        damaged(good, 2, dice)
    }

    /// One entry, as it stands in a file.
    pub(super) fn entry(&self, dice: &mut Dice) -> Vec<u8> {
        let lines = &self.good[1..self.good.len() - 1];
        let line = dice.pick(lines).trim_end_matches(',');
        damaged(line.as_bytes().to_vec(), 5, dice)
    }

    /// A half-typed plank.
    pub(super) fn draft(&self, dice: &mut Dice) -> Vec<u8> {
        let good = dice.pick(&self.drafts).clone();
        damaged(good, 5, dice)
    }

    pub(crate) fn file(&self, dice: &mut Dice) -> Vec<u8> {
        let good = dice.pick(&self.files).clone();
        damaged(good, 5, dice)
    }

    /// A good file with one entry damaged, its line ends left alone.
    pub(crate) fn one_line_damaged(&self, dice: &mut Dice) -> Vec<u8> {
        let mut lines = self.good.clone();
        let at = 1 + dice.below(lines.len() - 2);
        let bytes = damaged(lines[at].clone().into_bytes(), 5, dice);
        let text = String::from_utf8_lossy(&bytes).into_owned();
        // The end of the list, by chance, would end the file.
        if text.trim() != "]}" {
            lines[at] = text.replace('\n', " ");
        }
        lines.join("\n").into_bytes()
    }
}

/// So many things done to it at most; now and then none, or noise in its place.
fn damaged(mut bytes: Vec<u8>, most: usize, dice: &mut Dice) -> Vec<u8> {
    if dice.once_in(50) {
        let length = dice.below(64);
        return (0..length).map(|_| dice.any() as u8).collect();
    }
    for _ in 0..dice.below(most + 1) {
        damage(&mut bytes, dice);
    }
    bytes
}

fn damage(bytes: &mut Vec<u8>, dice: &mut Dice) {
    let at = dice.below(bytes.len() + 1);
    let end = (at + 1 + dice.below(8)).min(bytes.len());
    match dice.below(7) {
        0 if at < bytes.len() => bytes[at] ^= 1 << dice.below(8),
        1 if at < bytes.len() => bytes[at] = dice.any() as u8,
        2 if at < end => drop(bytes.drain(at..end)),
        3 if at < end => {
            let twice = bytes[at..end].to_vec();
            bytes.splice(at..at, twice);
        }
        4 if dice.once_in(4) => bytes.truncate(at),
        _ => {
            let piece = dice.pick(&PIECES).bytes();
            bytes.splice(at..at, piece);
        }
    }
}
