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
//! # Examples
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
//!
//! An arched opening 400 wide in a bulkhead: the crown of the arch stands 80 over the line between the
//! jamb heads, and the arc runs tangent onto both jambs. It becomes a hole in a region.
//!
//! ```
//! use kerfwise::geometry::Point;
//! use kerfwise::geometry::Region;
//! use kerfwise::geometry::outline::BothFixedBy;
//! use kerfwise::geometry::outline::EdgeShape;
//! use kerfwise::geometry::outline::Entry;
//! use kerfwise::geometry::outline::Side;
//! use kerfwise::geometry::outline::build;
//!
//! let opening = build(&[
//!     Entry::corner("sill port", Point::new(-200.0, 80.0)).fillet(40.0),
//!     Entry::corner("sill starboard", Point::new(200.0, 80.0)).fillet(40.0),
//!     Entry::corner("jamb starboard", Point::new(200.0, 260.0))
//!         .edge("arch", EdgeShape::TangentToBoth(BothFixedBy::Crown(80.0))),
//!     Entry::corner("jamb port", Point::new(-200.0, 260.0)),
//! ])?;
//! assert!((opening.contour.bounds().y1 - 340.0).abs() < 1e-9);
//!
//! let bulkhead = build(&[
//!     Entry::corner("chine port", Point::new(-320.0, 0.0)),
//!     Entry::corner("chine starboard", Point::new(320.0, 0.0))
//!         .edge("side", EdgeShape::Bow(Side::Full, 24.0)),
//!     Entry::corner("gunwale starboard", Point::new(590.0, 430.0)),
//!     Entry::corner("gunwale port", Point::new(-590.0, 430.0)),
//! ])?;
//! let region = Region::new(bulkhead.contour, vec![opening.contour]);
//! assert_eq!(region.holes().len(), 1);
//! # Ok::<(), kerfwise::geometry::outline::OutlineError>(())
//! ```
//!
//! A washer handed to other libraries: as a `kurbo` path within a micrometre, and as a `geo` polygon
//! that says how far its chords are off.
//!
//! ```
//! use kerfwise::geometry::Contour;
//! use kerfwise::geometry::Point;
//! use kerfwise::geometry::Region;
//! use kerfwise::geometry::SourceId;
//! use kerfwise::geometry::convert;
//!
//! let circle = |radius| Contour::circle(Point::new(0.0, 0.0), radius, SourceId::UNTRACED);
//! let washer = Region::new(circle(15.0)?, vec![circle(6.5)?]);
//! let path = convert::region_to_bezier(&washer, 1e-3)?;
//! assert!(path.elements().len() > 8);
//! let flattened = convert::region_to_polygon(&washer, 0.01)?;
//! assert!(flattened.deviation <= 0.01);
//! assert_eq!(flattened.polygon.interiors().len(), 1);
//! # Ok::<(), kerfwise::geometry::GeometryError>(())
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
