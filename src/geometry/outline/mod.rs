//! The profile builder: a round trip over corners and rounds, with an edge leaving each, becomes one
//! exact closed contour.
//!
//! # Words
//!
//! - A **corner** is a known point; it may be left sharp, filleted or chamfered.
//! - A **round** is a known circle; the edges that meet it run onto it tangent, keeping the sense of
//!   travel. It is *full* when the shape lies inside the circle there, *hollow* when outside.
//! - An **edge** leaves each of them and runs to the next: straight unless said otherwise. *Full*
//!   bulges outward of the shape, *hollow* inward.
//!
//! "The shape" is what the outline encloses: for an opening that is the hole.
//!
//! # Stages
//!
//! 1. `edge`: each edge between its two ends, by directed circles
//!    ([`construct`](super::construct)); arcs of unknown radius from the `arc_family`.
//! 2. `neighbours`: arcs that cut their neighbours short, then those that carry on from one.
//! 3. rounds: the arc from where one edge arrives to where the next leaves.
//! 4. `treatment`: fillets, chamfers and reliefs, last, between whatever meets.
//! 5. the contour is closed, turned anticlockwise, and refused if it crosses itself.
//!
//! # Example
//!
//! A blade 300 wide and 900 long with a full-round end of radius 150 and two fillets of 20 at the
//! foot: 300 · 750 + π · 150² / 2 − 2 (1 − π/4) 20² mm².
//!
//! ```
//! use kerfwise::geometry::Point;
//! use kerfwise::geometry::outline::Entry;
//! use kerfwise::geometry::outline::Side;
//! use kerfwise::geometry::outline::build;
//!
//! let blade = build(&[
//!     Entry::corner("heel", Point::new(0.0, 0.0)).fillet(20.0),
//!     Entry::corner("toe", Point::new(300.0, 0.0)).fillet(20.0),
//!     Entry::round("head", Point::new(150.0, 750.0), 150.0, Side::Full),
//! ])?;
//! let pi = std::f64::consts::PI;
//! let expected = 300.0 * 750.0 + pi * 150.0 * 150.0 / 2.0 - 2.0 * (1.0 - pi / 4.0) * 400.0;
//! assert!((blade.contour.signed_area() - expected).abs() < 1e-6);
//! # Ok::<(), kerfwise::geometry::outline::OutlineError>(())
//! ```

mod arc_family;
mod build;
mod built;
mod edge;
mod entry;
mod error;
mod neighbours;
mod tangent_to_both;
mod treatment;

pub use build::build;
pub use build::build_with_sources;
pub use built::BuiltCorner;
pub use built::BuiltEdge;
pub use built::BuiltOutline;
pub use built::BuiltRound;
pub use edge::FittedEdge;
pub use entry::BothFixedBy;
pub use entry::Edge;
pub use entry::EdgeShape;
pub use entry::Encloses;
pub use entry::Entry;
pub use entry::FairEdge;
pub use entry::Place;
pub use entry::Side;
pub use entry::Treatment;
pub use error::OutlineError;
pub use error::OutlineFault;
pub use error::OutlinePart;

#[cfg(test)]
mod tests;
