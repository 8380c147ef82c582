//! What core says has its German: its errors, the names in its formulas, its labels, and the stored names of fields.

#[path = "german_core/literals.rs"]
mod literals;

use literals::{blocks, filled, sources, sources_in, texts};
use stillwood_app::form::FormId;
use stillwood_app::words::german::{core, fields};
use stillwood_app::words::spoken::is_known_in_german;
use stillwood_app::words::{Language, words_of};
use stillwood_core::plank::{DefectKind, Field, Reason, RingTilt, RunoutDirection, eye_steps};
use stillwood_core::record::commands::WORKSHOP_COMMANDS;
use stillwood_core::record::queries::quick_questions::QUESTIONS;
use stillwood_core::record::queries::{Column, GroupedBy};
use stillwood_core::record::{FieldKind, Id};
use stillwood_core::season::{Stage, Warp};
use stillwood_core::verdict::Criterion;
use stillwood_core::wood::OwnNumber;

/// Whether a text in quotes of the source reads so, whatever its open places are filled with.
fn is_said(source: &str, line: &str) -> bool {
    let line = format!("\"{}\"", line.replace('"', "\\\""));
    let mut parts = line.split("{}");
    let first = parts.next().unwrap_or_default();
    let parts: Vec<&str> = parts.collect();
    source.match_indices(first).any(|(at, _)| {
        let mut rest = &source[at + first.len()..];
        parts.iter().all(|part| {
            let filled = rest.strip_prefix('{').and_then(|rest| rest.split_once('}'));
            let after = filled.and_then(|(_, after)| after.strip_prefix(part));
            after.is_some_and(|after| {
                rest = after;
                true
            })
        })
    })
}

#[test]
fn no_line_of_the_german_of_core_is_left_over() {
    let app = sources_in("src").into_iter();
    let app = app.filter(|(path, _)| !path.components().any(|part| part.as_os_str() == "words"));
    let all = sources().into_iter().chain(sources_in("../src")).chain(app);
    let mut source = String::new();
    for (_, text) in all {
        // A text that goes on over the line's end is put together.
        let mut goes_on = false;
        for line in text.lines() {
            let line = if goes_on { line.trim_start() } else { line };
            goes_on = line.ends_with('\\');
            source.push_str(line.trim_end_matches('\\'));
            if !goes_on {
                source.push('\n');
            }
        }
    }
    let mut left_over = Vec::new();
    // What core puts together of words stands nowhere as a whole.
    let whole = core::ALL
        .iter()
        .filter(|lines| **lines != core::composed::LINES);
    for (english, _) in whole.copied().flatten() {
        if !english.contains("{#}") && !is_said(&source, english) {
            left_over.push(*english);
        }
    }
    assert!(left_over.is_empty(), "{}", left_over.join("\n"));
}

/// What is not a word of a language: a unit, a symbol, a placeholder alone.
fn is_no_word(text: &str) -> bool {
    const UNITS: &[&str] = &[
        "kg", "mm", "mm²", "mm³", "kg/m³", "GPa", "GPa mm²", "GPa mm³", "N m²", "N m² mm", "rad",
        "mmHg", "ft", "sq ft", "bd ft", "bf", "bf′", "bf₁", "Hz", "MN·m/kg", "EI", "SM", "Sxy",
        "Sxx", "Syy", "sin t", "bow", "cup", "twist", "planing",
    ];
    let words = filled(text);
    let bare = words.split(['7', ' ', ':', '“', '”', '"']);
    UNITS.contains(&text)
        || bare
            .filter(|word| word.chars().filter(|sign| sign.is_alphabetic()).count() > 1)
            .count()
            == 0
}

#[test]
fn every_error_of_core_and_of_the_shell_has_its_german() {
    let (mut missing, mut seen) = (Vec::new(), 0);
    let all = sources().into_iter().chain(sources_in("../src"));
    for (path, source) in all {
        for block in blocks(&source, "#[error(", '(', ')') {
            // Only the message: what fills its places follows.
            let Some(message) = texts(block).into_iter().next() else {
                continue;
            };
            if is_no_word(&message) {
                continue;
            }
            seen += 1;
            if !is_known_in_german(&filled(&message)) {
                missing.push(format!("{}: {message}", path.display()));
            }
        }
    }
    assert!(seen > 150, "only {seen} messages were found");
    assert!(missing.is_empty(), "{}", missing.join("\n"));
}

/// Whether a text of the shell's source is a sentence for the maker: not a key, an address or a word to the console.
fn is_sentence(text: &str) -> bool {
    let begins = text
        .chars()
        .next()
        .is_some_and(|sign| sign.is_uppercase() || "{1".contains(sign));
    begins && filled(text).split(' ').count() > 2
}

#[test]
fn every_sentence_of_the_shell_has_its_german() {
    let (mut missing, mut seen) = (Vec::new(), 0);
    for (path, source) in sources_in("../src") {
        let console: Vec<String> = blocks(&source, "warn(", '(', ')')
            .into_iter()
            .flat_map(texts)
            .collect();
        let mut found: Vec<String> = Vec::new();
        for begins in ["say(", "format!(", "NotMade(", "Err("] {
            found.extend(
                blocks(&source, begins, '(', ')')
                    .into_iter()
                    .flat_map(texts),
            );
        }
        for (at, _) in source.match_indices(": &str = ") {
            found.extend(texts(&source[at..]).into_iter().take(1));
        }
        for text in found {
            if !is_sentence(&text) || console.contains(&text) {
                continue;
            }
            seen += 1;
            if !is_known_in_german(&filled(&text)) {
                missing.push(format!("{}: {text}", path.display()));
            }
        }
    }
    assert!(seen > 25, "only {seen} sentences were found");
    assert!(missing.is_empty(), "{}", missing.join("\n"));
}

#[test]
fn every_formula_of_core_has_its_german() {
    let (mut missing, mut seen) = (Vec::new(), 0);
    for (path, source) in sources() {
        for block in blocks(&source, "formula! {", '{', '}') {
            // A doc comment is no text of the formula's.
            for text in texts(block).into_iter().filter(|text| !is_no_word(text)) {
                let is_symbol = text.chars().count() <= 3 && !text.contains(' ');
                if is_symbol {
                    continue;
                }
                seen += 1;
                if !is_known_in_german(&filled(&text)) {
                    missing.push(format!("{}: {text}", path.display()));
                }
            }
        }
    }
    assert!(seen > 250, "only {seen} texts were found");
    assert!(
        missing.is_empty(),
        "{} of {seen}:\n{}",
        missing.len(),
        missing.join("\n")
    );
}

#[test]
fn every_label_of_core_has_its_german() {
    let mut labels: Vec<&str> = Vec::new();
    for reason in Reason::ALL {
        labels.extend([reason.name(), reason.definition()]);
    }
    for defect in DefectKind::ALL {
        labels.extend([defect.name(), defect.definition()]);
    }
    for field in Field::ALL {
        labels.extend([field.label(), field.meaning()]);
        labels.extend(eye_steps(*field).iter().map(|step| step.typed));
    }
    for question in QUESTIONS {
        labels.push(question.asks);
        for way in question.ways {
            labels.push(way.name);
            labels.extend(way.inputs.iter().map(|input| input.label));
        }
    }
    labels.extend(Criterion::ALL.iter().map(|one| one.name()));
    labels.extend(Column::ALL.iter().map(|one| one.name()));
    labels.extend(GroupedBy::ALL.iter().map(|one| one.name()));
    labels.extend(OwnNumber::ALL.iter().map(|one| one.label()));
    labels.extend(RingTilt::ALL.iter().map(|one| one.in_words()));
    labels.extend(RunoutDirection::ALL.iter().map(|one| one.in_words()));
    labels.extend(Warp::ALL.iter().map(|one| one.name()));
    labels.extend(Stage::ALL.iter().map(|one| one.name()));
    let missing: Vec<&str> = labels
        .into_iter()
        .filter(|label| !label.is_empty() && !is_known_in_german(label))
        .collect();
    assert!(missing.is_empty(), "{}", missing.join("\n"));
}

#[test]
fn every_stored_name_has_its_german() {
    let id = Id::version_7(0, &[0; 10]);
    let mut forms = vec![
        FormId::Visit(None),
        FormId::NewPile(id),
        FormId::GlueUp,
        FormId::GluingLimits,
        FormId::FlattenAgain(id),
        FormId::Moved(id),
        FormId::Cut(id),
        FormId::RoomAir,
        FormId::Spec(id),
        FormId::Target(None),
        FormId::OwnWood(None),
    ];
    forms.extend(Stage::ALL.map(FormId::RestTimes));
    forms.extend(
        WORKSHOP_COMMANDS
            .iter()
            .map(|one| FormId::Workshop(id, one.key)),
    );
    let german = words_of(Language::German);
    let mut missing = Vec::new();
    for field in forms.iter().flat_map(|form| form.fields()) {
        if !german.has_field(field.key) {
            missing.push(field.key);
        }
        if let FieldKind::OneOf(names) | FieldKind::Named(names) = field.kind {
            missing.extend(names.iter().filter(|name| !german.has_choice(name)));
        }
    }
    let commands = WORKSHOP_COMMANDS.iter().map(|one| one.key);
    missing.extend(commands.filter(|key| !german.has_command(key)));
    assert!(missing.is_empty(), "without German: {}", missing.join(", "));
}

#[test]
fn every_sentence_differs_or_is_known_to_be_alike() {
    let (english, german) = (
        words_of(Language::English).all(),
        words_of(Language::German).all(),
    );
    let alike = english
        .iter()
        .zip(&german)
        .filter(|(one, other)| one.2 == other.2);
    // What is the same word in both, a unit, or only what is filled in.
    let words = alike.filter(|(one, _)| {
        let without = literals::filled(one.2);
        without
            .split(' ')
            .filter(|word| word.chars().filter(|sign| sign.is_lowercase()).count() > 2)
            .count()
            > 1
    });
    let words: Vec<String> = words
        .map(|(one, _)| format!("{}.{}: {}", one.0, one.1, one.2))
        .collect();
    assert!(words.is_empty(), "{}", words.join("\n"));
    assert_eq!(english.len(), german.len());
}

#[test]
fn what_is_filled_in_is_the_same_in_both() {
    let places = |text: &str| {
        let inside = text
            .split('{')
            .skip(1)
            .filter_map(|part| part.split_once('}'));
        let mut places: Vec<String> = inside.map(|(name, _)| name.to_owned()).collect();
        places.sort();
        places
    };
    let german = words_of(Language::German).all();
    for (one, other) in words_of(Language::English).all().iter().zip(german) {
        // The sentence for one thing may say the number as a word.
        if !one.1.ends_with("_one") {
            assert_eq!(places(one.2), places(other.2), "{}.{}", one.0, one.1);
        }
    }
}

/// Words that were given up for another, and the one that is held: one thing has one name on every screen.
const GIVEN_UP: &[(&str, &str)] = &[
    ("Schüsselung", "Querkrümmung"),
    ("Faserlauf", "Faserverlauf"),
    ("esprungen", "beim Sägen verzogen: gesprungen ist gerissen"),
    (" bewegt", "verzogen"),
    ("Bewegung", "Verzug, Quellen und Schwinden"),
    ("ur Ruhe leg", "ruhen lassen"),
    ("n Ruhe ", "ruht"),
    ("kommt an bei", "Ausgleichsfeuchte"),
    ("Raumluft", "Raumklima"),
    ("ezwingt", "Presszeit"),
    ("ereinhol", "einlesen"),
    ("ereingeholt", "eingelesen"),
    ("espeichert", "gesichert"),
    ("urückgestellt", "vorgemerkt"),
    ("isslung", "ausgefallen, Ausfall"),
    ("blicher Brauch", "gängige Praxis"),
    ("enseits deiner", "außerhalb deiner"),
    (
        "es Holzhofs",
        "des Händlers: er misst, rechnet und schreibt die Rechnung",
    ),
    ("als nichts", "größer als 0"),
    (" gezeichnete Breitseite", "angezeichnete Breitseite"),
    (" gezeichneten Breitseite", "angezeichnete Breitseite"),
    (" gezeichnete Kante", "angezeichnete Kante"),
    ("üblichen Tempo", "übliche Ruhezeiten"),
];

#[test]
fn one_thing_has_one_german_name() {
    let german = core::ALL;
    let core = german.iter().flat_map(|lines| lines.iter());
    let mut all: Vec<(String, &str)> = core.map(|(one, says)| ((*one).to_owned(), *says)).collect();
    let screens = words_of(Language::German).all().into_iter();
    all.extend(screens.map(|one| (format!("{}.{}", one.0, one.1), one.2)));
    let fields = fields::FIELDS.iter();
    all.extend(fields.flat_map(|(stored, label, hint)| {
        [*label, *hint].map(|says| ((*stored).to_owned(), says))
    }));
    let named = fields::COMMANDS.iter().chain(fields::CHOICES);
    all.extend(named.map(|(stored, says)| ((*stored).to_owned(), *says)));
    assert!(all.len() > 3000, "only {} sentences were seen", all.len());
    let mut found = Vec::new();
    for (name, says) in all {
        let padded = format!(" {says} ");
        for (word, held) in GIVEN_UP {
            if padded.contains(word) {
                found.push(format!("{name}: {says} [{held}]"));
            }
        }
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
}

#[test]
fn wood_is_called_as_the_makers_call_it() {
    // A laminate or a part, never a strip; a defect, never a fault.
    let never = ["strip", "strips", "fault", "faults"];
    let said = core::ALL
        .iter()
        .copied()
        .flatten()
        .map(|(english, _)| *english);
    let wrong: Vec<&str> = said
        .filter(|english| {
            let mut words = english.split(|sign: char| !sign.is_alphabetic());
            words.any(|word| never.contains(&word.to_lowercase().as_str()))
        })
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
