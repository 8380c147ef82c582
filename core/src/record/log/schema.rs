//! The file's JSON Schema, put together from the types that are read and written.
//!
//! It describes what this version writes; a reader must carry along what it does not describe.

use crate::record::log::{Event, FORMAT, FORMAT_VERSION};
use schemars::generate::SchemaSettings;
use serde_json::{Value, json};

/// The JSON Schema (draft 2020-12) of the file.
pub fn schema() -> Value {
    let mut generator = SchemaSettings::draft2020_12().into_generator();
    let bodies = Event::body_schemas(&mut generator);
    let known: Vec<Value> = bodies
        .into_iter()
        .map(|(name, body)| {
            json!({
                "if": { "properties": { "happening": { "const": name } } },
                "then": { "properties": { "body": body.to_value() } }
            })
        })
        .collect();
    let id = json!({ "type": "string", "format": "uuid" });
    let count =
        json!({ "type": "integer", "minimum": 0, "maximum": crate::record::log::LARGEST_NUMBER });
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Stillwood notebook",
        "description": "Entries of a record of wood. Keys and happenings that are not described here are from a newer version: keep them.",
        "type": "object",
        "required": ["header", "entries"],
        "properties": {
            "header": {
                "type": "object",
                "required": ["format", "reader", "version"],
                "properties": {
                    "app": { "type": "string", "description": "The version of the app that wrote the file." },
                    "by": { "type": "string", "description": "The identity of the device that wrote the file." },
                    "count": { "type": "integer", "minimum": 0, "description": "How many entries follow." },
                    "format": { "const": FORMAT },
                    "reader": { "type": "integer", "description": "The least version of the format that a reader must know." },
                    "version": { "type": "integer", "minimum": FORMAT_VERSION, "description": "The version of the format." },
                    "what": { "type": "string", "description": "whole, or a selection such as visit." },
                    "written": { "type": "string", "description": "When, by the device's clock: a remark." }
                }
            },
            "entries": { "type": "array", "items": { "$ref": "#/$defs/Entry" } }
        },
        "$defs": with_entry(generator.take_definitions(true), json!({
            "type": "object",
            "required": ["about", "by", "happening", "id", "on", "seq", "step", "v"],
            "properties": {
                "about": id,
                "at": { "type": "string", "description": "RFC 3339 with offset: a remark, never a judge." },
                "body": { "type": "object" },
                "by": { "type": "string", "minLength": 1, "maxLength": 40 },
                "checksum": {
                    "type": "string", "pattern": "^[0-9a-f]{8}$",
                    "description": "CRC-32/ISO-HDLC over the entry as compact JSON with sorted keys, this key left out. From version 2 on it must be here, before it must not."
                },
                "happening": { "type": "string" },
                "id": id,
                "on": { "type": "string", "format": "date" },
                "on_insisted": { "type": "boolean", "description": "The maker said \"yes, really\" to a question about the day." },
                "seq": count,
                "step": count,
                "supersedes": { "type": "array", "items": id },
                "v": { "type": "integer", "minimum": 0 }
            },
            "allOf": known
        }))
    })
}

fn with_entry(mut definitions: serde_json::Map<String, Value>, entry: Value) -> Value {
    definitions.insert("Entry".to_owned(), entry);
    Value::Object(definitions)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_schema_names_every_event() {
        let text = schema().to_string();
        for name in Event::NAMES {
            assert!(text.contains(&format!("\"const\":\"{name}\"")), "{name}");
        }
        assert!(text.contains("\"#/$defs/Reading\""));
    }
}
