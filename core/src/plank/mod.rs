//! A plank: what it measures and what it holds.
//!
//! Everything here is computed from [`Plank`], a description in quantities. Text, units as typed and
//! the maker's decisions live elsewhere; this room never rounds for show and never guesses: what was
//! not looked at is `None` and stays so.

mod bound;
mod defect;
mod density;
mod describe;
mod eye;
mod field;
mod form;
mod grain;
mod head;
mod instruments;
mod lean;
mod perturbed;
mod profile;
mod reading;
mod reason;
mod rings;
mod rings_by;
mod slab;
mod slab_at;
mod turned;
mod typed;
mod volume;
mod warnings;
mod weighed_by;
mod weighing;

pub use bound::Bound;
pub use defect::{Defect, DefectKind, DefectSeverity};
pub use density::{PlankDensityError, density_as_measured, density_of, mass_of};
pub(crate) use describe::described;
pub use describe::{describe, not_looked_at};
pub use eye::{EyeStep, eye_steps};
pub use field::{Field, FieldGroup, Measure};
pub use form::{BendLeft, FormError, bend_left, bend_left_at, cup_left, even_gap_over, twist_left};
pub use grain::{GrainSlope, combined_slope, grain_slope, runout_over};
pub use head::{GrainInHead, HeadError, grain_in_head};
pub use instruments::{Instruments, Source};
pub(crate) use instruments::{between_stations, off_middle};
pub use lean::{RingTilt, RunoutDirection};
pub use profile::{profile, whole_gap};
pub use reading::{DefectFound, Reading, Readings, Seen, Sign};
pub use reason::{Reason, ReasonGroup};
pub use rings::{
    AngleSpan, Band, RingClass, RingError, quartered_when_turned, ring_angle_at,
    ring_angles_within, ring_radius, turned_on_edge,
};
pub use rings_by::RingsBy;
pub use slab::{
    CutFirst, Shape, Slab, SlabLosses, slab_cut_first, slab_flattened_whole, slab_losses,
};
pub use slab_at::{slab_at, slab_turns_at};
pub use turned::end_turned;
pub use typed::{Offer, Understood, Warning, retyped, shown, understand, unusual};
pub(crate) use volume::positive;
pub use volume::{
    Side, SizeError, along, cross_sections, mean_of_stations, prismoidal_volume, volume,
    volume_shape_uncertainty,
};
pub use warnings::{FieldWarning, defect_warnings, warnings, warnings_for_wood};
pub(crate) use warnings::{LIGHTEST, SOLID};
pub use weighed_by::WeighedBy;
pub use weighing::{WeighingError, centre_off_middle, mass_as_weighed};

use crate::quantity::{Angle, Length, Mass, Moisture, Slope, Temperature, Volume};

/// A plank as found: quantities only. `None` and empty mean "not looked at", never "none".
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Plank {
    pub length: Option<Length>,
    /// Width at one to three stations: near end, middle, far end.
    pub widths: Stations,
    /// How much more wood lies between the stations than [`prismoidal_volume`] has: nothing as measured, for
    /// nobody measures there.
    pub between_stations: Volume,
    /// How far the centre of mass lies beyond mid-length from the end that rested or carried the known mass: nothing
    /// as measured, for which end it was is not noted.
    pub off_middle: Length,
    /// Mean width with all of the wane, which some yards charge.
    pub width_with_wane: Option<Length>,
    /// Thickness at one to three stations: near end, middle, far end.
    pub thicknesses: Stations,
    pub weighing: Option<Weighing>,
    /// What the moisture meter showed.
    pub meter: Option<MeterReading>,
    /// Curve along the length, flatwise: positive when the marked face is hollow.
    pub bow: Option<Bend>,
    /// Curve along the length, edgewise: positive when the marked edge is hollow.
    pub crook: Option<Bend>,
    /// Curve across the width: positive when the marked face is hollow.
    pub cup: Option<Cup>,
    /// Ends not in one plane.
    pub twist: Option<Twist>,
    /// Slope of grain seen on the wide face.
    pub grain_face: Option<Slope>,
    pub grain_edge: Option<Slope>,
    /// Growth rings at the end grain.
    pub rings: Option<Rings>,
    /// Which shapes and slopes are at least so much, and may be more.
    pub at_least: AtLeast,
    /// Defects found, with their places.
    pub defects: Vec<Defect>,
}

/// Shapes and slopes that were judged by the eye's last step, which has no upper end: each is a bound.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct AtLeast {
    pub bow: bool,
    pub crook: bool,
    pub twist: bool,
    pub cup: bool,
    /// The slope of grain on the wide face.
    pub grain_face: bool,
    pub grain_edge: bool,
}

/// One to three measurements along the plank, in the order near end, middle, far end.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Stations {
    /// At the near end, or the only one.
    pub near: Option<Length>,
    pub middle: Option<Length>,
    pub far: Option<Length>,
}

impl Stations {
    /// One measurement, taken to hold all along.
    pub fn one(value: Length) -> Self {
        Self {
            near: Some(value),
            middle: None,
            far: None,
        }
    }

    pub fn three(near: Length, middle: Length, far: Length) -> Self {
        Self {
            near: Some(near),
            middle: Some(middle),
            far: Some(far),
        }
    }

    fn each(&mut self, mut change: impl FnMut(&mut Option<Length>)) {
        change(&mut self.near);
        change(&mut self.middle);
        change(&mut self.far);
    }

    /// Those that were taken, in order.
    pub fn taken(&self) -> impl Iterator<Item = Length> {
        [self.near, self.middle, self.far].into_iter().flatten()
    }

    pub fn least(&self) -> Option<Length> {
        self.taken().fold(None, |least, next| match least {
            Some(least) if next < least => Some(next),
            Some(least) => Some(least),
            None => Some(next),
        })
    }
}

/// The ways a plank is weighed in a yard.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Weighing {
    /// The whole plank on the scale.
    Whole(Mass),
    /// One end lifted at a time, the other end resting on a bearer at its very end, or set in by
    /// `overhang` from it. The two readings add up to the whole; with one reading the plank is
    /// taken to be parallel.
    Ends {
        /// Reading with the first end lifted.
        first: Mass,
        /// Reading with the other end lifted, where it was taken.
        second: Option<Mass>,
        /// How far the resting end overhangs its bearer.
        overhang: Length,
    },
    /// No scale: balanced on a bar by a known mass hung on the end.
    Balanced {
        by: Mass,
        /// From the bar to the end that carries the mass.
        arm: Length,
    },
}

/// What a moisture meter showed, and how cold the wood was.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeterReading {
    pub shown: Moisture,
    pub wood: Option<Temperature>,
}

/// A curve along the length (bow or crook), as a gap under a straightedge or string.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bend {
    /// The largest gap, signed against the marked face or edge (see [`Plank::bow`]).
    pub gap: Length,
    /// Length of the straightedge or string; `None` is the whole plank.
    pub over: Option<Length>,
    /// An even curve or a kink.
    pub shape: BendShape,
    /// Whether the side was noted; what was seen without a sign is kept as unsigned.
    pub signed: bool,
}

/// How a bend is spread along the plank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum BendShape {
    Even,
    /// A sharp local bend, at this distance from the near end.
    Kink(Length),
}

/// A curve across the width, as a gap under a straightedge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cup {
    /// The largest gap, positive when the marked face is hollow.
    pub gap: Length,
    /// Length of the straightedge laid across; `None` is the whole width.
    pub over: Option<Length>,
}

/// Ends not in one plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Twist {
    /// Rise of the fourth corner, or gap read at the winding sticks; never negative.
    pub rise: Length,
    /// Over what the rise was read.
    pub read: TwistRead,
    /// Which way it winds, where that was noted.
    pub hand: Option<Hand>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub enum TwistRead {
    /// Rise of the fourth corner of the plank with the other three down.
    Corner,
    /// Gap at the end of a winding stick of this length, the sticks lying at the two ends of the plank.
    Sticks(Length),
}

/// The hand of a twist, seen from the near end: which way the far end has turned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Hand {
    Left,
    Right,
}

/// Growth rings as seen at the end grain.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Rings {
    /// The acute angle between the rings and the wide face, at mid-width.
    Angle(Angle),
    /// A ring's chord across the end and its dip (the rise of the arc over the chord): gives the
    /// ring's radius, so the angle anywhere across the width. `pith` is the distance of the pith
    /// from mid-width, across the plank; zero when the plank was sawn through it evenly, less than
    /// nothing where it lies to the left: on the near end, the marked face up, left is to the marked
    /// edge.
    Arc {
        chord: Length,
        dip: Length,
        /// From mid-width to the foot of the pith, along the width.
        pith: Length,
    },
}
