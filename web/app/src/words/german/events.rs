//! German: what happened in the workshop, in a line, with the values as they were typed. A kind of event without its
//! German does not compile.

use crate::words::Language;
use crate::words::spoken::{Spoken, in_language};
use stillwood_core::plank::{Reading, Reason};
use stillwood_core::record::{
    Climate, Cut, Event, Glued, GrainSeen, Machined, MovementChecked, StressTest,
};

fn german(english: &str) -> String {
    in_language(Language::German, english)
}

fn typed(taken: &Reading) -> String {
    let kept = if taken.confirmed {
        ", behalten wie eingetippt"
    } else {
        ""
    };
    format!("„{}“ ({}){kept}", taken.typed.trim(), unit(&taken.unit))
}

fn unit(stored: &str) -> &str {
    match stored {
        "degC" => "°C",
        "degF" => "°F",
        "deg" => "°",
        other => other,
    }
}

fn why(reasons: &[Reason]) -> String {
    let names: Vec<String> = reasons.iter().map(|reason| german(reason.name())).collect();
    match names.is_empty() {
        true => String::new(),
        false => format!(": {}", names.join(", ")),
    }
}

fn with(before: &str, text: &str) -> String {
    match text.trim() {
        "" => String::new(),
        text => format!("{before}{text}"),
    }
}

fn air(climate: &Climate) -> String {
    let humidity = climate.humidity.as_ref();
    let parts = [
        humidity.map(|humidity| format!("{} Luftfeuchte", typed(humidity))),
        climate.temperature.as_ref().map(typed),
    ];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

fn cut(cut: &Cut) -> String {
    let marks: Vec<&str> = cut
        .children
        .iter()
        .map(|child| child.mark.as_str())
        .collect();
    let sprang = cut.tension.as_ref();
    let sprang = sprang.map_or_else(String::new, |t| {
        format!("; gesprungen um {}", typed(&t.gap))
    });
    format!("zugeschnitten zu {}{sprang}", marks.join(", "))
}

fn machined(machined: &Machined) -> String {
    let what = match (machined.face, machined.edge) {
        (true, true) => "Breitseite abgerichtet und Kante gefügt",
        (false, true) => "Kante gefügt",
        _ => "abgerichtet",
    };
    format!("{what}{}", with(", gezeichnet ", &machined.reference))
}

fn checked(check: &MovementChecked) -> String {
    let readings = check.readings.iter();
    let mut parts: Vec<String> = readings
        .map(|(field, taken)| format!("{} {}", german(field.label()), typed(taken)))
        .collect();
    if check.nothing_moved {
        parts.insert(0, "nichts hat sich bewegt".to_owned());
    }
    format!(
        "geprüft: {}{}",
        parts.join(", "),
        with(", von ", &check.who)
    )
}

fn grain_seen(seen: &GrainSeen) -> String {
    let beside = |words: Option<&str>, name: &str, taken: Option<&Reading>| match (
        words.map(german),
        taken.map(typed),
    ) {
        (Some(words), Some(typed)) => Some(format!("{words}, {typed}")),
        (Some(words), None) => Some(words),
        (None, Some(typed)) => Some(format!("{name} {typed}")),
        (None, None) => None,
    };
    let rings = seen.rings_lean.map(|tilt| tilt.in_words());
    let grain = seen.grain_rises.map(|way| way.in_words());
    let parts = [
        beside(rings, "Jahrringe", seen.ring_angle.as_ref()),
        beside(grain, "Faser", seen.grain_slope.as_ref()),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    match parts.is_empty() {
        true => "angesehen".to_owned(),
        false => parts.join("; "),
    }
}

fn glued(glued: &Glued) -> String {
    let adhesive = &glued.adhesive;
    let water = match adhesive.brings_water {
        Some(true) => "; der Leim bringt Wasser",
        Some(false) => "; der Leim bringt kein Wasser",
        None => "",
    };
    let clamped = glued.clamp_time.as_ref();
    let clamped = clamped.map_or_else(String::new, |time| format!("; gezwingt {}", typed(time)));
    format!(
        "aus {} verleimt zu {}{}{}{}{water}{clamped}{}",
        glued.members.len(),
        glued.mark,
        with(" mit ", &adhesive.name),
        with(", Mischung ", &adhesive.mix),
        with(", Charge ", &adhesive.batch),
        with("; Luft ", &air(&glued.climate))
    )
}

/// What happened in the workshop; none for what happens elsewhere.
pub fn workshop(event: &Event) -> Option<String> {
    Some(match event {
        Event::Cut(body) => cut(body),
        Event::Machined(body) => machined(body),
        Event::StressTested(tested) => {
            let test = match tested.test {
                StressTest::Ripped => "ein Reststück in zwei Hälften aufgetrennt",
                StressTest::Fork => "Gabelprobe",
            };
            format!("{test}: {}", typed(&tested.gap))
        }
        Event::Placed(placed) => format!("eingelegt: {}", placed.place),
        Event::SetToRest(rest) => {
            let air = with("; Luft ", &air(&rest.climate));
            format!("zur Ruhe gelegt{}{air}", with(": ", &rest.place))
        }
        Event::Weighed(weighed) => {
            let beside = weighed.witness.as_ref();
            let beside = beside.map_or_else(String::new, |witness| {
                format!("; {} daneben {}", witness.name, typed(&witness.mass))
            });
            format!("gewogen {}{beside}", typed(&weighed.mass))
        }
        Event::MoistureRead(read) => format!("Holzfeuchte {}", typed(&read.shown)),
        Event::GrainSeen(seen) => grain_seen(seen),
        Event::MovementChecked(body) => checked(body),
        Event::RoomRead(read) => {
            let stick = read.witness.as_ref();
            let stick = stick.map(|stick| format!("{} wiegt {}", stick.name, typed(&stick.mass)));
            let parts = [
                Some(air(&read.climate)).filter(|air| !air.is_empty()),
                stick,
            ];
            let parts: Vec<String> = parts.into_iter().flatten().collect();
            format!("{}: {}", read.room, parts.join("; "))
        }
        Event::Glued(body) => glued(body),
        Event::Discarded(gone) => format!("ausgesondert{}", why(&gone.reasons)),
        Event::Downgraded(down) => {
            format!("abgestuft{}{}", with(" zu ", &down.to), why(&down.reasons))
        }
        Event::Missing(_) => "vermisst".to_owned(),
        Event::Reserved(kept) => {
            let until = kept
                .until
                .map_or_else(String::new, |day| format!(" bis {day}"));
            format!("reserviert für {}{until}", kept.name)
        }
        Event::Released(_) => "wieder frei".to_owned(),
        Event::Used(used) => format!("verwendet{}", with(": ", &used.became)),
        Event::TargetSet(target) => {
            let by = target
                .by
                .map_or_else(String::new, |by| format!(" bis {by}"));
            let wood = target.wood.as_ref().map_or("", |wood| &wood.text);
            format!(
                "Ziel: {} Rohlinge{}{by}, zu {} % sicher",
                target.blanks,
                with(" aus ", wood),
                target.sure_percent
            )
        }
        Event::GluingSet(_) => "Grenzen fürs Verleimen".to_owned(),
        Event::StageSet(set) => format!(
            "Ruhezeit der {}: {}",
            german(set.stage.name()),
            format!("{} months", set.terms.months).spoken()
        ),
        Event::VisitOpened(_)
        | Event::PileOpened(_)
        | Event::PassedOver(_)
        | Event::Marked(_)
        | Event::Measured(_)
        | Event::Judged(_)
        | Event::YardLine(_)
        | Event::YardTotal(_)
        | Event::Noted(_)
        | Event::SamePlank(_)
        | Event::WoodAdded(_)
        | Event::Withdrawn(_)
        | Event::ConflictSettled(_)
        | Event::ImportUndone(_)
        | Event::DeviceRenamed(_)
        | Event::Unknown { .. } => return None,
    })
}
