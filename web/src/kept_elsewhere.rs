//! What is noted of where else the record is kept, joined to what other windows have noted.

use crate::app::App;
use crate::shell::store::{Change, StoreError};
use stillwood_app::{Action, book};
use stillwood_core::record::KeptElsewhere;

/// The setting that holds it.
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

    async fn joined_and_kept(&self, json: &str) -> Result<(), StoreError> {
        let Some(store) = self.store() else {
            return Ok(());
        };
        let not_made = |why: serde_json::Error| StoreError::NotMade(why.to_string());
        let mut known: KeptElsewhere = serde_json::from_str(json).map_err(not_made)?;
        let mut seen = store.setting(KEPT).await?;
        for _ in 0..TIMES {
            // nothing lost: what can't be read was told at the start, and stands for nothing
            if let Some(noted) = seen
                .as_deref()
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
