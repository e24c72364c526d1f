//! How are the pairs of code and value written that a DXF file is made of?

use units::Angle;

use crate::number::decimal;

/// The file so far.
#[derive(Default)]
pub(super) struct Tags(String);

impl Tags {
    /// Pairs that are always the same: `code value`, parted by `; `. A value may be empty.
    pub fn fixed(&mut self, pairs: &str) {
        for pair in pairs.split("; ") {
            let (code, value) = pair.split_once(' ').unwrap_or((pair, ""));
            self.line(code, value);
        }
    }

    /// A pair whose value is text.
    pub fn text(&mut self, code: u16, value: &str) {
        self.line(&code.to_string(), value);
    }

    /// A pair whose value is a whole number.
    pub fn integer(&mut self, code: u16, value: usize) {
        self.line(&code.to_string(), &value.to_string());
    }

    /// A pair whose value is a number of the file's unit, to eight decimals.
    pub fn number(&mut self, code: u16, value: f64) {
        self.real(code, value, 8);
    }

    /// The bulge of a polyline's vertex, to twelve decimals.
    pub fn bulge(&mut self, value: f64) {
        self.real(42, value, 12);
    }

    /// An angle as degrees from 0 up to 360, to ten decimals.
    pub fn angle(&mut self, code: u16, angle: Angle) {
        self.real(code, angle.as_degrees().rem_euclid(360.0), 10);
    }

    /// The two pairs of a point of the plane: x under the code, y under the code plus ten.
    pub fn point(&mut self, code: u16, (x, y): (f64, f64)) {
        self.number(code, x);
        self.number(code + 10, y);
    }

    /// The finished file.
    pub fn into_text(self) -> String {
        self.0
    }

    fn real(&mut self, code: u16, value: f64, places: usize) {
        let mut text = decimal(value, places);
        if !text.contains('.') {
            text.push_str(".0");
        }
        self.line(&code.to_string(), &text);
    }

    fn line(&mut self, code: &str, value: &str) {
        // Codes are set to a width of three, as old readers expect.
        self.0.push_str(&format!("{code:>3}\n{value}\n"));
    }
}

/// A handle as the file writes it.
pub(super) fn hexadecimal(handle: usize) -> String {
    format!("{handle:X}")
}
