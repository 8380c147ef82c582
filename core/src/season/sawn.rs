//! What a cut leaves of the wood: the pieces, the saw's kerf and the waste, which together are the whole.
//!
//! Blocks laid out along, across and through the parent. It questions what can't be (pieces that overlap,
//! that reach beyond the parent, that come to more than the whole) and never alters it.

use crate::quantity::{Length, Trace, TraceOff, Volume, formula, in_m3, in_mm, m3, mm};

/// A stretch from here to there, from the parent's near end, edge or marked face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stretch {
    pub from: Length,
    pub to: Length,
}

impl Stretch {
    /// How long it is; less than nothing where it was typed the wrong way round.
    pub fn size(&self) -> Length {
        self.to - self.from
    }

    /// How much two stretches share.
    fn shared(&self, other: &Stretch) -> f64 {
        let from = in_mm(self.from).max(in_mm(other.from));
        in_mm(self.to).min(in_mm(other.to)) - from
    }
}

/// A piece's place in its parent: along, across, through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Block {
    /// Along the length, across the width, through the thickness.
    pub sides: [Stretch; 3],
}

impl Block {
    /// Its volume: the product of its three sizes.
    pub fn volume(&self) -> Volume {
        self.sides[0].size() * self.sides[1].size() * self.sides[2].size()
    }
}

/// How much a place may be off before it is questioned. Common practice, no source: a tape's reading.
const SLACK_MM: f64 = 2.0;

/// A question about where the pieces lie; pieces by their places in the list.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CutWarning {
    /// A stretch ends before it starts.
    Backwards {
        /// The piece.
        piece: usize,
    },
    /// It reaches beyond the parent.
    Outside {
        /// The piece.
        piece: usize,
        by: Length,
    },
    /// Two pieces share wood.
    Overlap {
        /// One.
        piece: usize,
        /// The other.
        other: usize,
    },
}

impl CutWarning {
    /// The question, given how the pieces are called.
    pub fn question(&self, name: impl Fn(usize) -> String) -> String {
        match self {
            CutWarning::Backwards { piece } => {
                format!(
                    "{} ends before it starts: the other way round?",
                    name(*piece)
                )
            }
            CutWarning::Outside { piece, by } => format!(
                "{} reaches {:.0} mm beyond the wood that it is cut from",
                name(*piece),
                in_mm(*by)
            ),
            CutWarning::Overlap { piece, other } => {
                format!("{} and {} share wood", name(*piece), name(*other))
            }
        }
    }
}

/// What can't be right about where pieces lie in a parent of these sizes. A slip of 2 mm is let pass.
pub fn cut_warnings(parent: &Block, pieces: &[Block]) -> Vec<CutWarning> {
    let mut warnings = Vec::new();
    for (piece, block) in pieces.iter().enumerate() {
        if block.sides.iter().any(|side| in_mm(side.size()) <= 0.0) {
            warnings.push(CutWarning::Backwards { piece });
            continue;
        }
        let beyond = |(side, whole): (&Stretch, &Stretch)| {
            in_mm(whole.from - side.from).max(in_mm(side.to - whole.to))
        };
        let most = block.sides.iter().zip(&parent.sides).map(beyond);
        let most = most.fold(0.0, f64::max);
        if most > SLACK_MM {
            let by = mm(most);
            warnings.push(CutWarning::Outside { piece, by });
        }
        for (other, before) in pieces.iter().enumerate().take(piece) {
            if shared(block, before).iter().all(|mm| *mm > SLACK_MM) {
                warnings.push(CutWarning::Overlap { piece, other });
            }
        }
    }
    warnings
}

fn shared(a: &Block, b: &Block) -> [f64; 3] {
    std::array::from_fn(|side| a.sides[side].shared(&b.sides[side]))
}

/// The volume that the saw turns to dust between pieces that lie side by side.
///
/// Two pieces are neighbours where they share two of the three directions and lie no more than twice the
/// kerf apart in the third; the cut between them takes the kerf times the face that they share. Cuts
/// against waste (edging, end trims) are not seen and count as waste. Derived here: geometry.
///
/// No published value: one subtraction.
pub fn kerf_between(pieces: &[Block], kerf: Length) -> Volume {
    let kerf_mm = in_mm(kerf);
    let mut dust = 0.0;
    for (at, a) in pieces.iter().enumerate() {
        for b in pieces.iter().take(at) {
            let shared = shared(a, b);
            for side in 0..3 {
                let gap = -shared[side];
                let face = shared[(side + 1) % 3].max(0.0) * shared[(side + 2) % 3].max(0.0);
                if (-SLACK_MM..=2.0 * kerf_mm).contains(&gap) && shared[side] <= SLACK_MM {
                    dust += kerf_mm * face;
                }
            }
        }
    }
    m3(dust * 1e-9)
}

/// Where the wood of a cut went. The parts add up to the whole.
#[derive(Debug, Clone, PartialEq)]
pub struct SawnOut {
    pub whole: Volume,
    /// Each piece, in the order of the list; `None` where its size is not known.
    pub pieces: Vec<Option<Volume>>,
    /// Dust between neighbours.
    pub kerf: Volume,
    /// The rest: edgings, end trims, what was thrown away. Below nothing when the pieces come to more
    /// than the whole.
    pub waste: Volume,
}

impl SawnOut {
    /// What is in no piece: kerf and waste.
    pub fn lost(&self) -> Volume {
        self.kerf + self.waste
    }

    /// The same in percent of the whole.
    pub fn lost_percent(&self) -> f64 {
        lost(&mut TraceOff, self)
    }
}

/// Where the wood of a cut went: waste is the whole less pieces and kerf. `None` while the size of any
/// piece is not known, or the sum would hide it, and where it is no number.
pub fn sawn_out(whole: Volume, pieces: Vec<Option<Volume>>, kerf: Volume) -> Option<SawnOut> {
    let known: Option<Vec<Volume>> = pieces.iter().copied().collect();
    let waste = waste_of(&mut TraceOff, whole, &known?, kerf);
    waste.is_finite().then_some(SawnOut {
        whole,
        pieces,
        kerf,
        waste,
    })
}

formula! {
    /// Volumes added up.
    PIECES: "Wood in the pieces", "V′", "m³";
    one: "v", "volume of each piece", "m³";
    = one;
    range "as laid out or measured";
    source "a sum";
}

formula! {
    /// What is left of the whole.
    WASTE: "Waste: edgings, end trims, what was not kept", "V″", "m³";
    whole: "V", "volume of the whole", "m³";
    pieces: "V′", "wood in the pieces", "m³";
    kerf: "k", "dust between neighbours: kerf times the faces that they share", "m³";
    = whole - pieces - kerf;
    range "below nothing where the pieces come to more than the whole";
    source "geometry";
}

formula! {
    /// The share that is in no piece.
    LOST: "Not in the pieces, of the whole", "p", "%";
    waste: "V″", "waste", "m³";
    kerf: "k", "dust between neighbours", "m³";
    whole: "V", "volume of the whole", "m³";
    = 100.0 * (waste + kerf) / whole;
    range "any";
    source "arithmetic of shares";
}

fn waste_of(trace: &mut impl Trace, whole: Volume, pieces: &[Volume], kerf: Volume) -> Volume {
    let items: Vec<[f64; 1]> = pieces.iter().map(|one| [in_m3(*one)]).collect();
    let pieces = trace.add_up(&PIECES, &items);
    m3(trace.work(&WASTE, [in_m3(whole), pieces, in_m3(kerf)]))
}

/// The share of a piece's wood that is not in what was cut from it, in percent, with its steps: kerf and
/// waste.
///
/// No published value: arithmetic of shares.
pub fn lost(trace: &mut impl Trace, out: &SawnOut) -> f64 {
    let pieces: Vec<Volume> = out.pieces.iter().flatten().copied().collect();
    let waste = waste_of(trace, out.whole, &pieces, out.kerf);
    trace.work(&LOST, [in_m3(waste), in_m3(out.kerf), in_m3(out.whole)])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::in_m3;
    use proptest::prelude::*;

    fn block(sides: [(f64, f64); 3]) -> Block {
        let side = |(from, to)| Stretch {
            from: mm(from),
            to: mm(to),
        };
        Block {
            sides: sides.map(side),
        }
    }

    /// Four laminates of 15 mm out of a piece of 950 x 80 x 52, kerf 2.4.
    fn ripped() -> Vec<Block> {
        (0..4)
            .map(|n| {
                let from = f64::from(n) * 17.4;
                block([(0.0, 950.0), (from, from + 15.0), (0.0, 52.0)])
            })
            .collect()
    }

    #[test]
    fn three_cuts_between_four_laminates() {
        let kerf = in_m3(kerf_between(&ripped(), mm(2.4)));
        assert!((kerf - 3.0 * 950.0 * 52.0 * 2.4 * 1e-9).abs() < 1e-12);
        let whole = block([(0.0, 950.0), (0.0, 80.0), (0.0, 52.0)]);
        assert_eq!(cut_warnings(&whole, &ripped()), []);
        let pieces = ripped().iter().map(|b| Some(b.volume())).collect();
        let out = sawn_out(whole.volume(), pieces, m3(kerf)).unwrap();
        // What is left over is one edge of 80 - 4 x 15 - 3 x 2.4 mm.
        assert!((in_m3(out.waste) - 950.0 * 52.0 * 12.8 * 1e-9).abs() < 1e-12);
        // 20 of 80 mm are in no piece.
        assert!((in_m3(out.lost()) - 950.0 * 52.0 * 20.0 * 1e-9).abs() < 1e-12);
        assert!((out.lost_percent() - 25.0).abs() < 1e-9);
    }

    #[test]
    fn a_crosscut_and_pieces_far_apart() {
        let ends = [
            block([(80.0, 1030.0), (0.0, 204.0), (0.0, 52.0)]),
            block([(1034.0, 1984.0), (0.0, 204.0), (0.0, 52.0)]),
            block([(2060.0, 2560.0), (0.0, 204.0), (0.0, 52.0)]),
        ];
        let dust = in_m3(kerf_between(&ends, mm(3.2)));
        assert!((dust - 204.0 * 52.0 * 3.2 * 1e-9).abs() < 1e-12);
    }

    #[test]
    fn a_cut_is_seen_whichever_way_it_goes() {
        // Two pieces of one size with a thin cut between them along, across and through, and two places
        // that were taken a hair too near to each other.
        let sizes = [950.0, 60.0, 25.0];
        for side in 0..3 {
            for apart in [1.3, 0.0, -1.0] {
                let first = sizes.map(|size| (0.0, size));
                let mut second = first;
                second[side] = (sizes[side] + apart, 2.0 * sizes[side] + apart);
                let dust = in_m3(kerf_between(&[block(first), block(second)], mm(1.3)));
                let face: f64 = sizes.iter().product::<f64>() / sizes[side];
                // Where they lie too near the face is the same, the other two sides are.
                assert!((dust - 1.3 * face * 1e-9).abs() < 1e-12, "{side} {apart}");
            }
            // Further apart than two cuts there is waste between them.
            let first = sizes.map(|size| (0.0, size));
            let mut far = first;
            far[side] = (sizes[side] + 2.7, 2.0 * sizes[side]);
            assert_eq!(
                in_m3(kerf_between(&[block(first), block(far)], mm(1.3))),
                0.0
            );
        }
    }

    #[test]
    fn what_cannot_be_is_questioned() {
        let whole = block([(0.0, 950.0), (0.0, 80.0), (0.0, 52.0)]);
        let pieces = [
            block([(0.0, 950.0), (0.0, 40.0), (0.0, 52.0)]),
            block([(0.0, 950.0), (30.0, 70.0), (0.0, 52.0)]),
            block([(0.0, 990.0), (71.0, 79.0), (0.0, 52.0)]),
            block([(700.0, 20.0), (71.0, 79.0), (0.0, 52.0)]),
        ];
        let warnings = cut_warnings(&whole, &pieces);
        assert_eq!(warnings.len(), 3, "{warnings:?}");
        let words: Vec<String> = warnings
            .iter()
            .map(|warning| warning.question(|n| format!("A7{}", ['a', 'b', 'c', 'd'][n])))
            .collect();
        assert_eq!(words[0], "A7b and A7a share wood");
        assert_eq!(
            words[1],
            "A7c reaches 40 mm beyond the wood that it is cut from"
        );
        assert!(words[2].starts_with("A7d ends before it starts"));
        let unknown = sawn_out(whole.volume(), vec![None], m3(0.0));
        assert_eq!(unknown, None);
    }

    proptest! {
        #[test]
        fn the_parts_are_the_whole(at in prop::collection::vec((0.0..900.0f64, 1.0..60.0f64), 0..12), kerf in 0.0..4.0f64) {
            let blocks: Vec<Block> = at
                .iter()
                .map(|(from, size)| block([(0.0, 950.0), (*from, from + size), (0.0, 52.0)]))
                .collect();
            let whole = block([(0.0, 950.0), (0.0, 1000.0), (0.0, 52.0)]).volume();
            let pieces = blocks.iter().map(|b| Some(b.volume())).collect();
            let out = sawn_out(whole, pieces, kerf_between(&blocks, mm(kerf))).unwrap();
            let sum = out.pieces.iter().flatten().fold(out.kerf + out.waste, |sum, v| sum + *v);
            prop_assert!((in_m3(sum) - in_m3(whole)).abs() < 1e-12);
        }
    }
}
