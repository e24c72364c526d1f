//! How do two calls keep from writing into one folder at once?
//!
//! The folder itself is locked, where the system can lock a folder; the lock goes with the process, however it ends. Shards
//! share it, a whole run or a merge has it alone. A file system that cannot lock is taken as it is.

use std::fs::{File, TryLockError};
use std::path::Path;

use super::fault::BatchFault;

/// Who else may write beside us.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Sharing {
    /// Nobody.
    Alone,
    /// Other shards.
    WithShards,
}

/// Locks a folder until the file is dropped; nothing where that cannot be done.
pub(super) fn lock(folder: &Path, sharing: Sharing) -> Result<Option<File>, BatchFault> {
    let Ok(file) = File::open(folder) else { return Ok(None) };
    let locked = match sharing {
        Sharing::Alone => file.try_lock(),
        Sharing::WithShards => file.try_lock_shared(),
    };
    match locked {
        Ok(()) => Ok(Some(file)),
        Err(TryLockError::WouldBlock) => Err(BatchFault::Busy { folder: folder.to_owned() }),
        Err(TryLockError::Error(_)) => Ok(None),
    }
}
