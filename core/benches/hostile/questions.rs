//! Every question that a screen asks of a record, with what it takes for granted.

use std::collections::BTreeMap;
use std::hint::black_box;
use stillwood_core::plank::Instruments;
use stillwood_core::quantity::read::Units;
use stillwood_core::quantity::{Length, kg, mm};
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{
    DueRow, Event, Expected, FileReading, Filter, GroupedBy, Log, Noted, Piece, PieceFigure,
    PieceKind, PlankFigure, RestLine, StartFigure, StartTarget, State, TargetSet, WoodInHand, date,
    due_by_day, likely_next, pairs, sort_rows, table_rows, to_csv,
};
use stillwood_core::season::{DriedTo, FEELER_MM, Published, Rests, Warp};

pub(crate) struct Asked {
    log: Log,
    reading: FileReading,
    state: State,
    piece: Id,
    visit: Id,
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
    pub(crate) fn new(log: Log, reading: FileReading, state: State, piece: Id) -> Self {
        let visit = state.visits().next().map_or(Id::nil(), |visit| visit.id);
        let mut asked = Self {
            log,
            reading,
            state,
            piece,
            visit,
            tools: Instruments::default(),
            lines: Vec::new(),
            wood: Vec::new(),
        };
        // A list that is needed for other questions.
        asked.lines = asked.resting();
        asked.wood = queries::wood_in_hand(&asked.state, &[], &asked.lines, 6, today()).0;
        asked
    }

    fn resting(&self) -> Vec<RestLine> {
        queries::resting(&self.state, today(), feeler(), kg(0.1))
    }

    fn one(&self) -> &Piece {
        self.state.piece(self.piece).unwrap()
    }
}

pub(crate) type Question = (&'static str, fn(&Asked));

fn drop_it<T>(what: T) {
    drop(black_box(what));
}

fn start_target() -> StartTarget {
    StartTarget {
        blanks: 10,
        laminates_per_plank: 6,
        laminates_per_blank: 5,
        confidence: 0.9,
        share_unknown: 0.8,
        by_own_counts: true,
    }
}

fn target_set() -> TargetSet {
    TargetSet {
        blanks: 10,
        by: date("2095-10-01"),
        laminates_per_blank: 5,
        sure_percent: 90,
        wood: None,
    }
}

fn due(asked: &Asked) -> Vec<stillwood_core::record::Due> {
    queries::due(&asked.state, asked.lines.clone(), today(), kg(0.1))
}

pub(crate) const QUESTIONS: &[Question] = &[
    ("a new record out of the file", |a| {
        let mut new = Log::new();
        new.merge(a.reading.accepted.clone());
        drop_it(State::project(&new));
    }),
    ("what is kept of a state, found anew", |a| {
        // A copy knows nothing yet of families, wood accounts, rooms and marks.
        let state = a.state.clone();
        drop_it(queries::stage_counts(&state, PieceKind::Laminate));
        drop_it(queries::wood_cost(&state, a.piece));
        drop_it(queries::drying_report(&state, a.one(), kg(0.1)));
        drop_it(queries::marks_for(&state, "K7-1", PieceKind::Piece, 4));
    }),
    ("preview of the same file", |a| {
        drop_it(queries::preview_with_state(&a.log, &a.state, &a.reading))
    }),
    ("next mark, step and number", |a| {
        drop_it(a.log.next_mark("K7", &[]));
        drop_it((a.log.next_step(), a.log.next_seq("K7")));
    }),
    ("file of the whole", |a| drop_it(a.log.to_file("0", ""))),
    ("file of a visit", |a| {
        drop_it(queries::visit_to_file(
            &a.log, &a.state, "", a.visit, "0", "",
        ))
    }),
    ("what rests", |a| drop_it(a.resting())),
    ("due by day, with woods", |a| {
        let days = due_by_day(due(a), today());
        for (_, lines) in days {
            for line in lines.iter() {
                drop_it(queries::woods_named(&a.state, line.piece));
            }
            drop_it(DueRow::folded(lines));
        }
    }),
    ("next steps of all wood", |a| {
        for piece in queries::stock(&a.state) {
            drop_it(likely_next(piece, None, today()));
        }
    }),
    ("wood in hand", |a| {
        drop_it(queries::wood_in_hand(&a.state, &[], &a.lines, 6, today()))
    }),
    ("wood in hand of one wood", |a| {
        let wood = queries::species_of(&a.state, a.one()).cloned();
        let woods: Vec<_> = wood.into_iter().collect();
        drop_it(queries::wood_in_hand(
            &a.state,
            &woods,
            &a.lines,
            6,
            today(),
        ));
    }),
    ("plan ahead", |a| {
        drop_it(queries::plan_ahead(
            &a.wood,
            5,
            &queries::least_rests(&a.state),
            today(),
        ));
    }),
    ("answer to a wish", |a| {
        let expected = Expected {
            per_plank: queries::laminates_to_expect(&a.state, None),
            share_unknown: 0.8,
            by_own_counts: true,
        };
        let rests: Rests = queries::least_rests(&a.state);
        drop_it(queries::target_answer(
            &a.state,
            &target_set(),
            &a.wood,
            expected,
            &rests,
            today(),
        ));
    }),
    ("how many to start", |a| {
        if let Ok(answer) = queries::start_for(&a.state, &start_target(), &a.wood) {
            drop_it(answer.worked(StartFigure::IntraclassCorrelation));
        }
    }),
    ("laminates to glue", |a| {
        drop_it(queries::laminates_to_glue(
            &a.state,
            &a.lines,
            today(),
            feeler(),
            &a.tools,
        ));
    }),
    ("own pace", |a| {
        drop_it(queries::paces(&a.state, feeler(), today()))
    }),
    ("what came through, by all signs", |a| {
        for kind in [PieceKind::Piece, PieceKind::Laminate, PieceKind::Blank] {
            for by in GroupedBy::ALL {
                drop_it(queries::what_came(&a.state, kind, by, &a.tools));
            }
        }
    }),
    ("which signs told", |a| {
        drop_it(queries::predictors(&a.state, &a.tools))
    }),
    ("how long wood lasts", |a| {
        let lasting = queries::lasting(&a.state, None, today());
        drop_it(lasting.worked(24.0));
        drop_it(stillwood_core::season::survival_curve(&lasting.watched));
    }),
    ("where the money went", |a| {
        drop_it(queries::cost_account(&a.state))
    }),
    ("tally of a visit", |a| {
        if let Some(tally) = queries::tally_of(&a.state, a.visit) {
            drop_it(queries::yard_against(&a.state, a.visit, &tally));
            let paces = queries::paces(&a.state, feeler(), today());
            let asked =
                queries::to_buy_question(&a.state, a.visit, &tally, &a.wood, &paces, today());
            drop_it(asked.map(|asked| asked.answered(None)));
        }
        drop_it((
            queries::woods_of_visit(&a.state, a.visit),
            queries::target_of_visit(&a.state, a.visit),
        ));
    }),
    ("ranked planks of a visit", |a| {
        drop_it(queries::ranked(&a.state, a.visit, &a.tools))
    }),
    ("table: rows, sorted, filtered, CSV", |a| {
        let rows = queries::rows(&a.state, &a.tools);
        let filter = Filter {
            text: "k7 north".into(),
            ..Filter::default()
        };
        drop_it(filter.of(&rows).len());
        let mut sorted: Vec<_> = rows.iter().collect();
        sort_rows(&mut sorted, stillwood_core::record::Column::Mark, false);
        drop_it(to_csv(table_rows(sorted, &|_| None)));
    }),
    ("specs to choose from", |a| {
        drop_it(queries::specs(&a.state))
    }),
    ("calendar", |a| {
        let none = Published {
            sequence: 0,
            days: BTreeMap::new(),
        };
        drop_it(queries::calendar_days(&a.state, 1, &none));
    }),
    ("pairs", |a| drop_it(pairs(&a.state))),
    ("clashes, with their marks", |a| {
        for piece_conflict in queries::piece_conflicts(&a.state) {
            drop_it(
                a.state
                    .piece(piece_conflict.about)
                    .map(|piece| piece.mark.clone()),
            );
        }
    }),
    ("doubled marks, gaps, clones, orphans", |a| {
        drop_it((
            queries::doubled_marks(&a.state),
            queries::missing_runs(&a.state),
        ));
        drop_it((
            queries::cloned_devices(&a.state),
            queries::orphans(&a.state),
        ));
    }),
    ("disputes, settled each way", |a| {
        for dispute in a.state.disputes().iter().take(20) {
            drop_it(dispute.in_force());
            for candidate in dispute.candidates.iter().take(20) {
                drop_it(a.log.entry(*candidate).map(|one| dispute.settle(one)));
            }
        }
    }),
    ("all rooms and their air", |a| {
        for (room, read) in queries::rooms(&a.state) {
            drop_it(read.last().and_then(|said| said.payload.settles_at()));
            drop_it(queries::witness_in(&a.state, room));
        }
    }),
    ("a mark looked up", |a| {
        drop_it(queries::pieces_with_mark(&a.state, "K7-1"));
        drop_it(queries::marks_for(&a.state, "K7-1", PieceKind::Piece, 4));
        drop_it(queries::naming_faults(&a.state, &["K7-1".to_owned()]));
    }),
    ("one piece: its facts", |a| {
        let (state, one) = (&a.state, a.one());
        drop_it((
            queries::woods_named(state, one.id),
            queries::species_of(state, one).cloned(),
        ));
        drop_it((
            queries::size_of(state, one),
            queries::rings_in(state, one, mm(0.0)),
        ));
        drop_it((
            queries::stage_of(one),
            queries::resting_in_room(state, one, today(), kg(0.1)),
        ));
        drop_it((
            queries::drying_report(state, one, kg(0.1)),
            queries::explain_stress(state, one.id, feeler()),
        ));
        drop_it(queries::stock_to_cut(state, one));
        drop_it((one.work.grain_seen(), one.history.len()));
    }),
    ("one piece: how it moved", |a| {
        let checks = queries::moved(&a.state, a.one(), feeler());
        for check in checks.iter().rev().take(20) {
            drop_it(queries::change_worked(&a.state, a.one(), check, Warp::Bow));
        }
        drop_it(queries::moved_so_far(&a.state, a.one(), feeler()));
        drop_it(queries::rest_line(
            &a.state,
            a.one(),
            today(),
            feeler(),
            kg(0.1),
        ));
    }),
    ("one piece: its family", |a| {
        drop_it((
            queries::ancestors(&a.state, a.piece),
            queries::descendants(&a.state, a.piece),
        ));
        drop_it((
            queries::planks_of(&a.state, a.piece),
            queries::plank_of(&a.state, a.one()),
        ));
        drop_it((
            queries::made_of(&a.state, a.piece),
            queries::made_from(&a.state, a.piece),
        ));
    }),
    ("the first plank: its family", |a| {
        if let Some(first) = a.state.planks().next() {
            drop_it(queries::descendants(&a.state, first.id));
            drop_it(queries::volume_balance(&a.state, first.id, &a.tools));
            drop_it(queries::cut_account(&a.state, first.id, &a.tools));
            drop_it(queries::wood_cost(&a.state, first.id));
        }
    }),
    ("one piece: what it cost", |a| {
        drop_it((
            queries::wood_cost(&a.state, a.piece),
            queries::blank_cost(&a.state, a.piece),
        ));
    }),
    ("one piece: all figures told", |a| {
        let figures = [
            PieceFigure::RestOverOn,
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
            drop_it(queries::explain_piece_figure(
                &a.state, a.piece, figure, &a.tools,
            ));
        }
        drop_it(queries::explain_plank_figure(
            &a.state,
            a.piece,
            PlankFigure::Bill,
            None,
            &a.tools,
        ));
    }),
    ("one piece: as a blank", |a| {
        let one = a.one();
        drop_it((
            queries::section_of(&a.state, one),
            queries::blank_size(&a.state, one),
        ));
        drop_it((
            queries::blank_weight(&a.state, one),
            queries::blank_over_year(&a.state, one),
        ));
        drop_it(queries::touched_by_batch(&a.state, "0417"));
    }),
    ("one piece: asked about an entry", |a| {
        let note = Event::Noted(Noted { text: "so".into() });
        drop_it(queries::work_warnings(
            &a.state,
            a.piece,
            &note,
            today(),
            today(),
            Units::default(),
        ));
    }),
    ("all blanks, with their costs", |a| {
        let blanks =
            || queries::stock(&a.state).filter(|piece| piece.work.kind == PieceKind::Blank);
        // So many stand side by side.
        for blank in blanks().take(6) {
            drop_it((
                queries::blank_cost(&a.state, blank.id),
                queries::section_of(&a.state, blank),
            ));
        }
        for blank in blanks() {
            drop_it(queries::blank_size(&a.state, blank));
            drop_it((
                queries::woods_named(&a.state, blank.id),
                queries::moved_so_far(&a.state, blank, feeler()),
            ));
        }
    }),
];
