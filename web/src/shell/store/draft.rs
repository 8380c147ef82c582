//! The drafts' way to the disk: at most one write on its way, the newest text always next, no
//! waiting for a pause in the typing, since the phone may die in that pause. It never lets an
//! older text overtake a newer one, nor a keystroke bring back a draft that was saved.

use super::change::{Change, Counter, TextsFound, read_texts};
use super::connection::Connection;
use super::error::StoreError;
use super::names::{DRAFTS, PAGES, SETTINGS};
use super::page::{Added, add};
use crate::shell::timer;
use indexed_db_futures::prelude::*;
use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::rc::Rc;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::spawn_local;

type Tell = Rc<dyn Fn(Result<(), StoreError>)>;

/// A wanted text with the moment it was wanted at, in calls.
type PendingTexts = BTreeMap<String, (u64, Option<String>)>;

/// The texts still to be written, and the turn that every draft write takes.
pub(super) struct Drafts {
    connection: Connection,
    wanted: RefCell<PendingTexts>,
    calls: Cell<u64>,
    /// Taken from a write's first try to the end of its second; handed on in the order of asking.
    pub(super) turn: tokio::sync::Mutex<()>,
    pumping: Cell<bool>,
    tell: RefCell<Option<Tell>>,
}

impl Drafts {
    pub(super) fn new(connection: Connection) -> Self {
        Self {
            connection,
            wanted: RefCell::default(),
            calls: Cell::new(0),
            turn: tokio::sync::Mutex::new(()),
            pumping: Cell::new(false),
            tell: RefCell::new(None),
        }
    }

    pub(super) fn watch(&self, tell: Tell) {
        self.tell.replace(Some(tell));
    }

    /// Notes the newest text and sees to it that it gets written.
    pub(super) fn want(self: &Rc<Self>, key: &str, text: Option<String>) {
        let wanted_at = self.next_call();
        self.connection.known.wants(DRAFTS, key, text.clone());
        self.wanted
            .borrow_mut()
            .insert(key.to_owned(), (wanted_at, text));
        if !self.pumping.replace(true) {
            let this = Rc::clone(self);
            spawn_local(async move {
                // What the key changes on the screen comes first; this follows at once.
                timer::painted().await;
                // The outcome has been told; a text that failed waits for the next call.
                drop(this.settle().await);
                this.pumping.set(false);
            });
        }
    }

    /// Writes what is wanted until nothing is, or until a write fails and nothing newer has come.
    pub(super) async fn settle(&self) -> Result<(), StoreError> {
        loop {
            let _turn = self.turn.lock().await;
            let batch = self.wanted.take();
            if batch.is_empty() {
                return Ok(());
            }
            let change = Change {
                drafts: stillwood_core::order::map_of(
                    batch
                        .iter()
                        .map(|(key, (_, text))| (key.clone(), text.clone())),
                ),
                ..Change::default()
            };
            let outcome = change.write_drafts(&self.connection).await;
            let nothing_newer = self.wanted.borrow().is_empty();
            if outcome.is_err() {
                self.want_again(batch);
            }
            let tell = self.tell.borrow().clone();
            if let Some(tell) = tell {
                tell(outcome.clone());
            }
            if nothing_newer {
                outcome?;
            }
        }
    }

    /// Every draft, once what is wanted here is kept; none where something newer was wanted meanwhile.
    pub(super) async fn settled(&self) -> Result<Option<TextsFound>, StoreError> {
        self.settle().await?;
        let calls = self.calls.get();
        let found = read_texts(&self.connection, DRAFTS).await?;
        Ok((self.calls.get() == calls).then_some(found))
    }

    /// See [`super::Store::append_numbered`]. It overtakes what was wanted before for the drafts that `change` names; a
    /// keystroke after this call is a new draft and is written afterwards.
    pub(super) async fn append_numbered(
        &self,
        counter: &Counter<'_>,
        change: &Change,
        lines: impl Fn(u64) -> Result<String, StoreError>,
    ) -> Result<Added, StoreError> {
        let called_at = self.next_call();
        let _turn = self.turn.lock().await;
        let (added, last) = self
            .connection
            .write(&[PAGES, DRAFTS, SETTINGS], async |transaction| {
                let settings = transaction.object_store(SETTINGS)?;
                let kept: Option<JsValue> = settings.get(counter.setting).primitive()?.await?;
                let (first, last) = counter.next(kept.as_ref())?;
                let added = add(transaction, lines(first)?.as_bytes()).await?;
                let last = last.to_string();
                let numbered = change.clone().with_setting(counter.setting, &last);
                numbered.put_texts(&self.connection, transaction).await?;
                Ok((added, last))
            })
            .await?;
        change.note(&self.connection);
        // Another window may have counted further when this one has to write all again.
        let counted = (counter.setting.to_owned(), JsValue::from_str(&last));
        self.connection
            .known
            .found(SETTINGS, std::iter::once(counted));
        self.overtake(change, called_at);
        Ok(added)
    }

    fn next_call(&self) -> u64 {
        let call = self.calls.get() + 1;
        self.calls.set(call);
        call
    }

    /// Puts unwritten texts back, except where something newer is wanted by now.
    fn want_again(&self, texts: PendingTexts) {
        let mut wanted = self.wanted.borrow_mut();
        for (key, text) in texts {
            wanted.entry(key).or_insert(text);
        }
    }

    /// Drops what was wanted, before `called_at`, for the drafts that `change` has settled.
    fn overtake(&self, change: &Change, called_at: u64) {
        self.wanted.borrow_mut().retain(|key, (wanted_at, _)| {
            *wanted_at > called_at || !change.drafts.contains_key(key)
        });
    }
}
