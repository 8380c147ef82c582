//! What is worked out of a whole state and kept until the state changes. It is no part of the state: a copy of the
//! state finds it anew, and two states that differ in nothing else are the same.

use crate::record::log::id::Id;
use std::any::{Any, TypeId};
use std::collections::BTreeMap;
use std::fmt;
use std::sync::{Arc, Mutex, PoisonError};

/// The last entry of a state, and how many pieces it has: entries are only ever added after the last.
pub(crate) type StateVersion = (Option<(u64, Id)>, usize);

type Worked = BTreeMap<TypeId, Arc<dyn Any + Send + Sync>>;

/// What was worked out, with the state's last entry then.
#[derive(Default)]
pub(crate) struct Memo(Mutex<(StateVersion, Worked)>);

impl Memo {
    /// What is kept of a state as it is now, else made anew. Two may make it at once: both make the same.
    pub(crate) fn of<T: Any + Send + Sync>(
        &self,
        now: StateVersion,
        make: impl FnOnce() -> T,
    ) -> Arc<T> {
        if let Some(known) = self.known(now) {
            return known;
        }
        let new = Arc::new(make());
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if kept.0 != now {
            *kept = (now, Worked::new());
        }
        let any: Arc<dyn Any + Send + Sync> = Arc::clone(&new) as _;
        kept.1.insert(TypeId::of::<T>(), any);
        new
    }

    /// What is kept of a state as it is now; `None` where nothing is.
    pub(crate) fn known<T: Any + Send + Sync>(&self, now: StateVersion) -> Option<Arc<T>> {
        let kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if kept.0 != now {
            return None;
        }
        Arc::clone(kept.1.get(&TypeId::of::<T>())?).downcast().ok()
    }
}

impl Clone for Memo {
    fn clone(&self) -> Self {
        Self::default()
    }
}

impl PartialEq for Memo {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl fmt::Debug for Memo {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Memo")
    }
}
