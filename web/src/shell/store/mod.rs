//! What the app keeps in the browser: pages of entries, half-typed drafts, settings, in IndexedDB.
//! It never looks inside what it keeps: an entry is a line of text to it. A page, once written, is
//! never written to again; only [`Store::gather`] takes pages away, and only those whose whole
//! content its own new page holds. So a second tab, or a repeated write, can add but never undo.
//!
//! Nothing counts as kept before the function that keeps it has returned `Ok`: it was read back then.
//! Where a function fails with [`StoreError::Emptied`], what was kept before is gone; then
//! [`Store::write_again`] comes first.

mod again;
mod change;
mod connection;
mod damage;
mod draft;
mod error;
mod known;
mod names;
mod page;
mod persist;
#[cfg(test)]
mod tests;

pub(crate) use change::{ASIDE, Change, Counter, TextsFound};
pub(crate) use damage::{Damage, Place};
pub(crate) use error::{StoreError, name_and_message};
pub(crate) use names::PageKey;
pub(crate) use page::{Added, Page, Pages};
pub(crate) use persist::{Persistence, ask_to_persist, bytes_used, persisted};

use connection::Connection;
use draft::Drafts;
use names::{DRAFTS, SETTINGS};
use std::rc::Rc;

/// The name of the browser's database.
pub(crate) const DATABASE: &str = "stillwood";

/// The place where everything is kept. Cheap to clone; clones are the same place.
#[derive(Clone)]
pub(crate) struct Store {
    connection: Connection,
    drafts: Rc<Drafts>,
}

/// The database of the sample workshop, apart from the maker's own.
pub(crate) const SAMPLE: &str = "stillwood-demo";

impl Store {
    /// Opens the app's database, making it at the very first start.
    pub(crate) async fn open() -> Result<Self, StoreError> {
        Self::open_named(DATABASE).await
    }

    /// The store of the maker's own record, or of the sample. Of the maker's own every write looks whether it is
    /// still what it was; the sample's may go at any time.
    pub(crate) async fn open_record(sample: bool) -> Result<Self, StoreError> {
        if sample {
            return Self::open_named(SAMPLE).await;
        }
        let store = Self::open().await?;
        store.claim().await?;
        Ok(store)
    }

    /// The same under another name.
    pub(crate) async fn open_named(name: &str) -> Result<Self, StoreError> {
        let connection = Connection::new(name);
        connection.database().await?;
        Ok(Self {
            drafts: Rc::new(Drafts::new(connection.clone())),
            connection,
        })
    }

    /// Calls `tell` whenever the connection was taken away from outside: the store may be gone.
    pub(crate) fn watch_loss(&self, tell: impl Fn() + 'static) {
        self.connection.watch_loss(tell);
    }

    /// Puts entries, one a line, into the record. Returns when they are kept.
    pub(crate) async fn append(&self, lines: &str) -> Result<Added, StoreError> {
        page::append(&self.connection, lines.as_bytes()).await
    }

    /// Puts entries into the record, all in one transaction: `part` gives their lines from part 0 on, until there
    /// is none, or an error, with which nothing is written. A long record never lies in memory as one text.
    pub(crate) async fn append_parts(
        &self,
        part: impl Fn(usize) -> Result<Option<String>, StoreError>,
    ) -> Result<Added, StoreError> {
        page::append_parts(&self.connection, part).await
    }

    /// Takes note of pages of one's own. False where pages of other windows lie before them that were
    /// not read: they have to be caught up with.
    pub(crate) fn wrote(&self, added: Added) -> bool {
        self.connection.known.wrote(added)
    }

    /// Gives every page there is, oldest first, some at a time; one may come twice.
    pub(crate) async fn read_each(&self, each: impl FnMut(Pages)) -> Result<(), StoreError> {
        page::read(&self.connection, None, each).await
    }

    /// Every page there is, oldest first.
    #[cfg(test)]
    pub(crate) async fn read_all(&self) -> Result<Pages, StoreError> {
        let mut all = Pages::default();
        self.read_each(|pages| all.append(pages)).await?;
        Ok(all)
    }

    /// The pages written since by other tabs.
    pub(crate) async fn read_new(&self) -> Result<Pages, StoreError> {
        let mut new = Pages::default();
        let last = self.connection.known.last();
        page::read(&self.connection, last, |pages| new.append(pages)).await?;
        Ok(new)
    }

    /// Writes the lines of pages as one new page and takes those pages away, both or neither: those
    /// that are still there and that `whole` finds nothing wrong with.
    pub(crate) async fn gather(
        &self,
        keys: &[PageKey],
        whole: impl Fn(&[u8]) -> bool,
    ) -> Result<Option<Added>, StoreError> {
        page::gather(&self.connection, keys, whole).await
    }

    /// Keeps a page and drops the draft it came from: never both, never neither.
    #[cfg(test)]
    pub(crate) async fn append_and_remove_draft(
        &self,
        lines: &str,
        draft: &str,
    ) -> Result<Added, StoreError> {
        let counter = Counter {
            setting: "seq",
            seen: &|| 0,
            take: 1,
        };
        let change = Change::new().without_draft(draft);
        self.append_numbered(&counter, &change, |_| Ok(lines.to_owned()))
            .await
    }

    /// Takes running numbers and appends the lines that `lines` makes of the first of them, in one
    /// transaction. So two tabs of one device never number alike, and a write that fails leaves no
    /// gap; nor does one that `lines` refuses. `change` may name drafts and more settings. A draft that it removes stays
    /// removed even if an older keystroke was still on its way to the disk.
    pub(crate) async fn append_numbered(
        &self,
        counter: &Counter<'_>,
        change: &Change,
        lines: impl Fn(u64) -> Result<String, StoreError>,
    ) -> Result<Added, StoreError> {
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
        Ok(self.read_drafts().await?.texts)
    }

    /// The same, and what can't be read among them.
    pub(crate) async fn read_drafts(&self) -> Result<TextsFound, StoreError> {
        change::read_texts(&self.connection, DRAFTS).await
    }

    /// Every draft as all windows left it, once what this one wants is kept; none where it wants something newer by
    /// now.
    pub(crate) async fn settled_drafts(&self) -> Result<Option<TextsFound>, StoreError> {
        self.drafts.settled().await
    }

    /// Takes note of a draft or a setting that can't be read: it is kept under another key before
    /// anything is written over it.
    pub(crate) fn can_not_read(&self, place: &Place) {
        match place {
            Place::Draft(key) => self.connection.known.damaged_at(DRAFTS, key),
            Place::Setting(key) => self.connection.known.damaged_at(SETTINGS, key),
            // Nothing is ever written over a page.
            Place::Page(_) => {}
        }
    }

    /// Keeps one setting.
    pub(crate) async fn put_setting(&self, key: &str, json: &str) -> Result<(), StoreError> {
        let change = Change::new().with_setting(key, json);
        change.write_settings(&self.connection).await
    }

    /// Drops one setting.
    pub(crate) async fn remove_setting(&self, key: &str) -> Result<(), StoreError> {
        let change = Change::new().without_setting(key);
        change.write_settings(&self.connection).await
    }

    /// Lets go of the store for some seconds, so that the browser reads its files anew.
    pub(crate) fn let_rest(&self) {
        self.connection.let_rest();
    }

    /// One setting as text; none where it is missing or no text.
    pub(crate) async fn setting(&self, key: &str) -> Result<Option<String>, StoreError> {
        change::setting(&self.connection, key).await
    }

    /// Makes a change if a setting still holds what was seen; else gives what it holds by now.
    pub(crate) async fn swap_setting(
        &self,
        key: &str,
        seen: Option<&str>,
        change: &Change,
    ) -> Result<Option<String>, StoreError> {
        change.write_if(&self.connection, key, seen).await
    }

    /// Every setting with its key, and what can't be read among them.
    pub(crate) async fn read_settings(&self) -> Result<TextsFound, StoreError> {
        change::read_texts(&self.connection, SETTINGS).await
    }
}
