//! Where a plank is from, what was decided, what it costs, and the cautions of its wood.

use super::Shown;
use crate::app::App;
use crate::parts::{Facts, facts_drawn, given, live, told_figure};
use crate::screens::pile::pile_title;
use crate::screens::{figures, plank_told, plank_told_under, words};
use leptos::prelude::*;
use stillwood_core::neck::cost_per_part;
use stillwood_core::record::PlankFigure;
use stillwood_core::record::queries;
use stillwood_core::trade::tally_visit;

/// Yard, day, pile, wood, devices.
#[component]
pub(super) fn Origin(shown: Shown) -> impl IntoView {
    let app = expect_context::<App>();
    let facts = move || {
        let piece = shown.piece.get()?;
        let of = app.state(|state| {
            let pile = state.pile(piece.pile);
            let visit = state.visit_of(&piece);
            let species = queries::species_of(state, &piece);
            let wood = species.and_then(|species| queries::wood_of(state, species));
            let own = wood
                .as_ref()
                .filter(|wood| state.woods().contains_key(wood.id()));
            let yours = own.map(|_| "your data".to_owned());
            let scientific = wood
                .map(|wood| wood.scientific_name().to_owned())
                .filter(|name| !name.is_empty());
            let others: Vec<String> = piece
                .marks
                .iter()
                .filter(|mark| **mark != piece.mark)
                .cloned()
                .collect();
            let devices: Vec<String> = piece.by.iter().cloned().collect();
            vec![
                (
                    "Yard".to_owned(),
                    visit.map(|visit| visit.opened.yard.clone()),
                ),
                ("Day".to_owned(), Some(piece.recorded.on.to_string())),
                ("Pile".to_owned(), pile.map(pile_title)),
                (
                    "Wood".to_owned(),
                    species.map(|species| species.text.clone()),
                ),
                ("Botanical name".to_owned(), scientific),
                ("The wood's numbers".to_owned(), yours),
                ("Marked on device".to_owned(), Some(devices.join(", "))),
                (
                    "Also marked".to_owned(),
                    (!others.is_empty()).then(|| others.join(", ")),
                ),
            ]
        });
        Some(view! { <Facts of=of /> })
    };
    view! { {live(facts)} }
}

/// The decision in force, and whether it went against the computation.
#[component]
pub(super) fn Decided(shown: Shown) -> impl IntoView {
    live(move || {
        let piece = shown.piece.get()?;
        let Some(judgement) = piece.judgement() else {
            return Some(view! { <p id="decision">"Nothing is decided yet."</p> }.into_any());
        };
        let judged = &judgement.judged;
        let reasons = (!judged.reasons.is_empty())
            .then(|| format!(", for {}", words::reasons(&judged.reasons)));
        let against = judged
            .proposed
            .filter(|_| judged.overruled())
            .map(|proposed| {
                let text = format!(
                    "You overruled the computation, which proposed “{}”.",
                    proposed.in_words()
                );
                view! { <p class="note" id="overruled">{text}</p> }
            });
        let on = judgement.on.to_string();
        Some(
            view! {
                <p id="decision">
                    <strong>{judged.decision.in_words()}</strong>
                    {reasons}
                    ", "
                    {on}
                </p>
                {against}
            }
            .into_any(),
        )
    })
}

/// What it costs by its pile's terms, and what the yard says.
#[component]
pub(super) fn Costs(shown: Shown) -> impl IntoView {
    let app = expect_context::<App>();
    let costs = move || {
        let piece = shown.piece.get()?;
        let (charged, tallied, currency) = app.state(|state| {
            let visit = state.visit_of(&piece)?;
            let tally = queries::tally_of(state, visit.id)?;
            let tallied = tally
                .planks
                .into_iter()
                .find(|plank| plank.piece == piece.id);
            let currency = visit.opened.currency.clone();
            Some((queries::charged(state, &piece)?, tallied, currency))
        })?;
        let money = |value| figures::money(value, &currency);
        // A plank not taken is reckoned by itself.
        let line = match &tallied {
            Some(plank) => Some(plank.tallied.clone()),
            None => {
                let tally = tally_visit([(&charged.line, &charged.terms)]);
                tally.lines.into_iter().next()
            }
        }?;
        let (feet, paid) = (line.board_feet, line.money);
        let rule = charged.terms.rule.in_words();
        let volume = feet.map_or_else(|why| why.to_string(), figures::volume);
        let price = charged
            .terms
            .price
            .map(|(price, basis)| format!("{} {}", money(price), basis.per()));
        let cost = match paid {
            Ok(paid) => format!("{} ({} without tax)", money(paid.gross), money(paid.net)),
            Err(why) => why.to_string(),
        };
        let parts = shown.sheet.with(|sheet| {
            let (sheet, _) = sheet.as_ref()?;
            Some(sheet.held.as_ref()?.parts)
        });
        let part = paid.as_ref().ok().zip(parts);
        let part = part.and_then(|(paid, parts)| cost_per_part(paid.gross, parts));
        let yard = piece
            .yard_line
            .map(|(_, line)| words::yard(line.board_feet, line.cubic_metres, line.money));
        let told = |name: &str, figure: String| {
            let tell = plank_told(app, piece.id, PlankFigure::Bill);
            let figure = told_figure(name.to_owned(), figure, tell);
            (name.to_owned(), Some(figure))
        };
        let of = vec![
            told("Volume by the yard's rule", volume),
            ("Price".to_owned(), price.map(given)),
            told("Cost with tax", cost),
            (
                "Wood for one part, with tax".to_owned(),
                part.map(|part| {
                    let name = "Wood for one part, with tax".to_owned();
                    let each = PlankFigure::CostPerPart;
                    let tell = plank_told_under(app, piece.id, each, shown.under);
                    told_figure(name, money(part), tell)
                }),
            ),
        ];
        let of = of
            .into_iter()
            .filter_map(|(name, figure)| Some((name, figure?)));
        Some(view! {
            <h2>"Cost"</h2>
            {facts_drawn(of.collect())}
            <p class="small">"The rule: " {given(rule)} "."</p>
            {yard.map(|yard| view! { <p id="yard-line">"Beside it, " {given(yard)} "."</p> })}
        })
    };
    view! { {live(costs)} }
}

/// What the wood may do to the maker, and what the law may ask.
#[component]
pub(super) fn Cautions(shown: Shown) -> impl IntoView {
    let app = expect_context::<App>();
    let words = move || {
        let piece = shown.piece.get()?;
        let wood = app.state(|state| queries::wood_of(state, queries::species_of(state, &piece)?));
        let (dust, trade) = match wood {
            Some(wood) => (wood.dust().words(), wood.trade().words()),
            None => (
                "This wood is not in the table: treat its dust as a sensitiser, and follow your \
                 local rules and your doctor."
                    .to_owned(),
                "Whether it is listed under CITES is not known here: check before you buy or ship."
                    .to_owned(),
            ),
        };
        Some(view! {
            <h2>"Cautions"</h2>
            <p id="dust">{dust}</p>
            <p id="trade">{trade}</p>
        })
    };
    view! { {live(words)} }
}
