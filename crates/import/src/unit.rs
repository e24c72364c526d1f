//! What is one unit of the drawing in millimetres?

use units::LengthUnit;

use crate::ImportFault;

/// Millimetres in one unit of a drawing: the document's word goes before the file's own number.
///
/// - **Source**: the numbers are those of the variable `$INSUNITS` in the DXF reference; from memory.
pub(crate) fn millimetres(stated: Option<i64>, told: Option<LengthUnit>) -> Result<f64, ImportFault> {
    match (told, stated) {
        (Some(LengthUnit::Millimetre), _) | (None, Some(4)) => Ok(1.0),
        (Some(LengthUnit::Inch), _) | (None, Some(1)) => Ok(25.4),
        (None, Some(2)) => Ok(304.8),
        (None, Some(5)) => Ok(10.0),
        (None, Some(6)) => Ok(1000.0),
        (None, None | Some(0)) => Err(ImportFault::NoUnit),
        (None, Some(number)) => Err(ImportFault::UnknownUnit { number }),
    }
}
