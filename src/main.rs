//! The program: arguments in, exit status out.
#![forbid(unsafe_code)]

fn main() -> std::process::ExitCode {
    lidsheet::cli::run(std::env::args_os())
}
