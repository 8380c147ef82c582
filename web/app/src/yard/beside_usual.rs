//! A plank's density beside what is usual for its wood.

use crate::explain::{Asked, figure};
use crate::page::Ui;
use crate::parts::{capital, usual_gauge};
use crate::words::{fill, show, wood_names};
use maud::{Markup, html};
use stillwood_core::quantity::in_kg_per_m3;
use stillwood_core::verdict::{Number, Sheet};
use stillwood_core::wood::{BesideUsual, Species};

/// The plank's density beside what is usual for its wood: it is no criterion, and judges nothing.
pub(super) fn beside_usual(
    ui: &Ui<'_>,
    sheet: &Sheet,
    wood: Option<&Species>,
    asked: &impl Fn(Number) -> Asked,
) -> Markup {
    let words = &ui.w.yard;
    let usual = wood.and_then(|wood| Some((wood, wood.usual_density_at_12()?)));
    let Some(((wood, usual), density)) = usual.zip(sheet.density_at_12.as_ref()) else {
        return html! {};
    };
    let units = ui.model.units();
    let (value, within) = (
        in_kg_per_m3(density.value),
        in_kg_per_m3(density.expanded()),
    );
    let (low, high) = (in_kg_per_m3(usual.low), in_kg_per_m3(usual.high));
    let said = match BesideUsual::of(density.value, density.standard, &usual) {
        BesideUsual::Lighter => words.lighter_than_usual,
        BesideUsual::AsUsual => words.as_usual,
        BesideUsual::Heavier => words.heavier_than_usual,
        BesideUsual::TooClose => words.near_usual_end,
    };
    let shown = show::density_within(value, within, units);
    let range = fill(
        words.usual_of,
        &[
            ("wood", &wood_names::wood_name(wood)),
            ("low", &show::density(low, units)),
            ("high", &show::density(high, units)),
        ],
    );
    html! {
        li {
            p.row {
                span { (words.beside_usual) }
                strong { (figure(ui, words.beside_usual, &shown, asked(Number::DensityAt12))) }
            }
            (usual_gauge((low, high), (value, within)))
            p.below { (capital(said)) ". " (range) }
        }
    }
}
