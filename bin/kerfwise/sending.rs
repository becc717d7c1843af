//! What a shop would find: the rules as the commands apply them to parts, and findings for programs.

use crate::failure::Failure;
use kerfwise::checks::Finding;
use kerfwise::checks::Limits;
use kerfwise::checks::SheetSize;
use kerfwise::design::part::Part;
use kerfwise::documents::inspection;
use kerfwise::documents::inspection::BeforeSending;
use kerfwise::trade::processes::Process;
use kerfwise::trade::processes::Processes;

/// The way of cutting of this name, if one is named.
pub(crate) fn process<'a>(
    name: Option<&str>,
    known: &'a Processes,
) -> Result<Option<&'a Process>, Failure> {
    name.map(|name| known.find(name).map_err(Failure::said))
        .transpose()
}

/// What a process can do in the part's plate; no limits without a process.
pub(crate) fn limits(part: &Part, process: Option<&Process>) -> Limits {
    let thickness = part.plate.as_ref().and_then(|plate| plate.thickness);
    // without a thickness the figures for thin plate, which ask the least
    process.map_or_else(Limits::default, |process| {
        inspection::of_process(process, thickness.unwrap_or(0.0))
    })
}

/// The sheet of this size in millimetres: `1250x2500`.
pub(crate) fn sheet(text: &str) -> Result<SheetSize, Failure> {
    let side = |text: &str| {
        let value = text.trim().parse::<f64>().ok();
        value.filter(|value| *value > 0.0 && value.is_finite())
    };
    text.split_once(['x', '×'])
        .and_then(|(width, height)| {
            Some(SheetSize {
                width: side(width)?,
                height: side(height)?,
            })
        })
        .ok_or_else(|| {
            Failure::Said(format!(
                "--sheet {text} is no sheet: write both sides in mm, as --sheet 1250x2500"
            ))
        })
}

/// Refuses to make a file of parts that a shop would send back.
pub(crate) fn refuse(what: &'static str, looked: &[BeforeSending<'_>]) -> Result<(), Failure> {
    if !looked.iter().any(BeforeSending::has_errors) {
        return Ok(());
    }
    Err(Failure::NotToSend {
        what,
        found: lines(looked),
        facts: facts(looked),
    })
}

/// Everything found, in short.
pub(crate) fn lines(looked: &[BeforeSending<'_>]) -> Vec<String> {
    looked.iter().flat_map(BeforeSending::lines).collect()
}

/// Everything found, for programs.
pub(crate) fn facts(looked: &[BeforeSending<'_>]) -> Vec<serde_json::Value> {
    let of_part = |looked: &BeforeSending<'_>| -> Vec<serde_json::Value> {
        let findings = looked.findings.iter();
        findings
            .map(|finding| {
                let mut facts = fact(finding);
                facts.insert("part".to_owned(), looked.part.name.clone().into());
                let feature = looked.place(finding.source);
                let feature = (!feature.is_empty()).then_some(feature);
                facts.insert("feature".to_owned(), feature.into());
                facts.into()
            })
            .collect()
    };
    looked.iter().flat_map(of_part).collect()
}

/// One finding, for programs.
pub(crate) fn fact(finding: &Finding) -> serde_json::Map<String, serde_json::Value> {
    let facts = serde_json::json!({
        "severity": finding.grade.word(),
        "name": finding.rule.name(),
        "message": finding.message,
        "help": finding.help,
        "at_mm": finding.at.map(|at| [at.x, at.y]),
        "measured_mm": finding.measured,
        "limit_mm": finding.limit,
        "basis": finding.basis,
    });
    match facts {
        serde_json::Value::Object(facts) => facts,
        _ => serde_json::Map::new(),
    }
}
