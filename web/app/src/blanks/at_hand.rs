//! All laminates that can be glued, worked out once for a record and a day.

use crate::model::Model;
use std::cell::RefCell;
use std::rc::Rc;
use stillwood_core::record::{ReadyLaminate, laminates_at_hand};

/// Laminates as they were last worked out, and for how many entries and which day.
#[derive(Debug, Default)]
pub struct AtHand(RefCell<Option<(usize, String, Rc<Vec<ReadyLaminate>>)>>);

/// All laminates that can be glued, those that are ready in front.
pub fn at_hand(model: &Model) -> Rc<Vec<ReadyLaminate>> {
    let entries = model.record.log().len();
    let mut known = model.blanks.matching.at_hand.0.borrow_mut();
    if let Some((of, day, laminates)) = &*known
        && *of == entries
        && *day == model.now.day
    {
        return Rc::clone(laminates);
    }
    let found = laminates_at_hand(model.state(), model.now.date(), &model.settings.instruments);
    let found = Rc::new(found);
    *known = Some((entries, model.now.day.clone(), Rc::clone(&found)));
    found
}
