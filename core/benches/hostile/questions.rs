//! Every question that a screen asks of a record, with what it takes for granted.

use std::collections::BTreeMap;
use std::hint::black_box;
use stillwood_core::notebook::{
    Book, DueRow, Expected, Filter, GroupedBy, Happening, Kind, Notebook, Noted, Piece,
    PieceFigure, PlankFigure, Reading, RestLine, StartFigure, StartWish, Wished, WoodInHand, date,
    due_by_day, due_by_shelf, likely_next, pairs, sort_rows, table_rows, to_csv,
};
use stillwood_core::plank::Instruments;
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{Length, kg, mm};
use stillwood_core::season::{DriedTo, FEELER_MM, Published, Rests, Warp};
use uuid::Uuid;

/// What is asked, and of what.
pub(crate) struct Asked {
    notebook: Notebook,
    reading: Reading,
    book: Book,
    piece: Uuid,
    visit: Uuid,
    tools: Instruments,
    lines: Vec<RestLine>,
    wood: Vec<WoodInHand>,
}

fn today() -> chrono::NaiveDate {
    date("2090-10-01").unwrap()
}

fn feeler() -> Length {
    mm(FEELER_MM)
}

impl Asked {
    pub(crate) fn new(notebook: Notebook, reading: Reading, book: Book, piece: Uuid) -> Self {
        let visit = book.visits().next().map_or(Uuid::nil(), |visit| visit.id);
        let mut asked = Self {
            notebook,
            reading,
            book,
            piece,
            visit,
            tools: Instruments::default(),
            lines: Vec::new(),
            wood: Vec::new(),
        };
        // A list that is needed for other questions.
        asked.lines = asked.resting();
        asked.wood = asked.book.wood_in_hand(&[], &asked.lines, 6, today()).0;
        asked
    }

    fn resting(&self) -> Vec<RestLine> {
        self.book.resting(today(), feeler(), kg(0.1))
    }

    fn one(&self) -> &Piece {
        self.book.piece(self.piece).unwrap()
    }
}

/// A question by its name.
pub(crate) type Question = (&'static str, fn(&Asked));

fn drop_it<T>(what: T) {
    drop(black_box(what));
}

fn wish() -> StartWish {
    StartWish {
        blanks: 10,
        laminates_per_plank: 6,
        laminates_per_blank: 5,
        confidence: 0.9,
        share_unknown: 0.8,
        by_own_counts: true,
    }
}

fn wished() -> Wished {
    Wished {
        blanks: 10,
        by: date("2095-10-01"),
        laminates_per_blank: 5,
        sure_percent: 90,
        wood: None,
    }
}

fn due(asked: &Asked) -> Vec<stillwood_core::notebook::Due> {
    asked.book.due(asked.lines.clone(), today(), kg(0.1))
}

/// All of them.
pub(crate) const QUESTIONS: &[Question] = &[
    ("a new record out of the file", |a| {
        let mut new = Notebook::new();
        new.merge(a.reading.accepted.clone());
        drop_it(new.fold());
    }),
    ("preview of the same file", |a| {
        drop_it(a.notebook.look(&a.book, &a.reading))
    }),
    ("next mark, step and number", |a| {
        drop_it(a.notebook.next_mark("K7", &[]));
        drop_it((a.notebook.next_step(), a.notebook.next_seq("K7")));
    }),
    ("file of the whole", |a| {
        drop_it(a.notebook.to_file("0", ""))
    }),
    ("file of a visit", |a| {
        drop_it(a.notebook.visit_to_file(a.visit, "0", ""))
    }),
    ("what rests", |a| drop_it(a.resting())),
    ("due by day, with woods", |a| {
        let days = due_by_day(due(a), today());
        for (_, lines) in days {
            for line in lines.iter() {
                drop_it(a.book.woods_named(line.piece));
            }
            drop_it(DueRow::folded(lines));
        }
    }),
    ("due by rack", |a| drop_it(due_by_shelf(due(a)))),
    ("next steps of all wood", |a| {
        for piece in a.book.stock() {
            drop_it(likely_next(piece, None, today()));
        }
    }),
    ("wood in hand", |a| {
        drop_it(a.book.wood_in_hand(&[], &a.lines, 6, today()))
    }),
    ("wood in hand of one wood", |a| {
        let wood = a.book.species_of(a.one()).cloned();
        let woods: Vec<_> = wood.into_iter().collect();
        drop_it(a.book.wood_in_hand(&woods, &a.lines, 6, today()));
    }),
    ("plan ahead", |a| {
        drop_it(
            a.book
                .plan_ahead(&a.wood, 5, &a.book.least_rests(), today()),
        );
    }),
    ("answer to a wish", |a| {
        let expected = Expected {
            per_plank: a.book.laminates_to_expect(None),
            share_unknown: 0.8,
            by_own_counts: true,
        };
        let rests: Rests = a.book.least_rests();
        drop_it(
            a.book
                .wish_answer(&wished(), &a.wood, expected, &rests, today()),
        );
    }),
    ("how many to start", |a| {
        if let Ok(answer) = a.book.start_for(&wish(), &a.wood) {
            drop_it(answer.worked(StartFigure::IntraclassCorrelation));
        }
    }),
    ("laminates to glue", |a| {
        drop_it(
            a.book
                .laminates_to_glue(&a.lines, today(), feeler(), &a.tools),
        );
    }),
    ("own pace", |a| drop_it(a.book.paces(feeler(), today()))),
    ("what came through, by all signs", |a| {
        for kind in [Kind::Piece, Kind::Laminate, Kind::Blank] {
            drop_it(a.book.came_in_all(kind));
            for by in GroupedBy::ALL {
                drop_it(a.book.what_came(kind, by, &a.tools));
            }
        }
    }),
    ("which signs told", |a| drop_it(a.book.predictors(&a.tools))),
    ("how long wood lasts", |a| {
        let lasting = a.book.lasting(None, today());
        drop_it(lasting.worked(24.0));
        drop_it(stillwood_core::season::survival_curve(&lasting.watched));
    }),
    ("where the money went", |a| drop_it(a.book.cost_account())),
    ("tally of a visit", |a| {
        if let Some(tally) = a.book.tally_of(a.visit) {
            drop_it(a.book.yard_against(a.visit, &tally));
            let paces = a.book.paces(feeler(), today());
            drop_it(
                a.book
                    .still_to_buy(a.visit, &tally, &a.wood, &paces, today()),
            );
        }
        drop_it((
            a.book.woods_of_visit(a.visit),
            a.book.wish_of_visit(a.visit),
        ));
    }),
    ("ranked planks of a visit", |a| {
        drop_it(a.book.ranked(a.visit, &a.tools))
    }),
    ("table: rows, sorted, filtered, CSV", |a| {
        let rows = a.book.rows(&a.tools);
        let filter = Filter {
            text: "k7 north".into(),
            ..Filter::default()
        };
        drop_it(filter.of(&rows).len());
        let mut sorted: Vec<_> = rows.iter().collect();
        sort_rows(&mut sorted, stillwood_core::notebook::Column::Mark, false);
        drop_it(to_csv(table_rows(sorted)));
    }),
    ("specs to choose from", |a| drop_it(a.book.specs())),
    ("calendar", |a| {
        let none = Published {
            sequence: 0,
            days: BTreeMap::new(),
        };
        drop_it(a.book.calendar_days(1, &none));
    }),
    ("pairs", |a| drop_it(pairs(&a.book))),
    ("clashes, with their marks", |a| {
        for clash in a.book.clashes() {
            drop_it(a.book.piece(clash.about).map(|piece| piece.mark.clone()));
        }
    }),
    ("doubled marks, gaps, clones, orphans", |a| {
        drop_it((a.book.doubled_marks(), a.book.missing()));
        drop_it((a.book.clones(), a.book.orphans()));
    }),
    ("disputes, settled each way", |a| {
        for dispute in a.book.disputes().iter().take(20) {
            drop_it(dispute.in_force());
            for candidate in dispute.candidates.iter().take(20) {
                drop_it(dispute.settle(*candidate, &a.notebook));
            }
        }
    }),
    ("all rooms and their air", |a| {
        for (room, read) in a.book.rooms() {
            drop_it(read.last().and_then(|said| said.said.settles_at()));
            drop_it(a.book.witness_in(room));
        }
    }),
    ("a mark looked up", |a| {
        drop_it(a.book.marked("K7-1"));
        drop_it(a.book.marks_for("K7-1", Kind::Piece, 4));
        drop_it(a.book.naming_faults(&["K7-1".to_owned()]));
    }),
    ("one piece: its facts", |a| {
        let (book, one) = (&a.book, a.one());
        drop_it((book.woods_named(one.id), book.species_of(one).cloned()));
        drop_it((book.size_of(one), book.rings_in(one, mm(0.0))));
        drop_it((book.stage_of(one), book.in_room(one, today(), kg(0.1))));
        drop_it((book.dries(one, kg(0.1)), book.stress_told(one.id, feeler())));
        drop_it(book.stock_to_cut(one));
        drop_it((one.work.grain_seen(), one.history.len()));
    }),
    ("one piece: how it moved", |a| {
        let checks = a.book.moved(a.one(), feeler());
        for check in checks.iter().rev().take(20) {
            drop_it(a.book.change_worked(a.one(), check, Warp::Bow));
        }
        drop_it(a.book.moved_so_far(a.one(), feeler()));
        drop_it(a.book.rest_line(a.one(), today(), feeler(), kg(0.1)));
    }),
    ("one piece: its family", |a| {
        drop_it((a.book.ancestors(a.piece), a.book.descendants(a.piece)));
        drop_it((a.book.planks_of(a.piece), a.book.plank_of(a.one())));
        drop_it((a.book.made_of(a.piece), a.book.made_from(a.piece)));
    }),
    ("the first plank: its family", |a| {
        if let Some(first) = a.book.planks().next() {
            drop_it(a.book.descendants(first.id));
            drop_it(a.book.ledger(first.id, &a.tools));
            drop_it(a.book.cut_account(first.id, &a.tools));
            drop_it(a.book.wood_cost(first.id));
        }
    }),
    ("one piece: what it cost", |a| {
        drop_it((a.book.wood_cost(a.piece), a.book.blank_cost(a.piece)));
    }),
    ("one piece: all figures told", |a| {
        let figures = [
            PieceFigure::RipeOn,
            PieceFigure::CutFrom,
            PieceFigure::Size,
            PieceFigure::Density,
            PieceFigure::Drying(DriedTo::Left),
            PieceFigure::Lost,
            PieceFigure::MassGone,
            PieceFigure::Weight,
            PieceFigure::Stiffness,
            PieceFigure::MovedSoFar,
            PieceFigure::OverYear,
            PieceFigure::WoodCost,
            PieceFigure::CostEach(4),
        ];
        for figure in figures {
            drop_it(a.book.piece_worked(a.piece, figure, &a.tools));
        }
        drop_it(
            a.book
                .plank_worked(a.piece, PlankFigure::Bill, None, &a.tools),
        );
    }),
    ("one piece: as a blank", |a| {
        let one = a.one();
        drop_it((a.book.section_of(one), a.book.blank_size(one)));
        drop_it((a.book.blank_weight(one), a.book.blank_over_year(one)));
        drop_it(a.book.touched_by_batch("0417"));
    }),
    ("one piece: asked about an entry", |a| {
        let note = Happening::Noted(Noted { text: "so".into() });
        drop_it(
            a.book
                .work_doubts(a.piece, &note, today(), today(), Units::default()),
        );
    }),
    ("all blanks, with their costs", |a| {
        let blanks = || {
            a.book
                .stock()
                .filter(|piece| piece.work.kind == Kind::Blank)
        };
        // So many stand side by side.
        for blank in blanks().take(6) {
            drop_it((a.book.blank_cost(blank.id), a.book.section_of(blank)));
        }
        for blank in blanks() {
            drop_it(a.book.blank_size(blank));
            drop_it((
                a.book.woods_named(blank.id),
                a.book.moved_so_far(blank, feeler()),
            ));
        }
    }),
];
