//! The `coopside` program: everything it does is in the library.

fn main() -> std::process::ExitCode {
    coopside::shell::main()
}
