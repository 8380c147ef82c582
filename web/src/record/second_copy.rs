//! The second copy of the record, for the time after the disk refused a write: kept until a start has shown
//! that the database holds all of it.

use super::{Record, read_line};
use crate::app::App;
use crate::shell::second_copy;
use crate::shell::store::StoreError;
use leptos::prelude::*;
use stillwood_core::record::{Entry, Limits, lines};

impl App {
    fn copy_name(self) -> &'static str {
        match self.demo.get_untracked() {
            true => "sample",
            false => "record",
        }
    }

    /// Keeps the whole record a second time; false where the browser has no place for it.
    pub(super) async fn keep_second_copy(self) -> Result<bool, StoreError> {
        let all = self.record.with_value(|record| {
            let all: Vec<Entry> = record.log.everything().cloned().collect();
            lines(&all)
        });
        second_copy::keep(self.copy_name(), &all).await
    }

    /// After the start: takes what the second copy holds and the database has lost, and drops the copy.
    pub(crate) async fn take_second_copy(self) -> Result<(), StoreError> {
        let Some(copy) = second_copy::read(self.copy_name()).await? else {
            return Ok(());
        };
        let limits = Limits::default();
        let mut missing = Vec::new();
        let mut unread = 0_usize;
        self.record.with_value(|record| {
            for line in copy.lines() {
                match read_line(line.as_bytes(), &limits) {
                    Ok(entry) if record.log.holds(&entry) => {}
                    Ok(entry) => missing.push(entry),
                    // nothing lost: it is counted, told, and the copy stays
                    Err(_) => unread += 1,
                }
            }
        });
        if !missing.is_empty() {
            let Some(store) = self.record.with_value(Record::store) else {
                return Err(StoreError::NoStore);
            };
            let page = lines(&missing);
            let added = self
                .onto_what_was(async || store.append(&page).await)
                .await?;
            self.record.update_value(|record| {
                record.merge(missing);
            });
            if !store.wrote(added) {
                self.catch_up();
            }
            self.changed.update(|n| *n = n.wrapping_add(1));
            self.emptied.set(true);
        }
        if unread > 0 {
            // What can't be read stays where it is.
            self.say(format!(
                "{unread} lines of the second copy of the record can't be read. It is kept as it is."
            ));
            return Ok(());
        }
        second_copy::discard(self.copy_name()).await
    }
}
