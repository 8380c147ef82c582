//! What can be done with a piece in the workshop: for each happening what is asked, and how the answers
//! become what is recorded. It works nothing out.

use super::asks::{Ask, Is, ask, hinted};
use super::form::Filled;
use super::today;
use crate::held::Wrong;
use std::sync::Arc;
use stillwood_core::plank::{Field, RingTilt, RunoutDirection};
use stillwood_core::record::Id;
use stillwood_core::record::{
    Climate, Discarded, Downgraded, Event, GrainSeen, Machined, Missing, MoistureRead,
    MovementChecked, Piece, PieceKind, Placed, Released, Reserved, SetToRest, StressTest,
    StressTested, Used, Weighed, Witness, date,
};
use stillwood_core::season::Stage;

/// One thing that can be done.
pub(crate) struct Doing {
    /// Its name, on the button that opens it.
    pub(super) name: &'static str,
    /// What is asked.
    pub(super) asks: &'static [Ask],
    /// When it is offered.
    pub(super) fits: fn(&Piece) -> bool,
    /// What is recorded.
    pub(super) make: fn(Filled) -> Result<Event, Wrong>,
}

impl Doing {
    /// Under which its form is kept while it is half typed.
    pub(crate) fn key(&self, piece: Id) -> String {
        format!("{piece}/{}", self.name)
    }
}

const STAGES: [&str; 3] = ["pieces", "laminates", "blanks"];

/// It is kept for somebody today.
fn is_kept(piece: &Piece) -> bool {
    piece.is_kept_on(today())
}

fn here(piece: &Piece) -> bool {
    piece.work.missing.is_none()
}

/// All of them, in the order in which they are offered.
pub(super) static DOINGS: [Doing; 14] = [
    Doing {
        name: "Put on a shelf",
        asks: &[hinted(
            "Shelf",
            Is::Words,
            "It arrived, was moved, or was found again.",
        )],
        fits: |_| true,
        make: |typed| {
            let place = typed.needed_words("Shelf")?;
            Ok(Event::Placed(Placed { place }))
        },
    },
    Doing {
        name: "Weigh",
        asks: &[
            ask("Weight", Is::Mass),
            hinted(
                "Step of the scale",
                Is::Mass,
                "The least that it shows, as 1 g.",
            ),
            ask("Scale", Is::Words),
            STICK,
            STICK_WEIGHS,
        ],
        fits: here,
        make: weighed,
    },
    Doing {
        name: "Moisture",
        asks: &[
            ask("Meter shows", Is::Of(Field::Moisture)),
            ask("Wood temperature", Is::Of(Field::WoodTemperature)),
            ask("Depth of the pins", Is::Length),
            ask("Meter", Is::Words),
        ],
        fits: here,
        make: |typed| {
            let read = MoistureRead {
                depth: typed.taken("Depth of the pins")?,
                meter: typed.words("Meter"),
                shown: typed.needed("Meter shows")?,
                wood_temperature: typed.taken("Wood temperature")?,
            };
            Ok(Event::MoistureRead(Arc::new(read)))
        },
    },
    Doing {
        name: "Check movement",
        asks: &[
            ask("Nothing moved", Is::Tick),
            MOVED[0],
            MOVED[1],
            MOVED[2],
            MOVED[3],
            MOVED[4],
            MOVED[5],
            MOVED[6],
            MOVED[7],
        ],
        fits: here,
        make: checked,
    },
    Doing {
        name: "Machined flat",
        asks: &[
            ask("A face was made flat", Is::Tick),
            ask("An edge was made straight", Is::Tick),
            ask("Length", Is::Of(Field::Length)),
            ask("Width", Is::Of(Field::WidthNear)),
            ask("Thickness", Is::Of(Field::ThicknessNear)),
            hinted(
                "Marked face and edge",
                Is::Words,
                "Signs refer to them from here on.",
            ),
        ],
        fits: here,
        make: machined,
    },
    Doing {
        name: "Rings and grain",
        asks: &[
            hinted(
                "Rings on the near end",
                Is::Rings,
                "It stands on edge: marked edge up, marked face to the right, as it stood in its plank.",
            ),
            ask("Ring angle", Is::Of(Field::RingAngle)),
            hinted(
                "Grain on the marked face",
                Is::Grain,
                "The near end to the left, the marked edge up.",
            ),
            ask("Slope of grain", Is::Of(Field::GrainFace)),
        ],
        fits: |piece| here(piece) && piece.work.kind == PieceKind::Laminate,
        make: grain_seen,
    },
    Doing {
        name: "Stress test",
        asks: &[
            ask("Test", Is::OneOf(&["offcut ripped in two", "fork test"])),
            hinted(
                "Gap",
                Is::Gap,
                "Plus: it opens, or the prongs spread. Minus: they close.",
            ),
            ask("Over a length of", Is::Length),
        ],
        fits: here,
        make: |typed| {
            let tested = StressTested {
                gap: typed.needed("Gap")?,
                over: typed.taken("Over a length of")?,
                test: match typed.pick() {
                    0 => StressTest::Ripped,
                    _ => StressTest::Fork,
                },
            };
            Ok(Event::StressTested(Box::new(tested)))
        },
    },
    Doing {
        name: "Set to rest",
        asks: &[
            ask("Stage", Is::OneOf(&STAGES)),
            hinted("Shelf", Is::Words, "Empty: it stays where it is."),
            ask("Humidity of the air", Is::Humidity),
            ask("Temperature of the air", Is::Temperature),
        ],
        fits: here,
        make: |typed| {
            let rest = SetToRest {
                climate: climate(typed)?,
                place: typed.words("Shelf"),
                stage: stage_at(typed.pick()),
            };
            Ok(Event::SetToRest(Arc::new(rest)))
        },
    },
    Doing {
        name: "Throw out",
        asks: &[ask("Why", Is::Reasons)],
        fits: |_| true,
        make: |typed| {
            let reasons = typed.reasons();
            if reasons.is_empty() {
                let why = "Say why: what is thrown out teaches what to buy.";
                return Err(Wrong::at("Why", why));
            }
            Ok(Event::Discarded(Discarded { reasons }))
        },
    },
    Doing {
        name: "Another use",
        asks: &[
            hinted("To what use", Is::Words, "Fingerboards, veneer, a lamp."),
            ask("Why", Is::Reasons),
        ],
        fits: here,
        make: |typed| {
            let down = Downgraded {
                reasons: typed.reasons(),
                to: typed.needed_words("To what use")?,
            };
            Ok(Event::Downgraded(down))
        },
    },
    Doing {
        name: "Not found",
        asks: &[],
        fits: here,
        make: |_| Ok(Event::Missing(Missing {})),
    },
    Doing {
        name: "Reserve",
        asks: &[
            ask("For whom", Is::Words),
            ask("Until, the last day", Is::Day),
        ],
        fits: |piece| here(piece) && !is_kept(piece),
        make: reserved,
    },
    Doing {
        name: "Release",
        asks: &[],
        fits: |piece| piece.work.reserved.is_some(),
        make: |_| Ok(Event::Released(Released {})),
    },
    Doing {
        name: "Used",
        asks: &[ask("What it became", Is::Words)],
        fits: here,
        make: |typed| {
            let became = typed.needed_words("What it became")?;
            Ok(Event::Used(Used { became }))
        },
    },
];

/// The one of a name.
pub(crate) fn doing(name: &str) -> Option<&'static Doing> {
    DOINGS.iter().find(|doing| doing.name == name)
}

/// The witness stick.
pub(super) const STICK: Ask = hinted(
    "Witness stick",
    Is::Words,
    "A stick of long-seasoned wood, weighed beside it; may stay empty.",
);
/// Its weight.
pub(super) const STICK_WEIGHS: Ask = ask("The stick weighs", Is::Mass);

/// What is measured of a piece that moved.
pub(super) const MOVED: [Ask; 8] = [
    ask("Crook", Is::Of(Field::Crook)),
    ask("Crook over", Is::Of(Field::CrookOver)),
    ask("Bow", Is::Of(Field::Bow)),
    ask("Bow over", Is::Of(Field::BowOver)),
    ask("Twist", Is::Of(Field::Twist)),
    ask("Winding stick", Is::Of(Field::TwistStick)),
    ask("Cup", Is::Of(Field::Cup)),
    ask("Off by at most", Is::Small),
];

/// A check as it was typed.
pub(super) fn checked(typed: Filled) -> Result<Event, Wrong> {
    let check = MovementChecked {
        nothing_moved: typed.is_on("Nothing moved"),
        readings: typed.readings()?,
        reference: String::new(),
        who: String::new(),
        within: typed.taken("Off by at most")?,
    };
    if !check.nothing_moved && check.readings.is_empty() {
        return Err("Type what was measured, or say that nothing moved.".into());
    }
    Ok(Event::MovementChecked(Arc::new(check)))
}

/// The stage that stands at a place in the list.
pub(super) fn stage_at(pick: usize) -> Stage {
    Stage::ALL.get(pick).copied().unwrap_or(Stage::Pieces)
}

/// The air, where it was read.
pub(super) fn climate(typed: Filled) -> Result<Climate, Wrong> {
    Ok(Climate {
        humidity: typed.taken("Humidity of the air")?,
        temperature: typed.taken("Temperature of the air")?,
    })
}

/// The witness stick, where one was weighed.
pub(super) fn witness(typed: Filled) -> Result<Option<Witness>, Wrong> {
    let name = typed.words(STICK.label);
    let mass = match name.is_empty() {
        true => typed.taken(STICK_WEIGHS.label)?,
        false => Some(typed.needed(STICK_WEIGHS.label)?),
    };
    Ok(mass.map(|mass| Witness { mass, name }))
}

fn weighed(typed: Filled) -> Result<Event, Wrong> {
    let witness = witness(typed)?;
    let weighed = Weighed {
        mass: typed.needed("Weight")?,
        scale: typed.words("Scale"),
        step: typed.taken("Step of the scale")?,
        witness,
    };
    Ok(Event::Weighed(Arc::new(weighed)))
}

fn grain_seen(typed: Filled) -> Result<Event, Wrong> {
    let rings = typed.words("Rings on the near end");
    let grain = typed.words("Grain on the marked face");
    let seen = GrainSeen {
        grain_rises: RunoutDirection::ALL
            .into_iter()
            .find(|rise| rise.in_words() == grain),
        grain_slope: typed.taken("Slope of grain")?,
        ring_angle: typed.taken("Ring angle")?,
        rings_lean: RingTilt::ALL
            .into_iter()
            .find(|lean| lean.in_words() == rings),
    };
    if seen == GrainSeen::default() {
        return Err("Tap a picture, or type an angle or a slope.".into());
    }
    Ok(Event::GrainSeen(Box::new(seen)))
}

fn machined(typed: Filled) -> Result<Event, Wrong> {
    let machined = Machined {
        edge: typed.is_on("An edge was made straight"),
        face: typed.is_on("A face was made flat"),
        readings: typed.readings()?,
        reference: typed.words("Marked face and edge"),
    };
    if !machined.edge && !machined.face {
        return Err("Say which: a face, an edge, or both.".into());
    }
    Ok(Event::Machined(Box::new(machined)))
}

fn reserved(typed: Filled) -> Result<Event, Wrong> {
    let label = "Until, the last day";
    let until = typed.words(label);
    let day = date(&until);
    if day.is_none() && !until.is_empty() {
        return Err(Wrong::at(label, format!("“{until}” is not a day.")));
    }
    Ok(Event::Reserved(Reserved {
        name: typed.needed_words("For whom")?,
        until: day,
    }))
}
