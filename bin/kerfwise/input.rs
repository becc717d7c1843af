//! From the arguments to a design with its parts built.

use crate::arguments::Shared;
use crate::exit_code::Outcome;
use crate::failure::Failure;
use crate::files;
use crate::products;
use crate::readings;
use crate::terminal;
use crate::told;
use kerfwise::checks::SheetSize;
use kerfwise::design;
use kerfwise::design::Design;
use kerfwise::design::DesignError;
use kerfwise::design::DesignErrorKind;
use kerfwise::design::DesignFile;
use kerfwise::design::Override;
use kerfwise::design::Severity;
use kerfwise::design::Source;
use kerfwise::design::part::Part;
use kerfwise::design::tools::Tool;
use kerfwise::documents::Stamp;
use kerfwise::measures::review;
use kerfwise::trade::Processes;
use std::path::Path;
use std::path::PathBuf;

/// A design file read, and what it came to.
#[derive(Debug)]
pub(crate) struct Input {
    /// The text, for messages.
    pub(crate) source: Source,
    /// The design.
    pub(crate) design: Design,
    /// What every output says about it.
    pub(crate) stamp: Stamp,
    /// What was found of it: of its dimensions and parts, and of its limits, plates and fits.
    findings: Vec<DesignError>,
}

/// Reads and resolves the design that the arguments name.
pub(crate) fn load(shared: &Shared) -> Result<Input, Failure> {
    let text = files::read_text(&shared.design)?;
    let source = Source::new(shared.design.to_string_lossy(), text);
    let mut set = overrides(&shared.set)?;
    let mut loaded = Design::load(&source, &set);
    if let (Some(path), Ok(design)) = (&shared.as_made, &loaded) {
        let made = readings::as_made(path, &source, design)?;
        // what is set by hand goes before what was read
        let by_hand = set.iter().map(|set| set.name.clone());
        let by_hand: Vec<String> = by_hand.collect();
        set.extend(
            made.into_iter()
                .filter(|made| !by_hand.contains(&made.name)),
        );
        loaded = Design::load(&source, &set);
    }
    match loaded {
        Ok(design) => {
            let stamp = Stamp::of(&design);
            let mut findings = design.findings();
            findings.extend(review(&design).findings);
            findings.sort_by_key(|finding| finding.place);
            Ok(Input {
                source,
                design,
                stamp,
                findings,
            })
        }
        Err(errors) => Err(Failure::Design {
            source_text: Box::new(source),
            errors,
        }),
    }
}

fn overrides(set: &[String]) -> Result<Vec<Override>, Failure> {
    let split = |text: &String| match text.split_once('=') {
        Some((name, value)) if !name.trim().is_empty() && !value.trim().is_empty() => {
            Ok(Override::text(name.trim(), value.trim()))
        }
        _ => Err(Failure::Said(format!(
            "--set {text} has no value: write it as --set name=value, e.g. --set foot=306"
        ))),
    };
    set.iter().map(split).collect()
}

/// The tools in a file of their own.
fn tools(path: &Path, design: &Design) -> Result<Vec<Tool>, Failure> {
    let text = files::read_text(path)?;
    let source = Source::new(path.to_string_lossy(), text);
    let read =
        DesignFile::read(&source).and_then(|file| design::tools::tools(&file, &design.dimensions));
    read.map_err(|errors| Failure::Design {
        source_text: Box::new(source),
        errors,
    })
}

impl Input {
    /// The same with the tools of another file, if one is named.
    pub(crate) fn with_tools(mut self, path: Option<&PathBuf>) -> Result<Self, Failure> {
        if let Some(path) = path {
            self.design.tools = tools(path, &self.design)?;
        }
        Ok(self)
    }

    /// The same held against another sheet than the plates of the design, if one is named: the parts have
    /// plates of no known size then.
    pub(crate) fn on_sheet(mut self, sheet: Option<SheetSize>) -> Self {
        if sheet.is_some() {
            let parts = self.design.resolved.parts.iter_mut();
            for plate in parts.filter_map(|part| part.plate.as_mut()) {
                plate.size = None;
            }
            let of_plate = DesignErrorKind::is_of_plate_size;
            self.findings.retain(|finding| !of_plate(&finding.kind));
        }
        self
    }

    /// The parts asked for: one by name, or all.
    pub(crate) fn parts(&self, shared: &Shared) -> Result<Vec<&Part>, Failure> {
        let parts = &self.design.resolved.parts;
        let Some(name) = &shared.part else {
            if parts.is_empty() {
                return Err(Failure::Said(self.why_no_part()));
            }
            return Ok(parts.iter().collect());
        };
        if let Some(part) = parts.iter().find(|part| part.name == *name) {
            return Ok(vec![part]);
        }
        let names: Vec<_> = parts
            .iter()
            .map(|part| format!("`{}`", part.name))
            .collect();
        let there = if names.is_empty() {
            self.why_no_part()
        } else {
            format!("there is {}", names.join(", "))
        };
        Err(Failure::Said(format!("there is no part `{name}`; {there}")))
    }

    /// What files about the whole of it are called: the part's name if there is one part, else that of the
    /// design file.
    pub(crate) fn stem(&self, shared: &Shared) -> String {
        let name = match (&shared.part, self.design.resolved.parts.as_slice()) {
            (Some(name), _) => Some(name.clone()),
            (None, [only]) => Some(only.name.clone()),
            _ => None,
        };
        let name = name.or_else(|| {
            let stem = shared.design.file_stem()?;
            Some(stem.to_string_lossy().into_owned())
        });
        products::file_word(&name.unwrap_or_else(|| "design".to_owned()))
    }

    fn why_no_part(&self) -> String {
        if self.stamp.is_draft() {
            let open = self.stamp.open.join("`, `");
            let first = self.stamp.open.first().map_or("name", String::as_str);
            format!(
                "no part can be drawn before `{open}` is measured; try a value with --set \
                 {first}=VALUE, or give it `min` and `max` for a draft"
            )
        } else {
            "the design has no part; add [part.NAME] with an outline".to_owned()
        }
    }

    /// Tells everything found that does not keep the design from being built.
    pub(crate) fn tell_findings(&self) {
        terminal::findings(&self.source, &self.findings);
    }

    /// How the command ends: findings of error grade are told by its exit code too.
    pub(crate) fn outcome(&self) -> Outcome {
        let is_wrong = |finding: &DesignError| finding.severity == Severity::Error;
        if self.findings.iter().any(is_wrong) {
            Outcome::Findings
        } else {
            Outcome::Fine
        }
    }

    /// Refuses to make something that a part is cut by while a dimension is open, or while the design
    /// is wrong: a clean paper of a part that breaks a limit would be believed.
    pub(crate) fn refuse_unfit(&self, what: &'static str) -> Result<(), Failure> {
        if let Some(first) = self.stamp.open.first() {
            let open = self.stamp.open.join("`, `");
            return Err(Failure::Said(format!(
                "{what} cannot be made before `{open}` is measured; write the reading into the \
                 design, or try one with --set {first}=VALUE"
            )));
        }
        self.refuse_wrong(what)
    }

    /// Refuses to make something of a design that is wrong.
    pub(crate) fn refuse_wrong(&self, what: &'static str) -> Result<(), Failure> {
        let errors = self.errors();
        if errors.is_empty() {
            return Ok(());
        }
        let source_text = Box::new(self.source.clone());
        Err(Failure::Unfit {
            what,
            source_text,
            errors,
        })
    }

    /// What was found of error grade.
    fn errors(&self) -> Vec<DesignError> {
        let mut errors = self.findings.clone();
        errors.retain(|finding| finding.severity == Severity::Error);
        errors
    }

    /// Tells what was found of error grade, where a result stands in spite of it.
    pub(crate) fn tell_errors(&self) {
        terminal::findings(&self.source, &self.errors());
    }

    /// Tells the sizes that are more likely in another unit, beside a file that is cut as it is.
    pub(crate) fn tell_doubtful_units(&self) {
        let mut doubtful = self.findings.clone();
        doubtful.retain(|finding| finding.kind.is_of_unit());
        terminal::findings(&self.source, &doubtful);
    }

    /// What every report for programs says.
    pub(crate) fn facts(&self) -> serde_json::Map<String, serde_json::Value> {
        let finding = |finding: &DesignError| told::finding(&self.source, finding);
        let findings: Vec<_> = self.findings.iter().map(finding).collect();
        let facts = serde_json::json!({
            "design": self.stamp.design,
            "fingerprint": self.stamp.fingerprint,
            "kerfwise": env!("CARGO_PKG_VERSION"),
            "open": self.stamp.open,
            "findings": findings,
        });
        match facts {
            serde_json::Value::Object(facts) => facts,
            _ => serde_json::Map::new(),
        }
    }
}

/// The ways of cutting: those of a processes file over the known ones.
pub(crate) fn processes(path: Option<&Path>) -> Result<Processes, Failure> {
    let Some(path) = path else {
        return Ok(Processes::default());
    };
    let text = files::read_text(path)?;
    let source = Source::new(path.to_string_lossy(), text);
    design::processes::read(&source).map_err(|errors| Failure::Design {
        source_text: Box::new(source),
        errors,
    })
}

/// A path beside the design file.
pub(crate) fn beside(design: &Path, name: &str) -> PathBuf {
    design.with_file_name(name)
}
