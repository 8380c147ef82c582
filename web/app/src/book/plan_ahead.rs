//! From what is in hand to the earliest blanks: lot by lot on a line of time, and in words with both keys of a rest.

use crate::drawings::plan_in_time::{LegDrawn, LineNames, Resting, RowDrawn, is_cut, plan_in_time};
use crate::page::Ui;
use crate::route::Route;
use crate::words::{Spoken, count, fill};
use chrono::NaiveDate;
use maud::{Markup, html};
use std::collections::BTreeMap;
use stillwood_core::record::{
    NotCounted, Paces, PieceKind, PlanAhead, PlanLot, TargetQuestion, TargetSet,
};
use stillwood_core::season::{Leg, MeasureKey, PlanPosition, Rests, Stage};

/// What comes of it where wood rests so long.
pub struct Planned {
    /// The rests.
    pub rests: Rests,
    /// What is in hand on its way.
    pub ahead: Result<PlanAhead, String>,
    /// Whether it is enough: what is to be searched for, and the last days.
    pub question: TargetQuestion,
}

/// All that the screen shows of a target.
pub struct Shown {
    /// The day.
    pub today: NaiveDate,
    /// The target as it is typed.
    pub target: TargetSet,
    /// By the shortest rests.
    pub least: Planned,
    /// At the maker's usual pace, where one is known.
    pub paced: Option<Planned>,
    /// That pace.
    pub paces: Paces,
    /// What is not counted.
    pub not_counted: NotCounted,
}

/// The part of the screen.
pub fn view(ui: &Ui<'_>, shown: &Shown) -> Markup {
    let words = &ui.w.track;
    let body = match &shown.least.ahead {
        Err(why) => html! { p.notice.doubt { (why.spoken()) } },
        Ok(ahead) if ahead.lots.is_empty() => html! {
            p.notice { (words.nothing_in_hand) }
            @if shown.target.by.is_some() { (drawn(ui, shown, ahead)) }
        },
        Ok(ahead) => html! {
            p.below { (if shown.paced.is_some() { words.ahead_both } else { words.ahead_shortest }) }
            (drawn(ui, shown, ahead))
            (earliest(ui, shown, ahead))
            (left_out(ui, shown))
            details {
                summary { (words.lot_by_lot) }
                @for lot in &ahead.lots { (card(ui, lot, own(shown, lot), shown.today)) }
            }
        },
    };
    html! {
        section aria-label=(words.from_hand) {
            h2 { (words.from_hand) }
            (body)
        }
    }
}

/// What is planned at the maker's usual pace, where one is known.
fn ahead_at_pace(shown: &Shown) -> Option<&PlanAhead> {
    shown.paced.as_ref()?.ahead.as_ref().ok()
}

/// The day on which a lot can be blanks at the maker's usual pace.
fn own(shown: &Shown, lot: &PlanLot) -> Option<NaiveDate> {
    let same = |one: &&PlanLot| (one.kind, one.standing) == (lot.kind, lot.standing);
    ahead_at_pace(shown)?.lots.iter().find(same)?.blank_on()
}

fn leg_drawn(leg: &Leg) -> LegDrawn {
    let of = match leg.stage {
        Stage::Pieces => Resting::Pieces,
        Stage::Laminates => Resting::Laminates,
        Stage::Blanks => Resting::Blanks,
    };
    LegDrawn {
        of,
        from: leg.from,
        until: leg.until,
    }
}

/// The last days of the steps, as a row; and another at the usual pace.
fn backward(ui: &Ui<'_>, shown: &Shown) -> Vec<RowDrawn> {
    let words = &ui.w.track;
    let Some(by) = shown.target.by else {
        return Vec::new();
    };
    let leg = |of, from, until| LegDrawn { of, from, until };
    let row = |(name, planned): (&str, &Planned)| {
        let latest = planned.question.latest?.ok()?;
        let mut legs = vec![
            leg(Resting::Pieces, latest.cut_by, latest.rip_by),
            leg(Resting::Laminates, latest.rip_by, latest.glue_by),
            leg(Resting::Blanks, latest.glue_by, by),
        ];
        if planned.rests.pieces.is_none() {
            legs.remove(0);
        }
        Some(RowDrawn {
            name: fill(name, &[("day", &ui.model.day(by))]),
            legs,
            at_pace: None,
        })
    };
    let usual = shown
        .paced
        .as_ref()
        .map(|paced| (words.last_days_for_usual, paced));
    let both = std::iter::once((words.last_days_for, &shown.least)).chain(usual);
    both.filter_map(row).collect()
}

fn drawn(ui: &Ui<'_>, shown: &Shown, ahead: &PlanAhead) -> Markup {
    let words = &ui.w.track;
    let lots = ahead.lots.iter().map(|lot| RowDrawn {
        name: name(ui, lot),
        legs: lot.legs.iter().map(leg_drawn).collect(),
        at_pace: own(shown, lot).filter(|day| Some(*day) > lot.blank_on()),
    });
    let rows: Vec<RowDrawn> = backward(ui, shown).into_iter().chain(lots).collect();
    let said = rows.iter().map(|row| {
        let until: Vec<String> = row.legs.iter().map(|leg| ui.model.day(leg.until)).collect();
        let usual = row
            .at_pace
            .map(|day| fill(words.at_usual_day, &[("day", &ui.model.day(day))]));
        format!(
            "{}: {}{}",
            row.name,
            until.join(", "),
            usual.unwrap_or_default()
        )
    });
    let said = fill(
        words.time_said,
        &[
            ("day", &ui.model.day(shown.today)),
            ("rows", &said.collect::<Vec<_>>().join("; ")),
        ],
    );
    let names = LineNames {
        today: words.today_line,
        wanted: words.wanted_line,
        blanks: words.earliest_row,
        words: ui.w,
    };
    let blanks = by_day(ahead);
    html! {
        figure.card {
            (plan_in_time(shown.today, shown.target.by, &rows, &blanks, names, &said))
            figcaption.below {
                @for (of, name) in [(Resting::Pieces, words.leg_pieces), (Resting::Laminates, words.leg_laminates), (Resting::Blanks, words.leg_blanks)] {
                    span.nowrap { (of.swatch()) (name) } " "
                }
                @if rows.iter().any(|row| row.at_pace.is_some()) { (words.behind_line) " " }
                @if is_cut(shown.today, shown.target.by, &rows, &blanks) { (words.began_earlier) }
            }
        }
    }
}

/// The earliest blanks, day by day.
fn by_day(ahead: &PlanAhead) -> Vec<(NaiveDate, usize)> {
    let mut days: BTreeMap<NaiveDate, usize> = BTreeMap::new();
    for day in &ahead.blanks {
        *days.entry(*day).or_default() += 1;
    }
    days.into_iter().collect()
}

fn earliest(ui: &Ui<'_>, shown: &Shown, ahead: &PlanAhead) -> Markup {
    let words = &ui.w.track;
    if ahead.blanks.is_empty() {
        return html! { p { (words.no_blank) } };
    }
    let blanks = |n: usize| count(n as u64, words.blank_one, words.blank_other);
    // As many come either way; those of the same two days are one row.
    let usual = ahead_at_pace(shown);
    let mut days: BTreeMap<(NaiveDate, Option<NaiveDate>), usize> = BTreeMap::new();
    for (at, least) in ahead.blanks.iter().enumerate() {
        let own = usual.and_then(|usual| usual.blanks.get(at).copied());
        *days.entry((*least, own)).or_default() += 1;
    }
    html! {
        table.compared {
            thead { tr {
                th scope="col" { (words.earliest) }
                th scope="col" { (words.shortest) }
                @if usual.is_some() { th scope="col" { (words.your_usual) } }
            } }
            tbody {
                @for ((least, own), n) in days {
                    tr {
                        th scope="row" { (blanks(n)) }
                        td { (ui.model.day(least)) }
                        @if let Some(own) = own { td { (ui.model.day(own)) } }
                    }
                }
            }
        }
    }
}

/// `8 laminates since 12 Sep`.
fn name(ui: &Ui<'_>, lot: &PlanLot) -> String {
    let words = &ui.w.track;
    let (one, other) = match lot.kind {
        PieceKind::Plank => (ui.w.common.planks_one, ui.w.common.planks_other),
        PieceKind::Piece => (words.piece_one, words.piece_other),
        PieceKind::Laminate => (words.laminate_one, words.laminate_other),
        PieceKind::Blank => (words.blank_one, words.blank_other),
    };
    let what = count(lot.pieces.len() as u64, one, other);
    // A plank still lies in the room, or may be cut.
    let cut_from = lot.legs.first().map(|leg| leg.from);
    let cut_from = cut_from.filter(|from| *from > ui.model.now.date());
    match (lot.standing, cut_from) {
        (PlanPosition::Plank(_), Some(from)) => fill(
            words.lot_cut_from,
            &[("what", &what), ("day", &ui.model.day(from))],
        ),
        (PlanPosition::Plank(_), None) => fill(words.lot_not_cut, &[("what", &what)]),
        (PlanPosition::NotSetToRest(_), _) => fill(words.lot_not_resting, &[("what", &what)]),
        (PlanPosition::Resting(_, since), _) => fill(
            words.lot_since,
            &[("what", &what), ("day", &ui.model.day(since))],
        ),
    }
}

fn left_out(ui: &Ui<'_>, shown: &Shown) -> Markup {
    let words = &ui.w.track;
    let not = shown.not_counted;
    let parts = [(not.moved, words.moved_beyond), (not.kept, words.reserved)];
    let parts = parts
        .into_iter()
        .filter(|(n, _)| *n > 0)
        .map(|(n, why)| fill(why, &[("n", &n)]));
    let parts: Vec<String> = parts.collect();
    html! {
        @if !parts.is_empty() { p.below { (fill(words.not_counted, &[("what", &parts.join(", "))])) } }
    }
}

/// A lot in words: both keys of its rest, and when it can be blanks.
fn card(ui: &Ui<'_>, lot: &PlanLot, own: Option<NaiveDate>, today: NaiveDate) -> Markup {
    let words = &ui.w.track;
    let rest = match (lot.standing, lot.legs.first()) {
        (PlanPosition::Resting(..), Some(leg)) if leg.until <= today => words.rest_over.to_owned(),
        (PlanPosition::Resting(..), Some(leg)) => {
            fill(words.rest_over_on, &[("day", &ui.model.day(leg.until))])
        }
        (PlanPosition::Plank(_), _) => words.to_cut.to_owned(),
        _ => words.to_rest.to_owned(),
    };
    let alike = lot.keys.len() == 1;
    let in_words = |(key, looks): &(MeasureKey, usize)| match key {
        MeasureKey::NotChecked => count(
            *looks as u64,
            ui.w.racks.looks_wanted_one,
            ui.w.racks.looks_wanted_other,
        ),
        _ => key.in_words().spoken(),
    };
    let keys = lot.keys.iter().map(|(key, n)| match alike {
        true => in_words(key),
        false => format!("{} ({n})", in_words(key)),
    });
    let mut keys: Vec<String> = keys.collect();
    if lot.looks_old > 0 {
        keys.push(fill(words.looks_old, &[("n", &lot.looks_old)]));
    }
    let blank = lot.blank_on().map(|day| {
        let usual = own
            .filter(|own| *own > day)
            .map(|own| fill(words.at_usual_day, &[("day", &ui.model.day(own))]));
        let sentence = match lot.kind {
            PieceKind::Blank => words.ready_on,
            _ => words.in_blank_on,
        };
        fill(
            sentence,
            &[
                ("day", &ui.model.day(day)),
                ("usual", &usual.unwrap_or_default()),
            ],
        )
    });
    html! {
        section.card {
            strong { (name(ui, lot)) }
            p.below { (rest) }
            @if !keys.is_empty() { p.below { (fill(words.by_measure, &[("keys", &keys.join("; "))])) } }
            @if matches!(lot.kind, PieceKind::Plank | PieceKind::Piece) {
                p.below {
                    @if !lot.laminates_known { (words.laminates_not_known) }
                    @else if lot.laminates == 0 { (words.laminates_none) }
                    @else {
                        (fill(words.laminates_to_come, &[("laminates", &count(lot.laminates, words.laminate_one, words.laminate_other))]))
                        @if lot.less_lost { " " (words.less_lost) }
                    }
                }
            }
            @if let Some(blank) = blank { p.below { (blank) } }
            details {
                summary { (words.which) }
                div.chips {
                    @for (id, mark) in &lot.pieces {
                        button.chip type="button" data-press=(ui.press(Route::Piece(*id))) { (mark) }
                    }
                }
            }
        }
    }
}
