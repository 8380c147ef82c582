//! The running tally of the planks taken on a visit: volume by the yard's rule, money, what is left of
//! the budget, what is still needed, and the yard's own tally beside it.

mod compared;
mod needed;
mod planks;
mod yard;

pub(crate) use needed::{ready_line, short_figure, still_to_buy, wish_words};
use stillwood_core::record::queries;

use super::figures;
use crate::app::App;
use crate::parts::{CollectAny, Frame, GoTo, facts_drawn, given, live, told_fact, told_figure};
use crate::route::Route;
use crate::screens::pile::{missing, pile_title};
use crate::screens::total_told;
use leptos::prelude::*;
use stillwood_core::quantity::{Derivation, in_kg, show};
use stillwood_core::record::Id;
use stillwood_core::record::{Pile, State, Total, VisitTally};
use stillwood_core::trade::PricesAre;

/// What the parts of this screen share.
#[derive(Clone, Copy)]
struct Shared {
    visit: Id,
    tally: Memo<Option<VisitTally>>,
    currency: Memo<String>,
}

impl Shared {
    /// How a total was worked out, once it is asked.
    fn tell(self, app: App, total: Total) -> impl Fn() -> Option<Derivation> + 'static {
        total_told(app, self.visit, total)
    }
}

/// The screen.
#[component]
pub(crate) fn TallyScreen(
    /// The visit.
    id: Id,
) -> impl IntoView {
    let app = expect_context::<App>();
    if app.book_now(|state| state.visit(id).is_none()) {
        return missing("No such visit");
    }
    let yard = move || app.state(|state| yard_name(state, id));
    let shared = Shared {
        visit: id,
        tally: Memo::new(move |_| app.state(|state| queries::tally_of(state, id))),
        currency: Memo::new(move |_| app.state(|state| currency(state, id))),
    };
    let title = Signal::derive(move || format!("Tally: {}", yard()));
    view! {
        <Frame title=title back=Route::Visit(id) class="wide">
            <div class="two">
                <div>
                    <Totals shared=shared />
                    <GoTo to=Route::Seller(id) name="Turn the phone round: the seller's view" class="wide-button" />
                    <needed::Needed shared=shared />
                    <planks::Planks shared=shared />
                </div>
                <aside aria-label="The yard's own tally">
                    <yard::Yard shared=shared />
                </aside>
            </div>
        </Frame>
    }
    .into_any()
}

pub(super) fn yard_name(state: &State, visit: Id) -> String {
    state
        .visit(visit)
        .map_or_else(String::new, |visit| visit.opened.yard.clone())
}

pub(super) fn currency(state: &State, visit: Id) -> String {
    state
        .visit(visit)
        .map_or_else(String::new, |visit| visit.opened.currency.clone())
}

/// What each pile is charged by, in words: its name, rule, price.
pub(super) fn terms_in_words(
    state: &State,
    visit: Id,
    name: impl Fn(&Pile) -> String,
) -> Vec<(String, String, Option<String>)> {
    let Some(known) = state.visit(visit) else {
        return Vec::new();
    };
    let tax = match known.prices_are() {
        PricesAre::Net => "without tax",
        PricesAre::Gross => "with tax",
    };
    state
        .piles_of(visit)
        .filter(|pile| !pile.withdrawn)
        .map(|pile| {
            let terms = known.terms_for(pile);
            let price = terms.price.map(|(price, basis)| {
                let price = figures::money(price, &known.opened.currency);
                format!("{price} {}, {tax}", basis.per())
            });
            (name(pile), terms.rule.in_words(), price)
        })
        .collect()
}

/// The totals, large.
#[component]
fn Totals(shared: Shared) -> impl IntoView {
    let app = expect_context::<App>();
    let shown = move || {
        let tally = shared.tally.get()?;
        let currency = shared.currency.get();
        let units = app.units.get();
        let money = |value| figures::money(value, &currency);
        let visit = app.state(|state| {
            let visit = &state.visit(shared.visit)?.opened;
            Some((visit.tax_percent, visit.discount_percent, visit.budget))
        });
        let (tax, discount, budget) = visit?;
        let count = tally.planks.len();
        let weighed = match tally.not_weighed {
            0 => show::mass(in_kg(tally.mass), units),
            some => format!(
                "{} ({some} not weighed)",
                show::mass(in_kg(tally.mass), units)
            ),
        };
        let budget_left = tally.budget_left.map(|left| {
            let class = if left.is_sign_negative() {
                "note bad"
            } else {
                "note good"
            };
            let words = if left.is_sign_negative() {
                "Over the budget by"
            } else {
                "Left of the budget"
            };
            let of = budget.map(&money).unwrap_or_default();
            view! {
                <p class=class id="budget-left">
                    {words} " "
                    <strong>
                        {told_figure(words.to_owned(), money(left.abs()), shared.tell(app, Total::BudgetLeft))}
                    </strong>
                    " of " {given(of)} ", tax paid"
                </p>
            }
        });
        let told = |name: &str, figure: String, total: Total| {
            told_fact(name, figure, shared.tell(app, total))
        };
        let net = money(tally.tally.money.net);
        let mut facts = vec![
            told(
                "Volume by the yard's rule",
                figures::volume(tally.tally.board_feet),
                Total::ByTheRule,
            ),
            told(
                "Volume as measured, nothing rounded",
                figures::volume(tally.exact_board_feet),
                Total::Exact,
            ),
            told("Weight", weighed, Total::Mass),
            told("Without tax", net, Total::Net),
            told(
                &format!("Tax, {} %", tax.normalize()),
                money(tally.tally.money.tax),
                Total::Tax,
            ),
        ];
        if !discount.is_zero() {
            let off = given(format!("{} %", discount.normalize()));
            facts.insert(3, ("Discount, taken off below".to_owned(), off));
        }
        if let Some(each) = tally.cost_per_part.map(money) {
            facts.push(told(
                "Wood for one part, with tax",
                each,
                Total::CostPerPart,
            ));
        }
        if let Some(each) = tally.cost_per_good_blank.map(money) {
            let name = "Wood for one good blank, losses paid, with tax";
            facts.push(told(name, each, Total::CostPerGoodBlank));
        }
        Some(view! {
            <div class="card" id="totals">
                <div class="row">
                    <span>{figures::counted(count, "plank taken", "planks taken")}</span>
                    <span class="big-figure">
                        {told_figure(
                            "To pay, with tax".to_owned(),
                            figures::breakable(money(tally.tally.money.gross)),
                            shared.tell(app, Total::Gross),
                        )}
                    </span>
                </div>
                <p class="small">"To pay, with tax."</p>
                {facts_drawn(facts)}
                {left_out(&tally)}
            </div>
            {budget_left}
        })
    };
    let rules = move || {
        app.state(|state| terms_in_words(state, shared.visit, pile_title))
            .into_iter()
            .map(|(pile, rule, price)| {
                let price = price.unwrap_or_else(|| "no price yet".into());
                view! { <li><strong>{pile}</strong>": " {given(rule)} "; " {given(price)}</li> }
            })
            .collect_any()
    };
    view! {
        {live(shown)}
        <h2>"How it is reckoned"</h2>
        <ul class="small" id="rule">{live(rules)}</ul>
    }
}

/// What the totals don't hold.
fn left_out(tally: &VisitTally) -> Option<AnyView> {
    let (feet, price) = (tally.tally.without_footage, tally.tally.without_price);
    (feet + price > 0).then(|| {
        view! {
            <p class="note doubt">
                {format!("Not in the totals: {feet} without a volume, {price} without a price. The list says why.")}
            </p>
        }
        .into_any()
    })
}
