//! Products into files, and the report of it.

use crate::arguments::Output;
use crate::arguments::Shared;
use crate::exit_code::Outcome;
use crate::failure::Failure;
use crate::files;
use crate::files::Replace;
use crate::input;
use crate::input::Input;
use crate::products::Product;
use crate::sending;
use crate::terminal;
use kerfwise::documents::inspection::BeforeSending;
use std::path::Path;
use std::path::PathBuf;

/// Writes the products beside the design, to the path asked for, or into the folder asked for; then
/// says what was written.
///
/// All of them are made before any is written, so a fault leaves nothing behind.
pub(crate) fn deliver(
    input: &Input,
    shared: &Shared,
    output: &Output,
    products: &[Product],
) -> Result<Outcome, Failure> {
    deliver_checked(input, shared, output, products, None)
}

/// The same with what was found of the parts before their files are sent, which is told beside the files.
pub(crate) fn deliver_checked<'a>(
    input: &Input,
    shared: &Shared,
    output: &Output,
    products: &[Product],
    looked: impl Into<Option<&'a [BeforeSending<'a>]>>,
) -> Result<Outcome, Failure> {
    let naming = Naming {
        beside: &shared.design,
        tried: if output.folder { "" } else { shared.suffix() },
    };
    let paths = write_all(&naming, output, products)?;
    report(input, shared, products, &paths, looked.into());
    Ok(input.outcome())
}

/// What the names of products hang on.
pub(super) struct Naming<'a> {
    /// The file beside which they stand if nothing else is said.
    pub(super) beside: &'a Path,
    /// What their names say of values that are not the design's own; such files never take the name
    /// of the real thing.
    pub(super) tried: &'static str,
}

/// Writes all products, and tells where.
///
/// # Errors
/// When one of them cannot be written; a file of somebody else's keeps all from being written.
pub(super) fn write_all(
    naming: &Naming<'_>,
    output: &Output,
    products: &[Product],
) -> Result<Vec<PathBuf>, Failure> {
    let paths = paths(naming, output, products)?;
    for (index, path) in paths.iter().enumerate() {
        if paths.iter().take(index).any(|other| other == path) {
            return Err(Failure::Said(format!(
                "two files would be called {}: rename one of the parts, or make one at a time with --part",
                path.display()
            )));
        }
    }
    let replace = if output.replace {
        Replace::Any
    } else {
        Replace::OwnOnly
    };
    for path in &paths {
        files::check_free(path, replace)?;
    }
    for (product, path) in products.iter().zip(&paths) {
        files::write(path, &product.bytes, replace)?;
    }
    Ok(paths)
}

/// Where each product goes. A path names the first product, the others stand beside it; a folder
/// (one that is there, or a path that ends in a separator) takes them all.
fn paths(
    naming: &Naming<'_>,
    output: &Output,
    products: &[Product],
) -> Result<Vec<PathBuf>, Failure> {
    let own_name = |product: &Product| match product.name.rsplit_once('.') {
        Some((stem, ending)) => format!("{stem}{}.{ending}", naming.tried),
        _ => product.name.clone(),
    };
    let names = products.iter().map(own_name);
    let Some(out) = &output.out else {
        return Ok(names
            .map(|name| input::beside(naming.beside, &name))
            .collect());
    };
    if files::is_folder(out) {
        return Ok(names.map(|name| out.join(name)).collect());
    }
    let wanted = products
        .first()
        .and_then(|product| Path::new(&product.name).extension());
    if out.extension() != wanted {
        let wanted = wanted.unwrap_or_default().to_string_lossy();
        return Err(Failure::Said(format!(
            "--out {0} is neither a folder that is there nor a name that ends in .{wanted}: write \
             {0}/ for a new folder, or {0}.{wanted} for a file",
            out.display()
        )));
    }
    let beside = |(index, name): (usize, String)| {
        if index == 0 {
            out.clone()
        } else {
            out.with_file_name(name)
        }
    };
    Ok(names.enumerate().map(beside).collect())
}

fn report(
    input: &Input,
    shared: &Shared,
    products: &[Product],
    paths: &[PathBuf],
    looked: Option<&[BeforeSending<'_>]>,
) {
    if shared.json {
        let mut report = input.facts();
        report.insert("written".to_owned(), written(products, paths));
        if let Some(looked) = looked {
            report.insert("before_sending".to_owned(), sending::facts(looked).into());
        }
        terminal::say(&format!("{:#}", serde_json::Value::from(report)));
        return;
    }
    for (product, path) in products.iter().zip(paths) {
        terminal::wrote(path, &product.what);
    }
    if looked.is_some() {
        input.tell_doubtful_units();
    }
    let found = looked.map(sending::lines).unwrap_or_default();
    if !found.is_empty() {
        terminal::aside(&found.join("\n"));
    }
}

/// What was written, for programs.
pub(super) fn written(products: &[Product], paths: &[PathBuf]) -> serde_json::Value {
    let file = |(product, path): (&Product, &PathBuf)| {
        serde_json::json!({
            "path": slashes(path),
            "what": product.what,
            "bytes": product.bytes.len(),
        })
    };
    products.iter().zip(paths).map(file).collect()
}

fn slashes(path: &Path) -> String {
    path.to_string_lossy().replace('\\', "/")
}
