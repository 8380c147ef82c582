//! What happened in the workshop, in a line of plain words, with the values as they were typed.
//!
//! For a history on the screen; it works nothing out.

use crate::plank::{Reading, Reason, RingTilt, RunoutDirection};
use crate::record::log::Event;
use crate::record::log::{Climate, Cut, Glued, GrainSeen, Machined, MovementChecked, StressTest};
use chrono::NaiveDate;

fn typed(taken: &Reading) -> String {
    let really = if taken.confirmed {
        ", “yes, really”"
    } else {
        ""
    };
    format!("“{}” ({}){really}", taken.typed.trim(), taken.unit)
}

fn why(reasons: &[Reason]) -> String {
    let names: Vec<&str> = reasons.iter().map(|reason| reason.name()).collect();
    if names.is_empty() {
        String::new()
    } else {
        format!(": {}", names.join(", "))
    }
}

fn with(before: &str, text: &str) -> String {
    if text.trim().is_empty() {
        String::new()
    } else {
        format!("{before}{}", text.trim())
    }
}

fn air(climate: &Climate) -> String {
    let parts = [
        climate
            .humidity
            .as_ref()
            .map(|h| format!("{} humidity", typed(h))),
        climate.temperature.as_ref().map(typed),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    parts.join(", ")
}

fn cut(cut: &Cut) -> String {
    let marks: Vec<&str> = cut
        .children
        .iter()
        .map(|child| child.mark.as_str())
        .collect();
    let sprang = cut.tension.as_ref();
    let sprang = sprang.map_or_else(String::new, |t| format!("; sprang by {}", typed(&t.gap)));
    format!("cut to {}{sprang}", marks.join(", "))
}

fn machined(machined: &Machined) -> String {
    let what = match (machined.face, machined.edge) {
        (true, true) => "face and edge machined flat",
        (false, true) => "edge machined straight",
        _ => "machined flat",
    };
    format!("{what}{}", with(", marked ", &machined.reference))
}

/// A day as a maker writes it.
fn written(day: NaiveDate) -> String {
    day.format("%-d %b %Y").to_string()
}

fn checked(check: &MovementChecked) -> String {
    let readings = check.readings.iter();
    let mut parts: Vec<String> = readings
        .map(|(field, taken)| format!("{} {}", field.label().to_lowercase(), typed(taken)))
        .collect();
    if check.nothing_moved {
        parts.insert(0, "nothing moved".to_owned());
    }
    format!("checked: {}{}", parts.join(", "), with(", by ", &check.who))
}

fn grain_seen(seen: &GrainSeen) -> String {
    let beside = |words: Option<&'static str>, name: &str, taken: Option<&Reading>| match (
        words,
        taken.map(typed),
    ) {
        (Some(words), Some(typed)) => Some(format!("{words}, {typed}")),
        (Some(words), None) => Some(words.to_owned()),
        (None, Some(typed)) => Some(format!("{name} {typed}")),
        (None, None) => None,
    };
    let rings = seen.rings_lean.map(RingTilt::in_words);
    let grain = seen.grain_rises.map(RunoutDirection::in_words);
    let parts = [
        beside(rings, "rings", seen.ring_angle.as_ref()),
        beside(grain, "grain", seen.grain_slope.as_ref()),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    if parts.is_empty() {
        "looked at".to_owned()
    } else {
        parts.join("; ")
    }
}

fn glued(glued: &Glued) -> String {
    let adhesive = &glued.adhesive;
    let water = match adhesive.brings_water {
        Some(true) => "; the glue brings water",
        Some(false) => "; the glue brings no water",
        None => "",
    };
    let clamped = glued.clamp_time.as_ref();
    let clamped = clamped.map_or_else(String::new, |time| format!("; clamped {}", typed(time)));
    format!(
        "glued from {} as {}{}{}{}{water}{clamped}{}",
        glued.members.len(),
        glued.mark,
        with(" with ", &adhesive.name),
        with(", mix ", &adhesive.mix),
        with(", batch ", &adhesive.batch),
        with("; air ", &air(&glued.climate))
    )
}

impl Event {
    /// What happened in the workshop, in plain words; `None` for what happens elsewhere.
    pub fn workshop_words(&self) -> Option<String> {
        Some(match self {
            Event::Cut(body) => cut(body),
            Event::Machined(body) => machined(body),
            Event::StressTested(tested) => {
                let test = match tested.test {
                    StressTest::Ripped => "an offcut ripped in two",
                    StressTest::Fork => "fork test",
                };
                format!("{test}: {}", typed(&tested.gap))
            }
            Event::Placed(placed) => format!("put on {}", placed.place),
            Event::SetToRest(rest) => {
                let air = with("; air ", &air(&rest.climate));
                format!("set to rest{}{air}", with(" on ", &rest.place))
            }
            Event::Weighed(weighed) => {
                let beside = weighed.witness.as_ref();
                let beside = beside.map_or_else(String::new, |witness| {
                    format!("; {} beside it {}", witness.name, typed(&witness.mass))
                });
                format!("weighed {}{beside}", typed(&weighed.mass))
            }
            Event::MoistureRead(read) => format!("moisture {}", typed(&read.shown)),
            Event::GrainSeen(seen) => grain_seen(seen),
            Event::MovementChecked(body) => checked(body),
            Event::RoomRead(read) => {
                let stick = read.witness.as_ref();
                let stick =
                    stick.map(|stick| format!("{} weighs {}", stick.name, typed(&stick.mass)));
                let parts = [
                    Some(air(&read.climate)).filter(|air| !air.is_empty()),
                    stick,
                ];
                let parts: Vec<String> = parts.into_iter().flatten().collect();
                format!("{}: {}", read.room, parts.join("; "))
            }
            Event::Glued(body) => glued(body),
            Event::Discarded(gone) => format!("discarded{}", why(&gone.reasons)),
            Event::Downgraded(down) => {
                format!("downgraded{}{}", with(": ", &down.to), why(&down.reasons))
            }
            Event::Missing(_) => "missing".to_owned(),
            Event::Reserved(kept) => {
                let until = kept
                    .until
                    .map_or_else(String::new, |day| format!(" until {}", written(day)));
                format!("reserved for {}{until}", kept.name)
            }
            Event::Released(_) => "released".to_owned(),
            Event::Used(used) => format!("used{}", with(": ", &used.became)),
            Event::TargetSet(wish) => {
                let by = wish
                    .by
                    .map_or_else(String::new, |by| format!(" by {}", written(by)));
                let wood = wish.wood.as_ref().map_or("", |wood| &wood.text);
                let (blanks, sure) = (wish.blanks, wish.sure_percent);
                format!(
                    "blanks needed: {blanks}{}{by}, {sure} % sure",
                    with(" of ", wood)
                )
            }
            Event::GluingSet(_) => "limits for gluing".to_owned(),
            Event::StageSet(set) => {
                format!(
                    "rest times of {}: {} months",
                    set.stage.name(),
                    set.terms.months
                )
            }
            _ => return None,
        })
    }

    /// The marks that it puts on wood.
    pub fn marks(&self) -> Vec<&str> {
        match self {
            Event::Marked(marked) => vec![&marked.mark],
            Event::Cut(cut) => cut.children.iter().map(|c| c.mark.as_str()).collect(),
            Event::Glued(glued) => vec![&glued.mark],
            _ => Vec::new(),
        }
    }
}
