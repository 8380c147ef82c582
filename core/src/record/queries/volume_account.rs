//! Sizes of what was cut, and the account of a cut: where the parent's wood and mass went.
//!
//! The parts always add up to the whole; what can't be (more wood or more mass out of a piece than was
//! in it) is questioned, with the uncertainty of the tools, and never put right.

use crate::order;
use crate::plank::{
    Instruments, Plank, Source, Stations, between_stations, describe, described, mass_as_weighed,
    mean_of_stations, off_middle, volume,
};
use crate::quantity::TraceOff;
use crate::quantity::{Input, Length, Mass, Volume, in_kg, kg, m3, mm, propagate};
use crate::record::log::id::Id;
use crate::record::log::{Child, Span, Weighed};
use crate::record::queries;
use crate::record::state::lineage::STEPS_WALKED;
use crate::record::state::{End, Origin};
use crate::record::state::{Piece, State};
use crate::season::{Block, CutWarning, SawnOut, Stretch, cut_warnings, kerf_between, sawn_out};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Where the mass of a piece went that was cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MassAccount {
    /// The parent, as weighed last before the cut.
    pub whole: Mass,
    /// What was cut from it, as weighed first.
    pub pieces: Mass,
    /// The rest: dust and waste. Below nothing when the pieces weigh more.
    pub waste: Mass,
    /// Standard uncertainty of the waste.
    pub standard: Mass,
}

impl MassAccount {
    /// The pieces weigh more than what they were cut from, beyond the uncertainty of the scales.
    pub fn is_questioned(&self) -> bool {
        self.waste + self.standard * 2.0 < kg(0.0)
    }
}

#[derive(Debug, Clone, PartialEq)]
pub struct CutAccount {
    /// Where the wood went; `None` while a size is not known.
    pub wood: Option<SawnOut>,
    /// Standard uncertainty of the whole's volume: by the tape, and by the shape between its stations.
    pub standard: Volume,
    /// Where the mass went; `None` while the parent or a piece was not weighed.
    pub mass: Option<MassAccount>,
    /// What can't be right about the places of the pieces.
    pub warnings: Vec<CutWarning>,
}

impl CutAccount {
    /// The pieces hold more wood than what they were cut from, beyond the uncertainty of the tape.
    pub fn is_questioned(&self) -> bool {
        let over = |wood: &SawnOut| wood.waste + self.standard * 2.0 < m3(0.0);
        self.wood.as_ref().is_some_and(over)
    }
}

/// The sizes of a piece by its own readings: as last machined, else as measured.
fn own_size(piece: &Piece) -> Plank {
    let mut size = match piece.readings.is_empty() {
        true => Plank::default(),
        false => sizes(&described(&|field| piece.reading(field), [])),
    };
    for machined in &piece.work.machined {
        if !machined.payload.readings.is_empty() {
            let after = sizes(&describe(&machined.payload.readings, &[]));
            size = laid_over(after, &size);
        }
    }
    size
}

fn sizes(plank: &Plank) -> Plank {
    Plank {
        length: plank.length,
        widths: plank.widths,
        thicknesses: plank.thicknesses,
        ..Plank::default()
    }
}

fn laid_over(known: Plank, before: &Plank) -> Plank {
    let stations = |known: Stations, before: Stations| {
        if known.least().is_some() {
            known
        } else {
            before
        }
    };
    Plank {
        length: known.length.or(before.length),
        widths: stations(known.widths, before.widths),
        thicknesses: stations(known.thicknesses, before.thicknesses),
        ..Plank::default()
    }
}

fn stretch(span: &Span) -> Stretch {
    Stretch {
        from: mm(span.from.value),
        to: mm(span.to.value),
    }
}

fn whole(size: Option<Length>) -> Option<Stretch> {
    size.map(|to| Stretch { from: mm(0.0), to })
}

/// A parent as a block, by its mean sizes.
fn block_of(size: &Plank) -> Option<Block> {
    let width = whole(mean_of_stations(&size.widths))?;
    let thickness = whole(mean_of_stations(&size.thicknesses))?;
    let sides = [whole(size.length)?, width, thickness];
    Some(Block { sides })
}

/// A child's place in its parent; `None` while a size of the parent that it needs is not known.
fn place_in(parent: &Plank, child: &Child) -> Option<Block> {
    let side = |span: &Option<Span>, size: Option<Length>| match span {
        Some(span) => Some(stretch(span)),
        None => whole(size),
    };
    let sides = [
        side(&child.along, parent.length)?,
        side(&child.across, mean_of_stations(&parent.widths))?,
        side(&child.through, mean_of_stations(&parent.thicknesses))?,
    ];
    Some(Block { sides })
}

/// The sizes that a place gives: of the two across the grain the larger is the width.
fn size_of_block(block: &Block) -> Plank {
    let [length, a, b] = block.sides.map(|side| side.size());
    let (width, thickness) = if a >= b { (a, b) } else { (b, a) };
    Plank {
        length: Some(length),
        widths: Stations::one(width),
        thicknesses: Stations::one(thickness),
        ..Plank::default()
    }
}

struct AllSizes(BTreeMap<Id, Plank>);

/// The sizes of a piece whose parent has these.
pub(crate) fn laid_in(piece: &Piece, parent: &Plank) -> Plank {
    let placed = match &piece.work.origin {
        Origin::CutFrom { place, .. } => place_in(parent, place),
        _ => None,
    };
    let placed = placed.map(|block| size_of_block(&block));
    laid_over(own_size(piece), &placed.unwrap_or_default())
}

fn mass_said(weighed: &Weighed, usual: f64) -> (Mass, f64) {
    let step = weighed.step.as_ref().map(|step| step.value / 2.0);
    let standard = Input::within((), step.unwrap_or(usual)).standard;
    (kg(weighed.mass.value), standard)
}

/// The sizes of a piece: as last machined, else as measured, else as it was laid out in what it was
/// cut from. Only length, widths and thicknesses are filled in.
pub fn size_of(state: &State, piece: &Piece) -> Plank {
    let mut line = vec![piece];
    let mut above = Plank::default();
    let parent = |line: &[&Piece]| line.last().and_then(|one| one.work.parent());
    while let Some(parent) = parent(&line).and_then(|parent| state.piece(parent)) {
        if line.len() == STEPS_WALKED {
            above = all_sizes(state)
                .0
                .get(&parent.id)
                .cloned()
                .unwrap_or_default();
            break;
        }
        line.push(parent);
    }
    let from_above = line.iter().rev();
    from_above.fold(above, |size, one| laid_in(one, &size))
}

/// The sizes of all pieces, each laid in those of what it was cut from; found anew where the record has changed.
fn all_sizes(state: &State) -> Arc<AllSizes> {
    state.memo.of(state.version(), || {
        let mut sizes = BTreeMap::<Id, Plank>::new();
        for id in state.lineages().parts_first() {
            let Some(piece) = state.piece(id) else {
                continue;
            };
            let parent = piece.work.parent().and_then(|parent| state.piece(parent));
            let above = parent.and_then(|parent| sizes.get(&parent.id));
            let size = laid_in(piece, above.unwrap_or(&Plank::default()));
            sizes.insert(piece.id, size);
        }
        AllSizes(sizes)
    })
}

/// What can't be right about a cut that is being laid out: to be asked before it is recorded.
pub fn warnings_of_cut(state: &State, parent: &Piece, children: &[Child]) -> Vec<CutWarning> {
    let size = size_of(state, parent);
    let places: Option<Vec<Block>> = children.iter().map(|c| place_in(&size, c)).collect();
    match (block_of(&size), places) {
        (Some(parent), Some(places)) => cut_warnings(&parent, &places),
        _ => Vec::new(),
    }
}

/// The account of the cut that a piece ended with; `None` where it was not cut.
pub fn cut_account(state: &State, id: Id, instruments: &Instruments) -> Option<CutAccount> {
    let parent = state.piece(id)?;
    let end = parent.work.end.as_ref()?;
    let End::Cut(cut) = &end.payload else {
        return None;
    };
    let size = size_of(state, parent);
    let places: Vec<Option<Block>> = cut.children.iter().map(|c| place_in(&size, c)).collect();
    let known: Vec<Block> = places.iter().flatten().copied().collect();
    let kerf = cut.kerf.as_ref().map_or(mm(0.0), |kerf| mm(kerf.value));
    let volumes = places.iter().map(|place| place.map(|block| block.volume()));
    let mut inputs = vec![
        Input::within(Source::Length, instruments.length_mm),
        Input::within(Source::Width, instruments.width_mm),
        Input::within(Source::Thickness, instruments.thickness_mm),
    ];
    inputs.extend(between_stations(&size));
    let estimate = propagate(&inputs, |moved| match moved {
        None => volume(&mut TraceOff, &size).ok(),
        Some((source, by)) => volume(&mut TraceOff, &size.perturbed(source, by)).ok(),
    });
    let wood = estimate.as_ref().and_then(|whole| {
        let dust = kerf_between(&known, kerf);
        sawn_out(whole.value, volumes.collect(), dust)
    });
    Some(CutAccount {
        wood,
        standard: estimate.map_or(m3(0.0), |whole| whole.standard),
        mass: mass_account(state, parent, end.on, instruments),
        warnings: warnings_of_cut(state, parent, &cut.children),
    })
}

fn mass_account(
    state: &State,
    parent: &Piece,
    cut_on: chrono::NaiveDate,
    instruments: &Instruments,
) -> Option<MassAccount> {
    let usual = instruments.scale_kg;
    let before = parent.work.weighings.iter().rfind(|one| one.on <= cut_on);
    let (whole, standard) = match before {
        Some(weighed) => mass_said(&weighed.payload, usual),
        None => {
            let plank = describe(&parent.readings_in_use(), &[]);
            // End by end it is off twice the same way.
            let mut inputs = vec![Input::within(Source::Scale, usual)];
            inputs.extend(off_middle(&plank));
            let as_read = |plank: &Plank| mass_as_weighed(&mut TraceOff, plank).ok();
            let mass = propagate(&inputs, |moved| match moved {
                None => as_read(&plank),
                Some((source, by)) => as_read(&plank.perturbed(source, by)),
            })?;
            (mass.value, in_kg(mass.standard))
        }
    };
    let mut pieces = kg(0.0);
    let mut variance = standard * standard;
    for child in order::set_of(queries::made_from(state, parent.id)) {
        let (mass, standard) =
            mass_said(&state.piece(child)?.work.weighings.first()?.payload, usual);
        pieces += mass;
        variance += standard * standard;
    }
    let waste = whole - pieces;
    waste.is_finite().then_some(MassAccount {
        whole,
        pieces,
        waste,
        standard: kg(variance.sqrt()),
    })
}
