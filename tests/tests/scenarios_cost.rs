//! What the wood of a blank cost with its share of what failed: no cent is lost on the way from the bill
//! to what came through.

use proptest::prelude::*;
use rust_decimal::Decimal;
use stillwood_core::notebook::{
    Book, CostAccount, Discarded, Downgraded, Happening, Kind, Used, child_marks,
};
use stillwood_tests::dice::Dice;
use stillwood_tests::workshop::{bought, taken, to_the_rack};
use stillwood_tests::yard::Phone;
use uuid::Uuid;

/// Gives the pile of a plank the thickness that it is sold as: without it there is no price.
fn price(phone: &mut Phone, plank: Uuid) {
    let book = phone.notebook.fold();
    let pile = book.pile(book.piece(plank).unwrap().pile).unwrap();
    let mut opened = pile.opened.clone();
    opened.nominal_thickness = Some(taken(50.8, "mm"));
    let opened = Happening::PileOpened(Box::new(opened));
    phone.correct(pile.id, opened, book.begun_by(pile.id));
}

fn throw_out(phone: &mut Phone, piece: Uuid) {
    phone.record(piece, Happening::Discarded(Discarded::default()));
}

fn account(book: &Book) -> CostAccount {
    let (accounts, unknown) = book.cost_account();
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
    assert_eq!(phone.notebook.fold().blank_cost(blank), None, "no price");
    price(&mut phone, plank);
    let book = phone.notebook.fold();
    let before = book.blank_cost(blank).unwrap();
    let (own, currency) = book.wood_cost(blank).unwrap();
    assert!(alike(before.own, own) && before.currency == currency);
    // Nothing failed yet: it carries its own wood and no more.
    assert!(alike(before.carried, before.own));
    // Two of the three laminates left, and the piece that was not ripped.
    let waiting: Vec<Uuid> = book.stock().map(|piece| piece.id).collect();
    let (bill, _) = book.wood_cost(plank).unwrap();
    let left: Vec<Uuid> = waiting
        .into_iter()
        .filter(|id| book.piece(*id).unwrap().work.kind != Kind::Blank)
        .collect();
    assert_eq!(left.len(), 4);
    for piece in &left[..3] {
        throw_out(&mut phone, *piece);
    }
    let book = phone.notebook.fold();
    let after = book.blank_cost(blank).unwrap();
    assert!(alike(after.own, own) && after.carried > after.own);
    let found = account(&book);
    assert!(alike(found.paid, bill) && alike(found.in_blanks, after.carried));
    assert!(alike(found.in_blanks + found.in_hand, bill));
    let told = after.worked();
    let last = told.steps.last().unwrap().result;
    let carried: f64 = after.carried.to_string().parse().unwrap();
    assert!((last - carried).abs() < 1e-9);
    let own = after.sum_worked(true).steps[0].result;
    let failed = after.sum_worked(false).steps[0].result;
    assert!((own + failed - carried).abs() < 1e-9);
    // The last goes too: the blank pays for all of it; and thrown out, it is a plank lost.
    throw_out(&mut phone, left[3]);
    let book = phone.notebook.fold();
    assert!(alike(book.blank_cost(blank).unwrap().carried, bill));
    throw_out(&mut phone, blank);
    let book = phone.notebook.fold();
    assert_eq!(book.blank_cost(blank).unwrap().carried, Decimal::ZERO);
    assert!(alike(account(&book).lost, bill));
}

/// Something happens to a piece that is there.
fn something(phone: &mut Phone, dice: &mut Dice, piece: Uuid, loose: &mut Vec<Uuid>) {
    match dice.below(6) {
        0 => throw_out(phone, piece),
        1 => {
            let became = "a lamp".into();
            phone.record(piece, Happening::Used(Used { became }));
        }
        2 => {
            let down = Downgraded {
                to: "veneer".into(),
                ..Downgraded::default()
            };
            phone.record(piece, Happening::Downgraded(down));
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
                    let marks = child_marks(name, Kind::Laminate, 1 + dice.below(5));
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
        let book = phone.notebook.fold();
        let found = account(&book);
        let paid: Decimal = bills.iter().map(|plank| book.wood_cost(*plank).unwrap().0).sum();
        prop_assert!(alike(found.paid, paid), "{found:?} {paid}");
        let parts: Decimal = found.parts().iter().sum();
        prop_assert!(alike(parts, paid), "{found:?}");
        let costs = blanks.iter().map(|blank| book.blank_cost(*blank).unwrap());
        let carried: Decimal = costs.map(|cost| cost.carried).sum();
        prop_assert!(alike(carried, found.in_blanks), "{found:?} {carried}");
    }
}
