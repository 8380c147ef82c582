//! What takes a while to work out of the whole record, kept until the record, the day or what is asked changes.

use crate::model::Model;
use std::any::Any;
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fmt;
use std::rc::Rc;

/// What was asked, and the answer.
type Known = (u64, String, Rc<dyn Any>);

/// The last answer of each kind.
#[derive(Default)]
pub struct Worked(RefCell<BTreeMap<&'static str, Known>>);

impl fmt::Debug for Worked {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Worked")
    }
}

/// The answer of a kind to what is asked: as it was worked out before, else anew.
pub fn worked<T: 'static>(
    model: &Model,
    kind: &'static str,
    asked: &impl fmt::Debug,
    make: impl FnOnce() -> T,
) -> Rc<T> {
    let changes = model.record.changes();
    let asked = format!(
        "{asked:?} {} {:?} {:?}",
        model.now.day, model.settings.instruments, model.settings.language
    );
    let known = model.book.worked.0.borrow().get(kind).cloned();
    if let Some((of, before, answer)) = known
        && of == changes
        && before == asked
        && let Ok(answer) = answer.downcast::<T>()
    {
        return answer;
    }
    let answer = Rc::new(make());
    let any: Rc<dyn Any> = Rc::clone(&answer) as _;
    model
        .book
        .worked
        .0
        .borrow_mut()
        .insert(kind, (changes, asked, any));
    answer
}
