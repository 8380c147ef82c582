//! A plank's sheet: everything that can be worked out of its measurements, with uncertainty, beside
//! the verdict. It is what the screens draw; it holds no text but the reasons why something is missing.

use super::{
    CountedSlab, Criterion, CriterionValue, Evaluation, FirstCut, Orientation, SlabCounted, Spec,
    evaluate, moisture,
};
use crate::neck::{BestBlanks, PartCount, best_blanks};
use crate::plank::{
    AngleSpan, Band, BendLeft, CutFirst, DefectFound, GrainSlope, Instruments, Plank, Readings,
    RingClass, Slab, Source, bend_left, density_as_measured, describe, grain_slope,
    mass_as_weighed, mean_of_stations, quartered_when_turned, ring_angle_at, ring_angles_within,
    runout_over, slab_cut_first, slab_flattened_whole, turned_on_edge, volume,
};
use crate::quantity::TraceOff;
use crate::quantity::{
    Angle, Estimate, Input, Length, Mass, MassDensity, Moisture, Scalar, Volume, kg_per_m3, mm,
    propagate,
};

/// A result with its uncertainty and where that comes from.
pub type Figure<Q> = Option<Estimate<Q, Source>>;

/// The growth rings of a plank, as they lie and as the part will stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RingsSeen {
    /// Angle to the wide face at mid-width.
    pub lies: Angle,
    pub class: RingClass,
    /// Angle to the part's wide face in the blank.
    pub stands: Angle,
    pub stands_class: RingClass,
}

/// The straight slab had the plank been sawn the other way first: of the piece that the parts of a blank would
/// be ripped from where the spec has the parts straight off the plank, of a part by itself where it has a piece
/// first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SlabCutOtherwise {
    pub width: Length,
    /// The slab, its kink cut at or not as in the slab that counts.
    pub slab: Slab,
}

/// Everything that can be worked out for a plank.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// The description that the readings make.
    pub plank: Plank,
    pub volume: Figure<Volume>,
    /// Mass, however it was weighed.
    pub mass: Figure<Mass>,
    pub density: Figure<MassDensity>,
    /// Density at 12 %.
    pub density_at_12: Figure<MassDensity>,
    /// Moisture, corrected for cold wood.
    pub moisture: Figure<Moisture>,
    /// The straight slab in what is sawn first and flattened after, and which counts.
    pub cut_first: Option<CountedSlab>,
    /// Thickness of the slab that counts, with its uncertainty.
    pub slab: Figure<Length>,
    /// The same under the other first cut.
    pub slab_cut_otherwise: Option<SlabCutOtherwise>,
    /// The straight slab in the plank flattened whole.
    pub whole: Option<Slab>,
    /// What the bow leaves in a part's length.
    pub bow_left: Option<BendLeft>,
    /// What the crook leaves in a part's length.
    pub crook_left: Option<BendLeft>,
    pub grain: Option<GrainSlope>,
    /// How far the grain runs out over a part's length.
    pub runout: Option<Length>,
    pub rings: Option<RingsSeen>,
    /// Parts and blanks that the plank holds.
    pub held: Option<PartCount>,
    /// What could not be worked out though it was measured, in the maker's words.
    pub cannot: Vec<String>,
    /// The evaluation under the spec: everything here that hangs on the spec was read from it.
    pub verdict: Evaluation,
}

/// Works out a plank's sheet under a spec.
pub fn sheet(
    readings: &Readings,
    defects: &[DefectFound],
    instruments: &Instruments,
    spec: &Spec,
) -> Sheet {
    let plank = describe(readings, defects);
    let inputs = instruments.inputs(readings);
    let verdict = evaluate(&plank, &inputs, spec);
    let (length, planing) = (mm(spec.part.length_mm), mm(spec.planing_mm));
    let mut cannot: Vec<String> = Vec::new();
    let mut note = |why: String| {
        if !cannot.contains(&why) {
            cannot.push(why);
        }
    };
    if plank.weighing.is_some()
        && plank.length.is_some()
        && let Err(why) = mass_as_weighed(&mut TraceOff, &plank)
    {
        note(why.to_string());
    }
    if let Err(CriterionValue::Cannot(why)) = moisture(&mut TraceOff, &plank) {
        note(why.to_string());
    }
    let shaped = plank.bow.is_some() || plank.twist.is_some() || plank.cup.is_some();
    if let (Err(CriterionValue::Cannot(why)), true) = (verdict.slab, shaped) {
        note(why.to_string());
    }
    let cut_first = verdict.slab.ok();
    let bend = |bend: Option<crate::plank::Bend>| {
        bend_left(&mut TraceOff, &bend?, plank.length?, length).ok()
    };
    let grain = grain_slope(plank.grain_face, plank.grain_edge);
    let in_unit = |criterion| verdict.estimate(criterion);
    Sheet {
        volume: figure(&plank, &inputs, |p| volume(&mut TraceOff, p).ok()),
        mass: figure(&plank, &inputs, |p| mass_as_weighed(&mut TraceOff, p).ok()),
        density: figure(&plank, &inputs, |p| {
            density_as_measured(&mut TraceOff, p).ok()
        }),
        density_at_12: in_unit(Criterion::Density).map(|found| found.in_unit(kg_per_m3)),
        moisture: in_unit(Criterion::Moisture).map(|found| found.in_unit(Moisture::percent)),
        slab: in_unit(Criterion::Straightness).map(|found| found.in_unit(mm)),
        slab_cut_otherwise: cut_first.and_then(|slab| slab_cut_otherwise(&plank, spec, slab)),
        cut_first,
        whole: slab_flattened_whole(&mut TraceOff, &plank, planing)
            .ok()
            .filter(|_| shaped),
        bow_left: bend(plank.bow),
        crook_left: bend(plank.crook),
        runout: grain.map(|grain| runout_over(&mut TraceOff, grain.at_least(), length)),
        grain,
        rings: rings(&plank, spec),
        held: verdict.parts.clone().ok(),
        verdict,
        cannot,
        plank,
    }
}

fn slab_cut_otherwise(plank: &Plank, spec: &Spec, slab: CountedSlab) -> Option<SlabCutOtherwise> {
    let width = match spec.first_cut {
        FirstCut::Part => mm(spec.piece_across_mm()),
        FirstCut::Piece { .. } => mm(spec.across_mm()),
    };
    if width == spec.cut_spec().flattened_width() {
        return None;
    }
    let (length, planing) = (mm(spec.part.length_mm), mm(spec.planing_mm));
    let CutFirst {
        bend_inside,
        cut_on_kink,
    } = slab_cut_first(plank, length, width, planing).ok()?;
    Some(SlabCutOtherwise {
        width,
        slab: match slab.counted {
            SlabCounted::BendInside => bend_inside,
            SlabCounted::CutOnKink => cut_on_kink,
        },
    })
}

/// The rings across the width of a plank, where a ring's chord and dip were read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RingsAcross {
    /// The angles to the wide face, over all of the width and thickness.
    pub lie: AngleSpan,
    /// The stretch of the width, from its middle, whose parts come out quartersawn when they are turned
    /// on edge.
    pub quartered: Option<Band>,
}

impl Sheet {
    /// What is left in a part of a bend, as the verdict counts it: nothing of a kink where the slab that counts is
    /// the one with a cut on it.
    pub fn counted(&self, left: BendLeft) -> Length {
        match self.cut_first.map(|slab| slab.counted) {
            Some(SlabCounted::CutOnKink) => left.cut_on_it,
            Some(SlabCounted::BendInside) | None => left.inside,
        }
    }

    /// Whether a criterion's number is only the best that it can be: something that can only make it worse was not
    /// looked at, or seen by eye as so much or more.
    pub fn is_at_best(&self, criterion: Criterion) -> bool {
        let found = self.verdict.of(criterion).map(|found| &found.value);
        matches!(found, Some(CriterionValue::AtBest(..)))
    }

    /// Whether a slab is only the best that it can be: a shape was not looked at, or one that takes from it was seen by
    /// eye as so much or more.
    pub fn is_slab_at_best(&self, slab: &Slab) -> bool {
        let open = self.plank.at_least;
        let losses = [
            (open.bow, slab.bow_loss),
            (open.twist, slab.twist_loss),
            (open.cup, slab.cup_loss),
        ];
        let takes = |loss: Option<Length>| loss.is_none_or(|loss| loss > Length::default());
        losses
            .into_iter()
            .any(|(open, loss)| loss.is_none() || open && takes(loss))
    }

    /// The rings across the width; `None` where only an angle was read, or the pith is in the plank.
    pub fn rings_across(&self) -> Option<RingsAcross> {
        let rings = self.plank.rings.as_ref()?;
        let width = mean_of_stations(&self.plank.widths)?;
        let thickness = self.plank.thicknesses.least()?;
        Some(RingsAcross {
            lie: ring_angles_within(&mut TraceOff, rings, Band::whole(width), thickness).ok()?,
            quartered: quartered_when_turned(&mut TraceOff, rings, width).ok()?,
        })
    }

    /// The best places of blanks along the plank under a spec: as many as go, then where the straight slab
    /// is thickest. `None` where the sizes are not known.
    pub fn best_places(&self, spec: &Spec) -> Option<BestBlanks> {
        best_blanks(&self.plank, &spec.cut_spec(), None).ok()
    }
}

/// A result that no defect touches, with its uncertainty.
fn figure<Q: Scalar>(
    plank: &Plank,
    inputs: &[Input<Source>],
    compute: impl Fn(&Plank) -> Option<Q>,
) -> Figure<Q> {
    let bare = plank.without_defects();
    propagate(inputs, |moved| match moved {
        None => compute(&bare),
        Some((source, by)) => compute(&bare.perturbed(source, by)),
    })
}

fn rings(plank: &Plank, spec: &Spec) -> Option<RingsSeen> {
    let lies = ring_angle_at(&mut TraceOff, plank.rings.as_ref()?, mm(0.0)).ok()?;
    let stands = match spec.orientation {
        Orientation::Flat => lies,
        Orientation::OnEdge => turned_on_edge(&mut TraceOff, lies).ok()?,
    };
    Some(RingsSeen {
        lies,
        class: RingClass::of(lies).ok()?,
        stands,
        stands_class: RingClass::of(stands).ok()?,
    })
}
