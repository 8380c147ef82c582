//! One open connection to the browser's database, and the one way through it: every write is a
//! strictly durable transaction that is over before the caller hears of it. On a fault the
//! connection is opened afresh and the work is tried once more; all work here is safe to repeat.
//! Every transaction first looks whether what was there before is still there. It never reads what
//! it carries.

use super::error::StoreError;
use super::known::Known;
use super::names::{DRAFTS, PAGES, SETTINGS};
use crate::shell::timer;
use indexed_db_futures::database::Database;
use indexed_db_futures::internals::SystemRepr;
use indexed_db_futures::prelude::*;
use indexed_db_futures::transaction::{
    Transaction, TransactionDurability, TransactionMode, TransactionOptions,
};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;

/// 1 for good: a tab with last month's app and a tab with today's have to open the same database.
/// What is inside an entry is brought up to date when it is read, never here.
const VERSION: u32 = 1;

/// A browser that has not opened the database by then is taken for one that never will.
const OPENING_LIMIT_MS: i32 = 15_000;

/// How long a store is left alone after a write that the disk refused. A browser may answer from a store
/// whose files are damaged by then, and throw it away at its next start. Only once nobody has it open for
/// some seconds does it read the files anew, and what is missing then is written again from memory.
const REST_MS: f64 = if cfg!(test) { 1.0 } else { 4_000.0 };

type Slot = Rc<RefCell<Option<Database>>>;
type Lost = Rc<RefCell<Option<Rc<dyn Fn()>>>>;

/// Whether a transaction looks first at whether the store is still the one that this window knows.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Look {
    First,
    Not,
}

/// The way to one database by name. Cheap to clone; clones share the open connection.
#[derive(Clone)]
pub(super) struct Connection {
    name: Rc<str>,
    slot: Slot,
    lost: Lost,
    /// Not opened again before this time.
    rests_until: Rc<Cell<f64>>,
    /// What this window knows the store to hold.
    pub(super) known: Rc<Known>,
}

impl Connection {
    pub(super) fn new(name: &str) -> Self {
        Self {
            name: Rc::from(name),
            slot: Slot::default(),
            lost: Lost::default(),
            rests_until: Rc::default(),
            known: Rc::default(),
        }
    }

    /// The open database, opened now if it was not.
    pub(super) async fn database(&self) -> Result<Database, StoreError> {
        if let Some(open) = self.slot.borrow().as_ref() {
            return Ok(open.clone());
        }
        let rest = self.rests_until.get() - js_sys::Date::now();
        if rest > 0.0 && rest <= REST_MS {
            timer::sleep(rest as i32).await;
        }
        let opening = Database::open(&*self.name)
            .with_version(VERSION)
            .with_on_upgrade_needed(|_, database| {
                // Version 1 is the only one, so an upgrade always starts from nothing.
                database
                    .create_object_store(PAGES)
                    .with_auto_increment(true)
                    .build()?;
                database.create_object_store(DRAFTS).build()?;
                database.create_object_store(SETTINGS).build()?;
                Ok(())
            })
            .build()?;
        let database = timer::within(OPENING_LIMIT_MS, opening)
            .await
            .ok_or_else(|| StoreError::Unavailable("it does not answer".to_owned()))??;
        // Two callers may have opened at once: the first to be done serves both.
        if let Some(open) = self.slot.borrow().as_ref() {
            database.close();
            return Ok(open.clone());
        }
        self.let_go_when_asked(&database);
        self.slot.replace(Some(database.clone()));
        Ok(database)
    }

    /// Forgets the connection, so that the next work opens a new one.
    pub(super) fn forget(&self) {
        if let Some(database) = self.slot.take() {
            database.close();
        }
    }

    /// Forgets the connection; where the disk refused the write, the store is left alone for a while.
    fn forget_after(&self, why: &StoreError) {
        match why {
            StoreError::Full | StoreError::Other { .. } => self.let_rest(),
            _ => self.forget(),
        }
    }

    /// Lets go of the store and leaves it alone for a while.
    pub(super) fn let_rest(&self) {
        self.forget();
        self.rests_until.set(js_sys::Date::now() + REST_MS);
    }

    /// Calls `tell` whenever the connection was taken away from outside.
    pub(super) fn watch_loss(&self, tell: impl Fn() + 'static) {
        self.lost.replace(Some(Rc::new(tell)));
    }

    /// Another tab may want to delete or, one day, upgrade the database; the browser may close it
    /// by itself. In both cases this side lets go and opens again when next asked.
    fn let_go_when_asked(&self, database: &Database) {
        let slot = Rc::downgrade(&self.slot);
        let lost = Rc::downgrade(&self.lost);
        let own = database.clone();
        let let_go = Closure::<dyn FnMut()>::new(move || {
            own.clone().close();
            if let Some(slot) = slot.upgrade() {
                slot.borrow_mut()
                    .take_if(|held| held.as_sys() == own.as_sys());
            }
            let tell = lost.upgrade().and_then(|lost| lost.borrow().clone());
            if let Some(tell) = tell {
                tell();
            }
        })
        .into_js_value();
        let raw: &web_sys::IdbDatabase = database.as_sys();
        raw.set_onversionchange(Some(let_go.unchecked_ref()));
        raw.set_onclose(Some(let_go.unchecked_ref()));
    }

    /// Does `work` in one strict transaction and returns when that has completed. `work` issues
    /// requests and awaits nothing but those: at any other await the browser ends the transaction.
    /// Answers it does not await inside can be awaited once this returns. Whatever `work` returns as
    /// an error, the transaction has changed nothing then.
    pub(super) async fn write<T>(
        &self,
        stores: &[&str],
        work: impl AsyncFn(&Transaction<'_>) -> Result<T, StoreError>,
    ) -> Result<T, StoreError> {
        self.write_as(Look::First, stores, work).await
    }

    /// The same, whatever has become of the store.
    pub(super) async fn write_onto_any<T>(
        &self,
        stores: &[&str],
        work: impl AsyncFn(&Transaction<'_>) -> Result<T, StoreError>,
    ) -> Result<T, StoreError> {
        self.write_as(Look::Not, stores, work).await
    }

    async fn write_as<T>(
        &self,
        look: Look,
        stores: &[&str],
        work: impl AsyncFn(&Transaction<'_>) -> Result<T, StoreError>,
    ) -> Result<T, StoreError> {
        match self.write_once(look, stores, &work).await {
            Err(first) if first.may_pass() => {
                self.forget_after(&first);
                let second = self.write_once(look, stores, &work).await;
                if let Err(why) = &second
                    && why.may_pass()
                {
                    self.forget_after(why);
                }
                second
            }
            done => done,
        }
    }

    async fn write_once<T>(
        &self,
        look: Look,
        stores: &[&str],
        work: &impl AsyncFn(&Transaction<'_>) -> Result<T, StoreError>,
    ) -> Result<T, StoreError> {
        #[cfg(test)]
        super::tests::take_planted_fault()?;
        let database = self.database().await?;
        let transaction = self.begun(&database, look, stores).await?;
        let done = work(&transaction).await?;
        completed(transaction).await?;
        Ok(done)
    }

    /// A transaction that writes, with the first look done. Apart from the work, so that it is compiled once.
    async fn begun<'d>(
        &self,
        database: &'d Database,
        look: Look,
        stores: &[&str],
    ) -> Result<Transaction<'d>, StoreError> {
        let transaction = database
            .transaction(stores)
            .with_mode(TransactionMode::Readwrite)
            .with_options(strict())
            .build()?;
        if look == Look::First {
            self.known.check(&transaction, stores).await?;
        }
        Ok(transaction)
    }

    /// Does `work` in one transaction that only reads.
    pub(super) async fn read<T>(
        &self,
        stores: &[&str],
        work: impl AsyncFn(&Transaction<'_>) -> Result<T, StoreError>,
    ) -> Result<T, StoreError> {
        match self.read_once(stores, &work).await {
            Err(first) if first.may_pass() => {
                self.forget();
                self.read_once(stores, &work).await
            }
            found => found,
        }
    }

    async fn read_once<T>(
        &self,
        stores: &[&str],
        work: &impl AsyncFn(&Transaction<'_>) -> Result<T, StoreError>,
    ) -> Result<T, StoreError> {
        let database = self.database().await?;
        let transaction = self.begun_to_read(&database, stores).await?;
        // Nothing to commit: the drop at the end closes a transaction that only read.
        work(&transaction).await
    }

    async fn begun_to_read<'d>(
        &self,
        database: &'d Database,
        stores: &[&str],
    ) -> Result<Transaction<'d>, StoreError> {
        let transaction = database
            .transaction(stores)
            .with_mode(TransactionMode::Readonly)
            .build()?;
        self.known.check(&transaction, stores).await?;
        Ok(transaction)
    }
}

/// Ends a transaction; its fault where it was aborted.
async fn completed(transaction: Transaction<'_>) -> Result<(), StoreError> {
    // The library reports an aborted transaction without its reason; the browser has it.
    let raw: web_sys::IdbTransaction = transaction.as_sys().clone().unchecked_into();
    match transaction.commit().await {
        Ok(()) => Ok(()),
        Err(error) => Err(match raw.error() {
            Some(reason) => StoreError::from_js(&reason),
            None => error.into(),
        }),
    }
}

fn strict() -> TransactionOptions {
    let mut options = TransactionOptions::new();
    options.set_durability(TransactionDurability::Strict);
    options
}
