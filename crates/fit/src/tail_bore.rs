//! How wide is a string's bore in the tail?

use layout::{StringBore, TailPlan};
use units::Length;

/// Its diameter at its widest: the counterbore's, where there is one.
pub(crate) fn widest(tail: &TailPlan, bore: &StringBore) -> Length {
    if tail.ball_depth > Length::ZERO { bore.ball_diameter.max(bore.diameter) } else { bore.diameter }
}
