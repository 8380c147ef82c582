//! Faults of sorting, measuring and the verdict.

use super::*;
use stillwood_app::model::Saving;
use stillwood_core::quantity::in_kg_per_m3;
use stillwood_core::verdict::{Criterion, Recommendation};

fn sheet(desk: &Desk) -> stillwood_core::verdict::Sheet {
    let entering = desk.model.yard.entering.as_ref().unwrap();
    entering.sheet(&desk.model)
}

#[test]
fn a_hidden_weight_makes_no_density_and_digits_go_into_the_field_that_is_shown() {
    let mut desk = measuring(&[]);
    type_all(&mut desk, &["2620", "205", "204", "203", "52"]);
    desk.keys("10.3");
    press(&mut desk, "End by end");
    // The field in view is named, and the digits land in it.
    assert!(region(&desk, "active-field").contains(Field::WeightFirst.label()));
    type_all(&mut desk, &["10.3", "9.4"]);
    let density = in_kg_per_m3(sheet(&desk).density.unwrap().value);
    assert!((density - 708.0).abs() < 2.0, "{density}");
    desk.act(stillwood_app::yard::Action::Activate(Field::WeightFirst));
    press(&mut desk, "No scale");
    assert_eq!(active(&desk), Some(Field::BalanceMass));
    desk.keys("5");
    assert_eq!(text(&desk, Field::BalanceMass), "5");
    for hidden in [Field::WeightWhole, Field::WeightFirst, Field::WeightSecond] {
        assert_eq!(text(&desk, hidden), "", "{hidden:?}");
    }
}

#[test]
fn after_any_chip_the_next_digits_go_into_the_field_in_view() {
    let mut desk = measuring(&[]);
    for chip in ["bow", "about 3", "none", "twist", "about 3"] {
        press(&mut desk, chip);
        let field = active(&desk).unwrap();
        let shown = region(&desk, "active-field");
        assert!(shown.contains(field.label()), "{chip}: {shown}");
        desk.keys("7");
        assert_eq!(text(&desk, field), "7", "after {chip}");
        desk.act(Action::Key("Backspace".to_owned()));
    }
}

#[test]
fn a_plank_of_which_nothing_was_measured_has_no_score_and_is_asked_about() {
    for moisture in ["8", "12", "19"] {
        let mut desk = measuring(&[("Moisture, %", moisture)]);
        assert!(sheet(&desk).verdict.score.is_none(), "{moisture}");
        press(&mut desk, "To the verdict");
        says(&desk, "Nothing judged yet");
        says_not(&desk, "Moisture decides");
        // Of a pile that is surely too wet it would not hold.
        let ranks_none = desk.reads().contains("it does not rank its planks");
        assert_eq!(ranks_none, moisture != "19");
        assert!(!region(&desk, "body").contains("gauge good"));
        press(&mut desk, "Buy");
        says(&desk, "Buy it all the same?");
    }
}

#[test]
fn all_open_questions_are_named_before_a_plank_is_bought() {
    let mut desk = measuring(&[]);
    // 3999 kg/m3, a bow of 260 mm.
    type_all(
        &mut desk,
        &["2620", "205", "205", "205", "52", "111.7", "260"],
    );
    press(&mut desk, "To the verdict");
    let before = desk.model.record.log().everything().count();
    press(&mut desk, "Buy");
    assert_eq!(desk.model.record.log().everything().count(), before);
    let asked = desk.reads();
    for about in ["kg/m³", "260"] {
        assert!(asked.contains(about), "no {about} in {asked}");
    }
}

#[test]
fn kilograms_that_fit_pounds_are_asked_about() {
    for typed in ["43.4", "43.4 kg"] {
        let mut desk = measuring(&[]);
        type_all(&mut desk, &["2620", "205", "205", "205", "52"]);
        desk.keys(typed);
        press(&mut desk, "Next");
        press(&mut desk, "43.4 lb");
        let mass = stillwood_core::quantity::in_kg(sheet(&desk).mass.unwrap().value);
        assert!((mass - 19.7).abs() < 0.05, "{typed}: {mass}");
    }
}

/// What the verdict says of a plank in full in a pile of this moisture: number, weakest, sentence.
fn judged_in(moisture: &str) -> (Option<f64>, Option<Criterion>, Recommendation) {
    let mut desk = measuring(&[("Moisture, %", moisture), ("Wood temperature", "21 °C")]);
    type_all(&mut desk, &["2620", "205", "205", "205", "52", "19.7"]);
    type_all(&mut desk, &["2", "1", "1", "0", "12", "0", "15"]);
    let verdict = sheet(&desk).verdict;
    (verdict.score, verdict.weakest, verdict.recommendation)
}

#[test]
fn the_moisture_of_the_pile_ranks_no_plank_and_is_told_once() {
    let dry = judged_in("8");
    assert!(dry.0.is_some_and(|score| score > 0.0), "{dry:?}");
    for moisture in ["10.8", "11.5"] {
        let damp = judged_in(moisture);
        assert_eq!(damp.0, dry.0, "{moisture}");
        assert_ne!(damp.1, Some(Criterion::Moisture), "{moisture}");
        assert_eq!(damp.2, dry.2, "{moisture}");
    }
    // Told where the pile is sorted, and not on its planks: their sentence is about what was read on them.
    let mut desk = measuring(&[("Moisture, %", "11.5"), ("Wood temperature", "21 °C")]);
    type_all(&mut desk, &["2620", "205", "205", "205", "52", "19.7"]);
    type_all(&mut desk, &["2", "1", "1", "0", "12", "0", "15"]);
    says(&desk, "decides");
    says_not(&desk, "Moisture decides");
    says_not(&desk, "moisture near its limit");
    let desk = measuring(&[("Moisture, %", "11.5"), ("Wood temperature", "21 °C")]);
    let piece = desk.model.yard.entering.as_ref().unwrap().draft.pile;
    let mut desk = desk;
    desk.go(Route::Sort(piece));
    says(&desk, "near your limit");
}

#[test]
fn the_sentence_is_about_the_weakest_and_says_what_would_settle_it() {
    let mut desk = measuring(&[]);
    type_all(&mut desk, &["2620", "205", "205", "205", "52", "19.7"]);
    // 1 in 15.2 beside a limit of 1 in 15; a clean thickness near its own limit as well.
    type_all(&mut desk, &["5", "1", "8", "2", "19.7", "0"]);
    let verdict = sheet(&desk).verdict;
    assert_eq!(verdict.weakest, Some(Criterion::GrainSlope), "{verdict:?}");
    press(&mut desk, "To the verdict");
    let body = region(&desk, "body");
    let head = &body[..body.find("<figure").unwrap()];
    let head = stillwood_app::desk::text_of(head);
    assert!(head.to_lowercase().contains("slope of grain"), "{head}");
    assert!(head.contains("Measure the"), "{head}");
    assert!(head.contains("would settle the slope of grain"), "{head}");
}

#[test]
fn limits_that_follow_from_the_size_follow_it_and_say_so() {
    let mut desk = sample();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    desk.go(Route::Spec(visit));
    desk.type_into("Width, mm", "48");
    says(
        &desk,
        "Reject below 48 mm, want 50 mm or more: as the size asks.",
    );
    press(&mut desk, "Save");
    let spec = desk.model.state().visit(visit).unwrap().opened.spec.clone();
    let slab = spec.requirement(Criterion::Straightness).unwrap();
    let wanted = stillwood_core::verdict::Form::of_slab(48.0);
    assert_eq!(slab.form, wanted);
}

#[test]
fn a_size_that_hangs_on_a_slab_near_its_limit_has_its_uncertainty() {
    let mut desk = measuring(&[]);
    // 45 mm are needed; 48 less planing and a bow leave hardly that.
    type_all(&mut desk, &["2620", "205", "205", "205", "47.6", "19.7"]);
    type_all(&mut desk, &["3", "1", "2", "1", "10", "0"]);
    let verdict = sheet(&desk).verdict;
    let slab = verdict.estimate(Criterion::Straightness).unwrap();
    assert!((slab.value - 45.0).abs() < slab.expanded(), "{slab:?}");
    let size = verdict.estimate(Criterion::Size).unwrap();
    assert!(size.standard > 0.0, "{size:?}");
    press(&mut desk, "To the verdict");
    let size = region(&desk, "body");
    let at = size.find("Size").unwrap();
    let row = stillwood_app::desk::text_of(&size[at..]);
    assert!(
        row.lines()
            .take(4)
            .any(|line| line.contains("0 to 18 parts")),
        "{row}"
    );
}

#[test]
fn a_value_is_read_back_as_it_was_typed() {
    let mut desk = measuring(&[]);
    press(&mut desk, "width, near");
    for (typed, shown) in [
        ("8.25 in", "8.25"),
        ("209.6", "209.6"),
        ("8 1/4 in", "8.25"),
    ] {
        desk.act(Action::from(stillwood_app::yard::Action::Offer(
            String::new(),
        )));
        desk.keys(typed);
        let read = stillwood_app::desk::text_of(&region(&desk, "active-field"));
        let back = read.lines().skip(2).collect::<Vec<_>>().join(" ");
        assert!(
            back.contains(shown) || back.contains("8 1/4"),
            "{typed}: {read}"
        );
    }
    press(&mut desk, "moisture");
    desk.keys("8.25");
    let read = stillwood_app::desk::text_of(&region(&desk, "active-field"));
    let back = read.lines().skip(2).collect::<Vec<_>>().join(" ");
    assert!(back.contains("8.25"), "{read}");
}

#[test]
fn no_keypad_has_a_second_decimal_key() {
    let mut desk = measuring(&[]);
    for field in Field::ALL {
        desk.act(stillwood_app::yard::Action::Activate(*field));
        let keys = desk.pressables().into_iter();
        let decimal = keys.filter(|one| [".", ","].contains(&one.says.as_str()));
        assert_eq!(decimal.count(), 1, "{field:?}");
    }
}

#[test]
fn a_second_reason_of_the_sort_keeps_the_first() {
    let mut desk = sample();
    let pile = desk.model.state().piles().last().unwrap().id;
    desk.go(Route::Sort(pile));
    let reasons = [queries_reason("twist"), queries_reason("runout")];
    press(&mut desk, "twist");
    press(&mut desk, "runout");
    press(&mut desk, "No");
    let last = desk
        .model
        .state()
        .pile(pile)
        .unwrap()
        .passed
        .last()
        .unwrap();
    assert_eq!(last.reasons, reasons);
    // Both are said.
    says(&desk, "No: twist, runout.");
}

fn queries_reason(name: &str) -> stillwood_core::plank::Reason {
    let mut all = stillwood_core::plank::Reason::ALL.iter();
    *all.find(|one| one.name() == name).unwrap()
}

#[test]
fn after_the_last_maybe_the_pile_is_summed_up_and_no_mark_is_hidden_by_what_was_said() {
    let mut desk = measuring(&[]);
    let pile = desk.model.yard.entering.as_ref().unwrap().draft.pile;
    desk.go(Route::Sort(pile));
    for _ in 0..2 {
        press(&mut desk, "Maybe");
        press(&mut desk, "Chalked, next");
    }
    let marks: Vec<String> = {
        let pieces = desk.model.state().pieces_of(pile);
        pieces.map(|piece| piece.mark.clone()).collect()
    };
    assert_eq!(marks.len(), 2);
    desk.go(Route::PileSummary(pile));
    press(&mut desk, "Measure the next maybe");
    for n in 0..2 {
        let Route::Measure(now) = desk.model.route else {
            panic!("{n}: {:?}", desk.model.route);
        };
        let mark = desk.model.state().piece(now).unwrap().mark.clone();
        // What was said of the plank before names it alone, below the mark of this one.
        says(&desk, &mark);
        let page = desk.page();
        let order: Vec<&str> = page.regions.iter().map(|one| one.id).collect();
        let head = order.iter().position(|id| *id == "head").unwrap();
        assert!(head < order.iter().position(|id| *id == "toast").unwrap());
        type_all(&mut desk, &["2400", "200"]);
        press(&mut desk, "To the verdict");
        press(&mut desk, "Hold");
    }
    assert_eq!(desk.model.route, Route::PileSummary(pile));
}

#[test]
fn digits_of_other_scripts_are_read() {
    for typed in ["２６２０", "٢٦٢٠", "۲۶۲۰"] {
        let mut desk = measuring(&[]);
        desk.keys(typed);
        says(&desk, "2620 mm");
    }
}

#[test]
fn all_that_cannot_be_read_is_marked_at_once() {
    let mut desk = measuring(&[]);
    type_all(&mut desk, &["26,2,0", "2..5"]);
    press(&mut desk, "To the verdict");
    press(&mut desk, "Hold");
    assert_eq!(
        active(&desk),
        Some(Field::Length),
        "the first of them is opened"
    );
    let drawing = region(&desk, "drawing");
    assert_eq!(drawing.matches("dimension unread").count(), 2);
    says(&desk, "Length");
    says(&desk, "Width");
}

/// The reasons at hand, as they stand.
fn at_hand(desk: &Desk) -> Vec<stillwood_core::plank::Reason> {
    desk.model.yard.reasons_at_hand.clone()
}

#[test]
fn no_reason_moves_under_the_thumb_while_a_pile_is_sorted() {
    let mut desk = sample();
    let visit = visit_of(&desk, "Plumlatch Lumber");
    let pile = desk.model.state().piles_of(visit).next().unwrap().id;
    desk.go(Route::Sort(pile));
    let before = at_hand(&desk);
    let last = *before.last().unwrap();
    // Said often enough it would come first.
    for _ in 0..60 {
        desk.act(stillwood_app::yard::Action::Reason(last));
        desk.model.now.millis += 1_000;
        desk.act(stillwood_app::yard::Action::No(pile));
        assert_eq!(at_hand(&desk), before);
    }
    desk.go(Route::Yard);
    desk.go(Route::Sort(pile));
    assert_eq!(at_hand(&desk)[0], last);
}

#[test]
fn what_was_never_measured_has_measuring_as_its_large_key() {
    let mut desk = measuring(&[]);
    press(&mut desk, "To the verdict");
    let keys = region(&desk, "foot").to_owned();
    let main: Vec<&str> = keys
        .split("<button")
        .filter(|key| key.contains("key main"))
        .collect();
    assert!(main.len() == 1 && main[0].contains("Measure it"), "{keys}");
    press(&mut desk, "Measure it");
    assert!(matches!(desk.model.route, Route::Measure(_)));
}

#[test]
fn what_is_judged_in_the_part_says_so() {
    let mut desk = measuring(&[]);
    type_all(
        &mut desk,
        &["2620", "205", "205", "205", "52", "19.7", "0", "4"],
    );
    press(&mut desk, "To the verdict");
    says(&desk, "Crook in the part");
    says(&desk, "Ring angle in the part");
}

#[test]
fn a_newer_version_waits_until_all_is_saved() {
    let mut desk = sample();
    desk.model.shell.new_version = true;
    says(&desk, "Update now");
    desk.model.shell.saving = Saving::Failed("the disk is full".to_owned());
    says_not(&desk, "Update now");
    says(&desk, "Save as a file");
}

#[test]
fn what_was_asked_before_a_plank_is_bought_counts_for_what_stood_there() {
    let mut desk = measuring(&[]);
    // A bow of 260 mm is odd.
    type_all(
        &mut desk,
        &["2620", "205", "205", "205", "52", "19.7", "260"],
    );
    let entries = |desk: &Desk| desk.model.record.log().everything().count();
    let before = entries(&desk);
    press(&mut desk, "To the verdict");
    press(&mut desk, "Buy");
    says(&desk, "260");
    press(&mut desk, "Cancel");
    // Another odd value, which nobody was asked about.
    let piece = desk.model.yard.entering.as_ref().unwrap().piece;
    desk.go(Route::Measure(piece));
    desk.act(stillwood_app::yard::Action::Activate(Field::Crook));
    desk.keys("270");
    press(&mut desk, "To the verdict");
    press(&mut desk, "Buy");
    assert_eq!(entries(&desk), before, "bought without a question");
    says(&desk, "270");
    press(&mut desk, "Buy");
    assert!(entries(&desk) > before, "the key of the question buys");
}
