//! All laminates that can be glued, worked out once for a record, a day and the tools.

use crate::model::Model;
use std::cell::RefCell;
use std::rc::Rc;
use stillwood_core::plank::Instruments;
use stillwood_core::record::queries;
use stillwood_core::record::{Piece, PieceKind, ReadyLaminate, laminates_at_hand};

/// Laminates as they were last worked out.
#[derive(Debug, Default)]
pub struct AtHand(RefCell<Option<WorkedOut>>);

#[derive(Debug)]
struct WorkedOut {
    changes: u64,
    day: String,
    instruments: Instruments,
    laminates: Rc<Vec<ReadyLaminate>>,
}

/// All laminates that can be glued, those that are ready in front.
pub fn at_hand(model: &Model) -> Rc<Vec<ReadyLaminate>> {
    let (changes, instruments) = (model.record.changes(), model.settings.instruments);
    let mut known = model.blanks.matching.at_hand.0.borrow_mut();
    if let Some(known) = &*known
        && (known.changes, &known.day, known.instruments) == (changes, &model.now.day, instruments)
    {
        return Rc::clone(&known.laminates);
    }
    let found = laminates_at_hand(model.state(), model.now.date(), &instruments);
    let laminates = Rc::new(found);
    *known = Some(WorkedOut {
        changes,
        day: model.now.day.clone(),
        instruments,
        laminates: Rc::clone(&laminates),
    });
    laminates
}

/// How many laminates lie there that were put to another use: they are left out.
pub fn downgraded(model: &Model) -> usize {
    let stock = queries::stock(model.state());
    let left_out =
        |piece: &&Piece| piece.work.kind == PieceKind::Laminate && piece.work.downgraded.is_some();
    stock.filter(left_out).count()
}
