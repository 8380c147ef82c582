//! A pile: what its planks share, typed once.

use crate::app::App;
use crate::held::{Begun, Part, Wrong};
use crate::parts::{
    Choice, Frame, RuleEdited, RuleFields, TakeBack, TextField, Tick, WoodChosen, WoodField, live,
};
use crate::record::Deed;
use crate::route::{Route, go, replace};
use crate::screens::measure::wood_named;
use crate::screens::visit_form::decimal;
use leptos::prelude::*;
use stillwood_core::plank::{Field, Reading, Seen, Understood, retyped, understand, unusual};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::Id;
use stillwood_core::record::{Event, PileOpened, SpeciesNamed};
use stillwood_core::trade::{PriceBasis, price_warning};

const WOOD: &str = "Wood";
const NOMINAL: &str = "Thickness it is sold as";
const PRICE: &str = "Price";
const MOISTURE: &str = "Moisture, %";
const WARMTH: &str = "Wood temperature";

/// What is asked about in a pile, by the fields.
fn odd(pile: &PileOpened, of_visit: PriceBasis, units: Units) -> Vec<(String, String)> {
    let price = pile.price.and_then(|price| {
        let basis = pile.price_basis.unwrap_or(of_visit);
        Some((PRICE.to_owned(), price_warning(price, basis)?))
    });
    let fields = [
        (NOMINAL, Field::ThicknessNear, &pile.nominal_thickness),
        (MOISTURE, Field::Moisture, &pile.moisture),
        (WARMTH, Field::WoodTemperature, &pile.wood_temperature),
    ];
    let readings = fields.into_iter().filter_map(|(label, field, taken)| {
        let taken = taken.as_ref()?;
        Some((label.to_owned(), unusual(field, taken, units)?.question))
    });
    price.into_iter().chain(readings).collect()
}

/// The form.
#[component]
pub(crate) fn PileForm(
    /// Its visit.
    visit: Id,
    /// The pile to change; none is a new one.
    id: Option<Id>,
) -> impl IntoView {
    let app = expect_context::<App>();
    let before = id.and_then(|id| {
        app.book_now(|state| state.pile(id).map(|p| (p.recorded.entry, p.opened.clone())))
    });
    let visit_basis = app
        .book_now(|state| state.visit(visit).map(|visit| visit.opened.price_basis))
        .unwrap_or(PriceBasis::BoardFoot);
    let old = before.as_ref().map(|(entry, _)| *entry);
    let pile = before.map(|(_, opened)| opened);
    let typed = |field: Field, taken: Option<&Reading>| {
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
        app.book_now(|state| state.visit(visit).map(|visit| visit.opened.rule.clone()))
            .unwrap_or_default()
    });
    let rule = RuleEdited::new(&rule);
    let begun = {
        let fields = [
            (WOOD, wood.text),
            (NOMINAL, nominal),
            (PRICE, price),
            (MOISTURE, moisture),
            (WARMTH, warmth),
            ("Name of the pile", name),
        ];
        let mut parts: Vec<Part> = fields.map(|(name, text)| Part::text(name, text)).into();
        parts.push(Part::of("wood chosen", wood.id));
        parts.push(Part::of("basis", basis));
        parts.push(Part::of("has rule", has_rule));
        parts.extend(rule.parts());
        let key = id.map_or_else(|| format!("pile-of/{visit}"), |id| format!("pile/{id}"));
        let words = if id.is_some() { "a pile" } else { "a new pile" };
        Begun::open(app, key, words.to_owned(), parts)
    };
    let read = move |label: &str, field: Field, text: RwSignal<String>| {
        let (text, units) = (text.get_untracked(), app.units.get_untracked());
        match understand(field, &text, Seen::Measured, begun.really(label), units) {
            Understood::Unreadable(why) => Err(Wrong::unread(label, &why)),
            echo => Ok(echo.taken().cloned()),
        }
    };
    let wrong = move |field: Field, text: RwSignal<String>| {
        Signal::derive(move || {
            match understand(field, &text.get(), Seen::Measured, false, app.units.get()) {
                Understood::Unreadable(why) => why,
                Understood::Read { .. } | Understood::Empty => String::new(),
            }
        })
    };
    let wrong_price = Signal::derive(move || price.with(|p| decimal(p)).err().unwrap_or_default());
    let typed = move || -> Result<PileOpened, Wrong> {
        if wood.text.get_untracked().trim().is_empty() {
            return Err(Wrong::at(WOOD, "Which wood is it? Any name will do."));
        }
        let nominal = read(NOMINAL, Field::ThicknessNear, nominal)?;
        let moisture = read(MOISTURE, Field::Moisture, moisture)?;
        let warmth = read(WARMTH, Field::WoodTemperature, warmth)?;
        let price = decimal(&price.get_untracked()).map_err(|why| Wrong::unread(PRICE, &why))?;
        let own_rule = if has_rule.get_untracked() {
            let unread = || Wrong::unread("Percent added", "it is not a number yet.");
            Some(rule.rule().ok_or_else(unread)?)
        } else {
            None
        };
        Ok(PileOpened {
            moisture,
            name: name.get_untracked().trim().to_owned(),
            nominal_thickness: nominal,
            price,
            price_basis: (basis.get_untracked() != visit_basis).then(|| basis.get_untracked()),
            price_confirmed: begun.really(PRICE),
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
        })
    };
    let save = move |_| {
        let opened = match typed() {
            Ok(opened) => opened,
            Err(wrong) => return begun.say(wrong),
        };
        if !begun.sure(odd(&opened, visit_basis, app.units.get_untracked())) {
            return;
        }
        let Some(pile) = id.or_else(|| app.new_id()) else {
            return;
        };
        let event = Event::PileOpened(Box::new(opened));
        let deed = Deed::instead_of(pile, event, old.into_iter().collect());
        begun.record(vec![deed], move |_| match id {
            Some(_) => go(Route::Pile(pile)),
            None => replace(Route::Pile(pile)),
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
            {begun.note()}
            <WoodField wood=wood form=begun />
            <TextField
                name=NOMINAL value=nominal form=begun hint="8/4, 52 mm, 2 in …"
                error=wrong(Field::ThicknessNear, nominal)
            />
            <div class="pair">
                <TextField
                    name=PRICE value=price form=begun error=wrong_price inputmode="decimal"
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
                    name=MOISTURE value=moisture form=begun inputmode="decimal"
                    error=wrong(Field::Moisture, moisture)
                />
                <TextField
                    name=WARMTH value=warmth form=begun hint="cold wood reads low"
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
            <p class="error-line" role="alert" id="pile-fault">{live(move || begun.line())}</p>
            <div class="decide">
                <div class="row">
                    <button class="primary" id="save-pile" on:click=save>"Save the pile"</button>
                </div>
            </div>
        </Frame>
    }
}
