//! Where is the built program, and what did one call of it do?

use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::OnceLock;

/// What one call of the program did.
#[derive(Clone, Debug)]
pub struct Call {
    /// The exit code; `None` where a signal ended it.
    pub code: Option<i32>,
    /// Standard output.
    pub stdout: String,
    /// Standard error.
    pub stderr: String,
}

/// The root of the repository.
#[must_use]
pub fn repository() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("the tests are a folder of the repository")
}

/// Runs the program in a folder, with no terminal on any stream, and waits for it.
///
/// The program is the one that the variable `BOXNECK` names, or else the unoptimised one of this workspace, which is
/// built first so that it is never older than its sources.
#[must_use]
pub fn call(folder: &Path, arguments: &[&str]) -> Call {
    let Output { status, stdout, stderr } = Command::new(program())
        .args(arguments)
        .current_dir(folder)
        .stdin(std::process::Stdio::null())
        .output()
        .expect("the program was built just before");
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("the program speaks UTF-8");
    Call { code: status.code(), stdout: text(stdout), stderr: text(stderr) }
}

/// The path of the program.
pub fn program() -> &'static Path {
    static PROGRAM: OnceLock<PathBuf> = OnceLock::new();
    PROGRAM.get_or_init(|| match std::env::var_os("BOXNECK") {
        Some(path) => PathBuf::from(path),
        None => build(),
    })
}

/// Builds the program beside the running test: `<target>/debug/deps/<test>` and `<target>/debug/boxneck`.
fn build() -> PathBuf {
    let test = std::env::current_exe().expect("a running test has a path");
    let profile = test.ancestors().nth(2).expect("a test lies in the folder deps of its profile");
    let target = profile.parent().expect("a profile lies in the target folder");
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let built = Command::new(cargo)
        .args(["build", "--quiet", "--locked", "--package", "boxneck-cli", "--target-dir"])
        .arg(target)
        .current_dir(repository())
        .status();
    assert!(
        built.is_ok_and(|status| status.success()),
        "the program could not be built: `cargo build -p boxneck-cli` says why"
    );
    profile.join(format!("boxneck{}", std::env::consts::EXE_SUFFIX))
}
