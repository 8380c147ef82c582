//! The figures of a plank's sheet, each a key that tells how it was worked out.

use super::frame::facts;
use crate::explain::{Asked, figure};
use crate::page::Ui;
use crate::words::{Spoken, fill, show};
use maud::{Markup, html};
use stillwood_core::neck::BestBlanks;
use stillwood_core::plank::{AngleSpan, BendLeft, GrainSlope, Slab};
use stillwood_core::quantity::{
    Estimate, Scalar, TraceOff, in_degrees, in_kg, in_kg_per_m3, in_m3, in_mm,
};
use stillwood_core::verdict::{Criterion, Number, RingsAcross, Sheet, SlabCounted, Spec};
use stillwood_core::wood::strength_tested;

fn within<Q: Scalar, S: Copy>(
    estimate: &Option<Estimate<Q, S>>,
    of: impl Fn(Q) -> f64,
    show: impl Fn(f64, f64) -> String,
) -> Option<String> {
    let estimate = estimate.as_ref()?;
    Some(show(of(estimate.value), of(estimate.expanded())))
}

/// The figures, those that are known.
pub fn figures(ui: &Ui<'_>, sheet: &Sheet, spec: &Spec, asked: impl Fn(Number) -> Asked) -> Markup {
    let words = &ui.w.planks;
    let units = ui.model.units();
    let length = |mm: f64| show::length(mm, units);
    let density = |rho: f64, within: f64| show::density_within(rho, within, units);
    let size = |width: f64| format!("{} × {}", length(spec.part.length_mm), length(width));
    let seen = sheet.plank.at_least;
    let at_least = |gap: String, open: bool| match open {
        true => fill(words.at_least_gap, &[("gap", &gap)]),
        false => gap,
    };
    let mut of: Vec<(String, Option<String>, Number)> = Vec::new();
    let slab = within(&sheet.slab, in_mm, |mm, off| {
        show::length_within(mm, off, units)
    });
    let at_best = |slab: String, is_best: bool| match is_best {
        true => fill(words.at_best, &[("slab", &slab)]),
        false => slab,
    };
    let slab_alone =
        |slab: &Slab| at_best(length(in_mm(slab.thickness)), sheet.is_slab_at_best(slab));
    let slab = slab.map(|slab| at_best(slab, sheet.is_at_best(Criterion::Straightness)));
    let first = size(in_mm(spec.cut_spec().flattened_width()));
    of.push((
        fill(words.clean_if_cut, &[("size", &first)]),
        slab,
        Number::Slab,
    ));
    let kinked = sheet
        .cut_first
        .filter(|slab| slab.both.cut_on_kink != slab.both.bend_inside);
    if let Some(slab) = kinked {
        let (name, other, number) = match slab.counted {
            SlabCounted::BendInside => {
                (words.cut_on_kink, slab.both.cut_on_kink, Number::SlabOnKink)
            }
            SlabCounted::CutOnKink => (
                words.kink_inside,
                slab.both.bend_inside,
                Number::SlabBendInside,
            ),
        };
        of.push((name.to_owned(), Some(slab_alone(&other)), number));
    }
    if let Some(other) = sheet.slab_cut_otherwise {
        let name = fill(words.clean_if_cut, &[("size", &size(in_mm(other.width)))]);
        of.push((
            name,
            Some(slab_alone(&other.slab)),
            Number::SlabCutOtherwise,
        ));
    }
    let steeper = sheet.is_at_best(Criterion::GrainSlope);
    let grain = sheet.grain.map(|grain| {
        let slope = show::slope(grain.at_least().in_tangent());
        match grain {
            GrainSlope::Combined(_) => at_least(slope, steeper),
            GrainSlope::AtLeastFace(_) => fill(words.on_the_face, &[("slope", &slope)]),
            GrainSlope::AtLeastEdge(_) => fill(words.on_the_edge, &[("slope", &slope)]),
        }
    });
    let rings = sheet.rings.map(|rings| {
        fill(
            words.rings_lie,
            &[
                ("class", &rings.class.name().spoken()),
                ("lies", &show::angle(in_degrees(rings.lies))),
                ("stands_class", &rings.stands_class.name().spoken()),
                ("stands", &show::angle(in_degrees(rings.stands))),
            ],
        )
    });
    let strength = sheet.grain.and_then(|grain| {
        let left = strength_tested(&mut TraceOff, grain.at_least()).ok()?;
        let sentence = match steeper {
            true => words.at_most_about,
            false => words.about,
        };
        let left = format!("{} %", show::whole_percent(left));
        Some(fill(sentence, &[("what", &left)]))
    });
    let mut add = |name: &str, shown: Option<String>, number: Number| {
        of.push((name.to_owned(), shown, number))
    };
    let whole = sheet.whole.map(|slab| slab_alone(&slab));
    add(words.clean_if_whole, whole, Number::SlabWhole);
    // Of a kink that is cut at nothing is left, however large it is.
    let left_of = |left: BendLeft, seen: bool| {
        let counted = sheet.counted(left);
        at_least(length(in_mm(counted)), seen && counted == left.inside)
    };
    let bow = sheet.bow_left.map(|left| left_of(left, seen.bow));
    add(words.bow_left, bow, Number::BowLeft);
    let crook = sheet.crook_left.map(|left| left_of(left, seen.crook));
    add(words.crook_left, crook, Number::CrookLeft);
    add(words.grain_both, grain, Number::Grain);
    add(
        words.runout_over_part,
        sheet
            .runout
            .map(|runout| at_least(length(in_mm(runout)), steeper)),
        Number::Runout,
    );
    add(words.rings, rings, Number::Rings);
    let mass = within(&sheet.mass, in_kg, |kg, off| {
        show::mass_within(kg, off, units)
    });
    add(words.weight, mass, Number::Mass);
    let volume = within(&sheet.volume, in_m3, |m3, off| {
        format!("{} m³", show::give_or_take(m3, off, 5))
    });
    add(words.volume, volume, Number::Volume);
    add(
        words.density_measured,
        within(&sheet.density, in_kg_per_m3, density),
        Number::Density,
    );
    add(
        words.density_at_12,
        within(&sheet.density_at_12, in_kg_per_m3, density),
        Number::DensityAt12,
    );
    let moisture = |percent: f64, off: f64| format!("{} %", show::give_or_take(percent, off, 1));
    add(
        words.moisture_corrected,
        within(&sheet.moisture, |m| m.in_percent(), moisture),
        Number::Moisture,
    );
    add(words.strength_left, strength, Number::Strength);
    add(
        words.rings_across,
        sheet.rings_across().map(|across| across_words(ui, &across)),
        Number::RingsAcross,
    );
    add(
        words.best_places,
        sheet.best_places(spec).map(|best| best_words(ui, &best)),
        Number::BestPlaces,
    );
    let known = of.into_iter().filter_map(|(name, shown, number)| {
        let shown = figure(ui, &name, &shown?, asked(number));
        Some((name, shown))
    });
    html! {
        (facts(known.collect()))
        @for why in &sheet.cannot { p.notice.doubt { (why.spoken()) } }
    }
}

fn across_words(ui: &Ui<'_>, across: &RingsAcross) -> String {
    let words = &ui.w.planks;
    let units = ui.model.units();
    let span = |span: AngleSpan| {
        let least = show::number(in_degrees(span.least), 0);
        fill(
            words.span,
            &[
                ("from", &least),
                ("to", &show::angle(in_degrees(span.greatest))),
            ],
        )
    };
    let quartersawn = match across.quartered {
        Some(band) => {
            let [from, to] = [band.from, band.to].map(|at| show::length(in_mm(at), units));
            fill(words.quartersawn_from, &[("from", &from), ("to", &to)])
        }
        None => words.none_quartersawn.to_owned(),
    };
    let (lie, turned) = (span(across.lie), span(across.lie.turned_on_edge()));
    fill(
        words.across,
        &[
            ("lie", &lie),
            ("turned", &turned),
            ("quartersawn", &quartersawn),
        ],
    )
}

fn best_words(ui: &Ui<'_>, best: &BestBlanks) -> String {
    let words = &ui.w.planks;
    let units = ui.model.units();
    let places = best.places.iter().zip(&best.slabs).map(|(place, slab)| {
        let [from, to] = [place.from, place.to].map(|at| show::length(in_mm(at), units));
        let thick = show::length(in_mm(*slab), units);
        fill(
            words.best_place,
            &[("from", &from), ("to", &to), ("thick", &thick)],
        )
    });
    let places: Vec<String> = places.collect();
    match places.is_empty() {
        true => words.no_part_fits.to_owned(),
        false => places.join("; "),
    }
}
