//! What the wood of a blank cost with its share of what failed: no cent is lost on the way from the bill
//! to what came through.

use proptest::prelude::*;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive;
use stillwood_core::plank::{Field, Reason};
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{
    CostAccount, Decision, Downgraded, Event, Judged, PieceKind, State, Used, child_marks,
};
use stillwood_tests::dice::Dice;
use stillwood_tests::workshop::{bought, to_the_rack};
use stillwood_tests::yard::{A7, Phone};

/// Gives the pile of a plank its thickness.
fn price(phone: &mut Phone, plank: Id) {
    let pile = phone.state().piece(plank).unwrap().pile;
    phone.sell_as_two_inches(pile);
}

fn throw_out(phone: &mut Phone, piece: Id) {
    phone.discard(piece, Reason::Moved);
}

fn account(state: &State) -> CostAccount {
    let (accounts, unknown) = queries::cost_account(state);
    assert_eq!(unknown, 0);
    accounts.into_values().next().unwrap()
}

/// The same but for the last digits of division.
fn alike(a: Decimal, b: Decimal) -> bool {
    (a - b).abs() < Decimal::new(1, 6)
}

#[test]
fn a_blank_pays_for_what_failed_beside_it() {
    let (mut phone, plank, blank) = to_the_rack();
    let unpriced = phone.state();
    assert_eq!(queries::blank_cost(&unpriced, blank), None, "no price");
    let (accounts, unknown) = queries::cost_account(&unpriced);
    assert_eq!((accounts.len(), unknown), (0, 1));
    price(&mut phone, plank);
    let state = phone.state();
    let before = queries::blank_cost(&state, blank).unwrap();
    let (own, currency) = queries::wood_cost(&state, blank).unwrap();
    assert!(alike(before.own, own) && before.currency == currency);
    // Nothing failed yet: it carries its own wood and no more.
    assert!(alike(before.carried, before.own));
    // Two of the three laminates left, and the piece that was not ripped.
    let waiting: Vec<Id> = queries::stock(&state).map(|piece| piece.id).collect();
    let (bill, _) = queries::wood_cost(&state, plank).unwrap();
    let left: Vec<Id> = waiting
        .into_iter()
        .filter(|id| state.piece(*id).unwrap().work.kind != PieceKind::Blank)
        .collect();
    assert_eq!(left.len(), 4);
    for piece in &left[..3] {
        throw_out(&mut phone, *piece);
    }
    let state = phone.state();
    let after = queries::blank_cost(&state, blank).unwrap();
    assert!(alike(after.own, own) && after.carried > after.own);
    let found = account(&state);
    assert!(alike(found.paid, bill) && alike(found.in_blanks, after.carried));
    assert!(alike(found.in_blanks + found.in_hand, bill));
    let told = after.worked();
    let last = told.steps.last().unwrap().result;
    let carried: f64 = after.carried.to_string().parse().unwrap();
    assert!((last - carried).abs() < 1e-9);
    let own = after.explain_sum(true).steps[0].result;
    let failed = after.explain_sum(false).steps[0].result;
    assert!((own + failed - carried).abs() < 1e-9);
    // The last goes too: the blank pays for all of it; and thrown out, it is a plank lost.
    throw_out(&mut phone, left[3]);
    let state = phone.state();
    assert!(alike(
        queries::blank_cost(&state, blank).unwrap().carried,
        bill
    ));
    throw_out(&mut phone, blank);
    let state = phone.state();
    assert_eq!(
        queries::blank_cost(&state, blank).unwrap().carried,
        Decimal::ZERO
    );
    assert!(alike(account(&state).lost, bill));
}

fn something(phone: &mut Phone, dice: &mut Dice, piece: Id, loose: &mut Vec<Id>) {
    match dice.below(6) {
        0 => throw_out(phone, piece),
        1 => {
            let became = "a lamp".into();
            phone.say(piece, Event::Used(Used { became }));
        }
        2 => {
            let down = Downgraded {
                to: "veneer".into(),
                ..Downgraded::default()
            };
            phone.say(piece, Event::Downgraded(down));
        }
        3 => {}
        _ => loose.push(piece),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]
    /// What was paid is in blanks, used, put to another use, in hand or lost with a whole plank; and what
    /// is in blanks is what the blanks cost one by one.
    #[test]
    fn no_cent_is_lost(seed: u64, planks in 1usize..5) {
        let mut dice = Dice::of(seed, 1);
        let mut phone = Phone::new("K7");
        let mut bills = Vec::new();
        let mut loose = Vec::new();
        for n in 0..planks {
            let plank = bought(&mut phone, &format!("A{n}"));
            price(&mut phone, plank);
            bills.push(plank);
            if dice.once_in(5) {
                something(&mut phone, &mut dice, plank, &mut Vec::new());
                continue;
            }
            let names = [format!("A{n}a"), format!("A{n}b")];
            let layout = [(names[0].as_str(), 80.0, 1030.0), (names[1].as_str(), 1040.0, 2000.0)];
            for (piece, name) in phone.crosscut(plank, &layout).into_iter().zip(&names) {
                let mut whole = Vec::new();
                something(&mut phone, &mut dice, piece, &mut whole);
                for piece in whole {
                    let marks = child_marks(name, PieceKind::Laminate, 1 + dice.below(5));
                    for laminate in phone.rip(piece, &marks, 16.0) {
                        something(&mut phone, &mut dice, laminate, &mut loose);
                    }
                }
            }
        }
        let mut blanks = Vec::new();
        for (n, set) in loose.chunks(3).enumerate() {
            let blank = phone.glue(&format!("B{n}"), set, "0417");
            if dice.once_in(3) {
                throw_out(&mut phone, blank);
            }
            blanks.push(blank);
        }
        let state = phone.state();
        let found = account(&state);
        let paid: Decimal = bills.iter().map(|plank| queries::wood_cost(&state, *plank).unwrap().0).sum();
        prop_assert!(alike(found.paid, paid), "{found:?} {paid}");
        let parts: Decimal = found.parts().iter().sum();
        prop_assert!(alike(parts, paid), "{found:?}");
        let told = found.worked("EUR").steps[0].result;
        prop_assert!((told - paid.to_f64().unwrap()).abs() < 1e-5, "{found:?} {told}");
        let costs = blanks.iter().map(|blank| queries::blank_cost(&state, *blank).unwrap());
        let carried: Decimal = costs.map(|cost| cost.carried).sum();
        prop_assert!(alike(carried, found.in_blanks), "{found:?} {carried}");
    }
}

#[test]
fn each_plank_of_a_visit_has_its_own_bill() {
    let mut phone = Phone::new("K7");
    let (visit, pile) = phone.pile();
    let long = phone.plank(pile, "A7", &A7);
    let half = A7.map(|(field, text)| match field {
        Field::Length => (field, "1310"),
        _ => (field, text),
    });
    let short = phone.plank(pile, "B1", &half);
    price(&mut phone, long);
    for plank in [short, long] {
        let judged = Judged {
            decision: Decision::Take,
            proposed: None,
            reasons: Vec::new(),
            score: None,
            weakest: None,
        };
        phone.say(plank, Event::Judged(judged));
    }
    let state = phone.state();
    let tally = queries::tally_of(&state, visit).unwrap();
    assert_eq!(tally.planks.len(), 2);
    for line in &tally.planks {
        let gross = line.tallied.money.as_ref().unwrap().gross;
        assert_eq!(
            queries::wood_cost(&state, line.piece),
            Some((gross, "EUR".to_owned()))
        );
    }
    let cost = |plank| queries::wood_cost(&state, plank).unwrap().0;
    assert!(cost(long) > cost(short) && cost(short) > Decimal::ZERO);
}

#[test]
fn a_blank_that_was_cut_up_is_lost_once_all_of_it_is_thrown_out() {
    let (mut phone, plank, blank) = to_the_rack();
    price(&mut phone, plank);
    let before = account(&phone.state());
    let halves = phone.crosscut(blank, &[("B012a", 0.0, 475.0), ("B012b", 475.0, 950.0)]);
    let cut = account(&phone.state());
    assert_eq!(cut, before, "cut up it is a blank all the same");
    throw_out(&mut phone, halves[0]);
    assert_eq!(account(&phone.state()), before);
    throw_out(&mut phone, halves[1]);
    let after = account(&phone.state());
    assert_eq!(after.in_blanks, Decimal::ZERO);
    // What waits of the plank pays for it.
    assert!(alike(after.in_hand, after.paid) && alike(after.paid, before.paid));
}
