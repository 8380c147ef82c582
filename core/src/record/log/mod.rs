//! The log: events and their bytes. An entry never changes and is never removed; a correction is another
//! entry that names what it replaces.
//!
//! Entries, their order, the merging of two records, marks and devices, and the file. Nothing here asks what
//! time it is or draws a random number, and nothing that was read is dropped because it was not understood.

pub(crate) mod conflict;
pub(crate) mod device;
pub(crate) mod entry;
pub(crate) mod entry_ids;
pub(crate) mod event;
pub(crate) mod event_leaving;
pub(crate) mod event_making;
pub(crate) mod event_resting;
pub(crate) mod event_target;
pub(crate) mod file;
pub(crate) mod id;
pub(crate) mod mark;
pub(crate) mod merge;
pub(crate) mod number_ranges;
pub(crate) mod order_of_entries;
pub(crate) mod related_pieces;
pub(crate) mod schema;
pub(crate) mod species_named;
pub(crate) mod standing;
pub(crate) mod visible_text;
pub(crate) mod witness_stick;
pub(crate) mod writing;

pub use conflict::{Conflict, ConflictSettled, ImportUndone, VARIANTS_SHOWN};
pub use device::{DeviceRenamed, device_identity, free_sign, sign_of};
pub use entry::checksum::sealed;
pub use entry::read::{EntryError, EntryFault, NAME_SIGNS};
pub use entry::text::date;
pub use entry::written::WrittenEntry;
pub use entry::{ENTRY_VERSION, Entry, FIRST_WITH_CHECKSUM, LARGEST_NUMBER, Limits, YEARS, lines};
pub use entry_ids::EntryIds;
pub use event::{
    Decision, Event, Judged, Marked, Measured, Noted, PassedOver, PileOpened, SamePlank,
    SourcedNumber, VisitOpened, Withdrawn, WoodAdded, YardFigures,
};
pub use event_leaving::{Discarded, Downgraded, Missing, Released, Reserved, Used};
pub use event_making::{
    Adhesive, Child, Cut, Glued, GluingSet, GrainSeen, Machined, Member, PieceKind, Span,
    StressTest, StressTested, Tension,
};
pub use event_resting::{
    Climate, MoistureRead, MovementChecked, Placed, RoomRead, SetToRest, StageSet, Weighed, Witness,
};
pub use event_target::TargetSet;
pub use file::header::{FORMAT, FORMAT_VERSION, Header, Selection};
pub use file::read::{FileProblem, FileReader, FileReading, NotOurs, Problem, read};
pub use file::under_way::{ChangedUnderFile, FileUnderWay};
pub use file::write::write;
pub use id::{Id, IdError};
pub use mark::{DEVICE_NAMES, Mark, MarkError, device_name};
pub use merge::{Added, Log, Merged};
pub use number_ranges::NumberRanges;
pub use schema::schema;
pub use species_named::SpeciesNamed;
pub use standing::{Dispute, EventStatus};
pub use visible_text::{has_hidden_sign, visible_text};
pub use writing::{DeviceId, EventMeta};
