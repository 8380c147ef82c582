//! What is noted of where else the record is kept, joined to what other windows have noted; and the settings as another
//! window has kept them.

use crate::app::App;
use crate::shell::store::{Change, StoreError};
use stillwood_app::settings::Settings;
use stillwood_app::{Action, book};
use stillwood_core::record::KeptElsewhere;

/// The setting that holds the settings of the screens and tools.
const SETTINGS: &str = "settings";
/// The setting that holds what is kept elsewhere.
pub(crate) const KEPT: &str = "kept_elsewhere";
/// How often it is joined anew where another window keeps noting something.
const TIMES: u32 = 4;

impl App {
    /// Keeps what this window knows of it, with what another window has noted since.
    pub(crate) async fn keep_what_is_elsewhere(&self, json: &str) {
        if let Err(why) = self.joined_and_kept(json).await {
            self.say(format!("The settings are not kept: {why}"));
        }
    }

    /// Takes up the settings as another window has kept them, unless this one is about to keep its own.
    pub(crate) async fn take_settings(&self) -> Result<(), StoreError> {
        let Some(store) = self.store() else {
            return Ok(());
        };
        let Some(json) = store.setting(SETTINGS).await? else {
            return Ok(());
        };
        let (mut kept, wrong) = Settings::read(&json);
        kept.speak(&self.model(|model| model.shell.languages.clone()));
        let own = self.keeping(|keeping| keeping.start_anew || keeping.settings_on_their_way > 0);
        // What can't be read is told at the start.
        if !own && wrong.is_empty() && self.model(|model| model.settings != kept) {
            self.act(book::settings::Action::Kept(Box::new(kept)).into());
        }
        Ok(())
    }

    async fn joined_and_kept(&self, json: &str) -> Result<(), StoreError> {
        let Some(store) = self.store() else {
            return Ok(());
        };
        let not_made = |why: serde_json::Error| StoreError::NotMade(why.to_string());
        let mut known: KeptElsewhere = serde_json::from_str(json).map_err(not_made)?;
        let mut seen = store.setting(KEPT).await?;
        for _ in 0..TIMES {
            if let Some(noted) = seen
                .as_deref()
                // nothing lost: what can't be read was told at the start, and stands for nothing
                .and_then(|noted| serde_json::from_str(noted).ok())
            {
                known.join(&noted);
            }
            let joined = serde_json::to_string(&known).map_err(not_made)?;
            let change = Change::new().with_setting(KEPT, &joined);
            match store.swap_setting(KEPT, seen.as_deref(), &change).await? {
                None => {
                    self.act(Action::Book(book::Action::Kept(known)));
                    return Ok(());
                }
                other => seen = other,
            }
        }
        Err(StoreError::NotMade(
            "another window keeps changing them.".into(),
        ))
    }
}
