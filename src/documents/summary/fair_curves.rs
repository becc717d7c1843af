//! How the fair curves of a part lie: the arcs that follow them, where they turn from full to hollow, and
//! which stations do not lie fair.

use crate::design::part::Edge;
use crate::design::part::Part;
use crate::documents::features;
use crate::geometry::LengthUnit;
use crate::geometry::Point;
use crate::geometry::fair_curve::Lump;
use crate::geometry::outline::FittedEdge;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Quantity;
use crate::sheet::Table;

/// Springs of less than the width of a drawn line, in millimetres, are not told.
const LEAST_TOLD: f64 = 0.2;

/// The most stations told of one curve.
const MOST_TOLD: usize = 5;

/// One row a fair curve; `None` for a part that has none.
pub(super) fn fair_curves(part: &Part, unit: LengthUnit) -> Option<Table> {
    let mut table = Table::new(
        format!("{}: fair curves", part.name),
        vec![
            Column::words("edge", "edge"),
            Column::numbers("arcs", "arcs"),
            Column::numbers("off the curve, at most", "deviation"),
            Column::words("turns from full to hollow, or back, at", "inflections"),
            Column::words("stations that do not lie fair", "lumps"),
        ],
    );
    let openings = part.openings.iter();
    let edges = part
        .edges
        .iter()
        .chain(openings.flat_map(|opening| &opening.features.edges));
    for edge in edges {
        if let Some(curve) = &edge.curve {
            table.row(row(part, edge, curve, unit));
        }
    }
    if table.rows.is_empty() {
        return None;
    }
    table.notes.push(format!(
        "Places are running dimensions from the datum. A station does not lie fair if a batten would leave it by \
         {} or more when its weight alone is lifted: measure the first one again, or move it to where the batten goes, and look again: one wrong station makes \
         its neighbours spring too.",
        features::length_with_unit(LEAST_TOLD, unit)
    ));
    Some(table)
}

fn row(part: &Part, edge: &Edge, curve: &FittedEdge, unit: LengthUnit) -> Vec<Cell> {
    let fitted = &curve.fitted;
    let turns: Vec<String> = fitted
        .inflections
        .iter()
        .map(|inflection| place(part, inflection.at, unit))
        .collect();
    let mut deviation = Quantity::length(fitted.deviation, unit);
    deviation.decimals += 1;
    let arcs = i64::try_from(fitted.segments.len()).unwrap_or(i64::MAX);
    vec![
        edge.name.clone().into(),
        Cell::Count(arcs),
        deviation.into(),
        if turns.is_empty() {
            "nowhere".into()
        } else {
            turns.join("; ").into()
        },
        lumps(part, &fitted.lumps, unit).into(),
    ]
}

/// The stations that spring, the likely culprit first.
fn lumps(part: &Part, lumps: &[Lump], unit: LengthUnit) -> String {
    let told: Vec<&Lump> = lumps
        .iter()
        .filter(|lump| lump.spring.abs() >= LEAST_TOLD)
        .collect();
    if told.is_empty() {
        return "none".to_owned();
    }
    let more = told.len().saturating_sub(MOST_TOLD);
    let mut words: Vec<String> = told
        .into_iter()
        .take(MOST_TOLD)
        .map(|lump| {
            format!(
                "station {} at {} by {}: the batten goes to {}",
                lump.station,
                place(part, lump.at, unit),
                features::length_with_unit(lump.spring.abs(), unit),
                place(part, lump.fair, unit)
            )
        })
        .collect();
    if more > 0 {
        words.push(format!("and {more} more"));
    }
    words.join("; ")
}

fn place(part: &Part, at: Point, unit: LengthUnit) -> String {
    let running = part.datum.running(at);
    let number = |value| features::length(value, unit);
    format!("({}, {})", number(running.x), number(running.y))
}
