//! The table from sources to places in the design file, filled as a part is built.

use crate::design::part::Origin;
use crate::design::source::Place;
use crate::geometry::SourceId;

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

    pub(super) fn into_origins(self) -> Vec<Origin> {
        self.origins
    }
}
