//! The values that are neither plain words nor quantities.

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use std::borrow::Cow;

use crate::instrument::{BoardRadius, FretPattern};
use crate::stock::{Wire, Wood, WrapMaterial};
use units::{Length, WireGauge};

impl JsonSchema for Wood {
    fn schema_name() -> Cow<'static, str> {
        "Wood".into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "string", "enum": names(Wood::all().map(|wood| (wood.name(), wood.aliases()))) })
    }
}

impl JsonSchema for WrapMaterial {
    fn schema_name() -> Cow<'static, str> {
        "WrapMaterial".into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "string", "enum": names(WrapMaterial::all().map(|wrap| (wrap.name(), wrap.aliases()))) })
    }
}

fn names(rows: impl Iterator<Item = (&'static str, &'static [&'static str])>) -> Vec<&'static str> {
    rows.flat_map(|(name, aliases)| std::iter::once(name).chain(aliases.iter().copied())).collect()
}

impl JsonSchema for Wire {
    fn schema_name() -> Cow<'static, str> {
        "Wire".into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        json_schema!({ "anyOf": [generator.subschema_for::<WireGauge>(), generator.subschema_for::<Length>()] })
    }
}

impl JsonSchema for BoardRadius {
    fn schema_name() -> Cow<'static, str> {
        "BoardRadius".into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        json_schema!({ "anyOf": [{ "const": "flat" }, generator.subschema_for::<Length>()] })
    }
}

impl JsonSchema for FretPattern {
    fn schema_name() -> Cow<'static, str> {
        "FretPattern".into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "anyOf": [
            { "enum": ["chromatic", "diatonic"] },
            { "type": "array", "minItems": 1, "maxItems": crate::limits::SEMITONES, "uniqueItems": true,
              "items": { "type": "integer", "minimum": 1, "maximum": crate::limits::SEMITONES } },
        ] })
    }
}
