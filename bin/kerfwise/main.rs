//! The command: arguments, files, terminal, exit codes.
fn main() {}
