//! Where a piece is in its life.

use crate::record::log::{Decision, Reserved};
use crate::record::state::visits_piles_pieces::Piece;
use crate::record::state::work::{End, Life, Origin};
use chrono::NaiveDate;

impl Piece {
    /// It is wood that can be worked: begun, not taken back, not ended, not in doubt.
    pub fn is_at_hand(&self) -> bool {
        !self.withdrawn && self.work.end.is_none() && self.work.unresolved.is_none()
    }

    /// It is the maker's: taken, or past the yard.
    pub fn is_bought(&self) -> bool {
        !matches!(self.life().0, Life::AtYard | Life::Left)
    }

    /// Where it is in its life, and since when. What it ended as goes before all else, then that it is
    /// missing, then that it is kept for somebody.
    pub fn life(&self) -> (Life, NaiveDate) {
        self.life_where(|_| true)
    }

    /// The same on a day: what was kept for somebody until a day before it is no longer.
    pub fn life_on(&self, day: NaiveDate) -> (Life, NaiveDate) {
        self.life_where(|kept| kept.holds_on(day))
    }

    pub fn is_kept_on(&self, day: NaiveDate) -> bool {
        let kept = self.work.reserved.as_ref();
        kept.is_some_and(|kept| kept.payload.holds_on(day))
    }

    fn life_where(&self, holds: impl Fn(&Reserved) -> bool) -> (Life, NaiveDate) {
        let work = &self.work;
        if work.unresolved.is_some() {
            return (Life::Unresolved, self.recorded.on);
        }
        if let Some(end) = &work.end {
            let life = match &end.payload {
                End::Cut(_) => Life::Cut,
                End::GluedInto(blank) => Life::GluedInto(*blank),
                End::Discarded(..) => Life::Discarded,
                End::Used(_) => Life::Used,
            };
            return (life, end.on);
        }
        if let Some(missing) = &work.missing {
            return (Life::Missing, missing.on);
        }
        if let Some(reserved) = work.reserved.as_ref().filter(|kept| holds(&kept.payload)) {
            return (Life::Reserved, reserved.on);
        }
        if let Some(rest) = work.rest() {
            return (Life::Resting(rest.payload.stage), rest.on);
        }
        if let Some(place) = work.place() {
            return (Life::InShop, place.on);
        }
        if work.origin != Origin::Yard {
            return (Life::InShop, self.recorded.on);
        }
        match self.judgement() {
            Some(judged) if judged.judged.decision == Decision::Take => (Life::Bought, judged.on),
            Some(judged) if judged.judged.decision == Decision::Leave => (Life::Left, judged.on),
            _ => (Life::AtYard, self.recorded.on),
        }
    }
}
