//! What is found and what goes wrong, as JSON for programs.

use crate::failure::Failure;
use kerfwise::design::DesignError;
use kerfwise::design::Place;
use kerfwise::design::Source;
use kerfwise::measures::readings::ReadingError;
use serde_json::Value;
use serde_json::json;

/// Something found of a design.
pub(crate) fn finding(source: &Source, finding: &DesignError) -> Value {
    object(
        source,
        (finding.severity.word(), finding.kind.name()),
        &finding.kind.to_string(),
        finding.place,
        &finding.help,
    )
}

fn reading(source: &Source, error: &ReadingError) -> Value {
    let fault = &error.fault;
    let (message, name) = (fault.to_string(), fault.name());
    object(source, ("error", name), &message, error.place, &error.help)
}

fn object(
    source: &Source,
    (severity, name): (&str, &str),
    message: &str,
    place: Place,
    help: &str,
) -> Value {
    let position = source.position(place.start);
    json!({
        "severity": severity,
        "name": name,
        "message": message,
        "line": position.line,
        "column": position.column,
        "help": help,
    })
}

/// Why nothing was done: an object with what was said as `error`, and what was found as `findings`, each as
/// in every other report; `file` is the file that they are in.
pub(crate) fn failure(failure: &Failure) -> String {
    let (file, findings): (Option<&Source>, Vec<Value>) = match failure {
        Failure::Design {
            source_text,
            errors,
        }
        | Failure::Unfit {
            source_text,
            errors,
            ..
        } => {
            let findings = errors.iter().map(|error| finding(source_text, error));
            (Some(source_text), findings.collect())
        }
        Failure::Readings {
            source_text,
            errors,
        } => {
            let findings = errors.iter().map(|error| reading(source_text, error));
            (Some(source_text), findings.collect())
        }
        Failure::ToolPath {
            source_text,
            place,
            error,
            piece,
        } => {
            let named = ("error", error.name());
            let place = place.unwrap_or_default();
            let said = match piece {
                Some(piece) => format!("{piece}: {error}"),
                None => error.to_string(),
            };
            let found = object(source_text, named, &said, place, "");
            (Some(source_text), vec![found])
        }
        Failure::NotToSend { facts, .. } => (None, facts.clone()),
        Failure::File(_) | Failure::Format(_) | Failure::Said(_) => (None, Vec::new()),
    };
    let told = json!({
        "kerfwise": env!("CARGO_PKG_VERSION"),
        "error": failure.to_string(),
        "file": file.map(|source| source.name().replace('\\', "/")),
        "findings": findings,
        "written": [],
    });
    format!("{told:#}")
}
