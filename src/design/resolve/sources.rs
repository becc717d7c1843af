//! The table from sources to places in the design file, filled as a part is built.

use crate::design::part::Origin;
use crate::design::source::Place;
use crate::geometry::SourceId;
use std::ops::Range;

/// Hands out sources, one after the other.
#[derive(Debug, Default)]
pub(super) struct Sources {
    origins: Vec<Origin>,
}

impl Sources {
    /// The source that is handed out next.
    pub(super) fn next(&self) -> u32 {
        u32::try_from(self.origins.len()).unwrap_or(u32::MAX)
    }

    /// A new source for a feature at a place.
    pub(super) fn add(&mut self, feature: String, place: Place) -> SourceId {
        let source = SourceId(self.next());
        self.origins.push(Origin { feature, place });
        source
    }

    /// The same features once more, for a copy of them: what has to be added to the old numbers.
    pub(super) fn repeat(&mut self, of: &Range<u32>) -> u32 {
        let added = self.next().saturating_sub(of.start);
        for source in of.clone() {
            if let Some(origin) = self.origins.get(source as usize).cloned() {
                self.origins.push(origin);
            }
        }
        added
    }

    pub(super) fn into_origins(self) -> Vec<Origin> {
        self.origins
    }
}
