//! How a number on a plank's sheet was worked out: each formula with this plank's numbers, its range and
//! source, the uncertainty and which measurement adds most to it.
//!
//! It calls the very functions that compute the sheet, with a trace that keeps their steps. It holds no
//! formula of its own.

use super::plank_under_spec::moisture;
use super::{
    Criterion, CriterionScore, CriterionValue, Form, Orientation, Sheet, SlabCounted, Spec,
};
use crate::plank::{
    Band, Bend, BendLeft, BendShape, GrainSlope, Plank, Rings, Shape, Slab, Source, bend_left,
    combined_slope, density_as_measured, mass_as_weighed, mean_of_stations, off_middle,
    quartered_when_turned, ring_angle_at, ring_angles_within, runout_over, slab_at,
    slab_flattened_whole, slab_losses, turned_on_edge, volume,
};
use crate::quantity::{
    CONFORMANCE, Derivation, Estimate, Length, Moisture, Scalar, Spread, Step, Trace, in_degrees,
    in_kg, in_mm, mm, show,
};
use crate::wood::{CALIBRATION_CELSIUS, Strength, density_at, strength_tested};

/// A number of a plank's sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Number {
    Volume,
    Mass,
    Density,
    /// Density at 12 %.
    DensityAt12,
    Moisture,
    /// The slab cut first and flattened after that counts.
    Slab,
    SlabBendInside,
    /// The same with a cut on the kink.
    SlabOnKink,
    /// The slab that counts, had the plank been sawn the other way first.
    SlabCutOtherwise,
    SlabWhole,
    BowLeft,
    CrookLeft,
    Grain,
    /// Runout over the part.
    Runout,
    Rings,
    /// Parts and blanks held.
    Held,
    /// Bending strength left at the slope of its grain.
    Strength,
    RingsAcross,
    /// The best places of parts along it.
    BestPlaces,
    /// The plank's score: that of its weakest criterion.
    PlankScore,
    Score(Criterion),
}

/// How a number of a sheet was worked out; `None` where the sheet does not have it.
pub fn working(number: Number, sheet: &Sheet, spec: &Spec) -> Option<Derivation> {
    let plank = &sheet.plank;
    let mut working = Derivation::default();
    let Derivation {
        steps,
        notes,
        spread,
        source,
    } = &mut working;
    let cut = spec.cut_spec();
    let piece = (cut.length, cut.flattened_width());
    match number {
        Number::Volume => {
            volume(steps, plank).ok()?;
            *spread = spread_of(&sheet.volume);
        }
        Number::Mass => {
            mass_as_weighed(steps, plank).ok()?;
            if steps.is_empty() {
                let kg = show::number(in_kg(sheet.mass.as_ref()?.value), 3);
                notes.push(format!(
                    "As weighed: the whole plank on the scale, {kg} kg."
                ));
                *source = "the scale's reading";
            }
            taper_note(notes, plank);
            *spread = spread_of(&sheet.mass);
        }
        Number::Density => {
            density_as_measured(steps, plank).ok()?;
            taper_note(notes, plank);
            *spread = spread_of(&sheet.density);
        }
        Number::DensityAt12 => {
            let measured = density_as_measured(steps, plank).ok()?;
            let moisture = moisture(steps, plank).ok()?;
            density_at(steps, measured, moisture, Moisture::STANDARD).ok()?;
            taper_note(notes, plank);
            *spread = spread_of(&sheet.density_at_12);
        }
        Number::Moisture => {
            moisture(steps, plank).ok()?;
            if plank.meter?.wood.is_none() {
                notes.push(format!(
                    "The wood's temperature was not taken: {CALIBRATION_CELSIUS} °C, give or take 10."
                ));
            }
            *spread = spread_of(&sheet.moisture);
        }
        Number::Slab => {
            let counted = sheet.cut_first?.counted;
            slab(steps, notes, plank, piece, cut.planing, counted)?;
            *spread = spread_of(&sheet.slab);
        }
        Number::SlabBendInside => {
            slab(
                steps,
                notes,
                plank,
                piece,
                cut.planing,
                SlabCounted::BendInside,
            )?;
        }
        Number::SlabOnKink => {
            slab(
                steps,
                notes,
                plank,
                piece,
                cut.planing,
                SlabCounted::CutOnKink,
            )?;
        }
        Number::SlabCutOtherwise => {
            let piece = (cut.length, sheet.slab_cut_otherwise?.width);
            let counted = sheet.cut_first?.counted;
            slab(steps, notes, plank, piece, cut.planing, counted)?;
        }
        Number::SlabWhole => {
            let slab = slab_flattened_whole(steps, plank, cut.planing).ok()?;
            left_out(notes, &slab);
            twist_note(notes, &slab);
        }
        Number::BowLeft => {
            let left = bend_left(steps, &plank.bow?, plank.length?, cut.length).ok()?;
            kink_note(notes, sheet, left);
        }
        Number::CrookLeft => {
            let left = bend_left(steps, &plank.crook?, plank.length?, cut.length).ok()?;
            kink_note(notes, sheet, left);
        }
        Number::Grain => {
            grain(steps, notes, plank, sheet.grain?);
            *source = "what was read on the plank";
        }
        Number::Runout => {
            grain(steps, notes, plank, sheet.grain?);
            runout_over(steps, sheet.grain?.at_least(), cut.length);
        }
        Number::Rings => {
            rings(steps, notes, plank, spec)?;
            *source = "what was read on the plank's end";
        }
        Number::Held => {
            let held = sheet.held.as_ref()?;
            notes.push(format!(
                "{} along the length and {} across the least width, with the spec's kerf and trims, \
                 round the defects that are usually cut round.",
                held.along.len(),
                held.across.len()
            ));
            notes.push(match cut.piece {
                Some(width) => format!(
                    "They are ripped out of pieces that are {:.1} mm wide once planed; pieces and parts are \
                     sawn wider by the planing of both edges.",
                    in_mm(width)
                ),
                None => "Each is sawn wider by the planing of both sides.".to_owned(),
            });
            if !held.thick_enough {
                notes.push("The straight slab is too thin, so that it holds none.".into());
            }
            *source = "counted: as many as go, whole";
        }
        Number::Strength => {
            let slope = sheet.grain?.at_least();
            strength_tested(steps, Strength::Bending, slope).ok()?;
        }
        Number::RingsAcross => {
            let rings = plank.rings.as_ref()?;
            let width = mean_of_stations(&plank.widths)?;
            let thickness = plank.thicknesses.least()?;
            ring_angles_within(steps, rings, Band::whole(width), thickness).ok()?;
            quartered_when_turned(steps, rings, width).ok()?;
            notes.push(format!(
                "Across {:.0} mm of width, through {:.1} mm of thickness; turned on edge, 90° less each.",
                in_mm(width),
                in_mm(thickness)
            ));
        }
        Number::BestPlaces => {
            for place in sheet.best_places(spec)?.places {
                slab_at(steps, plank, place.from, piece, cut.planing).ok()?;
            }
            notes.push(BEST_PLACES.into());
        }
        Number::PlankScore => {
            if let Some(fault) = sheet.verdict.fatal_defects.first() {
                let why = format!("0 of 100: {} is fatal under this spec.", fault.name());
                return Some(Derivation::note(why, "the maker's spec"));
            }
            let weakest = sheet.verdict.weakest?;
            score(&mut working, sheet, spec, weakest)?;
            working
                .notes
                .insert(0, format!("Its weakest criterion: {}.", weakest.name()));
        }
        Number::Score(quality) => score(&mut working, sheet, spec, quality)?,
    }
    Some(working)
}

/// How far a taper moves the centre of mass, where one end alone was weighed.
fn taper_note(notes: &mut Vec<String>, plank: &Plank) {
    if let Some(off) = off_middle(plank) {
        notes.push(format!(
            "By its widths and thicknesses the centre of mass lies {:.1} mm from mid-length. Which end was weighed \
             was not noted: the ± holds both.",
            off.standard
        ));
    }
}

const BEST_PLACES: &str = "As many parts as go along the plank, each with a slab that is thick enough; then \
     where their slabs, told above from the near end on, are together thickest. All starts at which that sum \
     can be largest are gone through, so none is better.";

/// The slab in a piece, with the bend inside or the cut on the kink.
fn slab(
    steps: &mut Vec<Step>,
    notes: &mut Vec<String>,
    plank: &Plank,
    piece: (Length, Length),
    planing: Length,
    counted: SlabCounted,
) -> Option<()> {
    let losses = slab_losses(steps, plank, piece, planing).ok()?;
    let slab = match counted {
        SlabCounted::BendInside => losses.bend_inside(steps),
        SlabCounted::CutOnKink => {
            let is_kinked = |bow: Bend| bow.shape != BendShape::Even;
            if plank.bow.is_some_and(is_kinked) {
                notes.push("The cut falls on the kink, so that the bow takes nothing.".into());
            }
            losses.cut_on_kink(steps)
        }
    };
    left_out(notes, &slab);
    twist_note(notes, &slab);
    Some(())
}

/// What the sum may leave over where there is twist.
fn twist_note(notes: &mut Vec<String>, slab: &Slab) {
    let over = in_mm(slab.left_over_at_most());
    if over >= 0.05 {
        notes.push(format!(
            "With twist the highest points of the shapes rarely lie in one place: up to {over:.1} mm more \
             may be left than this says, never less."
        ));
    }
}

/// How far it may be off, by what was measured.
fn spread_of<Q: Scalar>(figure: &Option<Estimate<Q, Source>>) -> Option<Spread> {
    Spread::of(figure, Source::name)
}

fn left_out(notes: &mut Vec<String>, slab: &Slab) {
    let shapes: Vec<&str> = slab.left_out().into_iter().map(Shape::name).collect();
    if !shapes.is_empty() {
        notes.push(format!(
            "Not looked at, so nothing taken off for it: {}.",
            shapes.join(", ")
        ));
    }
}

fn grain(steps: &mut Vec<Step>, notes: &mut Vec<String>, plank: &Plank, grain: GrainSlope) {
    match (grain, plank.grain_face, plank.grain_edge) {
        (GrainSlope::Combined(_), Some(face), Some(edge)) => {
            combined_slope(steps, face, edge);
        }
        _ => notes.push(format!(
            "One face alone was seen, {}: the grain slopes at least so much.",
            show::slope(grain.at_least().in_tangent())
        )),
    }
}

fn rings(steps: &mut Vec<Step>, notes: &mut Vec<String>, plank: &Plank, spec: &Spec) -> Option<()> {
    let rings = plank.rings.as_ref()?;
    let lies = ring_angle_at(steps, rings, mm(0.0)).ok()?;
    if let Rings::Angle(_) = rings {
        let angle = show::angle(in_degrees(lies));
        notes.push(format!(
            "The angle to the wide face at mid-width, as read: {angle}."
        ));
    }
    if spec.orientation == Orientation::OnEdge {
        turned_on_edge(steps, lies).ok()?;
    }
    Some(())
}

/// The value, its desirability, and how sure it is.
fn score(working: &mut Derivation, sheet: &Sheet, spec: &Spec, criterion: Criterion) -> Option<()> {
    let scored: &CriterionScore = sheet
        .verdict
        .scored
        .iter()
        .find(|scored| scored.requirement.criterion == criterion)?;
    let number = match criterion {
        Criterion::Straightness => Number::Slab,
        Criterion::Crook => Number::CrookLeft,
        Criterion::GrainSlope => Number::Grain,
        Criterion::RingAngle => Number::Rings,
        Criterion::Density => Number::DensityAt12,
        Criterion::Moisture => Number::Moisture,
        Criterion::Size => Number::Held,
    };
    *working = self::working(number, sheet, spec)?;
    let value = scored.estimate.value;
    scored
        .requirement
        .form
        .desirability(&mut working.steps, criterion.unit(), value);
    if scored.margin < 0.0 {
        working
            .notes
            .push("Beyond the limit: the score is 0, and so is the plank's.".into());
    }
    if let Some(CriterionValue::AtBest(_, why)) = sheet.verdict.of(criterion).map(|one| one.value) {
        working.notes.push(format!("At best: {why}."));
    }
    working.notes.push(format!(
        "Score: the desirability times 100, in whole points: {}. The plank's score is that of its weakest criterion.",
        scored.score
    ));
    if scored.estimate.standard > 0.0 {
        let window = matches!(scored.requirement.form, Form::Within { .. });
        if !window {
            let margin = [scored.margin, scored.estimate.standard];
            working
                .steps
                .work_in(criterion.unit(), &CONFORMANCE, margin);
        }
        working.notes.push(format!(
            "If it is taken as inside, the chance that it is not is {:.1} %; if it is refused, the \
             chance that it was well is {:.1} %. With both over 5 % it is too close to call.",
            (1.0 - scored.probability()) * 100.0,
            scored.probability() * 100.0
        ));
    }
    working.spread = spread_of(&Some(scored.estimate.clone()));
    Some(())
}

/// That a cut on the kink leaves nothing of it, where the verdict counts it so.
fn kink_note(notes: &mut Vec<String>, sheet: &Sheet, left: BendLeft) {
    if sheet.counted(left) != left.inside {
        notes.push("The cut falls on the kink, so that nothing of it is left in the part.".into());
    }
}
