//! A plank as a workshop drawing: its marked face, its edge, its near end.
//!
//! Widths and thicknesses are to scale with each other, the length is shortened, and a gap is drawn larger
//! where it would not be seen: [`PlankDrawn::shortened`], [`PlankDrawn::bow_exaggerated`] and
//! [`PlankDrawn::crook_exaggerated`] say by how much.

use super::end_grain::{Box2, end_grain};
use crate::parts::Judged;
use maud::{Markup, html};
use std::ops::Range;
use stillwood_core::neck::PartCount;
use stillwood_core::plank::{DefectKind, Hand, Plank, end_turned, mean_of_stations};
use stillwood_core::quantity::{Slope, in_degrees, in_mm};

/// The length of the drawing, in its own units.
const LENGTH: f64 = 280.0;
/// What a millimetre across is drawn as, at most.
const ACROSS: f64 = 0.34;
/// The largest width that is drawn.
const WIDEST: f64 = 76.0;
/// How high the thickest edge is drawn.
const THICKEST: f64 = 26.0;
/// Parts that are narrower on the drawing have no dashed outline.
const NARROW: f64 = 9.0;
/// Room around the outline.
const MARGIN: f64 = 2.0;
/// How far a gap may bend the drawing.
const BENT: f64 = 9.0;
/// How much larger a gap is drawn, at most.
const LARGER: f64 = 6.0;
/// The shortest crack that is drawn.
const CRACK: f64 = 16.0;
/// How far a drawing turns the far end, at most, degrees.
const TURNED: f64 = 14.0;

/// What is drawn.
#[derive(Debug, Clone, Copy)]
pub struct PlankDrawn<'a> {
    /// The plank, as far as it was looked at.
    pub plank: &'a Plank,
    /// The colour of its wood.
    pub colour: &'a str,
    /// The parts laid in it, where they are drawn.
    pub parts: Option<&'a PartCount>,
    /// The place that decides, and how it is judged, where it is marked.
    pub weakest: Option<(WeakPlace, Judged)>,
}

/// A place on the drawing that may decide on a plank.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WeakPlace {
    /// The marked edge, by its crook.
    MarkedEdge,
    /// The grain of the marked face.
    FaceGrain,
    /// The marked face as the edge shows it, by its bow.
    Bow,
    /// The grain of the edge.
    EdgeGrain,
    /// The rings of the near end.
    Rings,
}

impl WeakPlace {
    /// Where grain runs out more: on the face or on the edge.
    pub fn of_grain(plank: &Plank) -> WeakPlace {
        let steepness = |slope: Option<Slope>| slope.map_or(0.0, |slope| slope.in_tangent().abs());
        match steepness(plank.grain_edge) > steepness(plank.grain_face) {
            true => WeakPlace::EdgeGrain,
            false => WeakPlace::FaceGrain,
        }
    }
}

fn n(value: f64) -> String {
    format!("{value:.1}")
}

/// Whether parts are so narrow on the drawing that dashes of one would run into those of the next.
fn narrow(parts: &PartCount, across: f64) -> bool {
    let widths = parts.across.iter();
    let mut widths = widths.map(|one| in_mm(one.to - one.from) * across);
    widths.any(|width| width < NARROW)
}

impl PlankDrawn<'_> {
    fn length_mm(&self) -> f64 {
        self.plank.length.map_or(2500.0, in_mm).max(1.0)
    }

    fn widths_mm(&self) -> [f64; 3] {
        let widths = &self.plank.widths;
        let mean = mean_of_stations(widths).map_or(180.0, in_mm);
        let or = |one: Option<_>| one.map_or(mean, in_mm);
        [or(widths.near), or(widths.middle), or(widths.far)]
    }

    fn thickness_mm(&self) -> f64 {
        self.plank.thicknesses.least().map_or(45.0, in_mm)
    }

    /// Units of the drawing a millimetre across.
    fn across(&self) -> f64 {
        let widest = self.widths_mm().into_iter().fold(1.0, f64::max);
        ACROSS
            .min(WIDEST / widest)
            .min(THICKEST / self.thickness_mm().max(1.0))
    }

    /// The class of the mark at a place; none where that is not what decides.
    fn mark(&self, place: WeakPlace) -> Option<String> {
        let here = self.weakest.filter(|(weakest, _)| *weakest == place);
        here.map(|(_, judged)| format!("weakest {}", judged.class()))
    }

    fn along(&self, mm: f64) -> f64 {
        mm * LENGTH / self.length_mm()
    }

    /// How many times the length is shortened against the width.
    pub fn shortened(&self) -> f64 {
        self.across() * self.length_mm() / LENGTH
    }

    /// How many times larger the bow is drawn; none where none was looked at.
    pub fn bow_exaggerated(&self) -> Option<f64> {
        let gap = in_mm(self.plank.bow?.gap);
        Some(self.exaggerated(gap))
    }

    /// How many times larger the crook is drawn; none where none was looked at, and where it is drawn as it is.
    pub fn crook_exaggerated(&self) -> Option<f64> {
        let gap = in_mm(self.plank.crook?.gap);
        self.parts.is_none().then(|| self.exaggerated(gap))
    }

    /// How many times larger than the width a gap is drawn.
    fn exaggerated(&self, gap_mm: f64) -> f64 {
        let gap = gap_mm.abs() * self.across();
        if gap > 0.0 {
            LARGER.min(BENT / gap)
        } else {
            1.0
        }
    }

    /// By how many degrees the far end is turned; none where it is not known, or not at all.
    fn turned(&self) -> Option<f64> {
        let width = mean_of_stations(&self.plank.widths);
        let turned = in_degrees(end_turned(self.plank.twist.as_ref()?, width)?);
        (turned > 0.0).then_some(turned)
    }

    /// How many times larger the twist is drawn; none where none is drawn.
    pub fn twist_exaggerated(&self) -> Option<f64> {
        self.turned().map(|turned| LARGER.min(TURNED / turned))
    }

    /// The ways in which the far end is drawn turned, degrees clockwise: both where the hand was not noted.
    fn far_ends(&self) -> Vec<f64> {
        let drawn = self.turned().zip(self.twist_exaggerated());
        let drawn = drawn.map(|(turned, times)| turned * times);
        let hand = self.plank.twist.and_then(|twist| twist.hand);
        match (drawn, hand) {
            (None, _) => Vec::new(),
            (Some(by), Some(Hand::Right)) => vec![by],
            (Some(by), Some(Hand::Left)) => vec![-by],
            (Some(by), None) => vec![by, -by],
        }
    }

    fn bent(&self, gap_mm: f64) -> f64 {
        gap_mm * self.across() * self.exaggerated(gap_mm)
    }

    /// How far the marked edge is drawn hollow. Where parts are laid in the face it is drawn as it is: they would
    /// seem to lie outside the wood.
    fn crooked(&self) -> f64 {
        let gap = self.plank.crook.map_or(0.0, |crook| in_mm(crook.gap));
        match self.parts {
            Some(_) => gap * self.across(),
            None => self.bent(gap),
        }
    }
}

/// The marked face, the near end to the left and the marked edge up.
pub fn face_view(drawn: &PlankDrawn<'_>) -> Markup {
    let plank = drawn.plank;
    let [near, middle, far] = drawn.widths_mm().map(|mm| mm * drawn.across());
    // A hollow marked edge: the middle of the plank lies lower.
    let crook = drawn.crooked();
    let room = crook.abs() + MARGIN;
    let height = near.max(middle).max(far) + 2.0 * room;
    let y = height / 2.0;
    let edge = |half: f64| {
        let control = 2.0 * middle - (near + far) / 2.0;
        format!(
            "0 {} Q{} {} {LENGTH} {}",
            n(y + half * near / 2.0),
            n(LENGTH / 2.0),
            n(y + half * control / 2.0 + 2.0 * crook),
            n(y + half * far / 2.0)
        )
    };
    let under = format!(
        "L{LENGTH} {} Q{} {} 0 {}Z",
        n(y + far / 2.0),
        n(LENGTH / 2.0),
        n(y + (2.0 * middle - (near + far) / 2.0) / 2.0 + 2.0 * crook),
        n(y + near / 2.0)
    );
    let outline = format!("M{} {under}", edge(-1.0));
    let looked = plank.length.is_some() && plank.widths.taken().next().is_some();
    let rise = plank
        .grain_face
        .map(|slope| slope.in_tangent() * drawn.shortened());
    let least = near.min(middle).min(far);
    let top = y - least / 2.0;
    html! {
        svg.plank viewBox={ "0 0 " (LENGTH) " " (n(height)) } aria-hidden="true" {
            clipPath #face { path d=(outline) {} }
            path.wood d=(outline) fill=(drawn.colour) {}
            (grain("face", -12..24, 7.0, top, rise.unwrap_or(0.0)))
            @if let Some(parts) = drawn.parts {
                g class=(if narrow(parts, drawn.across()) { "parts narrow" } else { "parts" }) {
                    @for along in &parts.along {
                        @for across in &parts.across {
                            @let (x0, x1) = (drawn.along(in_mm(along.from)), drawn.along(in_mm(along.to)));
                            @let (y0, y1) = (in_mm(across.from) * drawn.across(), in_mm(across.to) * drawn.across());
                            rect x=(n(x0)) y=(n(top + y0)) width=(n(x1 - x0)) height=(n(y1 - y0)) fill="none" {}
                        }
                    }
                }
            }
            g.defects {
                @for defect in &plank.defects {
                    @if let Some(from) = defect.from {
                        @let to = defect.to.unwrap_or(from);
                        @let (x0, x1) = (drawn.along(in_mm(from.min(to))), drawn.along(in_mm(from.max(to))));
                        @if is_crack(defect.kind) { path.crack d=(crack(x0, x1, y)) fill="none" {} }
                        @else { ellipse cx=(n((x0 + x1) / 2.0)) cy=(n(y)) rx=(n(((x1 - x0) / 2.0).max(6.0))) ry="5" {} }
                    }
                }
            }
            path class=(if looked { "outline" } else { "outline dashed" }) d=(outline) fill="none" {}
            @if let Some(class) = drawn.mark(WeakPlace::MarkedEdge) { path class=(class) d={ "M" (edge(-1.0)) } fill="none" {} }
            @if let Some(class) = drawn.mark(WeakPlace::FaceGrain) { (grain_mark("face", &class, y + crook, rise.unwrap_or(0.0))) }
        }
    }
}

/// A line of grain through the middle of an outline, marked.
fn grain_mark(outline: &str, class: &str, y: f64, rise: f64) -> Markup {
    let (middle, half) = (LENGTH / 2.0, LENGTH / 8.0);
    let line = format!(
        "M{} {}L{} {}",
        n(middle - half),
        n(y + rise * half),
        n(middle + half),
        n(y - rise * half)
    );
    html! { g clip-path={ "url(#" (outline) ")" } { path class=(class) d=(line) fill="none" {} } }
}

/// Whether wood has parted along its grain.
fn is_crack(kind: DefectKind) -> bool {
    use DefectKind::{Check, EndCheck, Shake, Split};
    matches!(kind, Check | EndCheck | Split | Shake)
}

/// A crack along the grain, long enough to be seen.
fn crack(from: f64, to: f64, y: f64) -> String {
    let long = (to - from).max(CRACK);
    let from = from.min(LENGTH - long);
    let third = n(long / 3.0);
    format!("M{} {}l{third} 3l{third} -5l{third} 3", n(from), n(y))
}

/// Lines of grain in an outline, so far apart, the first of the plank at `top`. They are one path: a drawing that changes
/// at every key is patched quickly so.
fn grain(outline: &str, lines: Range<i32>, apart: f64, top: f64, rise: f64) -> Markup {
    let half = rise * LENGTH / 2.0;
    let line = |line: i32| {
        let y = f64::from(line) * apart + top;
        format!("M0 {}L{LENGTH} {}", n(y + half), n(y - half))
    };
    let all: String = lines.map(line).collect();
    html! {
        g.grain clip-path={ "url(#" (outline) ")" } { path d=(all) fill="none" {} }
    }
}

/// The edge, the marked face up and the near end to the left.
pub fn edge_view(drawn: &PlankDrawn<'_>) -> Markup {
    let plank = drawn.plank;
    let thick = drawn.thickness_mm() * drawn.across();
    let bow = plank.bow.map_or(0.0, |bow| drawn.bent(in_mm(bow.gap)));
    let room = bow.abs() + MARGIN;
    let height = thick + 2.0 * room;
    let (top, middle) = (room, LENGTH / 2.0);
    let face = format!(
        "M0 {t} Q{m} {c} {LENGTH} {t}",
        t = n(top),
        m = n(middle),
        c = n(top + 2.0 * bow),
    );
    let outline = format!(
        "{face} L{LENGTH} {b} Q{m} {d} 0 {b}Z",
        m = n(middle),
        b = n(top + thick),
        d = n(top + thick + 2.0 * bow),
    );
    let rise = plank
        .grain_edge
        .map_or(0.0, |slope| slope.in_tangent() * drawn.shortened());
    let looked = plank.bow.is_some() && plank.thicknesses.taken().next().is_some();
    html! {
        svg.plank viewBox={ "0 0 " (LENGTH) " " (n(height)) } aria-hidden="true" {
            clipPath #edge { path d=(outline) {} }
            path.wood d=(outline) fill=(drawn.colour) {}
            (grain("edge", -12..16, 5.0, top, rise))
            @if plank.bow.is_some() { path.string d={ "M0 " (n(top)) "H" (LENGTH) } fill="none" {} }
            path class=(if looked { "outline" } else { "outline dashed" }) d=(outline) fill="none" {}
            @if let Some(class) = drawn.mark(WeakPlace::Bow) { path class=(class) d=(face) fill="none" {} }
            @if let Some(class) = drawn.mark(WeakPlace::EdgeGrain) { (grain_mark("edge", &class, top + thick / 2.0 + bow, rise)) }
        }
    }
}

/// The near end, and behind it the outline of the far end as the plank's twist turns it.
pub fn end_view(drawn: &PlankDrawn<'_>) -> Markup {
    let [near, .., far] = drawn.widths_mm();
    let thick = drawn.thickness_mm();
    let scale = (60.0 / near.max(far).max(1.0)).min(34.0 / thick.max(1.0));
    let (w, h) = (near * scale, thick * scale);
    let far_ends = drawn.far_ends();
    let known = far_ends.len() == 1;
    let at = Box2 {
        x: 32.0 - w / 2.0,
        y: 18.0 - h / 2.0,
        w,
        h,
    };
    let rings = drawn.plank.rings.as_ref();
    let sizes = [&drawn.plank.widths, &drawn.plank.thicknesses];
    let is_measured = sizes.iter().all(|one| one.taken().next().is_some());
    html! {
        svg class=(if is_measured { "end" } else { "end unknown" }) viewBox="0 0 64 36" aria-hidden="true" {
            (end_grain(at, scale, rings, drawn.colour, "end"))
            @if let Some(class) = drawn.mark(WeakPlace::Rings) {
                rect class=(class) x=(n(at.x)) y=(n(at.y)) width=(n(w)) height=(n(h)) fill="none" {}
            }
            @for turned in &far_ends {
                @let (x, y) = (n(32.0 - far * scale / 2.0), n(at.y));
                g transform={ "rotate(" (n(*turned)) " 32 18)" } fill="none" {
                    rect.under-far x=(x) y=(y) width=(n(far * scale)) height=(n(h)) {}
                    rect.far .dashed[!known] x=(x) y=(y) width=(n(far * scale)) height=(n(h)) {}
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use stillwood_core::plank::Defect;
    use stillwood_core::quantity::mm;

    #[test]
    fn an_end_is_drawn_solid_once_its_sizes_are_known() {
        let of = |plank: &Plank| {
            let drawn = PlankDrawn {
                plank,
                colour: "#e8cfa0",
                parts: None,
                weakest: None,
            };
            end_view(&drawn).into_string()
        };
        let mut plank = Plank::default();
        assert!(of(&plank).contains("end unknown"));
        plank.widths.middle = Some(mm(205.0));
        assert!(of(&plank).contains("end unknown"), "no thickness yet");
        plank.thicknesses.middle = Some(mm(52.0));
        let drawn = of(&plank);
        assert!(!drawn.contains("end unknown"), "{drawn}");
        assert!(
            drawn.contains("<g class=\"rings\" clip-path=\"url(#end)\"></g>"),
            "no rings: {drawn}"
        );
    }

    #[test]
    fn the_place_that_decides_is_marked_in_its_own_view() {
        let plank = Plank {
            grain_face: Some(Slope::tangent(0.02)),
            grain_edge: Some(Slope::tangent(-0.1)),
            ..Plank::default()
        };
        assert_eq!(WeakPlace::of_grain(&plank), WeakPlace::EdgeGrain);
        let marks = |place| {
            let drawn = PlankDrawn {
                plank: &plank,
                colour: "#e8cfa0",
                parts: None,
                weakest: Some((place, Judged::Bad)),
            };
            let views = [face_view(&drawn), edge_view(&drawn), end_view(&drawn)];
            views.map(|view| view.into_string().matches("class=\"weakest bad\"").count())
        };
        for (place, marked) in [
            (WeakPlace::MarkedEdge, [1, 0, 0]),
            (WeakPlace::FaceGrain, [1, 0, 0]),
            (WeakPlace::Bow, [0, 1, 0]),
            (WeakPlace::EdgeGrain, [0, 1, 0]),
            (WeakPlace::Rings, [0, 0, 1]),
        ] {
            assert_eq!(marks(place), marked, "{place:?}");
        }
    }

    #[test]
    fn a_check_is_drawn_as_a_crack_and_a_knot_is_not() {
        let of = |kind| {
            let defect = Defect {
                kind,
                from: Some(mm(2600.0)),
                to: None,
                note: String::new(),
            };
            let plank = Plank {
                length: Some(mm(2620.0)),
                defects: vec![defect],
                ..Plank::default()
            };
            let drawn = PlankDrawn {
                plank: &plank,
                colour: "#d8c7a6",
                parts: None,
                weakest: None,
            };
            face_view(&drawn).into_string()
        };
        let (check, knot) = (of(DefectKind::EndCheck), of(DefectKind::Knot));
        assert!(check.contains("class=\"crack\"") && !check.contains("<ellipse"));
        assert!(knot.contains("<ellipse") && !knot.contains("class=\"crack\""));
        // One at the far end stays on the plank.
        assert!(check.contains("M264.0 "), "{check}");
    }
}
