//! Where all the wood of a plank is now, through every cut: one account that adds up.
//!
//! What the record does not tell makes the whole account unknown, never smaller.

use crate::plank::{Instruments, volume};
use crate::quantity::TraceOff;
use crate::quantity::{Volume, m3};
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::state::State;
use crate::record::state::{End, Life};

/// Where the wood of a piece is. All but `whole` add up to `whole`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VolumeBalance {
    pub whole: Volume,
    /// Still there: to be worked, or resting.
    pub in_hand: Volume,
    pub glued: Volume,
    pub used: Volume,
    pub thrown_out: Volume,
    pub missing: Volume,
    /// Dust between pieces sawn side by side.
    pub kerf: Volume,
    /// Edgings, end trims and whatever else was not kept of a cut.
    pub waste: Volume,
    /// Machined away.
    pub planed: Volume,
}

impl VolumeBalance {
    /// All that the whole went to.
    pub fn parts(&self) -> [Volume; 8] {
        [
            self.in_hand,
            self.glued,
            self.used,
            self.thrown_out,
            self.missing,
            self.kerf,
            self.waste,
            self.planed,
        ]
    }
}

/// Where all the wood of a piece is now; `None` while a size in its family is not known.
pub fn volume_balance(state: &State, id: Id, instruments: &Instruments) -> Option<VolumeBalance> {
    let whole = volume(&mut TraceOff, &queries::size_of(state, state.piece(id)?)).ok()?;
    let none = m3(0.0);
    let mut ledger = VolumeBalance {
        whole,
        in_hand: none,
        glued: none,
        used: none,
        thrown_out: none,
        missing: none,
        kerf: none,
        waste: none,
        planed: none,
    };
    let mut parts = vec![(id, whole)];
    while let Some((id, given)) = parts.pop() {
        let piece = state.piece(id)?;
        let now = volume(&mut TraceOff, &queries::size_of(state, piece)).ok()?;
        ledger.planed += given - now;
        let end = piece.work.end.as_ref().map(|end| &end.payload);
        let place = match (piece.life().0, end) {
            (_, Some(End::Cut(cut))) => {
                let wood = queries::cut_account(state, id, instruments)?.wood?;
                ledger.kerf += wood.kerf;
                ledger.waste += wood.waste;
                for (child, volume) in cut.children.iter().zip(wood.pieces) {
                    parts.push((child.id, volume?));
                }
                continue;
            }
            (Life::GluedInto(_), _) => &mut ledger.glued,
            (Life::Used, _) => &mut ledger.used,
            (Life::Discarded, _) => &mut ledger.thrown_out,
            (Life::Missing, _) => &mut ledger.missing,
            _ => &mut ledger.in_hand,
        };
        *place += now;
    }
    Some(ledger)
}
