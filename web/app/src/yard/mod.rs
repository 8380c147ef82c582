//! The yard: visits, piles, planks sorted, measured and judged, tally and bill.

pub mod amounts;
mod beside_usual;
pub mod bill;
pub mod decide;
pub mod defects;
pub mod drawn;
pub mod entering;
pub mod figures;
pub mod forms;
pub mod frame;
pub mod kept;
pub mod laid;
pub mod mark;
pub mod measure;
pub mod named;
pub mod needed;
pub mod pile;
pub mod place;
pub mod plank;
pub mod planks;
pub mod reasons;
pub mod recorded;
pub mod seller;
pub mod sort;
pub mod sorting;
pub mod spec;
pub mod table;
pub mod table_choice;
pub mod table_drawn;
pub mod table_work;
pub mod tally;
mod update;
pub mod verdict;
pub mod visit;

use crate::last_press::LastPress;
use crate::parts::Key;
use entering::Entering;
use stillwood_core::plank::{Field, Reason, RingsBy, WeighedBy};
use stillwood_core::record::{Decision, Draft, Id};
pub use update::{asked_for, is_behind, key, not_recorded, opened, typed, undone, update};

pub use kept::{keep_draft, keep_entering};
pub use sorting::{left_empty, maybe_marked, measure_marked};

/// What only the screens of the yard know.
#[derive(Debug, Default)]
pub struct Local {
    /// The plank being measured.
    pub entering: Option<Entering>,
    /// The reasons chosen for the next No, the main one first.
    pub reasons: Vec<Reason>,
    /// The reasons at hand while a pile is sorted. Their order stays until the screen is left: none moves under the thumb.
    pub reasons_at_hand: Vec<Reason>,
    /// All reasons are shown.
    pub all_reasons: bool,
    /// The mark to be chalked, after a Maybe.
    pub to_chalk: Option<(Id, String)>,
    /// A mark is being taken.
    pub busy: bool,
    /// The mark that a plank is said to bear already, as far as it is typed.
    pub chalked: String,
    /// Planks decided since the app was opened: the screens on which they were measured lie behind, and the way back leads
    /// past them.
    pub behind: Vec<Id>,
    /// The plank that was discarded last, to bring back what was typed.
    pub discarded: Option<Draft>,
    /// When a key of the sort was pressed last.
    pub last_press: LastPress,
    /// A plank in the record that is being rejected, and the reasons chosen.
    pub judging: Option<(Id, Vec<Reason>)>,
    /// The defects of the plank that is being measured are shown.
    pub defects: bool,
    /// The yard's own bill, as far as it is typed and not yet compared.
    pub bill: bill::Local,
    /// The list of planks.
    pub table: table::Local,
    /// What is still to buy on the visit that was shown last.
    pub needed: needed::Kept,
}

/// What may be done on the screens of the yard.
#[derive(Debug, Clone)]
pub enum Action {
    /// Type into this field.
    Activate(Field),
    /// A key of the keypad.
    Press(Key),
    /// A step of the eye, by its words.
    Step(&'static str),
    /// Put a text that may have been meant.
    Offer(String),
    /// The value is as typed: it is not asked about again.
    Confirm,
    /// Weigh another way.
    Weigh(WeighedBy),
    /// Read the rings another way.
    ReadRings(RingsBy),
    /// Show or hide the fields beside those that are always shown.
    More,
    /// Discard what is typed for the plank.
    Discard,
    /// Bring back what was typed for the plank that was discarded last.
    BringBackTyped,
    /// Decide on the plank that is being measured.
    Decide(Decision),
    /// Buy it: what stands open was asked about.
    BuyAllTheSame,
    /// Reject it, for the reasons chosen.
    RejectNow,
    /// Back from choosing reasons.
    NotRejecting,
    /// Choose a reason, or take it away.
    Reason(Reason),
    /// Show all reasons, or fewer.
    AllReasons,
    /// No, for the reasons chosen.
    No(Id),
    /// Maybe: it gets a mark.
    Maybe(Id),
    /// The plank is recorded: its mark is to be chalked.
    Chalk(Id, String),
    /// The mark is chalked.
    Chalked,
    /// The plank that is half typed bears another mark already: that which is typed.
    UseChalked(Id),
    /// Measure a plank of a pile.
    MeasureNew(Id),
    /// Delete the last No of a pile.
    DeleteLastNo(Id),
    /// Of the defects of the plank that is being measured.
    Defects(defects::Action),
    /// On what stands in the record.
    Recorded(recorded::Action),
    /// On the yard's own bill.
    Bill(bill::Action),
    /// On the list of planks.
    Table(table::Action),
}
