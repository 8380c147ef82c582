//! The days on which rests are over as a file for any calendar program; days that an earlier file told of and that
//! will not come are taken back.

use crate::effect::{Effect, FileContent, FileMade};
use crate::model::Model;
use crate::settings::CalendarTold;
use crate::tell::say;
use crate::words::{Spoken, count};
use stillwood_core::record::queries;
use stillwood_core::season::{CalendarDay, calendar};

/// What a calendar shows of a day, in the language of the screens.
pub fn in_own_words(day: CalendarDay) -> CalendarDay {
    CalendarDay {
        summary: day.summary.spoken(),
        description: day.description.spoken(),
        ..day
    }
}

/// Hands the file out.
pub fn hand_out(model: &mut Model) -> Vec<Effect> {
    let words = &model.words().racks;
    let sequence = u32::try_from(model.record.log().len()).unwrap_or(u32::MAX);
    let before = model.settings.calendar.published();
    let days: Vec<CalendarDay> = queries::calendar_days(model.state(), sequence, &before);
    let days: Vec<CalendarDay> = days.into_iter().map(in_own_words).collect();
    if days.is_empty() {
        return say(model, words.no_day_for_a_calendar);
    }
    let millis = i64::try_from(model.now.millis).unwrap_or_default();
    let written = chrono::DateTime::from_timestamp_millis(millis).unwrap_or_default();
    let file = FileMade {
        name: format!("stillwood-racks-{}.ics", model.now.day),
        kind: "text/calendar",
        content: FileContent::Bytes(calendar(&days, written.naive_utc()).into_bytes()),
    };
    model.settings.calendar = CalendarTold::of(&before.after(&days, model.now.date()));
    let gone = days.iter().filter(|day| day.cancelled).count();
    model.book.said_of_file = match gone {
        0 => words.calendar_made.to_owned(),
        gone => format!(
            "{} {}",
            words.calendar_made,
            count(
                gone as u64,
                words.calendar_back_one,
                words.calendar_back_other
            )
        ),
    };
    let mut effects = vec![Effect::Download(file)];
    match model.settings.to_json() {
        Ok(json) => effects.push(Effect::KeepSetting("settings", json)),
        Err(why) => effects.extend(say(model, why.spoken())),
    }
    effects
}
