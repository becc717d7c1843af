//! From the arguments to a design with its parts built.

use crate::arguments::Shared;
use crate::failure::Failure;
use crate::files;
use crate::terminal;
use kerfwise::design::Design;
use kerfwise::design::Source;
use kerfwise::design::part::Part;
use kerfwise::documents::Stamp;
use std::path::Path;

/// A design file read, and what it came to.
#[derive(Debug)]
pub(crate) struct Input {
    /// The text, for messages.
    pub(crate) source: Source,
    /// The design.
    pub(crate) design: Design,
    /// What every output says about it.
    pub(crate) stamp: Stamp,
}

/// Reads and resolves the design that the arguments name.
pub(crate) fn load(shared: &Shared) -> Result<Input, Failure> {
    let text = files::read_text(&shared.design)?;
    let source = Source::new(shared.design.to_string_lossy(), text);
    let set = overrides(&shared.set)?;
    match Design::load(&source, &set) {
        Ok(design) => {
            let stamp = Stamp {
                design: design.title().to_owned(),
                fingerprint: design.fingerprint.clone(),
                unit: design.unit(),
                open: design.open(),
            };
            Ok(Input { source, design, stamp })
        }
        Err(errors) => Err(Failure::Design { source_text: Box::new(source), errors }),
    }
}

fn overrides(set: &[String]) -> Result<Vec<(String, String)>, Failure> {
    let split = |text: &String| match text.split_once('=') {
        Some((name, value)) if !name.trim().is_empty() && !value.trim().is_empty() => {
            Ok((name.trim().to_owned(), value.trim().to_owned()))
        }
        _ => Err(Failure::Said(format!(
            "--set {text} has no value: write it as --set name=value, e.g. --set foot=306"
        ))),
    };
    set.iter().map(split).collect()
}

impl Input {
    /// The parts asked for: one by name, or all.
    pub(crate) fn parts(&self, shared: &Shared) -> Result<Vec<&Part>, Failure> {
        let parts = &self.design.resolved.parts;
        let Some(name) = &shared.part else {
            if parts.is_empty() {
                return Err(Failure::Said(self.why_no_part()));
            }
            return Ok(parts.iter().collect());
        };
        match parts.iter().find(|part| part.name == *name) {
            Some(part) => Ok(vec![part]),
            None => {
                let names: Vec<_> = parts.iter().map(|part| format!("`{}`", part.name)).collect();
                let there = if names.is_empty() {
                    self.why_no_part()
                } else {
                    format!("there is {}", names.join(", "))
                };
                Err(Failure::Said(format!("there is no part `{name}`; {there}")))
            }
        }
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

    /// Tells the notices of the design.
    pub(crate) fn tell_notices(&self) {
        terminal::findings(&self.source, &self.design.notices());
    }
}

/// A path beside the design file.
pub(crate) fn beside(design: &Path, name: &str) -> std::path::PathBuf {
    design.with_file_name(name)
}
