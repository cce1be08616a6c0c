//! The `peewit` program: hands the words typed to [`peewit::cli`] and turns the answer into an exit code.

use std::process::ExitCode;

fn main() -> ExitCode {
    peewit::cli::main()
}
