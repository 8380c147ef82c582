//! What the maker wants of a blank: the wood at each place, the same on both sides unless said otherwise,
//! and how far laminates glued together may be off.

use super::Gluing;
use crate::app::App;
use crate::parts::{CollectAny, NumberField, Tick, When, live};
use crate::record::Deed;
use leptos::prelude::*;
use stillwood_core::neck::{MOST_PLACES, MatchLimits, MatchWish};
use stillwood_core::notebook::{GluingSet, Happening};
use stillwood_core::quantity::show;

/// The wood wished for at each place, from one side; empty for any.
#[derive(Clone, Copy)]
pub(super) struct Woods {
    places: RwSignal<Vec<String>>,
    mirrored: RwSignal<bool>,
}

impl Woods {
    pub(super) fn new() -> Self {
        Self {
            places: RwSignal::new(vec![String::new(); MOST_PLACES]),
            mirrored: RwSignal::new(true),
        }
    }

    /// The place that says what stands at a place.
    fn said_at(self, at: usize, count: usize) -> usize {
        if self.mirrored.get() {
            at.min((count - 1).saturating_sub(at))
        } else {
            at
        }
    }
}

/// What is asked for, of so many laminates.
pub(super) fn wish(gluing: Gluing, count: usize) -> MatchWish {
    let woods = gluing.woods;
    let number = |name: &String| {
        gluing.stock.with_untracked(|stock| {
            let one = stock.iter().find(|one| one.wood == *name);
            one.map(|one| one.laminate.wood)
        })
    };
    let mut wish = MatchWish::of(count);
    wish.limits = gluing.limits.get_untracked();
    untrack(|| {
        woods.places.with(|places| {
            for (at, place) in wish.places.iter_mut().enumerate() {
                *place = places.get(woods.said_at(at, count)).and_then(number);
            }
        });
    });
    wish
}

/// How many laminates are typed, where that can be laid out.
fn count(gluing: Gluing) -> usize {
    let typed = gluing.count.with(|count| count.trim().parse().unwrap_or(0));
    if typed > MOST_PLACES { 0 } else { typed }
}

/// The wood at each place; only where there is a choice.
pub(super) fn by_place(gluing: Gluing) -> AnyView {
    let names = Memo::new(move |_| {
        gluing.stock.with(|stock| {
            let mut names: Vec<String> = Vec::new();
            for one in stock {
                if !one.wood.is_empty() && !names.contains(&one.wood) {
                    names.push(one.wood.clone());
                }
            }
            names
        })
    });
    let so = Signal::derive(move || names.with(|names| names.len() > 1));
    let places = move || {
        let count = count(gluing);
        let said = (0..count).filter(|at| gluing.woods.said_at(*at, count) == *at);
        let names = names.get();
        said.map(|at| place(gluing, at, count, &names))
            .collect_any()
    };
    view! {
        <When so=so>
            <details id="woods">
                <summary>"Which wood at which place"</summary>
                <Tick name="The same on both sides" value=gluing.woods.mirrored />
                <div class="thirds" id="woods-by-place">{live(places)}</div>
                <p class="small">
                    "Leave “any” where it makes no difference. A wood that is not mirrored about the middle is warned of."
                </p>
            </details>
        </When>
    }
    .into_any()
}

fn place(gluing: Gluing, at: usize, count: usize, names: &[String]) -> AnyView {
    let opposite = count - 1 - at;
    let name = if !gluing.woods.mirrored.get() {
        format!("Place {}", at + 1)
    } else if opposite == at {
        format!("Place {}, middle", at + 1)
    } else {
        format!("Places {} and {}", at + 1, opposite + 1)
    };
    let chosen = gluing
        .woods
        .places
        .with_untracked(|places| places.get(at).cloned().unwrap_or_default());
    let option = |wood: &String| {
        view! { <option value=wood.clone() selected=*wood == chosen>{wood.clone()}</option> }
    };
    let set = move |event| {
        let wood = event_target_value(&event);
        gluing.woods.places.update(|places| {
            if let Some(place) = places.get_mut(at) {
                *place = wood;
            }
        });
    };
    let id = format!("wood-at-{}", at + 1);
    view! {
        <div class="field">
            <label for=id.clone()><span class="name">{name}</span></label>
            <select id=id on:change=set>
                <option value="" selected=chosen.is_empty()>"any"</option>
                {names.iter().map(option).collect_any()}
            </select>
        </div>
    }
    .into_any()
}

/// One limit: its label, and its number in the setting.
type LimitOf = (&'static str, fn(&mut GluingSet) -> &mut f64);

const LIMITS: [LimitOf; 6] = [
    ("Crook left, mm", |set| &mut set.crook_mm),
    ("Twist, mm", |set| &mut set.twist_mm),
    ("Moisture apart, %", |set| &mut set.moisture_percent),
    ("Thickness apart, mm", |set| &mut set.thickness_mm),
    ("Density apart, kg/m³", |set| &mut set.density_kg_m3),
    ("Stiffness apart, a share", |set| &mut set.modulus_share),
];

/// The limits, closed at first; kept in the record.
pub(super) fn limits(app: App, gluing: Gluing) -> AnyView {
    let texts = LIMITS.map(|_| RwSignal::new(String::new()));
    let fault = RwSignal::new(String::new());
    let fill = move |limits: MatchLimits| {
        let mut set = GluingSet::of(&limits);
        for ((_, at), text) in LIMITS.iter().zip(texts) {
            text.set(show::number(*at(&mut set), 3));
        }
    };
    Effect::new(move |_| fill(gluing.limits.get()));
    let keep = move |_| {
        let mut set = GluingSet::of(&gluing.limits.get_untracked());
        for ((name, at), text) in LIMITS.iter().zip(texts) {
            let typed = text.get_untracked();
            let read = typed.trim().replace(',', ".").parse::<f64>().ok();
            match read.filter(|value| *value > 0.0 && value.is_finite()) {
                Some(value) => *at(&mut set) = value,
                None => return fault.set(format!("{name}: a number more than 0, not “{typed}”.")),
            }
        }
        fault.set(String::new());
        let Some(id) = app.new_id() else { return };
        let deed = Deed::new(id, Happening::GluingSet(Box::new(set)));
        app.write_and_say(vec![deed], "Limits for gluing kept.".into(), None);
    };
    let fields = LIMITS.iter().zip(texts);
    let fields = fields.map(|((name, _), text)| view! { <NumberField name=*name value=text /> });
    view! {
        <details id="limits">
            <summary>"How far they may be off"</summary>
            <p class="small">
                "What is supplied is common practice, no source. Crook and twist are of the whole blank; thickness, \
                 density and stiffness between places that mirror each other."
            </p>
            <div class="pair">{fields.collect_any()}</div>
            <p class="error-line" role="alert">{live(move || fault.get())}</p>
            <div class="row stretch">
                <button type="button" class="primary" id="keep-limits" on:click=keep>"Keep these limits"</button>
                <button type="button" on:click=move |_| fill(MatchLimits::default())>"As supplied"</button>
            </div>
        </details>
    }
    .into_any()
}
