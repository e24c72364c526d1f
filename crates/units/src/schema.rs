//! What may stand in a document for a quantity, in the words of JSON Schema?
//!
//! The patterns are for editors, which underline while a person types. They take the forms of this crate's documentation
//! in small letters; the parser takes more (capitals, curly quotes) and has the better messages, so it has the last word.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};

use crate::{Angle, Force, Length, LengthUnit, Pitch, WireGauge};

/// An unsigned number: "25 1/2", "25-1/2", "3/8", "25½", "25.5", "25,5", ".5", "1e3".
const NUMBER: &str =
    "(([0-9]+( +|-))?[0-9]+/[0-9]+|([0-9]+[ -]?)?[¼½¾⅐-⅞]|[0-9]*[.,]?[0-9]+([eE][+-]?[0-9]+)?)";

/// A unit of length.
const LENGTH_UNIT: &str = "(mm|cm|m|in|in\\.|inch|inches|\"|″|''|(milli|centi|)met(re|er)s?)";

impl JsonSchema for Length {
    fn schema_name() -> Cow<'static, str> {
        "Length".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        let pattern = format!("^[+-]?{NUMBER} *{LENGTH_UNIT}?( [+-] {NUMBER} *{LENGTH_UNIT})?$");
        json_schema!({
            "description": "A length: a number in the document's units, or a text with its own unit.",
            "type": ["number", "string"],
            "pattern": pattern,
            "examples": ["25 1/2 in", "25.5 in", "3/8\"", "648 mm", "64.8 cm", 12.5],
        })
    }
}

impl JsonSchema for LengthUnit {
    fn schema_name() -> Cow<'static, str> {
        "LengthUnit".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "Millimetres or inches.",
            "type": "string",
            "enum": [LengthUnit::Millimetre.symbol(), LengthUnit::Inch.symbol()],
        })
    }
}

impl JsonSchema for Angle {
    fn schema_name() -> Cow<'static, str> {
        "Angle".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "An angle in degrees.",
            "type": ["number", "string"],
            "pattern": format!("^[+-]?{NUMBER} *(deg|deg\\.|degrees?|°)?$"),
            "examples": ["3 deg", "1.5°", 2],
        })
    }
}

impl JsonSchema for Force {
    fn schema_name() -> Cow<'static, str> {
        "Force".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A force: a number of newtons, or a text with its own unit.",
            "type": ["number", "string"],
            "pattern": format!("^[+-]?{NUMBER} *(N|newtons?|lbf|lbs?|lb\\.)?$"),
            "examples": ["12 N", "2.7 lbf", 12],
        })
    }
}

impl JsonSchema for Pitch {
    fn schema_name() -> Cow<'static, str> {
        "Pitch".into()
    }

    /// Text only: a bare number might be a frequency or a key on a keyboard.
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A note with its octave (C4 is middle C), or a frequency with its unit.",
            "type": "string",
            "pattern": "^([A-Ga-g][#b♯♭]?[0-9]|[0-9]*[.,]?[0-9]+ *Hz)$",
            "examples": ["G2", "F#3", "Bb3", "98 Hz"],
        })
    }
}

impl JsonSchema for WireGauge {
    fn schema_name() -> Cow<'static, str> {
        "WireGauge".into()
    }

    /// Text only: a bare number might be a diameter.
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "An American wire gauge from 0 to 40.",
            "type": "string",
            "pattern": "^(([0-9]|[1-3][0-9]|40) ?(AWG|awg)|(AWG|awg) ?([0-9]|[1-3][0-9]|40))$",
            "examples": ["16 AWG", "AWG 18"],
        })
    }
}
