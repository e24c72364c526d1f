//! How is a sound text spoiled?

use std::fmt;

use proptest::prelude::*;
use proptest::sample::Index;

use crate::texts::{Kind, kept};

/// What is put into a text: what opens and is never closed, what no text has, what programs stumble over.
const SPLINTERS: [&[u8]; 24] = [
    b"\"",
    b"'''",
    b"[[",
    b"]",
    b"{",
    b"}",
    b"=",
    b"#",
    b"\\",
    b"\n",
    b"\r\n",
    b",",
    b";",
    b"\t",
    b"\0",
    b"\x7f",
    b"\xff\xfe",
    b"\xef\xbb\xbf",
    b"\xc3",
    b"[a.b.c.d.e.f.g.h.i.j]\n",
    b"[[[[[[[[[[[[",
    b"=1+1",
    b"../../",
    "\u{202e}\u{301}".as_bytes(),
];

/// What is written in place of a number.
const NUMBERS: [&str; 20] = [
    "0",
    "-0",
    "-1",
    "1e308",
    "-1e308",
    "1e-308",
    "1e999",
    "nan",
    "inf",
    "-inf",
    "99999999999999999999",
    "2147483648",
    "0.1",
    "1/0",
    "1 1/3",
    "0x7f",
    "1_000",
    "1,5",
    "1e5 mm",
    "-12 in",
];

/// One thing that is done to a text; places are shares of its length.
#[derive(Clone, Debug)]
enum Harm {
    Cut { at: Index, length: usize },
    Repeat { at: Index, length: usize, times: usize },
    Insert { at: Index, splinter: Index },
    Renumber { which: Index, with: Index },
    Splice { at: Index, other: Index, from: Index, length: usize },
    Byte { at: Index, byte: u8 },
    End { at: Index },
}

fn harm() -> impl Strategy<Value = Harm> {
    let at = any::<Index>;
    prop_oneof![
        2 => (at(), 1..80_usize).prop_map(|(at, length)| Harm::Cut { at, length }),
        1 => (at(), 1..200_usize, 2..40_usize).prop_map(|(at, length, times)| Harm::Repeat { at, length, times }),
        3 => (at(), at()).prop_map(|(at, splinter)| Harm::Insert { at, splinter }),
        6 => (at(), at()).prop_map(|(which, with)| Harm::Renumber { which, with }),
        2 => (at(), at(), at(), 1..300_usize)
            .prop_map(|(at, other, from, length)| Harm::Splice { at, other, from, length }),
        1 => (at(), any::<u8>()).prop_map(|(at, byte)| Harm::Byte { at, byte }),
        1 => at().prop_map(|at| Harm::End { at }),
    ]
}

/// A mangled text; a failing test shows it as a Rust byte string, to be kept.
#[derive(Clone)]
pub struct Mangled(pub Vec<u8>);

impl fmt::Debug for Mangled {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "b\"{}\"", self.0.escape_ascii())
    }
}

/// A text of a kind with one to six things done to it.
pub fn mangled(kind: Kind) -> impl Strategy<Value = Mangled> {
    let texts: Vec<Vec<u8>> = kept(kind).into_iter().map(|(_, bytes)| bytes).collect();
    (any::<Index>(), prop::collection::vec(harm(), 1..6)).prop_map(move |(start, harms)| {
        let mut bytes = start.get(&texts).clone();
        for harm in &harms {
            apply(harm, &mut bytes, &texts);
        }
        Mangled(bytes)
    })
}

fn apply(harm: &Harm, bytes: &mut Vec<u8>, texts: &[Vec<u8>]) {
    // One place more than there are bytes: the end.
    let place = |index: &Index, bytes: &[u8]| index.index(bytes.len() + 1);
    match harm {
        Harm::Cut { at, length } => {
            let at = place(at, bytes);
            let end = (at + length).min(bytes.len());
            bytes.drain(at..end);
        }
        Harm::Repeat { at, length, times } => {
            let at = place(at, bytes);
            let piece = bytes[at..(at + length).min(bytes.len())].repeat(*times);
            bytes.splice(at..at, piece);
        }
        Harm::Insert { at, splinter } => {
            let at = place(at, bytes);
            bytes.splice(at..at, splinter.get(&SPLINTERS).iter().copied());
        }
        Harm::Renumber { which, with } => {
            let numbers = numbers(bytes);
            if !numbers.is_empty() {
                bytes.splice(which.get(&numbers).clone(), with.get(&NUMBERS).bytes());
            }
        }
        Harm::Splice { at, other, from, length } => {
            let other = other.get(texts);
            let from = place(from, other);
            let piece = other[from..(from + length).min(other.len())].to_vec();
            let at = place(at, bytes);
            bytes.splice(at..at, piece);
        }
        Harm::Byte { at, byte } => {
            let at = place(at, bytes);
            if let Some(old) = bytes.get_mut(at) {
                *old = *byte;
            }
        }
        Harm::End { at } => bytes.truncate(place(at, bytes)),
    }
}

/// Where numbers stand in a text: digits with a point between them.
fn numbers(bytes: &[u8]) -> Vec<std::ops::Range<usize>> {
    let is_part = |byte: u8| byte.is_ascii_digit() || byte == b'.';
    let mut found = Vec::new();
    let mut at = 0;
    while at < bytes.len() {
        let end = at + bytes[at..].iter().take_while(|byte| is_part(**byte)).count();
        if bytes[at].is_ascii_digit() {
            found.push(at..end);
        }
        at = end.max(at + 1);
    }
    found
}
