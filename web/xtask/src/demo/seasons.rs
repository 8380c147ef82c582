//! The seasons of the invented workshop: what was done to the planks of both years, up to the autumn of
//! 2026.
//!
//! It tells who, when and what; sizes and weights are the bench's.

use anyhow::{Context, Result, ensure};
use stillwood_core::plank::{Field, Reason, RingTilt, RunoutDirection};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::{
    Decision, Entry, Event, Missing, Reserved, State, StressTest, StressTested, TargetSet, Used,
    date,
};

use super::bench::Bench;
use super::phone::Phone;
use super::row;
use super::yards::{INCH_DAY, METRIC_DAY};

const RACK: &str = "rack by the wall";
pub(super) const SHELF_A: &str = "shelf A";
pub(super) const SHELF_B: &str = "shelf B";
pub(super) const LOFT: &str = "loft";

/// All entries: the first phone's, which stays in the workshop, and those of the later visits.
pub(super) fn tell(first: Phone, last_mark: u32, visits: Vec<Entry>) -> Result<Vec<Entry>> {
    let mut entries = first.written().to_vec();
    entries.extend(visits.iter().cloned());
    let state = State::project_entries(&entries);
    let mut tale = Tale {
        bench: Bench::new(first, last_mark)?,
        state,
        visits,
        blanks: Vec::new(),
        last_three: Vec::new(),
    };
    let laminates = tale.first_wood()?;
    tale.first_blanks(laminates)?;
    tale.autumn_of_2025()?;
    tale.winter_of_2025()?;
    tale.spring_of_2026()?;
    tale.summer_of_2026()?;
    tale.autumn_of_2026()?;
    let mut entries = tale.visits;
    entries.extend(tale.bench.into_written());
    Ok(entries)
}

/// The bench, and what the tale has to remember.
pub(super) struct Tale {
    pub(super) bench: Bench,
    /// The planks, as the yards' entries tell them.
    state: State,
    visits: Vec<Entry>,
    /// The marks of the blanks, in the order in which they were glued.
    pub(super) blanks: Vec<String>,
    /// The laminates of the last blank of the first wood.
    pub(super) last_three: Vec<String>,
}

impl Tale {
    /// The marks of the planks that were taken on a day.
    fn taken_on(&self, day: &str) -> Vec<String> {
        let on = |visit: &stillwood_core::record::Visit| Some(visit.recorded.on) == date(day);
        self.state
            .planks()
            .filter(|plank| plank.decision() == Some(Decision::Take))
            .filter(|plank| self.state.visit_of(plank).is_some_and(on))
            .map(|plank| plank.mark.clone())
            .collect()
    }

    /// The planks taken at a yard come to the workshop.
    pub(super) fn arrive(&mut self, visit: &str) -> Result<Vec<String>> {
        let marks = self.taken_on(visit);
        let before = self
            .visits
            .iter()
            .filter(|entry| entry.on.to_string() == visit);
        if let Some(step) = before.map(|entry| entry.step).max() {
            self.bench.hears(step);
        }
        for mark in &marks {
            self.bench.arrives(&self.state, mark, RACK)?;
        }
        Ok(marks)
    }

    /// Sets pieces to rest and weighs them.
    pub(super) fn rest_and_weigh(&mut self, marks: &[String], place: &str) -> Result<()> {
        for mark in marks {
            self.bench.rest(mark, place)?;
            self.bench.weigh(mark)?;
        }
        Ok(())
    }

    /// Sets pieces to rest.
    pub(super) fn rest(&mut self, marks: &[String], place: &str) -> Result<()> {
        marks
            .iter()
            .try_for_each(|mark| self.bench.rest(mark, place))
    }

    /// A batch of checks, piece by piece.
    pub(super) fn check(&mut self, marks: &[String], shapes: &[[&str; 3]]) -> Result<()> {
        ensure!(
            marks.len() == shapes.len(),
            "{} shapes for {marks:?}",
            shapes.len()
        );
        let both = marks.iter().zip(shapes);
        both.into_iter()
            .try_for_each(|(mark, shape)| self.bench.check(mark, *shape))
    }

    /// The same, with their weights.
    pub(super) fn check_and_weigh(&mut self, marks: &[String], shapes: &[[&str; 3]]) -> Result<()> {
        self.check(marks, shapes)?;
        marks.iter().try_for_each(|mark| self.bench.weigh(mark))
    }

    /// Throws out the pieces at these places, the last first.
    pub(super) fn discard(
        &mut self,
        from: &mut Vec<String>,
        at: &[usize],
        why: Reason,
    ) -> Result<()> {
        for n in at.iter().rev() {
            ensure!(*n < from.len(), "no piece {n}");
            let mark = from.remove(*n);
            self.bench.discard(&mark, why)?;
        }
        Ok(())
    }

    fn autumn_of_2025(&mut self) -> Result<()> {
        self.bench.day("2025-10-20")?;
        self.arrive(&METRIC_DAY.date)?;
        self.bench.day("2025-10-25")?;
        self.test_for_stress("K7-1-X", StressTest::Ripped, "+0.4", Some("300"))?;
        self.test_for_stress("K7-8-J", StressTest::Fork, "-0.3", None)?;
        let mut pieces = Vec::new();
        for (plank, count) in [("K7-5-P", 2), ("K7-28-8", 1), ("K7-13-M", 2)] {
            pieces.extend(self.bench.crosscut(plank, count, None)?);
        }
        self.rest_and_weigh(&pieces, SHELF_A)?;
        let blanks = self.blanks.clone();
        self.bench.weigh_all(&blanks)?;
        self.bench.day("2025-11-20")?;
        self.arrive(&INCH_DAY.date)?;
        self.bench.put("R4-9-A", "open shed")
    }

    fn test_for_stress(
        &mut self,
        mark: &str,
        test: StressTest,
        gap: &str,
        over: Option<&str>,
    ) -> Result<()> {
        let read = |field, text| row::taken(field, text, Units::Metric);
        let tested = StressTested {
            gap: read(Field::Crook, gap)?.context("no gap")?,
            over: match over {
                Some(text) => read(Field::CrookOver, text)?,
                None => None,
            },
            test,
        };
        self.bench
            .record(mark, Event::StressTested(Box::new(tested)))
    }

    fn winter_of_2025(&mut self) -> Result<()> {
        self.bench.day("2025-11-29")?;
        let blanks = self.blanks.clone();
        self.bench.read_the_room()?;
        let shapes = [
            ["+0.1", "0", "0"],
            ["+0.1", "-0.05", "0"],
            ["+0.1", "+0.05", "0"],
        ];
        self.check_and_weigh(&blanks, &shapes)?;
        self.bench.day("2026-01-24")?;
        let shapes = [
            ["+0.2", "-0.1", "0.2 R"],
            ["+0.1", "0", "0.1 R"],
            ["0", "+0.2", "0.1 L"],
            ["+0.3", "+1.4", "0.2 L"],
            ["+0.1", "+0.2", "0.1 L"],
        ];
        self.check_and_weigh(&marks(&RESTING_2025), &shapes)?;
        let blanks = self.blanks.clone();
        self.bench.weigh_all(&blanks)?;
        self.bench.day("2026-02-14")?;
        let became = "bass with five strings, number 7".to_owned();
        self.bench.record(&blanks[0], Event::Used(Used { became }))
    }

    fn spring_of_2026(&mut self) -> Result<()> {
        self.bench.day("2026-03-14")?;
        let blanks = self.blanks[1..].to_vec();
        self.bench.weigh_all(&blanks)?;
        self.bench.day("2026-04-25")?;
        let shapes = [
            ["+0.2", "-0.2", "0.3 R"],
            ["+0.2", "0", "0.1 R"],
            ["+0.1", "+0.3", "0.1 L"],
            // Beyond its limit, and still on its shelf.
            ["+0.5", "+3.4", "0.4 L"],
            ["+0.1", "+0.3", "0.1 L"],
        ];
        self.check_and_weigh(&marks(&RESTING_2025), &shapes)?;
        self.bench.day("2026-05-02")?;
        let mut laminates = self.bench.rip("K7-5-P a", 8)?;
        laminates.extend(self.bench.rip("K7-28-8 a", 6)?);
        self.discard(&mut laminates, &[0], Reason::Sprang)?;
        self.rest(&laminates, SHELF_B)?;
        self.bench.weigh_all(&laminates)?;
        let grain = [
            ("78", "1:40"),
            ("74", "1:36"),
            ("82", "1:48"),
            ("69", "1:33"),
        ];
        for (n, mark) in laminates.iter().enumerate() {
            let (rings, edge) = grain[n % grain.len()];
            self.bench.look_at_the_grain(mark, rings, edge)?;
        }
        self.bench.day("2026-05-16")?;
        // It lay in the open shed over the winter.
        self.bench.found_wet("R4-9-A", 16.0, 110.0)?;
        let mut pieces = self.bench.crosscut("R4-9-A", 2, None)?;
        pieces.extend(self.bench.crosscut("K7-1-X", 2, None)?);
        self.rest_and_weigh(&pieces, SHELF_A)
    }

    /// The wet pieces are followed closely, their neighbour from a dry place now and then.
    fn weigh_the_wet(&mut self) -> Result<()> {
        self.bench.weigh_all(&marks(&["R4-9-A a", "R4-9-A b"]))
    }

    fn weigh_the_wet_and_the_dry(&mut self) -> Result<()> {
        self.weigh_the_wet()?;
        self.bench.weigh("K7-1-X a")
    }

    fn summer_of_2026(&mut self) -> Result<()> {
        self.bench.day("2026-06-06")?;
        self.weigh_the_wet()?;
        self.bench.weigh_all(&matching())?;
        let three = std::mem::take(&mut self.last_three);
        self.bench.none_moved(&three)?;
        let blank = self.bench.glue(&three, "0611", 30.0)?;
        self.blanks.push(blank.clone());
        self.bench.day("2026-06-08")?;
        self.rest_and_weigh(&[blank], LOFT)?;
        for day in ["2026-06-27", "2026-07-18"] {
            self.bench.day(day)?;
            self.weigh_the_wet()?;
        }
        self.bench.day("2026-08-08")?;
        self.weigh_the_wet_and_the_dry()?;
        self.bench.weigh_all(&matching())?;
        self.bench.none_moved(&matching())?;
        let shapes = [
            ["+0.3", "+0.4", "0.3 L"],
            ["+0.2", "+0.3", "0.1 L"],
            ["+0.1", "-0.1", "0.1 R"],
        ];
        self.check(&marks(&["R4-9-A a", "R4-9-A b", "K7-1-X a"]), &shapes)
    }

    fn autumn_of_2026(&mut self) -> Result<()> {
        self.bench.day("2026-09-12")?;
        self.weigh_the_wet()?;
        self.bench.record("K7-1-X b", Event::Missing(Missing {}))?;
        let resting = self.bench.rip("K7-5-P b", 8)?;
        self.rest(&resting, SHELF_B)?;
        self.bench.weigh_all(&resting)?;
        let young = self.blanks[3].clone();
        self.check_and_weigh(&[young], &[["+0.1", "0", "0"]])?;
        self.bench.day("2026-10-10")?;
        self.weigh_the_wet()?;
        self.bench.weigh_all(&matching())?;
        self.bench.weigh_all(&resting)?;
        self.bench.day("2026-10-30")?;
        let reserved = Reserved {
            name: "Alma".to_owned(),
            until: date("2027-01-31"),
        };
        self.bench
            .record(&self.blanks[1].clone(), Event::Reserved(reserved))?;
        self.bench.day("2026-11-14")?;
        self.check(&matching(), &MATCHING_SHAPES)?;
        self.bench.weigh_all(&matching())?;
        // The last ones are still to be looked at.
        for (mark, (rings, grain)) in matching().iter().zip(MATCHING_SIDES) {
            self.bench.look_at_the_sides(mark, rings, grain)?;
        }
        self.bench.discard(&matching()[12], Reason::Moved)?;
        self.bench.day("2026-11-20")?;
        self.weigh_the_wet_and_the_dry()?;
        self.wish_for_autumn()?;
        let shapes = [
            ["+0.4", "+0.6", "0.4 L"],
            ["+0.3", "+0.4", "0.2 L"],
            ["+0.2", "-0.1", "0.1 R"],
        ];
        self.check(&marks(&["R4-9-A a", "R4-9-A b", "K7-1-X a"]), &shapes)
    }
}

impl Tale {
    /// What is wished for: blanks by the autumn after next.
    fn wish_for_autumn(&mut self) -> Result<()> {
        let wish = TargetSet {
            blanks: 4,
            by: date("2028-09-01"),
            laminates_per_blank: 5,
            sure_percent: 80,
            wood: None,
        };
        let about = self.bench.phone.id();
        let wish = Event::TargetSet(Box::new(wish));
        self.bench.phone.write(about, wish).map(|_| ())
    }
}

/// The pieces that were cut in the autumn of 2025.
const RESTING_2025: [&str; 5] = [
    "K7-5-P a",
    "K7-5-P b",
    "K7-28-8 a",
    "K7-13-M a",
    "K7-13-M b",
];

/// The laminates of the spring of 2026 as last checked, seven of sycamore and six of padauk; the last
/// has moved too far.
const MATCHING_SHAPES: [[&str; 3]; 13] = [
    ["+0.3", "+0.15", "0.2 R"],
    ["+0.2", "-0.1", "0.1 L"],
    ["-0.2", "-0.15", "0.3 L"],
    ["+0.4", "+0.1", "0.2 R"],
    ["-0.1", "+0.05", "0.1 R"],
    ["+0.1", "-0.05", "0.2 L"],
    ["+0.2", "+0.1", "0.3 R"],
    ["+0.1", "+0.1", "0.1 L"],
    ["-0.1", "-0.1", "0.2 R"],
    ["+0.2", "+0.15", "0.1 R"],
    ["0", "-0.15", "0.2 L"],
    ["+0.1", "0", "0.1 L"],
    ["+0.3", "+0.7", "0.2 R"],
];

/// How their rings lean and their grain runs, as far as they were looked at.
const MATCHING_SIDES: [(RingTilt, RunoutDirection); 10] = [
    (RingTilt::Right, RunoutDirection::Rises),
    (RingTilt::Right, RunoutDirection::Along),
    (RingTilt::Right, RunoutDirection::Rises),
    (RingTilt::Neither, RunoutDirection::Falls),
    (RingTilt::Left, RunoutDirection::Rises),
    (RingTilt::Left, RunoutDirection::Falls),
    (RingTilt::Left, RunoutDirection::Along),
    (RingTilt::Right, RunoutDirection::Falls),
    (RingTilt::Right, RunoutDirection::Rises),
    (RingTilt::Left, RunoutDirection::Rises),
];

/// The laminates of the spring of 2026.
fn matching() -> Vec<String> {
    let sycamore = (2..=8).map(|n| format!("K7-5-P a{n}"));
    sycamore
        .chain((1..=6).map(|n| format!("K7-28-8 a{n}")))
        .collect()
}

fn marks(of: &[&str]) -> Vec<String> {
    of.iter().map(|mark| (*mark).to_owned()).collect()
}
