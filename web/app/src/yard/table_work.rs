//! The rows of the list of all planks: kept until the record, the tools or the spec change. Those of a long record are
//! worked out some planks at a time, each time after the screen was painted: nothing is held up, and how far it is
//! stands on the screen. Leaving the screen stops it.

use super::table_choice::{Action, under};
use crate::action::Action as Any;
use crate::effect::Effect;
use crate::model::Model;
use crate::route::Route;
use std::cell::RefCell;
use std::rc::Rc;
use stillwood_core::plank::Instruments;
use stillwood_core::record::Table;
use stillwood_core::record::queries::TableUnderWay;
use stillwood_core::verdict::Spec;

/// So many planks are worked out at once, whatever waits.
const AT_ONCE: usize = 1_000;
/// Of more, so many before the screen is painted again.
const SLICE: usize = 250;

/// What rows were worked out of.
#[derive(Debug, Clone, PartialEq)]
struct Of {
    changes: u64,
    instruments: Instruments,
    under: Option<Spec>,
}

impl Of {
    fn now(model: &Model) -> Self {
        Self {
            changes: model.record.changes(),
            instruments: model.settings.instruments,
            under: under(model).map(|(_, spec)| spec),
        }
    }
}

/// The rows, as far as they are worked out.
#[derive(Debug, Default)]
pub struct Work {
    kept: RefCell<Option<(Of, Rc<Table>)>>,
    under_way: Option<(Of, TableUnderWay)>,
    /// The next slice is on its way.
    asked: bool,
}

/// All planks as rows; none while those of a long record are being worked out.
pub fn table(model: &Model) -> Option<Rc<Table>> {
    let of = Of::now(model);
    let mut kept = model.yard.table.work.kept.borrow_mut();
    if let Some((known, table)) = kept.as_ref()
        && *known == of
    {
        return Some(Rc::clone(table));
    }
    if model.state().planks().nth(AT_ONCE).is_some() {
        return None;
    }
    let mut table = Table::of(model.state(), &of.instruments);
    if of.under.is_some() {
        table.judge(model.state(), of.under.as_ref());
    }
    let table = Rc::new(table);
    *kept = Some((of, Rc::clone(&table)));
    Some(table)
}

/// How many planks are worked out, of how many.
pub fn progress(model: &Model) -> (usize, usize) {
    match &model.yard.table.work.under_way {
        Some((_, table)) => table.progress(),
        None => (0, model.state().planks().count()),
    }
}

/// After every action: asks for the next slice where rows are missing on the screen.
pub fn go_on(model: &mut Model) -> Vec<Effect> {
    if model.route != Route::Planks {
        model.yard.table.work.under_way = None;
        return Vec::new();
    }
    if model.yard.table.work.asked || table(model).is_some() {
        return Vec::new();
    }
    model.yard.table.work.asked = true;
    vec![Effect::After(0, Box::new(Any::from(Action::WorkOn)))]
}

/// Works the next planks out.
pub fn work_on(model: &mut Model) {
    model.yard.table.work.asked = false;
    if model.route != Route::Planks {
        return;
    }
    let of = Of::now(model);
    let known = model.yard.table.work.under_way.take();
    let mut table = match known.filter(|(known, _)| *known == of) {
        Some((_, table)) => table,
        None => begin(model, &of),
    };
    let left = table.go_on(model.state(), &of.instruments, of.under.as_ref(), SLICE);
    let work = &mut model.yard.table.work;
    if left {
        work.under_way = Some((of, table));
    } else if let Some(whole) = table.finish() {
        *work.kept.borrow_mut() = Some((of, Rc::new(whole)));
    }
}

/// Where only the spec is another, all planks are judged anew, else worked out anew.
fn begin(model: &mut Model, of: &Of) -> TableUnderWay {
    let local = &mut model.yard.table;
    // Its places are those of the rows that go.
    local.forget_order();
    let kept = local.work.kept.take();
    match kept {
        Some((known, table))
            if (known.changes, &known.instruments) == (of.changes, &of.instruments) =>
        {
            TableUnderWay::judge_anew(Rc::unwrap_or_clone(table))
        }
        _ => TableUnderWay::begin(model.state()),
    }
}
