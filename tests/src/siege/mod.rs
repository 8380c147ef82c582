//! A siege of the built app: kills, wiped stores, full disks, hostile files, three tabs and wild clocks,
//! in turns that follow from a seed. Each round is held against a [`model::Model`] of what the app had
//! said was saved: whatever of it is not in the browser's database afterwards is a loss.
//!
//! It looks at the app from outside, by what is on the screen and in the database. `cargo xtask siege`
//! starts it.

mod front;
mod kills;
mod lies;
mod life;
mod model;
mod others;
mod tally;

use crate::browser::{Dist, Driver, Engine, Server};
use crate::dice::Dice;
use crate::fuzz::Corpus;
use front::Front;
use life::Life;
use std::process::ExitCode;
use std::time::{Duration, Instant};
use tally::Tally;

#[derive(Debug, Clone)]
pub struct Asked {
    /// How long it goes on.
    pub time: Duration,
    /// What everything in it follows from.
    pub seed: u64,
    /// One round alone, to see it again.
    pub round: Option<u64>,
    pub kind: Option<Kind>,
}

/// What a round does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Killed right after "saved".
    KillSaved,
    /// Killed while writes are under way.
    KillWriting,
    KillTyping,
    /// Killed while a file is brought in.
    KillImport,
    /// Killed while a newer version is fetched or takes over.
    KillUpdate,
    /// The store is emptied while the app is open.
    Wiped,
    /// The disk is full for a while.
    Full,
    /// A hostile file, and every screen after it.
    Hostile,
    /// Three tabs write in turns.
    Tabs,
    /// The clock is anywhere between 1970 and 2200.
    Clock,
}

impl Kind {
    /// All of them, with the names they go by.
    pub const ALL: [(Kind, &str); 10] = [
        (Kind::KillSaved, "kill-saved"),
        (Kind::KillWriting, "kill-writing"),
        (Kind::KillTyping, "kill-typing"),
        (Kind::KillImport, "kill-import"),
        (Kind::KillUpdate, "kill-update"),
        (Kind::Wiped, "wiped"),
        (Kind::Full, "full-disk"),
        (Kind::Hostile, "hostile"),
        (Kind::Tabs, "tabs"),
        (Kind::Clock, "clock"),
    ];

    pub fn name(self) -> &'static str {
        let found = Kind::ALL.iter().find(|(kind, _)| *kind == self);
        found.map_or("", |(_, name)| name)
    }

    pub fn named(name: &str) -> Option<Kind> {
        let found = Kind::ALL.iter().find(|(_, known)| *known == name);
        found.map(|(kind, _)| *kind)
    }

    /// What a round does, by its number: kills most often, everything within any twenty-four rounds.
    fn of(round: u64) -> Kind {
        use Kind::*;
        // Every kind comes early: a short siege has met them all.
        const TURNS: [Kind; 24] = [
            KillSaved,
            Wiped,
            KillTyping,
            KillWriting,
            KillImport,
            Clock,
            KillUpdate,
            Tabs,
            KillSaved,
            Full,
            Hostile,
            KillTyping,
            KillWriting,
            KillSaved,
            KillImport,
            KillSaved,
            KillTyping,
            KillWriting,
            KillUpdate,
            KillSaved,
            KillTyping,
            KillWriting,
            KillSaved,
            KillTyping,
        ];
        TURNS[(round % TURNS.len() as u64) as usize]
    }
}

/// Why a round is not well.
#[derive(Debug)]
enum Trouble {
    Lost(Vec<String>),
    /// The browser itself threw its store away before the app was there.
    Dropped,
    /// A panic, or a screen that can't be read.
    Broken(String),
    /// The app did not come to do what it was asked.
    Stuck(String),
    /// The browser or its driver did not do what it was asked.
    Machine(String),
}

/// How a round that is well ended.
#[derive(Debug, Default, Clone, Copy)]
struct Done {
    /// Entries that the app acknowledged, and that were found again.
    acknowledged: u64,
}

struct Siege {
    seed: u64,
    server: Server,
    dist: Dist,
    files: Corpus,
    driver: Driver,
    life: Option<Life>,
    front: Option<Front>,
    /// Newer versions so far.
    versions: u64,
    /// Kills since the round began.
    kills: u64,
}

/// A record outlives so many rounds; a long one makes each round dear.
const ROUNDS_OF_A_LIFE: u32 = 48;

/// Goes on until the time is over and says what it found.
pub async fn run(asked: &Asked) -> ExitCode {
    let dist = Dist::copy();
    let mut siege = Siege {
        seed: asked.seed,
        server: Server::of(dist.path()),
        dist,
        files: Corpus::read(),
        driver: Driver::start(Engine::Chromium),
        life: None,
        front: None,
        versions: 0,
        kills: 0,
    };
    let mut tally = Tally::default();
    let start = Instant::now();
    let (first, last) = match asked.round {
        Some(round) => (round, round + 1),
        None => (0, u64::MAX),
    };
    for round in first..last {
        if start.elapsed() >= asked.time {
            break;
        }
        let kind = asked.kind.unwrap_or_else(|| Kind::of(round));
        let began = Instant::now();
        let end = siege.round(kind, round).await;
        let kills = std::mem::take(&mut siege.kills);
        if let Err(trouble) = &end {
            let (name, seed) = (kind.name(), asked.seed);
            println!("round {round} ({name}) of seed {seed}: {trouble}");
            println!(
                "  again: cargo xtask siege --no-build --seed {seed} --round {round} --kind {name}"
            );
            siege.begin_anew();
        }
        tally.add(kind, &end, kills, began.elapsed());
        if (round + 1) % 50 == 0 {
            println!("{}", tally.line(start.elapsed()));
        }
    }
    siege.begin_anew();
    println!("{}", tally.report(asked.seed, start.elapsed()));
    tally.verdict()
}

impl Siege {
    /// One round; what is wrong afterwards is wrong by it.
    async fn round(&mut self, kind: Kind, round: u64) -> Result<Done, Trouble> {
        let mut dice = Dice::of(self.seed, round);
        let old = self
            .life
            .as_ref()
            .is_some_and(|life| life.rounds >= ROUNDS_OF_A_LIFE);
        if old {
            self.begin_anew();
        }
        if !matches!(kind, Kind::Full | Kind::Hostile) {
            self.stand().await?;
        }
        if let Some(life) = &mut self.life {
            life.rounds += 1;
        }
        let done = match kind {
            Kind::KillSaved => self.kill_saved(&mut dice).await,
            Kind::KillWriting => self.kill_writing(&mut dice).await,
            Kind::KillTyping => self.kill_typing(&mut dice, round).await,
            Kind::KillImport => self.kill_import(&mut dice).await,
            Kind::KillUpdate => self.kill_update(&mut dice).await,
            Kind::Wiped => self.wiped(&mut dice, round).await,
            Kind::Full => self.full(&mut dice).await,
            Kind::Hostile => self.hostile(&mut dice).await,
            Kind::Tabs => self.tabs(&mut dice).await,
            Kind::Clock => self.clock(&mut dice).await,
        }?;
        if let Some(front) = &self.front {
            front.whole().await?;
        }
        Ok(done)
    }

    /// Ends the browser and its driver, and forgets the record: the next round begins with nothing.
    fn begin_anew(&mut self) {
        self.front = None;
        self.driver.end();
        self.life = None;
        self.driver = Driver::start(Engine::Chromium);
    }

    /// Kills the browser as a dead battery does.
    fn kill(&mut self) {
        self.driver.kill_browsers();
        self.front = None;
        self.kills += 1;
    }
}
