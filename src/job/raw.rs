//! A part of an entry kept as the JSON it is: what reads it is not in the walk's download.
//!
//! May use: serde_json. Must not: know what stands in it.

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

use super::entry::tidy;

/// Some JSON.
#[derive(Clone, PartialEq, Debug)]
pub struct Raw(Value);

impl From<Value> for Raw {
    fn from(value: Value) -> Raw {
        Raw(value)
    }
}

impl Raw {
    /// From any value. Its numbers are made tidy on the way ([`tidy`]), so that they read back as the same.
    ///
    /// # Errors
    /// A value that is no JSON: a map whose keys are not strings.
    ///
    /// # Example
    /// ```
    /// use coatwalk::job::entry::Raw;
    /// let raw = Raw::of(&[0.1 + 0.2, 4.0]).unwrap();
    /// assert_eq!(raw.read::<Vec<f64>>().unwrap(), [0.3, 4.0]);
    /// ```
    pub fn of<T: Serialize + ?Sized>(value: &T) -> serde_json::Result<Raw> {
        serde_json::to_value(value).map(|v| Raw(tidied(v)))
    }

    /// As what it was made from.
    ///
    /// # Errors
    /// It holds something else.
    pub fn read<T: DeserializeOwned>(&self) -> serde_json::Result<T> {
        serde_json::from_value(self.0.clone())
    }

    /// The JSON itself.
    pub fn value(&self) -> &Value {
        &self.0
    }
}

fn tidied(value: Value) -> Value {
    match value {
        Value::Number(n) if n.is_f64() => n.as_f64().map_or(Value::Null, |f| tidy(f).into()),
        Value::Array(all) => all.into_iter().map(tidied).collect(),
        Value::Object(all) => all.into_iter().map(|(k, v)| (k, tidied(v))).collect(),
        other => other,
    }
}
