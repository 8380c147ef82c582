//! Laws that the workshop's part of the record must keep, on two devices and in whatever order entries
//! come.

use proptest::prelude::*;
use std::sync::Arc;
use stillwood_core::plank::{Field, Instruments, Readings, Reason};
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{
    Child, Cut, Discarded, End, Entry, Event, Glued, Life, Limits, Log, Machined, Member, Missing,
    MovementChecked, Origin, Piece, PieceKind, Placed, Released, Reserved, SamePlank, SetToRest,
    Span, State, Used, Weighed, Withdrawn, read,
};
use stillwood_core::season::Stage;
use stillwood_tests::invented::{Dice, Phone, plank_readings, taken};

mod workshop {
    use super::*;

    struct Device {
        phone: Phone,
        record: Log,
    }

    fn pick<T: Copy>(from: &[T], dice: &mut Dice) -> Option<T> {
        (!from.is_empty()).then(|| *dice.pick(from))
    }

    impl Device {
        fn new(by: &str, seed: u64) -> Self {
            Self {
                phone: Phone::seeded(by, seed),
                record: Log::new(),
            }
        }

        fn keep(&mut self) {
            self.record.merge(self.phone.written.drain(..));
        }

        fn planks(&mut self, count: usize, dice: &mut Dice) {
            let visit = self.phone.open_visit("North");
            let pile = self.phone.open_pile(visit, "hard_maple");
            for _ in 0..count {
                let plank = self.phone.mark(pile);
                let readings = plank_readings(dice);
                self.phone.measure(plank, readings);
            }
            self.keep();
        }

        fn cut(&mut self, parent: Id, pieces: &[Id], dice: &mut Dice) {
            let count = 1 + dice.below(3);
            let mut ids: Vec<Id> = (0..count).map(|_| self.phone.id()).collect();
            // Now and then a mistake: what is said to come out of the cut is there already.
            if dice.once_in(3)
                && let Some(known) = pick(pieces, dice).filter(|id| *id != parent)
            {
                ids[0] = known;
            }
            let mut child = |n: u64, id| {
                let (from, to) = (n as f64 * 40.0, n as f64 * 40.0 + 35.0);
                let span = Span {
                    from: taken(from, "mm"),
                    to: taken(to, "mm"),
                };
                let kind = *dice.pick(&[PieceKind::Piece, PieceKind::Laminate]);
                let mark = format!("c{n}");
                Child {
                    across: Some(span),
                    along: None,
                    id,
                    kind,
                    mark,
                    through: None,
                }
            };
            let children = ids.into_iter().zip(0..).map(|(id, n)| child(n, id));
            let cut = Cut {
                children: children.collect(),
                kerf: Some(taken(2.4, "mm")),
                tension: None,
            };
            self.phone.say(parent, Event::Cut(Arc::new(cut)));
        }

        fn glue(&mut self, pieces: &[Id], dice: &mut Dice) {
            let mut members: Vec<Member> = Vec::new();
            for _ in 0..2 + dice.below(2) {
                if let Some(piece) = pick(pieces, dice)
                    && members.iter().all(|member| member.piece != piece)
                {
                    members.push(Member {
                        piece,
                        turned_over: dice.below(2) == 0,
                        turned: false,
                    });
                }
            }
            let blank = self.phone.id();
            let glued = Glued {
                mark: "B".to_owned(),
                members,
                ..Glued::default()
            };
            self.phone.say(blank, Event::Glued(Box::new(glued)));
        }

        /// Does one thing, mostly with wood at hand, sometimes with any.
        fn act(&mut self, dice: &mut Dice, told: bool) {
            let state = State::project(&self.record);
            self.phone.step = self.record.next_step() - 1;
            let careless = dice.below(5) == 0;
            let pieces: Vec<Id> = state
                .pieces()
                .filter(|piece| careless || piece.is_at_hand())
                .map(|piece| piece.id)
                .collect();
            let Some(piece) = pick(&pieces, dice) else {
                return;
            };
            let about = |event| Some((piece, event));
            let said = match dice.below(15) {
                0..=2 => {
                    self.cut(piece, &pieces, dice);
                    None
                }
                3 | 4 => {
                    self.glue(&pieces, dice);
                    None
                }
                5 => about(Event::Discarded(Discarded {
                    reasons: vec![Reason::Sprang],
                })),
                6 => {
                    let name = (*dice.pick(&["Ann", "Ben"])).to_owned();
                    about(Event::Reserved(Reserved { name, until: None }))
                }
                7 => about(Event::Released(Released {})),
                8 => about(Event::SetToRest(Arc::new(SetToRest {
                    climate: Default::default(),
                    place: "shelf 3".to_owned(),
                    stage: Stage::ALL[dice.below(3)],
                }))),
                9 => about(Event::Weighed(Arc::new(Weighed {
                    mass: taken(dice.tenth(1, 4), "kg"),
                    scale: String::new(),
                    step: None,
                    witness: None,
                }))),
                10 => about(Event::MovementChecked(Arc::new(MovementChecked {
                    readings: Readings::from([(Field::Crook, taken(dice.tenth(0, 2), "mm"))]),
                    ..MovementChecked::default()
                }))),
                11 => {
                    let face = dice.below(2) == 0;
                    about(if face {
                        Event::Machined(Box::new(Machined {
                            face,
                            ..Machined::default()
                        }))
                    } else {
                        Event::Missing(Missing {})
                    })
                }
                12 => about(if dice.below(3) == 0 {
                    Event::Used(Used::default())
                } else {
                    Event::Placed(Placed {
                        place: "rack".to_owned(),
                    })
                }),
                _ => {
                    self.turn_back(piece, &pieces, dice, told);
                    None
                }
            };
            if let Some((piece, event)) = said {
                self.phone.say(piece, event);
            }
            self.keep();
        }

        /// Takes an entry back, says it again, or tells two pieces to be one.
        fn turn_back(&mut self, piece: Id, pieces: &[Id], dice: &mut Dice, told: bool) {
            let entries: Vec<Id> = self.record.entries().map(|entry| entry.id).collect();
            let Some(target) = pick(&entries, dice) else {
                return;
            };
            let old = self.record.entry(target).unwrap().clone();
            match (dice.below(3), pick(pieces, dice)) {
                (0, Some(other)) if told && other != piece => {
                    self.phone
                        .say(piece, Event::SamePlank(SamePlank { other, same: true }));
                }
                (1, _) => {
                    self.phone.correct(old.about, old.event, vec![target]);
                }
                _ => {
                    // To delete a visit or a pile is to delete all that is in it: seldom, or little is left.
                    let all = matches!(old.event, Event::VisitOpened(_) | Event::PileOpened(_));
                    if all && dice.below(6) != 0 {
                        return;
                    }
                    let gone = Event::Withdrawn(Withdrawn {});
                    self.phone.correct(old.about, gone, vec![target]);
                }
            }
        }
    }

    /// Two devices that begin with the same planks and act apart, meeting now and then.
    fn two(seed: u64, rounds: u64, told: bool) -> [Device; 2] {
        let mut dice = Dice::of_seed(seed);
        let mut a = Device::new("K7", seed ^ 1);
        let mut b = Device::new("M4", seed ^ 2);
        a.planks(3, &mut dice);
        b.record.merge(a.record.entries().cloned());
        for _ in 0..rounds {
            if dice.below(2) == 0 {
                a.act(&mut dice, told);
            } else {
                b.act(&mut dice, told);
            }
            if dice.below(9) == 0 {
                a.record.merge(b.record.entries().cloned());
            }
        }
        [a, b]
    }

    fn together([a, b]: &[Device; 2]) -> Log {
        let mut all = a.record.clone();
        all.merge(b.record.entries().cloned());
        all
    }

    fn shuffled(mut entries: Vec<Entry>, seed: u64) -> Vec<Entry> {
        let mut dice = Dice::of_seed(seed);
        dice.shuffle(&mut entries);
        entries
    }

    /// Every piece that has begun lies where one entry says, and nowhere else.
    fn one_place_each(state: &State) {
        for piece in state.pieces() {
            let work = &piece.work;
            if work.unresolved.is_some() {
                assert!(!piece.is_at_hand());
                continue;
            }
            match &work.origin {
                Origin::Yard => {}
                Origin::CutFrom { parent, cut, .. } => {
                    let end = state.piece(*parent).and_then(|p| p.work.end.as_ref());
                    assert_eq!(end.map(|end| end.entry), Some(*cut));
                }
                Origin::GluedFrom { glue, glued } => {
                    for member in &glued.members {
                        let member = state.piece(member.piece).unwrap();
                        assert_eq!(member.life().0, Life::GluedInto(piece.id));
                        let end = member.work.end.as_ref();
                        assert_eq!(end.map(|end| end.entry), Some(*glue));
                    }
                }
            }
            if let Some(end) = &work.end
                && let End::Cut(cut) = &end.payload
            {
                for child in &cut.children {
                    let child = state.piece(child.id).unwrap();
                    assert_eq!(child.work.parent(), Some(piece.id));
                    assert!(child.work.unresolved.is_none());
                }
            }
        }
    }

    /// The laws below would say little about records in which nothing clashes and nothing is made.
    #[test]
    fn what_is_acted_out_holds_all_that_can_happen() {
        let mut kinds = std::collections::BTreeSet::new();
        let (mut piece_conflicts, mut unresolved, mut blanks, mut cuts) = (0, 0, 0, 0);
        let (mut ledgers, mut wood) = (0, 0);
        for seed in 0..320 {
            let record = together(&two(seed, 60, false));
            let state = State::project(&record);
            kinds.extend(
                queries::piece_conflicts(&state)
                    .iter()
                    .map(|piece_conflict| piece_conflict.why),
            );
            piece_conflicts += queries::piece_conflicts(&state).len();
            let doubted = |p: &&Piece| p.work.unresolved.is_some();
            unresolved += state.pieces().filter(doubted).count();
            let glued = |p: &&Piece| p.work.kind == PieceKind::Blank && p.work.unresolved.is_none();
            blanks += state.pieces().filter(glued).count();
            let account = |p: &Piece| queries::cut_account(&state, p.id, &Instruments::default());
            cuts += state.pieces().filter_map(account).count();
            wood += state.pieces().filter_map(|p| account(p)?.wood).count();
            let ledger = |p: &Piece| queries::volume_balance(&state, p.id, &Instruments::default());
            ledgers += state.pieces().filter_map(ledger).count();
        }
        assert!(ledgers > 20 && wood > 20, "{ledgers} {wood}");
        assert_eq!(kinds.len(), 6, "{kinds:?}");
        assert!(piece_conflicts > 200 && unresolved > 100 && blanks > 20 && cuts > 100);
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(48))]

        #[test]
        fn the_fold_does_not_depend_on_the_order(seed: u64) {
            let record = together(&two(seed, 40, true));
            let entries: Vec<Entry> = record.entries().cloned().collect();
            prop_assert_eq!(State::project_entries(&shuffled(entries.clone(), seed ^ 5)), State::project_entries(&entries));
        }

        #[test]
        fn adding_at_the_end_is_the_same_as_folding_again(seed: u64) {
            let record = together(&two(seed, 30, true));
            let mut entries: Vec<Entry> = record.entries().cloned().collect();
            entries.sort_by_key(Entry::order);
            let mut state = State::default();
            for n in 0..entries.len() {
                let before = state.clone();
                if !state.append(&entries[n]) {
                    prop_assert_eq!(&state, &before);
                    state = State::project_entries(&entries[..=n]);
                }
                prop_assert_eq!(&state, &State::project_entries(&entries[..=n]), "{}", entries[n].to_line());
            }
        }

        #[test]
        fn no_piece_is_in_two_places(seed: u64) {
            one_place_each(&State::project(&together(&two(seed, 60, false))));
        }

        #[test]
        fn what_one_device_did_in_its_own_order_is_never_lost(seed: u64) {
            let both = two(seed, 40, false);
            let file = together(&both).to_file("0", "");
            let reading = read(file.as_bytes(), &Limits::default()).unwrap();
            prop_assert_eq!(&reading.problems, &vec![]);
            let mut again = Log::new();
            again.merge(reading.accepted);
            prop_assert_eq!(again.to_file("0", ""), file);
            let state = State::project(&again);
            // What is set aside is shown: every piece in doubt begins with an entry of a clash.
            for piece in state.pieces() {
                if let Some(begun) = piece.work.unresolved {
                    prop_assert!(queries::piece_conflicts(&state).iter().any(|piece_conflict| piece_conflict.set_aside == begun));
                }
            }
            // And every clash names entries that are here.
            for piece_conflict in queries::piece_conflicts(&state) {
                prop_assert!(again.entry(piece_conflict.set_aside).is_some());
                prop_assert!(piece_conflict.in_force.is_none_or(|id| again.entry(id).is_some()));
            }
        }

        #[test]
        fn families_have_no_circles_and_go_both_ways(seed: u64) {
            let state = State::project(&together(&two(seed, 60, false)));
            let at_hand = |id: &Id| state.piece(*id).is_some_and(|p| p.work.unresolved.is_none());
            for piece in state.pieces().filter(|piece| piece.work.unresolved.is_none()) {
                let up = queries::ancestors(&state, piece.id);
                prop_assert!(!up.contains(&piece.id));
                for ancestor in up.iter().filter(|id| at_hand(id)) {
                    prop_assert!(queries::descendants(&state, *ancestor).contains(&piece.id));
                }
                prop_assert!(!queries::planks_of(&state, piece.id).is_empty());
                if let Some(ledger) = queries::volume_balance(&state, piece.id, &Instruments::default()) {
                    let sum: f64 = ledger.parts().iter().map(|part| part.value).sum();
                    prop_assert!((sum - ledger.whole.value).abs() < 1e-9);
                }
                if let Some(account) = queries::cut_account(&state, piece.id, &Instruments::default())
                    && let Some(wood) = account.wood
                {
                    let sum = wood.pieces.iter().flatten().fold(wood.kerf + wood.waste, |s, v| s + *v);
                    prop_assert!((sum.value - wood.whole.value).abs() < 1e-12);
                }
            }
        }
    }
}
