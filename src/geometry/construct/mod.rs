//! Constructions: tangent lines and circles, fillets, chamfers, full-round ends, corner reliefs.
//!
//! # Directed circles
//!
//! A circle with a way to run has a *signed radius* s, positive anticlockwise; its centre lies s to the
//! left of each of its points. A line is the same with an endless radius. Two of them are tangent *with
//! the same direction of travel* exactly when the distance of their centres is |s₁ − s₂| (a line and a
//! circle: when the centre lies s to the left of the line). Written so, one formula does for outside
//! and inside, full and hollow, and an outline that runs along its pieces finds the right one of the
//! tangents by itself.

mod chamfer;
mod corner;
mod directed;
mod edges;
mod error;
mod fillet;
mod full_round;
mod relief;
mod tangent_circle;
mod tangent_line;
mod three;
mod through;

pub use chamfer::Chamfer;
pub use chamfer::Setbacks;
pub use chamfer::chamfer;
pub use corner::Side;
pub use directed::Carrier;
pub use directed::DirectedCircle;
pub use directed::DirectedLine;
pub use edges::Rest;
pub use edges::WorkedCorner;
pub use edges::chamfer_between_edges;
pub use edges::fillet_between_edges;
pub use error::ConstructError;
pub use fillet::Fillet;
pub use fillet::fillet;
pub use fillet::largest_fillet;
pub use full_round::FullRound;
pub use full_round::full_round;
pub use relief::Relief;
pub use relief::ReliefDirection;
pub use relief::relief;
pub use tangent_circle::TangentCircles;
pub use tangent_circle::Touching;
pub use tangent_circle::touching_two;
pub use tangent_circle::with_radius;
pub use tangent_line::CommonTangents;
pub use tangent_line::TangentLine;
pub use tangent_line::common_tangents;
pub use tangent_line::tangent_line;
pub use three::tangent_to_three;
pub use three::touching_three;
pub use through::CirclesThrough;
pub use through::circle_through;
pub use through::circles_of_radius;
pub use through::tangent_arc;
