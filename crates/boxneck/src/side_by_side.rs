//! When is the work on one instrument spread over the cores?
//!
//! Where nothing else is under way. A row of a class keeps to the core that took it: were it to wait there for another's help, the
//! core would take up the next row meanwhile, and rows would pile up half done.

/// Whether the work at hand has the cores for itself.
pub(crate) fn has_the_cores() -> bool {
    rayon::current_thread_index().is_none()
}

/// Does two things, side by side or one after the other; what they come to is the same.
pub(crate) fn both<One: Send, Other: Send>(
    side_by_side: bool,
    one: impl FnOnce() -> One + Send,
    other: impl FnOnce() -> Other + Send,
) -> (One, Other) {
    if side_by_side { rayon::join(one, other) } else { (one(), other()) }
}
