//! A cutting plan: the plank from above and its near end, with the parts where they lie. A part of which it is not
//! known how its rings stand is grey and hatched.

use maud::{Markup, html};

/// How a part stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PartStands {
    /// As it is wanted: a part, or quartersawn.
    Good,
    /// Rift.
    Doubt,
    /// Flatsawn.
    Bad,
    /// Not known.
    Unknown,
}

impl PartStands {
    fn class(self) -> &'static str {
        match self {
            PartStands::Good => "good",
            PartStands::Doubt => "doubt",
            PartStands::Bad => "bad",
            PartStands::Unknown => "unknown",
        }
    }
}

/// A part, mm.
#[derive(Debug, Clone)]
pub struct PartDrawn {
    /// Along the plank, from and to.
    pub along: (f64, f64),
    /// Across it, from and to.
    pub across: (f64, f64),
    /// How it stands.
    pub stands: PartStands,
    /// A letter that says the same.
    pub letter: &'static str,
}

const WIDE: f64 = 336.0;
/// A part narrower than this stretches the width of the drawing.
const THIN: f64 = 12.0;
/// A part lower than this has no room for its number.
const LEGIBLE: f64 = 11.0;
/// A part shorter than this has no room for its letter beside its number.
const WITH_LETTER: f64 = 40.0;
/// The width is drawn so high at most.
const HIGHEST: f64 = 210.0;

fn n(value: f64) -> String {
    format!("{value:.1}")
}

/// How many times the width is drawn larger than the length.
pub fn stretched((length, width): (f64, f64), parts: &[PartDrawn]) -> f64 {
    let scale = WIDE / length.max(1.0);
    let thinnest = parts
        .iter()
        .map(|one| one.across.1 - one.across.0)
        .fold(width, f64::min);
    let most = HIGHEST / (width * scale).max(1.0);
    (THIN / (thinnest * scale).max(0.01)).clamp(1.0, most.max(1.0))
}

fn hatch(id: &str) -> Markup {
    html! {
        pattern id=(id) width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)" {
            path.hatch d="M0 0V6" {}
        }
    }
}

fn part(x: f64, y: f64, w: f64, h: f64, one: &PartDrawn, hatched: &str) -> Markup {
    html! {
        g class={ "strip " (one.stands.class()) } {
            rect x=(n(x)) y=(n(y)) width=(n(w)) height=(n(h)) {}
            @if one.stands == PartStands::Unknown { rect.hatched x=(n(x)) y=(n(y)) width=(n(w)) height=(n(h)) fill={ "url(#" (hatched) ")" } {} }
        }
    }
}

/// What stands on a part seen from above: its number in the list, and the letter where there is room for it.
fn called(number: usize, letter: &str, wide: f64) -> String {
    match letter {
        "" => number.to_string(),
        _ if wide < WITH_LETTER => number.to_string(),
        letter => format!("{number} {letter}"),
    }
}

/// The numbers of the parts of each row, the first and the last, and where its middle lies along.
fn rows(parts: &[PartDrawn]) -> Vec<(usize, usize, f64)> {
    let mut rows: Vec<(usize, usize, f64)> = Vec::new();
    let mut from = f64::NAN;
    for (at, one) in parts.iter().enumerate() {
        match rows.last_mut() {
            Some((_, last, _)) if from == one.along.0 => *last = at + 1,
            _ => rows.push((at + 1, at + 1, (one.along.0 + one.along.1) / 2.0)),
        }
        from = one.along.0;
    }
    rows
}

/// The plank from above, in the colour of its wood. Each part carries its number; where parts are too thin for that,
/// each row carries those of its first and its last.
pub fn cut_from_above(
    size: (f64, f64),
    parts: &[PartDrawn],
    defects: &[(f64, f64)],
    colour: &str,
    said: &str,
) -> Markup {
    let (length, width) = size;
    let scale = WIDE / length.max(1.0);
    let across = scale * stretched(size, parts);
    let high = width * across;
    let thin = |one: &PartDrawn| (one.across.1 - one.across.0) * across < LEGIBLE;
    let too_thin = parts.iter().any(thin);
    html! {
        svg.cut viewBox={ "0 0 336 " (n(high + 4.0)) } role="img" aria-label=(said) {
            defs { (hatch("hatch-above")) }
            rect.wood x="0" y="2" width="336" height=(n(high)) fill=(colour) {}
            @for (at, one) in parts.iter().enumerate() {
                @let (x, y) = (one.along.0 * scale, 2.0 + one.across.0 * across);
                @let (w, h) = ((one.along.1 - one.along.0) * scale, (one.across.1 - one.across.0) * across);
                (part(x, y, w, h, one, "hatch-above"))
                @if !too_thin { text x=(n(x + w / 2.0)) y=(n(y + h / 2.0 + 4.5)) text-anchor="middle" { (called(at + 1, one.letter, w)) } }
            }
            @if too_thin {
                @for (first, last, middle) in rows(parts) {
                    text x=(n(middle * scale)) y=(n(2.0 + high / 2.0 + 4.5)) text-anchor="middle" {
                        @if first == last { (first) } @else { (first) "–" (last) }
                    }
                }
            }
            @for (from, to) in defects {
                @let x = from.max(0.0) * scale;
                rect.defect x=(n(x)) y="2" width=(n((to.min(length) * scale - x).max(2.0))) height=(n(high)) {}
            }
            rect.outline x="0" y="2" width="336" height=(n(high)) fill="none" {}
        }
    }
}

/// The near end with the parts of the first row, to scale.
pub fn cut_near_end(
    (width, thickness): (f64, f64),
    parts: &[PartDrawn],
    colour: &str,
    said: &str,
) -> Markup {
    let scale = (WIDE / width.max(1.0)).min(90.0 / thickness.max(1.0));
    let (wide, high) = (width * scale, thickness * scale);
    let left = (WIDE - wide) / 2.0;
    let first = parts.first().map_or(0.0, |one| one.along.0);
    html! {
        svg.cut viewBox={ "0 0 336 " (n(high + 4.0)) } role="img" aria-label=(said) {
            defs { (hatch("hatch-end")) }
            rect.wood x=(n(left)) y="2" width=(n(wide)) height=(n(high)) fill=(colour) {}
            @for (at, one) in parts.iter().filter(|one| one.along.0 <= first).enumerate() {
                @let (x, w) = (left + one.across.0 * scale, (one.across.1 - one.across.0) * scale);
                (part(x, 2.0, w, high, one, "hatch-end"))
                @if w > 14.0 { text x=(n(x + w / 2.0)) y=(n(6.0 + high / 2.0)) text-anchor="middle" { (at + 1) } }
            }
            rect.outline x=(n(left)) y="2" width=(n(wide)) height=(n(high)) fill="none" {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn laid(rows: usize, across: usize, thick: f64) -> Vec<PartDrawn> {
        let one = |row: usize, at: usize| PartDrawn {
            along: (950.0 * row as f64, 950.0 * (row + 1) as f64),
            across: ((thick + 3.0) * at as f64, (thick + 3.0) * at as f64 + thick),
            stands: PartStands::Good,
            letter: "Q",
        };
        let rows = 0..rows;
        rows.flat_map(|row| (0..across).map(move |at| one(row, at)))
            .collect()
    }

    #[test]
    fn every_part_of_the_list_is_found_on_the_plank() {
        let parts = laid(2, 8, 18.0);
        let drawn = cut_from_above((1900.0, 168.0), &parts, &[], "#e8cfa0", "").into_string();
        for number in 1..=16 {
            assert!(
                drawn.contains(&format!(">{number} Q<")),
                "{number}: {drawn}"
            );
        }
        // Too thin for a number each: each row carries its first and its last.
        let parts = laid(2, 40, 4.0);
        let drawn = cut_from_above((1900.0, 280.0), &parts, &[], "#e8cfa0", "").into_string();
        assert!(
            drawn.contains(">1–40<") && drawn.contains(">41–80<"),
            "{drawn}"
        );
    }
}
