//! The saw, the planer and the clamps of the invented workshop: pieces out of planks, laminates out of
//! pieces, blanks out of laminates.
//!
//! Marks of what is cut come from the core, those of blanks go on from the planks'.

use anyhow::{Context, Result};
use stillwood_core::plank::Field;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::{
    Adhesive, Child, Climate, Cut, Event, Glued, Machined, Mark, Member, PieceKind, Span, Tension,
    child_marks,
};

use super::air::Wet;
use super::bench::{Bench, REFERENCE, Wood, read, typed};
use super::row;

/// The length to which pieces are cut, what is trimmed off the near end, and the saw's kerf, mm.
const PIECE: f64 = 950.0;
const TRIM: f64 = 80.0;
const CROSSCUT_KERF: f64 = 3.2;
/// The thickness to which laminates are ripped, and the kerf, mm.
const LAMINATE: f64 = 20.0;
const RIP_KERF: f64 = 2.4;
/// The days in which a laminate has done all but 37 % of the way to its air.
const LAMINATES_LAG: f64 = 12.0;

/// How a piece is cut.
struct Layout {
    kind: PieceKind,
    /// Length, width and thickness of each child, mm.
    size: [f64; 3],
    kerf: f64,
    tension: Option<Tension>,
    /// The place of each child, along and across.
    places: Vec<(Option<Span>, Option<Span>)>,
}

fn span(from: f64, to: f64) -> Result<Option<Span>> {
    Ok(Some(Span {
        from: typed(from, "mm", 1)?,
        to: typed(to, "mm", 1)?,
    }))
}

impl Bench {
    /// Cuts a plank to so many pieces, and tells how it sprang; gives their marks.
    pub(super) fn crosscut(
        &mut self,
        mark: &str,
        count: usize,
        sprang: Option<&str>,
    ) -> Result<Vec<String>> {
        let [_, width, thickness] = self.wood(mark)?.size;
        let gap = match sprang {
            Some(text) => row::taken(Field::Crook, text, Units::Metric)?,
            None => None,
        };
        let mut layout = Layout {
            kind: PieceKind::Piece,
            size: [PIECE, width, thickness],
            kerf: CROSSCUT_KERF,
            tension: gap.map(|gap| Tension { gap, over: None }),
            places: Vec::new(),
        };
        for n in 0..count {
            let from = TRIM + n as f64 * (PIECE + CROSSCUT_KERF);
            layout.places.push((span(from, from + PIECE)?, None));
        }
        self.cut(mark, layout)
    }

    /// Rips a piece to so many laminates; gives their marks.
    pub(super) fn rip(&mut self, mark: &str, count: usize) -> Result<Vec<String>> {
        let [length, _, thickness] = self.wood(mark)?.size;
        let mut layout = Layout {
            kind: PieceKind::Laminate,
            size: [length, thickness, LAMINATE],
            kerf: RIP_KERF,
            tension: None,
            places: Vec::new(),
        };
        for n in 0..count {
            let from = n as f64 * (LAMINATE + RIP_KERF);
            layout.places.push((None, span(from, from + LAMINATE)?));
        }
        self.cut(mark, layout)
    }

    fn cut(&mut self, mark: &str, layout: Layout) -> Result<Vec<String>> {
        let parent = *self.wood(mark)?;
        let marks = child_marks(mark, layout.kind, layout.places.len());
        let wet = Wet {
            since: self.today,
            percent: parent.wet.on(self.today, &self.air)?,
            lag: match layout.kind {
                PieceKind::Laminate => LAMINATES_LAG,
                _ => parent.wet.lag,
            },
        };
        let mut children = Vec::new();
        for (mark, (along, across)) in marks.iter().zip(layout.places) {
            let wood = Wood {
                id: self.phone.id(),
                kind: layout.kind,
                size: layout.size,
                wet,
                ..parent
            };
            children.push(Child {
                across,
                along,
                id: wood.id,
                kind: wood.kind,
                mark: mark.clone(),
                through: None,
            });
            self.wood.insert(mark.clone(), wood);
        }
        let cut = Cut {
            children,
            kerf: Some(typed(layout.kerf, "mm", 1)?),
            tension: layout.tension,
        };
        self.record(mark, Event::Cut(std::sync::Arc::new(cut)))?;
        Ok(marks)
    }

    /// A face and an edge are machined flat, and the other sides to size.
    pub(super) fn flatten(&mut self, mark: &str) -> Result<()> {
        let wood = self.wood.get_mut(mark).context("not at the bench")?;
        let [length, width, thickness] = &mut wood.size;
        let off_the_width = match wood.kind {
            PieceKind::Laminate => 1.0,
            _ => 3.0,
        };
        *width = ((*width - off_the_width) * 10.0).round() / 10.0;
        *thickness = ((*thickness - 2.5) * 10.0).round() / 10.0;
        let (width, thickness) = (format!("{width:.1}"), format!("{thickness:.1}"));
        let mut readings = read(&[
            (Field::WidthNear, &width),
            (Field::ThicknessNear, &thickness),
        ])?;
        if wood.kind == PieceKind::Blank {
            readings.extend(read(&[(Field::Length, &format!("{length:.0}"))])?);
        }
        let machined = Machined {
            edge: true,
            face: true,
            readings,
            reference: REFERENCE.to_owned(),
        };
        self.record(mark, Event::Machined(Box::new(machined)))
    }

    /// Laminates are glued to a blank, every other one rolled; gives its mark.
    pub(super) fn glue(&mut self, members: &[String], batch: &str, hours: f64) -> Result<String> {
        let woods: Vec<Wood> = members
            .iter()
            .map(|mark| self.wood(mark).copied())
            .collect::<Result<_>>()?;
        let first = woods.first().context("a blank of nothing")?;
        let count = woods.len() as f64;
        let mean = |of: &dyn Fn(&Wood) -> f64| woods.iter().map(of).sum::<f64>() / count;
        let wet: Vec<f64> = woods
            .iter()
            .map(|wood| wood.wet.on(self.today, &self.air))
            .collect::<Result<_>>()?;
        let [length, width, _] = first.size;
        let blank = Wood {
            id: self.phone.id(),
            kind: PieceKind::Blank,
            size: [length, mean(&|wood| wood.size[2]) * count, width],
            dry: mean(&|wood| wood.dry),
            wet: Wet {
                since: self.today,
                percent: wet.iter().sum::<f64>() / count,
                lag: 70.0,
            },
        };
        let mark = Mark::next(self.phone.by(), self.last_mark)?;
        self.last_mark = mark.number();
        let member = |(n, wood): (usize, &Wood)| Member {
            piece: wood.id,
            turned_over: n % 2 == 1,
            turned: false,
        };
        let glued = Glued {
            adhesive: Adhesive {
                batch: batch.to_owned(),
                brings_water: Some(false),
                mix: "2:1 by weight".to_owned(),
                name: "slow epoxy".to_owned(),
            },
            clamp_time: Some(typed(hours, "h", 0)?),
            climate: Climate::default(),
            mark: mark.to_string(),
            members: woods.iter().enumerate().map(member).collect(),
            who: String::new(),
        };
        self.wood.insert(mark.to_string(), blank);
        self.record(&mark.to_string(), Event::Glued(Box::new(glued)))?;
        Ok(mark.to_string())
    }
}
