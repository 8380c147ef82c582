//! The commands of the yard: visit, pile, sort, and the decision on a plank.

mod filled;

use filled::{Shop, asked, day, metric, only, typed, wrong};
use rust_decimal::Decimal;
use stillwood_core::plank::{Field, Reason, RingsBy, WeighedBy};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::*;
use stillwood_core::trade::{PriceBasis, Rounding, TallyMeasure};
use stillwood_core::verdict::{Recommendation, Spec};

fn visit_of(shop: &Shop, id: Option<Id>, texts: &[(&str, &str)]) -> Result<Filled, FieldErrors> {
    let texts = typed(visit::begins(id, &shop.context()), texts);
    visit::command(&metric(&texts), id, &shop.context(), &mut || {
        Id::from_u128(77)
    })
}

fn pile_of(
    shop: &Shop,
    visit: Id,
    id: Option<Id>,
    texts: &[(&str, &str)],
) -> Result<Filled, FieldErrors> {
    let texts = typed(pile::begins(visit, id, &shop.context()), texts);
    pile::command(&metric(&texts), visit, id, &shop.context(), &mut || {
        Id::from_u128(78)
    })
}

#[test]
fn a_visit_is_opened_with_its_terms_and_changed_in_place() {
    let mut shop = Shop::new();
    let texts = [
        ("Yard", "North yard"),
        ("Currency", "EUR"),
        ("Budget", "1 450,50"),
        ("Tax, %", "20"),
        ("Discount, %", "5"),
        ("gross", "true"),
        ("basis", "\"cubic_metre\""),
        ("spec", "1"),
        ("measure", "\"surface_measure\""),
        ("width", "\"down\""),
        ("Percent added", "7"),
        ("Note", " by the river "),
    ];
    let filled = visit_of(&shop, None, &texts).unwrap();
    assert_eq!(filled.events[0].on, Some(day("2026-11-28")));
    assert_eq!(filled.events[0].about, Id::from_u128(77));
    let Event::VisitOpened(opened) = only(Ok(filled.clone())) else {
        panic!()
    };
    assert_eq!(opened.yard, "North yard");
    assert_eq!(opened.budget, Some(Decimal::new(145_050, 2)));
    assert_eq!(opened.tax_percent, Decimal::from(20));
    assert_eq!(opened.discount_percent, Decimal::from(5));
    assert!(opened.prices_include_tax);
    assert_eq!(opened.price_basis, PriceBasis::CubicMetre);
    assert_eq!(opened.spec, Spec::supplied()[1]);
    assert_eq!(opened.rule.measure, TallyMeasure::SurfaceMeasure);
    assert_eq!(opened.rule.width, Rounding::Down);
    assert_eq!(opened.rule.added_percent, Decimal::from(7));
    assert_eq!(opened.note, "by the river");
    let entries = shop.write(&filled.events);
    // A new visit has the terms of the last, but its own yard, budget and note.
    let next = visit::begins(None, &shop.context());
    for (key, text) in [
        ("Yard", ""),
        ("Budget", ""),
        ("Note", ""),
        ("Currency", "EUR"),
        ("Tax, %", "20"),
        ("gross", "true"),
        ("basis", "\"cubic_metre\""),
        ("spec", &as_json(&Spec::supplied()[1])),
    ] {
        assert_eq!(next[key], text, "{key}");
    }
    // Changed: the spec stays, whatever stands in a field that is not shown.
    let id = Id::from_u128(77);
    let changed = visit_of(&shop, Some(id), &[("Yard", "South yard"), ("spec", "0")]).unwrap();
    assert_eq!(changed.events[0].supersedes, entries);
    let Event::VisitOpened(opened) = only(Ok(changed)) else {
        panic!()
    };
    assert_eq!(opened.spec, Spec::supplied()[1]);
    assert_eq!(opened.budget, Some(Decimal::new(145_050, 2)));
}

#[test]
fn what_no_visit_can_have_is_told_at_its_field_all_at_once() {
    let shop = Shop::new();
    let long = "y".repeat(180);
    let bad = [
        ("Yard", long.as_str()),
        ("Day", "yesterday"),
        ("spec", "99"),
        ("Currency", "pounds"),
        ("Budget", "1,450"),
        ("Tax, %", "200"),
        ("Discount, %", "a lot"),
        ("Percent added", "x"),
    ];
    assert_eq!(
        wrong(visit_of(&shop, None, &bad)),
        [
            "Yard",
            "Day",
            "spec",
            "Currency",
            "Budget",
            "Tax, %",
            "Discount, %",
            "Percent added"
        ]
    );
    let errors = visit_of(&shop, None, &bad).unwrap_err();
    let said = |key: &str| errors.of(key).unwrap().to_string();
    assert!(said("Tax, %").starts_with("200 % is more"));
    assert!(said("Currency").contains("“pounds”"));
    assert!(said("Budget").contains("1450, or 1.4500"));
    for currency in ["", "EUR", "£", "kr", "R$", "zł"] {
        let texts = [("Yard", "North"), ("Currency", currency)];
        assert!(visit_of(&shop, None, &texts).is_ok(), "{currency}");
    }
    for currency in ["pounds", "half 102", "12", "€ 2"] {
        let texts = [("Yard", "North"), ("Currency", currency)];
        assert_eq!(wrong(visit_of(&shop, None, &texts)), ["Currency"]);
    }
}

#[test]
fn a_day_to_come_is_asked_about_once() {
    let shop = Shop::new();
    let mut texts = typed(
        visit::begins(None, &shop.context()),
        &[("Yard", "North"), ("Day", "2062-11-28")],
    );
    let fill = |texts: &Texts| {
        let (context, mut id) = (shop.context(), || Id::from_u128(1));
        visit::command(&metric(texts), None, &context, &mut id).unwrap()
    };
    assert_eq!(asked(&fill(&texts)), ["Day"]);
    confirm(&mut texts, "Day");
    let filled = fill(&texts);
    assert_eq!(asked(&filled), [""; 0]);
    assert!(filled.events[0].on_confirmed);
}

#[test]
fn a_pile_takes_the_terms_of_its_visit_unless_it_has_its_own() {
    let mut shop = Shop::new();
    let visit = shop.phone.open_visit("North");
    shop.keep();
    let texts = [
        ("Wood", "hard maple"),
        ("Thickness it is sold as", "8/4"),
        ("Price", "14,50"),
        ("Moisture, %", "10.5"),
        ("Wood temperature", "8"),
        ("Name of the pile", "by the door"),
        ("Invoice", " R-118 "),
        ("Country of harvest", "Canada"),
    ];
    let filled = pile_of(&shop, visit, None, &texts).unwrap();
    assert_eq!(filled.events[0].on, None);
    let Event::PileOpened(opened) = only(Ok(filled.clone())) else {
        panic!()
    };
    assert_eq!(opened.species.id.as_deref(), Some("maple-sugar"));
    assert_eq!(opened.species.text, "hard maple");
    assert_eq!(opened.price, Some(Decimal::new(1450, 2)));
    assert_eq!((opened.price_basis, opened.price_confirmed), (None, false));
    assert_eq!(opened.rule, None);
    let papers = (opened.invoice.as_str(), opened.country_of_harvest.as_str());
    assert_eq!(papers, ("R-118", "Canada"));
    assert_eq!(opened.nominal_thickness.as_ref().unwrap().value, 50.8);
    assert_eq!(opened.visit, visit);
    let entries = shop.write(&filled.events);
    let id = Id::from_u128(78);
    let own = [
        ("basis", "\"piece\""),
        ("has rule", "true"),
        ("length", "\"up\""),
        ("Wood", "some wood"),
    ];
    let changed = pile_of(&shop, visit, Some(id), &own).unwrap();
    assert_eq!(changed.events[0].supersedes, entries);
    let Event::PileOpened(opened) = only(Ok(changed)) else {
        panic!()
    };
    assert_eq!(opened.price_basis, Some(PriceBasis::Piece));
    assert_eq!(opened.rule.unwrap().length, Rounding::Up);
    // The wood that was chosen before does not go by another name.
    assert_eq!(opened.species.id, None);
    assert_eq!(opened.species.text, "some wood");
    assert_eq!(opened.moisture.unwrap().typed, "10.5");
    assert_eq!(opened.invoice, "R-118");
}

#[test]
fn a_pile_tells_all_that_is_wrong_and_asks_about_what_is_odd() {
    let mut shop = Shop::new();
    let visit = shop.phone.open_visit("North");
    shop.keep();
    let bad = [
        ("Thickness it is sold as", "thick"),
        ("Price", "-1"),
        ("Moisture, %", "wet"),
        ("Wood temperature", "cold"),
        ("has rule", "true"),
        ("Percent added", "x"),
    ];
    assert_eq!(
        wrong(pile_of(&shop, visit, None, &bad)),
        [
            "Wood",
            "Thickness it is sold as",
            "Price",
            "Moisture, %",
            "Wood temperature",
            "Percent added"
        ]
    );
    let odd = [
        ("Wood", "maple"),
        ("Thickness it is sold as", "900"),
        ("Price", "1450"),
        ("Moisture, %", "62"),
        ("Wood temperature", "70"),
    ];
    let mut texts = typed(pile::begins(visit, None, &shop.context()), &odd);
    let keys = [
        "Price",
        "Thickness it is sold as",
        "Moisture, %",
        "Wood temperature",
    ];
    let fill = |texts: &Texts| {
        let (context, mut id) = (shop.context(), || Id::from_u128(1));
        pile::command(&metric(texts), visit, None, &context, &mut id).unwrap()
    };
    assert_eq!(asked(&fill(&texts)), keys);
    keys.iter().for_each(|key| confirm(&mut texts, key));
    let Event::PileOpened(opened) = only(Ok(fill(&texts))) else {
        panic!()
    };
    assert!(opened.price_confirmed && opened.moisture.unwrap().confirmed);
}

#[test]
fn no_and_maybe_are_one_event_each() {
    let mut shop = Shop::new();
    let visit = shop.phone.open_visit("North");
    let pile = shop.phone.open_pile(visit, "hard_maple");
    shop.keep();
    let reasons = vec![Reason::Checks, Reason::Knot];
    let filled = sort::no(pile, reasons.clone());
    assert_eq!(
        only(Ok(filled.clone())),
        Event::PassedOver(PassedOver { count: 1, reasons })
    );
    shop.write(&filled.events);
    assert_eq!(
        queries::sort_reasons(&shop.state)[..3],
        [Reason::Knot, Reason::Checks, Reason::Runout]
    );
    let passed_over = |shop: &Shop| shop.state.pile(pile).unwrap().passed_over();
    let before = passed_over(&shop);
    shop.write(&sort::undo_last_no(&shop.state, pile).events);
    assert_eq!(passed_over(&shop), before - 1);
    let maybe = |shop: &Shop, mark: &str| sort::maybe(&shop.state, pile, Id::from_u128(90), mark);
    let filled = maybe(&shop, "K7-1-X").unwrap();
    assert_eq!(
        only(Ok(filled.clone())),
        Event::Marked(Marked {
            mark: "K7-1-X".into(),
            pile
        })
    );
    shop.write(&filled.events);
    assert_eq!(next_maybe(&shop.state, pile, None), Some(Id::from_u128(90)));
    assert_eq!(wrong(maybe(&shop, "k71x")), ["mark"]);
    assert_eq!(wrong(maybe(&shop, " ")), ["mark"]);
}

mod decision {
    use super::*;

    const PLANK: [(Field, &str); 7] = [
        (Field::Length, "2480"),
        (Field::WidthNear, "215"),
        (Field::ThicknessNear, "54"),
        (Field::WeightFirst, "10.3"),
        (Field::WeightSecond, "9.4"),
        (Field::Bow, "6"),
        (Field::GrainFace, "12"),
    ];

    fn put(draft: &mut Draft, field: Field, text: &str) {
        let value = DraftValue {
            text: text.to_owned(),
            ..DraftValue::default()
        };
        draft.put(field, value);
    }

    fn begun(shop: &mut Shop, moisture: &str) -> Draft {
        let visit = shop.phone.open_visit("North");
        shop.keep();
        let spec = serde_json::to_string(&Spec::supplied()[0]).unwrap();
        let mut opened = shop.state.visit(visit).unwrap().opened.clone();
        opened.spec = serde_json::from_str(&spec).unwrap();
        let entry = shop.state.visit(visit).unwrap().recorded.entry;
        let event = Event::VisitOpened(Box::new(opened));
        shop.write(&[NewEvent::instead_of(visit, event, vec![entry])]);
        let texts = [("Wood", "hard maple"), ("Moisture, %", moisture)];
        let filled = pile_of(shop, visit, None, &texts).unwrap();
        shop.write(&filled.events);
        let mut draft = Draft::new(Id::from_u128(78), "K7-2-R".into(), String::new());
        draft.piece = Some(Id::from_u128(500));
        plank_draft(&shop.state, Id::from_u128(500), Some(draft), "").unwrap()
    }

    fn decide(
        shop: &Shop,
        draft: &Draft,
        decision: Decision,
        confirmed: bool,
    ) -> Result<Filled, FieldErrors> {
        let deciding = Deciding {
            piece: Id::from_u128(500),
            draft,
            weighed_by: weighed_by(draft).unwrap_or_default(),
            rings_by: RingsBy::Angle,
            units: Units::Metric,
            decision,
            reasons: &[Reason::Bow],
            confirmed,
        };
        decide_plank::command(&deciding, &shop.context())
    }

    #[test]
    fn the_plank_its_note_and_the_judgement_are_recorded_in_one_go() {
        let mut shop = Shop::new();
        let mut draft = begun(&mut shop, "10");
        assert_eq!(draft.value(Field::Moisture).unwrap().text, "10");
        PLANK.iter().for_each(|(f, text)| put(&mut draft, *f, text));
        draft.note = " rings dead at one end ".into();
        draft.species = "some maple".into();
        let filled = decide(&shop, &draft, Decision::Take, false).unwrap();
        assert_eq!(filled.questions, []);
        let kinds: Vec<&str> = filled.events.iter().map(|one| one.event.kind()).collect();
        assert_eq!(kinds, ["marked", "measured", "noted", "judged"]);
        let Event::Measured(measured) = &filled.events[1].event else {
            panic!()
        };
        assert_eq!(measured.readings.len(), 8);
        assert_eq!(measured.species.as_ref().unwrap().text, "some maple");
        let Event::Judged(judged) = &filled.events[3].event else {
            panic!()
        };
        assert_eq!(judged.reasons, [Reason::Bow]);
        assert!(judged.score.is_some() && judged.weakest.is_some());
        shop.write(&filled.events);
        // Saved again, the earlier measurements are replaced, and it keeps its mark.
        let again = plank_draft(&shop.state, Id::from_u128(500), None, "").unwrap();
        let filled = decide(&shop, &again, Decision::Leave, false).unwrap();
        let kinds: Vec<&str> = filled.events.iter().map(|one| one.event.kind()).collect();
        assert_eq!(kinds, ["measured", "judged"]);
        assert_eq!(filled.events[0].supersedes.len(), 1);
    }

    #[test]
    fn only_the_way_that_is_shown_is_weighed() {
        let mut shop = Shop::new();
        let mut draft = begun(&mut shop, "10");
        PLANK.iter().for_each(|(f, text)| put(&mut draft, *f, text));
        put(&mut draft, Field::WeightWhole, "10.3");
        assert_eq!(weighed_by(&draft), Some(WeighedBy::Ends));
        let read = draft_readings(&draft, WeighedBy::Ends, RingsBy::Angle, Units::Metric);
        assert!(!read.readings.contains_key(&Field::WeightWhole));
        let read = draft_readings(&draft, WeighedBy::Whole, RingsBy::Angle, Units::Metric);
        assert_eq!(read.readings[&Field::WeightWhole].value, 10.3);
        assert!(!read.readings.contains_key(&Field::WeightFirst));
    }

    #[test]
    fn buying_with_nothing_measured_or_with_open_questions_asks_once() {
        let mut shop = Shop::new();
        let mut draft = begun(&mut shop, "10");
        let filled = decide(&shop, &draft, Decision::Take, false).unwrap();
        assert_eq!(asked(&filled), ["decision"]);
        assert_eq!(
            decide(&shop, &draft, Decision::Take, true)
                .unwrap()
                .questions,
            []
        );
        assert_eq!(
            decide(&shop, &draft, Decision::Leave, false)
                .unwrap()
                .questions,
            []
        );
        PLANK.iter().for_each(|(f, text)| put(&mut draft, *f, text));
        put(&mut draft, Field::Bow, "260");
        let filled = decide(&shop, &draft, Decision::Take, false).unwrap();
        assert!(asked(&filled).contains(&"bow"), "{:?}", filled.questions);
        assert_eq!(
            decide(&shop, &draft, Decision::SetAside, false)
                .unwrap()
                .questions,
            []
        );
    }

    #[test]
    fn the_moisture_of_the_pile_alone_gives_no_score() {
        let mut shop = Shop::new();
        let mut draft = begun(&mut shop, "11.6");
        let filled = decide(&shop, &draft, Decision::Take, true).unwrap();
        let judged = |filled: &Filled| match &filled.events.last().unwrap().event {
            Event::Judged(judged) => judged.clone(),
            other => panic!("{other:?}"),
        };
        let one = judged(&filled);
        assert_eq!((one.score, one.proposed, one.weakest), (None, None, None));
        // Nor does it rank the plank in a list, or stand on its sheet.
        let mut listed = shop.state.clone();
        let before = shop.log.clone();
        shop.write(&filled.events);
        std::mem::swap(&mut listed, &mut shop.state);
        let row = queries::rows(&listed, &shop.tools).remove(0);
        assert_eq!(
            (row.score, row.recommendation),
            (None, Some(Recommendation::NothingYet))
        );
        let piece = listed.piece(Id::from_u128(500)).unwrap();
        let of_it = queries::sheet_of(&listed, piece, &shop.tools).unwrap();
        assert_eq!(of_it.verdict.score, None);
        shop.log = before;
        let spec = Spec::supplied()[0].clone();
        let sheet = |shop: &Shop, draft: &Draft| {
            let read = draft_readings(draft, WeighedBy::Whole, RingsBy::Angle, Units::Metric);
            draft_sheet(&read, draft.pile, &spec, &shop.context())
        };
        assert_eq!(
            sheet(&shop, &draft).verdict.recommendation,
            Recommendation::NothingYet
        );
        // Read on the plank itself, it counts.
        put(&mut draft, Field::Moisture, "11.5");
        assert!(sheet(&shop, &draft).verdict.score.is_some());
    }

    #[test]
    fn what_cant_be_read_is_told_field_by_field() {
        let mut shop = Shop::new();
        let mut draft = begun(&mut shop, "10");
        put(&mut draft, Field::Length, "long");
        put(&mut draft, Field::Twist, "12 l r");
        draft.species = "w".repeat(200);
        draft.defects.push(DraftDefect {
            from: "near".into(),
            kind: stillwood_core::plank::DefectKind::Knot,
            note: String::new(),
            to: "far".into(),
        });
        assert_eq!(
            wrong(decide(&shop, &draft, Decision::Leave, false)),
            [
                "length",
                "twist",
                "defects/0/from",
                "defects/0/to",
                "species"
            ]
        );
    }

    #[test]
    fn a_draft_means_the_same_after_the_units_change() {
        let mut draft = Draft::new(Id::nil(), String::new(), String::new());
        PLANK.iter().for_each(|(f, text)| put(&mut draft, *f, text));
        let restated = restated(&draft, Units::Metric);
        let before = draft_readings(&draft, WeighedBy::Ends, RingsBy::Angle, Units::Metric);
        let after = draft_readings(&restated, WeighedBy::Ends, RingsBy::Angle, Units::Inch);
        let value = |read: &DraftReadings| {
            let of = read.readings.iter();
            of.map(|(f, taken)| (*f, taken.value)).collect::<Vec<_>>()
        };
        assert_eq!(value(&before), value(&after));
    }
}

mod weight {
    use super::*;
    use stillwood_core::plank::{FieldWarning, Readings};
    use stillwood_core::quantity::{kg_per_m3, read};

    fn asked_of(typed: &str, unit: &str) -> Vec<FieldWarning> {
        let size = |value: f64| stillwood_tests::invented::taken(value, "mm");
        let mut weight = stillwood_tests::invented::taken(0.0, unit);
        weight.typed = typed.to_owned();
        weight.value = read::mass(typed, Units::Metric).unwrap().value;
        let readings = Readings::from([
            (Field::Length, size(2480.0)),
            (Field::WidthNear, size(215.0)),
            (Field::ThicknessNear, size(54.0)),
            (Field::WeightWhole, weight),
        ]);
        let usual = (Some(kg_per_m3(620.0)), Some(kg_per_m3(760.0)));
        stillwood_core::plank::warnings_for_wood(&readings, usual.0, usual.1, Units::Metric)
    }

    #[test]
    fn kilograms_that_fit_in_pounds_are_asked_about() {
        // 2480 x 215 x 54 mm: 19.7 kg is 684 kg/m3, 43.4 kg is 1507.
        for (typed, unit) in [("43.4 kg", "kg"), ("43.4", "kg"), ("40 kg", "kg")] {
            let asked = asked_of(typed, unit);
            assert_eq!(asked.len(), 1, "{typed}");
            assert_eq!(asked[0].field, Field::WeightWhole);
            let offers = &asked[0].warning.offers;
            assert!(offers[0].text.ends_with(" lb"), "{offers:?}");
        }
        assert_eq!(asked_of("19.7 kg", "kg"), []);
        assert_eq!(asked_of("43.4 lb", "lb"), []);
        // Heavier than usual, but no wood in pounds either.
        assert_eq!(asked_of("25 kg", "kg"), []);
    }
}

#[test]
fn digits_of_other_scripts_are_digits() {
    use stillwood_core::quantity::read;
    let length = |text: &str| read::length(text, Units::Metric).map(|read| read.value);
    for text in ["٢٤٨٠", "۲۴۸۰", "２４８０", "２４８０ mm", "٢٫٤٨ m"] {
        assert_eq!(length(text), Ok(2480.0), "{text}");
    }
    assert_eq!(read::amount("١٤٫٥٠"), Ok(Some(Decimal::new(1450, 2))));
    assert_eq!(read::amount("１４．５０"), Ok(Some(Decimal::new(1450, 2))));
    assert_eq!(read::moisture("١٠٪").map(|read| read.value), Ok(10.0));
    // A twelve for a slope is twelve in the usual run.
    let slope = |units: Units| read::slope("12", units).map(|read| read.value);
    assert_eq!(slope(Units::Metric), Ok(12.0 / 300.0));
}

#[test]
fn wood_is_found_by_its_mark_or_by_words() {
    let mut shop = Shop::new();
    let visit = shop.phone.open_visit("Riverside");
    let pile = shop.phone.open_pile(visit, "hard_maple");
    shop.keep();
    let mark = (12..)
        .find_map(|after| Mark::next("K7", after).ok())
        .unwrap()
        .to_string();
    let plank = Id::from_u128(600);
    let filled = sort::maybe(&shop.state, pile, plank, &mark).unwrap();
    shop.write(&filled.events);
    let plain: String = mark.chars().filter(char::is_ascii_alphanumeric).collect();
    let (bare, check) = plain.split_at(plain.len() - 1);
    let dashed = mark.rsplit_once('-').unwrap().0;
    let small = plain.to_lowercase();
    for typed in [&mark, &plain, &small, bare, dashed, &format!(" {bare} ")] {
        let found = queries::find_mark(&shop.state, typed);
        assert_eq!(found.exactly, [plank], "{typed}");
        assert_eq!(found.misread, None);
    }
    let begun = queries::find_mark(&shop.state, "k7");
    assert_eq!((begun.exactly.len(), begun.beginning), (0, vec![plank]));
    let other = if check == "A" { "C" } else { "A" };
    let misread = queries::find_mark(&shop.state, &format!("{dashed}-{other}"));
    assert!(misread.misread.is_some() && misread.exactly.is_empty());
    for words in ["riverside", "hard_maple river", "by the door"] {
        let found = queries::find_mark(&shop.state, words);
        assert_eq!(
            (found.by_words, found.misread),
            (vec![plank], None),
            "{words}"
        );
    }
    assert_eq!(queries::find_mark(&shop.state, "oak"), Default::default());
    assert_eq!(queries::find_mark(&shop.state, " - "), Default::default());
}
