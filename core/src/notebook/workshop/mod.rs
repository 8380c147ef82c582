//! The workshop in the record: what happens to wood after the yard, the state that it leaves every piece
//! in, families of pieces, and lists of what rests.
//!
//! A piece is in one place: it is cut once, glued once, thrown out once. Where two devices say
//! otherwise, both stay in the record, the first in the order of the fold is in force, and the clash is
//! shown until the maker takes one back.

mod account;
mod airs;
mod clash;
mod cost;
mod doubts;
mod dries;
mod due;
mod family;
mod fold;
mod in_hand;
mod kept;
mod lasts;
mod layout;
mod leaving;
mod ledger;
mod lineage;
mod lots;
mod making;
mod moved;
mod naming;
mod next;
mod outcomes;
mod over_year;
mod pace;
mod planned;
mod ready;
mod resting;
mod ripe_days;
mod section;
mod shelf;
mod so_far;
mod start;
mod stick;
mod sticks;
mod stress;
mod told;
mod wish;
mod wished;
mod words;
mod work;

pub use account::{CutAccount, MassAccount};
pub(super) use airs::Airs;
pub use clash::{Clash, ClashKind};
pub use cost::{BlankCost, CostAccount, PartCost};
pub use doubts::{Doubted, WorkDoubt};
pub use due::{Due, DueWhen, Waits, due_by_day, due_by_shelf};
pub use family::{StageCount, child_marks};
pub use in_hand::{InHandCount, NotCounted, WoodInHand, lots_in_hand};
pub(super) use kept::Kept;
pub use lasts::Lasting;
pub use layout::{RingsStand, laid_out, plan_told};
pub use leaving::{Discarded, Downgraded, Missing, Released, Reserved, Used};
pub use ledger::Ledger;
pub(super) use lineage::{Lineages, STEPS_WALKED};
pub use lots::{DueLot, DueRow, FEW_IN_A_LOT};
pub use making::{
    Adhesive, Child, Cut, Glued, GluingSet, GrainSeen, Kind, Machined, Member, Span, StressTest,
    StressTested, Tension,
};
pub use moved::{Checked, MovedError};
pub use naming::NamingFault;
pub(super) use naming::OnWood;
pub use next::{NextStep, likely_next};
pub use outcomes::{Came, GroupedBy, PredictorTold};
pub use over_year::{BlankOverYear, NoYear};
pub use pace::{Paces, StagePace};
pub use planned::{Expected, PlanAhead, PlanLot, WishAnswer};
pub use ready::{
    BlankSize, ReadyLaminate, blank_of, blank_size_told, blank_stiffness_told, blank_weight_told,
};
pub use resting::{
    Climate, MoistureRead, MovementChecked, Placed, RoomRead, SetToRest, StageSet, Weighed, Witness,
};
pub use section::{InSection, Section};
pub use shelf::RestLine;
pub use so_far::MovedSoFar;
pub use start::{StartAnswer, StartFigure, StartWish};
pub(super) use stick::StickWeighed;
pub use sticks::WitnessTold;
pub use stress::{Spring, StressTold};
pub use told::PieceFigure;
pub use wished::Wished;
pub use work::{End, Life, Origin, Said, Work};
