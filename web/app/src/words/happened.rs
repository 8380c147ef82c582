//! What happened, in a line of plain words: for histories, for what is to be settled, brought in or deleted.

use super::wood_names;
use super::workshop::with_reasons;
use super::{Spoken, Words, count, fill, show, spoken_name};
use crate::words::show::feet;
use rust_decimal::Decimal;
use stillwood_core::plank::{DefectFound, Field, Reading, Seen, retyped, shown};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::{Decision, Event, EventStatus, Id, Judged, Measured, State};

words! {
    /// What happened.
    EventWords {
        visit: "visit to {yard}",
        pile: "pile of {wood}",
        pile_priced: "pile of {wood} at {price}",
        rejected_one: "1 plank rejected in the sort",
        rejected_other: "{n} planks rejected in the sort",
        marked: "marked {mark}",
        measured: "measured: {what}",
        measured_nothing: "measured: nothing",
        typed_as: "{value} (typed {typed})",
        by_eye: "{value} by eye",
        confirmed: "{value}, kept as typed",
        defect_from_to: "{defect}, from {from} to {to}",
        defect_at: "{defect}, at {at}",
        defect_somewhere: "{defect}, place not noted",
        wood_is: "wood: {wood}",
        bought: "bought",
        held: "held",
        rejected: "rejected",
        with_score: "{said}; score {score}",
        against_proposal: "{said}; against the verdict, which proposed: {proposed}",
        yard_says: "the yard says {what}",
        in_money: "{money} in money",
        note: "note: {text}",
        same_plank: "the same plank as another record",
        other_plank: "another plank than a like record",
        own_wood: "wood of your own: {wood}",
        deleted: "deleted",
        story_chosen: "one of several stories of an entry chosen",
        import_undone: "the import of {name} undone",
        device_called: "device called “{name}”",
        newer: "“{kind}”, from a newer version",
        // Why an entry no longer counts.
        corrected_later: "corrected later",
        deleted_later: "deleted later",
        its_import_undone: "its import was undone",
        outvoted: "another correction counts",
    }
}

/// The signs of the numbers in a text, and whether it is to the right, which what is understood does not say again:
/// where they are the same, a unit or a word that was left out says nothing more.
fn numbers(text: &str) -> String {
    let sign = |sign: char| match sign {
        '−' => Some('-'),
        ',' => Some('.'),
        'r' => Some('R'),
        '0'..='9' | '.' | ':' | '/' | '+' | '-' | 'R' => Some(sign),
        _ => None,
    };
    text.chars().filter_map(sign).collect()
}

impl EventWords {
    /// What happened.
    pub fn event(&self, units: Units, of: &Event) -> String {
        match of {
            Event::VisitOpened(visit) => fill(self.visit, &[("yard", &visit.yard)]),
            Event::PileOpened(pile) => match pile.price {
                Some(price) => fill(
                    self.pile_priced,
                    &[
                        ("wood", &wood_names::shown(&pile.species.text)),
                        ("price", &show::decimal(&price.normalize().to_string())),
                    ],
                ),
                None => fill(
                    self.pile,
                    &[("wood", &wood_names::shown(&pile.species.text))],
                ),
            },
            Event::PassedOver(passed) => {
                let no = u64::from(passed.count);
                let no = count(no, self.rejected_one, self.rejected_other);
                with_reasons(no, &passed.reasons)
            }
            Event::Marked(marked) => fill(self.marked, &[("mark", &marked.mark)]),
            Event::Measured(measured) => self.measurement(units, measured),
            Event::Judged(judged) => self.judgement(judged),
            Event::YardLine(line) => self.yard(line.board_feet, line.cubic_metres, line.money),
            Event::YardTotal(total) => self.yard(total.board_feet, total.cubic_metres, total.money),
            Event::Noted(noted) => fill(self.note, &[("text", &noted.text)]),
            Event::SamePlank(told) if told.same => self.same_plank.to_owned(),
            Event::SamePlank(_) => self.other_plank.to_owned(),
            Event::WoodAdded(wood) => fill(self.own_wood, &[("wood", &wood.common)]),
            Event::Withdrawn(_) => self.deleted.to_owned(),
            Event::ConflictSettled(_) => self.story_chosen.to_owned(),
            Event::ImportUndone(undone) => fill(self.import_undone, &[("name", &undone.name)]),
            Event::DeviceRenamed(renamed) => fill(self.device_called, &[("name", &renamed.name)]),
            Event::Unknown { kind } => fill(self.newer, &[("kind", kind)]),
            workshop => super::workshop::workshop_words(workshop).unwrap_or_default(),
        }
    }

    /// Why an entry no longer counts; `None` where it does.
    pub fn no_longer(&self, standing: EventStatus) -> Option<&'static str> {
        match standing {
            EventStatus::InForce => None,
            EventStatus::Replaced { .. } => Some(self.corrected_later),
            EventStatus::TakenBack { .. } => Some(self.deleted_later),
            EventStatus::Undone { .. } => Some(self.its_import_undone),
            EventStatus::Outvoted { .. } => Some(self.outvoted),
        }
    }

    /// A decision in a word.
    pub fn decision(&self, decision: Decision) -> &'static str {
        match decision {
            Decision::Take => self.bought,
            Decision::SetAside => self.held,
            Decision::Leave => self.rejected,
        }
    }

    /// A defect with its place and note.
    pub fn defect(&self, units: Units, found: &DefectFound) -> String {
        // A place is said once; what was typed only where it says more than the number.
        let place = |taken: &Reading| {
            let understood = shown(Field::BowKink, taken.value, units).spoken();
            let typed = taken.typed.trim();
            let is_number = |sign: char| sign.is_ascii_digit() || ".,".contains(sign);
            match typed.chars().all(is_number) {
                true => understood,
                false => fill(self.typed_as, &[("value", &understood), ("typed", &typed)]),
            }
        };
        let name = spoken_name(found.kind.name());
        let said = match (&found.from, &found.to) {
            (Some(from), Some(to)) => fill(
                self.defect_from_to,
                &[
                    ("defect", &name),
                    ("from", &place(from)),
                    ("to", &place(to)),
                ],
            ),
            (Some(at), None) | (None, Some(at)) => {
                fill(self.defect_at, &[("defect", &name), ("at", &place(at))])
            }
            (None, None) => fill(self.defect_somewhere, &[("defect", &name)]),
        };
        match found.note.as_str() {
            "" => said,
            note => format!("{said} ({note})"),
        }
    }

    /// What a yard said, in its own numbers.
    pub fn yard(
        &self,
        board_feet: Option<Decimal>,
        cubic_metres: Option<Decimal>,
        money: Option<Decimal>,
    ) -> String {
        let parts = [
            board_feet.map(feet),
            cubic_metres.map(|metres| format!("{} m³", show::decimal(&metres.to_string()))),
            money.map(|money| {
                fill(
                    self.in_money,
                    &[("money", &show::decimal(&money.to_string()))],
                )
            }),
        ];
        let parts: Vec<String> = parts.into_iter().flatten().collect();
        fill(self.yard_says, &[("what", &parts.join(", "))])
    }

    /// A reading: what was understood, and what was typed where that is not the same.
    fn reading(&self, units: Units, field: Field, taken: &Reading) -> String {
        let understood = shown(field, taken.value, units);
        let same = [taken.typed.clone(), retyped(field, taken)];
        let said = match same
            .iter()
            .any(|text| numbers(text) == numbers(&understood))
        {
            true => understood.spoken(),
            false => fill(
                self.typed_as,
                &[("value", &understood.spoken()), ("typed", &as_typed(taken))],
            ),
        };
        match (taken.seen, taken.confirmed) {
            (Seen::ByEye, _) => fill(self.by_eye, &[("value", &said)]),
            (Seen::Measured, true) => fill(self.confirmed, &[("value", &said)]),
            (Seen::Measured, false) => said,
        }
    }

    fn measurement(&self, units: Units, measured: &Measured) -> String {
        let readings = measured.readings.iter();
        let mut parts: Vec<String> = readings
            .map(|(field, taken)| {
                format!(
                    "{} {}",
                    field.label().spoken(),
                    self.reading(units, *field, taken)
                )
            })
            .collect();
        let defects = measured.defects.iter();
        parts.extend(defects.map(|found| self.defect(units, found)));
        let wood = measured.species.as_ref();
        parts.extend(
            wood.map(|wood| fill(self.wood_is, &[("wood", &wood_names::shown(&wood.text))])),
        );
        match parts.is_empty() {
            true => self.measured_nothing.to_owned(),
            false => fill(self.measured, &[("what", &parts.join(" · "))]),
        }
    }

    fn judgement(&self, judged: &Judged) -> String {
        let said = self.decision(judged.decision).to_owned();
        let mut said = with_reasons(said, &judged.reasons);
        if let Some(score) = judged.score {
            let score = format!("{score:.0}");
            said = fill(self.with_score, &[("said", &said), ("score", &score)]);
        }
        if let Some(proposed) = judged.proposed.filter(|_| judged.overruled()) {
            let proposed = self.decision(proposed);
            said = fill(
                self.against_proposal,
                &[("said", &said), ("proposed", &proposed)],
            );
        }
        said
    }
}

/// What was typed; a step of the eye by its name.
fn as_typed(taken: &Reading) -> String {
    let typed = taken.typed.trim();
    match taken.seen {
        Seen::ByEye => typed.spoken(),
        Seen::Measured => typed.to_owned(),
    }
}

impl Words {
    /// What an entry is about, in a word or two.
    pub fn about(&self, state: &State, id: Id) -> String {
        let words = &self.share;
        if let Some(piece) = state.piece(id) {
            return fill(words.about_piece, &[("mark", &piece.mark)]);
        }
        if let Some(pile) = state.pile(id) {
            return fill(
                words.about_pile,
                &[("wood", &wood_names::shown(&pile.opened.species.text))],
            );
        }
        match state.visit(id) {
            Some(visit) => fill(words.about_visit, &[("yard", &visit.opened.yard)]),
            None => words.about_missing.to_owned(),
        }
    }
}
