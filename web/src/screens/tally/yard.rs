//! The yard's own tally, entered beside ours: a total, or line by line.

use super::Shared;
use crate::app::App;
use crate::parts::{Choice, CollectAny, live};
use crate::record::Deed;
use crate::screens::visit_form::decimal;
use leptos::prelude::*;
use rust_decimal::Decimal;
use stillwood_core::record::Id;
use stillwood_core::record::{Event, Withdrawn, YardLine, YardTotal};
use stillwood_core::trade::PricesAre;

/// What the yard counts in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Counted {
    Feet,
    Metres,
    Money,
}

impl Counted {
    fn unit(self, currency: &str) -> String {
        match self {
            Counted::Feet => "bf".into(),
            Counted::Metres => "m³".into(),
            Counted::Money if currency.is_empty() => "money".into(),
            Counted::Money => currency.to_owned(),
        }
    }

    fn of_line(self, line: &mut YardLine) -> &mut Option<Decimal> {
        match self {
            Counted::Feet => &mut line.board_feet,
            Counted::Metres => &mut line.cubic_metres,
            Counted::Money => &mut line.money,
        }
    }

    fn of_total(self, total: &mut YardTotal) -> &mut Option<Decimal> {
        match self {
            Counted::Feet => &mut total.board_feet,
            Counted::Metres => &mut total.cubic_metres,
            Counted::Money => &mut total.money,
        }
    }
}

/// Entry and comparison.
#[component]
pub(super) fn Yard(shared: Shared) -> impl IntoView {
    let app = expect_context::<App>();
    let tax = move || {
        let prices = app.state(|state| state.visit(shared.visit).map(|visit| visit.prices_are()));
        match prices {
            Some(PricesAre::Gross) => "with tax",
            _ => "without tax",
        }
    };
    let counted = RwSignal::new(Counted::Feet);
    let units = vec![
        (Counted::Feet, "board feet"),
        (Counted::Metres, "m³"),
        (Counted::Money, "money"),
    ];
    let planks = Memo::new(move |_| {
        shared.tally.with(|tally| {
            let planks = tally.iter().flat_map(|tally| &tally.planks);
            planks
                .map(|plank| (plank.piece, plank.line.mark.clone()))
                .collect::<Vec<_>>()
        })
    });
    let lines = move || {
        let counted = counted.get();
        planks
            .get()
            .into_iter()
            .map(|(piece, mark)| view! { <Line shared=shared piece=piece mark=mark counted=counted /> })
            .collect_any()
    };
    view! {
        <h2>"The yard's own tally"</h2>
        <p class="small">
            "Ask for the piece tally: lines tell what a total can't. Leave empty what it does not say. Money "
            {live(tax)} ", as its prices are."
        </p>
        <h3>"Its total"</h3>
        <div class="thirds">
            <Total shared=shared counted=Counted::Feet id="yard-total-bf" />
            <Total shared=shared counted=Counted::Metres id="yard-total-m3" />
            <Total shared=shared counted=Counted::Money id="yard-total-money" />
        </div>
        <super::compared::TotalGap shared=shared />
        <h3>"Its lines"</h3>
        <Choice name="Counted in" of=units value=counted />
        <div class="yard-lines">{live(lines)}</div>
        <super::compared::LineGaps shared=shared />
    }
}

/// One number of the yard's total.
#[component]
fn Total(shared: Shared, counted: Counted, id: &'static str) -> impl IntoView {
    let app = expect_context::<App>();
    let visit = shared.visit;
    let known = move || {
        app.state(|state| {
            let total = state
                .visit(visit)
                .and_then(|visit| visit.yard_total.clone());
            total.and_then(|(_, mut total)| *counted.of_total(&mut total))
        })
    };
    let save = Callback::new(move |value: Option<Decimal>| {
        let before = app.book_now(|state| state.visit(visit).and_then(|v| v.yard_total.clone()));
        let (entry, mut total) = match before {
            Some((entry, total)) => (Some(entry), total),
            None => (None, YardTotal::default()),
        };
        *counted.of_total(&mut total) = value;
        let event = (total != YardTotal::default()).then_some(Event::YardTotal(total));
        write(
            app,
            visit,
            entry,
            event,
            "The yard's total is noted.".into(),
        );
    });
    let name = Signal::derive(move || shared.currency.with(|currency| counted.unit(currency)));
    view! { <Figure id=id.to_owned() name=name known=Signal::derive(known) save=save /> }
}

/// One line of the yard's.
#[component]
fn Line(shared: Shared, piece: Id, mark: String, counted: Counted) -> impl IntoView {
    let app = expect_context::<App>();
    let known = move || {
        app.state(|state| {
            let line = state.piece(piece).and_then(|piece| piece.yard_line.clone());
            line.and_then(|(_, mut line)| *counted.of_line(&mut line))
        })
    };
    let text = format!("The yard's line for {mark} is noted.");
    let save = Callback::new(move |value: Option<Decimal>| {
        let before = app.book_now(|state| state.piece(piece).and_then(|p| p.yard_line.clone()));
        let (entry, mut line) = match before {
            Some((entry, line)) => (Some(entry), line),
            None => (None, YardLine::default()),
        };
        *counted.of_line(&mut line) = value;
        let event = (line != YardLine::default()).then_some(Event::YardLine(line));
        write(app, piece, entry, event, text.clone());
    });
    let id = format!("yard-line-{mark}");
    let name = Signal::derive(move || {
        let unit = shared.currency.with(|currency| counted.unit(currency));
        format!("{mark}, {unit}")
    });
    view! { <Figure id=id name=name known=Signal::derive(known) save=save /> }
}

/// Writes a figure of the yard's in place of the one before; none takes it back.
fn write(app: App, about: Id, before: Option<Id>, event: Option<Event>, text: String) {
    let deed = match (event, before) {
        (Some(event), before) => Deed::instead_of(about, event, before.into_iter().collect()),
        (None, Some(before)) => {
            Deed::instead_of(about, Event::Withdrawn(Withdrawn {}), vec![before])
        }
        (None, None) => return,
    };
    app.write_and_say(vec![deed], text, None);
}

/// A field for a figure of the yard's, written down when it is left.
#[component]
fn Figure(
    id: String,
    #[prop(into)] name: Signal<String>,
    known: Signal<Option<Decimal>>,
    save: Callback<Option<Decimal>>,
) -> impl IntoView {
    let wrong = RwSignal::new(String::new());
    let notes = format!("{id}-notes");
    let changed = move |event| match decimal(&event_target_value(&event)) {
        Ok(value) => {
            wrong.set(String::new());
            if value != known.get_untracked() {
                save.run(value);
            }
        }
        Err(why) => wrong.set(why),
    };
    view! {
        <div class="field">
            <label for=id.clone()><span class="name">{live(move || name.get())}</span></label>
            <input
                id=id type="text" inputmode="decimal" autocomplete="off"
                aria-describedby=notes.clone()
                aria-invalid=move || (!wrong.with(String::is_empty)).to_string()
                prop:value=move || known.get().map_or_else(String::new, |value| value.to_string())
                on:change=changed
            />
            <span class="error" id=notes>{live(move || wrong.get())}</span>
        </div>
    }
}
