//! Habits of the code that no compiler keeps: which module may use which, which crate lives where,
//! that the library does no input or output, and that no file grows past what one can hold in mind.
#![expect(clippy::unwrap_used, reason = "a test stops at what it cannot read")]

use std::fs;
use std::path::Path;
use std::path::PathBuf;

/// Each module of the library, and what it may use.
const MAY_USE: [(&str, &[&str]); 10] = [
    ("named", &[]),
    ("geometry", &[]),
    ("trade", &[]),
    ("sheet", &["geometry"]),
    ("formats", &["geometry", "sheet"]),
    ("design", &["geometry", "trade"]),
    ("measures", &["geometry", "trade", "design"]),
    ("checks", &["geometry", "trade"]),
    ("shop", &["geometry", "trade", "design", "measures"]),
    (
        "documents",
        &[
            "geometry", "trade", "sheet", "formats", "design", "measures", "checks", "shop",
        ],
    ),
];

/// Crates with one home each.
const HOMES: [(&str, &str); 9] = [
    ("clap", "bin/"),
    ("annotate_snippets", "bin/"),
    ("pdf_writer", "src/formats/pdf"),
    ("subsetter", "src/formats/"),
    ("ttf_parser", "src/formats/font"),
    ("tiny_skia", "src/formats/png"),
    ("svgtypes", "src/formats/"),
    ("toml", "src/design/"),
    ("schemars", "src/design/"),
];

/// What would make the library depend on the machine it runs on.
const INPUT_AND_OUTPUT: [&str; 8] = [
    "std::fs",
    "std::env",
    "std::io::std",
    "std::time",
    "std::thread",
    "std::net",
    "std::process",
    "HashMap",
];

/// Lines of code a file may have before its tests.
const LONGEST_FILE: usize = 500;

#[test]
fn imports_go_one_way() {
    let mut faults = Vec::new();
    for (path, text) in sources("src") {
        let Some(own) = module_of(&path) else {
            continue;
        };
        let (_, may_use) = MAY_USE
            .iter()
            .find(|(module, _)| *module == own)
            .unwrap_or_else(|| panic!("module `{own}` has no row in MAY_USE"));
        for (number, line) in numbered(&text) {
            if line.contains("crate::{") || line.contains("super::super::super::") {
                faults.push(format!("{}:{number}: one `use` a line", path.display()));
            }
            for used in modules_named(line) {
                if used != own && !may_use.contains(&used) {
                    faults.push(format!(
                        "{}:{number}: `{own}` uses `{used}`",
                        path.display()
                    ));
                }
            }
        }
    }
    assert!(
        faults.is_empty(),
        "imports against the direction:\n{}",
        faults.join("\n")
    );
}

#[test]
fn the_command_uses_the_public_library_only() {
    let mut seen = 0;
    for (path, text) in sources("bin") {
        for (number, line) in numbered(&text) {
            seen += usize::from(line.contains("kerfwise::"));
            assert!(
                !line.contains("#[path"),
                "{}:{number}: the command reaches into the library's files",
                path.display()
            );
        }
    }
    assert!(seen > 0, "the command uses the library somewhere");
}

#[test]
fn every_outside_crate_has_one_home() {
    let mut faults = Vec::new();
    for (path, text) in sources("src").into_iter().chain(sources("bin")) {
        let shown = path.to_string_lossy().replace('\\', "/");
        for (number, line) in numbered(&text) {
            for (name, home) in HOMES {
                let named = [
                    format!("use {name}::"),
                    format!(" {name}::"),
                    format!("({name}::"),
                ];
                let used = named.iter().any(|text| line.contains(text.as_str()));
                if used && !line.trim_start().starts_with("//") && !shown.starts_with(home) {
                    faults.push(format!("{shown}:{number}: `{name}` lives in {home}"));
                }
            }
        }
    }
    assert!(
        faults.is_empty(),
        "crates away from home:\n{}",
        faults.join("\n")
    );
}

#[test]
fn the_library_does_no_input_or_output() {
    let mut faults = Vec::new();
    for (path, text) in sources("src") {
        for (number, line) in numbered(before_tests(&text)) {
            if line.trim_start().starts_with("//") {
                continue;
            }
            for word in INPUT_AND_OUTPUT {
                if line.contains(word) {
                    faults.push(format!("{}:{number}: {word}", path.display()));
                }
            }
        }
    }
    assert!(
        faults.is_empty(),
        "the library depends on its machine:\n{}",
        faults.join("\n")
    );
}

#[test]
fn no_file_is_too_long_to_hold_in_mind() {
    let mut faults = Vec::new();
    for (path, text) in sources("src").into_iter().chain(sources("bin")) {
        let lines = before_tests(&text).lines().count();
        if lines > LONGEST_FILE {
            faults.push(format!("{}: {lines} lines", path.display()));
        }
    }
    assert!(
        faults.is_empty(),
        "over {LONGEST_FILE} lines:\n{}",
        faults.join("\n")
    );
}

/// Every Rust file below the folder, with its text, in order of name.
fn sources(folder: &str) -> Vec<(PathBuf, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut found = Vec::new();
    let mut open = vec![root.join(folder)];
    while let Some(folder) = open.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                open.push(path);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                let text = fs::read_to_string(&path).unwrap();
                found.push((path.strip_prefix(root).unwrap().to_owned(), text));
            }
        }
    }
    found.sort();
    assert!(!found.is_empty(), "no sources in {folder}");
    found
}

fn module_of(path: &Path) -> Option<&str> {
    let name = path.components().nth(1)?.as_os_str().to_str()?;
    let name = name.strip_suffix(".rs").unwrap_or(name);
    (name != "lib").then_some(name)
}

fn numbered(text: &str) -> impl Iterator<Item = (usize, &str)> {
    text.lines()
        .enumerate()
        .map(|(index, line)| (index + 1, line))
}

/// The modules that a line names by `crate::name`.
fn modules_named(line: &str) -> Vec<&'static str> {
    let named = |(module, _): &(&'static str, &[&str])| {
        let path = format!("crate::{module}");
        line.match_indices(&path).any(|(at, _)| {
            let next = line[at + path.len()..].chars().next();
            !next.is_some_and(|next| next.is_alphanumeric() || next == '_')
        })
    };
    MAY_USE
        .iter()
        .filter(|row| named(row))
        .map(|(module, _)| *module)
        .collect()
}

fn before_tests(text: &str) -> &str {
    text.find("#[cfg(test)]").map_or(text, |at| &text[..at])
}
