//! What is kept elsewhere too, as far as this device knows: read from the store, noted, kept there again.
//! What counts is decided by core; it is no part of the record.

use crate::app::App;
use crate::record::Record;
use crate::shell::clock;
use leptos::prelude::*;
use stillwood_core::record::queries;
use stillwood_core::record::{
    HandingEnd, Header, KeptElsewhere, NumberRanges, OnlyHere, ThisDevice,
};
use wasm_bindgen_futures::spawn_local;

/// The setting that holds it.
const KEPT: &str = "kept_elsewhere";

/// What the store holds; where that is nothing yet, what an older version kept.
async fn stored(app: App) -> KeptElsewhere {
    let older = app.settings.with_untracked(|settings| {
        let carried = settings.carried.as_ref();
        carried.map(|carried| KeptElsewhere::from_last_saved(&carried.on))
    });
    let Some(store) = app.record.with_value(Record::store) else {
        return older.unwrap_or_default();
    };
    match store.setting(KEPT).await {
        Ok(Some(json)) => serde_json::from_str(&json).unwrap_or_else(|why| {
            // Nothing is taken for kept elsewhere that is not known to be.
            app.say(format!("What is kept elsewhere can't be read ({why})."));
            KeptElsewhere::default()
        }),
        Ok(None) => {
            let known = older.unwrap_or_default();
            keep(app, &known).await;
            known
        }
        Err(why) => {
            app.say(format!("What is kept elsewhere can't be read ({why})."));
            KeptElsewhere::default()
        }
    }
}

async fn keep(app: App, known: &KeptElsewhere) {
    let Some(store) = app.record.with_value(Record::store) else {
        return;
    };
    let kept = match serde_json::to_string(known) {
        Ok(json) => store
            .put_setting(KEPT, &json)
            .await
            .map_err(|why| why.to_string()),
        Err(why) => Err(why.to_string()),
    };
    if let Err(why) = kept {
        app.say(format!("What is kept elsewhere is not noted: {why}"));
    }
}

impl App {
    /// Reads what is kept elsewhere, if that has not been done.
    pub(crate) fn read_kept(self) {
        if self.kept.with_untracked(Option::is_none) {
            self.change_kept(|_| false);
        }
    }

    /// What is on this device only; none until that is known.
    pub(crate) fn only_here(self) -> Option<OnlyHere> {
        self.changed.track();
        self.kept.with(|kept| {
            let kept = kept.as_ref()?;
            let found = self
                .record
                .with_value(|record| kept.only_here(record.log(), record.state()));
            Some(found)
        })
    }

    /// Entries of the file that was handed over last that are not known to be kept elsewhere.
    pub(crate) fn unconfirmed(self) -> usize {
        self.changed.track();
        self.kept.with(|kept| {
            kept.as_ref().map_or(0, |kept| {
                self.record
                    .with_value(|record| kept.unconfirmed(record.log().everything()))
            })
        })
    }

    /// Notes how the handing over of a file with these entries ended.
    pub(crate) fn note_handing(self, end: HandingEnd, entries: NumberRanges) {
        let on = clock::now().day;
        self.change_kept(move |kept| kept.hand_over(end, &on, entries));
    }

    /// The maker says that the file that was handed over last is on another device.
    pub(crate) fn confirm_kept(self) {
        self.change_kept(|kept| {
            kept.confirm();
            true
        });
    }

    /// Notes entries that a file showed to be kept elsewhere.
    pub(crate) fn note_seen_elsewhere(self, shown: NumberRanges) {
        self.change_kept(move |kept| kept.see(&shown));
    }

    fn change_kept(self, change: impl FnOnce(&mut KeptElsewhere) -> bool + 'static) {
        spawn_local(async move {
            // Another window may have noted something meanwhile.
            let before = stored(self).await;
            let mut now = self.kept.get_untracked().unwrap_or_default();
            now.join(&before);
            let changed = change(&mut now);
            self.kept.set(Some(now.clone()));
            if changed {
                keep(self, &now).await;
            }
        });
    }

    /// What a file that was read shows to be kept on another device. To be asked before it is merged.
    pub(crate) fn shown_elsewhere(
        self,
        header: &Header,
        accepted: &[stillwood_core::record::Entry],
    ) -> NumberRanges {
        self.record.with_value(|record| {
            let own = record.by();
            let formerly: Vec<&str> = queries::device_was(record.state(), own).collect();
            let is_own = |by: &str| by == own || formerly.contains(&by);
            let written_by = header.by.as_deref();
            queries::kept_elsewhere_by(record.log(), is_own, written_by, accepted)
        })
    }
}

/// What kind of device this is, for sentences.
pub(crate) fn this_device() -> ThisDevice {
    let thumb = window().match_media("(pointer: coarse)").ok().flatten();
    if thumb.is_some_and(|query| query.matches()) {
        ThisDevice::Phone
    } else {
        ThisDevice::Laptop
    }
}
