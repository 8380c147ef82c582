//! Large invented records, and a browser that opened one.

use super::begun;
use stillwood_core::plank::{Field, Readings};
use stillwood_core::record::{Decision, Entry, Event, Log, Noted};
use stillwood_tests::browser::{Browser, Device, Folder, Server, steps};
use stillwood_tests::invented::{self, Dice, Phone, taken};

/// Entries of one plank over the years.
const ENTRIES_A_PLANK: usize = 20;

/// A record of so many planks, each with its readings over the years.
pub(super) fn over_years(planks: usize) -> Vec<Entry> {
    let mut phone = Phone::seeded("K7", 7);
    let mut dice = Dice::of_seed(11);
    let (mut visit, mut pile) = Default::default();
    for at in 0..planks {
        if at % 250 == 0 {
            visit = phone.open_visit("North");
        }
        if at % 50 == 0 {
            pile = phone.open_pile(visit, "maple-sugar");
        }
        let before = phone.written.len();
        let piece = phone.whole_plank(pile);
        while phone.written.len() < before + ENTRIES_A_PLANK {
            let weight = taken(dice.tenth(14, 22), "kg");
            phone.measure(piece, Readings::from([(Field::WeightWhole, weight)]));
            let text = format!("week {}: rested, stickered anew", dice.below(80));
            phone.say(piece, Event::Noted(Noted { text }));
        }
    }
    phone.written
}

/// A record of so many planks on which everything was measured, to be judged.
pub(super) fn measured(planks: usize) -> Vec<Entry> {
    let mut phone = Phone::seeded("K7", 5);
    let mut dice = Dice::of_seed(19);
    let (mut visit, mut pile) = Default::default();
    for at in 0..planks {
        if at % 250 == 0 {
            visit = phone.open_visit_as_supplied("North");
        }
        if at % 50 == 0 {
            pile = phone.open_pile(visit, "maple-sugar");
        }
        let piece = phone.mark(pile);
        let mut readings = invented::plank_readings(&mut dice);
        readings.extend([
            (Field::Crook, taken(dice.tenth(0, 5), "mm")),
            (Field::Cup, taken(dice.tenth(0, 6), "mm")),
            (Field::GrainEdge, taken(dice.tenth(2, 8) / 100.0, "tan")),
            (Field::RingAngle, taken(dice.tenth(0, 90), "deg")),
            (Field::Moisture, taken(dice.tenth(7, 13), "%")),
            (Field::WoodTemperature, taken(dice.tenth(5, 20), "degC")),
        ]);
        phone.measure(piece, readings);
        let judged = invented::judged(Decision::Take, None);
        phone.say(piece, Event::Judged(judged));
    }
    phone.written
}

/// A browser of its own whose record was brought in from a file; the server runs on.
pub(super) struct Opened {
    pub(super) browser: Browser,
    pub(super) server: Server,
    /// Until the file was looked at and added.
    pub(super) import: f64,
    _profile: Folder,
    // The page reads the file again.
    _files: Folder,
}

/// Imports entries into a profile of its own.
pub(super) async fn opened(entries: Vec<Entry>, size: Device) -> Opened {
    let (profile, files) = (Folder::new("large"), Folder::new("files"));
    let mut log = Log::new();
    log.merge(entries);
    let count = log.len();
    let file = log.to_file("0.1.0", "2026-10-30T18:00:00+02:00");
    drop(log);
    let path = files.put("large.json", &file);
    println!("({count} entries: {:.1} MB)", file.len() as f64 / 1e6);
    drop(file);
    let server = Server::start();
    let browser = begun(size, &profile, &server).await;
    let page = browser.page();
    steps::bring_in(&page, &path).await;
    let took = page
        .js(
            "return window.__import.looked + window.__import.added",
            vec![],
        )
        .await;
    Opened {
        browser,
        server,
        import: took.as_f64().expect("a time"),
        _profile: profile,
        _files: files,
    }
}
