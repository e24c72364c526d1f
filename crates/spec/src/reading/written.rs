//! What stands at a key, before it is known what it should be.

use units::{Length, LengthUnit};

use crate::document::{Node, Value, loose_items};

/// A value as written.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Written<'w> {
    /// A string of the document: a size in it carries its own unit.
    Text(&'w str),
    /// A bare number of the document.
    Number(&'w str),
    /// Text of an override or of a default, which may be a word, a number or a list.
    Loose(&'w str),
    /// Anything else.
    Other(&'w Value),
}

impl<'w> Written<'w> {
    /// What stands at a node.
    pub(crate) fn at(node: &'w Node) -> Self {
        match &node.value {
            Value::Text(text) => Self::Text(text),
            Value::Number(digits) => Self::Number(digits),
            Value::Loose(text) => Self::Loose(text),
            other => Self::Other(other),
        }
    }

    /// Whether it means the same as a default: the same word, number or length.
    pub(crate) fn is_same_as(self, default: &str, units: LengthUnit) -> bool {
        match self {
            Self::Text(text) | Self::Loose(text) | Self::Number(text) => {
                let same_length = Length::parse(text, units).ok().zip(Length::parse(default, units).ok());
                text == default || same_length.is_some_and(|(written, default)| written == default)
            }
            Self::Other(_) => false,
        }
    }

    /// What it is, for a message.
    pub(crate) fn description(self) -> String {
        match self {
            Self::Text(text) | Self::Loose(text) => Value::Loose(text.into()).description(),
            Self::Number(digits) => Value::Number(digits.into()).description(),
            Self::Other(value) => value.description(),
        }
    }

    /// The items of a list, where it is one; an override writes them in brackets or parted by commas.
    pub(crate) fn items(self) -> Option<Vec<Self>> {
        match self {
            Self::Other(Value::List(items)) => Some(items.iter().map(|item| Self::at(item)).collect()),
            Self::Loose(text) => Some(loose_items(text)?.into_iter().map(Self::Loose).collect()),
            _ => None,
        }
    }
}
