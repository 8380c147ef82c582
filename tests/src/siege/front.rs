//! The browser in front: scripts in its page, with an answer or a trouble.

use super::Trouble;
use crate::browser::broken;
use serde_json::{Value, json};
use thirtyfour::prelude::*;

/// What every script may call.
const PAGE: &str = include_str!("page.js");

/// A running browser.
pub(super) struct Front {
    web: Option<WebDriver>,
}

impl Front {
    pub(super) fn new(web: WebDriver) -> Self {
        Self { web: Some(web) }
    }

    pub(super) fn web(&self) -> Result<&WebDriver, Trouble> {
        self.web
            .as_ref()
            .ok_or_else(|| Trouble::Machine("no browser".to_owned()))
    }

    /// Opens an address and waits for the app.
    pub(super) async fn open(&self, address: &str) -> Result<(), Trouble> {
        self.web()?.goto(address).await.map_err(machine)?;
        self.call("stands()", Value::Null).await?;
        Ok(())
    }

    /// Opens an address that is none of the app's screens.
    pub(super) async fn leave_for(&self, address: &str) -> Result<(), Trouble> {
        self.web()?.goto(address).await.map_err(machine)
    }

    /// Loads the page anew.
    pub(super) async fn reload(&self) -> Result<(), Trouble> {
        let web = self.web()?;
        let going = web.execute("location.reload()", Vec::new()).await;
        going.map_err(machine)?;
        self.call("pause(30).then(stands)", Value::Null).await?;
        Ok(())
    }

    /// Runs an expression with `arg`; what it promises.
    pub(super) async fn call(&self, expression: &str, arg: Value) -> Result<Value, Trouble> {
        let script = format!(
            "const [arg, done] = arguments;\n{PAGE}\n(async () => ({expression}))().then(\
             (is) => done({{ is: is ?? null }}), (why) => done({{ why: String(why?.message ?? why) }}));"
        );
        let mut tries = 0;
        let answer = loop {
            let asked = self.web()?.execute_async(script.clone(), vec![arg.clone()]);
            match asked.await {
                Ok(answer) => break answer.json().clone(),
                // A page that is just being replaced answers nothing: it is asked again.
                Err(why) if tries < 40 && between_pages(&why.to_string()) => {
                    tries += 1;
                    tokio::time::sleep(std::time::Duration::from_millis(25)).await;
                }
                Err(why) => return Err(machine(why)),
            }
        };
        match answer["why"].as_str() {
            Some(why) if why.contains("it did not open") => Err(Trouble::Broken(why.to_owned())),
            Some(why) => {
                // A panic leaves the page standing and doing nothing: its log knows better.
                self.whole().await?;
                Err(Trouble::Stuck(format!("{expression}: {why}")))
            }
            None => Ok(answer["is"].clone()),
        }
    }

    /// Fails where a page broke.
    pub(super) async fn whole(&self) -> Result<(), Trouble> {
        let broken = broken(self.web()?).await;
        if broken.is_empty() {
            Ok(())
        } else {
            Err(Trouble::Broken(broken.join(" | ")))
        }
    }

    /// Sends a command to the browser.
    pub(super) async fn command(&self, name: &str, params: Value) -> Result<Value, Trouble> {
        let sent = self.web()?.cdp().send_raw(name, params).await;
        sent.map_err(|why| Trouble::Machine(format!("{name}: {why}")))
    }

    /// Empties a store of the app's origin from outside.
    pub(super) async fn clear(&self, origin: &str, what: &str) -> Result<(), Trouble> {
        let params = json!({ "origin": origin.trim_end_matches('/'), "storageTypes": what });
        self.command("Storage.clearDataForOrigin", params).await?;
        Ok(())
    }
}

impl Drop for Front {
    fn drop(&mut self) {
        if let Some(web) = self.web.take() {
            // Its processes are ended by their ids; the client must not wait for an answer.
            let _ = web.leak();
        }
    }
}

fn between_pages(said: &str) -> bool {
    let words = [
        "context", "navigat", "frame", "detached", "loader", "unloaded",
    ];
    words.iter().any(|word| said.contains(word))
}

pub(super) fn machine(why: impl std::fmt::Display) -> Trouble {
    Trouble::Machine(why.to_string().chars().take(600).collect())
}
