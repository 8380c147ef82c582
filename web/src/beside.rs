//! The search for laminates that go together, beside the page: what is sent there and what comes back.
//! Core searches, here and there alike.

use crate::shell::beside::{Beside, serve};
use serde::{Deserialize, Serialize};
use serde_wasm_bindgen::{from_value, to_value};
use stillwood_core::neck::{Laminate, MatchSearch, MatchTarget, Placed, SearchState};
use wasm_bindgen::JsValue;

/// Placings that are looked at before the page is told.
const SLICE: u64 = 20_000;

/// What is sought.
#[derive(Serialize, Deserialize)]
struct Sought {
    stock: Vec<Laminate>,
    wish: MatchTarget,
}

/// How far the search is, and the best sets so far.
#[derive(Serialize, Deserialize)]
pub(crate) struct Found {
    pub(crate) state: SearchState,
    pub(crate) sets: Vec<Vec<Placed>>,
}

impl Found {
    /// As a search stands.
    pub(crate) fn of(search: &MatchSearch) -> Self {
        let sets = search.proposals().into_iter().map(|found| found.blank);
        Self {
            state: search.state(),
            sets: sets.collect(),
        }
    }
}

/// Starts a search beside the page; `hear` is called with `None` where it breaks down. `None` where it
/// can't be had.
pub(crate) fn search(
    stock: Vec<Laminate>,
    wish: MatchTarget,
    hear: impl Fn(Option<Found>) + Clone + 'static,
) -> Option<Beside> {
    let sought = to_value(&Sought { stock, wish }).ok()?;
    Beside::start(sought, move |answer| {
        hear(answer.and_then(|answer| from_value(answer).ok()));
    })
}

/// In the worker: searches for what it is sent, to the end.
#[cfg_attr(test, allow(dead_code))]
pub(crate) fn work() {
    serve(|job, tell| {
        let told = |search: &MatchSearch| match to_value(&Found::of(search)) {
            Ok(found) => tell(&found),
            Err(_) => tell(&JsValue::UNDEFINED),
        };
        let search = from_value::<Sought>(job)
            .ok()
            .and_then(|sought| MatchSearch::new(&sought.stock, &sought.wish).ok());
        let Some(mut search) = search else {
            return tell(&JsValue::UNDEFINED);
        };
        while !search.go_on(SLICE).done {
            told(&search);
        }
        told(&search);
    });
}
