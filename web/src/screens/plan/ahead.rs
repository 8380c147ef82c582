//! From what is in hand to the earliest blanks: lot by lot on a line of time, and in words with both keys of
//! a rest.

use super::pace::both_ways;
use super::{Planned, Shown};
use crate::drawings::{LegDrawn, RowDrawn, plan_in_time};
use crate::parts::{CollectAny, Facts, given};
use crate::route::Route;
use crate::screens::figures::counted;
use chrono::NaiveDate;
use leptos::prelude::*;
use std::collections::BTreeMap;
use stillwood_core::record::{PieceKind, PlanAhead, PlanLot};
use stillwood_core::season::{Leg, PlanPosition, Stage};

/// The part of the screen.
pub(super) fn ahead(shown: &Shown) -> AnyView {
    let ahead = match &shown.least.ahead {
        Ok(ahead) => ahead,
        Err(why) => return view! { <p class="note doubt">{why.clone()}</p> }.into_any(),
    };
    if ahead.lots.is_empty() {
        return view! {
            <h2>"From what is in hand"</h2>
            <p class="note">"Nothing of that wood is in hand."</p>
            {latest_drawn(shown)}
        }
        .into_any();
    }
    view! {
        <h2>"From what is in hand"</h2>
        <p class="small">{said(shown)}</p>
        {drawn(shown, ahead)}
        <div id="earliest">{earliest(shown, ahead)}</div>
        {left_out(shown)}
        <h3>"Lot by lot"</h3>
        <ul class="plain" id="lots">
            {ahead.lots.iter().map(|lot| card(lot, own(shown, lot), shown.today)).collect_any()}
        </ul>
    }
    .into_any()
}

fn said(shown: &Shown) -> &'static str {
    match shown.paced {
        None => "The earliest days, by the least rests, if every piece comes through.",
        Some(_) => "By the least rests and at your own pace, if every piece comes through.",
    }
}

/// What is planned at the maker's pace, where one is known.
fn ahead_at_pace(shown: &Shown) -> Option<&PlanAhead> {
    shown.paced.as_ref()?.ahead.as_ref().ok()
}

/// The day on which a lot can be blanks at the maker's pace.
fn own(shown: &Shown, lot: &PlanLot) -> Option<NaiveDate> {
    let same = |one: &&PlanLot| (one.kind, one.standing) == (lot.kind, lot.standing);
    ahead_at_pace(shown)?.lots.iter().find(same)?.blank_on()
}

/// A line of time with the wish alone.
fn latest_drawn(shown: &Shown) -> Option<AnyView> {
    let rows: Vec<RowDrawn> = backward(shown);
    (!rows.is_empty()).then(|| plan_in_time(shown.today, shown.wish.by, &rows, &[]))
}

fn leg_drawn(leg: &Leg) -> LegDrawn {
    LegDrawn {
        class: match leg.stage {
            Stage::Pieces => "leg-pieces",
            Stage::Laminates => "leg-laminates",
            Stage::Blanks => "leg-blanks",
        },
        from: leg.from,
        until: leg.until,
    }
}

/// The last days of the steps, as a row; and another at the maker's pace.
fn backward(shown: &Shown) -> Vec<RowDrawn> {
    let Some(by) = shown.wish.by else {
        return Vec::new();
    };
    let leg = |class, from, until| LegDrawn { class, from, until };
    let row = |(way, planned): (&str, &Planned)| {
        let latest = planned.answer.latest?.ok()?;
        Some(RowDrawn {
            name: format!("The last days for {by}{way}"),
            legs: vec![
                leg("leg-pieces", latest.cut_by, latest.rip_by),
                leg("leg-laminates", latest.rip_by, latest.glue_by),
                leg("leg-blanks", latest.glue_by, by),
            ],
            at_pace: None,
        })
    };
    let own = shown.paced.as_ref().map(|own| (", at your pace", own));
    let both = std::iter::once(("", &shown.least)).chain(own);
    both.filter_map(row).collect()
}

fn drawn(shown: &Shown, ahead: &PlanAhead) -> AnyView {
    let lots = ahead.lots.iter().map(|lot| RowDrawn {
        name: name(lot),
        legs: lot.legs.iter().map(leg_drawn).collect(),
        at_pace: own(shown, lot).filter(|day| Some(*day) > lot.blank_on()),
    });
    let rows: Vec<RowDrawn> = backward(shown).into_iter().chain(lots).collect();
    plan_in_time(shown.today, shown.wish.by, &rows, &by_day(ahead))
}

/// The earliest blanks, day by day.
fn by_day(ahead: &PlanAhead) -> Vec<(NaiveDate, usize)> {
    let mut days: BTreeMap<NaiveDate, usize> = BTreeMap::new();
    for day in &ahead.blanks {
        *days.entry(*day).or_default() += 1;
    }
    days.into_iter().collect()
}

fn earliest(shown: &Shown, ahead: &PlanAhead) -> AnyView {
    if ahead.blanks.is_empty() {
        return view! { <p>"No blank comes of it: too few laminates."</p> }.into_any();
    }
    let blanks = |count: usize| counted(count, "blank", "blanks");
    let Some(own) = ahead_at_pace(shown) else {
        let row = |(day, count): (NaiveDate, usize)| (day.to_string(), Some(blanks(count)));
        let of = by_day(ahead).into_iter().map(row).collect();
        return view! { <Facts of=of /> }.into_any();
    };
    // As many come either way; those of the same two days are one row.
    let mut days: BTreeMap<(NaiveDate, NaiveDate), usize> = BTreeMap::new();
    for both in ahead.blanks.iter().copied().zip(own.blanks.iter().copied()) {
        *days.entry(both).or_default() += 1;
    }
    let row = |((least, own), count): ((NaiveDate, NaiveDate), usize)| {
        (
            blanks(count),
            given(least.to_string()),
            given(own.to_string()),
        )
    };
    both_ways("Earliest", days.into_iter().map(row).collect())
}

/// `8 laminates since 2026-09-12`.
fn name(lot: &PlanLot) -> String {
    let (one, several) = match lot.kind {
        PieceKind::Plank => ("plank", "planks"),
        PieceKind::Piece => ("piece", "pieces"),
        PieceKind::Laminate => ("laminate", "laminates"),
        PieceKind::Blank => ("blank", "blanks"),
    };
    let count = counted(lot.pieces.len(), one, several);
    match lot.standing {
        PlanPosition::Plank => format!("{count}, not cut"),
        PlanPosition::NotSetToRest(_) => format!("{count}, not at rest"),
        PlanPosition::Resting(_, since) => format!("{count} since {since}"),
    }
}

fn left_out(shown: &Shown) -> Option<AnyView> {
    let not = shown.not_counted;
    let parts = [
        (not.moved, "moved beyond a limit"),
        (not.kept, "kept for somebody"),
    ];
    let parts = parts.into_iter().filter(|(count, _)| *count > 0);
    let parts: Vec<String> = parts.map(|(count, why)| format!("{count} {why}")).collect();
    (!parts.is_empty()).then(|| {
        view! { <p class="small">{format!("Not counted: {}.", parts.join(", "))}</p> }.into_any()
    })
}

/// A lot in words: both keys of its rest, and when it can be blanks.
fn card(lot: &PlanLot, own: Option<NaiveDate>, today: NaiveDate) -> AnyView {
    let date_key = match (lot.standing, lot.legs.first()) {
        (PlanPosition::Resting(..), Some(leg)) if leg.until <= today => "By date: ripe.".to_owned(),
        (PlanPosition::Resting(..), Some(leg)) => format!("By date: ripe on {}.", leg.until),
        (PlanPosition::Plank, _) => "To be cut and set to rest.".to_owned(),
        _ => "To be set to rest.".to_owned(),
    };
    let alike = lot.keys.len() == 1;
    let keys = lot.keys.iter().map(|(key, count)| match alike {
        true => key.in_words().to_owned(),
        false => format!("{} ({count})", key.in_words()),
    });
    let keys: Vec<String> = keys.collect();
    let measure = (!keys.is_empty()).then(|| format!("By measurement: {}.", keys.join("; ")));
    let laminates =
        matches!(lot.kind, PieceKind::Plank | PieceKind::Piece).then(|| match lot.laminates {
            0 => "Laminates to come of it: not known.".to_owned(),
            some => format!(
                "About {} to come of it.",
                counted(some as usize, "laminate", "laminates")
            ),
        });
    let blank = lot.blank_on().map(|day| {
        let own = own.filter(|own| *own > day);
        let own = own.map_or_else(String::new, |own| format!(", {own} at your pace"));
        match lot.kind {
            PieceKind::Blank => format!("Ready {day} at the earliest{own}."),
            _ => format!("In a blank that is ready {day} at the earliest{own}."),
        }
    });
    let one = |(id, mark): &(stillwood_core::record::Id, String)| {
        view! { <a class="button mark-small" href=Route::Wood(*id).href()>{mark.clone()}</a> }
    };
    let lines = [Some(date_key), measure, laminates, blank]
        .into_iter()
        .flatten();
    view! {
        <li class="card">
            <strong>{name(lot)}</strong>
            {lines.map(|line| view! { <p class="small">{line}</p> }).collect_any()}
            <details>
                <summary>"Which"</summary>
                <div class="chips">{lot.pieces.iter().map(one).collect_any()}</div>
            </details>
        </li>
    }
    .into_any()
}
