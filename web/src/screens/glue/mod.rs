//! Gluing up: which laminates, how many to a blank, the sets that go together best, and the gluing
//! itself. Only laminates that are ready are chosen; all others can be taken in by a touch, and say how they
//! stand.

mod blank;
mod record;
mod seek;
mod sides;
mod wish;

use crate::app::App;
use crate::drawings::LaminateDrawn;
use crate::parts::{CollectAny, Frame, NumberField, When, live};
use crate::route::Route;
use crate::screens::workshop::resting;
use crate::shell::beside::Beside;
use crate::shell::clock;
use leptos::prelude::*;
use stillwood_core::neck::{Laminate, MatchLimits, Placed, Proposal, SearchState, Turn};
use stillwood_core::plank::RingTilt;
use stillwood_core::quantity::{Angle, in_degrees, in_mm, mm};
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{Member, ReadyLaminate, date};
use stillwood_core::season::{FEELER_MM, Ready};

/// What the screen works on.
#[derive(Clone, Copy)]
pub(super) struct Gluing {
    /// Laminates at hand.
    stock: Memo<Vec<ReadyLaminate>>,
    /// Those that may be glued now.
    chosen: RwSignal<Vec<Id>>,
    /// How many make the blank.
    count: RwSignal<String>,
    /// Those that were looked through; proposals count in it.
    sought: RwSignal<Vec<ReadyLaminate>>,
    /// How far the search is; `None` before one.
    state: RwSignal<Option<SearchState>>,
    /// The search goes on.
    running: RwSignal<bool>,
    /// Why nothing can be sought.
    trouble: RwSignal<String>,
    /// The best sets so far.
    proposals: RwSignal<Vec<Proposal>>,
    /// The set in hand.
    blank: RwSignal<Vec<Placed>>,
    /// The set as it was proposed, before it was changed by hand.
    proposed: RwSignal<Vec<Placed>>,
    /// The wood wished for at each place.
    woods: wish::Woods,
    /// How far a blank may be off.
    limits: Memo<MatchLimits>,
    /// The search beside the page, while it runs.
    beside: StoredValue<Option<Beside>, LocalStorage>,
}

impl Gluing {
    /// The laminates in hand, and which way round each lies.
    fn members(self) -> Vec<Member> {
        self.sought.with(|stock| {
            let member = |placed: &Placed| {
                Some(Member {
                    piece: stock.get(placed.laminate)?.piece,
                    turned_over: placed.turn.turned_over,
                    turned: placed.turn.end_for_end,
                })
            };
            self.blank
                .with(|blank| blank.iter().filter_map(member).collect())
        })
    }

    /// Takes laminates in hand, those that are still there, to be swapped for those that are chosen.
    fn take_up(self, members: &[Member]) {
        let chosen = self.chosen.get_untracked();
        let in_hand = |piece| members.iter().any(|member| member.piece == piece);
        let mut sought = self.stock.get_untracked();
        sought.retain(|one| in_hand(one.piece) || chosen.contains(&one.piece));
        let mut blank = Vec::new();
        for member in members {
            if let Some(at) = sought.iter().position(|one| one.piece == member.piece) {
                blank.push(Placed {
                    laminate: at,
                    turn: Turn {
                        turned_over: member.turned_over,
                        end_for_end: member.turned,
                    },
                });
            }
        }
        self.sought.set(sought);
        self.blank.set(blank);
    }

    fn laminates(stock: &[ReadyLaminate]) -> Vec<Laminate> {
        stock.iter().map(|one| one.laminate).collect()
    }
}

/// How the laminates of a set are drawn.
pub(super) fn drawn_of(stock: &[ReadyLaminate], blank: &[Placed]) -> Vec<LaminateDrawn> {
    let one = |placed: &Placed| {
        let ready = stock.get(placed.laminate)?;
        let (laminate, turn) = (&ready.laminate, placed.turn);
        let lean = laminate.lean.map(|lean| slant(lean, ready.ring_angle));
        Some(LaminateDrawn {
            mark: ready.mark.clone(),
            thickness: in_mm(laminate.thickness),
            width: in_mm(laminate.width),
            rings: lean.map(|lean| lean * turn.of_lean()),
            runs: laminate.rise.map(|rise| rise.sign() * turn.of_runout()),
            turn,
        })
    };
    blank.iter().filter_map(one).collect()
}

/// How far rings are drawn from the wide face, degrees; where only the side is known, as rift.
fn slant(lean: RingTilt, angle: Option<Angle>) -> f64 {
    let angle = angle.map(in_degrees);
    match lean {
        RingTilt::Neither if angle.is_some_and(|angle| angle < 45.0) => 0.0,
        RingTilt::Neither => 90.0,
        lean => lean.sign() * angle.unwrap_or(60.0),
    }
}

fn at_hand(app: App) -> Vec<ReadyLaminate> {
    let Some(today) = date(&clock::now().day) else {
        return Vec::new();
    };
    let tools = app.settings.with(|settings| settings.instruments);
    let lines = resting(app);
    app.state(|state| queries::laminates_to_glue(state, &lines, today, mm(FEELER_MM), &tools).0)
}

/// The screen.
pub(crate) fn glue_screen() -> AnyView {
    let app = expect_context::<App>();
    let stock = Memo::new(move |_| at_hand(app));
    let ready = stock.with_untracked(|stock| {
        let ready = stock.iter().filter(|one| one.ready == Ready::Yes);
        ready.map(|one| one.piece).collect::<Vec<_>>()
    });
    let gluing = Gluing {
        stock,
        chosen: RwSignal::new(ready),
        count: RwSignal::new(usual_count(app).to_string()),
        sought: RwSignal::new(Vec::new()),
        state: RwSignal::new(None),
        running: RwSignal::new(false),
        trouble: RwSignal::new(String::new()),
        proposals: RwSignal::new(Vec::new()),
        blank: RwSignal::new(Vec::new()),
        proposed: RwSignal::new(Vec::new()),
        woods: wish::Woods::remembered(app),
        limits: Memo::new(move |_| app.state(queries::match_limits)),
        beside: StoredValue::new_local(None),
    };
    // What is seen on a laminate meanwhile counts for the sets that were found.
    Effect::new(move |_| {
        let stock = gluing.stock.get();
        let newer = |one: &ReadyLaminate| stock.iter().find(|now| now.piece == one.piece);
        let changed = |one: &ReadyLaminate| newer(one).is_some_and(|now| now != one);
        if gluing
            .sought
            .with_untracked(|sought| sought.iter().any(changed))
        {
            gluing.sought.update(|sought| {
                for one in sought {
                    if let Some(now) = newer(one) {
                        *one = now.clone();
                    }
                }
            });
        }
    });
    let none = move || {
        stock.with(Vec::is_empty).then(|| {
            view! {
                <p class="note" id="no-laminates">
                    "No laminate waits to be glued. They come here once a piece is ripped and its sizes are known."
                </p>
            }
        })
    };
    let any = move || !stock.with(Vec::is_empty);
    view! {
        <Frame title="Glue up a blank" back=Route::Workshop class="wide">
            {live(none)}
            <div class="two">
                <div>
                    <When so=Signal::derive(any)>
                        <h2>"Which may be glued"</h2>
                        <p class="small">
                            "Those that are ready are chosen. Touch one to take it in or leave it out."
                        </p>
                        <div id="laminates">{live(move || by_readiness(gluing))}</div>
                        <div class="pair">
                            <NumberField name="Laminates in the blank" value=gluing.count />
                        </div>
                        {wish::by_place(gluing)}
                        {sides::to_look_at(app, gluing)}
                        {wish::limits(app, gluing)}
                        {seek::buttons(gluing)}
                    </When>
                    {seek::found(app, gluing)}
                </div>
                <div>
                    {blank::in_hand(app, gluing)}
                    {record::gluing(app, gluing)}
                    {cautions(app, gluing)}
                </div>
            </div>
        </Frame>
    }
    .into_any()
}

/// As many as the last visit's spec has.
fn usual_count(app: App) -> u32 {
    let last = app.book_now(|state| {
        let visits = state
            .visits()
            .map(|v| (v.recorded.on, v.opened.spec.parts_per_blank));
        visits.max_by_key(|(on, _)| *on)
    });
    last.map_or(5, |(_, parts)| parts).max(2)
}

/// What can hurt between the planer and the clamps; what is known of the woods in hand.
fn cautions(app: App, gluing: Gluing) -> AnyView {
    let words = move || {
        let blank = gluing.blank.get();
        if blank.is_empty() {
            return None;
        }
        let mut woods: Vec<String> = Vec::new();
        gluing.sought.with(|stock| {
            for one in blank.iter().filter_map(|placed| stock.get(placed.laminate)) {
                let named =
                    app.state(|state| queries::species_of(state, state.piece(one.piece)?).cloned());
                let dust = named.and_then(|named| app.wood_of(&named));
                let words = dust.map(|wood| format!("{}: {}", one.wood, wood.dust().words()));
                woods.extend(words.filter(|words| !woods.contains(words)));
            }
        });
        Some(view! {
            <section class="small" id="glue-cautions" aria-label="Cautions">
                {woods.into_iter().map(|words| view! { <p>{words}</p> }).collect_any()}
                <p>
                    "Glue that is not cured can make skin and lungs sensitive for good: gloves and fresh air, as its \
                     sheet says. Dust of cured glue too. A planer takes short and thin strips badly: keep to the least \
                     length that it is made for. A clamp that slips flies."
                </p>
            </section>
        })
    };
    live(words).into_any()
}

/// All laminates, those that are ready first.
fn by_readiness(gluing: Gluing) -> AnyView {
    let stock = gluing.stock.get();
    let group = |ready: Ready| {
        let mut of = stock.clone();
        of.retain(|one| one.ready == ready);
        (!of.is_empty()).then(|| {
            view! {
                <h3>{ready.heading()}</h3>
                <div class="chips">{chips(gluing, of)}</div>
            }
        })
    };
    Ready::ALL.into_iter().filter_map(group).collect_any()
}

fn chips(gluing: Gluing, of: Vec<ReadyLaminate>) -> AnyView {
    let one = move |ready: ReadyLaminate| {
        let id = ready.piece;
        let class = ready.laminate.ring_class.map_or("", |class| class.name());
        let words = [ready.wood.as_str(), class, ready.rest];
        let words: Vec<&str> = words.into_iter().filter(|one| !one.is_empty()).collect();
        let words = words.join(", ");
        let chosen = move || gluing.chosen.with(|chosen| chosen.contains(&id));
        let touch = move |_| {
            gluing
                .chosen
                .update(|chosen| match chosen.iter().position(|one| *one == id) {
                    Some(at) => drop(chosen.remove(at)),
                    None => chosen.push(id),
                });
        };
        view! {
            <button type="button" class="chip" aria-pressed=move || chosen().to_string() on:click=touch>
                <strong>{ready.mark}</strong>
                <small>{words}</small>
            </button>
        }
    };
    of.into_iter().map(one).collect_any()
}
