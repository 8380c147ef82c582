//! A plank's sheet: everything that can be worked out of its measurements, with uncertainty, beside
//! the verdict. It is what the screens draw; it holds no text but the reasons why something is missing.

use super::body::{MASS, MOISTURE, VOLUME};
use super::{Known, Laid, Quality, Spec, Verdict, judge, moisture, parts_held};
use crate::neck::{BestBlanks, Cutting, Held, best_blanks};
use crate::plank::{
    AngleSpan, Band, BendLeft, CutFirst, DefectFound, GrainSlope, Instruments, Plank, Readings,
    RingClass, Slab, Source, Sources, bend_left, density_as_measured, describe, grain_slope,
    mass_as_weighed, mean_of_stations, quartered_when_turned, ring_angle_at, ring_angles_within,
    runout_over, slab_cut_first, slab_flattened_whole, turned_on_edge, volume,
};
use crate::quantity::{
    Angle, Estimate, Input, Length, Mass, MassDensity, Moisture, Parts, Scalar, Volume, mm, part,
};
use crate::wood::density_at_12;

/// A result with its uncertainty and where that comes from.
pub type Figure<Q> = Option<Estimate<Q, Source>>;

/// The growth rings of a plank, as they lie and as the part will stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RingsSeen {
    /// Angle to the wide face at mid-width.
    pub lies: Angle,
    /// Its class.
    pub class: RingClass,
    /// Angle to the part's wide face in the blank.
    pub stands: Angle,
    /// Its class.
    pub stands_class: RingClass,
}

/// Everything that can be worked out for a plank.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// The description that the readings make.
    pub plank: Plank,
    /// Volume by stations.
    pub volume: Figure<Volume>,
    /// Mass, however it was weighed.
    pub mass: Figure<Mass>,
    /// Density as measured.
    pub density: Figure<MassDensity>,
    /// Density at 12 %.
    pub density_at_12: Figure<MassDensity>,
    /// Moisture, corrected for cold wood.
    pub moisture: Figure<Moisture>,
    /// The straight slab in a part, cut first and flattened after.
    pub cut_first: Option<CutFirst>,
    /// Thickness of that slab, with its uncertainty.
    pub slab: Figure<Length>,
    /// The straight slab in the plank flattened whole.
    pub whole: Option<Slab>,
    /// What the bow leaves in a part's length.
    pub bow_left: Option<BendLeft>,
    /// What the crook leaves in a part's length.
    pub crook_left: Option<BendLeft>,
    /// Slope of grain.
    pub grain: Option<GrainSlope>,
    /// How far the grain runs out over a part's length.
    pub runout: Option<Length>,
    /// Rings.
    pub rings: Option<RingsSeen>,
    /// Parts and blanks that the plank holds.
    pub held: Option<Held>,
    /// What could not be worked out though it was measured, in the maker's words.
    pub cannot: Vec<String>,
    /// The verdict.
    pub verdict: Verdict,
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
    let (length, across, planing) = (
        mm(spec.part.length_mm),
        mm(spec.across_mm()),
        mm(spec.planing_mm),
    );
    let mut cannot: Vec<String> = Vec::new();
    let mut note = |why: String| {
        if !cannot.contains(&why) {
            cannot.push(why);
        }
    };
    let measured = |p: &Plank| density_as_measured(p).ok();
    let at_12 = |p: &Plank| density_at_12(density_as_measured(p).ok()?, moisture(p).ok()?).ok();
    let slab_left = |p: &Plank| {
        Some(
            slab_cut_first(p, length, across, planing)
                .ok()?
                .bend_inside
                .thickness,
        )
    };
    if let (Some(weighing), true) = (plank.weighing, plank.length.is_some())
        && let Err(why) = mass_as_weighed(weighing, plank.length)
    {
        note(why.to_string());
    }
    if let Err(Known::Cannot(why)) = moisture(&plank) {
        note(why.to_string());
    }
    let shaped = plank.bow.is_some() || plank.twist.is_some() || plank.cup.is_some();
    let sized = plank.length.is_some() && plank.thicknesses.least().is_some();
    let cut_first = match slab_cut_first(&plank, length, across, planing) {
        Ok(slab) => Some(slab),
        Err(why) => {
            if shaped && sized {
                note(why.to_string());
            }
            None
        }
    };
    let bend = |bend: Option<crate::plank::Bend>| bend_left(&bend?, plank.length?, length).ok();
    let grain = grain_slope(plank.grain_face, plank.grain_edge);
    let part_figures = shaped && sized;
    Sheet {
        volume: figure(&plank, &inputs, VOLUME, |p| volume(p).ok()),
        mass: figure(&plank, &inputs, MASS, |p| {
            mass_as_weighed(p.weighing?, p.length).ok()
        }),
        density: figure(&plank, &inputs, MASS.with(VOLUME), measured),
        density_at_12: figure(&plank, &inputs, Quality::Density.sources(&plank), at_12),
        moisture: figure(&plank, &inputs, MOISTURE, |p| moisture(p).ok()),
        slab: part_figures
            .then(|| {
                figure(
                    &plank,
                    &inputs,
                    Quality::Straightness.sources(&plank),
                    slab_left,
                )
            })
            .flatten(),
        cut_first: cut_first.filter(|_| part_figures),
        whole: slab_flattened_whole(&plank, planing)
            .ok()
            .filter(|_| part_figures),
        bow_left: bend(plank.bow),
        crook_left: bend(plank.crook),
        runout: grain.map(|grain| runout_over(grain.at_least(), length)),
        grain,
        rings: rings(&plank, spec),
        held: parts_held(&plank, spec).ok(),
        verdict: judge(&plank, &inputs, spec),
        cannot,
        plank,
    }
}

/// The rings across the width of a plank, where a ring's chord and dip were read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RingsAcross {
    /// The angles to the wide face, over all of the width and thickness.
    pub lie: AngleSpan,
    /// The stretch of the width, from its middle, whose strips come out quartersawn when they are turned
    /// on edge.
    pub quartered: Option<Band>,
}

impl Sheet {
    /// The rings across the width; `None` where only an angle was read, or the pith is in the plank.
    pub fn rings_across(&self) -> Option<RingsAcross> {
        let rings = self.plank.rings.as_ref()?;
        let width = mean_of_stations(&self.plank.widths)?;
        let thickness = self.plank.thicknesses.least()?;
        Some(RingsAcross {
            lie: ring_angles_within(rings, Band::whole(width), thickness).ok()?,
            quartered: quartered_when_turned(rings, width).ok()?,
        })
    }

    /// The best places of blanks along the plank under a spec: as many as go, then where the straight slab
    /// is thickest. `None` where the sizes are not known.
    pub fn best_places(&self, spec: &Spec) -> Option<BestBlanks> {
        let planing = mm(spec.planing_mm);
        best_blanks(
            &self.plank,
            &Cutting::of(spec),
            mm(spec.across_mm()),
            planing,
            None,
        )
        .ok()
    }
}

/// A result with its uncertainty, as [`crate::quantity::propagate`] has it; one that a plank's faults do
/// not touch, and `sources` alone move.
fn figure<Q: Scalar>(
    plank: &Plank,
    inputs: &[Input<Source>],
    sources: Sources,
    compute: impl Fn(&Plank) -> Option<Q>,
) -> Figure<Q> {
    let value = compute(plank)?;
    let mut parts = Parts::of_at_most(sources.count());
    let mut nudged = plank.bare();
    for Input { source, standard } in inputs.iter().filter(|one| sources.hold(one.source)) {
        let [above, below] = [*standard, -*standard].map(|by| {
            nudged.nudge(*source, by);
            let found = compute(&nudged).map(Q::raw);
            nudged.put_back(*source, plank);
            found
        });
        parts.add(*source, part(value.raw(), above, below));
    }
    Some(Estimate::of(value, parts))
}

fn rings(plank: &Plank, spec: &Spec) -> Option<RingsSeen> {
    let lies = ring_angle_at(plank.rings.as_ref()?, mm(0.0)).ok()?;
    let stands = match spec.laid {
        Laid::Flat => lies,
        Laid::OnEdge => turned_on_edge(lies).ok()?,
    };
    Some(RingsSeen {
        lies,
        class: RingClass::of(lies).ok()?,
        stands,
        stands_class: RingClass::of(stands).ok()?,
    })
}
