//! What is half typed in other windows of this device, and what was half typed while the store could not be read.

use crate::app::App;
use crate::shell::store::{Place, StoreError};
use crate::start::{KeptTexts, load_anew};
use stillwood_app::Action;
use stillwood_app::form::FORM;

/// The half-typed planks and forms of this window, by their keys in the store.
fn by_keys(model: &stillwood_app::Model) -> Result<Vec<(String, String)>, serde_json::Error> {
    let mut all = Vec::new();
    for draft in &model.drafts {
        if let Some(piece) = draft.piece {
            all.push((piece.to_string(), serde_json::to_string(draft)?));
        }
    }
    for (key, form) in &model.forms {
        all.push((format!("{FORM}{key}"), serde_json::to_string(form)?));
    }
    Ok(all)
}

impl App {
    /// Takes in what is half typed as other windows left it, also what they have recorded or discarded meanwhile.
    pub(crate) async fn take_half_typed(&self) -> Result<(), StoreError> {
        let Some(store) = self.store() else {
            return Ok(());
        };
        let Some(mut found) = store.settled_drafts().await? else {
            return Ok(());
        };
        // What the disk refused was recorded here: what it was typed as goes with it.
        let recorded = self.keeping(|keeping| keeping.unsaved.drafts.clone());
        found.texts.retain(|(key, _)| !recorded.contains(key));
        let mut read = KeptTexts::default();
        read.take_drafts(&found);
        for damage in &read.damaged {
            store.can_not_read(&damage.place);
        }
        self.note_damage(read.damaged);
        let (drafts, forms) = (read.drafts, read.forms);
        if self.model(|model| model.drafts != drafts || model.forms != forms) {
            self.act(Action::HalfTyped { drafts, forms });
        }
        Ok(())
    }

    /// Where the start could not read the settings or what is half typed, another start reads them: once what is half
    /// typed here is kept. What another window left under the same key is kept aside.
    pub(crate) async fn started_anew(&self) -> Result<(), StoreError> {
        let (Some(store), true) = (self.store(), self.keeping(|keeping| keeping.start_anew)) else {
            return Ok(());
        };
        let own = self.model(by_keys);
        let own = own.map_err(|why| StoreError::NotMade(why.to_string()))?;
        let there = store.all_drafts().await?;
        for (key, json) in &own {
            if there
                .iter()
                .any(|(other, text)| other == key && text != json)
            {
                store.can_not_read(&Place::Draft(key.clone()));
            }
            store.put_draft(key, json);
        }
        store.drafts_kept().await?;
        load_anew();
        Ok(())
    }
}
