//! One open connection to the browser's database, and the one way through it: every write is a
//! strictly durable transaction that is over before the caller hears of it. On a fault the
//! connection is opened afresh and the work is tried once more; all work here is safe to repeat.
//! It never reads what it carries.

use super::error::StoreError;
use crate::shell::timer;
use indexed_db_futures::database::Database;
use indexed_db_futures::internals::SystemRepr;
use indexed_db_futures::prelude::*;
use indexed_db_futures::transaction::{
    Transaction, TransactionDurability, TransactionMode, TransactionOptions,
};
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};

/// 1 for good: a tab with last month's app and a tab with today's have to open the same database.
/// What is inside an entry is brought up to date when it is read, never here.
const VERSION: u32 = 1;

pub(super) const PAGES: &str = "pages";
pub(super) const DRAFTS: &str = "drafts";
pub(super) const SETTINGS: &str = "settings";

/// A browser that has not opened the database by then is taken for one that never will.
const OPENING_LIMIT_MS: i32 = 15_000;

type Slot = Rc<RefCell<Option<Database>>>;

/// The way to one database by name. Cheap to clone; clones share the open connection.
#[derive(Clone)]
pub(super) struct Connection {
    name: Rc<str>,
    slot: Slot,
}

impl Connection {
    pub(super) fn new(name: &str) -> Self {
        Self {
            name: Rc::from(name),
            slot: Slot::default(),
        }
    }

    /// The open database, opened now if it was not.
    pub(super) async fn database(&self) -> Result<Database, StoreError> {
        if let Some(open) = self.slot.borrow().as_ref() {
            return Ok(open.clone());
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

    /// Another tab may want to delete or, one day, upgrade the database; the browser may close it
    /// by itself. In both cases this side lets go and opens again when next asked.
    fn let_go_when_asked(&self, database: &Database) {
        let slot = Rc::downgrade(&self.slot);
        let own = database.clone();
        let let_go = Closure::<dyn FnMut()>::new(move || {
            own.clone().close();
            if let Some(slot) = slot.upgrade() {
                slot.borrow_mut()
                    .take_if(|held| held.as_sys() == own.as_sys());
            }
        })
        .into_js_value();
        let raw: &web_sys::IdbDatabase = database.as_sys();
        raw.set_onversionchange(Some(let_go.unchecked_ref()));
        raw.set_onclose(Some(let_go.unchecked_ref()));
    }

    /// Does `work` in one strict transaction and returns when that has completed. `work` issues
    /// requests and awaits nothing but those: at any other await the browser ends the transaction.
    /// Answers it does not await inside can be awaited once this returns.
    pub(super) async fn write<T>(
        &self,
        stores: &[&str],
        work: impl AsyncFn(&Transaction<'_>) -> Result<T, StoreError>,
    ) -> Result<T, StoreError> {
        match self.write_once(stores, &work).await {
            Ok(done) => Ok(done),
            Err(_first) => {
                self.forget();
                self.write_once(stores, &work).await
            }
        }
    }

    async fn write_once<T>(
        &self,
        stores: &[&str],
        work: &impl AsyncFn(&Transaction<'_>) -> Result<T, StoreError>,
    ) -> Result<T, StoreError> {
        take_planted_fault()?;
        let database = self.database().await?;
        let transaction = database
            .transaction(stores)
            .with_mode(TransactionMode::Readwrite)
            .with_options(strict())
            .build()?;
        // The library reports an aborted transaction without its reason; the browser has it.
        let raw: web_sys::IdbTransaction = transaction.as_sys().clone().unchecked_into();
        let done = work(&transaction).await?;
        match transaction.commit().await {
            Ok(()) => Ok(done),
            Err(error) => Err(match raw.error() {
                Some(reason) => StoreError::from_js(&reason),
                None => error.into(),
            }),
        }
    }

    /// Does `work` in one transaction that only reads.
    pub(super) async fn read<T>(
        &self,
        stores: &[&str],
        work: impl AsyncFn(&Transaction<'_>) -> Result<T, StoreError>,
    ) -> Result<T, StoreError> {
        match self.read_once(stores, &work).await {
            Ok(found) => Ok(found),
            Err(_first) => {
                self.forget();
                self.read_once(stores, &work).await
            }
        }
    }

    async fn read_once<T>(
        &self,
        stores: &[&str],
        work: &impl AsyncFn(&Transaction<'_>) -> Result<T, StoreError>,
    ) -> Result<T, StoreError> {
        let database = self.database().await?;
        let transaction = database
            .transaction(stores)
            .with_mode(TransactionMode::Readonly)
            .build()?;
        // Nothing to commit: the drop at the end closes a transaction that only read.
        work(&transaction).await
    }
}

fn strict() -> TransactionOptions {
    let mut options = TransactionOptions::new();
    options.set_durability(TransactionDurability::Strict);
    options
}

/// For tests: while `globalThis.__stillwoodFailWrites` is a positive number, every write attempt
/// takes one off it and fails, as from a full device, or with the DOMException name that
/// `globalThis.__stillwoodFailAs` holds. A write is tried twice, so 1 is mended and 2 is reported.
fn take_planted_fault() -> Result<(), StoreError> {
    let global = js_sys::global();
    let key = JsValue::from_str("__stillwoodFailWrites");
    let left = js_sys::Reflect::get(&global, &key)
        .ok()
        .and_then(|value| value.as_f64())
        .unwrap_or(0.0);
    if left <= 0.0 {
        return Ok(());
    }
    js_sys::Reflect::set(&global, &key, &JsValue::from_f64(left - 1.0))
        .map_err(|thrown| StoreError::from_js(&thrown))?;
    let name = js_sys::Reflect::get(&global, &JsValue::from_str("__stillwoodFailAs"))
        .ok()
        .and_then(|value| value.as_string())
        .unwrap_or_else(|| "QuotaExceededError".to_owned());
    Err(StoreError::from_name(&name, "planted by a test"))
}
