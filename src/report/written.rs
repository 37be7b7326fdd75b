//! A job as a form holds it.

use std::fmt;

use serde::de::{MapAccess, SeqAccess, Visitor};
use serde::ser::SerializeMap;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::spec::Written;

/// The values of a job as JSON: texts, lists and objects.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WrittenJson(pub Written);

impl Serialize for WrittenJson {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match &self.0 {
            Written::Text(text) => serializer.serialize_str(text),
            Written::List(items) => {
                serializer.collect_seq(items.iter().map(|item| Self(item.clone())))
            }
            Written::Map(entries) => {
                let mut map = serializer.serialize_map(Some(entries.len()))?;
                for (key, value) in entries {
                    map.serialize_entry(key, &Self(value.clone()))?;
                }
                map.end()
            }
        }
    }
}

impl<'de> Deserialize<'de> for WrittenJson {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Values;
        impl<'de> Visitor<'de> for Values {
            type Value = WrittenJson;

            fn expecting(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
                to.write_str("a text, a list or an object")
            }

            fn visit_str<E>(self, text: &str) -> Result<WrittenJson, E> {
                Ok(WrittenJson(Written::Text(text.to_owned())))
            }

            fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<WrittenJson, A::Error> {
                let mut items = Vec::new();
                while let Some(WrittenJson(item)) = seq.next_element()? {
                    items.push(item);
                }
                Ok(WrittenJson(Written::List(items)))
            }

            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<WrittenJson, A::Error> {
                let mut entries = Vec::new();
                while let Some((key, WrittenJson(value))) = map.next_entry()? {
                    entries.push((key, value));
                }
                Ok(WrittenJson(Written::Map(entries)))
            }
        }
        deserializer.deserialize_any(Values)
    }
}
