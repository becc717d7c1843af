//! Where the uncertainty of each row comes from.

use super::values;
use crate::measures::inspection::Inspected;
use crate::measures::inspection::Inspection;
use crate::measures::uncertainty::Component;
use crate::measures::uncertainty::student;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Table;
use crate::sheet::number::fixed;
use crate::sheet::number::trimmed;

/// Sources of less than this part of the whole are not shown.
const LEAST_SHOWN: f64 = 0.05;

/// The budgets of all rows.
pub(super) fn table(inspection: &Inspection) -> Table {
    let mut table = Table::new(
        "How sure the readings are",
        vec![
            Column::numbers("Row", "row"),
            Column::words("Source", "source"),
            Column::words("Type", "type"),
            Column::numbers("Standard uncertainty", "standard_uncertainty"),
            Column::words("Degrees of freedom", "degrees_of_freedom"),
            Column::words("Times", "factor"),
        ],
    );
    let g = inspection.rules.guard;
    let mut few = Vec::new();
    for Inspected { item, found } in &inspection.items {
        let Some(found) = found else { continue };
        let budget = &found.budget;
        let decimals = values::decimals(item, budget.combined.standard);
        let shown = |component: &&Component| {
            component.contribution() >= budget.combined.standard * LEAST_SHOWN
        };
        for component in budget.components.iter().filter(shown) {
            table.row(vec![
                Cell::Count(i64::try_from(item.number).unwrap_or(0)),
                component.source.as_str().into(),
                component.evaluation.letter().into(),
                values::cell(item, component.contribution(), decimals),
                freedom(component.freedom).into(),
                Cell::Empty,
            ]);
        }
        if found.factor > g {
            few.push(item.number.to_string());
        }
        table.row(vec![
            Cell::Count(i64::try_from(item.number).unwrap_or(0)),
            "together (root of the sum of squares)".into(),
            Cell::Empty,
            values::cell(item, budget.combined.standard, decimals),
            freedom(budget.combined.freedom).into(),
            fixed(found.factor, 2).into(),
        ]);
    }
    table.notes.extend(notes(g));
    if !few.is_empty() {
        let noun = if few.len() == 1 { "row" } else { "rows" };
        table.notes.push(format!(
            "Few readings say little of their own scatter, so that more than g = {} times the standard \
             uncertainty is taken in {noun} {}: Student's t for the same {} %, with the degrees of \
             freedom cut to a whole number (GUM G.4.1, Table G.2). More readings make it smaller.",
            trimmed(g, 3),
            few.join(", "),
            covered(g),
        ));
    }
    table
}

fn freedom(freedom: f64) -> String {
    if freedom.is_finite() {
        fixed(freedom, 1)
    } else {
        "taken as known".to_owned()
    }
}

/// What ±`g` standard uncertainties cover where the uncertainty is well known, in per cent.
fn covered(g: f64) -> String {
    fixed(100.0 * student::level(g, f64::INFINITY), 2)
}

fn notes(g: f64) -> Vec<String> {
    let level = covered(g);
    vec![
        format!(
            "Verdicts by the rule of ISO 14253-1, in words: the uncertainty of the measuring counts \
             against whoever claims. g = {} covers {level} % where the uncertainty is well known. The \
             standard itself was not read, so that this g is common practice and not the default of \
             one of its editions.",
            trimmed(g, 3)
        ),
        "After JCGM 100:2008 (GUM): what lies within ±a counts as a/√3; type A from the scatter of \
         readings, type B from anything else; degrees of freedom by Welch and Satterthwaite. The \
         reading of the scale and the scatter of readings are one thing seen twice: the larger \
         counts (common practice). Sources of less than a twentieth of the whole count, but are not \
         shown."
            .to_owned(),
    ]
}
