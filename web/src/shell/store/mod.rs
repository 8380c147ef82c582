//! What the app keeps in the browser: pages of entries, half-typed drafts, settings, in IndexedDB.
//! It never looks inside what it keeps: an entry is a line of text to it. A page, once written, is
//! never written to again; only [`Store::compact`] takes pages away, and only those whose whole
//! content its own new page holds. So a second tab, or a repeated write, can add but never undo.
//!
//! Nothing counts as kept before the function that keeps it has returned `Ok`.

mod change;
mod connection;
mod draft;
mod error;
mod page;
mod persist;
#[cfg(test)]
mod tests;

pub(crate) use change::{Change, Counter};
pub(crate) use error::{StoreError, name_and_message};
pub(crate) use page::{Page, PageKey, Pages};
pub(crate) use persist::{Persistence, ask_to_persist, bytes_used, persisted};

use connection::{Connection, DRAFTS, SETTINGS};
use draft::Drafts;
use std::rc::Rc;

/// The name of the browser's database.
pub(crate) const DATABASE: &str = "stillwood";

/// The place where everything is kept. Cheap to clone; clones are the same place.
#[derive(Clone)]
pub(crate) struct Store {
    connection: Connection,
    drafts: Rc<Drafts>,
}

impl Store {
    /// Opens the app's database, making it at the very first start.
    pub(crate) async fn open() -> Result<Self, StoreError> {
        Self::open_named(DATABASE).await
    }

    /// The same under another name, for tests.
    pub(crate) async fn open_named(name: &str) -> Result<Self, StoreError> {
        let connection = Connection::new(name);
        connection.database().await?;
        Ok(Self {
            drafts: Rc::new(Drafts::new(connection.clone())),
            connection,
        })
    }

    /// Puts one page of entries, one a line, into the record. Returns when it is kept.
    pub(crate) async fn append(&self, lines: &str) -> Result<PageKey, StoreError> {
        page::append(&self.connection, lines).await
    }

    /// Every page there is, oldest first.
    pub(crate) async fn read_all(&self) -> Result<Pages, StoreError> {
        page::read(&self.connection, None).await
    }

    /// The pages written after `key`, by this tab or another.
    pub(crate) async fn read_since(&self, key: PageKey) -> Result<Pages, StoreError> {
        page::read(&self.connection, Some(key)).await
    }

    /// Writes `lines` as one new page and takes the pages `keys` away, both or neither. `lines`
    /// has to hold every entry of those pages: what another tab wrote elsewhere stays untouched.
    pub(crate) async fn compact(
        &self,
        keys: &[PageKey],
        lines: &str,
    ) -> Result<PageKey, StoreError> {
        page::compact(&self.connection, keys, lines).await
    }

    /// Makes several changes, all or none. A draft that `change` removes stays removed even if an
    /// older keystroke was still on its way to the disk.
    pub(crate) async fn commit(&self, change: &Change) -> Result<Option<PageKey>, StoreError> {
        self.drafts.commit(change).await
    }

    /// Keeps a page and drops the draft it came from: never both, never neither.
    #[cfg(test)]
    pub(crate) async fn append_and_remove_draft(
        &self,
        lines: &str,
        draft: &str,
    ) -> Result<Option<PageKey>, StoreError> {
        self.commit(&Change::new().page(lines).without_draft(draft))
            .await
    }

    /// Takes running numbers and appends the lines that `lines` makes of the first of them, in one
    /// transaction. So two tabs of one device never number alike, and a write that fails leaves no
    /// gap. `change` may name drafts and more settings; its own page is not used.
    pub(crate) async fn append_numbered(
        &self,
        counter: &Counter<'_>,
        change: &Change,
        lines: impl Fn(u64) -> String,
    ) -> Result<(PageKey, u64), StoreError> {
        self.drafts.append_numbered(counter, change, lines).await
    }

    /// Keeps the draft `key`. Call it at every keystroke: it returns at once and writes as soon as
    /// the write before it is done, always the newest text. [`Store::watch_drafts`] tells how it
    /// went.
    pub(crate) fn put_draft(&self, key: &str, json: &str) {
        self.drafts.want(key, Some(json.to_owned()));
    }

    /// Drops the draft `key`, in turn with the writes before it.
    pub(crate) fn remove_draft(&self, key: &str) {
        self.drafts.want(key, None);
    }

    /// Calls `tell` after every draft write with how it went.
    pub(crate) fn watch_drafts(&self, tell: impl Fn(Result<(), StoreError>) + 'static) {
        self.drafts.watch(Rc::new(tell));
    }

    /// Waits until every draft given so far is kept; tries again those that failed.
    pub(crate) async fn drafts_kept(&self) -> Result<(), StoreError> {
        self.drafts.settle().await
    }

    /// Every kept draft with its key.
    pub(crate) async fn all_drafts(&self) -> Result<Vec<(String, String)>, StoreError> {
        change::read_texts(&self.connection, DRAFTS).await
    }

    /// Keeps one setting.
    pub(crate) async fn put_setting(&self, key: &str, json: &str) -> Result<(), StoreError> {
        self.commit(&Change::new().with_setting(key, json))
            .await
            .map(|_| ())
    }

    /// Every setting with its key.
    pub(crate) async fn all_settings(&self) -> Result<Vec<(String, String)>, StoreError> {
        change::read_texts(&self.connection, SETTINGS).await
    }
}
