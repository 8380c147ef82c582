//! The queries: what a screen asks of a record, a file a question. Each is a function of the state, and of
//! what the asker knows (the day, the tools, the units).
//!
//! They change nothing. What is worked out of a whole state may be kept in its memo until the state changes.

pub(crate) mod at_hand;
pub(crate) mod blank_cost;
pub(crate) mod bought_under;
pub(crate) mod called;
pub(crate) mod csv;
pub(crate) mod deleted;
pub(crate) mod deleted_entries;
pub(crate) mod devices;
pub(crate) mod dry_day;
pub(crate) mod drying;
pub(crate) mod due;
pub(crate) mod elsewhere;
pub(crate) mod family;
pub(crate) mod find_mark;
pub(crate) mod integrity;
pub(crate) mod lasting;
pub(crate) mod layout;
pub(crate) mod looks_like;
pub(crate) mod lots;
pub(crate) mod marks;
pub(crate) mod moved_so_far;
pub(crate) mod movement;
pub(crate) mod next_step;
pub(crate) mod not_at_rest;
pub(crate) mod outcomes;
pub(crate) mod over_year;
pub(crate) mod own_readings;
pub(crate) mod pace;
pub(crate) mod pairs;
pub(crate) mod piece_figure;
pub(crate) mod plan;
pub(crate) mod preview;
pub(crate) mod proposal;
pub mod quick_questions;
pub(crate) mod rack_lots;
pub(crate) mod racks;
pub(crate) mod ready;
pub(crate) mod rest_over;
pub(crate) mod rests;
pub(crate) mod room_air;
pub(crate) mod section;
pub(crate) mod sort_reasons;
pub(crate) mod specs_on_offer;
pub(crate) mod start;
pub(crate) mod stock;
pub(crate) mod stress;
pub(crate) mod surely_least;
pub(crate) mod table;
pub(crate) mod target;
pub(crate) mod target_short;
pub(crate) mod to_put_away;
pub(crate) mod turned_over;
pub(crate) mod visit_file;
pub(crate) mod visit_tally;
pub(crate) mod volume_account;
pub(crate) mod volume_balance;
pub(crate) mod weight_over_time;
pub(crate) mod witness_sticks;
pub(crate) mod woods;
pub(crate) mod work_warnings;

pub use at_hand::{laminates_at_hand, ring_slant, usual_laminates};
pub use blank_cost::{BlankCost, CostAccount, PartCost, blank_cost, cost_account, wood_cost};
pub use bought_under::{BoughtUnder, bought_under};
pub use called::Called;
pub use csv::to_csv;
pub use deleted::{Deleted, Deletion, deleted, deleted_with, deletion, is_in_deleted};
pub use deleted_entries::{DeletedEntries, deleted_entries};
pub use devices::{
    SharedSign, device_shown, device_was, name_of_device, shared_signs, signs_taken,
};
pub use dry_day::{DryDay, dry_day};
pub use drying::{drying_report, explain_drying, room_of_rack, weighed_in_room, weight_at_rest};
pub use due::{
    Due, DueWhen, Waits, due, due_by_day, in_order_of_days, in_room_since, resting_in_room,
    weeks_before_cut,
};
pub use elsewhere::{
    HandedOver, HandedWay, HandingEnd, KeptElsewhere, OnlyHere, ThisDevice, kept_elsewhere_by,
};
pub use family::{
    StageCount, ancestors, child_marks, descendants, made_from, made_of, plank_of, planks_of,
    stage_counts, touched_by_batch, woods_in, woods_named,
};
pub use find_mark::{Found, find_mark, find_mark_called};
pub use integrity::{
    ClonedDevice, DoubledMark, MissingRun, Orphan, cloned_devices, doubled_marks, missing_runs,
    orphans, pieces_with_mark,
};
pub use lasting::{Lasting, lasting};
pub use layout::{
    RingsStand, explain_part, explain_plan, laid_out, rings_in, rings_to_cut, spring_allowed,
    stock_to_cut,
};
pub use looks_like::looks_like;
pub use lots::{DueLot, DueRow, FEW_IN_A_LOT};
pub use marks::{NamingFault, compare_marks, marks_for, naming_faults, short_marks};
pub use moved_so_far::{MovedSoFar, moved_so_far};
pub use movement::{
    Checked, CountsFrom, MovedError, Starts, change_worked, checks_since, has_start, moved,
    moved_from, stage_limits, stage_of,
};
pub use next_step::{NextStep, likely_next};
pub use not_at_rest::{NotAtRest, not_at_rest};
pub use outcomes::{
    Came, GroupName, GroupedBy, PredictorFound, YardReading, largest_compared, predictors,
    what_came,
};
pub use over_year::{BlankOverYear, NoYear, blank_over_year};
pub use own_readings::{moisture_of_pile, own_readings, said_of_pile};
pub use pace::{Paces, StagePace, paces};
pub use pairs::{PAIRS_AT_ONCE, PairOffered, Sure, pairs};
pub use piece_figure::{PieceFigure, density_in_shop, explain_piece_figure};
pub use plan::{
    Expected, PlanAhead, PlanLot, TargetAnswer, TargetQuestion, plan_ahead, target_answer,
    target_question,
};
pub use preview::{Preview, preview, preview_with_state};
pub use proposal::proposal;
pub use rack_lots::{RackLot, rack_lots};
pub use racks::{Rack, RackPiece, RestSign, on_its_rack, racks, rests_ending};
pub use ready::{
    BlankSize, Joints, ReadyLaminate, blank_of, blank_size, blank_weight, explain_blank_size,
    explain_blank_stiffness, explain_blank_twist, explain_blank_weight, joints_of,
    laminates_to_glue, match_limits, moisture_of_laminates_is_read,
};
pub use rest_over::calendar_days;
pub use rests::{
    RestLine, least_rests, missing_wood, piece_conflicts, rest_line, resting, rooms, stock,
};
pub use section::{InSection, Section, colours_of, section_of};
pub use sort_reasons::sort_reasons;
pub use specs_on_offer::specs_on_offer;
pub use start::{
    StartAnswer, StartFigure, StartQuestion, StartTarget, laminates_per_plank, start_for,
    start_question,
};
pub use stock::{InHandCount, LaminatesBy, NotCounted, WoodInHand, lots_in_hand, wood_in_hand};
pub use stress::{Spring, StressFound, explain_stress};
pub use surely_least::{Within, surely_least};
pub use table::column::{Column, sort_rows};
pub use table::figure::{PlankFigure, explain_plank_figure};
pub use table::filter::Filter;
pub use table::out::{HEADINGS, table_rows};
pub use table::row::PlankRow;
pub use table::under_way::TableUnderWay;
pub use table::{Table, ranked, rows, sheet_of, sheet_under, specs};
pub use target::{target, target_now};
pub use target_short::{ShortQuestion, TargetShort, short_question, target_short};
pub use to_put_away::{PutAway, ToPutAway, to_put_away};
pub use turned_over::{TurnedOver, turned_over};
pub use visit_file::visit_to_file;
pub use visit_tally::money_left::MoneyLeft;
pub use visit_tally::needed::{
    ExpectedBy, PlanksSoFar, StillToBuy, ToBuyQuestion, laminates_to_expect,
    percent_of_a_stage_now, share_of_a_stage_now, target_of_spec, target_of_visit, to_buy_question,
    woods_of_visit, yield_expected_now,
};
pub use visit_tally::total::{Total, explain_total};
pub use visit_tally::yard::{CustomsTried, YardAgainstOurs, YardGap, YardTotalGap, yard_against};
pub use visit_tally::{
    PlankCharged, PlankTallied, VisitTally, charged, line_of, taken_on, tally_of,
};
pub use volume_account::{CutAccount, MassAccount, cut_account, size_of, warnings_of_cut};
pub use volume_balance::{VolumeBalance, volume_balance};
pub use weight_over_time::{SettledOn, WeighedOn, WeightChange, WeightOverTime, weight_over_time};
pub use witness_sticks::{WitnessFound, witness_in};
pub use woods::{own_woods, species_of, wood, wood_name, wood_named, wood_of};
pub use work_warnings::{WarningSubject, WorkWarning, work_warnings};
