//! One try at one distance.

use std::borrow::Cow;

use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::tolerance;

use super::certify::Room;
use super::error::Doubt;
use super::field::Field;
use super::field::Proof;
use super::field::Standing;
use super::front::Front;
use super::front::Fronts;
use super::grid::Grid;
use super::join::Join;
use super::link;
use super::link::Use;
use super::result::finish;
use super::source::Growing;
use super::source::Source;
use super::split;
use super::split::Edge;
use super::split::Network;

/// What an opening in which nothing has room means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Slivers {
    /// A tie: the distance must be changed.
    AreTies,
    /// Nothing: it is closed.
    Close,
}

/// One try at one distance.
pub(super) fn attempt(
    (source, grid): (&Source, &Grid),
    (growing, slivers): (Growing, Slivers),
    reach: f64,
    join: Join,
) -> Result<Vec<Region>, (Doubt, Point)> {
    let raw = Fronts::new(source, reach, join);
    let kites = raw.kites.clone();
    let mut field = Field::new((source, grid), &kites, reach);
    let views = views(source, &raw, &mut field);
    let sound: Vec<bool> = views.iter().map(View::is_sound).collect();
    let network = split::split(raw, &sound)?;
    let standings = standings(source, &network, &views, &mut field);
    let mut refusal = None;
    for near in tolerance::OFFSET_NEAR {
        let usage = |standing: &View| {
            if standing.depth() <= near {
                Use::Kept
            } else {
                Use::Left
            }
        };
        let mut uses: Vec<Use> = standings.iter().map(usage).collect();
        link::join_twins(&network, &standings, &mut uses);
        link::prune(&network, &mut uses);
        let work = (&network, uses.as_slice(), views.as_slice(), &mut field);
        let finished = finish(source, (growing, slivers), reach, work).and_then(|regions| {
            check_left_out(&network, (&standings, &uses), &field)?;
            Ok(regions)
        });
        match finished {
            Ok(regions) => return Ok(regions),
            Err(doubt) => {
                refusal.get_or_insert(doubt);
            }
        }
    }
    Err(refusal.unwrap_or((Doubt::Unlinked, Point::ZERO)))
}

/// Shows that every edge left out is covered.
fn check_left_out(
    network: &Network,
    (standings, uses): (&[View], &[Use]),
    field: &Field<'_>,
) -> Result<(), (Doubt, Point)> {
    for ((edge, standing), usage) in network.edges.iter().zip(standings).zip(uses) {
        let proof = match usage {
            Use::Kept => continue,
            Use::Left => Proof::Beyond,
            Use::Pruned => Proof::Barely,
        };
        let witness = standing.witness();
        let own = network.front(edge).own();
        field
            .cover(&network.edge_curve(edge), own, (witness, proof))
            .map_err(|at| (Doubt::Uncovered, at))?;
    }
    Ok(())
}

/// How a front stands as a whole, before it is split, or an edge.
#[derive(Clone, Copy, Debug)]
pub(super) enum View {
    /// Its ends are open: it will be split.
    Open,
    /// As [`Standing::Clear`]; roomy: nothing but its kin is near.
    Clear { depth: f64, roomy: bool },
    /// As [`Standing::Within`].
    Within(u32),
}

impl View {
    const fn new(standing: Standing, roomy: bool) -> Self {
        match standing {
            Standing::Clear(depth) => Self::Clear { depth, roomy },
            Standing::Within(obstacle) => Self::Within(obstacle),
        }
    }

    /// How much too near it seems; infinite if it does not show.
    pub(super) const fn depth(self) -> f64 {
        match self {
            Self::Clear { depth, .. } => depth,
            Self::Open | Self::Within(_) => f64::INFINITY,
        }
    }

    /// What is nearer than the distance.
    const fn witness(self) -> Option<u32> {
        match self {
            Self::Within(obstacle) => Some(obstacle),
            Self::Open | Self::Clear { .. } => None,
        }
    }

    /// Whether it will show from end to end.
    fn is_sound(&self) -> bool {
        self.depth() <= tolerance::OFFSET_NEAR[0]
    }

    pub(super) fn room(self) -> Room {
        match self {
            Self::Clear { roomy: true, .. } if self.is_sound() => Room::Roomy,
            _ if self.is_sound() => Room::Narrow,
            _ => Room::Unknown,
        }
    }
}

fn views(source: &Source, raw: &Fronts, field: &mut Field<'_>) -> Vec<View> {
    let joined = split::joined(raw);
    let view = |(front, joined): (&Front, bool)| {
        if !joined {
            return View::Open;
        }
        let of = (front.own(), front.kin(source));
        let (standing, roomy) = field.view(&front.curve, of, front.only_near(source));
        View::new(standing, roomy)
    };
    raw.all.iter().zip(joined).map(view).collect()
}

/// How each edge stands: as its front, if it is the whole of one that has been seen.
fn standings<'v>(
    source: &Source,
    network: &Network,
    views: &'v [View],
    field: &mut Field<'_>,
) -> Cow<'v, [View]> {
    let is_seen = |view: &View| !matches!(view, View::Open);
    if network.is_unsplit() && views.iter().all(is_seen) {
        return Cow::Borrowed(views);
    }
    let standing = |edge: &Edge| {
        let view = views[edge.front as usize];
        if edge.part.is_none() && is_seen(&view) {
            return view;
        }
        let front = network.front(edge);
        let kin = front.kin(source);
        let standing = field.standing(&network.edge_curve(edge), front.own(), &kin);
        View::new(standing, false)
    };
    network.edges.iter().map(standing).collect()
}
