//! Today, the start and the search: what they show for the sample, what each key does.

mod at_the_desk;

use at_the_desk::{at, piece, press, region, says, says_not};
use stillwood_app::desk::{Desk, text_of};
use stillwood_app::effect::Effect;
use stillwood_app::model::HalfTyped;
use stillwood_app::words::Language;
use stillwood_app::{Action, Route, today};
use stillwood_core::quantity::read::Units;
use stillwood_core::record::{Draft, DraftValue, KeptElsewhere, queries};

#[test]
fn the_start_holds_one_sentence_and_two_keys() {
    let mut desk = Desk::new("2026-11-20");
    desk.go(Route::Today);
    says(
        &desk,
        "Measure planks where they lie, follow them until they hold still.",
    );
    says_not(&desk, "Install it first");
    desk.model.shell.install_first = true;
    says(&desk, "Install it first.");
    press(&mut desk, "Open the sample workshop");
    assert!(matches!(
        desk.left.as_slice(),
        [.., Effect::OpenSample(true)]
    ));
    press(&mut desk, "Start a visit to a yard");
    assert_eq!(desk.model.route, Route::NewVisit);
}

#[test]
fn a_half_typed_form_on_an_empty_record_is_not_hidden_by_the_start() {
    let mut desk = Desk::new("2026-11-20");
    let form = HalfTyped {
        at: "#/visit/new".to_owned(),
        words: "a visit".to_owned(),
        units: Units::Metric,
        texts: Default::default(),
    };
    desk.model.forms.insert("visit".to_owned(), form);
    desk.go(Route::Today);
    // As a heading, with a capital.
    says(&desk, "A visit");
    says(&desk, "half typed");
}

#[test]
fn what_stands_here_only_is_told_with_the_way_to_share() {
    let mut desk = at(Route::Today);
    assert!(
        !desk.reads().contains("only"),
        "not told before it is known"
    );
    desk.model.shell.kept = Some(KeptElsewhere::default());
    says(&desk, "53 planks stand on this phone only");
    says(&desk, "Never handed over");
    desk.act(Action::Wide(true));
    says(&desk, "53 planks stand on this laptop only");
    press(&mut desk, "Share");
    assert_eq!(desk.model.route, Route::Share);
    // Of the sample nothing is told, and how to close it is.
    desk.model.shell.sample = true;
    desk.go(Route::Today);
    says_not(&desk, "stand on this");
    press(&mut desk, "Close the sample");
    assert!(matches!(
        desk.left.as_slice(),
        [.., Effect::OpenSample(false)]
    ));
}

#[test]
fn wood_stands_under_what_is_the_matter_with_it() {
    let mut desk = at(Route::Today);
    let reads = desk.reads();
    let at = |text: &str| {
        reads
            .find(text)
            .unwrap_or_else(|| panic!("“{text}” is not in:\n{reads}"))
    };
    // A laminate that was put to another use lies on its rack, and nothing is due with it.
    assert!(!reads.contains("H3-2-Y b5"));
    assert!(at("Rest over, ready to work (12)") < at("Rest over, not yet still (3)"));
    // What nobody has looked at for half a year is not called ready.
    assert!(at("Rest over, not yet still (3)") < at("Rest over, look again (2)"));
    assert!(at("Rest over, look again (2)") < at("H3-11-W"));
    assert!(at("H3-11-W") < at("Look over Loft"));
    assert!(
        at("Rest over, not yet still (3)") < at("Rest over, not known if weight is steady (19)")
    );
    assert!(at("Rest over, not yet still (3)") < at("Moved: crook 3.4 mm, limit 2 mm"));
    says(&desk, "7 laminates of K7-5-P");
    says(&desk, "still drying, near its room's air about");
    says(&desk, "4 blanks needed");
    // Nothing is called overdue.
    assert!(!reads.to_lowercase().contains("overdue"));
    // All that is to be settled is told in the words of its own screen, and the key leads there.
    let to_settle = stillwood_app::book::settle::found(&desk.model);
    assert!(to_settle.iter().any(|one| !one.calm));
    for one in &to_settle {
        assert_eq!(reads.contains(&one.line), !one.calm, "{}", one.line);
    }
    press(&mut desk, "Settle");
    assert_eq!(desk.model.route, Route::Settle);
}

#[test]
fn a_lot_opens_to_its_members_and_a_member_to_its_page() {
    let mut desk = at(Route::Today);
    says_not(&desk, "K7-5-P a3");
    press(&mut desk, "7 laminates of K7-5-P");
    says(&desk, "K7-5-P a3");
    assert!(
        desk.kept.keys().any(|key| key == "shown/workshop"),
        "kept on the device"
    );
    press(&mut desk, "K7-5-P a3");
    let id = piece(&desk, "K7-5-P a3");
    assert_eq!(desk.model.route, Route::Piece(id));
}

#[test]
fn the_next_twelve_months_are_bars_that_are_told_in_words() {
    let desk = at(Route::Today);
    let body = region(&desk, "body");
    assert!(body.contains("aria-label=\"Dec: 1, Mar: 8\""), "{}", body);
}

#[test]
fn unfinished_planks_and_forms_are_one_press_away() {
    let mut desk = at(Route::Today);
    let (pile, plank) = {
        let pile = desk.model.state().piles().next().unwrap().id;
        (pile, desk.model.new_id().unwrap())
    };
    let mut draft = Draft::new(pile, "K7-99-9".to_owned(), String::new());
    draft.piece = Some(plank);
    desk.model.drafts.push(draft.clone());
    assert!(!desk.reads().contains("K7-99-9"), "nothing typed yet");
    let value = DraftValue {
        text: "2620".to_owned(),
        ..DraftValue::default()
    };
    desk.model.drafts[0].put(stillwood_core::plank::Field::Length, value);
    says(&desk, "1 value typed");
    press(&mut desk, "K7-99-9");
    assert_eq!(desk.model.route, Route::Measure(plank));
}

#[test]
fn a_mark_is_found_with_or_without_dashes_and_opened_by_one_key() {
    let mut desk = at(Route::Today);
    press(&mut desk, "Find a mark, wood or reason");
    assert_eq!(desk.model.route, Route::Find);
    for typed in ["K7-13-M a", "k713ma", "K7 13 M a"] {
        desk.type_into("find", typed);
        assert!(desk.press("Open K7-13-M a"), "{typed}");
        assert_eq!(
            desk.model.route,
            Route::Piece(piece(&desk, "K7-13-M a")),
            "{typed}"
        );
        desk.go(Route::Find);
    }
    desk.type_into("find", "K713");
    says(&desk, "3 found");
    desk.type_into("find", "K7-13-A");
    says(&desk, "does not add up");
    desk.type_into("find", "sprang");
    says(&desk, "sprang at the saw");
    desk.type_into("find", "zebrano of nowhere");
    says(&desk, "Nothing found");
    // What was cut up lies on no rack any more.
    let cut = piece(&desk, "K7-5-P");
    let place = desk.model.state().piece(cut).unwrap().work.place();
    let place = place.unwrap().payload.clone();
    desk.type_into("find", "K7-5-P");
    let body = region(&desk, "body");
    let row = body
        .split("</a>")
        .find(|row| row.contains("<strong>K7-5-P</strong>"));
    let row = row.expect("it is found").to_lowercase();
    assert!(
        row.contains("cut") && !row.contains(&place.to_lowercase()),
        "{row}"
    );
    // What was rejected at the yard opens its sheet from there.
    let left = desk.model.state().pieces().find(|piece| {
        piece.decision() == Some(stillwood_core::record::Decision::Leave) && !piece.withdrawn
    });
    let (mark, id) = left.map(|piece| (piece.mark.clone(), piece.id)).unwrap();
    desk.type_into("find", &mark);
    press(&mut desk, &format!("Open {mark}"));
    assert_eq!(desk.model.route, Route::Plank(id));
}

#[test]
fn a_label_is_read_by_the_camera_where_the_platform_can() {
    let mut desk = at(Route::Today);
    let read = |desk: &mut Desk, code: Option<&str>| {
        desk.go(Route::Find);
        press(desk, "Read a label with the camera");
        assert!(matches!(desk.left.as_slice(), [.., Effect::ReadLabel]));
        let code = code.map(str::to_owned);
        desk.act(Action::Today(today::Action::LabelRead(code)));
    };
    desk.go(Route::Find);
    says_not(&desk, "camera");
    desk.model.shell.can_read_codes = true;
    let laminate = piece(&desk, "K7-13-M a");
    read(&mut desk, Some("K7-13-M a"));
    assert_eq!(desk.model.route, Route::Piece(laminate));
    // The code of something else opens nothing, and what it says stands in the field.
    read(&mut desk, Some("K7-13-A"));
    assert_eq!(desk.model.route, Route::Find);
    says(&desk, "does not add up");
    assert!(region(&desk, "body").contains("value=\"K7-13-A\""));
    read(&mut desk, Some("<b>5 kg of flour</b>"));
    says(&desk, "Nothing found");
    read(&mut desk, None);
    says(&desk, "No code was found in the picture.");
}

#[test]
fn the_first_screen_does_not_wait_for_what_is_still_to_buy() {
    let mut desk = at(Route::Today);
    let known = desk.reads();
    desk.model.shell.starting = true;
    desk.go(Route::Racks);
    desk.go(Route::Today);
    says(&desk, "blanks needed");
    says(&desk, "Being worked out");
    desk.act(Action::Started);
    assert_eq!(desk.reads(), known);
}

#[test]
fn the_target_is_short_of_what_core_says() {
    let mut desk = at(Route::Today);
    let (target, _) = queries::target(desk.model.state()).unwrap();
    let by = target.by.unwrap();
    desk.model.now.day = by.to_string();
    says(&desk, "Not enough in hand, and too late for new planks.");
    press(&mut desk, "4 blanks needed");
    assert_eq!(desk.model.route, Route::Plan);
}

/// The texts and drawings of a page's part, an element a line, without what only the app has at its keys.
fn drawn(html: &str) -> Vec<String> {
    let lines = text_of(html);
    lines.lines().map(str::to_owned).collect()
}

/// A page's part as it is shown in a language: without what stands there in the other.
fn shown_in(html: &str, language: Language) -> String {
    let other = match language {
        Language::English => " lang=\"de\"",
        Language::German => " lang=\"en\"",
    };
    // The root's own language is not that of a sentence.
    let (head, mut rest) = html.split_at(html.find("<body>").unwrap_or_default());
    let mut shown = head.to_owned();
    while let Some(at) = rest.find(other) {
        let from = rest[..at].rfind('<').unwrap();
        let name = rest[from + 1..at].split(' ').next().unwrap();
        let end = format!("</{name}>");
        let to = from + rest[from..].find(&end).unwrap() + end.len();
        shown.push_str(&rest[..from]);
        rest = &rest[to..];
    }
    shown + rest
}

const PAGE: &str = include_str!("../../../static/index.html");
const RESCUE: &str = include_str!("../../../static/rescue.html");

#[test]
fn what_is_painted_before_the_app_has_come_is_the_start_itself() {
    for language in Language::ALL {
        let page = shown_in(PAGE, language);
        let (_, template) = page.split_once("<template id=\"first-start\">").unwrap();
        let (template, _) = template.split_once("</template>").unwrap();
        Desk::new_ones_speak(language);
        let desk = Desk::new("2026-11-20");
        Desk::new_ones_speak(Language::English);
        let start = desk.page();
        let of_the_app = &start
            .regions
            .iter()
            .find(|one| one.id == "body")
            .unwrap()
            .html;
        let said = drawn(of_the_app);
        for text in drawn(template) {
            let of_the_wait = ["Opening…", "Wird geöffnet …"];
            let is_known = said.contains(&text) || of_the_wait.contains(&text.as_str());
            assert!(is_known, "“{text}” is not on the start");
        }
        let words = desk.model.words();
        let yard = &words.yard;
        for text in [
            words.today.what_it_is,
            words.today.stays_here,
            yard.length,
            yard.grain,
            yard.bow,
        ] {
            assert!(template.contains(text), "“{text}” is not painted first");
        }
        // The drawings are the same to the point.
        let paths = |html: &str| -> Vec<String> {
            let of = html.split(" d=\"").skip(1);
            of.map(|path| path.split('"').next().unwrap_or_default().to_owned())
                .collect()
        };
        assert_eq!(paths(template), paths(of_the_app));
        // The neutral frame has the places by their names, and nothing of them can be pressed.
        let (_, frame) = page.split_once("<nav id=\"bar\"").unwrap();
        let (frame, _) = frame.split_once("</nav>").unwrap();
        let words = &words.common;
        let places = [
            words.today,
            words.yard,
            words.racks,
            words.blanks,
            words.book,
        ];
        assert_eq!(drawn(frame)[1..], places);
        assert!(!frame.contains("href") && !frame.contains("button"));
    }
}

#[test]
fn the_pages_outside_the_app_say_all_in_both_languages() {
    for page in [PAGE, RESCUE] {
        let said = |tag: &str| page.matches(&format!(" lang=\"{tag}\"")).count();
        assert!(page.starts_with("<!doctype html>\n<html lang=\"en\">"));
        // The root's own is English until language.js has looked.
        assert_eq!(said("en"), said("de") + 1);
        assert!(said("de") >= 5);
        let (head, _) = page.split_once("</head>").unwrap();
        let at = |name: &str| head.find(name).unwrap();
        assert!(
            at("{{language.js}}") < at("{{app.css}}"),
            "before anything is painted"
        );
        for language in Language::ALL {
            let (_, body) = page.split_once("<body>").unwrap();
            let said = drawn(&shown_in(body, language)).join("\n");
            let of_the_other: &[&str] = match language {
                Language::English => &["Aufzeichnung", "Heute", " und ", " ist "],
                Language::German => &["record", "Today", " and ", " is ", "Opening"],
            };
            for word in of_the_other {
                assert!(!said.contains(word), "{language:?} says “{word}”:\n{said}");
            }
        }
    }
    let style = include_str!("../../../static/app.css");
    assert!(style.contains(":root[lang=\"de\"] :not(noscript) > [lang=\"en\"]"));
}

/// The sentences of a script by their keys, a language.
fn sentences(script: &str, language: Language) -> Vec<(String, String)> {
    let begin = format!("\n  {}: {{\n", language.tag());
    let (_, table) = script.split_once(&begin).unwrap();
    let (table, _) = table.split_once("\n  },\n").unwrap();
    let lines = table.lines().map(|line| {
        let (key, says) = line.trim().split_once(": ").unwrap();
        (key.to_owned(), says.to_owned())
    });
    lines.collect()
}

#[test]
fn the_scripts_outside_the_app_have_every_sentence_in_both_languages() {
    for script in [
        include_str!("../../../static/boot.js"),
        include_str!("../../../static/rescue.js"),
    ] {
        let [english, german] = Language::ALL.map(|one| sentences(script, one));
        assert!(english.len() > 15);
        let keys =
            |of: &[(String, String)]| of.iter().map(|(key, _)| key.clone()).collect::<Vec<_>>();
        assert_eq!(keys(&english), keys(&german));
        for ((key, one), (_, other)) in english.iter().zip(&german) {
            assert_ne!(one, other, "{key}");
            // What is filled in is the same.
            let filled = |text: &str| text.split_once(" => ").map(|(names, _)| names.to_owned());
            assert_eq!(filled(one), filled(other), "{key}");
            assert!(
                script.contains(&format!("say.{key}")),
                "{key} is said nowhere"
            );
        }
        // Nothing is said past the table.
        let (_, after) = script.split_once("const say = ").unwrap();
        for said in after.split('"').skip(1).step_by(2) {
            // What the console is told is for who mends the app.
            let of_the_console = ["no offline copy:"];
            assert!(
                said.split(' ').count() < 3 || of_the_console.contains(&said),
                "“{said}” is in one language only"
            );
        }
    }
}
