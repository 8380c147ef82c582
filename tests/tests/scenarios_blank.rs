//! From the saw to the blank and what came of it: a cut laid out by the plan, laminates as the matching
//! takes them, the cost of the wood in a blank, and what the record teaches.

use rust_decimal::Decimal;
use stillwood_core::neck::{MatchSearch, Placed, Turn};
use stillwood_core::neck::{
    MatchTarget, PartCut, PartWorth, Place, PlannedPart, judge_match, plan_cuts,
};
use stillwood_core::plank::{Field, Instruments, RingClass, RingTilt, RunoutDirection};
use stillwood_core::quantity::{in_degrees, in_kg, in_mm, mm};
use stillwood_core::record::Id;
use stillwood_core::record::queries;
use stillwood_core::record::{
    Child, Event, PieceKind, ReadyLaminate, RestLine, State, blank_of, child_marks, laid_out,
};
use stillwood_core::record::{GrainSeen, Machined};
use stillwood_core::season::{FEELER_MM, Ready};
use stillwood_tests::workshop::{bought, laminates_ready, scale, span, taken, to_the_rack};
use stillwood_tests::yard::{A7, Phone, typed};

fn ready(state: &State, day: &str) -> Vec<ReadyLaminate> {
    let today = stillwood_core::record::date(day).unwrap();
    let lines = queries::resting(state, today, mm(FEELER_MM), scale());
    let tools = Instruments::default();
    queries::laminates_to_glue(state, &lines, today, mm(FEELER_MM), &tools).0
}

const STRIPS: PartWorth = PartWorth {
    quartersawn: 1.0,
    rift: 1.0,
    flatsawn: 1.0,
    unknown: 1.0,
};

fn part_cut() -> PartCut {
    PartCut {
        length: mm(950.0),
        thickness: mm(16.0),
        planing: mm(1.5),
        kerf: mm(3.2),
        end_trim: mm(70.0),
        edge_trim: mm(5.0),
        step: mm(0.1),
    }
}

#[test]
fn a_plan_becomes_a_cut_that_nothing_is_wrong_with() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    let state = phone.state();
    let piece = state.piece(plank).unwrap();
    let stock = queries::stock_to_cut(&state, piece).unwrap();
    assert_eq!((in_mm(stock.length), in_mm(stock.width)), (2620.0, 193.0));
    let cut = part_cut();
    let rings = |offset| Some(queries::rings_in(&state, piece, offset)?.angle);
    let plan = plan_cuts(&stock, &cut, &rings, &STRIPS).unwrap();
    let marks = child_marks("A7", PieceKind::Laminate, plan.parts());
    let named: Vec<(Id, String)> = marks.into_iter().map(|mark| (phone.id(), mark)).collect();
    let children = laid_out(&plan, PieceKind::Laminate, &named);
    assert_eq!(children.len(), plan.parts());
    assert!(queries::warnings_of_cut(&state, piece, &children).is_empty());
    // As planned, so they stand: each laminate is on edge, and leans to its own side of the pith.
    phone.cut(plank, children, 3.2);
    let state = phone.state();
    let parts = plan.rows.iter().flat_map(|row| &row.parts);
    let mut sides = (0, 0);
    for (part, (id, _)) in parts.zip(&named) {
        let stands = queries::rings_in(&state, state.piece(*id).unwrap(), mm(0.0)).unwrap();
        let planned = in_degrees(part.ring_angle.unwrap());
        assert!((in_degrees(stands.angle) - planned).abs() < 0.2);
        match stands.leans {
            Some(RingTilt::Right) => sides.0 += 1,
            Some(RingTilt::Left) => sides.1 += 1,
            other => panic!("{other:?}"),
        }
        // The pith lies below mid-width: left of it rings rise to the right.
        let middle = (part.across.from + part.across.to) / 2.0;
        let left_of_pith = middle < stock.width / 2.0;
        assert_eq!(stands.leans == Some(RingTilt::Right), left_of_pith);
    }
    assert!(sides.0 > 0 && sides.1 > 0, "{sides:?}");
    let middle = queries::rings_in(&state, piece, mm(0.0));
    assert_eq!(middle.unwrap().class, RingClass::Flatsawn);
}

#[test]
fn parts_rise_to_the_pith_on_the_side_that_was_typed() {
    // How the rings rise at places across the width, and where they lie flattest.
    let across = |typed: &str| {
        let mut phone = Phone::new("K7");
        let (_, pile) = phone.pile();
        let with_pith: Vec<(Field, &str)> = A7
            .iter()
            .copied()
            .chain([(Field::PithOffset, typed)])
            .collect();
        let plank = phone.plank(pile, "A7", &with_pith);
        let state = phone.state();
        let piece = state.piece(plank).unwrap();
        [-80.0, -40.0, 0.0, 40.0, 80.0].map(|x| {
            let rings = queries::rings_in(&state, piece, mm(x)).unwrap();
            (in_degrees(rings.angle).round(), rings.leans)
        })
    };
    let [left, right, bare] = ["40 left", "40 right", "40"].map(across);
    assert_eq!(right, bare, "an entry without a side keeps its meaning");
    let flat = |of: &[(f64, Option<RingTilt>); 5]| of.iter().position(|one| one.0 == 0.0);
    assert_eq!((flat(&left), flat(&right)), (Some(1), Some(3)));
    let mut mirrored = right.map(|(angle, leans)| (angle, leans.map(RingTilt::other_way)));
    mirrored.reverse();
    assert_eq!(left, mirrored);
}

#[test]
fn what_the_wood_cost_goes_down_the_family_and_together_again() {
    let (mut phone, plank, blank) = to_the_rack();
    let state = phone.state();
    assert_eq!(
        queries::wood_cost(&state, blank),
        None,
        "no nominal thickness, no price"
    );
    phone.sell_as_two_inches(state.piece(plank).unwrap().pile);
    let state = phone.state();
    let (whole, currency) = queries::wood_cost(&state, plank).unwrap();
    let cost = |id| queries::wood_cost(&state, id).unwrap().0;
    let pieces: Decimal = queries::made_from(&state, plank)
        .into_iter()
        .map(cost)
        .sum();
    assert!((pieces - whole).abs() < Decimal::new(1, 6));
    let members: Decimal = queries::made_of(&state, blank).into_iter().map(cost).sum();
    assert_eq!(queries::wood_cost(&state, blank), Some((members, currency)));
    assert!(members < whole);
}

#[test]
fn ready_laminates_are_matched_and_weighed() {
    let (phone, _, _) = to_the_rack();
    let state = phone.state();
    // Five of eight are glued already.
    let stock = ready(&state, "2027-12-11");
    assert_eq!(stock.len(), 3);
    assert!(stock.iter().all(|one| one.ready == Ready::Yes));
    let first = &stock[0].laminate;
    assert!((in_mm(first.crook.unwrap()) - 0.05).abs() < 1e-9);
    assert!((in_mm(first.bow.unwrap()) - 0.2).abs() < 1e-9);
    assert_eq!(first.moisture, None, "not read, so not known");
    let laminates: Vec<_> = stock.iter().map(|one| one.laminate).collect();
    let mut search = MatchSearch::new(&laminates, &MatchTarget::of(3)).unwrap();
    while !search.go_on(500).done {}
    let best = search.proposals().remove(0);
    let size = blank_of(&stock, &best.blank).unwrap();
    assert!((in_mm(size.thickness) - 48.0).abs() < 1e-9);
    assert!(size.weight.is_none_or(|weight| in_kg(weight) > 0.5));
    // Turned as they lie all three lean one way; the proposal does better.
    let as_they_lie: Vec<Placed> = (0..3)
        .map(|laminate| Placed {
            laminate,
            turn: Turn::default(),
        })
        .collect();
    let judged = judge_match(&laminates, &as_they_lie, &MatchTarget::of(3).limits).unwrap();
    assert!(best.judged.mean_crook.abs() < judged.mean_crook.abs());
}

#[test]
fn a_part_beside_the_middle_stands_as_at_mid_width_where_only_an_angle_was_read() {
    let mut phone = Phone::new("K7");
    let (_, pile) = phone.pile();
    let sizes = [
        (Field::Length, "1000"),
        (Field::WidthNear, "200"),
        (Field::ThicknessNear, "52"),
        (Field::RingAngle, "30"),
    ];
    let plank = phone.plank(pile, "A7", &sizes);
    let state = phone.state();
    let piece = state.piece(plank).unwrap();
    let part = PlannedPart {
        across: Place {
            from: mm(10.0),
            to: mm(29.0),
        },
        ring_angle: None,
        class: None,
        worth: 1.0,
    };
    let told = queries::explain_part(&state, piece, &part, &part_cut(), true);
    // Turned on edge, 30 degrees become 60.
    let shown = queries::rings_to_cut(&state, piece, mm(-80.0)).unwrap();
    assert!((in_degrees(shown.angle) - 30.0).abs() < 1e-9);
    assert!((told.steps.last().unwrap().result - 60.0).abs() < 1e-9);
    assert!(
        told.notes[0].contains("as at mid-width"),
        "{:?}",
        told.notes
    );
}

#[test]
fn a_gap_without_its_side_is_not_measured() {
    let (mut phone, _, _) = to_the_rack();
    let laminate = ready(&phone.state(), "2027-12-11")[0].piece;
    phone.set_day("2027-12-12");
    phone.check(laminate, &[(Field::Crook, "0.2")]);
    phone.read_moisture(laminate, 8.5);
    let stock = ready(&phone.state(), "2027-12-13");
    let seen = stock.iter().find(|one| one.piece == laminate).unwrap();
    assert_eq!(seen.laminate.crook, None);
    assert!(
        seen.laminate.bow.is_some(),
        "its bow was, at the check before"
    );
    assert!((seen.laminate.moisture.unwrap().in_percent() - 8.5).abs() < 1e-9);
    // Kept for somebody, it is not offered.
    let kept = stillwood_core::record::Reserved {
        name: "N".into(),
        until: None,
    };
    phone.say(laminate, Event::Reserved(kept));
    let stock = ready(&phone.state(), "2027-12-13");
    assert!(stock.iter().all(|one| one.piece != laminate));
}

#[test]
fn what_was_seen_on_the_laminate_goes_before_what_its_plank_says() {
    let (mut phone, _, _) = to_the_rack();
    let stock = ready(&phone.state(), "2027-12-11");
    let (first, id) = (&stock[0], stock[0].piece);
    let by_its_plank = first.laminate.lean.unwrap();
    assert!(first.laminate.rise.is_none(), "nobody looked at its face");
    let seen = |phone: &Phone| {
        let stock = ready(&phone.state(), "2027-12-13");
        stock.into_iter().find(|one| one.piece == id).unwrap()
    };
    phone.set_day("2027-12-12");
    let lean = GrainSeen {
        rings_lean: Some(by_its_plank.other_way()),
        ..GrainSeen::default()
    };
    phone.say(id, Event::GrainSeen(Box::new(lean)));
    let one = seen(&phone);
    assert_eq!(one.laminate.lean, Some(by_its_plank.other_way()));
    assert_eq!(
        one.ring_angle, first.ring_angle,
        "still as the plank has it"
    );
    // What is said later of something else leaves it as it was.
    let angle = GrainSeen {
        grain_rises: Some(RunoutDirection::Falls),
        grain_slope: Some(taken(0.025, "tan")),
        ring_angle: Some(taken(20.0, "deg")),
        ..GrainSeen::default()
    };
    phone.say(id, Event::GrainSeen(Box::new(angle)));
    let one = seen(&phone);
    assert_eq!(one.laminate.lean, Some(by_its_plank.other_way()));
    assert_eq!(one.laminate.rise, Some(RunoutDirection::Falls));
    assert_eq!(one.laminate.ring_class, Some(RingClass::Flatsawn));
    assert!((in_degrees(one.ring_angle.unwrap()) - 20.0).abs() < 1e-9);
}

#[test]
fn what_is_cut_flat_leans_the_other_way_once_it_stands() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    let part = |phone: &mut Phone, from, to| stillwood_core::record::Child {
        across: stillwood_tests::workshop::span(from, to),
        along: None,
        id: phone.id(),
        kind: PieceKind::Laminate,
        mark: format!("A7-{from}"),
        through: None,
    };
    let children = vec![part(&mut phone, 0.0, 16.0), part(&mut phone, 20.0, 90.0)];
    let ids = phone.cut(plank, children, 3.2);
    let state = phone.state();
    let leans = |at: usize| {
        let piece = state.piece(ids[at]).unwrap();
        queries::rings_in(&state, piece, mm(0.0)).unwrap().leans
    };
    assert_eq!(leans(0), Some(RingTilt::Right));
    assert_eq!(leans(1), Some(RingTilt::Left));
}

#[test]
fn the_rings_of_a_part_are_those_of_its_place_whatever_it_was_cut_from() {
    let mut phone = Phone::new("K7");
    let [whole, halved] = ["A7", "B1"].map(|mark| bought(&mut phone, mark));
    let part = |phone: &mut Phone, kind, across, through| Child {
        across,
        along: None,
        id: phone.id(),
        kind,
        mark: format!("{}", phone.id()),
        through,
    };
    // Of one plank a part from 150 to 166 mm; of the other first the half from 100 mm on, which lies flat
    // as its plank did, and of that from 50 to 66 mm.
    let laminate = part(&mut phone, PieceKind::Laminate, span(150.0, 166.0), None);
    let at_once = phone.cut(whole, vec![laminate], 3.2)[0];
    let half = part(&mut phone, PieceKind::Piece, span(100.0, 193.0), None);
    let half = phone.cut(halved, vec![half], 3.2)[0];
    let laminate = part(&mut phone, PieceKind::Laminate, span(50.0, 66.0), None);
    let by_and_by = phone.cut(half, vec![laminate], 3.2)[0];
    let state = phone.state();
    let stand = |id| queries::rings_in(&state, state.piece(id).unwrap(), mm(0.0)).unwrap();
    let (one, other) = (stand(at_once), stand(by_and_by));
    assert!(
        (in_degrees(one.angle) - in_degrees(other.angle)).abs() < 1e-9,
        "{one:?} {other:?}"
    );
    assert_eq!((one.class, one.leans), (other.class, other.leans));
}

#[test]
fn what_is_resawn_and_wider_than_thick_lies_flat() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    // 40 mm of the width, 22 of the 52 mm of thickness: its wide face is the plank's.
    let resawn = Child {
        across: span(0.0, 40.0),
        along: None,
        id: phone.id(),
        kind: PieceKind::Laminate,
        mark: "A7 a".into(),
        through: span(30.0, 52.0),
    };
    let id = phone.cut(plank, vec![resawn], 3.2)[0];
    let state = phone.state();
    let plank = state.piece(plank).unwrap();
    let there = queries::rings_in(&state, plank, mm(20.0 - 193.0 / 2.0)).unwrap();
    let stands = queries::rings_in(&state, state.piece(id).unwrap(), mm(0.0)).unwrap();
    assert!((in_degrees(stands.angle) - in_degrees(there.angle)).abs() < 1e-9);
}

#[test]
fn what_may_spring_at_the_saw_grows_with_the_square_of_the_length() {
    let (phone, _, _) = to_the_rack();
    let state = phone.state();
    let over = |length| in_mm(queries::spring_allowed(&state, mm(length)).unwrap());
    assert!((over(950.0) - 2.0).abs() < 1e-9);
    assert!((over(1900.0) - 8.0).abs() < 1e-9);
    assert_eq!(queries::spring_allowed(&state, mm(0.0)), None);
}

#[test]
fn a_blank_is_as_large_and_as_heavy_as_its_laminates_until_it_is_measured() {
    let (mut phone, _, blank) = to_the_rack();
    let state = phone.state();
    let piece = state.piece(blank).unwrap();
    let sizes = queries::blank_size(&state, piece).map(|size| size.unwrap().round());
    assert_eq!(sizes, [950.0, 80.0, 52.0], "as it lies");
    let (weight, own) = queries::blank_weight(&state, piece).unwrap();
    assert!((in_kg(weight) - 5.0 * 0.56).abs() < 1e-9 && !own);
    phone.weigh(blank, 2.7);
    let state = phone.state();
    let (weight, own) = queries::blank_weight(&state, state.piece(blank).unwrap()).unwrap();
    assert!((in_kg(weight) - 2.7).abs() < 1e-9 && own);
    // One size alone is typed: the other stays as its laminates come to.
    let planed = Machined {
        face: true,
        readings: typed(&[(Field::ThicknessNear, "46")]),
        ..Machined::default()
    };
    phone.say(blank, Event::Machined(Box::new(planed)));
    let state = phone.state();
    let sizes = queries::blank_size(&state, state.piece(blank).unwrap());
    assert_eq!(sizes.map(|size| size.unwrap().round()), [950.0, 80.0, 46.0]);
}

#[test]
fn a_blank_is_as_long_and_wide_as_the_least_of_its_laminates() {
    let mut phone = Phone::new("K7");
    let plank = bought(&mut phone, "A7");
    let laminates = phone.rip(plank, &child_marks("A7", PieceKind::Laminate, 3), 16.0);
    let sizes = [
        ("950", "50", "15"),
        ("940", "52", "16"),
        ("960", "51", "14"),
    ];
    for (laminate, (length, width, thickness)) in laminates.iter().zip(sizes) {
        let machined = Machined {
            face: true,
            edge: true,
            readings: typed(&[
                (Field::Length, length),
                (Field::WidthNear, width),
                (Field::ThicknessNear, thickness),
            ]),
            ..Machined::default()
        };
        phone.say(*laminate, Event::Machined(Box::new(machined)));
    }
    let stock = ready(&phone.state(), "2027-01-01");
    let set = [0, 1, 2].map(|laminate| Placed {
        laminate,
        turn: Turn::default(),
    });
    let size = blank_of(&stock, &set).unwrap();
    let found = [size.length, size.width, size.thickness].map(|size| in_mm(size).round());
    assert_eq!(found, [940.0, 50.0, 45.0]);
    let blank = phone.glue("B1", &laminates, "0417");
    let state = phone.state();
    let glued = queries::blank_size(&state, state.piece(blank).unwrap());
    assert_eq!(glued.map(|size| size.unwrap().round()), found);
}

#[test]
fn each_wood_has_its_number_by_whichever_of_its_names_a_yard_has_it() {
    let woods = [
        ("maple-sugar", "hard maple"),
        ("walnut-black", "walnut"),
        ("maple-sugar", "sugar maple"),
    ];
    let (mut phone, laminates) = stillwood_tests::workshop::shelf_of(&woods, false, 0.0);
    let state = phone.state();
    let today = stillwood_core::record::date("2026-03-11").unwrap();
    let lines = queries::resting(&state, today, mm(FEELER_MM), scale());
    let (stock, names) = queries::laminates_to_glue(
        &state,
        &lines,
        today,
        mm(FEELER_MM),
        &Instruments::default(),
    );
    assert_eq!((stock.len(), names.len()), (60, 2));
    for one in &stock {
        assert_eq!(names[one.laminate.wood as usize], one.wood);
    }
    let blank = phone.glue("B1", &[laminates[0], laminates[59]], "");
    assert_eq!(queries::woods_named(&phone.state(), blank), "hard maple");
}

#[test]
fn a_piece_is_as_wide_as_the_parts_of_a_blank() {
    let spec = stillwood_core::verdict::Spec {
        planing_mm: 1.5,
        ..stillwood_tests::yard::wanted()
    };
    let (n, kerf, planing) = (spec.parts_per_blank, spec.kerf_mm, spec.planing_mm);
    let parts = f64::from(n) * (80.0 + 2.0 * planing) + f64::from(n - 1) * kerf;
    assert!((spec.piece_across_mm() - parts).abs() < 1e-9);
}

#[test]
fn the_laminates_of_the_shelf_are_ready() {
    let (phone, _, laminates) = stillwood_tests::workshop::laminates_ready();
    let stock = ready(&phone.state(), "2026-11-25");
    assert_eq!(stock.len(), laminates.len());
    let marks: Vec<&str> = stock.iter().map(|one| one.mark.as_str()).collect();
    assert_eq!(marks[..2], ["A7a1", "A7a2"]);
    let rested = stock.iter().filter(|one| one.ready == Ready::Yes).count();
    assert_eq!(rested, laminates.len());
}

#[test]
fn each_laminate_is_told_of_its_own_rest_in_whatever_order_rests_come() {
    let (mut phone, _, laminates) = laminates_ready();
    phone.set_day("2026-03-12");
    let state = phone.state();
    let today = stillwood_core::record::date("2026-03-12").unwrap();
    let mut lines = queries::resting(&state, today, mm(FEELER_MM), scale());
    let tools = Instruments::default();
    let ready = |lines: &[RestLine]| {
        queries::laminates_to_glue(&state, lines, today, mm(FEELER_MM), &tools).0
    };
    let all = ready(&lines);
    assert_eq!(all.len(), laminates.len());
    lines.reverse();
    assert_eq!(ready(&lines), all);
    let out = lines.iter().position(|line| line.piece == laminates[2]);
    lines.remove(out.unwrap());
    for one in ready(&lines) {
        let left_out = one.piece == laminates[2];
        assert_eq!(one.ready == Ready::Yes, !left_out, "{}", one.mark);
    }
}
