//! What the maker wants of a blank: the wood at each place, the same on both sides unless said otherwise,
//! and how far laminates glued together may be off.

use super::Gluing;
use crate::app::App;
use crate::held::{Begun, Part, Wrong, remember};
use crate::parts::{CollectAny, NumberField, Tick, When, live};
use crate::record::Deed;
use leptos::prelude::*;
use stillwood_core::neck::{MOST_PLACES, MatchLimits, MatchTarget};
use stillwood_core::quantity::show;
use stillwood_core::record::{Event, GluingSet};

/// The wood wished for at each place, from one side; empty for any.
#[derive(Clone, Copy)]
pub(super) struct Woods {
    places: RwSignal<Vec<String>>,
    mirrored: RwSignal<bool>,
}

impl Woods {
    /// As they were chosen when the screen was last shown.
    pub(super) fn remembered(app: App) -> Self {
        let (places, mirrored) = (RwSignal::new(Vec::new()), RwSignal::new(true));
        let parts = vec![
            Part::of("woods by place", places),
            Part::of("the same on both sides", mirrored),
        ];
        remember(app, "glue", parts);
        places.update(|places| places.resize(MOST_PLACES, String::new()));
        Self { places, mirrored }
    }

    /// Whether a wood was asked for anywhere.
    pub(super) fn any_asked(self) -> bool {
        self.places
            .with(|places| places.iter().any(|wood| !wood.is_empty()))
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
pub(super) fn wish(gluing: Gluing, count: usize) -> MatchTarget {
    let woods = gluing.woods;
    let number = |name: &String| {
        gluing.stock.with_untracked(|stock| {
            let one = stock.iter().find(|one| one.wood == *name);
            one.map(|one| one.laminate.wood)
        })
    };
    let mut wish = MatchTarget::of(count);
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
    let chosen = |places: &Vec<String>| places.iter().any(|place| !place.is_empty());
    let chosen = gluing.woods.places.with_untracked(chosen);
    view! {
        <When so=so>
            <details id="woods" open=chosen>
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

/// Under which the limits are kept while they are half typed.
const HALF_TYPED: &str = "gluing limits";

/// The limits, closed at first; kept in the record.
pub(super) fn limits(app: App, gluing: Gluing) -> AnyView {
    let texts = LIMITS.map(|_| RwSignal::new(String::new()));
    let fill = move |limits: MatchLimits| {
        let mut set = GluingSet::of(&limits);
        for ((_, at), text) in LIMITS.iter().zip(texts) {
            text.set(show::number(*at(&mut set), 3));
        }
    };
    fill(gluing.limits.get_untracked());
    let open = app
        .forms
        .with_untracked(|forms| forms.contains_key(HALF_TYPED));
    let parts = LIMITS.iter().zip(texts);
    let parts = parts.map(|((name, _), text)| Part::text(*name, text));
    let words = "limits for what is glued together".to_owned();
    let begun = Begun::open(app, HALF_TYPED.to_owned(), words, parts.collect());
    // Set elsewhere or taken back, they stand here as they are; what is half typed stays.
    Effect::new(move |before: Option<MatchLimits>| {
        let now = gluing.limits.get();
        let other = before.is_some_and(|before| before != now);
        if other
            && !app
                .forms
                .with_untracked(|forms| forms.contains_key(HALF_TYPED))
        {
            fill(now);
            begun.begin_anew();
        }
        now
    });
    let keep = move |_| match typed(gluing, texts) {
        Ok(set) => {
            let Some(id) = app.new_id() else { return };
            let deed = Deed::new(id, Event::GluingSet(Box::new(set)));
            let said = "Limits for gluing kept.".to_owned();
            begun.record_and_say(vec![deed], said, move || {
                fill(gluing.limits.get_untracked());
                begun.begin_anew();
            });
        }
        Err(wrong) => begun.say(wrong),
    };
    let fields = LIMITS.iter().zip(texts);
    let fields =
        fields.map(|((name, _), text)| view! { <NumberField name=*name value=text form=begun /> });
    view! {
        <details id="limits" open=open>
            <summary>"How far they may be off"</summary>
            {begun.note()}
            <p class="small">
                "What is supplied is common practice, no source. Crook and twist are of the whole blank; thickness, \
                 density and stiffness between places that mirror each other."
            </p>
            <div class="pair">{fields.collect_any()}</div>
            <p class="error-line" role="alert">{live(move || begun.line())}</p>
            <div class="row stretch">
                <button
                    type="button" class="primary" id="keep-limits" on:click=keep
                    disabled=move || begun.busy()
                >
                    "Keep these limits"
                </button>
                <button type="button" on:click=move |_| fill(MatchLimits::default())>"As supplied"</button>
            </div>
        </details>
    }
    .into_any()
}

/// The limits as they are typed.
fn typed(gluing: Gluing, texts: [RwSignal<String>; LIMITS.len()]) -> Result<GluingSet, Wrong> {
    let mut set = GluingSet::of(&gluing.limits.get_untracked());
    for ((name, at), text) in LIMITS.iter().zip(texts) {
        let typed = text.get_untracked();
        let read = typed.trim().replace(',', ".").parse::<f64>().ok();
        match read.filter(|value| *value > 0.0 && value.is_finite()) {
            Some(value) => *at(&mut set) = value,
            None => {
                let why = format!("A number more than 0, not “{typed}”.");
                return Err(Wrong::at(name, why));
            }
        }
    }
    Ok(set)
}
