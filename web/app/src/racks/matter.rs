//! What is the matter with a piece, in a line, and what to do about it.

use super::stock::scale;
use crate::model::Model;
use crate::parts::{Judged, capital};
use crate::words::{Spoken, count, dates, fill, show, spoken_name};
use chrono::NaiveDate;
use stillwood_core::quantity::{in_mm, mm};
use stillwood_core::record::DryDay;
use stillwood_core::record::queries::{self, RestSign, Starts};
use stillwood_core::record::{Checked, End, Life, Piece, Waits};
use stillwood_core::season::{
    Change, DateKey, FEELER_MM, InRoom, MeasureKey, Movement, Readiness, is_look_old,
};

/// What is the matter.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Matter {
    /// How it stands; none where it rests and nothing was looked at yet.
    pub judged: Option<Judged>,
    /// In a line.
    pub said: String,
    /// What to do about it, or since when; may be empty.
    pub below: String,
}

/// `crook 3.4 mm, limit 2 mm`.
pub fn change_in_words(model: &Model, change: &Change) -> Option<String> {
    let words = &model.words().racks;
    let gap = |length| show::gap(in_mm(length), model.units());
    let by = match change.at_most {
        Some(at_most) if change.side_is_open() => fill(
            model.words().racks.from_to,
            &[("low", &gap(change.by?)), ("high", &gap(at_most))],
        ),
        _ => gap(change.by?),
    };
    let name = spoken_name(change.warp.name());
    Some(match change.limit {
        Some(limit) => fill(
            words.change_of,
            &[
                ("warp", &name),
                ("by", &by),
                ("limit", &show::gap(limit.reject_mm, model.units())),
            ],
        ),
        None => format!("{name} {by}"),
    })
}

/// The worst change of the last check that shows one.
fn worst(checks: &[Checked]) -> Option<&Change> {
    let last = checks.iter().rev().find(|check| {
        matches!(
            check.movement,
            Movement::Beyond | Movement::TooClose | Movement::Watch
        )
    })?;
    last.changes
        .as_ref()
        .ok()?
        .iter()
        .max_by_key(|change| change.movement)
}

/// What is the matter with a piece.
pub fn matter(model: &Model, piece: &Piece, waits: Option<&Waits>) -> Matter {
    match waits {
        Some(Waits::Rest(_, Ok(ready))) => at_rest(model, piece, ready),
        Some(Waits::Room(Ok(room))) => in_room(model, piece, room),
        Some(Waits::Rest(_, Err(why)) | Waits::Room(Err(why))) => Matter {
            judged: Some(Judged::Unknown),
            said: why.spoken(),
            below: String::new(),
        },
        None => elsewhere(model, piece),
    }
}

fn at_rest(model: &Model, piece: &Piece, ready: &Readiness) -> Matter {
    let words = &model.words().racks;
    let day = |day: NaiveDate| dates::day(model.words(), day, model.now.date());
    let (checks, starts) = queries::moved_from(model.state(), piece, mm(FEELER_MM));
    let last = checks.last().map(|check| check.movement);
    let since = piece.work.rest().map(|rest| rest.on);
    let last = last.filter(|_| checks.last().map(|check| check.on) >= since);
    let waits = Waits::Rest(queries::stage_of(piece), Ok(*ready));
    let looked = piece.work.checks.last().map(|check| check.on);
    let is_old = looked.is_some_and(|looked| is_look_old(looked, model.now.date()));
    let sign = RestSign::of(&waits, last, is_old);
    let is_near = matches!(last, Some(Movement::Watch | Movement::TooClose));
    let looked = looked.map(day).unwrap_or_default();
    let over = ready.date == DateKey::RestOver;
    let until = match ready.date {
        DateKey::RestOver => fill(words.rest_over_since, &[("day", &day(ready.due))]),
        _ => fill(words.rests_until, &[("day", &day(ready.due))]),
    };
    let worst = worst(&checks);
    let change = worst.and_then(|change| change_in_words(model, change));
    let change = change.unwrap_or_default();
    let look_again = match worst.is_some_and(Change::side_is_open) {
        true => words.note_the_side.to_owned(),
        false => words.look_again.to_owned(),
    };
    let (said, below) = match (sign, ready.measure) {
        (RestSign::Moved, _) => (
            fill(words.moved_by, &[("change", &change)]),
            words.flatten_todo.to_owned(),
        ),
        (RestSign::Watch, MeasureKey::Still) if is_old && (over || !is_near) => (
            capital(&fill(
                words.not_looked_since,
                &[("month", &month_of_last(model, piece))],
            )),
            words.look_again.to_owned(),
        ),
        (_, MeasureKey::Still) if over => (
            words.ready.to_owned(),
            fill(words.still_and_dry, &[("day", &looked)]),
        ),
        (_, MeasureKey::Still) => (fill(words.still_early, &[("day", &looked)]), until.clone()),
        (_, MeasureKey::TooClose) => (fill(words.close, &[("change", &change)]), look_again),
        (RestSign::Watch, MeasureKey::NotChecked) => (
            fill(words.near_limit, &[("change", &change)]),
            words.look_again.to_owned(),
        ),
        (_, MeasureKey::WeightChanging) => (words.weight_changing.to_owned(), dries(model, piece)),
        (_, MeasureKey::WeightNotKnown) if over => {
            (words.weight_not_known.to_owned(), weigh_it(model, piece))
        }
        (_, MeasureKey::NotChecked) if over => (
            capital(&looks_wanted(model, ready)),
            how_to_look(model, piece, ready, &starts),
        ),
        _ => (until.clone(), ready.measure_words(model)),
    };
    let below = match over && said != until {
        true if below.is_empty() => until,
        true => format!("{below} · {until}"),
        false => below,
    };
    Matter {
        judged: match sign {
            RestSign::NotKnown if !over => None,
            sign => Some(super::stock::judged(sign)),
        },
        said,
        below,
    }
}

/// The month in which a piece was looked at last.
fn month_of_last(model: &Model, piece: &Piece) -> String {
    let last = piece.work.checks.last();
    last.map_or_else(String::new, |last| {
        dates::month_of_year(model.words(), last.on)
    })
}

/// What the measurements say of a rest that is not over.
trait MeasureWords {
    fn measure_words(&self, model: &Model) -> String;
}

impl MeasureWords for Readiness {
    fn measure_words(&self, model: &Model) -> String {
        let words = &model.words().racks;
        match self.measure {
            MeasureKey::NotChecked => looks_wanted(model, self),
            MeasureKey::WeightNotKnown => words.shape_kept.to_owned(),
            _ => String::new(),
        }
    }
}

/// How many looks are wanted until it is told how it stands.
fn looks_wanted(model: &Model, ready: &Readiness) -> String {
    let words = &model.words().racks;
    count(
        ready.looks_wanted as u64,
        words.looks_wanted_one,
        words.looks_wanted_other,
    )
}

/// What these looks are: the first measures it where it is not known what it moves from.
fn how_to_look(model: &Model, piece: &Piece, ready: &Readiness, starts: &Starts) -> String {
    let words = &model.words().racks;
    let said = match ready.looks_wanted {
        _ if !queries::has_start(model.state(), piece, starts) => words.measure_then_look,
        1 => words.look_once_more,
        _ => words.look_weeks_apart,
    };
    said.to_owned()
}

/// How it dries, and about when it is near its air; where that day has passed, that it wants weighing.
pub fn dries(model: &Model, piece: &Piece) -> String {
    let words = &model.words().racks;
    let Some(Ok(report)) = queries::drying_report(model.state(), piece, scale(model)) else {
        return String::new();
    };
    let word = report.drying.words().spoken();
    let today = model.now.date();
    match queries::dry_day(piece, &report) {
        Some(DryDay::About(day)) if day < today => fill(words.near_by_now, &[("word", &word)]),
        Some(DryDay::About(day)) => {
            let day = dates::day(model.words(), day, today);
            fill(words.near_about, &[("word", &word), ("day", &day)])
        }
        Some(DryDay::Since(_)) | None => word,
    }
}

/// Why its weight tells nothing yet, and what to do.
fn weigh_it(model: &Model, piece: &Piece) -> String {
    let words = &model.words().racks;
    match queries::drying_report(model.state(), piece, scale(model)) {
        Some(Ok(report)) => fill(
            words.weigh_because,
            &[("why", &report.drying.words().spoken())],
        ),
        Some(Err(why)) => fill(words.weigh_because, &[("why", &why.spoken())]),
        None if queries::weighed_in_room(model.state(), piece).is_empty() => {
            words.weigh_first.to_owned()
        }
        None => words.air_not_known.to_owned(),
    }
}

fn in_room(model: &Model, piece: &Piece, room: &InRoom) -> Matter {
    let words = &model.words().racks;
    let day = dates::day(model.words(), room.from, model.now.date());
    let over = room.date == DateKey::RestOver;
    let (judged, said) = match (over, room.weight_at_rest) {
        (true, Some(true)) => (Some(Judged::Good), words.may_be_cut.to_owned()),
        (true, Some(false)) => (Some(Judged::Doubt), words.weeks_over_changing.to_owned()),
        (true, None) => (Some(Judged::Unknown), words.weeks_over_not_known.to_owned()),
        (false, _) => (None, fill(words.cut_from, &[("day", &day)])),
    };
    let below = match (over, room.weight_at_rest) {
        (true, Some(true)) => fill(words.since, &[("day", &day)]),
        (true, None) => weigh_it(model, piece),
        (_, Some(false)) => dries(model, piece),
        _ => words.gets_used.to_owned(),
    };
    Matter {
        judged,
        said,
        below,
    }
}

/// Wood that waits for no day.
fn elsewhere(model: &Model, piece: &Piece) -> Matter {
    let words = &model.words().racks;
    let today = model.now.date();
    let (life, since) = piece.life_on(today);
    let on = dates::day(model.words(), since, today);
    let mut below = fill(words.since, &[("day", &on)]);
    let there = !matches!(life, Life::Missing | Life::Unresolved) && piece.is_at_hand();
    if let Some(down) = piece.work.downgraded.as_ref().filter(|_| there) {
        let on = dates::day(model.words(), down.on, today);
        return Matter {
            judged: None,
            said: fill(words.downgraded_to, &[("use", &down.payload.to)]),
            below: fill(words.since, &[("day", &on)]),
        };
    }
    let said = match life {
        Life::Bought => {
            let weeks = u64::from(queries::weeks_before_cut(model.state()));
            below = count(
                weeks,
                words.weeks_once_racked_one,
                words.weeks_once_racked_other,
            );
            words.not_on_a_rack
        }
        Life::InShop => words.not_set_to_rest,
        Life::Missing => words.missing,
        Life::Cut => words.was_cut,
        Life::GluedInto(_) => words.was_glued,
        Life::Used => words.was_used,
        Life::AtYard => words.at_the_yard,
        Life::Left => words.was_rejected,
        Life::Reserved => words.reserved,
        Life::Unresolved => words.unresolved,
        Life::Resting(_) => words.not_set_to_rest,
        Life::Discarded => {
            if let Some(End::Discarded(why, _)) = piece.work.end.as_ref().map(|end| &end.payload) {
                let reasons: Vec<String> =
                    why.reasons.iter().map(|one| one.name().spoken()).collect();
                below = format!("{below}: {}", reasons.join(", "));
            }
            words.was_discarded
        }
    };
    Matter {
        judged: matches!(life, Life::Missing | Life::Unresolved).then_some(Judged::Unknown),
        said: said.to_owned(),
        below,
    }
}
