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
use crate::terminal;
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
    let paths = paths(shared, output, products);
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
    report(input, shared, products, &paths);
    Ok(input.outcome())
}

/// Where each product goes. A path names the first product, the others stand beside it; a folder
/// (one that is there, or a path that ends in a separator) takes them all.
fn paths(shared: &Shared, output: &Output, products: &[Product]) -> Vec<PathBuf> {
    let names = products.iter().map(|product| product.name.as_str());
    let Some(out) = &output.out else {
        return names
            .map(|name| input::beside(&shared.design, name))
            .collect();
    };
    let ends_in_separator = out.as_os_str().to_string_lossy().ends_with(['/', '\\']);
    if out.is_dir() || ends_in_separator {
        return names.map(|name| out.join(name)).collect();
    }
    let beside = |(index, name): (usize, &str)| {
        if index == 0 {
            out.clone()
        } else {
            out.with_file_name(name)
        }
    };
    names.enumerate().map(beside).collect()
}

fn report(input: &Input, shared: &Shared, products: &[Product], paths: &[PathBuf]) {
    if shared.json {
        terminal::say(&json(input, products, paths));
        return;
    }
    input.tell_errors();
    for (product, path) in products.iter().zip(paths) {
        terminal::wrote(path, &product.what);
    }
}

fn json(input: &Input, products: &[Product], paths: &[PathBuf]) -> String {
    let file = |(product, path): (&Product, &PathBuf)| {
        serde_json::json!({
            "path": slashes(path),
            "what": product.what,
            "bytes": product.bytes.len(),
        })
    };
    let written: Vec<_> = products.iter().zip(paths).map(file).collect();
    let mut report = input.facts();
    report.insert("written".to_owned(), written.into());
    format!("{:#}", serde_json::Value::from(report))
}

fn slashes(path: &Path) -> String {
    path.to_string_lossy().replace('\\', "/")
}
