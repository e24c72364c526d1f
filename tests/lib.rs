//! Whole-program tests: what the built program does to files, streams and exit codes.
//!
//! The tests themselves are in `tests/tests/`; here is what they share: the program, built on demand, and a call of it.

mod program;

pub use program::{Call, call, program, repository};
