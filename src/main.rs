//! Reads the command line, calls the shell, returns an exit code.

fn main() -> std::process::ExitCode {
    potside::shell::run(std::env::args_os())
}
