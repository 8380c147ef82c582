//! The commands of the saw and the clamps: looking a rack over, a cut, a gluing and its limits.

mod filled;

use filled::{Shop, asked, day, ids, metric, only, typed, wrong};
use stillwood_core::plank::{Field, Readings, Reason, RingClass};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::*;
use stillwood_core::verdict::Spec;
use stillwood_tests::invented::taken;

fn measured_plank(shop: &mut Shop) -> Id {
    let plank = shop.plank();
    let readings = Readings::from([
        (Field::Length, taken(2400.0, "mm")),
        (Field::WidthNear, taken(200.0, "mm")),
        (Field::ThicknessNear, taken(95.0, "mm")),
        (Field::RingAngle, taken(20.0, "deg")),
    ]);
    shop.phone.measure(plank, readings);
    shop.keep();
    plank
}

fn cut_texts(shop: &Shop, plank: Id, texts: &[(&str, &str)]) -> Texts {
    typed(cut::begins(plank, &shop.context(), Units::Metric), texts)
}

fn cut_of(shop: &Shop, plank: Id, texts: &[(&str, &str)]) -> Result<Filled, FieldErrors> {
    let texts = cut_texts(shop, plank, texts);
    cut::command(&metric(&texts), plank, &shop.context(), &mut ids())
}

mod rack {
    use super::*;

    fn round(shop: &Shop, who: &str) -> Texts {
        typed(check_rack::begins(&shop.context()), &[("Who looked", who)])
    }

    #[test]
    fn a_touch_records_no_change_and_sizes_record_what_moved() {
        let mut shop = Shop::new();
        let plank = shop.plank();
        let round = round(&shop, "Ada");
        let filled = check_rack::no_change(&metric(&round), plank, &shop.context()).unwrap();
        assert_eq!(filled.events[0].on, Some(day("2026-11-28")));
        let Event::MovementChecked(check) = only(Ok(filled)) else {
            panic!()
        };
        assert!(check.nothing_moved && check.readings.is_empty());
        assert_eq!(check.who, "Ada");
        let form = typed(round, &[("Crook", "0.4"), ("Twist", "1 L")]);
        let filled = check_rack::moved(&metric(&form), plank, &shop.context());
        let Event::MovementChecked(check) = only(filled) else {
            panic!()
        };
        assert_eq!(check.readings[&Field::Twist].value, -1.0);
        assert_eq!((check.who.as_str(), check.nothing_moved), ("Ada", false));
    }

    #[test]
    fn errors_and_the_question_about_the_day_stand_where_they_belong() {
        let mut shop = Shop::new();
        let plank = measured_plank(&mut shop);
        let mut texts = round(&shop, "Ada");
        texts.insert("Day".into(), "2046-01-01".into());
        let ask =
            |texts: &Texts| check_rack::no_change(&metric(texts), plank, &shop.context()).unwrap();
        assert_eq!(asked(&ask(&texts)), ["Day"]);
        confirm(&mut texts, "Day");
        assert_eq!(asked(&ask(&texts)), [""; 0]);
        let moved = |round: &Texts, sizes: &[(&str, &str)]| {
            let form = typed(round.clone(), sizes);
            check_rack::moved(&metric(&form), plank, &shop.context())
        };
        // The day is answered for the round, a size for the piece.
        let crook = |round: &Texts, gap| moved(round, &[("Crook", gap)]).unwrap();
        assert_eq!(asked(&crook(&texts, "40")), [""; 0]);
        assert_eq!(asked(&crook(&texts, "400")), ["Crook"]);
        texts.insert("Day".into(), String::new());
        let bad = moved(&texts, &[("Crook", "a"), ("Bow", "b")]);
        assert_eq!(wrong(bad), ["Crook", "Bow", "Day"]);
        assert_eq!(wrong(moved(&texts, &[])), ["Nothing moved", "Day"]);
    }

    #[test]
    fn what_rests_lies_rack_by_rack() {
        let mut shop = Shop::new();
        let plank = shop.plank();
        assert_eq!(queries::rack_lots(&shop.state), []);
        let command = workshop_command("Set to rest").unwrap();
        let texts = typed(command.begins(plank, &shop.context()), &[("Shelf", "2")]);
        let filled = command
            .command(&metric(&texts), plank, &shop.context())
            .unwrap();
        shop.write(&filled.events);
        let lots = queries::rack_lots(&shop.state);
        assert_eq!((lots.len(), lots[0].place.as_str()), (1, "2"));
        assert_eq!(lots[0].pieces[0].0, plank);
        assert!(shop.state.piece(plank).unwrap().work.checks.is_empty());
        let round = round(&shop, "");
        let filled = check_rack::no_change(&metric(&round), plank, &shop.context()).unwrap();
        shop.write(&filled.events);
        let checks = &shop.state.piece(plank).unwrap().work.checks;
        assert_eq!((checks.len(), checks[0].on), (1, shop.today));
    }
}

mod saw {
    use super::*;

    #[test]
    fn a_cut_begins_with_the_sizes_of_the_spec() {
        let mut shop = Shop::new();
        let plank = measured_plank(&mut shop);
        let texts = cut_texts(&shop, plank, &[]);
        for (key, text) in [
            ("kind", "\"laminate\""),
            ("wanted", "\"Any\""),
            ("length", "950 mm"),
            ("thickness of a laminate", "18 mm"),
            ("planing", "1.2 mm"),
            ("kerf", "2.4 mm"),
            ("end trim", "75 mm"),
            ("edge trim", "3 mm"),
            ("Over a length of", "950 mm"),
            ("Day of the cut", "2026-11-28"),
        ] {
            assert_eq!(texts[key], text, "{key}");
        }
    }

    #[test]
    fn a_measured_ring_angle_is_used_across_the_plank() {
        let mut shop = Shop::new();
        let plank = measured_plank(&mut shop);
        let texts = cut_texts(&shop, plank, &[]);
        let planned = cut_plan::planned(&metric(&texts), plank, &shop.context()).unwrap();
        // 20 degrees to the face, turned on edge 70: quartersawn.
        assert_eq!(
            planned.counts(),
            [(Some(RingClass::Quartersawn), planned.plan.parts())]
        );
        let unread = shop.plank();
        let sizes = Readings::from([
            (Field::Length, taken(2400.0, "mm")),
            (Field::WidthNear, taken(200.0, "mm")),
        ]);
        shop.phone.measure(unread, sizes);
        shop.keep();
        let planned = cut_plan::planned(&metric(&texts), unread, &shop.context()).unwrap();
        assert_eq!(planned.counts(), [(None, planned.plan.parts())]);
    }

    #[test]
    fn what_came_off_the_saw_is_recorded_with_its_marks_and_what_sprang() {
        let mut shop = Shop::new();
        let plank = measured_plank(&mut shop);
        let texts = cut_texts(&shop, plank, &[]);
        let planned = cut_plan::planned(&metric(&texts), plank, &shop.context()).unwrap();
        let count = planned.plan.parts();
        let mut fates = vec![cut::Fate::Kept; count];
        fates[1] = cut::Fate::Sprang;
        fates[2] = cut::Fate::NotCut;
        let fates = as_json(&fates);
        let said = [
            ("came of them", fates.as_str()),
            ("marks", r#"{"0":"left one"}"#),
            ("It sprang by", "+3"),
            ("Over a length of", "950"),
        ];
        let filled = cut_of(&shop, plank, &said).unwrap();
        assert_eq!(filled.questions, []);
        assert_eq!(filled.events.len(), 2);
        let Event::Cut(cut) = &filled.events[0].event else {
            panic!()
        };
        assert_eq!(cut.children.len(), count - 1);
        assert_eq!(cut.children[0].mark, "left one");
        assert_eq!(cut.children[0].kind, PieceKind::Laminate);
        assert_eq!(cut.kerf.as_ref().unwrap().value, 2.4);
        let tension = cut.tension.as_ref().unwrap();
        assert_eq!(
            (tension.gap.value, tension.over.as_ref().unwrap().value),
            (3.0, 950.0)
        );
        assert_eq!(filled.events[1].about, cut.children[1].id);
        assert_eq!(
            filled.events[1].event,
            Event::Discarded(Discarded {
                reasons: vec![Reason::Sprang]
            })
        );
        let texts = cut_texts(&shop, plank, &said);
        assert!(cut::spring_beyond(&metric(&texts), &shop.state).is_some());
        shop.write(&filled.events);
        assert!(!shop.state.piece(plank).unwrap().is_at_hand());
        assert_eq!(wrong(cut_of(&shop, plank, &[])), ["length"]);
    }

    #[test]
    fn all_that_is_wrong_with_a_cut_is_told_at_once() {
        let mut shop = Shop::new();
        let plank = measured_plank(&mut shop);
        let bad = [
            ("length", "long"),
            ("thickness of a laminate", "0"),
            ("planing", ""),
            ("kerf", "-1"),
            ("It sprang by", "much"),
            ("Day of the cut", "?"),
        ];
        assert_eq!(
            wrong(cut_of(&shop, plank, &bad)),
            [
                "Day of the cut",
                "It sprang by",
                "kerf",
                "length",
                "planing",
                "thickness of a laminate"
            ]
        );
        let none = as_json(&vec![
            cut::Fate::NotCut;
            {
                let texts = cut_texts(&shop, plank, &[]);
                let planned = cut_plan::planned(&metric(&texts), plank, &shop.context());
                planned.unwrap().plan.parts()
            }
        ]);
        assert_eq!(
            wrong(cut_of(&shop, plank, &[("came of them", &none)])),
            ["came of them"]
        );
        let of_plank = shop.state.piece(plank).unwrap().mark.clone();
        let texts = cut_texts(&shop, plank, &[]);
        let planned = cut_plan::planned(&metric(&texts), plank, &shop.context()).unwrap();
        let fates = as_json(&vec![cut::Fate::Kept; planned.plan.parts()]);
        let marks = format!(r#"{{"0":"{of_plank}","1":" ","2":"x","3":"X"}}"#);
        let said = [("came of them", fates.as_str()), ("marks", &marks)];
        assert_eq!(
            wrong(cut_of(&shop, plank, &said)),
            ["marks/0", "marks/1", "marks/2", "marks/3"]
        );
        let unmeasured = shop.plank();
        assert_eq!(wrong(cut_of(&shop, unmeasured, &[])), ["length"]);
    }

    #[test]
    fn a_neck_of_one_piece_is_cut_as_a_blank() {
        let mut shop = Shop::new();
        let plank = measured_plank(&mut shop);
        let visit = shop
            .state
            .visit_of(shop.state.piece(plank).unwrap())
            .unwrap();
        let (id, entry, mut opened) = (visit.id, visit.recorded.entry, visit.opened.clone());
        opened.spec = Spec::supplied()
            .into_iter()
            .find(|spec| spec.parts_per_blank == 1 && spec.name.contains("One-piece"))
            .unwrap();
        let event = Event::VisitOpened(Box::new(opened));
        shop.write(&[NewEvent::instead_of(id, event, vec![entry])]);
        assert_eq!(cut_texts(&shop, plank, &[])["kind"], "\"blank\"");
        let filled = cut_of(&shop, plank, &[]).unwrap();
        shop.write(&filled.events);
        let Event::Cut(cut) = &filled.events[0].event else {
            panic!()
        };
        let blank = shop.state.piece(cut.children[0].id).unwrap();
        assert_eq!(blank.work.kind, PieceKind::Blank);
        assert_eq!(queries::stage_of(blank).name(), "blanks");
    }
}

mod clamps {
    use super::*;

    fn laminates(shop: &mut Shop) -> Vec<Id> {
        let plank = measured_plank(shop);
        let filled = cut_of(shop, plank, &[]).unwrap();
        shop.write(&filled.events);
        let Event::Cut(cut) = &filled.events[0].event else {
            panic!()
        };
        cut.children.iter().map(|child| child.id).collect()
    }

    fn members(of: &[Id]) -> String {
        let member = |piece: &Id| Member {
            piece: *piece,
            turned_over: true,
            turned: false,
        };
        as_json(&of.iter().map(member).collect::<Vec<_>>())
    }

    fn glue_of(shop: &Shop, texts: &[(&str, &str)]) -> Result<Filled, FieldErrors> {
        let texts = typed(glue::begins(&shop.context()), texts);
        let mut id = || Id::from_u128(55);
        glue::command(&metric(&texts), &shop.context(), &mut id)
    }

    #[test]
    fn a_gluing_is_one_event() {
        let mut shop = Shop::new();
        let laminates = laminates(&mut shop);
        let in_hand = members(&laminates[..3]);
        let said = [
            ("in hand", in_hand.as_str()),
            ("Mark of the blank", "K7-90"),
            ("Adhesive", "epoxy"),
            ("Batch", "B7"),
            ("Mix", "2:1"),
            ("water", "false"),
            ("Clamped, hours", "12"),
            ("Humidity, %", "45"),
            ("Room temperature", "20"),
        ];
        let filled = glue_of(&shop, &said).unwrap();
        assert_eq!(filled.events[0].about, Id::from_u128(55));
        let Event::Glued(glued) = only(Ok(filled.clone())) else {
            panic!()
        };
        assert_eq!(glued.members.len(), 3);
        assert!(glued.members[0].turned_over);
        assert_eq!(glued.mark, "K7-90");
        assert_eq!(glued.adhesive.brings_water, Some(false));
        let hours = glued.clamp_time.unwrap();
        assert_eq!((hours.value, hours.unit.as_str()), (12.0, "h"));
        assert_eq!(glued.climate.humidity.unwrap().value, 45.0);
        assert_eq!(glued.climate.temperature.unwrap().value, 20.0);
        shop.write(&filled.events);
        // The same laminates can't be glued twice, nor the mark be given twice.
        assert_eq!(
            wrong(glue_of(&shop, &said)),
            ["in hand", "Mark of the blank"]
        );
    }

    #[test]
    fn all_that_is_wrong_with_a_gluing_is_told_and_what_is_odd_is_asked() {
        let mut shop = Shop::new();
        let laminates = laminates(&mut shop);
        let bad = [
            ("Clamped, hours", "long"),
            ("Humidity, %", "120"),
            ("Room temperature", "warm"),
            ("Day of the gluing", ""),
        ];
        assert_eq!(
            wrong(glue_of(&shop, &bad)),
            [
                "in hand",
                "Mark of the blank",
                "Clamped, hours",
                "Humidity, %",
                "Room temperature",
                "Day of the gluing"
            ]
        );
        let in_hand = members(&laminates[..2]);
        let odd = [
            ("in hand", in_hand.as_str()),
            ("Mark of the blank", "K7-91"),
            ("Clamped, hours", "900"),
            ("Room temperature", "70"),
            ("Day of the gluing", "2036-01-01"),
        ];
        let filled = glue_of(&shop, &odd).unwrap();
        assert_eq!(
            asked(&filled),
            ["Day of the gluing", "Room temperature", "Clamped, hours"]
        );
    }

    #[test]
    fn the_search_takes_what_was_chosen_and_the_woods_wanted() {
        let mut shop = Shop::new();
        let laminates = laminates(&mut shop);
        let chosen = glue::chosen_text(&laminates);
        let texts = typed(
            glue::begins(&shop.context()),
            &[("chosen", &chosen), ("Laminates in the blank", "3")],
        );
        let woods = ["hard_maple".to_owned(), String::new()];
        let search = glue::search(&metric(&texts), &woods, true, &shop.context()).unwrap();
        assert_eq!(search.laminates.len(), laminates.len());
        let places: Vec<bool> = search.wish.places.iter().map(Option::is_some).collect();
        assert_eq!(places, [true, false, true]);
        let bad = typed(
            glue::begins(&shop.context()),
            &[("chosen", ""), ("Laminates in the blank", "many")],
        );
        let bad = glue::search(&metric(&bad), &[], true, &shop.context());
        assert_eq!(wrong(bad), ["Laminates in the blank", "chosen"]);
    }

    #[test]
    fn limits_for_gluing_are_more_than_nothing() {
        let shop = Shop::new();
        let keep = |texts: &[(&str, &str)]| {
            let texts = typed(gluing_limits::begins(&shop.context()), texts);
            gluing_limits::command(&metric(&texts), &shop.context(), &mut ids())
        };
        let Event::GluingSet(set) = only(keep(&[("Twist, mm", "0,7")])) else {
            panic!()
        };
        let supplied = GluingSet::of(&queries::match_limits(&shop.state));
        assert_eq!(
            *set,
            GluingSet {
                twist_mm: 0.7,
                ..supplied
            }
        );
        let bad = [
            ("Crook left, mm", "0"),
            ("Twist, mm", ""),
            ("Moisture apart, %", "x"),
        ];
        assert_eq!(
            wrong(keep(&bad)),
            ["Crook left, mm", "Twist, mm", "Moisture apart, %"]
        );
    }
}
