//! How a number on a plank's sheet was worked out: each formula with this plank's numbers, its range and
//! source, the uncertainty and which measurement adds most to it.
//!
//! It calls the very functions that compute the sheet, with a trace that keeps their steps. It holds no
//! formula of its own.

use super::plank_under_spec::moisture;
use super::{
    Criterion, CriterionScore, CriterionValue, Form, Orientation, Sheet, SlabCounted, Spec,
};
use crate::neck::CutSpec;
use crate::plank::{
    Band, Bend, BendShape, GrainSlope, Plank, Rings, Shape, Slab, Source, bend_left,
    combined_slope, density_as_measured, mass_as_weighed, mean_of_stations, off_middle,
    quartered_when_turned, ring_angle_at, ring_angles_within, runout_over, slab_at,
    slab_flattened_whole, slab_losses, turned_on_edge, volume,
};
use crate::quantity::{
    CONFORMANCE, Derivation, Estimate, Length, Moisture, Scalar, Spread, Trace, in_degrees, in_kg,
    in_mm, mm, show,
};
use crate::wood::{CALIBRATION_CELSIUS, density_at, strength_tested};

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
    let mut explained = Explained {
        sheet,
        plank: &sheet.plank,
        spec,
        cut: spec.cut_spec(),
        working: Derivation::default(),
    };
    match number {
        Number::Volume => explained.volume()?,
        Number::Mass => explained.mass()?,
        Number::Density => explained.density()?,
        Number::DensityAt12 => explained.density_at_12()?,
        Number::Moisture => explained.moisture()?,
        Number::Slab => explained.slab()?,
        Number::SlabBendInside => explained.slab_of(explained.piece(), SlabCounted::BendInside)?,
        Number::SlabOnKink => explained.slab_of(explained.piece(), SlabCounted::CutOnKink)?,
        Number::SlabCutOtherwise => explained.slab_cut_otherwise()?,
        Number::SlabWhole => explained.slab_whole()?,
        Number::BowLeft => explained.bend_left(explained.plank.bow?)?,
        Number::CrookLeft => explained.bend_left(explained.plank.crook?)?,
        Number::Grain => explained.grain()?,
        Number::Runout => explained.runout()?,
        Number::Rings => explained.rings()?,
        Number::Held => explained.held()?,
        Number::Strength => explained.strength()?,
        Number::RingsAcross => explained.rings_across()?,
        Number::BestPlaces => explained.best_places()?,
        Number::PlankScore => return plank_score(sheet, spec),
        Number::Score(criterion) => return score(sheet, spec, criterion),
    }
    Some(explained.working)
}

const BEST_PLACES: &str = "As many parts as go along the plank, each with a slab that is thick enough; then \
     where their slabs, told above from the near end on, are together thickest. All starts at which that sum \
     can be largest are gone through, so none is better.";

/// How a number was worked out, as far as it is told, and the sheet that it is of.
struct Explained<'a> {
    sheet: &'a Sheet,
    plank: &'a Plank,
    spec: &'a Spec,
    cut: CutSpec,
    working: Derivation,
}

impl Explained<'_> {
    fn note(&mut self, note: impl Into<String>) {
        self.working.notes.push(note.into());
    }

    /// Length and width of the piece that is flattened.
    fn piece(&self) -> (Length, Length) {
        (self.cut.length, self.cut.flattened_width())
    }

    fn volume(&mut self) -> Option<()> {
        volume(&mut self.working.steps, self.plank).ok()?;
        self.working.spread = spread_of(&self.sheet.volume);
        Some(())
    }

    fn mass(&mut self) -> Option<()> {
        mass_as_weighed(&mut self.working.steps, self.plank).ok()?;
        if self.working.steps.is_empty() {
            let kg = show::number(in_kg(self.sheet.mass.as_ref()?.value), 3);
            self.note(format!(
                "As weighed: the whole plank on the scale, {kg} kg."
            ));
            self.working.source = "the scale's reading";
        }
        self.taper();
        self.working.spread = spread_of(&self.sheet.mass);
        Some(())
    }

    fn density(&mut self) -> Option<()> {
        density_as_measured(&mut self.working.steps, self.plank).ok()?;
        self.taper();
        self.working.spread = spread_of(&self.sheet.density);
        Some(())
    }

    fn density_at_12(&mut self) -> Option<()> {
        let steps = &mut self.working.steps;
        let measured = density_as_measured(steps, self.plank).ok()?;
        let moisture = moisture(steps, self.plank).ok()?;
        density_at(steps, measured, moisture, Moisture::STANDARD).ok()?;
        self.taper();
        self.working.spread = spread_of(&self.sheet.density_at_12);
        Some(())
    }

    /// How far a taper moves the centre of mass, where one end alone was weighed.
    fn taper(&mut self) {
        if let Some(off) = off_middle(self.plank) {
            self.note(format!(
                "By its widths and thicknesses the centre of mass lies {:.1} mm from mid-length. Which end was weighed \
                 was not noted: the ± holds both.",
                off.standard
            ));
        }
    }

    fn moisture(&mut self) -> Option<()> {
        moisture(&mut self.working.steps, self.plank).ok()?;
        if self.plank.meter?.wood.is_none() {
            self.note(format!(
                "The wood's temperature was not taken: {CALIBRATION_CELSIUS} °C, give or take 10."
            ));
        }
        self.working.spread = spread_of(&self.sheet.moisture);
        Some(())
    }

    /// The slab that counts.
    fn slab(&mut self) -> Option<()> {
        self.slab_of(self.piece(), self.sheet.cut_first?.counted)?;
        self.working.spread = spread_of(&self.sheet.slab);
        Some(())
    }

    /// The slab in a piece, with the bend inside or the cut on the kink.
    fn slab_of(&mut self, piece: (Length, Length), counted: SlabCounted) -> Option<()> {
        let steps = &mut self.working.steps;
        let losses = slab_losses(steps, self.plank, piece, self.cut.planing).ok()?;
        let slab = match counted {
            SlabCounted::BendInside => losses.bend_inside(steps),
            SlabCounted::CutOnKink => losses.cut_on_kink(steps),
        };
        let is_kinked = |bow: Bend| bow.shape != BendShape::Even;
        if counted == SlabCounted::CutOnKink && self.plank.bow.is_some_and(is_kinked) {
            self.note("The cut falls on the kink, so that the bow takes nothing.");
        }
        self.left_out(&slab);
        self.twist(&slab);
        Some(())
    }

    fn slab_cut_otherwise(&mut self) -> Option<()> {
        let piece = (self.cut.length, self.sheet.slab_cut_otherwise?.width);
        self.slab_of(piece, self.sheet.cut_first?.counted)
    }

    fn slab_whole(&mut self) -> Option<()> {
        let slab = slab_flattened_whole(&mut self.working.steps, self.plank, self.cut.planing);
        let slab = slab.ok()?;
        self.left_out(&slab);
        self.twist(&slab);
        Some(())
    }

    /// The shapes that were not looked at.
    fn left_out(&mut self, slab: &Slab) {
        let shapes: Vec<&str> = slab.left_out().into_iter().map(Shape::name).collect();
        if !shapes.is_empty() {
            self.note(format!(
                "Not looked at, so nothing taken off for it: {}.",
                shapes.join(", ")
            ));
        }
    }

    /// What the sum may leave over where there is twist.
    fn twist(&mut self, slab: &Slab) {
        let over = in_mm(slab.left_over_at_most());
        if over >= 0.05 {
            self.note(format!(
                "With twist the highest points of the shapes rarely lie in one place: up to {over:.1} mm more \
                 may be left than this says, never less."
            ));
        }
    }

    /// A bend left in the part; that a cut on the kink leaves nothing of it, where the verdict counts it so.
    fn bend_left(&mut self, bend: Bend) -> Option<()> {
        let steps = &mut self.working.steps;
        let left = bend_left(steps, &bend, self.plank.length?, self.cut.length).ok()?;
        if self.sheet.counted(left) != left.inside {
            self.note("The cut falls on the kink, so that nothing of it is left in the part.");
        }
        Some(())
    }

    fn best_places(&mut self) -> Option<()> {
        let (piece, planing) = (self.piece(), self.cut.planing);
        for place in self.sheet.best_places(self.spec)?.places {
            slab_at(
                &mut self.working.steps,
                self.plank,
                place.from,
                piece,
                planing,
            )
            .ok()?;
        }
        self.note(BEST_PLACES);
        Some(())
    }

    fn grain(&mut self) -> Option<()> {
        self.slope()?;
        self.working.source = "what was read on the plank";
        Some(())
    }

    fn runout(&mut self) -> Option<()> {
        let slope = self.slope()?.at_least();
        runout_over(&mut self.working.steps, slope, self.cut.length);
        Some(())
    }

    fn slope(&mut self) -> Option<GrainSlope> {
        let grain = self.sheet.grain?;
        match (grain, self.plank.grain_face, self.plank.grain_edge) {
            (GrainSlope::Combined(_), Some(face), Some(edge)) => {
                combined_slope(&mut self.working.steps, face, edge);
            }
            _ => self.note(format!(
                "One face alone was seen, {}: the grain slopes at least so much.",
                show::slope(grain.at_least().in_tangent())
            )),
        }
        Some(grain)
    }

    fn strength(&mut self) -> Option<()> {
        let slope = self.sheet.grain?.at_least();
        strength_tested(&mut self.working.steps, slope).ok()?;
        Some(())
    }

    fn rings(&mut self) -> Option<()> {
        let rings = self.plank.rings.as_ref()?;
        let lies = ring_angle_at(&mut self.working.steps, rings, mm(0.0)).ok()?;
        if let Rings::Angle(_) = rings {
            let angle = show::angle(in_degrees(lies));
            self.note(format!(
                "The angle to the wide face at mid-width, as read: {angle}."
            ));
        }
        if self.spec.orientation == Orientation::OnEdge {
            turned_on_edge(&mut self.working.steps, lies).ok()?;
        }
        self.working.source = "what was read on the plank's end";
        Some(())
    }

    fn rings_across(&mut self) -> Option<()> {
        let rings = self.plank.rings.as_ref()?;
        let width = mean_of_stations(&self.plank.widths)?;
        let thickness = self.plank.thicknesses.least()?;
        let steps = &mut self.working.steps;
        ring_angles_within(steps, rings, Band::whole(width), thickness).ok()?;
        quartered_when_turned(steps, rings, width).ok()?;
        self.note(format!(
            "Across {:.0} mm of width, through {:.1} mm of thickness; turned on edge, 90° less each.",
            in_mm(width),
            in_mm(thickness)
        ));
        Some(())
    }

    /// Parts and blanks held.
    fn held(&mut self) -> Option<()> {
        let held = self.sheet.held.as_ref()?;
        self.note(format!(
            "{} along the length and {} across the least width, with the spec's kerf and trims, \
             round the defects that are usually cut round.",
            held.along.len(),
            held.across.len()
        ));
        self.note(match self.cut.piece {
            Some(width) => format!(
                "They are ripped out of pieces that are {:.1} mm wide once planed; pieces and parts are \
                 sawn wider by the planing of both edges.",
                in_mm(width)
            ),
            None => "Each is sawn wider by the planing of both sides.".to_owned(),
        });
        if !held.thick_enough {
            self.note("The straight slab is too thin, so that it holds none.");
        }
        self.working.source = "counted: as many as go, whole";
        Some(())
    }
}

/// How far it may be off, by what was measured.
fn spread_of<Q: Scalar>(figure: &Option<Estimate<Q, Source>>) -> Option<Spread> {
    Spread::of(figure, Source::name)
}

/// The score of the weakest criterion, or the defect that is fatal.
fn plank_score(sheet: &Sheet, spec: &Spec) -> Option<Derivation> {
    if let Some(defect) = sheet.verdict.fatal_defects.first() {
        let why = format!("0 of 100: {} is fatal under this spec.", defect.name());
        return Some(Derivation::note(why, "the maker's spec"));
    }
    let weakest = sheet.verdict.weakest?;
    let mut working = score(sheet, spec, weakest)?;
    working
        .notes
        .insert(0, format!("Its weakest criterion: {}.", weakest.name()));
    Some(working)
}

/// The value, its desirability, and how sure it is.
fn score(sheet: &Sheet, spec: &Spec, criterion: Criterion) -> Option<Derivation> {
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
    let mut working = working(number, sheet, spec)?;
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
    Some(working)
}
