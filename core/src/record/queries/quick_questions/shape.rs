//! What a bow leaves in a blank, what slopes of grain on two faces come to, and which end is the headstock.

use super::given::{Given, Input, InputKind, Unanswered, wanted};
use super::question::{Answer, Question, Way};
use crate::plank::{
    Bend, BendShape, Plank, Slab, Stations, bend_left, combined_slope, grain_in_head, runout_over,
    slab_losses,
};
use crate::quantity::{Angle, Slope, in_degrees, in_mm, mm, show};

const GAP: Input = wanted("Gap under the string", InputKind::Length);
const OVER: Input = wanted("over a length of", InputKind::Length);
const KINK: Input = wanted("Kink at, from an end", InputKind::Length);
const BLANK: Input = wanted("Length of the blank", InputKind::Length);
const BENT_THICKNESS: Input = Input {
    needed: false,
    ..wanted("Thickness of the plank", InputKind::Length)
};
const PLANING: Input = Input {
    needed: false,
    begins: "1 mm",
    ..wanted("Planing, each face", InputKind::Length)
};
const FACE: Input = wanted("Grain on the face", InputKind::Slope);
const EDGE: Input = wanted("Grain on the edge", InputKind::Slope);
const RUN: Input = Input {
    needed: false,
    ..wanted("Length of the blank", InputKind::Length)
};

/// What does a bow leave in a blank?
pub(super) static BOW: Question = Question {
    asks: "What does a bow do to a blank?",
    ways: &[
        Way {
            name: "even curve",
            inputs: &[GAP, OVER, BLANK, BENT_THICKNESS, PLANING],
            answer: |given| bow(given, BendShape::Even),
        },
        Way {
            name: "kink",
            inputs: &[GAP, OVER, KINK, BLANK, BENT_THICKNESS, PLANING],
            answer: |given| bow(given, BendShape::Kink(given.length(KINK.label)?)),
        },
    ],
};

fn bow(given: &Given<'_>, shape: BendShape) -> Result<Answer, Unanswered> {
    let (over, blank) = (given.length(OVER.label)?, given.length(BLANK.label)?);
    let bend = Bend {
        gap: given.length(GAP.label)?,
        over: None,
        shape,
        signed: false,
    };
    let mut steps = Vec::new();
    let left = bend_left(&mut steps, &bend, over, blank)?;
    let shown = |value| show::length(in_mm(value), given.units);
    let kinked = matches!(shape, BendShape::Kink(_));
    let (name, basis) = if kinked {
        (
            "Gap with the kink inside",
            "The kink as near mid-blank as the plank allows, where it costs most. Derived: geometry of \
             small angles.",
        )
    } else {
        (
            "Gap over the blank",
            "An even curve, d (l/L)², within 0.2 % up to a gap of L/50. Derived: geometry.",
        )
    };
    let mut answer = Answer::on(basis).with(name, shown(left.inside));
    if kinked {
        answer = answer.with("with the cut on the kink", shown(left.cut_on_it));
    }
    if let Some(thickness) = given.length_if_any(BENT_THICKNESS.label) {
        let plank = Plank {
            length: Some(over),
            thicknesses: Stations::one(thickness),
            bow: Some(bend),
            ..Plank::default()
        };
        let planing = given.length_if_any(PLANING.label).unwrap_or(mm(0.0));
        // The width matters to twist and cup only, and neither is here.
        let losses = slab_losses(&mut steps, &plank, (blank, blank), planing)?;
        let left = |slab: Slab| {
            if slab.thickness > mm(0.0) {
                shown(slab.thickness)
            } else {
                "nothing".into()
            }
        };
        answer = answer.with(
            "Straight slab left, cut first",
            left(losses.bend_inside(&mut steps)),
        );
        if kinked {
            let on_kink = left(losses.cut_on_kink(&mut steps));
            answer = answer.with("the same, cut on the kink", on_kink);
        }
        answer.basis.push_str(" Twist and cup are left out.");
    }
    Ok(answer.worked(steps))
}

/// What do the slopes on two faces come to?
pub(super) static GRAIN: Question = Question {
    asks: "How steep is the grain over both faces?",
    ways: &[Way {
        name: "",
        inputs: &[FACE, EDGE, RUN],
        answer: grain,
    }],
};

fn grain(given: &Given<'_>) -> Result<Answer, Unanswered> {
    let mut steps = Vec::new();
    let (face, edge) = (given.slope(FACE.label)?, given.slope(EDGE.label)?);
    let slope = combined_slope(&mut steps, face, edge);
    let mut answer = Answer::on("The root of both squares, for any slopes. Derived: geometry.")
        .with("Slope of grain", show::slope(slope.in_tangent()));
    if let Some(blank) = given.length_if_any(RUN.label) {
        let runs = runout_over(&mut steps, slope, blank);
        answer = answer.with(
            "It runs out over the blank by",
            show::length(in_mm(runs), given.units),
        );
    }
    Ok(answer.worked(steps))
}

const HEAD: Input = wanted("Angle of the head", InputKind::Angle);
const SIDE: Input = wanted("Grain in side view", InputKind::Slope);

/// Which end should be the headstock?
pub(super) static HEADSTOCK: Question = Question {
    asks: "Which end is the headstock?",
    ways: &[Way {
        name: "",
        inputs: &[HEAD, SIDE],
        answer: headstock,
    }],
};

fn headstock(given: &Given<'_>) -> Result<Answer, Unanswered> {
    let mut steps = Vec::new();
    let (head, side) = (given.angle(HEAD.label)?, given.slope(SIDE.label)?);
    let found = grain_in_head(&mut steps, head, side)?;
    let shown = |angle: Angle| {
        let slope = show::slope(Slope::of_angle(angle).in_tangent());
        format!("{} ({slope})", show::angle(in_degrees(angle)))
    };
    let stronger = match found.falling < found.rising {
        true => "at the end that the grain falls towards",
        false => "either end",
    };
    Ok(Answer::on(
        "Side view, fingerboard up, the head tilted back; an even slope. The less the grain slopes in the head, the \
         farther its fibres run through it, and the harder it breaks. Derived: geometry.",
    )
    .with("Put the head", stronger)
    .with("Grain in the head there", shown(found.falling))
    .with("Grain in the head at the other end", shown(found.rising))
    .worked(steps))
}
