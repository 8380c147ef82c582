//! A phone that writes entries of the demo: its clock, its chance and its numbers all start from
//! what is told here, so that the same story gives the same bytes on every machine.

use std::borrow::Cow;

use anyhow::{Context, Result, anyhow};
use stillwood_core::record::Id;
use stillwood_core::record::{DeviceId, Entry, Event, EventMeta};

use stillwood_tests::dice::Dice;

use super::air::day_number;

/// A day in a yard or in the workshop.
#[derive(Debug, Clone)]
pub(super) struct Day {
    pub(super) date: Cow<'static, str>,
    /// Milliseconds from 1970 to its midnight, UTC.
    pub(super) midnight_utc: u64,
    /// How many hours its clocks are ahead of UTC.
    pub(super) ahead: i32,
}

impl Day {
    /// A day in the workshop, whose clocks are an hour further ahead from April to October.
    pub(super) fn in_the_workshop(date: &str) -> Result<Self> {
        let midnight = day_number(date)? * 86_400_000;
        let month: u32 = date.get(5..7).context("no month")?.parse()?;
        Ok(Self {
            date: date.to_owned().into(),
            midnight_utc: midnight.try_into()?,
            ahead: if (4..=10).contains(&month) { 2 } else { 1 },
        })
    }
}

/// A phone and the hand that holds it.
#[derive(Debug)]
pub(super) struct Phone {
    author: DeviceId,
    seq: u64,
    step: u64,
    day: Day,
    /// Seconds since midnight by the phone's clock.
    clock: u32,
    dice: Dice,
    /// How many ids it has made.
    ids: u32,
    written: Vec<Entry>,
}

impl Phone {
    /// A phone of this name, at this second of the day.
    pub(super) fn new(by: &str, day: Day, clock: u32) -> Self {
        let chance = by.bytes().fold(0x5EED, |seed, b| seed * 257 + u64::from(b));
        Self {
            author: DeviceId { by: by.to_owned() },
            seq: 0,
            step: 0,
            day,
            clock,
            dice: Dice::of_seed(chance),
            ids: 0,
            written: Vec::new(),
        }
    }

    /// The phone's name.
    pub(super) fn by(&self) -> &str {
        &self.author.by
    }

    /// The highest step that it has seen.
    pub(super) fn step(&self) -> u64 {
        self.step
    }

    /// It is handed a record that goes up to this step.
    pub(super) fn hears(&mut self, step: u64) {
        self.step = self.step.max(step);
    }

    /// Another day begins.
    pub(super) fn next_day(&mut self, day: Day, clock: u32) {
        (self.day, self.clock) = (day, clock);
    }

    /// Time goes by: at least so many seconds, and up to a third more.
    pub(super) fn wait(&mut self, seconds: u32) {
        let more = self.dice.any() % u64::from(seconds / 3 + 1);
        self.clock += seconds + u32::try_from(more).unwrap_or(0);
    }

    /// An id as a phone makes it, only that its random part is the phone's name and a count: what is random can't be
    /// packed, and the example is a part of what a first visit loads.
    pub(super) fn id(&mut self) -> Id {
        self.ids += 1;
        // As many throws as ids took when they were random: the hours of the example stay as they were.
        for _ in 0..11 {
            self.dice.any();
        }
        let mut random = [0; 10];
        for (byte, of_name) in random.iter_mut().skip(3).zip(self.author.by.bytes()) {
            *byte = of_name;
        }
        random[6..].copy_from_slice(&self.ids.to_be_bytes());
        let local = self.day.midnight_utc + u64::from(self.clock) * 1000;
        let millis = local.saturating_add_signed(-i64::from(self.day.ahead) * 3_600_000);
        Id::version_7(millis, &random)
    }

    /// Writes down that something happened; gives the entry's id.
    pub(super) fn write(&mut self, about: Id, event: Event) -> Result<Id> {
        self.write_over(about, event, Vec::new())
    }

    /// Writes down something in the place of other entries.
    pub(super) fn write_over(
        &mut self,
        about: Id,
        event: Event,
        supersedes: Vec<Id>,
    ) -> Result<Id> {
        let id = self.id();
        self.seq += 1;
        self.step += 1;
        let date = &self.day.date;
        let on = date.parse().map_err(|why| anyhow!("{date}: {why}"))?;
        let (hours, minutes, seconds) = (self.clock / 3600, self.clock / 60 % 60, self.clock % 60);
        let moment = EventMeta {
            id,
            seq: self.seq,
            step: self.step,
            on,
            on_confirmed: false,
            at: format!(
                "{date}T{hours:02}:{minutes:02}:{seconds:02}{:+03}:00",
                self.day.ahead
            ),
        };
        let entry = self
            .author
            .correction(moment, about, event, supersedes)
            .map_err(|why| anyhow!("{}: {why:?}", self.author.by))?;
        self.written.push(entry);
        Ok(id)
    }

    /// All that it wrote so far.
    pub(super) fn written(&self) -> &[Entry] {
        &self.written
    }

    pub(super) fn into_written(self) -> Vec<Entry> {
        self.written
    }
}
