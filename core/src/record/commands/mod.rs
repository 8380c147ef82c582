//! The commands: what a filled form becomes, events or errors by field.
//!
//! A file a form. Each has its fields (by their stored names), what stands in it when it is opened afresh
//! (`begins`), and its command: the events that the form says with the questions that they raise, or all
//! that is wrong with it.

pub mod check_rack;
pub mod climate;
pub mod cut;
pub mod cut_plan;
pub mod decide_plank;
pub mod delete;
pub mod device_name;
pub(crate) mod draft;
pub(crate) mod draft_readings;
pub(crate) mod field_error;
pub(crate) mod field_kind;
pub(crate) mod filled;
pub mod flatten_again;
pub(crate) mod form;
pub mod glue;
pub mod gluing_limits;
pub mod log_room_air;
pub mod note;
pub(crate) mod open_plank;
pub(crate) mod own_wood;
pub mod own_wood_form;
pub mod pile;
pub mod put_away;
pub mod rest_times;
pub mod save_target;
pub mod settle;
pub mod sort;
pub mod spec;
pub mod spec_criteria;
pub mod tally_rule;
pub mod undo_import;
pub mod visit;
pub mod witness;
pub mod workshop;
pub mod yard_tally;

pub use decide_plank::{
    Deciding, PlankSetting, draft_sheet, own_wood, plank_setting, plank_warnings,
};
pub use draft::{Draft, DraftDefect, DraftValue, field_key};
pub use draft_readings::{
    DraftReadings, defect_from_key, defect_to_key, draft_readings, restated, rings_by, understood,
    weighed_by,
};
pub use field_error::{FieldError, FieldErrors};
pub use field_kind::{FieldKind, FormField, read_as};
pub use filled::{Context, FieldQuestion, Filled, NewEvent};
pub use form::{CONFIRMED, DAY, Form, FormReader, NAME_LETTERS, Texts, as_json, confirm};
pub use open_plank::{next_maybe, plank_before, plank_draft};
pub use own_wood::{WoodFault, WoodTyped};
pub use workshop::{WORKSHOP_COMMANDS, WorkshopCommand, workshop_command};
pub use yard_tally::YardUnit;
