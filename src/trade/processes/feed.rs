//! How fast a process goes: for reckoning time and money, never for setting a machine.

use super::Origin;
use super::Subject;
use crate::trade::Material;

/// A feed in one material at one thickness.
#[derive(Clone, Debug, PartialEq)]
pub struct Feed {
    /// In what.
    pub of: Subject,
    /// Thickness in millimetres.
    pub thickness: f64,
    /// Millimetres a minute to reckon with.
    pub value: f64,
    /// The slowest that is usual.
    pub low: f64,
    /// The fastest that is usual.
    pub high: f64,
    /// Who stands behind it.
    pub origin: Origin,
}

/// A feed between those known: a feed falls with thickness about as a power of it, so that it is a
/// straight line between the logarithms. Feeds for the material itself go before those for its family,
/// and beyond the thickness of what is known nothing is said. A single known thickness stands for those
/// from three quarters to four thirds of it.
pub(super) fn feed(feeds: &[Feed], material: &Material, thickness: f64) -> Option<Feed> {
    let own = |feed: &&Feed| feed.of == Subject::Material(material.name);
    let family = |feed: &&Feed| feed.of == Subject::Family(material.family);
    let mut known: Vec<&Feed> = feeds.iter().filter(own).collect();
    if known.is_empty() {
        known = feeds.iter().filter(family).collect();
    }
    known.sort_by(|a, b| a.thickness.total_cmp(&b.thickness));
    let above = known.iter().find(|feed| feed.thickness >= thickness);
    let below = known.iter().rev().find(|feed| feed.thickness <= thickness);
    match (below, above) {
        (Some(below), Some(above)) if below.thickness < above.thickness => {
            let part = libm::log(thickness / below.thickness)
                / libm::log(above.thickness / below.thickness);
            let between = |low: f64, high: f64| low * libm::pow(high / low, part);
            Some(Feed {
                thickness,
                value: between(below.value, above.value),
                low: between(below.low, above.low),
                high: between(below.high, above.high),
                ..(*below).clone()
            })
        }
        (Some(same), Some(_)) => Some((*same).clone()),
        (Some(near), None) if near.thickness > 0.75 * thickness => Some((*near).clone()),
        (None, Some(near)) if thickness > 0.75 * near.thickness => Some((*near).clone()),
        _ => None,
    }
}
