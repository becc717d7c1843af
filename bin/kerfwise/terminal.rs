//! Everything the command says: results on standard output, faults on standard error.
#![expect(clippy::print_stderr, reason = "this is where the command speaks")]

use crate::failure::Failure;
use annotate_snippets::AnnotationKind;
use annotate_snippets::Group;
use annotate_snippets::Level;
use annotate_snippets::Renderer;
use annotate_snippets::Snippet;
use kerfwise::design::DesignError;
use kerfwise::design::Place;
use kerfwise::design::Severity;
use kerfwise::design::Source;
use kerfwise::measures::readings::ReadingError;
use std::io::BufRead;
use std::io::IsTerminal;
use std::io::Write;

/// Widest line of a report.
const WIDEST: usize = 100;

/// Width to lay reports out in: the terminal's where it says so, never more than is easy to read.
pub(crate) fn width() -> usize {
    let told = std::env::var("COLUMNS")
        .ok()
        .and_then(|columns| columns.parse().ok());
    told.unwrap_or(WIDEST).clamp(40, WIDEST)
}

/// Says a result.
pub(crate) fn say(text: &str) {
    let mut out = std::io::stdout().lock();
    // a reader that has gone away (`| head`) is no fault of ours
    let _ = writeln!(out, "{}", text.trim_end());
}

/// Says that a file was written.
pub(crate) fn wrote(path: &std::path::Path, what: &str) {
    say(&format!("wrote {}: {what}", path.display()));
}

/// Says why nothing was done.
pub(crate) fn failure(failure: &Failure) {
    match failure {
        Failure::Design {
            source_text,
            errors,
        } => {
            findings(source_text, errors);
            let count = errors
                .iter()
                .filter(|error| error.severity == Severity::Error)
                .count();
            let noun = if count == 1 { "error" } else { "errors" };
            eprintln!(
                "\n{count} {noun} in {}; nothing was written",
                source_text.name()
            );
        }
        Failure::Unfit {
            what,
            source_text,
            errors,
        } => {
            findings(source_text, errors);
            eprintln!(
                "\n{what} is not made of a design that breaks its limits; nothing was written. \
                 `kerfwise check` shows all of it"
            );
        }
        Failure::NotToSend { what, found, .. } => {
            eprintln!("{}", found.join("\n"));
            eprintln!(
                "\n{what} is not made of a part that a shop would send back; nothing was written. \
                 `kerfwise check --process NAME` shows all of it"
            );
        }
        Failure::Readings {
            source_text,
            errors,
        } => {
            readings(source_text, errors);
            let count = errors.len();
            let noun = if count == 1 { "error" } else { "errors" };
            eprintln!(
                "\n{count} {noun} in {}; nothing was written",
                source_text.name()
            );
        }
        Failure::ToolPath {
            source_text,
            place,
            error,
            piece,
        } => {
            let piece = piece.as_ref().map(|piece| format!("{piece}: "));
            let title = format!("{}{error}", piece.unwrap_or_default());
            let level = Level::ERROR.primary_title(&title).id(error.name());
            let group = match place {
                Some(place) => {
                    let place = AnnotationKind::Primary.span(span(source_text, *place));
                    level.element(snippet(source_text).annotation(place))
                }
                None => Group::with_title(level),
            };
            eprintln!("{}", render(&[group]));
            eprintln!("\nno tool path was made; nothing was written");
        }
        Failure::File(_) | Failure::Format(_) | Failure::Said(_) => eprintln!("error: {failure}"),
    }
}

/// Says findings, each with the line of the design file that it speaks of.
pub(crate) fn findings(source: &Source, findings: &[DesignError]) {
    let finding = |finding: &DesignError| Report {
        severity: finding.severity,
        name: finding.kind.name(),
        title: finding.kind.to_string(),
        place: finding.place,
        also: finding.also.clone(),
        help: finding.help.clone(),
    };
    say_reports(source, findings.iter().map(finding));
}

/// Says what is wrong with readings, each with its line.
fn readings(source: &Source, errors: &[ReadingError]) {
    let error = |error: &ReadingError| Report {
        severity: Severity::Error,
        name: error.fault.name(),
        title: error.fault.to_string(),
        place: error.place,
        also: Vec::new(),
        help: error.help.clone(),
    };
    say_reports(source, errors.iter().map(error));
}

/// Asks a person for a line; `None` when there is no more input.
pub(crate) fn ask(question: &str) -> Option<String> {
    eprint!("{question}");
    let _ = std::io::stderr().flush();
    let mut line = String::new();
    let read = std::io::stdin().lock().read_line(&mut line);
    if !std::io::stdin().is_terminal() {
        // what is not typed is not seen either
        eprintln!();
    }
    read.is_ok_and(|bytes| bytes > 0)
        .then(|| line.trim().to_owned())
}

/// Says something to the person at the terminal beside the result.
pub(crate) fn aside(words: &str) {
    eprintln!("{words}");
}

/// Something found, with its place.
struct Report {
    severity: Severity,
    name: &'static str,
    title: String,
    place: Place,
    also: Vec<(Place, String)>,
    help: String,
}

fn say_reports(source: &Source, found: impl Iterator<Item = Report>) {
    let reports: Vec<String> = found
        .map(|found| report(source, &found).trim_end().to_owned())
        .collect();
    if !reports.is_empty() {
        eprintln!("{}", reports.join("\n\n"));
    }
}

/// A stretch of the text, no farther than the text goes.
fn span(source: &Source, place: Place) -> std::ops::Range<usize> {
    let end = place.end.min(source.text().len());
    place.start.min(end)..end
}

fn snippet(source: &Source) -> Snippet<'_, annotate_snippets::Annotation<'_>> {
    Snippet::source(source.text()).path(source.name())
}

fn render(groups: &[Group<'_>]) -> String {
    // colour only on a terminal that is asked for none otherwise (NO_COLOR, a common convention)
    let coloured = std::io::stderr().is_terminal() && std::env::var_os("NO_COLOR").is_none();
    let renderer = if coloured {
        Renderer::styled()
    } else {
        Renderer::plain()
    };
    renderer.term_width(WIDEST).render(groups)
}

fn report(source: &Source, finding: &Report) -> String {
    let level = match finding.severity {
        Severity::Error => Level::ERROR,
        Severity::Notice => Level::NOTE.with_name("notice"),
    };
    let title = finding.title.as_str();
    let span = |place: Place| span(source, place);
    let mut snippet = snippet(source).annotation(AnnotationKind::Primary.span(span(finding.place)));
    for (place, label) in &finding.also {
        let label = label.as_str();
        snippet = snippet.annotation(AnnotationKind::Context.span(span(*place)).label(label));
    }
    let title = level.primary_title(title).id(finding.name);
    // what is wrong with the arguments has no place in the file
    let placed = finding.place != Place::default();
    let mut groups = vec![if placed {
        title.element(snippet)
    } else {
        Group::with_title(title)
    }];
    if !finding.help.is_empty() {
        groups.push(Group::with_title(
            Level::HELP.secondary_title(finding.help.as_str()),
        ));
    }
    render(&groups)
}
