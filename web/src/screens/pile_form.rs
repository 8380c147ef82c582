//! A pile: what its planks share, typed once.

use crate::app::App;
use crate::parts::{
    Choice, Frame, RuleEdited, RuleFields, TakeBack, TextField, Tick, WoodChosen, WoodField, live,
};
use crate::record::Deed;
use crate::route::{Route, go, replace};
use crate::screens::measure::wood_named;
use crate::screens::visit_form::decimal;
use leptos::prelude::*;
use stillwood_core::notebook::{Happening, PileOpened, SpeciesNamed};
use stillwood_core::plank::{
    Echo, Field, PriceBasis, Seen, Taken, price_doubt, retyped, understand,
};
use uuid::Uuid;
use wasm_bindgen_futures::spawn_local;

/// The form.
#[component]
pub(crate) fn PileForm(
    /// Its visit.
    visit: Uuid,
    /// The pile to change; none is a new one.
    id: Option<Uuid>,
) -> impl IntoView {
    let app = expect_context::<App>();
    let before = id.and_then(|id| {
        app.book_now(|book| book.pile(id).map(|p| (p.recorded.entry, p.opened.clone())))
    });
    let visit_basis = app
        .book_now(|book| book.visit(visit).map(|visit| visit.opened.price_basis))
        .unwrap_or(PriceBasis::BoardFoot);
    let old = before.as_ref().map(|(entry, _)| *entry);
    let pile = before.map(|(_, opened)| opened);
    let typed = |field: Field, taken: Option<&Taken>| {
        RwSignal::new(taken.map_or(String::new(), |taken| retyped(field, taken)))
    };
    let wood = pile.as_ref().map(|p| p.species.clone()).unwrap_or_default();
    let wood = WoodChosen::new(wood.text, wood.id);
    let name = RwSignal::new(pile.as_ref().map(|p| p.name.clone()).unwrap_or_default());
    let nominal = typed(
        Field::ThicknessNear,
        pile.as_ref().and_then(|p| p.nominal_thickness.as_ref()),
    );
    let moisture = typed(
        Field::Moisture,
        pile.as_ref().and_then(|p| p.moisture.as_ref()),
    );
    let warmth = typed(
        Field::WoodTemperature,
        pile.as_ref().and_then(|p| p.wood_temperature.as_ref()),
    );
    let price = RwSignal::new(
        pile.as_ref()
            .and_then(|p| p.price)
            .map(|p| p.normalize().to_string())
            .unwrap_or_default(),
    );
    let basis = RwSignal::new(
        pile.as_ref()
            .and_then(|p| p.price_basis)
            .unwrap_or(visit_basis),
    );
    let own_rule = pile.as_ref().and_then(|p| p.rule.clone());
    let has_rule = RwSignal::new(own_rule.is_some());
    let rule = own_rule.unwrap_or_else(|| {
        app.book_now(|book| book.visit(visit).map(|visit| visit.opened.rule.clone()))
            .unwrap_or_default()
    });
    let rule = RuleEdited::new(&rule);
    // A second touch while it is being saved makes no second pile.
    let busy = RwSignal::new(false);
    let missing = RwSignal::new(String::new());
    let read = move |field: Field, text: RwSignal<String>| {
        understand(
            field,
            &text.get_untracked(),
            Seen::Measured,
            true,
            app.units.get_untracked(),
        )
    };
    let wrong = move |field: Field, text: RwSignal<String>| {
        Signal::derive(move || {
            match understand(field, &text.get(), Seen::Measured, false, app.units.get()) {
                Echo::Unreadable(why) => why,
                Echo::Read {
                    doubt: Some(doubt), ..
                } => doubt.question,
                Echo::Read { .. } | Echo::Empty => String::new(),
            }
        })
    };
    let odd_price = Signal::derive(move || {
        let price = price.with(|p| decimal(p).ok().flatten());
        price
            .and_then(|price| price_doubt(price, basis.get()))
            .unwrap_or_default()
    });
    let wrong_price = Signal::derive(move || price.with(|p| decimal(p)).err().unwrap_or_default());
    let save = move |_| {
        if wood.text.get_untracked().trim().is_empty() {
            missing.set("Which wood is it? Any name will do.".into());
            return;
        }
        let readings = [
            read(Field::ThicknessNear, nominal),
            read(Field::Moisture, moisture),
            read(Field::WoodTemperature, warmth),
        ];
        if readings
            .iter()
            .any(|echo| matches!(echo, Echo::Unreadable(_)))
        {
            return;
        }
        let [nominal, moisture, warmth] = readings.map(|echo| echo.taken().cloned());
        let Ok(price) = decimal(&price.get_untracked()) else {
            return;
        };
        let own_rule = has_rule.get_untracked().then(|| rule.rule());
        let own_rule = match own_rule {
            Some(None) => return app.say("The percent added is not a number yet."),
            Some(own) => own,
            None => None,
        };
        if busy.get_untracked() {
            return;
        }
        let opened = PileOpened {
            moisture,
            name: name.get_untracked().trim().to_owned(),
            nominal_thickness: nominal,
            price,
            price_basis: (basis.get_untracked() != visit_basis).then(|| basis.get_untracked()),
            rule: own_rule,
            species: match wood.id.get_untracked() {
                Some(id) => SpeciesNamed {
                    id: Some(id),
                    text: wood.text.get_untracked().trim().to_owned(),
                },
                // Typed to the letter but not tapped.
                None => wood_named(app, &wood.text.get_untracked()).unwrap_or_default(),
            },
            visit,
            wood_temperature: warmth,
        };
        let Some(pile) = id.or_else(|| app.new_id()) else {
            return;
        };
        let happening = Happening::PileOpened(Box::new(opened));
        let deed = Deed::instead_of(pile, happening, old.into_iter().collect());
        busy.set(true);
        spawn_local(async move {
            if app.write(vec![deed], None).await.is_empty() {
                return busy.set(false);
            }
            match id {
                Some(_) => go(Route::Pile(pile)),
                None => replace(Route::Pile(pile)),
            }
        });
    };
    let title = if id.is_some() {
        "Change the pile"
    } else {
        "New pile"
    };
    let back = id.map_or(Route::Visit(visit), Route::Pile);
    view! {
        <Frame title=title back=back class="with-decide">
            <WoodField wood=wood error=missing />
            <TextField
                name="Thickness it is sold as" value=nominal hint="8/4, 52 mm, 2 in …"
                error=wrong(Field::ThicknessNear, nominal)
            />
            <div class="pair">
                <TextField
                    name="Price" value=price error=wrong_price echo=odd_price inputmode="decimal"
                />
                <Choice
                    name="per" value=basis
                    of=vec![
                        (PriceBasis::BoardFoot, "bf"),
                        (PriceBasis::CubicMetre, "m³"),
                        (PriceBasis::Piece, "piece"),
                        (PriceBasis::Kilogram, "kg"),
                    ]
                />
            </div>
            <div class="pair">
                <TextField
                    name="Moisture, %" value=moisture inputmode="decimal"
                    error=wrong(Field::Moisture, moisture)
                />
                <TextField
                    name="Wood temperature" value=warmth hint="cold wood reads low"
                    error=wrong(Field::WoodTemperature, warmth)
                />
            </div>
            <TextField name="Name of the pile" value=name hint="optional: where it stands, whose it is" />
            <Tick name="A tally rule of its own" value=has_rule />
            {live(move || has_rule.get().then(|| view! { <RuleFields rule=rule /> }))}
            {id.map(|id| {
                let to = Route::Visit(visit);
                view! { <TakeBack name="Take this pile back" about=id to=to /> }
            })}
            <div class="decide">
                <div class="row">
                    <button class="primary" id="save-pile" on:click=save>"Save the pile"</button>
                </div>
            </div>
        </Frame>
    }
}
