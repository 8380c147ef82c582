//! A maker in the workshop, for the scenarios: what the saw, the shelf, the scale and the clamps add to
//! the record of [`Phone`]. All invented.

use crate::yard::{Phone, typed};
use stillwood_core::notebook::{
    Adhesive, Child, Cut, Glued, Happening, Kind, Machined, Member, MovementChecked, SetToRest,
    Span, Weighed,
};
use stillwood_core::plank::{Field, Seen, Taken};
use stillwood_core::season::Stage;
use uuid::Uuid;

/// A value as typed, in the unit in which it is kept.
pub fn taken(value: f64, unit: &str) -> Taken {
    Taken {
        insisted: false,
        seen: Seen::Measured,
        typed: value.to_string(),
        unit: unit.into(),
        value,
    }
}

/// A stretch, mm.
pub fn span(from: f64, to: f64) -> Option<Span> {
    Some(Span {
        from: taken(from, "mm"),
        to: taken(to, "mm"),
    })
}

impl Phone {
    /// Pieces in a row along the length, each from here to there; the rest is waste.
    pub fn crosscut(&mut self, parent: Uuid, pieces: &[(&str, f64, f64)]) -> Vec<Uuid> {
        let mut children = Vec::new();
        for (mark, from, to) in pieces {
            children.push(Child {
                across: None,
                along: span(*from, *to),
                id: self.id(),
                kind: Kind::Piece,
                mark: (*mark).into(),
                through: None,
            });
        }
        self.cut(parent, children, 3.2)
    }

    /// Laminates of one thickness side by side across the width.
    pub fn rip(&mut self, parent: Uuid, marks: &[String], thickness: f64) -> Vec<Uuid> {
        let kerf = 2.4;
        let mut children = Vec::new();
        for (n, mark) in marks.iter().enumerate() {
            let from = n as f64 * (thickness + kerf);
            children.push(Child {
                across: span(from, from + thickness),
                along: None,
                id: self.id(),
                kind: Kind::Laminate,
                mark: mark.clone(),
                through: None,
            });
        }
        self.cut(parent, children, kerf)
    }

    /// A cut; gives the ids of the children.
    pub fn cut(&mut self, parent: Uuid, children: Vec<Child>, kerf: f64) -> Vec<Uuid> {
        let ids = children.iter().map(|child| child.id).collect();
        let cut = Cut {
            children,
            kerf: Some(taken(kerf, "mm")),
            tension: None,
        };
        self.record(parent, Happening::Cut(Box::new(cut)));
        ids
    }

    /// Sets a piece to rest.
    pub fn rest(&mut self, piece: Uuid, stage: Stage, place: &str) {
        let rest = SetToRest {
            climate: Default::default(),
            place: place.into(),
            stage,
        };
        self.record(piece, Happening::SetToRest(rest));
    }

    /// Machines a face and an edge flat.
    pub fn flatten(&mut self, piece: Uuid) {
        let machined = Machined {
            edge: true,
            face: true,
            reference: "pith side, left edge".into(),
            ..Machined::default()
        };
        self.record(piece, Happening::Machined(Box::new(machined)));
    }

    /// Checks a piece for movement.
    pub fn check(&mut self, piece: Uuid, texts: &[(Field, &str)]) {
        let check = MovementChecked {
            readings: typed(texts),
            reference: "pith side, left edge".into(),
            ..MovementChecked::default()
        };
        self.record(piece, Happening::MovementChecked(Box::new(check)));
    }

    /// Looks at a piece: nothing moved.
    pub fn nothing_moved(&mut self, piece: Uuid) {
        let check = MovementChecked {
            nothing_moved: true,
            ..MovementChecked::default()
        };
        self.record(piece, Happening::MovementChecked(Box::new(check)));
    }

    /// Weighs a piece on the bench scale.
    pub fn weigh(&mut self, piece: Uuid, kg: f64) {
        let weighed = Weighed {
            mass: taken(kg, "kg"),
            scale: "bench".into(),
            step: Some(taken(0.005, "kg")),
            witness: None,
        };
        self.record(piece, Happening::Weighed(weighed));
    }

    /// Glues a blank, members in order.
    pub fn glue(&mut self, mark: &str, members: &[Uuid], batch: &str) -> Uuid {
        let blank = self.id();
        let member = |(n, piece): (usize, &Uuid)| Member {
            piece: *piece,
            rolled: n % 2 == 1,
            turned: false,
        };
        let glued = Glued {
            adhesive: Adhesive {
                batch: batch.into(),
                brings_water: Some(false),
                mix: "2:1".into(),
                name: "epoxy".into(),
            },
            clamp_time: Some(taken(24.0, "h")),
            mark: mark.into(),
            members: members.iter().enumerate().map(member).collect(),
            ..Glued::default()
        };
        self.record(blank, Happening::Glued(Box::new(glued)));
        blank
    }
}
