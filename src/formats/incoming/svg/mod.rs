//! Any SVG, as a drawing from elsewhere.
//!
//! The text becomes a small tree with lines ([`tree`]), which is walked with the transformation in force
//! ([`walk`]). Style sheets are not evaluated: what is drawn is taken whatever its colour; only
//! `display: none` and `visibility: hidden` on the elements themselves are heeded, and listed.

mod basic;
mod path;
mod tree;
mod walk;
mod xml;

use kurbo::Affine;

use super::Collector;
use super::FileUnit;
use super::Incoming;
use super::Known;
use super::ReadOptions;
use super::place::Placing;
use super::unit;
use super::unit::PIXELS;
use super::unit::UnitOfLength;
use crate::formats::FileFormat;
use crate::formats::FormatError;
use tree::Tree;
use walk::Walk;

/// Reads the file.
pub(super) fn read(bytes: &[u8], options: &ReadOptions) -> Result<Incoming, FormatError> {
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let line = 1 + bytes
            .iter()
            .take(error.valid_up_to())
            .filter(|&&byte| byte == b'\n')
            .count();
        malformed(line, "it is not text (UTF-8)")
    })?;
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let tree = Tree::parse(text)?;
    let root = tree.root()?;
    let page = basic::page(&tree, root);
    let (unit, collector) = match page.millimetres {
        _ if options.unit.is_some() => {
            let told = options.unit.unwrap_or(PIXELS);
            let known = FileUnit {
                unit: told,
                known: Known::Told,
            };
            (known, None)
        }
        Some(across) => {
            let unit = UnitOfLength {
                name: "its own units",
                millimetres: across,
            };
            let known = FileUnit {
                unit: named(unit),
                known: Known::Stated,
            };
            (known, None)
        }
        None => {
            let collector = drawn(&tree, 1.0, &page, options.within)?;
            let evidence = unit::Evidence {
                pixels: true,
                ..unit::evidence(&collector)
            };
            let (unit, reason) = unit::likely(&evidence);
            let known = Known::Likely {
                reason,
                could_say: true,
            };
            let again = unit.millimetres != 1.0;
            (
                FileUnit { unit, known },
                if again { None } else { Some(collector) },
            )
        }
    };
    let collector = match collector {
        Some(collector) => collector,
        None => drawn(&tree, unit.unit.millimetres, &page, options.within)?,
    };
    Ok(Incoming {
        format: FileFormat::Svg,
        edition: String::new(),
        unit,
        kinds: collector.kinds(),
        layers: collector.layers,
        drawn: collector.drawn,
        faults: collector.faults,
        comments: tree.comments,
    })
}

/// The unit by its name, if it is a usual one.
fn named(unit: UnitOfLength) -> UnitOfLength {
    let usual = crate::geometry::LengthUnit::ALL.map(UnitOfLength::from);
    let mut known = usual.into_iter().chain([PIXELS]);
    let same = |other: &UnitOfLength| {
        (other.millimetres - unit.millimetres).abs() <= 1e-9 * unit.millimetres
    };
    known.find(same).unwrap_or(unit)
}

/// What is drawn, a user unit being so many millimetres; y turned up.
fn drawn(
    tree: &Tree,
    unit: f64,
    page: &basic::Page,
    within: f64,
) -> Result<Collector, FormatError> {
    let map = Affine::new([unit, 0.0, 0.0, -unit * page.stretch, 0.0, 0.0]);
    let mut walk = Walk::new(tree, within);
    walk.root(&Placing::new(map))?;
    Ok(walk.collector)
}

pub(super) fn malformed(line: usize, problem: impl Into<String>) -> FormatError {
    FormatError::Malformed {
        format: FileFormat::Svg.name(),
        line,
        problem: problem.into(),
    }
}
