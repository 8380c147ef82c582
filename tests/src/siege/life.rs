//! A record on a profile of its own, from its first visit until it is begun anew: how its browser is
//! started, what is done in it, and how it is held against the model.

use super::front::machine;
use super::model::{Model, Stored};
use super::{Front, Siege, Trouble};
use crate::browser::{Device, Folder};
use crate::dice::Dice;
use crate::yard::Phone;
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use serde::Deserialize;
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::time::Duration;
use stillwood_core::plank::Field;
use stillwood_core::record::device_name;

/// The device that begins every record of a siege.
const FIRST: &str = "Z9";

/// What keeps tabs in the background at work.
const FLAGS: [&str; 3] = [
    "--disable-background-timer-throttling",
    "--disable-renderer-backgrounding",
    "--disable-backgrounding-occluded-windows",
];

/// So often a browser that does not start is tried.
const STARTS: u32 = 3;

/// A record and what is known of it.
pub(super) struct Life {
    pub(super) profile: Folder,
    pub(super) pile: String,
    pub(super) model: Model,
    pub(super) rounds: u32,
    /// Files that were made for it: each is of another device.
    files: u32,
}

/// One thing done, as the page tells it.
#[derive(Debug, Deserialize)]
struct Did {
    #[serde(default)]
    no: u64,
    mark: Option<String>,
    kept: bool,
    #[serde(default)]
    broken: Vec<String>,
}

/// A file of another phone, ready to be handed to the page.
pub(super) struct File {
    pub(super) ids: BTreeSet<String>,
    text: String,
}

impl File {
    pub(super) fn hand_over(&self, name: &str, wait: bool) -> Value {
        hand_over(name, self.text.as_bytes(), wait)
    }

    fn of(phone: &Phone) -> Self {
        Self {
            ids: phone.log().entries().map(|e| e.id.to_string()).collect(),
            text: phone.file(),
        }
    }
}

/// A file as the page takes it.
pub(super) fn hand_over(name: &str, bytes: &[u8], wait: bool) -> Value {
    json!({ "name": name, "base64": BASE64_STANDARD.encode(bytes), "wait": wait })
}

impl Life {
    pub(super) fn new(profile: Folder) -> Self {
        Self {
            profile,
            pile: String::new(),
            model: Model::default(),
            rounds: 0,
            files: 0,
        }
    }

    /// A file of a phone that this record has not met, with so many planks.
    pub(super) fn file(&mut self, planks: usize) -> File {
        self.files += 1;
        let mut by = device_name(self.files * 7);
        if by == FIRST {
            by = device_name(self.files * 7 + 1);
        }
        let mut phone = Phone::new(&by);
        let (_, pile) = phone.pile();
        for n in 0..planks {
            let texts = [(Field::Length, "2480"), (Field::WidthNear, "205")];
            phone.plank(pile, &format!("{by}/{n}"), &texts);
        }
        File::of(&phone)
    }
}

impl Siege {
    /// Makes sure that a browser stands on the pile of a record that is well.
    pub(super) async fn stand(&mut self) -> Result<(), Trouble> {
        if self.life.is_none() {
            let life = Life::new(Folder::new("siege"));
            self.settle(life).await?;
        }
        if self.front.is_none() {
            self.start().await?;
            self.verify().await?;
        }
        Ok(())
    }

    /// Begins a record: a visit and a pile come in by a file.
    pub(super) async fn settle(&mut self, life: Life) -> Result<(), Trouble> {
        self.life = Some(life);
        self.launch().await?;
        let address = self.server.address().to_owned();
        self.front()?.open(&address).await?;
        self.first_file().await
    }

    /// Brings in the file with the visit and the pile.
    pub(super) async fn first_file(&mut self) -> Result<(), Trouble> {
        let mut phone = Phone::new(FIRST);
        let (_, pile) = phone.pile();
        let file = File::of(&phone);
        let arg = file.hand_over("first.json", true);
        let said = self.front()?.call("bringIn(arg)", arg).await?;
        if said != "added" {
            return Err(Trouble::Stuck(format!("the first file: {said}")));
        }
        let life = self.life()?;
        life.pile = pile.to_string();
        life.model.file(file.ids);
        life.model.file_is_in();
        self.verify().await?;
        Ok(())
    }

    /// Starts the browser on the record's profile.
    async fn launch(&mut self) -> Result<(), Trouble> {
        let mut tries = 0;
        let web = loop {
            let profile = self.life()?.profile.path().to_owned();
            let started = self.driver.open(Device::Laptop, &profile, &FLAGS).await;
            match started {
                Ok(web) => break web,
                Err(why) => {
                    tries += 1;
                    self.driver.kill_browsers();
                    if tries == STARTS {
                        return Err(machine(why));
                    }
                    tokio::time::sleep(Duration::from_millis(300)).await;
                }
            }
        };
        self.front = Some(Front::new(web));
        Ok(())
    }

    /// Starts the browser and opens the pile.
    pub(super) async fn start(&mut self) -> Result<(), Trouble> {
        self.launch().await?;
        let pile = self.life()?.pile.clone();
        let address = format!("{}#/pile/{pile}", self.server.address());
        self.front()?.open(&address).await
    }

    /// Starts the browser after a kill and holds what it finds against the model.
    pub(super) async fn start_and_verify(&mut self) -> Result<u64, Trouble> {
        self.start().await?;
        self.verify().await
    }

    /// Holds what is stored, and what the screen says, against the model; how many entries were
    /// acknowledged since the last time.
    pub(super) async fn verify(&mut self) -> Result<u64, Trouble> {
        let pile = json!({ "pile": self.life()?.pile });
        let stored = self.front()?.call("record(arg)", pile.clone()).await?;
        let stored: Stored = serde_json::from_value(stored).map_err(machine)?;
        let held = self.life()?.model.hold_against(&stored);
        let acknowledged = held.map_err(Trouble::Lost)?;
        let wanted = json!({ "pile": pile["pile"], "no": stored.passed });
        let shown = "toPile(arg.pile).then(() => until('the screen to show what is stored', \
                     () => counts()?.no >= arg.no, 8000))";
        self.front()?.call(shown, wanted).await?;
        Ok(acknowledged)
    }

    /// Does things of these kinds, each acknowledged before the next; a failure to keep one is told.
    pub(super) async fn do_all(&mut self, kinds: &[&str]) -> Result<(), Trouble> {
        if self.do_what_is_kept(kinds).await? == kinds.len() {
            return Ok(());
        }
        Err(Trouble::Stuck("the app says that it is not saved".into()))
    }

    /// Does things of these kinds; how many the app says are kept.
    pub(super) async fn do_what_is_kept(&mut self, kinds: &[&str]) -> Result<usize, Trouble> {
        let arg = json!({ "pile": self.life()?.pile, "kinds": kinds });
        let did = self.front()?.call("doAll(arg)", arg).await?;
        let did: Vec<Did> = serde_json::from_value(did).map_err(machine)?;
        let mut kept = 0;
        for did in did {
            if let Some(broken) = did.broken.first() {
                return Err(Trouble::Broken(broken.clone()));
            }
            if did.kept {
                kept += 1;
                let model = &mut self.life()?.model;
                did.mark.into_iter().for_each(|mark| model.marked(mark));
                if did.no > 0 {
                    model.passed(did.no);
                }
            }
        }
        Ok(kept)
    }

    pub(super) fn life(&mut self) -> Result<&mut Life, Trouble> {
        let none = || Trouble::Machine("no record".to_owned());
        self.life.as_mut().ok_or_else(none)
    }

    pub(super) fn front(&self) -> Result<&Front, Trouble> {
        let none = || Trouble::Machine("no browser".to_owned());
        self.front.as_ref().ok_or_else(none)
    }
}

/// So many kinds of things to do, quick ones mostly.
pub(super) fn some_deeds(dice: &mut Dice, most: usize) -> Vec<&'static str> {
    let count = 1 + dice.below(most);
    let kinds = ["no", "no", "maybe", "maybe", "plank", "reject"];
    (0..count).map(|_| *dice.pick(&kinds)).collect()
}
