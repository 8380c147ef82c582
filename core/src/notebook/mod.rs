//! The record: entries that never change, their fold into the state of every piece, the merging of
//! two phones' records, and the file.
//!
//! An entry is never removed and never edited; a correction is another entry that names what it
//! replaces. Nothing here asks what time it is or draws a random number, no clock is ever believed,
//! and nothing that was read is dropped because it was not understood.

mod birth;
mod book;
mod by_id;
mod conflict;
mod csv;
mod device;
mod devices;
mod draft;
mod elsewhere;
mod entry;
mod entry_ids;
mod file;
mod fold;
mod happening;
mod mark;
mod merge;
mod order_of_entries;
mod own_wood;
mod pairs;
mod preview;
mod ranges;
mod related;
mod schema;
mod standing;
mod table;
mod tallied;
mod trouble;
mod visible;
mod visit_file;
mod woods;
mod workshop;
mod writing;

pub use book::{Book, Held, Judgement, Line, Note, PassedLot, Piece, Pile, Recorded, Visit, Wood};
pub use conflict::{Conflict, ConflictSettled, ImportUndone, VARIANTS_SHOWN};
pub use csv::to_csv;
pub use device::{DeviceRenamed, device_identity, free_sign, sign_of};
pub use devices::SharedSign;
pub use draft::{Draft, DraftDefect, DraftValue};
pub use elsewhere::{HandedOver, HandedWay, HandingEnd, KeptElsewhere, OnlyHere, ThisDevice};
pub use entry::{
    ENTRY_VERSION, Entry, EntryError, EntryFault, FIRST_WITH_CHECKSUM, LARGEST_NUMBER, Limits,
    YEARS, date, lines, sealed,
};
pub use entry_ids::EntryIds;
pub use file::{
    FORMAT, FORMAT_VERSION, FileProblem, Header, NotOurs, Problem, Reading, Selection, read, write,
};
pub use fold::fold;
pub use happening::{
    Decision, Happening, Judged, Marked, Measured, Noted, PassedOver, PileOpened, SourcedNumber,
    SpeciesNamed, Told, VisitOpened, Withdrawn, WoodAdded, YardLine, YardTotal,
};
pub use mark::{DEVICE_NAMES, Mark, MarkError, device_name};
pub use merge::{Added, Merged, Notebook};
pub use own_wood::{WoodFault, WoodTyped};
pub use pairs::{PAIRS_AT_ONCE, PairOffered, Sure, pairs};
pub use preview::Preview;
pub use ranges::NumberRanges;
pub use schema::schema;
pub use standing::{Dispute, Standing};
pub use table::{Column, Filter, HEADINGS, PlankFigure, PlankRow, Table, sort_rows, table_rows};
pub use tallied::{
    CustomsTried, PlankCharged, PlankTallied, PlanksSoFar, StillToBuy, Total, VisitTally,
    YardAgainstOurs, YardGap, YardTotalGap, line_of, share_of_a_stage, total_worked, wish_of_spec,
};
pub use trouble::{ClonedDevice, DoubledMark, MissingRun, Orphan};
pub use visible::visible_text;
pub use workshop::{
    Adhesive, BlankCost, BlankOverYear, BlankSize, Came, Checked, Child, Clash, ClashKind, Climate,
    CostAccount, Cut, CutAccount, Discarded, Doubted, Downgraded, Due, DueLot, DueRow, DueWhen,
    End, Expected, FEW_IN_A_LOT, Glued, GluingSet, GrainSeen, GroupedBy, InHandCount, InSection,
    Kind, Lasting, Ledger, Life, Machined, MassAccount, Member, Missing, MoistureRead, MovedError,
    MovedSoFar, MovementChecked, NamingFault, NextStep, NoYear, NotCounted, Origin, Paces,
    PartCost, PieceFigure, Placed, PlanAhead, PlanLot, PredictorTold, ReadyLaminate, Released,
    Reserved, RestLine, RingsStand, RoomRead, Said, Section, SetToRest, Span, Spring, StageCount,
    StagePace, StageSet, StartAnswer, StartFigure, StartWish, StressTest, StressTested, StressTold,
    Tension, Used, Waits, Weighed, WishAnswer, Wished, Witness, WitnessTold, WoodInHand, Work,
    WorkDoubt, blank_of, blank_size_told, blank_stiffness_told, blank_weight_told, child_marks,
    due_by_day, due_by_shelf, laid_out, likely_next, lots_in_hand, plan_told,
};
pub use writing::{Author, Moment, uuid_v7};
