//! A part of an entry kept as the JSON it is: what reads it is not on the phone until it is wanted.
//!
//! May use: serde_json. Must not: know what stands in it.

use serde::{Deserialize, Deserializer, Serialize};
use serde_json::ser::{Formatter, Serializer};
use serde_json::value::RawValue;

use super::entry::tidy;

/// JSON text on one line. It is JSON whatever way it came: written by serde_json, or read by it.
#[derive(Clone, Debug, Serialize)]
#[serde(transparent)]
pub struct Raw(Box<RawValue>);

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
    /// assert_eq!(raw.text(), "[0.3,4.0]");
    /// assert_eq!(raw.read::<Vec<f64>>().unwrap(), [0.3, 4.0]);
    /// ```
    pub fn of<T: Serialize + ?Sized>(value: &T) -> serde_json::Result<Raw> {
        let mut bytes = Vec::new();
        value.serialize(&mut Serializer::with_formatter(&mut bytes, Tidied))?;
        serde_json::from_slice(&bytes)
    }

    /// As what it was made from.
    ///
    /// # Errors
    /// It holds something else.
    pub fn read<'a, T: Deserialize<'a>>(&'a self) -> serde_json::Result<T> {
        serde_json::from_str(self.text())
    }

    /// The JSON itself.
    pub fn text(&self) -> &str {
        self.0.get()
    }
}

impl PartialEq for Raw {
    fn eq(&self, other: &Raw) -> bool {
        self.text() == other.text()
    }
}

impl<'de> Deserialize<'de> for Raw {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Raw, D::Error> {
        let raw = Box::<RawValue>::deserialize(from)?;
        // Line ends stand only between values (inside a string they are escaped), and would cut a line of the log in two.
        if !raw.get().contains(['\n', '\r']) {
            return Ok(Raw(raw));
        }
        let text = raw.get().replace(['\n', '\r'], " ");
        RawValue::from_string(text).map(Raw).map_err(serde::de::Error::custom)
    }
}

/// JSON without spaces, numbers to six decimals.
struct Tidied;

impl Formatter for Tidied {
    fn write_f64<W: ?Sized + std::io::Write>(&mut self, to: &mut W, value: f64) -> std::io::Result<()> {
        serde_json::ser::CompactFormatter.write_f64(to, tidy(value))
    }
}
