//! Lines over time with their scale, limits and a band; the names at the right stand apart even where lines cross.

use maud::{Markup, html};
use stillwood_core::order;
use stillwood_core::quantity::float_of;

/// A line.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Its name with its last value.
    pub name: String,
    /// Its class: how it stands.
    pub class: &'static str,
    /// Days from the first, and values.
    pub points: Vec<(f64, f64)>,
    /// Which of four signs its points are, and which of four strokes it is drawn in.
    pub sign: usize,
}

/// A chart.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Chart {
    /// How many days it spans.
    pub days: f64,
    /// The scale, from and to.
    pub scale: (f64, f64),
    /// Lines.
    pub lines: Vec<Line>,
    /// A band: days, and from and to.
    pub band: Vec<(f64, f64, f64)>,
    /// The range that is allowed, where there is one.
    pub allowed: Option<(f64, f64)>,
    /// Marks of the scale: values with what they are called.
    pub ticks: Vec<(f64, String)>,
    /// Marks of the days: days with what they are called.
    pub dates: Vec<(f64, String)>,
}

const LEFT: f64 = 60.0;
const RIGHT: f64 = 246.0;
const TOP: f64 = 10.0;
const BOTTOM: f64 = 128.0;
/// Names stand so far apart.
const APART: f64 = 16.0;
/// A name of more signs than this stands in two rows, the value below, and has more room.
const LONG: usize = 15;
const RIGHT_LONG: f64 = 230.0;
const APART_LONG: f64 = 30.0;

fn n(value: f64) -> String {
    format!("{value:.1}")
}

impl Chart {
    fn x(&self, day: f64) -> f64 {
        LEFT + 6.0 + day / self.days.max(1.0) * (self.right() - LEFT - 12.0)
    }

    fn y(&self, value: f64) -> f64 {
        let (low, high) = self.scale;
        let span = if high > low { high - low } else { 1.0 };
        (BOTTOM - (value - low) / span * (BOTTOM - TOP)).clamp(TOP - 4.0, BOTTOM + 4.0)
    }

    /// Whether a name with its value is too long for one row beside the lines.
    fn in_two_rows(&self) -> bool {
        let mut names = self.lines.iter().map(|line| line.name.chars().count());
        names.any(|signs| signs > LONG)
    }

    /// Where the lines end, and the room for the names begins.
    fn right(&self) -> f64 {
        if self.in_two_rows() {
            RIGHT_LONG
        } else {
            RIGHT
        }
    }

    fn apart(&self) -> f64 {
        if self.in_two_rows() {
            APART_LONG
        } else {
            APART
        }
    }

    /// Where the names stand: each as near to its line's end as the others allow.
    fn names(&self) -> Vec<(usize, f64)> {
        let mut names: Vec<(usize, f64)> = self
            .lines
            .iter()
            .enumerate()
            .filter_map(|(at, line)| Some((at, self.y(line.points.last()?.1))))
            .collect();
        order::sort_by(&mut names, |a, b| a.1.total_cmp(&b.1));
        let mut least = TOP + 2.0;
        for (_, y) in &mut names {
            *y = y.max(least);
            least = *y + self.apart();
        }
        let mut most = BOTTOM + 2.0;
        for (_, y) in names.iter_mut().rev() {
            *y = y.min(most);
            most = *y - self.apart();
        }
        names
    }

    /// The drawing; `said` says the same.
    pub fn draw(&self, said: &str) -> Markup {
        let band = |edge: fn(&(f64, f64, f64)) -> f64| {
            self.band
                .iter()
                .map(move |one| format!("{},{}", n(self.x(one.0)), n(self.y(edge(one)))))
        };
        let upper: Vec<String> = band(|one| one.2).collect();
        let lower: Vec<String> = band(|one| one.1).collect();
        let around: Vec<String> = upper.into_iter().chain(lower.into_iter().rev()).collect();
        html! {
            svg.chart.over-time viewBox="0 0 360 150" role="img" aria-label=(said) {
                @if let Some((low, high)) = self.allowed {
                    @let (top, bottom) = (self.y(high), self.y(low));
                    rect.allowed x=(n(LEFT)) y=(n(top)) width=(n(self.right() - LEFT)) height=(n(bottom - top)) {}
                    path.limit d={ "M" (n(LEFT)) " " (n(top)) "H" (n(self.right())) "M" (n(LEFT)) " " (n(bottom)) "H" (n(self.right())) } {}
                }
                @if self.band.len() > 1 { polygon.air points=(around.join(" ")) {} }
                @for (value, name) in &self.ticks {
                    path.tick d={ "M" (n(LEFT)) " " (n(self.y(*value))) "H" (n(self.right())) } {}
                    text x=(n(LEFT - 6.0)) y=(n(self.y(*value) + 4.5)) text-anchor="end" { (name) }
                }
                @for (day, name) in &self.dates {
                    path.tick d={ "M" (n(self.x(*day))) " " (n(BOTTOM)) "v4" } {}
                    text x=(n(self.x(*day))) y="147" text-anchor=(if *day <= 0.0 { "start" } else if *day >= self.days { "end" } else { "middle" }) { (name) }
                }
                @for line in &self.lines { (self.line(line)) }
                @for (at, y) in self.names() {
                    @if let Some(line) = self.lines.get(at) {
                        @let end = line.points.last().map_or((0.0, 0.0), |point| *point);
                        path.leader d={ "M" (n(self.x(end.0) + 5.0)) " " (n(self.y(end.1))) "L" (n(self.right() + 6.0)) " " (n(y)) } {}
                        @match line.name.split_once(' ').filter(|_| self.in_two_rows()) {
                            Some((name, value)) => {
                                text.name class={ "name " (line.class) } x=(n(self.right() + 8.0)) y=(n(y - 2.0)) { (name) }
                                text.name class={ "name " (line.class) } x=(n(self.right() + 8.0)) y=(n(y + 11.0)) { (value) }
                            },
                            None => text.name class={ "name " (line.class) } x=(n(self.right() + 8.0)) y=(n(y + 4.5)) { (line.name) },
                        }
                    }
                }
            }
        }
    }

    fn line(&self, line: &Line) -> Markup {
        let places: Vec<(f64, f64)> = line
            .points
            .iter()
            .map(|(day, value)| (self.x(*day), self.y(*value)))
            .collect();
        let points: Vec<String> = places
            .iter()
            .map(|(x, y)| format!("{},{}", n(*x), n(*y)))
            .collect();
        html! {
            g class={ "line stroke-" (line.sign.min(3)) " " (line.class) } {
                @if points.len() > 1 { polyline points=(points.join(" ")) fill="none" {} }
                @for (x, y) in &places {
                    @match line.sign {
                        0 => circle cx=(n(*x)) cy=(n(*y)) r="3.8" {},
                        1 => rect x=(n(*x - 3.4)) y=(n(*y - 3.4)) width="6.8" height="6.8" {},
                        2 => path d={ "M" (n(*x)) " " (n(*y - 4.4)) "l4.4 7.6h-8.8z" } {},
                        _ => path d={ "M" (n(*x)) " " (n(*y - 4.8)) "l4.8 4.8l-4.8 4.8l-4.8 -4.8z" } {},
                    }
                }
            }
        }
    }
}

/// Marks of a scale: three to six of them at round values, from a low to a high one.
pub fn round_ticks((low, high): (f64, f64)) -> Vec<f64> {
    let span = high - low;
    if !(span > 0.0 && span.is_finite()) {
        return vec![low];
    }
    let mut step = 1e-6;
    for power in -6_i32..9 {
        let ten = float_of(&format!("1e{power}")).unwrap_or(1.0);
        for of in [1.0, 2.0, 5.0] {
            if span / (of * ten) >= 2.5 {
                step = of * ten;
            }
        }
    }
    let first = (low / step).ceil() as i64;
    let last = (high / step).floor() as i64;
    (first..=last).map(|at| at as f64 * step).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_of_a_scale_are_round_and_few() {
        assert_eq!(
            round_ticks((-2.4, 2.4)),
            [-2.0, -1.0, 0.0, 1.0, 2.0].map(|one: f64| one)
        );
        let fine = round_ticks((6.0, 6.7));
        assert!((3..=6).contains(&fine.len()), "{fine:?}");
        assert_eq!(round_ticks((3.0, 3.0)), [3.0]);
    }

    #[test]
    fn lines_of_one_class_differ_by_stroke_and_by_sign() {
        let line = |sign| Line {
            name: "bow".to_owned(),
            class: "good",
            points: vec![(0.0, 0.0), (10.0, 1.0)],
            sign,
        };
        let drawn: Vec<String> = (0..4)
            .map(|sign| Chart::default().line(&line(sign)).into_string())
            .collect();
        for (at, one) in drawn.iter().enumerate() {
            assert!(one.contains(&format!("stroke-{at}")), "{one}");
            assert!(drawn.iter().filter(|other| *other == one).count() == 1);
        }
    }

    #[test]
    fn a_long_name_stands_above_its_value() {
        let line = |name: &str| Line {
            name: name.to_owned(),
            class: "good",
            points: vec![(0.0, 0.0), (10.0, 0.1)],
            sign: 0,
        };
        let chart = Chart {
            days: 10.0,
            scale: (-2.0, 2.0),
            lines: vec![
                line("Flachkrümmung +0,25 mm"),
                line("Kantenkrümmung +0,25 mm"),
                line("Verdrehung +0,25 mm"),
                line("Querkrümmung +0,25 mm"),
            ],
            ..Chart::default()
        };
        let drawn = chart.draw("").into_string();
        assert!(drawn.contains(">Kantenkrümmung</text>"), "{drawn}");
        assert!(drawn.contains(">+0,25 mm</text>"), "{drawn}");
        let places: Vec<f64> = chart.names().iter().map(|(_, y)| *y).collect();
        assert!(places.windows(2).all(|two| two[1] - two[0] >= 26.0));
        assert!(places.iter().all(|y| (TOP..=BOTTOM + 2.0).contains(y)));
    }

    #[test]
    fn names_at_the_end_of_crossing_lines_stand_apart() {
        let line = |name: &str, to: f64| Line {
            name: name.to_owned(),
            class: "good",
            points: vec![(0.0, 0.0), (10.0, to)],
            sign: 0,
        };
        let chart = Chart {
            days: 10.0,
            scale: (-2.0, 2.0),
            lines: vec![
                line("bow", 0.1),
                line("crook", 0.0),
                line("twist", 0.05),
                line("cup", -0.02),
            ],
            ..Chart::default()
        };
        let mut places: Vec<f64> = chart.names().iter().map(|(_, y)| *y).collect();
        places.sort_by(f64::total_cmp);
        for pair in places.windows(2) {
            assert!(pair[1] - pair[0] >= APART - 1e-9, "{places:?}");
        }
        assert!(
            places.iter().all(|y| (TOP..=BOTTOM + 2.0).contains(y)),
            "{places:?}"
        );
    }
}
