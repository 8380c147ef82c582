//! How hard a rectangle of unlike layers is to twist.

use core::f64::consts::PI;

/// Terms of the series: they fall with the fifth power, for thin layers from the width over the thickness on.
const TERMS: u32 = 80;

/// GJ of layers of thickness t and shear modulus G stacked to a rectangle of width w:
/// sum G w³ t/3 + sum over odd n of 4 w/(n pi) (u + u' - 2 p) tanh(k t/2)/k, k = n pi/w.
///
/// Saint-Venant torsion by Prandtl's stress function, a cosine series across the width: in each layer its n-th part is
/// p = 8 G/(n pi k²) and hyperbolic functions of the height, u and u' are its values at the layer's faces. They are found
/// from nothing at the outer faces and from slope/G, the slip along a glue line, being the same on both its sides.
/// Derived here; held against one block of the same size, and against finite differences for unlike layers.
///
/// No published value: for one layer it is the series of `torsion_factor`, which has rows.
pub(super) fn layered_torsion(width: f64, layers: &[(f64, f64)]) -> f64 {
    let strips: f64 = layers
        .iter()
        .map(|(t, g)| g * t * width * width * width / 3.0)
        .sum();
    let terms = (0..TERMS).map(|at| {
        let n = f64::from(2 * at + 1);
        let k = n * PI / width;
        let faces = at_faces(k, n, layers);
        let ends = faces.windows(2).zip(layers).map(|(ends, (t, g))| {
            let p = inside(k, n, *g);
            (ends[0] + ends[1] - 2.0 * p) * libm::tanh(k * t / 2.0) / k
        });
        4.0 * width / (n * PI) * ends.sum::<f64>()
    });
    strips + terms.sum::<f64>()
}

/// The n-th part far from any face.
fn inside(k: f64, n: f64, g: f64) -> f64 {
    8.0 * g / (n * PI * k * k)
}

/// The n-th part at every face, from the first outer one to the last: a chain of equations, each of three neighbours,
/// solved from one end and put in from the other.
fn at_faces(k: f64, n: f64, layers: &[(f64, f64)]) -> Vec<f64> {
    // Of each layer what ties a face to itself and to its other face, and what its inside brings.
    let ties = layers.iter().map(|(t, g)| {
        let own = 1.0 / (g * libm::tanh(k * t));
        let other = 1.0 / (g * libm::sinh(k * t));
        [own, other, inside(k, n, *g) * (own - other)]
    });
    let ties: Vec<[f64; 3]> = ties.collect();
    let mut steps: Vec<[f64; 2]> = vec![[0.0, 0.0]];
    for pair in ties.windows(2) {
        let [below, above] = [pair[0], pair[1]];
        let [factor, value] = steps.last().copied().unwrap_or_default();
        let held = below[0] + above[0] - below[1] * factor;
        let brought = below[2] + above[2] + below[1] * value;
        steps.push([above[1] / held, brought / held]);
    }
    let mut faces = vec![0.0];
    for [factor, value] in steps.into_iter().skip(1).rev() {
        let next = faces.last().copied().unwrap_or_default();
        faces.push(value + factor * next);
    }
    faces.push(0.0);
    faces.reverse();
    faces
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::neck::beam::torsion;

    #[test]
    fn layers_that_are_alike_are_one_block() {
        for (width, thick) in [(48.0, 75.0), (75.0, 48.0), (60.0, 60.0), (48.0, 8.0)] {
            let alike = [(0.2 * thick, 1.3), (0.5 * thick, 1.3), (0.3 * thick, 1.3)];
            let (found, one) = (layered_torsion(width, &alike), 1.3 * torsion(width, thick));
            assert!(
                (found / one - 1.0).abs() < 1e-6,
                "{width} {thick}: {found} {one}"
            );
        }
    }

    /// GJ by finite differences: the stress function at the middles of cells between faces, with the harmonic mean of
    /// 1/G at glue lines, by successive over-relaxation.
    fn by_finite_differences(width: f64, layers: &[(f64, f64)], cells: usize) -> f64 {
        let thick: f64 = layers.iter().map(|(t, _)| t).sum();
        let (nx, ny) = (cells, cells);
        let (hx, hy) = (width / nx as f64, thick / ny as f64);
        // The modulus of each row of cells; nodes lie on their corners, glue lines on rows of nodes.
        let of_row = |row: usize| {
            let (mut face, middle) = (0.0, (row as f64 + 0.5) * hy);
            let layer = layers.iter().find(|(t, _)| {
                face += t;
                middle < face
            });
            layer.map_or(1.0, |(_, g)| *g)
        };
        let soft: Vec<f64> = (0..ny).map(|row| 1.0 / of_row(row)).collect();
        let mut phi = vec![vec![0.0_f64; nx + 1]; ny + 1];
        for _ in 0..2000 {
            for y in 1..ny {
                let (below, above) = (soft[y - 1], soft[y]);
                let across = 0.5 * (below + above);
                for x in 1..nx {
                    let around = across * (phi[y][x - 1] + phi[y][x + 1]) / (hx * hx)
                        + (below * phi[y - 1][x] + above * phi[y + 1][x]) / (hy * hy);
                    let own = 2.0 * across / (hx * hx) + (below + above) / (hy * hy);
                    let new = (around + 2.0) / own;
                    phi[y][x] += 1.9 * (new - phi[y][x]);
                }
            }
        }
        2.0 * hx * hy * phi.iter().flatten().sum::<f64>()
    }

    #[test]
    fn unlike_layers_are_as_hard_to_twist_as_finite_differences_say() {
        for (width, layers) in [
            (
                48.0,
                &[
                    (15.0, 9.0),
                    (15.0, 20.0),
                    (15.0, 9.0),
                    (15.0, 20.0),
                    (15.0, 9.0),
                ][..],
            ),
            (
                48.0,
                &[
                    (15.0, 20.0),
                    (15.0, 9.0),
                    (15.0, 9.0),
                    (15.0, 9.0),
                    (15.0, 20.0),
                ][..],
            ),
            (50.0, &[(20.0, 9.0), (20.0, 20.0)][..]),
        ] {
            let found = layered_torsion(width, layers);
            let other = by_finite_differences(width, layers, 60);
            assert!((found / other - 1.0).abs() < 0.004, "{found} {other}");
        }
    }
}
