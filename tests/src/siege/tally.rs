//! What a siege has found so far, by the kind of round.

use super::{Done, Kind, Trouble};
use std::collections::BTreeMap;
use std::fmt;
use std::fmt::Write;
use std::process::ExitCode;
use std::time::Duration;

#[derive(Debug, Default, Clone, Copy)]
struct Row {
    rounds: u64,
    kills: u64,
    acknowledged: u64,
    lost: u64,
    dropped: u64,
    broken: u64,
    stuck: u64,
    machine: u64,
    time: Duration,
}

impl Row {
    fn add(&mut self, other: &Row) {
        self.rounds += other.rounds;
        self.kills += other.kills;
        self.acknowledged += other.acknowledged;
        self.lost += other.lost;
        self.dropped += other.dropped;
        self.broken += other.broken;
        self.stuck += other.stuck;
        self.machine += other.machine;
        self.time += other.time;
    }
}

#[derive(Debug, Default)]
pub(super) struct Tally(BTreeMap<Kind, Row>);

impl Tally {
    pub(super) fn add(
        &mut self,
        kind: Kind,
        end: &Result<Done, Trouble>,
        kills: u64,
        time: Duration,
    ) {
        let mut row = Row {
            rounds: 1,
            kills,
            time,
            ..Row::default()
        };
        match end {
            Ok(done) => row.acknowledged = done.acknowledged,
            Err(Trouble::Lost(_)) => row.lost = 1,
            Err(Trouble::Dropped) => row.dropped = 1,
            Err(Trouble::Broken(_)) => row.broken = 1,
            Err(Trouble::Stuck(_)) => row.stuck = 1,
            Err(Trouble::Machine(_)) => row.machine = 1,
        }
        self.0.entry(kind).or_default().add(&row);
    }

    fn all(&self) -> Row {
        let mut all = Row::default();
        self.0.values().for_each(|row| all.add(row));
        all
    }

    pub(super) fn line(&self, time: Duration) -> String {
        let all = self.all();
        format!(
            "{} s: {} rounds, {} kills, {} acknowledged, rounds with a loss {}, broken {}, stuck {}",
            time.as_secs(),
            all.rounds,
            all.kills,
            all.acknowledged,
            all.lost,
            all.broken,
            all.stuck
        )
    }

    pub(super) fn report(&self, seed: u64, time: Duration) -> String {
        let mut text = format!("\nseed {seed}, {} s\n", time.as_secs());
        let head = format!(
            "{:<14}{:>8}{:>8}{:>14}{:>8}{:>9}{:>8}{:>8}{:>9}{:>10}",
            "rounds of",
            "rounds",
            "kills",
            "acknowledged",
            "lost",
            "dropped",
            "broken",
            "stuck",
            "machine",
            "s each"
        );
        let _ = writeln!(text, "{head}");
        let all = self.all();
        let named = self.0.iter().map(|(kind, row)| (kind.name(), row));
        for (name, row) in named.chain([("all", &all)]) {
            let each = row.time.as_secs_f64() / row.rounds.max(1) as f64;
            let _ = writeln!(
                text,
                "{name:<14}{:>8}{:>8}{:>14}{:>8}{:>9}{:>8}{:>8}{:>9}{each:>10.1}",
                row.rounds,
                row.kills,
                row.acknowledged,
                row.lost,
                row.dropped,
                row.broken,
                row.stuck,
                row.machine
            );
        }
        text
    }

    /// Well only where nothing was lost that the app could hold, nothing
    /// broke or stood still, and the browser did what it was asked in nearly every round.
    pub(super) fn verdict(&self) -> ExitCode {
        let all = self.all();
        let well = all.lost == 0 && all.broken == 0 && all.stuck == 0;
        let shown = all.rounds > 0 && all.machine * 20 <= all.rounds;
        if well && shown {
            ExitCode::SUCCESS
        } else {
            ExitCode::FAILURE
        }
    }
}

impl fmt::Display for Trouble {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Trouble::Lost(what) => {
                let told = what
                    .get(..8)
                    .map_or_else(|| what.join("; "), |few| few.join("; "));
                write!(out, "LOST, {} things: {told}", what.len())
            }
            Trouble::Dropped => write!(out, "the browser threw its store away at its start"),
            Trouble::Broken(why) => write!(out, "BROKEN: {why}"),
            Trouble::Stuck(why) => write!(out, "STUCK: {why}"),
            Trouble::Machine(why) => write!(out, "the browser failed: {why}"),
        }
    }
}
