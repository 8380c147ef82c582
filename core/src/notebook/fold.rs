//! Entries folded into the state of everything.
//!
//! The result depends on which entries there are, and on nothing else: not on the order in which they
//! came, nor on any clock. What begins something is read before what is said about it.

use super::book::{Judgement, Line, Note, PassedLot, Recorded, Wood};
use super::standing::{Standing, Standings};
use super::{Book, Entry, Happening, Marked, Piece, Pile, Visit};
use crate::order;
use std::collections::{BTreeMap, BTreeSet};
use uuid::Uuid;

/// The state that the entries tell. Each entry must be given once; their order does not matter.
pub fn fold<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Book {
    let mut ordered: Vec<&Entry> = entries.into_iter().collect();
    order::sort_by_key(&mut ordered, |entry| entry.order());
    let mut standings = Standings::settle(&ordered);
    let mut book = Book::default();
    let mut births = BTreeMap::new();
    for entry in &ordered {
        let in_force = standings.of(entry.id) == Standing::InForce;
        match &entry.happening {
            Happening::Marked(marked) => note_birth(&mut births, entry, marked, in_force),
            Happening::Told(told) if in_force => {
                let pair = (entry.about.min(told.other), entry.about.max(told.other));
                book.told.insert(pair, told.same);
            }
            _ => book.open(entry, in_force),
        }
    }
    book.same = same_pieces(&book.told, &births);
    book.begin_pieces(births);
    book.join_piles();
    for entry in &ordered {
        book.apply(entry, standings.of(entry.id));
    }
    book.disputes = std::mem::take(&mut standings.disputes);
    order::sort_by_key(&mut book.disputes, |d| (d.of, d.in_force()));
    book
}

/// Who gave a piece its mark.
struct Birth<'a> {
    entry: &'a Entry,
    marked: &'a Marked,
    in_force: bool,
}

/// Of several marks the last in force counts; of none in force the first is remembered.
fn note_birth<'a>(
    births: &mut BTreeMap<Uuid, Birth<'a>>,
    entry: &'a Entry,
    marked: &'a Marked,
    in_force: bool,
) {
    if in_force || !births.contains_key(&entry.about) {
        births.insert(
            entry.about,
            Birth {
                entry,
                marked,
                in_force,
            },
        );
    }
}

/// For every piece told to be the same as another, the id that stands for all of them: the smallest
/// of those that are here and not taken back.
fn same_pieces(
    told: &BTreeMap<(Uuid, Uuid), bool>,
    births: &BTreeMap<Uuid, Birth<'_>>,
) -> BTreeMap<Uuid, Uuid> {
    let mut neighbours: BTreeMap<Uuid, Vec<Uuid>> = BTreeMap::new();
    for ((a, b), _) in told.iter().filter(|(_, same)| **same) {
        neighbours.entry(*a).or_default().push(*b);
        neighbours.entry(*b).or_default().push(*a);
    }
    let mut same = BTreeMap::new();
    let mut seen = BTreeSet::new();
    for &start in neighbours.keys() {
        let mut group = Vec::new();
        let mut next = vec![start];
        while let Some(id) = next.pop() {
            if seen.insert(id) {
                group.push(id);
                next.extend(neighbours.get(&id).into_iter().flatten());
            }
        }
        let standing = |id: &&Uuid| births.get(*id).map(|b| (!b.in_force, **id));
        let first = group
            .iter()
            .filter(|id| births.contains_key(*id))
            .min_by_key(standing);
        if let Some(&first) = first {
            same.extend(group.iter().map(|id| (*id, first)));
        }
    }
    same
}

fn recorded(entry: &Entry) -> Recorded {
    Recorded {
        entry: entry.id,
        by: entry.by.clone(),
        on: entry.on,
        at: entry.at.clone(),
    }
}

impl Book {
    /// Adds an entry that comes last in the order of the fold and changes nothing before it. `false`,
    /// with nothing changed, where the whole must be folded again.
    pub fn append(&mut self, entry: &Entry) -> bool {
        if self.last.is_some_and(|last| last >= entry.order()) || !entry.supersedes.is_empty() {
            return false;
        }
        let id = entry.about;
        let begins = matches!(
            entry.happening,
            Happening::VisitOpened(_)
                | Happening::PileOpened(_)
                | Happening::Marked(_)
                | Happening::WoodAdded(_)
        );
        let known = self.visits.contains_key(&id)
            || self.piles.contains_key(&id)
            || self.pieces.contains_key(&id)
            || self.same.contains_key(&id)
            || self.orphans.contains_key(&id);
        if matches!(entry.happening, Happening::Told(_)) || begins && known {
            return false;
        }
        match &entry.happening {
            Happening::Marked(marked) => {
                let birth = Birth {
                    entry,
                    marked,
                    in_force: true,
                };
                self.begin_pieces(BTreeMap::from([(id, birth)]));
                if let Some(pile) = self.piles.get_mut(&marked.pile) {
                    pile.pieces.insert(id);
                }
            }
            Happening::PileOpened(pile) => {
                self.open(entry, true);
                if let Some(visit) = self.visits.get_mut(&pile.visit) {
                    visit.piles.insert(id);
                }
            }
            _ => self.open(entry, true),
        }
        self.apply(entry, Standing::InForce);
        true
    }

    /// Visits, piles and woods begin; of several openings the last in force counts.
    fn open(&mut self, entry: &Entry, in_force: bool) {
        let id = entry.about;
        let withdrawn = !in_force;
        if matches!(
            entry.happening,
            Happening::VisitOpened(_) | Happening::PileOpened(_) | Happening::WoodAdded(_)
        ) {
            self.begun.entry(id).or_default().push(entry.id);
        }
        match &entry.happening {
            Happening::VisitOpened(opened) if in_force || !self.visits.contains_key(&id) => {
                self.visits.insert(
                    id,
                    Visit {
                        id,
                        recorded: recorded(entry),
                        opened: (**opened).clone(),
                        piles: BTreeSet::new(),
                        yard_total: None,
                        notes: Vec::new(),
                        history: Vec::new(),
                        withdrawn,
                    },
                );
            }
            Happening::PileOpened(opened) if in_force || !self.piles.contains_key(&id) => {
                self.piles.insert(
                    id,
                    Pile {
                        id,
                        recorded: recorded(entry),
                        opened: (**opened).clone(),
                        pieces: BTreeSet::new(),
                        passed: Vec::new(),
                        notes: Vec::new(),
                        history: Vec::new(),
                        withdrawn,
                    },
                );
            }
            _ => {}
        }
    }

    fn begin_pieces(&mut self, births: BTreeMap<Uuid, Birth<'_>>) {
        for (id, birth) in &births {
            if self.stands_for(*id) == *id {
                self.pieces.insert(*id, begin_piece(*id, birth));
            }
        }
        for (id, birth) in &births {
            let first = self.stands_for(*id);
            if let Some(piece) = self.pieces.get_mut(&first) {
                if first != *id {
                    piece.also.push(*id);
                }
                if birth.in_force || first == *id {
                    piece.by.insert(birth.entry.by.clone());
                    piece.marks.insert(birth.marked.mark.clone());
                }
            }
        }
    }

    fn join_piles(&mut self) {
        for piece in self.pieces.values().filter(|piece| !piece.withdrawn) {
            if let Some(pile) = self.piles.get_mut(&piece.pile) {
                pile.pieces.insert(piece.id);
            }
        }
        for pile in self.piles.values().filter(|pile| !pile.withdrawn) {
            if let Some(visit) = self.visits.get_mut(&pile.opened.visit) {
                visit.piles.insert(pile.id);
            }
        }
    }

    /// What an entry says of what has begun.
    fn apply(&mut self, entry: &Entry, standing: Standing) {
        self.last = Some(entry.order());
        self.numbers.note(&entry.by, entry.seq, entry.id);
        let in_force = standing == Standing::InForce;
        let line = Line {
            entry: entry.id,
            standing,
        };
        match &entry.happening {
            Happening::Unknown { .. } => self.newer.push(entry.id),
            Happening::WoodAdded(added) => {
                if in_force {
                    let wood = Wood {
                        about: entry.about,
                        entry: entry.id,
                        added: (**added).clone(),
                    };
                    self.woods.insert(added.id.clone(), wood);
                }
                return;
            }
            Happening::Marked(marked) if !self.piles.contains_key(&marked.pile) => {
                self.wait(marked.pile, entry.id);
            }
            Happening::PileOpened(pile) if !self.visits.contains_key(&pile.visit) => {
                self.wait(pile.visit, entry.id);
            }
            Happening::Told(told) => self.tell(entry, told.other, line),
            _ => {}
        }
        let first = self.stands_for(entry.about);
        if let Some(piece) = self.pieces.get_mut(&first) {
            piece.history.push(line);
            if in_force {
                say_of_piece(piece, entry);
            }
        } else if let Some(pile) = self.piles.get_mut(&entry.about) {
            pile.history.push(line);
            if in_force {
                say_of_pile(pile, entry);
            }
        } else if let Some(visit) = self.visits.get_mut(&entry.about) {
            visit.history.push(line);
            if in_force {
                say_of_visit(visit, entry);
            }
        } else if !matches!(entry.happening, Happening::Unknown { .. })
            && !self.begun.contains_key(&entry.about)
        {
            self.wait(entry.about, entry.id);
        }
    }

    fn tell(&mut self, entry: &Entry, other: Uuid, line: Line) {
        let (first, second) = (self.stands_for(entry.about), self.stands_for(other));
        match self.pieces.get_mut(&second) {
            Some(_) if first == second => {}
            Some(piece) => piece.history.push(line),
            None => self.wait(other, entry.id),
        }
    }

    fn wait(&mut self, missing: Uuid, entry: Uuid) {
        self.orphans.entry(missing).or_default().push(entry);
    }
}

fn begin_piece(id: Uuid, birth: &Birth<'_>) -> Piece {
    Piece {
        id,
        also: Vec::new(),
        recorded: recorded(birth.entry),
        by: BTreeSet::new(),
        mark: birth.marked.mark.clone(),
        marks: BTreeSet::new(),
        pile: birth.marked.pile,
        readings: BTreeMap::new(),
        defects: Vec::new(),
        species: None,
        judgements: Vec::new(),
        yard_line: None,
        notes: Vec::new(),
        history: Vec::new(),
        withdrawn: !birth.in_force,
    }
}

fn note(entry: &Entry, text: &str) -> Note {
    Note {
        entry: entry.id,
        on: entry.on,
        text: text.to_owned(),
    }
}

fn say_of_piece(piece: &mut Piece, entry: &Entry) {
    match &entry.happening {
        Happening::Measured(measured) => piece.lay(entry.id, measured),
        Happening::Judged(judged) => piece.judgements.push(Judgement {
            entry: entry.id,
            on: entry.on,
            judged: judged.clone(),
        }),
        Happening::YardLine(line) => piece.yard_line = Some((entry.id, line.clone())),
        Happening::Noted(noted) => piece.notes.push(note(entry, &noted.text)),
        _ => {}
    }
}

fn say_of_pile(pile: &mut Pile, entry: &Entry) {
    match &entry.happening {
        Happening::PassedOver(passed) => pile.passed.push(PassedLot {
            entry: entry.id,
            on: entry.on,
            count: passed.count,
            reasons: passed.reasons.clone(),
        }),
        Happening::Noted(noted) => pile.notes.push(note(entry, &noted.text)),
        _ => {}
    }
}

fn say_of_visit(visit: &mut Visit, entry: &Entry) {
    match &entry.happening {
        Happening::YardTotal(total) => visit.yard_total = Some((entry.id, total.clone())),
        Happening::Noted(noted) => visit.notes.push(note(entry, &noted.text)),
        _ => {}
    }
}
