//! The straight slab that a bent, twisted, cupped plank still holds: cut first and flattened after, or
//! flattened whole.
//!
//! A shape that was not looked at costs nothing here and is named as left out: it never counts as
//! straight.

use super::volume::positive;
use super::{BendLeft, FormError, Plank, Side, bend_left, cup_left, mean_of_stations, twist_left};
use crate::quantity::{Length, Trace, TraceOff, formula, in_mm, mm};

/// A shape that takes from the thickness.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Shape {
    /// Curve along the length, flatwise.
    Bow,
    /// Ends not in one plane.
    Twist,
    /// Curve across the width.
    Cup,
}

impl Shape {
    /// The trade's term.
    pub fn name(self) -> &'static str {
        match self {
            Shape::Bow => "bow",
            Shape::Twist => "twist",
            Shape::Cup => "cup",
        }
    }
}

/// The straight slab left, and what took the rest of the thickness.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slab {
    /// What is left; below nothing when the losses are more than the plank is thick.
    pub thickness: Length,
    /// What the bow takes; `None` when the bow was not looked at.
    pub bow_loss: Option<Length>,
    /// What the twist takes; `None` when the twist was not looked at.
    pub twist_loss: Option<Length>,
    /// What the cup takes; `None` when the cup was not looked at.
    pub cup_loss: Option<Length>,
    /// What planing takes from both faces together.
    pub planing: Length,
}

impl Slab {
    /// The shapes that were not looked at, and so not taken off.
    pub fn left_out(&self) -> Vec<Shape> {
        [
            (Shape::Bow, self.bow_loss),
            (Shape::Twist, self.twist_loss),
            (Shape::Cup, self.cup_loss),
        ]
        .into_iter()
        .filter_map(|(shape, loss)| loss.is_none().then_some(shape))
        .collect()
    }

    /// How much more than [`Slab::thickness`] may be left at most, for the highest points of a twist and of the
    /// other shapes rarely lie in one place: min(w/2, bow + cup). Without twist nothing.
    ///
    /// As a rule about half a millimetre is left over. What is really there would be a linear programme over the
    /// points of both faces; the sum is kept, for it says what takes how much, and is never too hopeful.
    /// Derived here: geometry.
    ///
    /// No published value: a bound, held against a search over tilted planes.
    pub fn left_over_at_most(&self) -> Length {
        let lost = |loss: Option<Length>| loss.unwrap_or_default();
        lost(self.twist_loss).min(lost(self.bow_loss) + lost(self.cup_loss))
    }

    /// What would be left of a straight plank: only planing taken off.
    pub fn without_losses(&self) -> Length {
        let lost = |loss: Option<Length>| loss.unwrap_or_default();
        self.thickness + lost(self.bow_loss) + lost(self.twist_loss) + lost(self.cup_loss)
    }

    pub(super) fn after(
        trace: &mut impl Trace,
        thickness: Length,
        [bow_loss, twist_loss, cup_loss]: [Option<Length>; 3],
        planing: Length,
    ) -> Self {
        let lost = |loss: Option<Length>| loss.map_or(0.0, in_mm);
        let values = [
            in_mm(thickness),
            lost(bow_loss),
            lost(twist_loss),
            lost(cup_loss),
            in_mm(planing),
        ];
        Self {
            thickness: mm(trace.work(&SLAB, values)),
            bow_loss,
            twist_loss,
            cup_loss,
            planing,
        }
    }
}

formula! {
    /// The thickness of the straight slab.
    SLAB: "Straight slab", "T′", "mm";
    t: "T", "least thickness", "mm";
    bow: "bow", "what the bow takes", "mm";
    twist: "twist", "what the twist takes: half of its rise", "mm";
    cup: "cup", "what the cup takes", "mm";
    planing: "planing", "what planing takes from both faces together", "mm";
    = t - bow - twist - cup - planing;
    range "never more than is there; with twist among the losses up to half the rise may be left over";
    source "geometry, held against a search over tilted planes";
}

/// The slab in a piece that is cut first and flattened after.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CutFirst {
    /// With the bend inside the piece; for a kink, where it costs most.
    pub bend_inside: Slab,
    /// With the cut falling on the kink. For an even curve, the same.
    pub cut_on_kink: Slab,
}

/// The straight slab in a piece of l x b that is cut from the plank first and flattened after.
///
/// Thickness left: t - bow - w/2 - cup - 2 p. t is the plank's least thickness; bow, w (the rise of the
/// fourth corner, of which half is lost when the wind is split between the two faces) and cup are what
/// is left of each in the piece, see [`bend_left`], [`twist_left`] and [`cup_left`]; p is what planing
/// takes from a face. The plank's width is the mean of its stations.
///
/// It never claims more than is there. Bow with cup, and each of the three alone, come out exactly; with
/// twist among them, as much as min(w/2, bow + cup) may be left over, for the highest points rarely
/// coincide. Derived here: geometry; held against a search over tilted planes.
///
/// An error when the length or a thickness was not measured, the piece is larger than the plank, or the
/// width is missing where twist or cup needs it.
///
/// No published value: geometry, held against a search over tilted planes.
///
/// ```
/// use stillwood_core::plank::{Bend, BendShape, Cup, Plank, Stations, Twist, TwistRead, slab_cut_first};
/// use stillwood_core::quantity::{in_mm, mm};
/// let plank = Plank {
///     length: Some(mm(2620.0)),
///     widths: Stations::one(mm(204.0)),
///     thicknesses: Stations::one(mm(52.0)),
///     bow: Some(Bend { gap: mm(9.0), over: None, shape: BendShape::Even, signed: true }),
///     twist: Some(Twist { rise: mm(12.0), read: TwistRead::Corner, hand: None }),
///     cup: Some(Cup { gap: mm(4.0), over: None }),
///     ..Plank::default()
/// };
/// let slab = slab_cut_first(&plank, mm(950.0), mm(80.0), mm(1.0)).unwrap().bend_inside;
/// assert!((in_mm(slab.thickness) - 47.35).abs() < 0.01);
/// ```
pub fn slab_cut_first(
    plank: &Plank,
    length: Length,
    width: Length,
    planing: Length,
) -> Result<CutFirst, FormError> {
    let losses = slab_losses(&mut TraceOff, plank, (length, width), planing)?;
    Ok(losses.both())
}

/// What takes from the thickness of a piece that is cut first and flattened after, with its steps; the
/// slab is still to be reckoned, with the bend inside or with the cut on it. Errors as in
/// [`slab_cut_first`].
///
/// No published value: geometry, held against a search over tilted planes.
pub fn slab_losses(
    trace: &mut impl Trace,
    plank: &Plank,
    piece: (Length, Length),
    planing: Length,
) -> Result<SlabLosses, FormError> {
    let plank_length = positive(Side::Length, plank.length)?;
    let thickness = positive(Side::Thickness, plank.thicknesses.least())?;
    let plank_width = mean_of_stations(&plank.widths);
    let bend = match &plank.bow {
        Some(bow) => Some(bend_left(trace, bow, plank_length, piece.0)?),
        None => None,
    };
    let twist = match &plank.twist {
        // Half of the rise is lost when the wind is split between the two faces.
        Some(twist) => Some(twist_left(trace, twist, (plank_length, plank_width), piece)? / 2.0),
        None => None,
    };
    let cup = match &plank.cup {
        Some(cup) => {
            let plank_width = positive(Side::Width, plank_width)?;
            Some(cup_left(trace, cup, plank_width, piece.1)?)
        }
        None => None,
    };
    Ok(SlabLosses {
        thickness,
        bend,
        twist,
        cup,
        planing: planing * 2.0,
    })
}

/// What takes from the thickness of a piece.
#[derive(Debug, Clone, Copy)]
pub struct SlabLosses {
    thickness: Length,
    bend: Option<BendLeft>,
    twist: Option<Length>,
    cup: Option<Length>,
    planing: Length,
}

impl SlabLosses {
    /// The slab with the bend inside the piece; for a kink, where it costs most.
    pub fn bend_inside(&self, trace: &mut impl Trace) -> Slab {
        self.slab(trace, self.bend.map(|bend| bend.inside))
    }

    pub fn cut_on_kink(&self, trace: &mut impl Trace) -> Slab {
        self.slab(trace, self.bend.map(|bend| bend.cut_on_it))
    }

    /// Both, untold. Of an even curve the two are one.
    pub(crate) fn both(&self) -> CutFirst {
        let bend_inside = self.bend_inside(&mut TraceOff);
        let cut_on_kink = match self.bend {
            Some(bend) if bend.cut_on_it != bend.inside => self.cut_on_kink(&mut TraceOff),
            _ => bend_inside,
        };
        CutFirst {
            bend_inside,
            cut_on_kink,
        }
    }

    fn slab(&self, trace: &mut impl Trace, bow: Option<Length>) -> Slab {
        Slab::after(
            trace,
            self.thickness,
            [bow, self.twist, self.cup],
            self.planing,
        )
    }
}

/// The straight slab in the plank flattened whole, before it is cut.
///
/// The same sum as [`slab_cut_first`], with the piece as large as the plank: t - d - w/2 - c - 2 p.
///
/// No published value: geometry, held against a search over tilted planes.
pub fn slab_flattened_whole(
    trace: &mut impl Trace,
    plank: &Plank,
    planing: Length,
) -> Result<Slab, FormError> {
    let length = positive(Side::Length, plank.length)?;
    let width = match mean_of_stations(&plank.widths) {
        Some(width) => width,
        // Without a width, neither twist at a corner nor cup can have been used: whoever needs it says so.
        None if plank.twist.is_none() && plank.cup.is_none() => length,
        None => positive(Side::Width, None)?,
    };
    Ok(slab_losses(trace, plank, (length, width), planing)?.bend_inside(trace))
}

#[cfg(test)]
mod tests;
