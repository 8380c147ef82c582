//! Forms that an older version left half typed on a device are forms of this one: every stored name is known, and
//! what stands in them is read.

use std::collections::{BTreeMap, BTreeSet};
use std::io::Read;
use std::path::Path;
use stillwood_core::plank::Instruments;
use stillwood_core::quantity::read::Units;
use stillwood_core::record::*;
use stillwood_core::season::Stage;
use stillwood_core::verdict::Criterion;
use stillwood_core::wood::OwnNumber;

/// A form as the store keeps it.
#[derive(serde::Deserialize)]
struct HalfTyped {
    units: Units,
    texts: Texts,
}

/// What a version left in the store: half-typed forms and planks, by their keys.
fn left(version: &str) -> BTreeMap<String, String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures");
    let file = std::fs::File::open(folder.join(version).join("dump.json.br")).unwrap();
    let mut json = String::new();
    let mut plain = brotli::Decompressor::new(file, 4096);
    plain.read_to_string(&mut json).unwrap();
    let dump: serde_json::Value = serde_json::from_str(&json).unwrap();
    let rows = &dump["databases"]["stillwood"]["stores"]["drafts"]["rows"];
    let text = |value: &serde_json::Value| value.as_str().unwrap().to_owned();
    let rows = rows.as_array().unwrap().iter();
    rows.map(|row| (text(&row[0]), text(&row[1]))).collect()
}

fn forms() -> BTreeMap<String, HalfTyped> {
    let forms = left("version-0.1").into_iter();
    forms
        .filter_map(|(key, json)| {
            let key = key.strip_prefix("form/")?.to_owned();
            Some((key, serde_json::from_str(&json).unwrap()))
        })
        .collect()
}

/// The stored names of the fields of a form, by its key.
fn known(key: &str) -> BTreeSet<String> {
    let keys = |fields: &[FormField]| -> BTreeSet<String> {
        fields.iter().map(|field| field.key.to_owned()).collect()
    };
    let mut known = if let Some((_, name)) = key.split_once('/').filter(|(id, _)| id.len() == 36) {
        match name {
            "check" => keys(&workshop::MOVED),
            "cut" => keys(&cut::FIELDS),
            name => keys(workshop_command(name).unwrap().fields),
        }
    } else {
        match key.split('/').next().unwrap() {
            "check" => keys(&check_rack::ROUND),
            "glue" => keys(&glue::FIELDS),
            "gluing limits" => keys(&gluing_limits::FIELDS),
            "own-wood" => {
                let mut known = keys(&[
                    own_wood_form::NAME,
                    own_wood_form::SCIENTIFIC,
                    own_wood_form::NOTE,
                    own_wood_form::DUST,
                ]);
                for number in OwnNumber::ALL {
                    known.extend(keys(&own_wood_form::fields_of(*number)));
                }
                known
            }
            "pile" | "pile-of" => keys(&pile::FIELDS),
            "room" => keys(&log_room_air::FIELDS),
            "spec" => {
                let mut known = keys(&spec::FIELDS);
                for criterion in Criterion::ALL {
                    let (on, numbers) = spec_criteria::fields_of(*criterion);
                    known.extend(keys(&[on]));
                    known.extend(keys(&numbers));
                }
                known
            }
            "terms" => keys(rest_times::fields(Stage::Pieces)),
            "visit" => keys(&visit::FIELDS),
            "wish" => keys(&save_target::FIELDS),
            other => panic!("a form of no command: {other}"),
        }
    };
    // The small forms of the workshop all kept these, whether they asked for them or not.
    let small = [
        "Day", "chosen", "reasons", "Why", "Stage", "Test", CONFIRMED,
    ];
    known.extend(small.map(str::to_owned));
    known
}

#[test]
fn every_stored_name_of_a_field_is_known() {
    let forms = forms();
    assert!(forms.len() > 25, "{}", forms.len());
    for (key, form) in forms {
        let known = known(&key);
        for name in form.texts.keys() {
            assert!(known.contains(name), "{key}: {name}");
        }
    }
}

#[test]
fn keys_of_forms_are_what_they_were() {
    let forms = forms();
    let id: Id = "01a0c451-a480-7b63-b0ec-0037c020bbb4".parse().unwrap();
    let visit: Id = "01a223e3-7069-73d3-83de-b57a97772eed".parse().unwrap();
    let pile: Id = "01a223e3-b022-7261-9854-1e735c7716b8".parse().unwrap();
    let wood: Id = "019a82b8-444b-75dc-8fbc-a39071adb82e".parse().unwrap();
    let mut keys = vec![
        check_rack::ROUND_KEY.to_owned(),
        cut::form_key(id),
        glue::FORM_KEY.to_owned(),
        gluing_limits::FORM_KEY.to_owned(),
        log_room_air::FORM_KEY.to_owned(),
        own_wood_form::form_key(None),
        own_wood_form::form_key(Some(wood)),
        pile::form_key(visit, None),
        pile::form_key(visit, Some(pile)),
        save_target::form_key(None),
        save_target::form_key(Some(visit)),
        spec::form_key(visit),
        visit::form_key(None),
        visit::form_key(Some(visit)),
    ];
    keys.extend(Stage::ALL.map(rest_times::form_key));
    let elsewhere = ["Release", "Rings and grain"];
    let commands = WORKSHOP_COMMANDS.iter();
    let commands = commands.filter(|command| !elsewhere.contains(&command.key));
    keys.extend(commands.map(|command| command.form_key(id)));
    for key in keys {
        assert!(forms.contains_key(&key), "{key}");
    }
}

#[test]
fn what_was_typed_is_read_with_its_units_and_told_where_it_cant_be() {
    let forms = forms();
    let state = State::default();
    let tools = Instruments::default();
    let context = Context {
        state: &state,
        today: date("2026-11-28").unwrap(),
        instruments: &tools,
    };
    let form = |key: &str| {
        let form = &forms[key];
        Form::new(&form.texts, form.units)
    };
    let id = "01a0c451-a480-7b63-b0ec-0037c020bbb4";
    let piece: Id = id.parse().unwrap();
    let filled = |name: &str| {
        let command = workshop_command(name).unwrap();
        command.command(&form(&format!("{id}/{name}")), piece, &context)
    };
    let Event::Placed(placed) = filled("Put on a shelf").unwrap().events[0].event.clone() else {
        panic!()
    };
    assert_eq!(placed.place, "half 153");
    let Event::Discarded(gone) = filled("Throw out").unwrap().events[0].event.clone() else {
        panic!()
    };
    assert_eq!(gone.reasons.len(), 2);
    let errors = filled("Weigh").unwrap_err();
    let keys: Vec<&str> = errors.all().iter().map(|(key, _)| key.as_str()).collect();
    assert_eq!(keys, ["Weight", "Step of the scale"]);
    let target = save_target::typed(&form("wish")).unwrap_err();
    assert_eq!(target.all().len(), 2);
    let visit_form = form("visit");
    assert_eq!(visit_form.units, Units::Inch);
    let mut new_id = || piece;
    let errors = visit::command(&visit_form, None, &context, &mut new_id).unwrap_err();
    // "half 102" was never a currency, and a budget of 16.103 may be sixteen thousand.
    assert_eq!(errors.all().len(), 2, "{:?}", errors.all());
    assert!(errors.of("Currency").is_some() && errors.of("Budget").is_some());
    let members = glue::in_hand(&form("glue"));
    assert_eq!(members.len(), 3);
    assert!(members[1].turned && members[2].turned_over);
    assert_eq!(glue::chosen(&form("glue")).len(), 18);
    let spec = form("spec/01a223e3-7069-73d3-83de-b57a97772eed");
    // The part's width was typed anew, and its limits were not those that follow.
    assert_eq!(spec::slab_needed(&spec), Some(24.111));
    assert!(!spec::follows_size(&spec));
}

#[test]
fn half_typed_planks_are_read() {
    let left = left("version-0.1");
    let drafts = left.iter().filter(|(key, _)| !key.contains('/'));
    let drafts: Vec<Draft> = drafts
        .filter_map(|(_, json)| Draft::from_json(json).ok())
        .collect();
    assert!(!drafts.is_empty());
    for draft in drafts {
        let way = weighed_by(&draft).unwrap_or_default();
        let rings = rings_by(&draft).unwrap_or_default();
        let read = draft_readings(&draft, way, rings, Units::Metric);
        let said = read.readings.len() + read.errors.all().len();
        assert!(said > 0 || draft.is_empty(), "{draft:?}");
    }
}
