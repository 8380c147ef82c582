//! The section of a blank as it is now: its laminates from one side to the other, and how hard it is to bend.
//!
//! It measures no stiffness: that rests on what is usual for the woods. What was planed off the blank since
//! it was glued is taken off both sides alike.

use crate::neck::{BendingStiffness, Layer, stiffness_along_glue_lines};
use crate::plank::mean_of_stations;
use crate::quantity::TraceOff;
use crate::quantity::{Derivation, Length, Pressure, in_mm, mm, show};
use crate::record::log::PieceKind;
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::state::Origin;
use crate::record::state::{Piece, State};

/// A laminate in the section of a blank.
#[derive(Debug, Clone, PartialEq)]
pub struct InSection {
    pub piece: Id,
    pub mark: String,
    /// Its wood, as the maker names it.
    pub wood: String,
    /// Across the glue lines.
    pub thickness: Length,
    /// The usual stiffness of its wood.
    modulus: Option<Pressure>,
}

#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// Its laminates, from one side to the other.
    pub laminates: Vec<InSection>,
    /// Along the glue lines: the way in which the strings bend it.
    pub depth: Length,
}

impl Section {
    /// As the stiffness takes it; `None` where that of a wood is not known.
    fn layers(&self) -> Option<Vec<Layer>> {
        let layer = |one: &InSection| {
            Some(Layer {
                thickness: one.thickness,
                width: self.depth,
                modulus: one.modulus?,
            })
        };
        self.laminates.iter().map(layer).collect()
    }

    /// How hard it is to bend along its glue lines, as a neck is by its strings, by the usual stiffness of
    /// its woods; `None` where that of one is not known.
    pub fn stiffness(&self) -> Option<BendingStiffness> {
        stiffness_along_glue_lines(&mut TraceOff, &self.layers()?).ok()
    }

    /// How [`Self::stiffness`] was worked out.
    pub(crate) fn explain_stiffness(&self) -> Option<Derivation> {
        let mut working = Derivation::default();
        stiffness_along_glue_lines(&mut working.steps, &self.layers()?).ok()?;
        let size = |one: Length| show::number(in_mm(one), 1);
        let one = |one: &InSection| format!("{} {} mm", one.mark, size(one.thickness));
        let all: Vec<String> = self.laminates.iter().map(one).collect();
        Some(
            working
                .and(
                    "The usual stiffness of each wood at 12 %, as the table of woods has it: none of these was \
                     measured.",
                )
                .and(format!(
                    "From one side to the other: {}; {} mm deep. As last measured or machined; what was planed \
                     off the blank since is taken off both sides alike.",
                    all.join(", "),
                    size(self.depth),
                )),
        )
    }
}

/// Which of two sizes that were measured on a blank lies across its glue lines and which along them: the
/// larger where its laminates come to more, whichever of them was called its width.
fn across_and_along(measured: (Length, Length), stacked: (Length, Length)) -> (Length, Length) {
    let (more, less) = (measured.0.max(measured.1), measured.0.min(measured.1));
    match stacked.0 >= stacked.1 {
        true => (more, less),
        false => (less, more),
    }
}

/// The section of a blank; `None` where a size of a laminate is not known, or where more was planed off
/// than its outer ones are thick. One that was not glued is its own only laminate.
pub fn section_of(state: &State, blank: &Piece) -> Option<Section> {
    if blank.work.kind != PieceKind::Blank {
        return None;
    }
    let glued = matches!(blank.work.origin, Origin::GluedFrom { .. });
    let members = match glued {
        true => queries::made_of(state, blank.id),
        false => vec![blank.id],
    };
    let mut laminates = Vec::new();
    let mut depth: Option<Length> = None;
    for id in members {
        let piece = state.piece(id)?;
        let size = queries::size_of(state, piece);
        let width = mean_of_stations(&size.widths)?;
        depth = Some(depth.map_or(width, |least| least.min(width)));
        laminates.push(InSection {
            piece: id,
            mark: piece.mark.clone(),
            wood: queries::wood_name(state, queries::species_of(state, piece)?),
            thickness: mean_of_stations(&size.thicknesses)?,
            modulus: queries::ready::usual_modulus(state, piece),
        });
    }
    let mut section = Section {
        laminates,
        depth: depth?,
    };
    if glued {
        plane_off(state, &mut section, blank)?;
    }
    Some(section)
}

/// The colours of a piece's end grain, as `#rrggbb`: of a blank that was glued those of its laminates from one side to
/// the other, else the one of its wood. Of a wood that is in no table it is none.
pub fn colours_of(state: &State, piece: &Piece) -> Vec<Option<String>> {
    let colour = |piece: &Piece| {
        let wood = queries::species_of(state, piece)?;
        let wood = queries::wood_of(state, wood)?;
        Some(wood.colour().to_owned())
    };
    match piece.work.origin {
        Origin::GluedFrom { .. } => {
            let members = queries::made_of(state, piece.id).into_iter();
            members.map(|id| colour(state.piece(id)?)).collect()
        }
        _ => vec![colour(piece)],
    }
}

/// Takes off a section what was planed off the blank since it was glued.
fn plane_off(state: &State, section: &mut Section, blank: &Piece) -> Option<()> {
    let own = queries::size_of(state, blank);
    let (Some(width), Some(thickness)) = (
        mean_of_stations(&own.widths),
        mean_of_stations(&own.thicknesses),
    ) else {
        return Some(());
    };
    let laminates = section.laminates.iter();
    let stacked = laminates.fold(mm(0.0), |sum, one| sum + one.thickness);
    let (across, along) = across_and_along((width, thickness), (stacked, section.depth));
    section.depth = along;
    // Glue adds nothing: what measures more is the tape's.
    let off = ((stacked - across) / 2.0).max(mm(0.0));
    if let Some(first) = section.laminates.first_mut() {
        first.thickness -= off;
    }
    if let Some(last) = section.laminates.last_mut() {
        last.thickness -= off;
    }
    let mut left = section.laminates.iter();
    left.all(|one| one.thickness > mm(0.0)).then_some(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_blank_is_measured_either_way_round() {
        let pair = |(a, b): (f64, f64)| (mm(a), mm(b));
        let of = |measured, stacked| across_and_along(pair(measured), pair(stacked));
        // Five of 17.5, 48.5 deep, planed to 84.5 by 46: typed as a board lies, or as it was stacked.
        assert_eq!(of((84.5, 46.0), (87.5, 48.5)), pair((84.5, 46.0)));
        assert_eq!(of((46.0, 84.5), (87.5, 48.5)), pair((84.5, 46.0)));
        // Three of 17.5 are nearly as thick as they are deep.
        assert_eq!(of((49.5, 46.0), (52.5, 48.5)), pair((49.5, 46.0)));
        assert_eq!(of((46.0, 49.5), (52.5, 48.5)), pair((49.5, 46.0)));
        // Two of 20 are not as thick as they are deep.
        assert_eq!(of((46.0, 38.0), (40.0, 48.5)), pair((38.0, 46.0)));
    }
}
