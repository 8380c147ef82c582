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

/// Of one question so many answers are kept: two days, two scales or two visits are asked about in turn.
const ANSWERS_KEPT: usize = 4;

/// What was asked and its answer, that found last first.
struct Answers<Q, T>(Vec<(Q, Arc<T>)>);

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
        self.keep(now, Arc::clone(&new));
        new
    }

    /// The answer to what was asked of a state as it is now: one of the few found last, else found anew. What is asked
    /// about and its answer name by their types which question it is.
    pub(crate) fn answer<Q, T>(
        &self,
        now: StateVersion,
        asked: Q,
        find: impl FnOnce() -> T,
    ) -> Arc<T>
    where
        Q: Any + Send + Sync + Clone + PartialEq,
        T: Any + Send + Sync,
    {
        let known = self.known::<Answers<Q, T>>(now);
        let mut known = known.iter().flat_map(|kept| &kept.0);
        if let Some((_, answer)) = known.find(|(of, _)| *of == asked) {
            return Arc::clone(answer);
        }
        let answer = Arc::new(find());
        let earlier = self.known::<Answers<Q, T>>(now);
        let earlier = earlier.iter().flat_map(|kept| &kept.0).cloned();
        let mut answers = vec![(asked, Arc::clone(&answer))];
        answers.extend(earlier.take(ANSWERS_KEPT - 1));
        self.keep(now, Arc::new(Answers(answers)));
        answer
    }

    fn keep<T: Any + Send + Sync>(&self, now: StateVersion, new: Arc<T>) {
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if kept.0 != now {
            *kept = (now, Worked::new());
        }
        kept.1.insert(TypeId::of::<T>(), new as _);
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

#[cfg(test)]
mod tests {
    use super::*;
    use std::cell::Cell;

    #[test]
    fn the_answers_found_last_are_kept_until_the_state_changes() {
        let memo = Memo::default();
        let found = Cell::new(0);
        let ask = |version: usize, asked: u32| {
            let find = || {
                found.set(found.get() + 1);
                format!("of {asked}")
            };
            assert_eq!(
                *memo.answer((None, version), asked, find),
                format!("of {asked}")
            );
            found.get()
        };
        assert_eq!(ask(1, 7), 1);
        // Not the first alone: what is asked next is kept as well.
        assert_eq!((ask(1, 8), ask(1, 8), ask(1, 7)), (2, 2, 2));
        // No more than a few are kept: the oldest goes.
        (9..=11).for_each(|asked| _ = ask(1, asked));
        assert_eq!((ask(1, 8), ask(1, 7)), (5, 6));
        assert_eq!(ask(2, 7), 7, "the state has changed");
    }
}
