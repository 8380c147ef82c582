//! The plank drawn with the parts laid in it, and how many it holds.

use super::drawn::{ON_FACE, Views, not_to_scale, weak_place, with_mark};
use crate::drawings::{PlankDrawn, face_view};
use crate::explain::{Asked, figure};
use crate::page::Ui;
use crate::parts::capital;
use crate::words::{Spoken, count, fill, show};
use maud::{Markup, html};
use stillwood_core::plank::{Defect, DefectKind, DefectSeverity};
use stillwood_core::verdict::{Sheet, Spec};
use stillwood_core::wood::Species;

/// The names of defects one after the other; `None` for none.
fn listed(defects: impl Iterator<Item = DefectKind>) -> Option<String> {
    let names: Vec<String> = defects.map(|kind| kind.name().spoken()).collect();
    (!names.is_empty()).then(|| names.join(", "))
}

/// The plank drawn with the parts laid in it.
pub fn laid(
    ui: &Ui<'_>,
    spec: &Spec,
    sheet: &Sheet,
    wood: Option<&Species>,
    asked: Asked,
) -> Markup {
    let words = &ui.w.yard;
    let units = ui.model.units();
    let drawn = PlankDrawn {
        plank: &sheet.plank,
        colour: wood.map_or(crate::drawings::UNDYED, Species::colour),
        parts: sheet.held.as_ref().filter(|held| held.parts > 0),
        weakest: weak_place(sheet),
    };
    let part = spec.part;
    let size = show::sizes(
        [
            Some(part.length_mm),
            Some(part.width_mm),
            Some(part.thickness_mm),
        ],
        units,
    );
    let said = match &sheet.held {
        Some(held) if held.parts > 0 => {
            let parts = count(held.parts, ui.w.common.parts_one, ui.w.common.parts_other);
            let mut said = fill(words.parts_laid, &[("parts", &parts), ("size", &size)]);
            let placed = |one: &&Defect| {
                one.kind.severity() == DefectSeverity::CutRound
                    && (one.from.is_some() || one.to.is_some())
            };
            let round = sheet.plank.defects.iter().filter(placed);
            let round = listed(round.map(|defect| defect.kind));
            let unplaced = listed(held.zones.unplaced.iter().copied());
            if let Some(defects) = round {
                said.push_str(", ");
                said.push_str(&fill(words.cut_round, &[("defects", &defects)]));
            }
            if let Some(defects) = unplaced {
                let defects = capital(&defects);
                said.push_str(". ");
                said.push_str(&fill(words.not_cut_round, &[("defects", &defects)]));
            }
            said
        }
        Some(_) => fill(words.no_parts, &[("size", &size)]),
        None => words.no_measure.to_owned(),
    };
    html! {
        figure.card {
            div role="img" aria-label=(with_mark(ui, &said, sheet, &ON_FACE)) { (face_view(&drawn)) }
            figcaption {
                @if sheet.held.is_some() { (figure(ui, words.holds, &said, asked)) }
                @else { (said) }
                span.below { (not_to_scale(ui, &drawn, Views::Face)) }
            }
        }
    }
}
