//! What the wood in a piece cost: its own part of the bill, and its share of what failed on the way.
//!
//! The bill of a plank goes down to what was cut from it by volume, waste paid for; what failed is paid
//! for by what came through of the same plank. Nothing is lost on the way: what is in blanks, in hand,
//! used and in planks of which nothing came through adds up to what was paid. It never knows labour, and
//! where a price or a size is not known it says nothing of that plank.

use crate::neck::{CARRIED, PART_OF_COST, cost_by_volume, cost_carried};
use crate::order;
use crate::plank::volume;
use crate::quantity::TraceOff;
use crate::quantity::{Derivation, Trace, formula, in_m3};
use crate::record::log::id::Id;
use crate::record::queries;
use crate::record::queries::VisitTally;
use crate::record::state::{End, Origin};
use crate::record::state::{Piece, State};
use crate::trade::tally_visit;
use rust_decimal::Decimal;
use std::collections::{BTreeMap, BTreeSet};

/// Tallies of visits, each worked out once.
type Tallies = BTreeMap<Id, Option<VisitTally>>;

/// Where wood ended that is not cut any further.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Fate {
    /// Thrown out, by itself or in its blank.
    Failed,
    InBlank,
    Used,
    /// Put to another use than a neck.
    OtherUse,
    InHand,
}

/// What became of pieces, by their ids.
type Fates = BTreeMap<Id, Fate>;

/// What became of a piece, where it is known what became of its children, or of the blank that it is in.
fn fate_of(piece: &Piece, further: &[Fate]) -> Fate {
    match piece.work.end.as_ref().map(|end| &end.payload) {
        Some(End::Discarded(..)) => Fate::Failed,
        Some(End::Cut(_)) => {
            let mut further = further.iter().copied();
            further
                .find(|fate| *fate != Fate::Failed)
                .unwrap_or(Fate::Failed)
        }
        Some(End::GluedInto(_)) => match further.first() {
            Some(Fate::InHand) | None => Fate::InBlank,
            Some(fate) => *fate,
        },
        Some(End::Used(_)) => Fate::Used,
        None if piece.work.downgraded.is_some() => Fate::OtherUse,
        None => Fate::InHand,
    }
}

/// A part of a plank that is not cut any further.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Leaf {
    piece: Id,
    own: Decimal,
    /// What it carries, its share of what failed included.
    carried: Decimal,
    fate: Fate,
}

/// A plank's bill and all that came of it.
struct Family {
    paid: Decimal,
    currency: String,
    /// What came through, at its own cost.
    through: Decimal,
    /// In the order of their ids.
    leaves: Vec<Leaf>,
}

/// What one laminate of a blank cost.
#[derive(Debug, Clone, PartialEq)]
pub struct PartCost {
    pub piece: Id,
    pub own: Decimal,
    /// What it carries, its share of what failed of its plank included; nothing in a blank that was
    /// discarded.
    pub carried: Decimal,
    /// What was paid for its plank, with tax.
    pub paid: Decimal,
    /// What of the plank came through, at its own cost.
    pub through: Decimal,
}

impl PartCost {
    /// How what it carries was worked out.
    pub fn worked(&self, currency: &str) -> Derivation {
        let mut working = Derivation::default();
        self.carries(&mut working.steps, currency);
        working.and("Its own wood is its part of the plank's bill by volume, waste paid for.")
    }

    /// What it carries; `None` in a plank of which nothing came through.
    fn carries(&self, trace: &mut impl Trace, currency: &str) -> Option<Decimal> {
        trace.exact_in(currency, &CARRIED, [self.own, self.paid, self.through])
    }
}

/// What the wood in a blank cost, with tax.
#[derive(Debug, Clone, PartialEq)]
pub struct BlankCost {
    /// Laminate by laminate, in order.
    pub parts: Vec<PartCost>,
    /// The laminates' own wood together.
    pub own: Decimal,
    /// With their share of what failed.
    pub carried: Decimal,
    /// The currency's letters.
    pub currency: String,
}

formula! {
    exact
    /// Costs of laminates added up.
    TOGETHER: "All its laminates together", "c", given;
    one: "c", "each laminate", given;
    = one;
    range "laminates of planks whose price and sizes are known";
    source "a sum";
}

/// What laminates cost together; `None` for none, or a sum of too many digits.
fn together(trace: &mut impl Trace, currency: &str, parts: &[[Decimal; 1]]) -> Option<Decimal> {
    trace.add_exact_in(currency, &TOGETHER, parts)
}

impl BlankCost {
    /// How it was worked out, laminate by laminate, and added up.
    pub fn worked(&self) -> Derivation {
        let mut working = Derivation::default();
        let mut carried = Vec::new();
        for part in &self.parts {
            let one = part.carries(&mut working.steps, &self.currency);
            carried.push([one.unwrap_or(part.carried)]);
        }
        together(&mut working.steps, &self.currency, &carried);
        working.notes.push(
            "A laminate's own wood is its part of the plank's bill by volume, waste paid for; alike ones are \
             told once."
                .into(),
        );
        working
    }

    /// How a sum over its laminates was worked out: of their own wood, or of what they carry for what
    /// failed.
    pub fn explain_sum(&self, own: bool) -> Derivation {
        let of = |part: &PartCost| match own {
            true => part.own,
            false => part.carried - part.own,
        };
        let parts: Vec<[Decimal; 1]> = self.parts.iter().map(|part| [of(part)]).collect();
        let mut working = Derivation::default();
        together(&mut working.steps, &self.currency, &parts);
        let what = match own {
            true => "Each laminate's part of its plank's bill by volume, waste paid for.",
            false => "What each laminate carries over its own wood, for what failed of its plank.",
        };
        working.and(what)
    }
}

/// Where the money went that was paid for planks, with tax. All but `paid` add up to `paid`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct CostAccount {
    /// The bills of all planks that can be followed.
    pub paid: Decimal,
    /// In blanks that are there, what failed of their planks included.
    pub in_blanks: Decimal,
    /// In blanks and wood that were used.
    pub used: Decimal,
    /// In wood that was put to another use.
    pub other_use: Decimal,
    /// In wood that rests or waits, or can't be found.
    pub in_hand: Decimal,
    /// In planks of which nothing came through.
    pub lost: Decimal,
}

formula! {
    exact
    /// Where the money went.
    ADDS_UP: "Paid for planks, with tax", "P", given;
    blanks: "b", "in blanks", given;
    used: "u", "used", given;
    other: "o", "put to another use", given;
    hand: "h", "in hand, resting or waiting", given;
    lost: "l", "in planks of which nothing came through", given;
    = blanks + used + other + hand + lost;
    range "planks whose price and sizes are known";
    source "the bills, shared out";
}

impl CostAccount {
    /// All that `paid` went to.
    pub fn parts(&self) -> [Decimal; 5] {
        [
            self.in_blanks,
            self.used,
            self.other_use,
            self.in_hand,
            self.lost,
        ]
    }

    /// How it adds up.
    pub fn worked(&self, currency: &str) -> Derivation {
        let mut working = Derivation::default();
        working.steps.exact_in(currency, &ADDS_UP, self.parts());
        working.and(
            "Each plank's bill goes down to what was cut from it by volume, waste paid for; what failed is paid \
             for by what came through of the same plank, in the measure of its own cost.",
        )
    }

    fn add(&mut self, family: &Family) {
        self.paid = self.paid.saturating_add(family.paid);
        if family.through.is_zero() {
            self.lost = self.lost.saturating_add(family.paid);
        }
        for leaf in &family.leaves {
            let place = match leaf.fate {
                Fate::Failed => continue,
                Fate::InBlank => &mut self.in_blanks,
                Fate::Used => &mut self.used,
                Fate::OtherUse => &mut self.other_use,
                Fate::InHand => &mut self.in_hand,
            };
            *place = place.saturating_add(leaf.carried);
        }
    }
}

/// What the wood in a piece cost, tax included: of a plank what the tally of its visit says, of what
/// was cut its part by volume, waste paid for; of a blank all its laminates together. What failed on
/// the way is not in it, see [`blank_cost`]. `None` while a price or a size is not known, or
/// currencies differ.
pub fn wood_cost(state: &State, id: Id) -> Option<(Decimal, String)> {
    let family = queries::family::parts_first(state, state.stands_for(id))?;
    cost_of(state, &mut TraceOff, &family)
}

/// What the wood in the last of a family cost, with its steps: the family is a piece and all that it was
/// made of, each after its own parts.
pub(crate) fn cost_of(
    state: &State,
    trace: &mut impl Trace,
    family: &[Id],
) -> Option<(Decimal, String)> {
    let mut costs: BTreeMap<Id, (Decimal, String)> = BTreeMap::new();
    let mut tallies = Tallies::new();
    for id in family {
        let piece = state.piece(*id)?;
        let cost = match &piece.work.origin {
            Origin::Yard => bill_of(state, piece, &mut tallies)?,
            Origin::CutFrom { parent, .. } => {
                let (whole, currency) = costs.get(&state.stands_for(*parent))?;
                let cut = cubic_metres_cut(state, *parent)?;
                let all = cut
                    .iter()
                    .try_fold(Decimal::ZERO, |sum, (_, one)| sum.checked_add(*one));
                let (_, own) = cut.iter().find(|(child, _)| *child == piece.id)?;
                let values = [*whole, *own, all?];
                let cost = trace.exact_in(currency, &PART_OF_COST, values)?;
                (cost, currency.clone())
            }
            Origin::GluedFrom { .. } => {
                let members = queries::made_of(state, piece.id);
                let each = members.iter().map(|member| costs.get(member));
                let each: Vec<&(Decimal, String)> = each.collect::<Option<_>>()?;
                let (_, currency) = each.first()?;
                if each.iter().any(|(_, other)| other != currency) {
                    return None;
                }
                let parts: Vec<[Decimal; 1]> = each.iter().map(|(cost, _)| [*cost]).collect();
                (together(trace, currency, &parts)?, currency.clone())
            }
        };
        costs.insert(*id, cost);
    }
    costs.remove(family.last()?)
}

/// What was paid for those of some pieces that are planks, with tax.
pub(crate) fn bills(state: &State, pieces: &[Id]) -> Vec<(Id, Decimal)> {
    let mut tallies = Tallies::new();
    let planks = pieces.iter().filter_map(|id| state.piece(*id));
    let planks = planks.filter(|piece| piece.work.origin == Origin::Yard);
    let bill = |plank: &Piece| Some((plank.id, bill_of(state, plank, &mut tallies)?.0));
    planks.filter_map(bill).collect()
}

/// What was paid for a plank, with tax, and in which currency.
fn bill_of(state: &State, plank: &Piece, tallies: &mut Tallies) -> Option<(Decimal, String)> {
    let visit = state.visit_of(plank)?;
    let tally = tallies
        .entry(visit.id)
        .or_insert_with(|| queries::tally_of(state, visit.id))
        .as_ref()?;
    // They are in the order of their ids.
    let place = tally
        .planks
        .binary_search_by_key(&plank.id, |one| one.piece);
    let money = match place.ok().and_then(|place| tally.planks.get(place)) {
        Some(line) => line.tallied.money,
        // One that was never said to be taken is reckoned by itself.
        None => {
            let charged = queries::charged(state, plank)?;
            let tally = tally_visit([(&charged.line, &charged.terms)]);
            tally.lines.into_iter().next()?.money
        }
    };
    Some((money.ok()?.gross, visit.opened.currency.clone()))
}

/// The cost of a piece that was cut, shared out to what came of the cut, by volume.
fn shared_out(state: &State, parent: Id, cost: Decimal) -> Option<Vec<(Id, Decimal)>> {
    let cut = cubic_metres_cut(state, parent)?;
    let (children, volumes): (Vec<Id>, Vec<Decimal>) = cut.into_iter().unzip();
    let parts = cost_by_volume(cost, &volumes)?;
    Some(children.into_iter().zip(parts).collect())
}

/// What was cut from a piece, with the volumes in m³, to the cubic millimetre; `None` while a size is not
/// known.
fn cubic_metres_cut(state: &State, parent: Id) -> Option<Vec<(Id, Decimal)>> {
    let Some(End::Cut(_)) = state.piece(parent)?.work.end.as_ref().map(|e| &e.payload) else {
        return None;
    };
    let volume = |one| {
        let size = queries::size_of(state, state.piece(one)?);
        let in_mm3 = in_m3(volume(&mut TraceOff, &size).ok()?) * 1e9;
        Some((one, Decimal::new(in_mm3.round() as i64, 9)))
    };
    let cut = queries::made_from(state, parent);
    cut.into_iter().map(volume).collect()
}

/// What became of a piece that was not cut, or of the blank that it is in; of one that was cut, what became
/// of the first of its children that did not fail. What was found on the way is kept.
fn fate(state: &State, piece: &Piece, known: &mut Fates) -> Fate {
    let mut open = vec![(piece, false)];
    while let Some((piece, asked)) = open.pop() {
        if known.contains_key(&piece.id) {
            continue;
        }
        let further = match piece.work.end.as_ref().map(|end| &end.payload) {
            Some(End::Cut(_) | End::GluedInto(_)) => queries::made_from(state, piece.id),
            _ => Vec::new(),
        };
        if asked || further.is_empty() {
            let fates: Vec<Fate> = further
                .iter()
                .filter_map(|id| known.get(id).copied())
                .collect();
            known.insert(piece.id, fate_of(piece, &fates));
            continue;
        }
        open.push((piece, true));
        open.extend(
            further
                .into_iter()
                .filter_map(|id| Some((state.piece(id)?, false))),
        );
    }
    known.get(&piece.id).copied().unwrap_or(Fate::InHand)
}

/// A plank's bill, followed to all that came of it.
fn family_cost(
    state: &State,
    plank: &Piece,
    tallies: &mut Tallies,
    known: &mut Fates,
) -> Option<Family> {
    let (paid, currency) = bill_of(state, plank, tallies)?;
    let mut open = vec![(plank.id, paid)];
    let mut seen = BTreeSet::new();
    let mut ends: Vec<(&Piece, Decimal)> = Vec::new();
    while let Some((id, cost)) = open.pop() {
        let piece = state.piece(id).filter(|piece| seen.insert(piece.id))?;
        match piece.work.end.as_ref().map(|end| &end.payload) {
            Some(End::Cut(cut)) if !cut.children.is_empty() => {
                open.extend(shared_out(state, id, cost)?);
            }
            _ => ends.push((piece, cost)),
        }
    }
    let fates: Vec<Fate> = ends
        .iter()
        .map(|(piece, _)| fate(state, piece, known))
        .collect();
    let parts: Vec<(Decimal, bool)> = ends
        .iter()
        .zip(&fates)
        .map(|((_, own), fate)| (*own, *fate != Fate::Failed))
        .collect();
    let through = parts.iter().filter(|(_, came)| *came);
    let through = through.fold(Decimal::ZERO, |sum, (own, _)| sum.saturating_add(*own));
    // Of a plank of which nothing came through nobody carries the cost.
    let carried = cost_carried(&parts).unwrap_or_else(|| vec![Decimal::ZERO; parts.len()]);
    let leaves = ends.iter().zip(fates).zip(carried);
    let leaves = leaves.map(|(((piece, own), fate), carried)| Leaf {
        piece: piece.id,
        own: *own,
        carried,
        fate,
    });
    let mut leaves: Vec<Leaf> = leaves.collect();
    order::sort_by_key(&mut leaves, |leaf| leaf.piece);
    Some(Family {
        paid,
        currency,
        through,
        leaves,
    })
}

/// What the wood in a blank cost, tax included, laminate by laminate: its own part of the plank's
/// bill, and with its share of what failed of that plank. `None` while a price or a size is not
/// known, currencies differ, or a laminate is not of one plank.
pub fn blank_cost(state: &State, blank: Id) -> Option<BlankCost> {
    let (mut tallies, mut fates) = (Tallies::new(), Fates::new());
    let mut families: BTreeMap<Id, Family> = BTreeMap::new();
    let mut parts = Vec::new();
    for member in queries::made_of(state, blank) {
        let plank = queries::plank_of(state, state.piece(member)?)?;
        if let std::collections::btree_map::Entry::Vacant(place) = families.entry(plank) {
            place.insert(family_cost(
                state,
                state.piece(plank)?,
                &mut tallies,
                &mut fates,
            )?);
        }
        let family = families.get(&plank)?;
        let leaf = family
            .leaves
            .binary_search_by_key(&member, |leaf| leaf.piece);
        let leaf = family.leaves.get(leaf.ok()?)?;
        parts.push(PartCost {
            piece: member,
            own: leaf.own,
            carried: leaf.carried,
            paid: family.paid,
            through: family.through,
        });
    }
    let mut currencies = families.into_values().map(|family| family.currency);
    let currency = currencies.next()?;
    if currencies.any(|other| other != currency) {
        return None;
    }
    let sum = |of: fn(&PartCost) -> Decimal| {
        let all = parts.iter().map(of);
        all.fold(Decimal::ZERO, Decimal::saturating_add)
    };
    Some(BlankCost {
        own: sum(|part| part.own),
        carried: sum(|part| part.carried),
        parts,
        currency,
    })
}

/// Where the money went that was paid for planks, currency by currency; and how many planks can't be
/// followed because a price or a size is not known.
pub fn cost_account(state: &State) -> (BTreeMap<String, CostAccount>, usize) {
    let (mut tallies, mut fates) = (Tallies::new(), Fates::new());
    let mut accounts: BTreeMap<String, CostAccount> = BTreeMap::new();
    let mut unknown = 0;
    let bought = |piece: &&Piece| piece.is_bought() && !piece.withdrawn;
    for plank in state.planks().filter(bought) {
        match family_cost(state, plank, &mut tallies, &mut fates) {
            Some(family) => {
                let account = accounts.entry(family.currency.clone()).or_default();
                account.add(&family);
            }
            None => unknown += 1,
        }
    }
    (accounts, unknown)
}
