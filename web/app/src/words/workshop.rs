//! What happened in the workshop, in a line, with the values as they were typed. A kind of event without its words
//! does not compile.

use super::{Language, Spoken, count, dates, fill, spoken_language, spoken_name, words_of};
use super::{show, wood_names};
use stillwood_core::plank::{Reading, Reason};
use stillwood_core::record::{
    Climate, Event, Glued, GrainSeen, MovementChecked, StressTest, Witness,
};

words! {
    /// What happened in the workshop.
    WorkshopWords {
        confirmed: "{value}, kept as typed",
        to_the_left: "{value} to the left",
        to_the_right: "{value} to the right",
        humidity: "{value} humidity",
        air: "; air {air}",
        cut: "cut to {marks}",
        cut_to_many: "cut to {n} pieces, {first} to {last}",
        sprang: "; sprang by {gap}",
        face_and_edge: "face and edge machined flat",
        edge: "edge machined straight",
        flat: "machined flat",
        reference: ", marked {text}",
        ripped: "an offcut ripped in two",
        fork: "fork test",
        placed: "put on {place}",
        rests: "set to rest",
        rests_on: " on {text}",
        weighed: "weighed {mass}",
        stick_beside: "; {stick} beside it {mass}",
        moisture: "moisture {value}",
        rings: "rings {value}",
        grain: "grain {value}",
        looked_at: "looked at",
        nothing_moved: "nothing moved",
        checked: "checked: {gaps}",
        by_whom: ", by {text}",
        stick_weighs: "{stick} weighs {mass}",
        glued: "glued from {n} as {mark}",
        adhesive: " with {text}",
        mix: ", mix {text}",
        batch: ", batch {text}",
        water: "; the glue brings water",
        no_water: "; the glue brings no water",
        clamped: "; clamped {time}",
        discarded: "discarded",
        downgraded: "downgraded",
        downgraded_to: ": {text}",
        missing: "missing",
        reserved: "reserved for {name}",
        until: " until {day}",
        released: "released",
        used: "used",
        target: "blanks needed: {n}{wood}{by}, {sure} % sure",
        target_wood: " of {text}",
        target_by: " by {day}",
        gluing_limits: "limits for gluing",
        rest_times: "rest times of {stage}: {months}",
        months_one: "{n} month",
        months_other: "{n} months",
    }
}

/// Reasons in a line, the main one first.
pub fn reasons(of: &[Reason]) -> String {
    let names: Vec<&str> = of.iter().map(|reason| spoken_name(reason.name())).collect();
    names.join(", ")
}

/// What was done, and why.
pub(super) fn with_reasons(said: String, why: &[Reason]) -> String {
    match why.is_empty() {
        true => said,
        false => format!("{said}: {}", reasons(why)),
    }
}

/// What happened in the workshop, in the language that is spoken; none for what happens elsewhere.
pub fn workshop_words(event: &Event) -> Option<String> {
    words_of(spoken_language()).workshop.event(event)
}

/// A part that is there where its text is.
fn with(part: &str, text: &str) -> String {
    match text.trim() {
        "" => String::new(),
        text => fill(part, &[("text", &text)]),
    }
}

fn day(part: &str, day: Option<chrono::NaiveDate>) -> String {
    let words = words_of(spoken_language());
    day.map_or_else(String::new, |day| {
        fill(part, &[("day", &dates::with_year(words, day))])
    })
}

fn joined(parts: impl IntoIterator<Item = Option<String>>, between: &str) -> String {
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    parts.join(between)
}

impl WorkshopWords {
    /// The digits that were typed, with the unit that was taken for granted.
    pub fn typed(&self, taken: &Reading) -> String {
        let unit = match taken.unit.as_str() {
            "degC" => "°C",
            "degF" => "°F",
            "deg" => "°",
            other => other,
        };
        let typed = taken.typed.trim();
        // A twist is typed with the hand that it turns to.
        let (typed, hand) = match typed.strip_suffix(" L") {
            Some(typed) => (typed, Some(self.to_the_left)),
            None => match typed.strip_suffix(" R") {
                Some(typed) => (typed, Some(self.to_the_right)),
                None => (typed, None),
            },
        };
        let value = match typed.ends_with(|sign: char| sign.is_ascii_digit()) {
            true => format!("{} {unit}", show::decimal(typed)),
            false => typed.to_owned(),
        };
        let value = hand.map_or(value.clone(), |hand| fill(hand, &[("value", &value)]));
        match taken.confirmed {
            true => fill(self.confirmed, &[("value", &value)]),
            false => value,
        }
    }

    /// A part that is there where its reading is.
    fn read(&self, part: &str, name: &str, taken: Option<&Reading>) -> String {
        taken.map_or_else(String::new, |taken| {
            fill(part, &[(name, &self.typed(taken))])
        })
    }

    fn air(&self, climate: &Climate) -> String {
        let humidity = climate.humidity.as_ref();
        let parts = [
            humidity.map(|humidity| fill(self.humidity, &[("value", &self.typed(humidity))])),
            climate.temperature.as_ref().map(|taken| self.typed(taken)),
        ];
        joined(parts, ", ")
    }

    fn with_air(&self, climate: &Climate) -> String {
        match self.air(climate) {
            air if air.is_empty() => air,
            air => fill(self.air, &[("air", &air)]),
        }
    }

    fn stick(&self, part: &str, stick: &Witness) -> String {
        let mass = self.typed(&stick.mass);
        fill(part, &[("stick", &stick.name), ("mass", &mass)])
    }

    fn checked(&self, check: &MovementChecked) -> String {
        let nothing = check.nothing_moved.then(|| self.nothing_moved.to_owned());
        let gaps = check.readings.iter().map(|(field, taken)| {
            let name = field.label().spoken();
            // A noun keeps its capital where nouns have one.
            let name = match spoken_language() {
                Language::English => name.to_lowercase(),
                Language::German => name,
            };
            Some(format!("{name} {}", self.typed(taken)))
        });
        let gaps = joined(std::iter::once(nothing).chain(gaps), ", ");
        fill(self.checked, &[("gaps", &gaps)]) + &with(self.by_whom, &check.who)
    }

    fn grain_seen(&self, seen: &GrainSeen) -> String {
        let beside = |side: Option<&'static str>, part: &str, taken: Option<&Reading>| {
            let typed = taken.map(|taken| self.typed(taken));
            match (side.map(|side| side.spoken()), typed) {
                (Some(side), Some(typed)) => Some(format!("{side}, {typed}")),
                (None, Some(typed)) => Some(fill(part, &[("value", &typed)])),
                (side, None) => side,
            }
        };
        let rings = seen.rings_lean.map(|tilt| tilt.in_words());
        let grain = seen.grain_rises.map(|way| way.in_words());
        let parts = [
            beside(rings, self.rings, seen.ring_angle.as_ref()),
            beside(grain, self.grain, seen.grain_slope.as_ref()),
        ];
        match joined(parts, "; ") {
            said if said.is_empty() => self.looked_at.to_owned(),
            said => said,
        }
    }

    fn glued(&self, glued: &Glued) -> String {
        let adhesive = &glued.adhesive;
        let water = match adhesive.brings_water {
            Some(true) => self.water,
            Some(false) => self.no_water,
            None => "",
        };
        let parts: &[(&str, &dyn std::fmt::Display)] =
            &[("n", &glued.members.len()), ("mark", &glued.mark)];
        [
            &fill(self.glued, parts),
            &with(self.adhesive, &adhesive.name),
            &with(self.mix, &adhesive.mix),
            &with(self.batch, &adhesive.batch),
            water,
            &self.read(self.clamped, "time", glued.clamp_time.as_ref()),
            &self.with_air(&glued.climate),
        ]
        .concat()
    }

    /// What happened in the workshop; none for what happens elsewhere.
    fn event(&self, event: &Event) -> Option<String> {
        Some(match event {
            Event::Cut(cut) => {
                let marks: Vec<&str> = cut.children.iter().map(|c| c.mark.as_str()).collect();
                let sprang = cut.tension.as_ref().map(|tension| &tension.gap);
                let cut = match marks.as_slice() {
                    [first, _, _, .., last] => fill(
                        self.cut_to_many,
                        &[("n", &marks.len()), ("first", first), ("last", last)],
                    ),
                    few => fill(self.cut, &[("marks", &few.join(", "))]),
                };
                cut + &self.read(self.sprang, "gap", sprang)
            }
            Event::Machined(machined) => {
                let what = match (machined.face, machined.edge) {
                    (true, true) => self.face_and_edge,
                    (false, true) => self.edge,
                    _ => self.flat,
                };
                what.to_owned() + &with(self.reference, &machined.reference)
            }
            Event::StressTested(tested) => {
                let test = match tested.test {
                    StressTest::Ripped => self.ripped,
                    StressTest::Fork => self.fork,
                };
                format!("{test}: {}", self.typed(&tested.gap))
            }
            Event::Placed(placed) => fill(self.placed, &[("place", &placed.place)]),
            Event::SetToRest(rest) => {
                let on = with(self.rests_on, &rest.place);
                [self.rests, &on, &self.with_air(&rest.climate)].concat()
            }
            Event::Weighed(weighed) => {
                let stick = weighed.witness.as_ref();
                let stick = stick.map(|stick| self.stick(self.stick_beside, stick));
                self.read(self.weighed, "mass", Some(&weighed.mass)) + &stick.unwrap_or_default()
            }
            Event::MoistureRead(read) => self.read(self.moisture, "value", Some(&read.shown)),
            Event::GrainSeen(seen) => self.grain_seen(seen),
            Event::MovementChecked(check) => self.checked(check),
            Event::RoomRead(read) => {
                let stick = read.witness.as_ref();
                let parts = [
                    Some(self.air(&read.climate)).filter(|air| !air.is_empty()),
                    stick.map(|stick| self.stick(self.stick_weighs, stick)),
                ];
                format!("{}: {}", read.room, joined(parts, "; "))
            }
            Event::Glued(glued) => self.glued(glued),
            Event::Discarded(gone) => with_reasons(self.discarded.to_owned(), &gone.reasons),
            Event::Downgraded(down) => {
                let said = self.downgraded.to_owned() + &with(self.downgraded_to, &down.to);
                with_reasons(said, &down.reasons)
            }
            Event::Missing(_) => self.missing.to_owned(),
            Event::Reserved(kept) => {
                fill(self.reserved, &[("name", &kept.name)]) + &day(self.until, kept.until)
            }
            Event::Released(_) => self.released.to_owned(),
            Event::Used(used) => self.used.to_owned() + &with(": {text}", &used.became),
            Event::TargetSet(target) => {
                let wood = target
                    .wood
                    .as_ref()
                    .map_or(String::new(), |wood| wood_names::shown(&wood.text));
                fill(
                    self.target,
                    &[
                        ("n", &target.blanks),
                        ("wood", &with(self.target_wood, &wood)),
                        ("by", &day(self.target_by, target.by)),
                        ("sure", &target.sure_percent),
                    ],
                )
            }
            Event::GluingSet(_) => self.gluing_limits.to_owned(),
            Event::StageSet(set) => {
                let months = count(set.terms.months, self.months_one, self.months_other);
                let stage = set.stage.name().spoken();
                fill(self.rest_times, &[("stage", &stage), ("months", &months)])
            }
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
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::speaking;
    use stillwood_core::record::Weighed;

    #[test]
    fn what_was_kept_though_it_was_asked_about_says_so() {
        let mut mass = Reading::of_number(20.5, "kg");
        mass.confirmed = true;
        let weighed = Event::Weighed(std::sync::Arc::new(Weighed {
            mass,
            scale: String::new(),
            step: None,
            witness: None,
        }));
        let said = |language| speaking(language, || workshop_words(&weighed)).unwrap_or_default();
        assert_eq!(said(Language::English), "weighed 20.5 kg, kept as typed");
        assert!(said(Language::German).ends_with("so übernommen"));
    }
}
