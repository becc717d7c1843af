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
        Failure::ToolPath {
            source_text,
            place,
            error,
        } => {
            let title = error.to_string();
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
    let reports: Vec<String> = findings
        .iter()
        .map(|finding| report(source, finding).trim_end().to_owned())
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

fn report(source: &Source, finding: &DesignError) -> String {
    let level = match finding.severity {
        Severity::Error => Level::ERROR,
        Severity::Notice => Level::NOTE.with_name("notice"),
    };
    let title = finding.kind.to_string();
    let span = |place: Place| span(source, place);
    let mut snippet = snippet(source).annotation(AnnotationKind::Primary.span(span(finding.place)));
    for (place, label) in &finding.also {
        let label = label.as_str();
        snippet = snippet.annotation(AnnotationKind::Context.span(span(*place)).label(label));
    }
    let title = level.primary_title(title).id(finding.kind.name());
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
