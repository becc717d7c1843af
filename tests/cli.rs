//! The command as a person runs it: the scenarios in `tests/cli/` and the console blocks of the README.
//! `TRYCMD=overwrite cargo test --test cli` writes what is said anew; read the difference.

#[test]
fn the_command_says_and_does_what_is_written() {
    trycmd::TestCases::new()
        .case("tests/cli/*.toml")
        .case("README.md");
}
