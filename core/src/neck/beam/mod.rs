//! What a laminated blank does: its stiffness, its weight, and what is left in it of the twist of its
//! laminates.
//!
//! Linear beams of layers that hold together: laminates are pressed straight, glued, and let go. It
//! knows no creep and no glue, and never says how much is too much.

mod torsion;

use super::beam_formulas::{EDGEWISE, WEIGHT};
use crate::quantity::{
    Length, Mass, MassDensity, Trace, in_gpa, in_kg_per_m3, in_mm, is_positive, kg,
};
use thiserror::Error;
use torsion::layered_torsion;
use uom::si::f64::Pressure;
use uom::si::pressure::pascal;

/// A laminate in a stack.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Layer {
    /// Its size across the glue lines.
    pub thickness: Length,
    /// Its size along the glue lines.
    pub width: Length,
    /// Its modulus of elasticity along the grain.
    pub modulus: Pressure,
}

/// Why nothing can be said of a blank.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum BeamError {
    /// A blank of no laminates.
    #[error("a blank of no laminates")]
    NoLayers,
    /// A size that is nothing, less than nothing, or no number.
    #[error("a laminate of {:.1} mm: it has to be more than nothing", in_mm(*.0))]
    Size(Length),
    /// A modulus that is nothing, less than nothing, or no number.
    #[error("a modulus of {:.0} MPa: it has to be more than nothing", .0.get::<pascal>() / 1e6)]
    Modulus(Pressure),
    /// A density that is nothing, less than nothing, or no number.
    #[error("a density of {:.0} kg/m³: it has to be more than nothing", in_kg_per_m3(*.0))]
    Density(MassDensity),
    /// A shape or a change that is no number.
    #[error("a shape that is no number")]
    NoNumber,
}

/// How hard a beam is to bend: modulus times second moment of area.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct BendingStiffness(f64);

impl BendingStiffness {
    /// In N m².
    pub const fn in_newton_square_metres(self) -> f64 {
        self.0
    }
}

fn size(value: Length) -> Result<f64, BeamError> {
    if is_positive(value.value) {
        Ok(value.value)
    } else {
        Err(BeamError::Size(value))
    }
}

/// Thickness, width and modulus in SI.
fn si(layer: &Layer) -> Result<(f64, f64, f64), BeamError> {
    let modulus = layer.modulus.get::<pascal>();
    if !is_positive(modulus) {
        return Err(BeamError::Modulus(layer.modulus));
    }
    Ok((size(layer.thickness)?, size(layer.width)?, modulus))
}

fn gap(value: Length) -> Result<f64, BeamError> {
    if value.value.is_finite() {
        Ok(value.value)
    } else {
        Err(BeamError::NoNumber)
    }
}

fn length(metres: f64) -> Length {
    Length {
        value: metres,
        ..Length::default()
    }
}

/// Modulus in GPa, thickness and width in mm.
fn bench(layer: &Layer) -> Result<[f64; 3], BeamError> {
    si(layer)?;
    let sizes = [layer.thickness, layer.width].map(in_mm);
    Ok([in_gpa(layer.modulus), sizes[0], sizes[1]])
}

fn some(layers: usize) -> Result<(), BeamError> {
    if layers == 0 {
        Err(BeamError::NoLayers)
    } else {
        Ok(())
    }
}

/// Stiffness of a blank bent along its glue lines, as a neck of laminates on edge is by its strings:
/// EI = sum of E t w³/12.
///
/// t is each laminate's thickness, w its width, the depth of the blank, each about its own middle. An
/// error for no laminates, or sizes or moduli that make no sense. Derived here: statics.
pub fn stiffness_along_glue_lines(
    trace: &mut impl Trace,
    layers: &[Layer],
) -> Result<BendingStiffness, BeamError> {
    some(layers.len())?;
    let terms: Result<Vec<[f64; 3]>, BeamError> = layers.iter().map(bench).collect();
    Ok(BendingStiffness(trace.add_up(&EDGEWISE, &terms?)))
}

/// Twist left in a blank: w = sum(G J w)/(G J of the whole).
///
/// w are the laminates' signed rises of the fourth corner over one length and width, with the hand as
/// sign; G J of each laminate with [`torsion_factor`], J = k a b³, that of the whole of its layers as they lie, each
/// taken as wide as the widest. The shear modulus is taken in proportion to the modulus along the grain. For 5
/// laminates of 15 x 48 mm, 0.13 of the mean is left. An error for no laminates, sizes or moduli that make no
/// sense, and for a twist that is no number. Derived here: Saint-Venant
/// torsion of a layered rectangle.
///
/// No published value: a mean weighted by the torsional stiffness, whose factor has rows.
pub fn twist_left_in_blank(laminates: &[(Layer, Length)]) -> Result<Length, BeamError> {
    some(laminates.len())?;
    let (mut held, mut wide, mut layers) = (0.0, 0.0_f64, Vec::new());
    for (layer, twist) in laminates {
        let (t, w, e) = si(layer)?;
        held += e * torsion(t, w) * gap(*twist)?;
        wide = wide.max(w);
        layers.push((t, e));
    }
    Ok(length(held / layered_torsion(wide, &layers)))
}

/// J of a rectangle, m⁴.
fn torsion(one: f64, other: f64) -> f64 {
    let (long, short) = (one.max(other), one.min(other));
    torsion_share(long / short) * long * short * short * short
}

/// k in J = k a b³ of a rectangle a x b twisted: k = 1/3 [1 - (192/pi⁵)(b/a) sum tanh(n pi a/2b)/n⁵], n
/// odd.
///
/// a is the longer side. An error for a side that is none. Saint-Venant's series (from memory); held
/// against a published table.
pub fn torsion_factor(one: Length, other: Length) -> Result<f64, BeamError> {
    let (one, other) = (size(one)?, size(other)?);
    Ok(torsion_share(one.max(other) / one.min(other)))
}

fn torsion_share(ratio: f64) -> f64 {
    use core::f64::consts::PI;
    // The terms fall with the fifth power: the last is 1e-8 of the first.
    let sum: f64 = (0..20)
        .map(|at| {
            let n = f64::from(2 * at + 1);
            libm::tanh(n * PI * ratio / 2.0) / (n * n * n * n * n)
        })
        .sum();
    (1.0 - 192.0 / (PI * PI * PI * PI * PI) / ratio * sum) / 3.0
}

/// Weight of a blank: the sum of density times volume.
///
/// An error for no laminates, or sizes or densities that make no sense. Arithmetic.
///
/// No published value: the sum of densities times volumes, a definition.
pub fn blank_weight(
    trace: &mut impl Trace,
    laminates: &[(Layer, MassDensity)],
    over: Length,
) -> Result<Mass, BeamError> {
    some(laminates.len())?;
    size(over)?;
    let mut terms = Vec::new();
    for (layer, density) in laminates {
        size(layer.thickness)?;
        size(layer.width)?;
        if !is_positive(density.value) {
            return Err(BeamError::Density(*density));
        }
        let [t, w, l] = [layer.thickness, layer.width, over].map(in_mm);
        terms.push([in_kg_per_m3(*density), t, w, l]);
    }
    Ok(kg(trace.add_up(&WEIGHT, &terms)))
}

#[cfg(test)]
mod tests;
