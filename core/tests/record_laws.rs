//! Laws that the record must keep, whatever is written, in whatever order it comes.

use proptest::prelude::*;
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{
    Decision, DeviceId, Entry, Event, EventMeta, Header, Limits, Log, Noted, SamePlank, Selection,
    State, Withdrawn, lines, read, sealed, write,
};
use stillwood_tests::invented::{Dice, Phone, judged, plank_readings};

/// A phone with its record, which acts and exchanges files.
struct Device {
    phone: Phone,
    record: Log,
}

impl Device {
    fn new(number: usize) -> Self {
        let by = ["K7", "M4", "PA", "X9"][number % 4];
        Self {
            phone: Phone::seeded(by, 77 + number as u64),
            record: Log::new(),
        }
    }

    /// Does one thing that a number chooses; entries, pieces and piles are chosen out of the record.
    fn act(&mut self, dice: &mut Dice) {
        let state = State::project(&self.record);
        self.phone.step = self.record.next_step() - 1;
        let piles: Vec<Id> = state.piles().map(|p| p.id).collect();
        let pieces: Vec<Id> = state.pieces().map(|p| p.id).collect();
        let pick = |ids: &[Id], dice: &mut Dice| *dice.pick(ids);
        let act = dice.below(10);
        if piles.is_empty() || act == 0 {
            let visit = self.phone.open_visit("North");
            self.phone.open_pile(visit, "hard_maple");
        } else if pieces.is_empty() || act == 1 {
            let pile = pick(&piles, dice);
            let piece = self.phone.mark(pile);
            let readings = plank_readings(dice);
            self.phone.measure(piece, readings);
        } else {
            let piece = pick(&pieces, dice);
            let known: Vec<Id> = self.record.entries().map(|e| e.id).collect();
            match act {
                2 | 3 => {
                    let readings = plank_readings(dice);
                    self.phone.measure(piece, readings);
                }
                4 => {
                    let other = pick(&pieces, dice);
                    if other != piece {
                        let same = dice.below(3) > 0;
                        self.phone
                            .say(piece, Event::SamePlank(SamePlank { other, same }));
                    }
                }
                5 => {
                    let target = pick(&known, dice);
                    let about = self.record.entry(target).unwrap().about;
                    self.phone
                        .correct(about, Event::Withdrawn(Withdrawn {}), vec![target]);
                }
                6 | 7 => {
                    let target = pick(&known, dice);
                    let old = self.record.entry(target).unwrap().clone();
                    self.phone.correct(old.about, old.event, vec![target]);
                }
                8 => {
                    let score = Some(dice.tenth(0, 100));
                    self.phone
                        .say(piece, Event::Judged(judged(Decision::Leave, score)));
                }
                _ => {
                    let text = "a \"note\"\u{202e}\n".to_owned();
                    self.phone.say(piece, Event::Noted(Noted { text }));
                }
            }
        }
        self.record.merge(self.phone.written.drain(..));
    }

    /// Carries the whole record, or a part of it, to another device, as a file.
    fn carry_to(&self, other: &mut Device, part: bool) {
        let file = if part {
            let half = self.record.everything().filter(|e| e.id.as_u128() % 2 == 0);
            write(&Header::new("0", "", Selection::Whole), half)
        } else {
            self.record.to_file("0", "")
        };
        let reading = read(file.as_bytes(), &Limits::default()).unwrap();
        assert!(reading.problems.is_empty(), "{:?}", reading.problems);
        other.record.merge(reading.accepted);
    }
}

fn devices(count: usize, seed: u64, rounds: u64) -> Vec<Device> {
    let mut dice = Dice::of_seed(seed);
    let mut all: Vec<Device> = (0..count).map(Device::new).collect();
    for _ in 0..rounds {
        let from = dice.below(count);
        all[from].act(&mut dice);
        if dice.below(4) == 0 {
            let to = dice.below(count);
            let part = dice.below(2) == 0;
            exchange(&mut all, from, to, part);
        }
    }
    all
}

fn exchange(all: &mut [Device], from: usize, to: usize, part: bool) {
    if from != to {
        let (low, high) = (from.min(to), from.max(to));
        let (left, right) = all.split_at_mut(high);
        if from < to {
            left[low].carry_to(&mut right[0], part);
        } else {
            right[0].carry_to(&mut left[low], part);
        }
    }
}

/// Three records with some damage between them.
fn three(seed: u64) -> [Log; 3] {
    let all = devices(3, seed, 25);
    let mut records: Vec<Log> = all.into_iter().map(|d| d.record).collect();
    let other = records[1].clone();
    for (n, year) in [(0, "1999"), (2, "2062"), (2, "1970")] {
        for entry in other.entries().take(3) {
            let line = entry
                .to_line()
                .replacen("\"at\":\"2026", &format!("\"at\":\"{year}"), 1);
            let line = sealed(&line).unwrap();
            records[n].add(Entry::from_json(&line, &Limits::default()).unwrap());
        }
    }
    records.try_into().unwrap()
}

fn union(a: &Log, b: &Log) -> Log {
    let mut sum = a.clone();
    sum.merge(b.everything().cloned());
    sum
}

fn shuffled(entries: &[Entry], seed: u64) -> Vec<Entry> {
    let mut dice = Dice::of_seed(seed);
    let mut mixed = entries.to_vec();
    dice.shuffle(&mut mixed);
    mixed
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn merging_is_commutative_associative_and_idempotent(seed: u64) {
        let [a, b, c] = three(seed);
        prop_assert_eq!(union(&a, &b), union(&b, &a));
        prop_assert_eq!(union(&union(&a, &b), &c), union(&a, &union(&b, &c)));
        let sum = union(&union(&a, &b), &c);
        prop_assert_eq!(union(&sum, &b), sum.clone());
        prop_assert_eq!(union(&sum, &Log::new()), sum.clone());
        prop_assert!(sum.everything().count() >= a.everything().count());
        prop_assert_eq!(sum.to_file("0", ""), union(&c, &union(&b, &a)).to_file("0", ""));
    }

    #[test]
    fn the_fold_does_not_depend_on_the_order(seed: u64) {
        let record = three(seed)[0].clone();
        let entries: Vec<Entry> = record.entries().cloned().collect();
        let mixed = shuffled(&entries, seed ^ 5);
        prop_assert_eq!(State::project_entries(&mixed), State::project_entries(&entries));
    }

    #[test]
    fn adding_at_the_end_is_the_same_as_folding_again(seed: u64) {
        let record = three(seed)[0].clone();
        let mut entries: Vec<Entry> = record.entries().cloned().collect();
        entries.sort_by_key(Entry::order);
        let mut state = State::default();
        let mut quick = 0;
        for n in 0..entries.len() {
            let before = state.clone();
            if state.append(&entries[n]) {
                quick += 1;
            } else {
                prop_assert_eq!(&state, &before);
                state = State::project_entries(&entries[..=n]);
            }
            prop_assert_eq!(&state, &State::project_entries(&entries[..=n]));
        }
        prop_assert!(quick > 0 || entries.is_empty());
    }

    #[test]
    fn looking_at_a_file_tells_what_merging_it_makes(seed: u64, with in 1usize..3) {
        let records = three(seed);
        let (here, there) = (&records[0], &records[with]);
        let reading = read(there.to_file("0", "").as_bytes(), &Limits::default()).unwrap();
        let (preview, after) = queries::preview_with_state(here, &State::project(here), &reading);
        let mut merged = here.clone();
        let done = merged.merge(reading.accepted);
        prop_assert_eq!(after, State::project(&merged));
        prop_assert_eq!(preview.altered.is_empty(), done.altered.is_empty());
    }

    #[test]
    fn all_devices_agree_in_the_end(seed: u64, count in 2usize..5) {
        let mut all = devices(count, seed, 30);
        // By different routes: round the ring twice, once each way.
        for i in (0..count).chain(0..count) {
            exchange(&mut all, i, (i + 1) % count, false);
        }
        for i in (0..count).rev() {
            exchange(&mut all, i, (i + count - 1) % count, false);
        }
        for device in &all[1..] {
            prop_assert_eq!(&device.record, &all[0].record);
            prop_assert_eq!(State::project(&device.record), State::project(&all[0].record));
        }
        prop_assert!(all[0].record.conflicts().is_empty());
        prop_assert!(queries::missing_runs(&State::project(&all[0].record)).is_empty());
        prop_assert!(queries::cloned_devices(&State::project(&all[0].record)).is_empty());
        prop_assert!(queries::orphans(&State::project(&all[0].record)).is_empty());
    }

    #[test]
    fn saving_and_reading_changes_nothing(seed: u64) {
        for record in three(seed) {
            let file = record.to_file("0.1.0", "2026-10-01T10:00:00+02:00");
            let reading = read(file.as_bytes(), &Limits::default()).unwrap();
            let mut again = Log::new();
            again.merge(reading.accepted.clone());
            prop_assert_eq!(&again, &record);
            prop_assert_eq!(write(&reading.header, again.everything()), file);
        }
    }

    #[test]
    fn no_clock_matters(seed: u64, year in 1i32..9999) {
        let record = three(seed)[0].clone();
        let told = |record: &Log| {
            let state = State::project(record);
            let pieces: Vec<_> = state.pieces().map(|p| (p.id, p.readings.clone(), p.decision())).collect();
            (pieces, state.disputes().to_vec(), record.next_step())
        };
        let mut other = Log::new();
        for (n, entry) in record.entries().enumerate() {
            let mut entry = entry.clone();
            entry.at = format!("{year:04}-99-99T{n}");
            other.add(entry);
        }
        prop_assert_eq!(told(&record), told(&other));
    }

    #[test]
    fn damage_never_panics_and_never_alters_silently(seed: u64, at: prop::sample::Index, flip in 1u8..=255, cut: bool) {
        let record = three(seed)[1].clone();
        let mut bytes = record.to_file("0", "").into_bytes();
        let at = at.index(bytes.len());
        if cut {
            bytes.truncate(at);
        } else {
            bytes[at] ^= flip;
        }
        let reading = match read(&bytes, &Limits::default()) {
            Ok(reading) => reading,
            Err(why) => {
                prop_assert!(!why.to_string().is_empty());
                return Ok(());
            }
        };
        let strange: Vec<&Entry> = reading
            .accepted
            .iter()
            .filter(|entry| record.entry(entry.id) != Some(entry))
            .collect();
        if cut {
            prop_assert!(strange.is_empty());
            let whole = record.everything().count();
            prop_assert!(reading.accepted.len() == whole || !reading.problems.is_empty());
        } else {
            // One byte in one entry: JSON itself can't tell it from another value.
            prop_assert!(strange.len() <= 1);
            // An entry that is not there as it was is told, or there as another.
            let held = reading.accepted.len() - strange.len();
            let lost = record.everything().count() - held;
            prop_assert!(lost == strange.len() || !reading.problems.is_empty(), "{lost} lost");
        }
    }

    #[test]
    fn any_bytes_are_read_without_a_panic(bytes: Vec<u8>, head: bool) {
        let mut file = if head {
            br#"{"header":{"format":"stillwood-notebook"},"entries":["#.to_vec()
        } else {
            Vec::new()
        };
        file.extend(&bytes);
        match read(&file, &Limits::default()) {
            Ok(reading) => {
                // No entry comes of random bytes, and none goes without a word.
                prop_assert_eq!(&reading.accepted, &vec![]);
                let whole = String::from_utf8(bytes).is_ok_and(|rest| rest.trim() == "]}");
                prop_assert!(whole || !reading.problems.is_empty());
            }
            Err(why) => prop_assert!(!why.to_string().is_empty()),
        }
    }

    #[test]
    fn a_line_that_was_kept_says_what_was_written(seed: u64) {
        for entry in three(seed).iter().flat_map(Log::entries) {
            let line = entry.to_line();
            let kept = Entry::from_kept(&line, &Limits::default()).unwrap();
            prop_assert_eq!(kept.to_line(), line);
            prop_assert_eq!(&kept, entry);
        }
    }

    #[test]
    fn the_line_that_was_checked_is_the_one_that_goes_out(seed: u64, at: String, text: String) {
        let noted = Event::Noted(Noted { text });
        let record = three(seed);
        for entry in record.iter().flat_map(Log::entries) {
            let author = DeviceId { by: entry.by.clone() };
            for (at, event) in [(&entry.at, &entry.event), (&at, &noted)] {
                let moment = EventMeta {
                    id: entry.id,
                    seq: entry.seq,
                    step: entry.step,
                    on: entry.on,
                    on_confirmed: entry.on_confirmed,
                    at: at.clone(),
                };
                let supersedes = entry.supersedes.clone();
                let written = author.write(moment, entry.about, event.clone(), supersedes).unwrap();
                let line = written.line().to_owned();
                prop_assert_eq!(&Entry::from_json(&line, &Limits::default()).unwrap(), written.entry());
                prop_assert_eq!(&Entry::from_kept(&line, &Limits::default()).unwrap(), written.entry());
                prop_assert_eq!(lines(std::slice::from_ref(written.entry())), format!("{line}\n"));
            }
        }
    }

    #[test]
    fn what_a_newer_version_wrote_is_kept(seed: u64, key in "[a-z]{1,9}", number: f64, text: String) {
        prop_assume!(number.is_finite());
        let record = three(seed)[0].clone();
        let new = serde_json::json!({"z": [number, null, {"b": text, "a": {}}], "a": 1.50});
        let mut lines: Vec<serde_json::Value> = Vec::new();
        for (n, entry) in record.entries().enumerate() {
            let mut value: serde_json::Value = serde_json::from_str(&entry.to_line()).unwrap();
            let place = match n % 4 {
                0 => value.as_object_mut(),
                1 => value["body"].as_object_mut(),
                2 => value["body"]["readings"]["length"].as_object_mut(),
                _ => {
                    value["happening"] = "made_later".into();
                    value["body"].as_object_mut()
                }
            };
            let Some(place) = place else { continue };
            if place.contains_key(&key) {
                continue;
            }
            place.insert(key.clone(), new.clone());
            value["v"] = 3.into();
            let line = sealed(&value.to_string()).unwrap();
            lines.push(serde_json::from_str(&line).unwrap());
        }
        prop_assert!(!lines.is_empty());
        let file = serde_json::json!({
            "header": {"format": "stillwood-notebook", "version": 2, "reader": 1, "new": new},
            "entries": lines,
        });
        let reading = read(serde_json::to_string_pretty(&file).unwrap().as_bytes(), &Limits::default()).unwrap();
        prop_assert_eq!(&reading.problems, &vec![]);
        prop_assert!(reading.newer);
        let again = write(&reading.header, &reading.accepted);
        let back: serde_json::Value = serde_json::from_str(&again).unwrap();
        prop_assert_eq!(&back["header"]["new"], &new);
        let mut wanted = lines;
        wanted.sort_by_key(|v| (v["step"].as_u64(), v["id"].as_str().unwrap().to_owned()));
        prop_assert_eq!(&back["entries"], &serde_json::Value::Array(wanted));
        // And once more, line for line.
        let twice = read(again.as_bytes(), &Limits::default()).unwrap();
        prop_assert_eq!(write(&twice.header, &twice.accepted), again);
    }
}
