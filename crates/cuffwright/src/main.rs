//! The command `cuffwright`: everything it does is in the library, so that it can be tested from outside.

use std::process::ExitCode;

fn main() -> ExitCode {
    cuffwright::cli::run()
}
