//! Rounds that kill the browser: right after "saved", under way, while typing, while a file is brought
//! in, while a newer version is fetched or takes over.

use super::life::some_deeds;
use super::model::Half;
use super::{Done, Siege, Trouble};
use crate::dice::Dice;
use serde_json::{Value, json};
use std::time::Duration;

impl Siege {
    /// What was acknowledged a moment ago is there after the kill.
    pub(super) async fn kill_saved(&mut self, dice: &mut Dice) -> Result<Done, Trouble> {
        self.do_all(&some_deeds(dice, 4)).await?;
        self.after_the_kill().await
    }

    /// Several touches without waiting: what was acknowledged by then is there, the others may be.
    pub(super) async fn kill_writing(&mut self, dice: &mut Dice) -> Result<Done, Trouble> {
        self.do_all(&some_deeds(dice, 2)).await?;
        let pile = self.life()?.pile.clone();
        let arg = json!({ "pile": pile, "times": 1 + dice.below(6), "ms": dice.below(40) });
        let said = self.front()?.call("burst(arg)", arg).await?;
        self.life()?
            .model
            .passed(said["sure"].as_u64().unwrap_or(0));
        self.after_the_kill().await
    }

    /// What is half typed is there but for the last keys, which may be on their way.
    pub(super) async fn kill_typing(
        &mut self,
        dice: &mut Dice,
        round: u64,
    ) -> Result<Done, Trouble> {
        if dice.once_in(2) {
            self.do_all(&some_deeds(dice, 2)).await?;
        }
        let sure = format!("9{round:06}");
        let digits: String = (0..1 + dice.below(5))
            .map(|_| char::from(b'0' + dice.below(10) as u8))
            .collect();
        let (at, name) = match dice.below(4) {
            0 => ("form", "a form".to_owned()),
            1 => ("note", format!("a note {round}")),
            _ => ("plank", format!("a plank {round}")),
        };
        let pile = self.life()?.pile.clone();
        let gap = dice.below(25);
        let arg = json!({ "at": at, "pile": pile, "sure": sure, "rest": digits, "gap": gap });
        let whole = self.front()?.call("typing(arg)", arg).await?;
        let whole = whole.as_str().unwrap_or_default().to_owned();
        self.life()?.model.half_typed(name, Half { sure, whole });
        self.after_the_kill().await
    }

    /// A file is in as a whole or not at all; where the app said that it is in, it is.
    pub(super) async fn kill_import(&mut self, dice: &mut Dice) -> Result<Done, Trouble> {
        if dice.once_in(2) {
            self.do_all(&some_deeds(dice, 2)).await?;
        }
        let file = self.life()?.file(5 + dice.below(200));
        let arg = file.hand_over("another-phone.json", false);
        self.life()?.model.file(file.ids);
        let mut said = self.front()?.call("bringIn(arg)", arg).await?;
        let rest = dice.below(160) as u64;
        if rest > 20 {
            tokio::time::sleep(Duration::from_millis(rest)).await;
            said = self.front()?.call("broughtIn()", Value::Null).await?;
        }
        if said == "added" {
            self.life()?.model.file_is_in();
        }
        self.after_the_kill().await
    }

    /// A newer version is fetched, or takes over: whichever opens after the kill, the record is there.
    pub(super) async fn kill_update(&mut self, dice: &mut Dice) -> Result<Done, Trouble> {
        self.do_all(&some_deeds(dice, 2)).await?;
        self.versions += 1;
        let version = self.dist.release();
        let arg = json!({ "number": self.versions, "version": version });
        self.front()?.call("newerComes(arg)", arg).await?;
        if !dice.once_in(3) {
            self.front()?.call("newerWaits()", Value::Null).await?;
        }
        tokio::time::sleep(Duration::from_millis(dice.below(300) as u64)).await;
        self.after_the_kill().await
    }

    /// Kills, starts again, looks.
    pub(super) async fn after_the_kill(&mut self) -> Result<Done, Trouble> {
        self.kill();
        Ok(Done {
            acknowledged: self.start_and_verify().await?,
        })
    }
}
