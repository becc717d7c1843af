//! How much may come off an edge before any row that ends on it stops the file.

use super::Inspected;
use super::Inspection;

/// How much may come off an edge, and the row that stops it.
#[derive(Clone, Debug, PartialEq)]
pub struct Stop {
    /// The edge, round or opening.
    pub edge: String,
    /// How much may come off it before the first row is no longer shown to conform, in millimetres; 0 if
    /// nothing may.
    pub depth: f64,
    /// How much of the reading of the row that is asked about that is.
    pub amount: f64,
    /// The number of the row that stops it.
    pub number: usize,
    /// Its name.
    pub name: String,
}

/// How much may come off each edge that is filed to mend an item ([`Item::mended_at`](super::Item::mended_at)),
/// nothing else being filed: the least over all rows of the part that end on that edge, as measured, or as
/// drawn where they are not. Edges that no row limits are not among them.
pub fn stops(inspection: &Inspection, of: &Inspected) -> Vec<Stop> {
    of.item
        .mended_at()
        .filter_map(|edge| {
            let (depth, by) = inspection
                .items
                .iter()
                .filter(|other| other.item.part == of.item.part)
                .filter_map(|other| Some((room(other, &edge.edge)?, other)))
                .min_by(|one, other| one.0.total_cmp(&other.0))?;
            Some(Stop {
                edge: edge.edge.clone(),
                depth,
                amount: depth * edge.rate.abs(),
                number: by.item.number,
                name: by.item.name.clone(),
            })
        })
        .collect()
}

/// How much may come off an edge by one row.
fn room(inspected: &Inspected, edge: &str) -> Option<f64> {
    let Inspected { item, found } = inspected;
    let at = item.edges.iter().find(|at| at.edge == edge)?;
    let (values, permitted) = match found {
        Some(found) => {
            let over = found.otherwise.map(|otherwise| otherwise.value);
            let values = std::iter::once(found.budget.value).chain(over).collect();
            (values, found.judgement?.acceptance)
        }
        None => (vec![item.expected?], item.permitted),
    };
    let rooms = values.into_iter().filter_map(|value: f64| {
        let room = if at.rate < 0.0 {
            value + at.beyond - permitted.min?
        } else {
            permitted.max? - value
        };
        Some((room / at.rate.abs()).max(0.0))
    });
    rooms.min_by(f64::total_cmp)
}
