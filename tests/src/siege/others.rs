//! Rounds that do worse than kill: a store emptied from outside, a full disk, hostile files, three tabs
//! at once, clocks that go wild.

use super::front::machine;
use super::life::{Life, hand_over, some_deeds};
use super::model::Half;
use super::{Done, Siege, Trouble, lies};
use crate::browser::Folder;
use crate::dice::Dice;
use serde_json::{Value, json};
use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use stillwood_app::Route;
use stillwood_app::route::About;
use stillwood_core::record::Id;

/// What a small disk holds: a browser's profile, the app, and some room.
const DISK: &str = "size=160m";

/// So many things of one kind are looked at, screen by screen.
const OF_A_KIND: usize = 3;

/// So many screens are walked over by one script: none takes longer than the driver waits.
const AT_ONCE: usize = 16;

/// What happens to something that is no piece of wood, and the marking of one.
const NAMED: [&str; 4] = ["visit_opened", "pile_opened", "wood_added", "marked"];

impl Siege {
    /// The store is emptied while the app is open and goes on: what it had acknowledged is there again
    /// as soon as it says "saved" the next time.
    pub(super) async fn wiped(&mut self, dice: &mut Dice, round: u64) -> Result<Done, Trouble> {
        self.do_all(&some_deeds(dice, 3)).await?;
        let pile = self.life()?.pile.clone();
        if dice.once_in(3) {
            let sure = format!("9{round:06}");
            let arg = json!({ "at": "plank", "pile": pile, "sure": sure, "rest": "", "gap": 0 });
            self.front()?.call("typing(arg)", arg).await?;
            let half = Half {
                whole: sure.clone(),
                sure,
            };
            self.life()?
                .model
                .half_typed(format!("a plank {round}"), half);
        }
        let address = self.server.address().to_owned();
        if dice.once_in(2) {
            let web = self.front()?.web()?.clone();
            let first = web.window().await.map_err(machine)?;
            let second = web.new_tab().await.map_err(machine)?;
            web.switch_to_window(second).await.map_err(machine)?;
            self.front()?
                .leave_for(&format!("{address}manifest.webmanifest"))
                .await?;
            let said = self.front()?.call("wipe()", Value::Null).await?;
            web.close_window().await.map_err(machine)?;
            web.switch_to_window(first).await.map_err(machine)?;
            if said != "deleted" {
                return Err(Trouble::Stuck(format!(
                    "the store can't be deleted: {said}"
                )));
            }
        } else {
            self.front()?.clear(&address, "indexeddb").await?;
        }
        self.do_all(&some_deeds(dice, 3)).await?;
        let acknowledged = self.verify().await?;
        if dice.once_in(2) {
            let more = self.after_the_kill().await?.acknowledged;
            return Ok(Done {
                acknowledged: acknowledged + more,
            });
        }
        Ok(Done { acknowledged })
    }

    /// The disk is full for a while: what was acknowledged stays, and what was not is kept when there is
    /// room again.
    pub(super) async fn full(&mut self, dice: &mut Dice) -> Result<Done, Trouble> {
        let main = self.set_aside();
        let disk = Disk::new();
        let done = self.full_on(&disk, dice).await;
        self.take_up(main);
        done
    }

    async fn full_on(&mut self, disk: &Disk, dice: &mut Dice) -> Result<Done, Trouble> {
        let profile = Folder::within(disk.folder.path());
        self.settle(Life::new(profile)).await?;
        self.do_all(&some_deeds(dice, 3)).await?;
        let mut acknowledged = self.verify().await?;
        let address = self.server.address().to_owned();
        let origin = address.trim_end_matches('/').to_owned();
        if disk.is_small {
            disk.fill(dice.below(3) as u64 * 20_000)?;
        } else {
            let params = json!({ "origin": origin, "quotaSize": 1 });
            self.front()?
                .command("Storage.overrideQuotaForOrigin", params)
                .await?;
        }
        self.do_what_is_kept(&some_deeds(dice, 4)).await?;
        if dice.once_in(2) {
            // It dies while the disk is full.
            self.kill();
            disk.free();
            acknowledged += match self.start_and_verify().await {
                // Chromium finds its files damaged as it starts, and throws all of them away.
                Err(Trouble::Lost(_)) if self.is_empty().await? => return Err(Trouble::Dropped),
                end => told("killed while full", end)?,
            };
            return Ok(Done { acknowledged });
        }
        disk.free();
        if !disk.is_small {
            let params = json!({ "origin": origin });
            self.front()?
                .command("Storage.overrideQuotaForOrigin", params)
                .await?;
        }
        let again = self.front()?.call("tryAgain()", Value::Null).await?;
        if again != true {
            return Err(Trouble::Stuck(
                "there is room again, and nothing is saved".into(),
            ));
        }
        self.do_all(&some_deeds(dice, 2)).await?;
        // It says "saved": all that is on the screen is in the store.
        let all = self.verify().await;
        acknowledged += told("room again", all)?;
        let shown = self
            .front()?
            .call("({ is: counts().no })", Value::Null)
            .await?;
        let more = match self.after_the_kill().await {
            // As above, though the store was read back whole before the kill.
            Err(Trouble::Lost(_)) if self.is_empty().await? => return Err(Trouble::Dropped),
            end => told("room again, killed", end)?.acknowledged,
        };
        let after = self
            .front()?
            .call("({ is: counts().no })", Value::Null)
            .await?;
        if after["is"].as_u64() < shown["is"].as_u64() {
            let told = format!(
                "passed over: {} were on the screen, {} are left",
                shown["is"], after["is"]
            );
            return Err(Trouble::Lost(vec![told]));
        }
        Ok(Done {
            acknowledged: acknowledged + more,
        })
    }

    /// Whether not one entry of the record is in the store.
    async fn is_empty(&mut self) -> Result<bool, Trouble> {
        let arg = json!({ "pile": self.life()?.pile });
        let ask = "record(arg).then((found) => found.ids.length === 0)";
        Ok(self.front()?.call(ask, arg).await? == true)
    }

    /// Hostile files are brought in where they are taken, and every screen is walked over; the maker's
    /// own entries before and after are there.
    pub(super) async fn hostile(&mut self, dice: &mut Dice) -> Result<Done, Trouble> {
        let main = self.set_aside();
        let done = self.hostile_files(dice).await;
        self.take_up(main);
        done
    }

    async fn hostile_files(&mut self, dice: &mut Dice) -> Result<Done, Trouble> {
        self.settle(Life::new(Folder::new("hostile"))).await?;
        self.do_all(&some_deeds(dice, 2)).await?;
        for _ in 0..1 + dice.below(2) {
            let bytes = self.hostile_bytes(dice).await?;
            let arg = hand_over("hostile.json", &bytes, true);
            let said = self.front()?.call("bringIn(arg)", arg).await?;
            if said == "not kept" {
                return Err(Trouble::Stuck("a file was taken and is not kept".into()));
            }
        }
        self.do_all(&some_deeds(dice, 3)).await?;
        let mut acknowledged = self.verify().await?;
        let ids = self.front()?.call("idsOf()", Value::Null).await?;
        for some in screens(&ids).chunks(AT_ONCE) {
            let arg = json!({ "screens": some });
            let poor = self.front()?.call("walk(arg)", arg).await;
            let poor = poor.map_err(|why| match why {
                Trouble::Machine(why) => Trouble::Stuck(format!("one of {some:?}: {why}")),
                other => other,
            })?;
            let poor: Vec<String> = serde_json::from_value(poor).map_err(machine)?;
            if !poor.is_empty() {
                return Err(Trouble::Broken(poor.join("; ")));
            }
        }
        self.do_all(&some_deeds(dice, 2)).await?;
        acknowledged += self.after_the_kill().await?.acknowledged;
        Ok(Done { acknowledged })
    }

    /// A file that was damaged by chance, or a whole one whose numbers, days and devices are lies.
    async fn hostile_bytes(&mut self, dice: &mut Dice) -> Result<Vec<u8>, Trouble> {
        match dice.below(3) {
            0 => return Ok(self.files.file(dice)),
            1 => return Ok(self.files.one_line_damaged(dice)),
            _ => {}
        }
        let ask =
            "stored().then((found) => JSON.parse(found.settings.find(([key]) => key === 'by')[1]))";
        let own = self.front()?.call(ask, Value::Null).await?;
        let own = own.as_str().unwrap_or("K7").to_owned();
        Ok(lies::told(&self.files.good, &own, dice))
    }

    /// Three tabs do things in turns, and at once.
    pub(super) async fn tabs(&mut self, dice: &mut Dice) -> Result<Done, Trouble> {
        let web = self.front()?.web()?.clone();
        let pile = self.life()?.pile.clone();
        let address = format!("{}#/pile/{pile}", self.server.address());
        let mut tabs = vec![web.window().await.map_err(machine)?];
        for _ in 0..2 {
            let tab = web.new_tab().await.map_err(machine)?;
            web.switch_to_window(tab.clone()).await.map_err(machine)?;
            self.front()?.open(&address).await?;
            tabs.push(tab);
        }
        for turn in 0..3 + dice.below(6) {
            let tab = dice.pick(&tabs).clone();
            web.switch_to_window(tab).await.map_err(machine)?;
            self.front()?
                .command("Page.bringToFront", json!({}))
                .await?;
            if turn % 3 == 2 {
                let arg = json!({ "pile": pile, "times": 1 + dice.below(3), "ms": 0 });
                let said = self.front()?.call("burst(arg)", arg).await?;
                // Another tab's may be among what the screen counts: all are looked for later.
                drop(said);
            } else {
                self.do_all(&some_deeds(dice, 2)).await?;
            }
        }
        let mut acknowledged = 0;
        for tab in &tabs {
            web.switch_to_window(tab.clone()).await.map_err(machine)?;
            self.front()?
                .command("Page.bringToFront", json!({}))
                .await?;
            self.front()?
                .call("until('all to be kept', kept)", Value::Null)
                .await?;
            acknowledged += self.verify().await?;
        }
        if dice.once_in(2) {
            acknowledged += self.after_the_kill().await?.acknowledged;
        } else {
            for tab in tabs.iter().skip(1) {
                web.switch_to_window(tab.clone()).await.map_err(machine)?;
                web.close_window().await.map_err(machine)?;
            }
            let first = tabs.swap_remove(0);
            web.switch_to_window(first).await.map_err(machine)?;
        }
        Ok(Done { acknowledged })
    }

    /// The clock stands anywhere between 1970 and 2200.
    pub(super) async fn clock(&mut self, dice: &mut Dice) -> Result<Done, Trouble> {
        let day = format!(
            "{}-{:02}-{:02}T{:02}:59:5{}",
            1970 + dice.below(231),
            1 + dice.below(12),
            1 + dice.below(28),
            dice.below(24),
            dice.below(10)
        );
        let source = format!(
            "(() => {{ const Real = Date; const ahead = Real.parse('{day}') - Real.now();\
             window.Date = class extends Real {{\
                 constructor(...of) {{ of.length ? super(...of) : super(Real.now() + ahead); }}\
                 static now() {{ return Real.now() + ahead; }}\
             }}; }})()"
        );
        let name = "Page.addScriptToEvaluateOnNewDocument";
        let added = self
            .front()?
            .command(name, json!({ "source": source }))
            .await?;
        self.front()?.reload().await?;
        self.do_all(&some_deeds(dice, 4)).await?;
        let mut acknowledged = self.verify().await?;
        if dice.once_in(2) {
            acknowledged += self.after_the_kill().await?.acknowledged;
        } else {
            let params = json!({ "identifier": added["identifier"] });
            let name = "Page.removeScriptToEvaluateOnNewDocument";
            self.front()?.command(name, params).await?;
            self.front()?.reload().await?;
            acknowledged += self.verify().await?;
        }
        Ok(Done { acknowledged })
    }

    /// Ends the browser and sets the record aside, for a round that has one of its own.
    fn set_aside(&mut self) -> Option<Life> {
        if self.front.is_some() {
            self.kill();
        }
        self.life.take()
    }

    fn take_up(&mut self, main: Option<Life>) {
        if self.front.is_some() {
            self.kill();
        }
        self.life = main;
    }
}

/// Every screen of what is in the record, by the kinds of its entries; and what a screen is never about.
fn screens(ids: &Value) -> Vec<String> {
    let some_of = |kinds: &[&str], most: usize| {
        let kinds = kinds.iter().filter_map(|kind| ids[kind].as_array());
        let some = kinds.flat_map(|ids| ids.iter().take(most));
        let read = some.filter_map(|id| id.as_str()?.parse::<Id>().ok());
        read.collect::<Vec<Id>>()
    };
    let of = |kinds: &[&str]| some_of(kinds, OF_A_KIND);
    let others = || {
        let kinds = ids.as_object().into_iter().flatten();
        let names = kinds.map(|(kind, _)| kind.as_str());
        let others = names.filter(|kind| !NAMED.contains(kind));
        others.collect::<Vec<_>>()
    };
    let every = Route::every(|about| {
        let mut found = match about {
            About::Visit => of(&["visit_opened"]),
            About::Pile => of(&["pile_opened"]),
            About::Wood => of(&["wood_added"]),
            About::Plank | About::Piece | About::Blank => {
                let mut found = of(&["marked"]);
                found.extend(some_of(&others(), 1));
                found
            }
        };
        // And one thing that it is not about.
        found.extend(of(&["visit_opened", "wood_added"]).first());
        found
    });
    every.into_iter().map(Route::address).collect()
}

/// A small file system of its own, where this user may have one; else only a folder.
struct Disk {
    folder: Folder,
    is_small: bool,
}

impl Disk {
    fn new() -> Self {
        let folder = Folder::new("disk");
        let mut mount = Command::new("mount");
        mount
            .args(["-t", "tmpfs", "-o", DISK, "tmpfs"])
            .arg(folder.path());
        let mounted = mount.stderr(Stdio::null()).status();
        let is_small = mounted.is_ok_and(|status| status.success());
        Self { folder, is_small }
    }

    /// Fills it up to so many bytes.
    fn fill(&self, room: u64) -> Result<(), Trouble> {
        let mut file = fs::File::create(self.filler()).map_err(machine)?;
        let block = [0x55_u8; 4096];
        // Until there is no room: that is the end that is wanted.
        while file.write_all(&block).is_ok() {}
        let full = file.metadata().map_err(machine)?.len();
        file.set_len(full.saturating_sub(room)).map_err(machine)
    }

    fn free(&self) {
        // It is only there where the disk was filled.
        let _ = fs::remove_file(self.filler());
    }

    fn filler(&self) -> std::path::PathBuf {
        self.folder.path().join("filler")
    }
}

impl Drop for Disk {
    fn drop(&mut self) {
        if self.is_small {
            unmount(self.folder.path());
        }
    }
}

fn unmount(folder: &Path) {
    // A browser that has just been killed may hold it for a moment more; lazily it goes by and by.
    let mut umount = Command::new("umount");
    let _ = umount.arg("-l").arg(folder).stderr(Stdio::null()).status();
}

/// A loss with the moment at which it came about.
fn told<T>(when: &str, end: Result<T, Trouble>) -> Result<T, Trouble> {
    end.map_err(|trouble| match trouble {
        Trouble::Lost(mut what) => {
            what.insert(0, when.to_owned());
            Trouble::Lost(what)
        }
        other => other,
    })
}
