//! The specs that a new visit may take: the maker's own of earlier visits, then those supplied.

use crate::order;
use crate::record::state::State;
use crate::verdict::Spec;
use std::cmp::Reverse;

/// So many of the maker's own are offered.
const OWN_OFFERED: usize = 4;

/// The maker's own specs of earlier visits, newest first, then those supplied, each once.
pub fn specs_on_offer(state: &State) -> Vec<Spec> {
    let mut visits: Vec<_> = state.visits().collect();
    order::sort_by_key(&mut visits, |visit| Reverse((visit.recorded.on, visit.id)));
    let mut specs: Vec<Spec> = Vec::new();
    for visit in visits {
        if !specs.contains(&visit.opened.spec) && specs.len() < OWN_OFFERED {
            specs.push(visit.opened.spec.clone());
        }
    }
    for supplied in Spec::supplied() {
        if !specs.contains(&supplied) {
            specs.push(supplied);
        }
    }
    specs
}
