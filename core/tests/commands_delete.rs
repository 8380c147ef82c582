//! What is deleted and brought back: visits, piles and planks, with all that was made of them.

mod filled;

use filled::{Shop, ids, metric, typed, visit};
use stillwood_core::plank::{Field, Readings};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::*;
use stillwood_core::verdict::Spec;

fn planks(shop: &Shop) -> usize {
    shop.state.planks().count()
}

#[test]
fn deleting_a_visit_takes_its_planks_its_spec_and_what_was_made_of_them_and_is_undone() {
    let mut shop = Shop::new();
    let visit = visit(&mut shop);
    let kept = shop.plank();
    let pile = shop.phone.open_pile(visit, "hard_maple");
    let plank = shop.phone.whole_plank(pile);
    let other = shop.phone.mark(pile);
    shop.keep();
    let place = workshop_command("Put on a shelf").unwrap();
    let texts = typed(place.begins(plank, &shop.context()), &[("Shelf", "1")]);
    let placed = place
        .command(&metric(&texts), plank, &shop.context())
        .unwrap();
    shop.write(&placed.events);
    let texts = typed(
        cut::begins(plank, &shop.context(), Units::Metric),
        &[("length", "700")],
    );
    let mut new = ids();
    let filled = cut::command(&metric(&texts), plank, &shop.context(), &mut new).unwrap();
    shop.write(&filled.events);
    let Event::Cut(cut) = &filled.events[0].event else {
        panic!()
    };
    let laminate = cut.children[0].id;
    assert!(queries::stock(&shop.state).any(|piece| piece.id == laminate));
    let told = queries::deletion(&shop.state, visit);
    assert_eq!((told.piles.len(), told.planks.len()), (1, 2));
    assert_eq!(told.made_of_them.len(), cut.children.len());
    assert!(told.left_in_sort > 0);
    let filled = delete::command(&shop.state, visit);
    let by = shop.write(&filled.events);
    assert_eq!(planks(&shop), 1);
    // What is said of it afterwards is what was said before.
    assert_eq!(queries::deleted(&shop.state, &shop.log)[0].took, told);
    assert!(shop.state.pieces().all(|piece| piece.id == kept));
    assert!(!queries::stock(&shop.state).any(|piece| piece.id == laminate));
    assert!(shop.state.piles().all(|one| one.id != pile));
    assert!(queries::is_in_deleted(&shop.state, pile));
    assert!(!queries::specs_on_offer(&shop.state)[..1].contains(&Spec::supplied()[0]));
    // What another device records in it afterwards is gone with it, folded at once or anew.
    let late = shop.phone.mark(pile);
    shop.keep();
    assert!(shop.state.piece(late).unwrap().withdrawn);
    let list = queries::deleted(&shop.state, &shop.log);
    assert_eq!(
        (list.len(), list[0].about, list[0].took.planks.len()),
        (1, visit, 3)
    );
    let back = delete::restore(&shop.log, &list[0].by);
    assert_eq!(list[0].by, by);
    shop.write(&back.events);
    assert_eq!(planks(&shop), 4);
    assert!(
        shop.state
            .piece(other)
            .is_some_and(|piece| !piece.withdrawn)
    );
    assert!(queries::stock(&shop.state).any(|piece| piece.id == laminate));
    assert_eq!(queries::deleted(&shop.state, &shop.log), []);
}

#[test]
fn a_state_that_grows_is_the_state_that_is_folded_anew() {
    let mut shop = Shop::new();
    let visit = visit(&mut shop);
    let pile = shop.phone.open_pile(visit, "hard_maple");
    let plank = shop.phone.mark(pile);
    shop.keep();
    shop.write(&delete::command(&shop.state, visit).events);
    let mut grown = shop.state.clone();
    shop.phone.step += 1;
    let another = shop.phone.open_pile(visit, "hard_maple");
    shop.phone.mark(another);
    shop.phone.measure(plank, Readings::new());
    for entry in shop.phone.written.clone() {
        shop.log.merge([entry.clone()]);
        if !grown.append(&entry) {
            grown = State::project(&shop.log);
        }
    }
    assert_eq!(grown, State::project(&shop.log));
    assert!(grown.pile(another).unwrap().withdrawn);
}

#[test]
fn a_plank_known_under_another_pile_too_stays() {
    let mut shop = Shop::new();
    let visit = visit(&mut shop);
    let pile = shop.phone.open_pile(visit, "hard_maple");
    let one = shop.phone.mark(pile);
    let elsewhere = shop.plank();
    shop.phone.measure(
        one,
        Readings::from([(
            Field::Length,
            stillwood_tests::invented::taken(2000.0, "mm"),
        )]),
    );
    shop.keep();
    shop.write(&settle::pair(one, elsewhere, true).events);
    assert_eq!(planks(&shop), 1);
    shop.write(&delete::command(&shop.state, visit).events);
    assert_eq!(planks(&shop), 1);
    assert!(!shop.state.piece(elsewhere).unwrap().withdrawn);
}

#[test]
fn a_plank_is_deleted_and_put_back() {
    let mut shop = Shop::new();
    let plank = shop.plank();
    // Recorded twice, and told to be one.
    let twin = shop.plank();
    shop.write(&settle::pair(plank, twin, true).events);
    let known = shop.state.clone();
    let filled = delete::plank(&shop.state, &shop.log, plank);
    shop.write(&filled.events);
    assert_eq!(planks(&shop), 0);
    let list = queries::deleted(&shop.state, &shop.log);
    assert_eq!((list.len(), list[0].by.len()), (1, 2));
    let back = delete::restore(&shop.log, &list[0].by);
    assert_eq!(back.events.len(), 2);
    shop.write(&back.events);
    let marks = |state: &State| state.piece(plank).map(|piece| piece.marks.clone());
    assert_eq!(marks(&shop.state), marks(&known));
    assert_eq!(planks(&shop), 1);
}

#[test]
fn a_deleted_plank_takes_along_what_was_made_of_it_and_leaves_a_blank_with_other_wood() {
    let mut shop = Shop::new();
    let laminates = |phone: &mut stillwood_tests::yard::Phone, mark: &str| {
        let plank = stillwood_tests::workshop::bought(phone, mark);
        let marks = child_marks(mark, PieceKind::Laminate, 3);
        (plank, phone.rip(plank, &marks, 16.0))
    };
    let (plank, own) = laminates(&mut shop.phone, "A7");
    let (_, other) = laminates(&mut shop.phone, "B2");
    let mixed = shop.phone.glue("N1", &[own[0], other[0]], "0417");
    let alone = shop.phone.glue("N2", &own[1..], "0417");
    shop.keep();
    let made: Vec<Id> = own.iter().copied().chain([alone]).collect();
    let mut told = queries::deletion(&shop.state, plank).made_of_them;
    told.sort();
    let mut wanted = made.clone();
    wanted.sort();
    assert_eq!(told, wanted);
    let before = shop.state.clone();
    shop.write(&delete::plank(&shop.state, &shop.log, plank).events);
    assert_eq!(queries::piece_conflicts(&shop.state), []);
    let gone = |id: &Id| shop.state.piece(*id).unwrap().withdrawn;
    assert!(made.iter().all(gone));
    assert_eq!(shop.state.piece(mixed).unwrap().life().0, Life::InShop);
    let glued = shop.state.piece(other[0]).unwrap().life().0;
    assert_eq!(glued, Life::GluedInto(mixed));
    // What another device does with it afterwards is gone too.
    let late = shop.phone.crosscut(own[2], &[("late", 10.0, 200.0)]);
    shop.keep();
    assert!(shop.state.piece(late[0]).unwrap().withdrawn);
    assert_eq!(queries::piece_conflicts(&shop.state), []);
    let list = queries::deleted(&shop.state, &shop.log);
    assert_eq!((list.len(), list[0].about), (1, plank));
    shop.write(&delete::restore(&shop.log, &list[0].by).events);
    let lives = |state: &State, id: &Id| state.piece(*id).map(|piece| piece.life().0);
    for id in [plank, mixed, alone] {
        assert_eq!(lives(&shop.state, &id), lives(&before, &id));
    }
}

#[test]
fn what_was_recorded_in_an_undone_import_stays_when_something_else_is_deleted() {
    let mut shop = Shop::new();
    let imported = visit(&mut shop);
    let pile = shop.phone.open_pile(imported, "hard_maple");
    shop.keep();
    let brought: EntryIds = shop.log.entries().map(|entry| entry.id).collect();
    let mine = shop.phone.mark(pile);
    let other = shop.phone.open_visit("South");
    shop.keep();
    let undone = undo_import::command(brought, "their file".into(), Id::from_u128(9_000));
    shop.write(&undone.events);
    shop.write(&delete::command(&shop.state, other).events);
    assert!(!shop.state.piece(mine).unwrap().withdrawn);
}

#[test]
fn an_import_that_is_undone_deletes_nothing_that_was_recorded_since() {
    let mut shop = Shop::new();
    let visit = visit(&mut shop);
    let brought: EntryIds = shop.log.entries().map(|entry| entry.id).collect();
    let pile = shop.phone.open_pile(visit, "hard_maple");
    shop.phone.mark(pile);
    shop.keep();
    shop.write(&undo_import::command(brought, "their file".into(), Id::from_u128(9_000)).events);
    assert_eq!(planks(&shop), 1);
    assert_eq!(queries::deleted(&shop.state, &shop.log), []);
}
