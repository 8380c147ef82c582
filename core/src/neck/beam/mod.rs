//! What a laminated blank does: its stiffness, its weight, and what is left in it of the shapes of its
//! laminates.
//!
//! Linear beams of layers that hold together: laminates are pressed straight, glued, and let go. It
//! knows no creep and no glue, and never says how much is too much.

mod torsion;

use super::beam_formulas::{AREAS, AXIS, EDGEWISE, MOMENTS, OFF_AXIS, WEIGHT};
use crate::quantity::{
    Length, Mass, MassDensity, Trace, TraceOff, in_gpa, in_kg_per_m3, in_mm, is_positive, kg, mm,
};
use thiserror::Error;
use torsion::layered_torsion;
use uom::si::f64::{Force, Pressure};
use uom::si::{force::newton, pressure::pascal};

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

/// E t w³/12 of a laminate bent edgewise, N m².
fn edgewise(layer: &Layer) -> Result<f64, BeamError> {
    Ok(EDGEWISE.of(bench(layer)?))
}

/// E w t³/12 of a laminate bent flatwise, N m².
fn flatwise(layer: &Layer) -> Result<f64, BeamError> {
    let (t, w, e) = si(layer)?;
    Ok(e * w * t * t * t / 12.0)
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

/// Where the neutral axis of a blank bent across its glue lines lies, from the face of the first
/// laminate: y = sum(E A y)/sum(E A). Errors as [`stiffness_across_glue_lines`]. Derived here: statics of
/// the transformed section.
pub fn neutral_axis(layers: &[Layer]) -> Result<Length, BeamError> {
    some(layers.len())?;
    Ok(mm(axis(&mut TraceOff, &in_stack(layers)?)))
}

/// Modulus in GPa, thickness and width in mm, and how far the middle lies from the face of the first
/// laminate, mm.
fn in_stack(layers: &[Layer]) -> Result<Vec<[f64; 4]>, BeamError> {
    let mut face = 0.0;
    let mut placed = Vec::new();
    for layer in layers {
        let [e, t, w] = bench(layer)?;
        placed.push([e, t, w, face + t / 2.0]);
        face += t;
    }
    Ok(placed)
}

fn axis(trace: &mut impl Trace, placed: &[[f64; 4]]) -> f64 {
    let areas: Vec<[f64; 3]> = placed.iter().map(|[e, t, w, _]| [*e, *t, *w]).collect();
    let moments = trace.add_up(&MOMENTS, placed);
    let areas = trace.add_up(&AREAS, &areas);
    trace.work(&AXIS, [moments, areas])
}

/// Stiffness of a blank bent across its glue lines: EI = sum of E (w t³/12 + w t y²), the transformed
/// section.
///
/// t and w are each laminate's thickness and width, y the distance of its middle from the
/// [`neutral_axis`]. An error for no laminates, or sizes or moduli that make no sense. Derived here:
/// statics; held against a worked example.
pub fn stiffness_across_glue_lines(
    trace: &mut impl Trace,
    layers: &[Layer],
) -> Result<BendingStiffness, BeamError> {
    some(layers.len())?;
    let placed = in_stack(layers)?;
    let axis = axis(trace, &placed);
    let terms: Vec<[f64; 5]> = placed
        .iter()
        .map(|[e, t, w, y]| [*e, *t, *w, *y, axis])
        .collect();
    Ok(BendingStiffness(trace.add_up(&OFF_AXIS, &terms)))
}

/// Flatwise bow left in a blank glued of bowed laminates: d = sum(E I d)/EI.
///
/// d are the laminates' signed gaps over one length, as they lie in the stack; E I is each by itself, w
/// t³/12, EI the whole's of [`stiffness_across_glue_lines`]. Pressed straight, glued, let go: the moments
/// that the press held bend the whole. Of n equal laminates the mean is left, over n². Errors as there,
/// and for a gap that is no number. Derived here: linear beam statics, no creep.
///
/// No published value: linear beam theory; equal layers come to 1/n², which a test holds.
pub fn bow_left_in_blank(laminates: &[(Layer, Length)]) -> Result<Length, BeamError> {
    let layers: Vec<Layer> = laminates.iter().map(|one| one.0).collect();
    let whole = stiffness_across_glue_lines(&mut TraceOff, &layers)?.0;
    let mut moments = 0.0;
    for (layer, bow) in laminates {
        moments += flatwise(layer)? * gap(*bow)?;
    }
    Ok(length(moments / whole))
}

/// Edgewise crook left in a blank: d = sum(E I d)/sum(E I), I = t w³/12.
///
/// d are the laminates' signed gaps over one length. Gluing forgives nothing here: equal laminates leave
/// their mean. Errors as [`bow_left_in_blank`]. Derived here: linear beam statics, no creep.
///
/// No published value: a mean weighted by EI, which tests hold at its ends.
pub fn crook_left_in_blank(laminates: &[(Layer, Length)]) -> Result<Length, BeamError> {
    some(laminates.len())?;
    let (mut moments, mut whole) = (0.0, 0.0);
    for (layer, crook) in laminates {
        let stiffness = edgewise(layer)?;
        moments += stiffness * gap(*crook)?;
        whole += stiffness;
    }
    Ok(length(moments / whole))
}

/// Twist left in a blank: w = sum(G J w)/(G J of the whole).
///
/// w are the laminates' signed rises of the fourth corner over one length and width, with the hand as
/// sign; G J of each laminate with [`torsion_factor`], J = k a b³, that of the whole of its layers as they lie, each
/// taken as wide as the widest. The shear modulus is taken in proportion to the modulus along the grain. For 5
/// laminates of 15 x 48 mm, 0.13 of the mean is left. Errors as [`bow_left_in_blank`]. Derived here: Saint-Venant
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

/// Bow of a blank whose laminates change length by unlike strains: the gap over a length L,
/// d = L²/8 sum(E A y e)/EI.
///
/// e is each laminate's free change of length over its length, y the distance of its middle from the
/// [`neutral_axis`], towards the first laminate; a bow towards the first laminate is more than nothing.
/// For two layers it is Timoshenko's formula of 1925. Errors as [`bow_left_in_blank`]. Derived here: no
/// force and no moment over the section; held against a worked example.
pub fn bow_from_strains(laminates: &[(Layer, f64)], over: Length) -> Result<Length, BeamError> {
    let layers: Vec<Layer> = laminates.iter().map(|one| one.0).collect();
    let axis = neutral_axis(&layers)?.value;
    let whole = stiffness_across_glue_lines(&mut TraceOff, &layers)?.0;
    let (mut face, mut moments) = (0.0, 0.0);
    for (layer, strain) in laminates {
        let (t, w, e) = si(layer)?;
        if !strain.is_finite() {
            return Err(BeamError::NoNumber);
        }
        moments += e * w * t * (axis - face - t / 2.0) * strain;
        face += t;
    }
    let over = size(over)?;
    Ok(length(over * over / 8.0 * moments / whole))
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

/// Force of one clamp in the middle that pulls a crook straight: F = 48 E I d/L³, I = t w³/12.
///
/// d is the crook's gap over the length L on which the laminate rests at its ends. Errors as
/// [`bow_left_in_blank`]. Statics of a beam on two supports, from memory.
///
/// ```
/// use stillwood_core::{neck::{Layer, force_to_straighten}, quantity::mm};
/// use uom::si::{f64::Pressure, force::newton, pressure::gigapascal};
/// let maple = Layer {
///     thickness: mm(15.0), width: mm(48.0), modulus: Pressure::new::<gigapascal>(12.6),
/// };
/// let force = force_to_straighten(&maple, mm(0.5), mm(950.0)).unwrap();
/// assert!((force.get::<newton>() - 49.0).abs() < 0.5);
/// ```
///
/// No published value: the textbook beam turned round; held against the trade's worked 49 N in a test.
pub fn force_to_straighten(layer: &Layer, crook: Length, over: Length) -> Result<Force, BeamError> {
    let over = size(over)?;
    let force = 48.0 * edgewise(layer)? * gap(crook)?.abs() / (over * over * over);
    Ok(Force::new::<newton>(force))
}

#[cfg(test)]
mod tests;
