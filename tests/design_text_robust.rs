//! Hostile and broken texts: never a panic, never more than a moment.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on fails")]
#![expect(
    clippy::print_stdout,
    reason = "how long each text takes, with --nocapture"
)]

use kerfwise::design::DesignFile;
use kerfwise::design::Dimensions;
use kerfwise::design::Override;
use kerfwise::design::Source;
use kerfwise::design::SourceKind;
use kerfwise::design::expression;
use kerfwise::design::fingerprint::fingerprint;
use proptest::prelude::*;
use std::time::Duration;
use std::time::Instant;

/// Longer than any text here takes, even on a busy machine; what is not bounded takes hours.
const A_MOMENT: Duration = Duration::from_mins(1);

/// Reads and evaluates a text, and says every error; the number of errors.
fn run(text: String, kind: SourceKind) -> usize {
    let source = Source::with_kind("test", text, kind);
    let outcome = DesignFile::read(&source).and_then(|file| {
        let dimensions = Dimensions::evaluate(&file, &[])?;
        let print = fingerprint(&file, &[])?;
        assert_eq!(print.len(), 64, "a fingerprint has 64 digits");
        Ok(dimensions)
    });
    let errors = match &outcome {
        Ok(dimensions) => dimensions.findings(),
        Err(errors) => errors,
    };
    for error in errors {
        let told = error.to_text(&source);
        assert!(!told.is_empty(), "an error says something");
        assert!(
            error.place.start <= error.place.end && error.place.end <= source.text().len(),
            "{told} is at {:?} of {}",
            error.place,
            source.text().len()
        );
        assert!(
            source.text().is_char_boundary(error.place.start)
                && source.text().is_char_boundary(error.place.end),
            "{told} cuts a character"
        );
    }
    if let Err(errors) = &outcome {
        assert!(!errors.is_empty(), "a refusal has a reason");
    }
    errors.len()
}

fn timed(what: &str, text: String, kind: SourceKind) -> usize {
    let length = text.len();
    let start = Instant::now();
    let errors = run(text, kind);
    let taken = start.elapsed();
    println!("{what}: {length} bytes, {errors} errors, {taken:?}");
    assert!(taken < A_MOMENT, "{what}: {length} bytes took {taken:?}");
    errors
}

#[test]
fn deep_nesting_is_refused() {
    for depth in [40, 1000, 200_000] {
        for (open, close) in [("[", "]"), ("{ a = ", "}")] {
            let text = format!("a = {}1{}", open.repeat(depth), close.repeat(depth));
            let errors = timed("nested TOML", text, SourceKind::Toml);
            assert!(errors > 0, "{depth} {open}");
        }
        let dotted = format!("a{} = 1\n", ".a".repeat(depth));
        assert!(timed("dotted key", dotted, SourceKind::Toml) > 0, "{depth}");
        let quoted = format!("\"a\"{} = 1\n", ".\"a\"".repeat(depth));
        assert!(timed("quoted key", quoted, SourceKind::Toml) > 0, "{depth}");
        let inline = format!("x = {{ a{} = 1 }}\n", ".a".repeat(depth));
        assert!(timed("inline key", inline, SourceKind::Toml) > 0, "{depth}");
        let header = format!("[a{}]\nb = 1\n", ".a".repeat(depth));
        assert!(timed("header", header, SourceKind::Toml) > 0, "{depth}");
        for (open, close) in [("[", "]"), ("{\"a\":", "}")] {
            let text = format!("{{\"a\":{}1{}}}", open.repeat(depth), close.repeat(depth));
            assert!(timed("nested JSON", text, SourceKind::Json) > 0, "{depth}");
        }
        let unclosed = "[".repeat(depth);
        assert!(
            timed("open JSON", unclosed.clone(), SourceKind::Json) > 0,
            "{depth}"
        );
        assert!(
            timed("open TOML", unclosed, SourceKind::Toml) > 0,
            "{depth}"
        );
    }
}

#[test]
fn large_files_take_a_moment() {
    large_files(10);
}

#[test]
#[ignore = "a minute: files of 10 MB"]
fn files_of_ten_megabytes_take_a_moment() {
    large_files(1);
}

/// Files of up to 10 MB divided by `share`.
fn large_files(share: usize) {
    let megabytes = |line: &str, size: usize| line.repeat(size * 1_000_000 / share / line.len());
    let many = 20_000 / share;
    let mut dims = "[dims]\n".to_owned();
    for number in 0..many {
        dims.extend([format!("d{number} = \"d{} + 1\"\n", (number + 1) % many)]);
    }
    assert!(timed("a long ring", dims, SourceKind::Toml) > 0, "ring");
    let mut chain = "[dims]\nd0 = 1\n".to_owned();
    for number in 1..many {
        chain.extend([format!("d{number} = \"d{} + 1\"\n", number - 1)]);
    }
    assert_eq!(timed("a long chain", chain, SourceKind::Toml), 0, "chain");
    let mut unknown = "[dims]\n".to_owned();
    for number in 0..many {
        unknown.extend([format!("d{number} = \"e{number} + 1\"\n")]);
    }
    assert!(
        timed("many unknown names", unknown, SourceKind::Toml) > 0,
        "names"
    );
    let mut parts = String::new();
    for number in 0..many {
        parts.extend([format!(
            "[part.p{number}]\nplate = \"q{number}\"\noutline = []\n"
        )]);
    }
    assert!(timed("many parts", parts, SourceKind::Toml) > 0, "parts");
    timed("comments", megabytes("# nothing\n", 10), SourceKind::Toml);
    timed("noise", megabytes("]=[\"'.,{}\n", 10), SourceKind::Toml);
    timed("one line", megabytes("a", 10), SourceKind::Toml);
    timed(
        "one string",
        format!("title = \"{}", megabytes("é", 10)),
        SourceKind::Toml,
    );
    timed(
        "commas",
        format!("a = {}", megabytes("1,", 2)),
        SourceKind::Toml,
    );
    timed(
        "many points",
        format!("a = [{}]", megabytes("[1,2],", 5)),
        SourceKind::Toml,
    );
    let corners = megabytes("{ corner = 'a', at = [0, 0], fillet = 'x +' },\n", 5);
    timed(
        "corners",
        format!("[part.a]\noutline = [\n{corners}]"),
        SourceKind::Toml,
    );
    let json = megabytes("{\"corner\":\"a\",\"at\":[0,0],\"fillet\":1},", 5);
    timed(
        "JSON corners",
        format!(
            "{{\"part\":{{\"a\":{{\"outline\":[{}]}}}}}}",
            json.trim_end_matches(',')
        ),
        SourceKind::Json,
    );
    timed("JSON noise", megabytes("{\"a\":", 5), SourceKind::Json);
}

/// Good and broken designs to begin with.
fn seeds() -> Vec<Vec<u8>> {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures");
    let mut paths = Vec::new();
    for folder in ["designs", "broken"] {
        for entry in std::fs::read_dir(root.join(folder)).unwrap() {
            let path = entry.unwrap().path();
            if path.extension().is_some_and(|ending| ending != "expected") {
                paths.push(path);
            }
        }
    }
    paths.sort();
    paths
        .iter()
        .map(|path| std::fs::read(path).unwrap())
        .collect()
}

/// A change to a text.
#[derive(Clone, Debug)]
enum Change {
    Put(usize, u8),
    Cut(usize, usize),
    Copy(usize, usize, usize),
    Insert(usize, String),
}

fn change() -> impl Strategy<Value = Change> {
    let piece = prop_oneof![
        Just("[[".to_owned()),
        Just("\"\"\"".to_owned()),
        Just("25,4".to_owned()),
        Just("1e999".to_owned()),
        Just("(".to_owned()),
        Just("\u{feff}é½′".to_owned()),
        Just(" = ".to_owned()),
        Just("\\u0000".to_owned()),
        Just("open".to_owned()),
        Just("-1/2 in".to_owned()),
        "[ -~]{1,8}",
    ];
    prop_oneof![
        (any::<usize>(), any::<u8>()).prop_map(|(at, byte)| Change::Put(at, byte)),
        (any::<usize>(), 0..40usize).prop_map(|(at, length)| Change::Cut(at, length)),
        (any::<usize>(), 0..60usize, any::<usize>())
            .prop_map(|(from, length, to)| Change::Copy(from, length, to)),
        (any::<usize>(), piece).prop_map(|(at, piece)| Change::Insert(at, piece)),
    ]
}

fn changed(mut bytes: Vec<u8>, changes: &[Change]) -> Vec<u8> {
    for change in changes {
        let place = |at: usize| at % (bytes.len() + 1);
        match change {
            Change::Put(at, byte) => {
                let at = place(*at);
                if let Some(slot) = bytes.get_mut(at) {
                    *slot = *byte;
                }
            }
            Change::Cut(at, length) => {
                let at = place(*at);
                let end = (at + length).min(bytes.len());
                bytes.drain(at..end);
            }
            Change::Copy(from, length, to) => {
                let (from, to) = (place(*from), place(*to));
                let piece = bytes[from..(from + length).min(bytes.len())].to_vec();
                bytes.splice(to..to, piece);
            }
            Change::Insert(at, piece) => {
                let at = place(*at);
                bytes.splice(at..at, piece.bytes());
            }
        }
    }
    bytes
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn changed_designs_do_not_panic(
        which in any::<usize>(),
        changes in proptest::collection::vec(change(), 1..6),
    ) {
        let seeds = seeds();
        let bytes = changed(seeds[which % seeds.len()].clone(), &changes);
        if let Ok(source) = Source::from_bytes("test", &bytes) {
            run(source.text().to_owned(), source.kind());
        }
        let text = String::from_utf8_lossy(&bytes).into_owned();
        run(text, SourceKind::Toml);
    }

    #[test]
    fn random_expressions_do_not_panic(text in "[ 0-9a-z.,+*/^()'\"°′−×½-]{0,40}") {
        if let Err(error) = expression::parse(&text) {
            prop_assert!(
                error.range.start <= error.range.end && error.range.end <= text.len(),
                "{text}: {error:?}"
            );
            prop_assert!(text.get(error.range.clone()).is_some(), "{text} cut inside a character");
        }
        let source = Source::new("test", "[dims]\nfoot = 305\nhalf = \"foot / 2\"\n");
        let file = DesignFile::read(&source).unwrap();
        for error in Dimensions::evaluate(&file, &[Override::text("foot", text)]).err().unwrap_or_default() {
            prop_assert!(!error.to_text(&source).is_empty(), "it says something");
        }
    }

    #[test]
    fn a_value_is_what_plain_arithmetic_gives(a in -1e6..1e6f64, b in 1e-3..1e6f64, c in -1e3..1e3f64) {
        let text = format!("({a:?}) + {b:?} * ({c:?}) - ({a:?}) / {b:?}");
        let source = Source::new("test", format!("[dims]\nx = \"{text}\"\n"));
        let file = DesignFile::read(&source).unwrap();
        let dimensions = Dimensions::evaluate(&file, &[]).unwrap();
        let expected = a + b * c - a / b;
        prop_assert_eq!(dimensions.get("x").unwrap().value(), Some(expected), "{}", text);
    }
}
