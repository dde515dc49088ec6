//! Take it off, or tape it over? Minutes either way, and what stays without film under the tape.
//!
//! Common practice, no source. A part off and back costs what Take off and Refit of the baseline come to for each of its
//! parts; the tape costs what taping a lamp does, times a factor of the part's size (our own choice).
//!
//! May use: the minutes of [`super::hours`]. Must not: decide; the person does.

use super::guide::Basis;
use super::hours::{TAPE_LAMP_MIN, off_and_back_min};

/// What speaks for either.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Choice {
    /// Off and back on, min.
    pub off_min: f64,
    /// Taped over, min.
    pub tape_min: f64,
    /// What gets no film when it is taped.
    pub uncoated: &'static str,
    pub basis: Basis,
}

/// A word in the part's name, how many lamps' tape it takes, and what stays without film under it.
const PARTS: &[(&[&str], f64, &str)] = &[
    (
        &["lamp", "light", "beacon", "reflector"],
        1.0,
        "the steel behind the lamp and its edge, where rust starts; its plug and earth",
    ),
    (&["mirror", "camera"], 1.0, "the bracket under the mirror's foot and its bolt holes"),
    (&["plate", "decal", "board"], 1.0, "the steel behind it, where water stands, and its screw holes"),
    (&["mudguard", "fender", "flap"], 3.0, "the clamped edge and the steel under it, where mud packs in"),
    (&["strip", "rubber", "seal", "gasket"], 2.0, "the flange under the rubber, where water creeps in"),
    (
        &["panel", "cover", "grille", "guard", "hood", "bonnet", "door", "lid"],
        4.0,
        "its inside face and edges, and all that lies behind it",
    ),
];

/// For a part by its name; none when nothing is known of such a part.
///
/// ```
/// use coatwalk::job::tape_or_off::choice;
/// let lamp = choice("Work lamp, left").unwrap();
/// assert!(lamp.tape_min < lamp.off_min);
/// assert!(lamp.uncoated.contains("behind the lamp"));
/// assert_eq!(choice("Anvil"), None);
/// ```
pub fn choice(part: &str) -> Option<Choice> {
    let part = part.to_ascii_lowercase();
    let (_, lamps, uncoated) = PARTS.iter().find(|(words, ..)| words.iter().any(|w| part.contains(w)))?;
    let tape_min = TAPE_LAMP_MIN * lamps;
    Some(Choice { off_min: off_and_back_min(), tape_min, uncoated, basis: Basis::CommonPractice })
}
