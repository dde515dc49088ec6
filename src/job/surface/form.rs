//! The owner's own pieces, as they are asked for: shapes, their sides by name, faces and intricacy in words.

use super::{Form, Piece, of_pieces};
use crate::units::SQUARE_METRE;

/// A side of a shape.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Side {
    /// Its name.
    pub name: &'static str,
    /// How long, m; nothing when not measured yet.
    pub m: f64,
}

/// Faces to choose from: the factor and its words.
pub const FACES: [(f64, &str); 2] = [(1.0, "Outside only"), (2.0, "Both sides")];
/// Intricacies to choose from: the factor and its words (common practice, no source).
pub const INTRICACIES: [(f64, &str); 3] = [(1.0, "Smooth"), (1.5, "Ribs, brackets"), (2.0, "Pipes, castings")];

impl Form {
    /// One of each, not measured yet.
    pub const ALL: [Form; 5] = [
        Form::Box { length_m: 0.0, width_m: 0.0, height_m: 0.0 },
        Form::Plate { length_m: 0.0, width_m: 0.0 },
        Form::Tube { diameter_m: 0.0, length_m: 0.0 },
        Form::Wheel { diameter_m: 0.0, width_m: 0.0 },
        Form::Rail { length_m: 0.0, web_m: 0.0, flange_m: 0.0 },
    ];

    /// The name on the screen.
    pub fn title(self) -> &'static str {
        match self {
            Form::Box { .. } => "Box",
            Form::Plate { .. } => "Plate",
            Form::Tube { .. } => "Tube",
            Form::Wheel { .. } => "Wheel",
            Form::Rail { .. } => "Frame rail",
        }
    }

    /// Its sides, in the order they are asked for.
    pub fn sides(self) -> Vec<Side> {
        let side = |name, m| Side { name, m };
        match self {
            Form::Box { length_m, width_m, height_m } => {
                vec![side("Length", length_m), side("Width", width_m), side("Height", height_m)]
            }
            Form::Plate { length_m, width_m } => vec![side("Length", length_m), side("Width", width_m)],
            Form::Tube { diameter_m, length_m } => vec![side("Across", diameter_m), side("Length", length_m)],
            Form::Wheel { diameter_m, width_m } => vec![side("Across", diameter_m), side("Width", width_m)],
            Form::Rail { length_m, web_m, flange_m } => {
                vec![side("Length", length_m), side("Height", web_m), side("Flange", flange_m)]
            }
        }
    }

    /// With one side measured; a side it does not have changes nothing.
    ///
    /// ```
    /// use coatwalk::job::surface::Form;
    /// let plate = Form::Plate { length_m: 0.0, width_m: 0.5 }.with(0, 1.2);
    /// assert_eq!(plate, Form::Plate { length_m: 1.2, width_m: 0.5 });
    /// ```
    pub fn with(mut self, side: usize, m: f64) -> Form {
        let mut sides: Vec<&mut f64> = match &mut self {
            Form::Box { length_m, width_m, height_m } => vec![length_m, width_m, height_m],
            Form::Plate { length_m, width_m } => vec![length_m, width_m],
            Form::Tube { diameter_m, length_m } => vec![diameter_m, length_m],
            Form::Wheel { diameter_m, width_m } => vec![diameter_m, width_m],
            Form::Rail { length_m, web_m, flange_m } => vec![length_m, web_m, flange_m],
        };
        if let Some(side) = sides.get_mut(side) {
            **side = m;
        }
        self
    }
}

impl Piece {
    /// One smooth piece of a shape, its outside.
    pub fn one(form: Form) -> Piece {
        Piece { form, count: 1, faces: 1.0, intricacy: 1.0 }
    }

    /// Every side has been measured.
    pub fn is_measured(&self) -> bool {
        self.form.sides().iter().all(|s| s.m != 0.0)
    }

    /// How much there is of it, m²; none while a side is not measured, or when it makes no sense.
    ///
    /// ```
    /// use coatwalk::job::surface::{Form, Piece};
    /// let doors = Piece { count: 2, faces: 2.0, ..Piece::one(Form::Plate { length_m: 1.2, width_m: 0.5 }) };
    /// assert!((doors.m2().unwrap() - 2.4).abs() < 1e-9);
    /// assert_eq!(Piece::one(Form::ALL[0]).m2(), None);
    /// ```
    pub fn m2(&self) -> Option<f64> {
        of_pieces(&[*self]).ok().map(|a| SQUARE_METRE.get(a)).filter(|m2| self.is_measured() && *m2 > 0.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_side_of_every_shape_can_be_measured_and_counts() {
        for form in Form::ALL {
            assert_eq!(Piece::one(form).m2(), None, "{form:?}");
            let n = form.sides().len();
            let whole = (0..n).fold(form, |f, i| f.with(i, 1.0 + i as f64));
            let lengths: Vec<f64> = whole.sides().iter().map(|s| s.m).collect();
            assert_eq!(lengths, (0..n).map(|i| 1.0 + i as f64).collect::<Vec<_>>(), "{form:?}");
            let m2 = Piece::one(whole).m2().unwrap();
            for i in 0..n {
                assert!(Piece::one(whole.with(i, 9.0)).m2().unwrap() > m2, "{form:?} side {i}");
                assert_eq!(Piece::one(whole.with(i, 0.0)).m2(), None, "{form:?} side {i}");
            }
            assert_eq!(whole.with(n, 5.0), whole);
        }
    }

    #[test]
    fn faces_and_intricacy_multiply() {
        let box_1m = Form::Box { length_m: 1.0, width_m: 1.0, height_m: 1.0 };
        for (faces, _) in FACES {
            for (intricacy, _) in INTRICACIES {
                let piece = Piece { faces, intricacy, ..Piece::one(box_1m) };
                assert!((piece.m2().unwrap() - 6.0 * faces * intricacy).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn what_makes_no_sense_counts_for_nothing() {
        let piece = Piece::one(Form::Plate { length_m: f64::INFINITY, width_m: 1.0 });
        assert_eq!(piece.m2(), None);
        assert_eq!(Piece { count: 0, ..Piece::one(Form::Plate { length_m: 1.0, width_m: 1.0 }) }.m2(), None);
    }
}
