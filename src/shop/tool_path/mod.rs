//! Tool paths: where the middle of the jet or cutter runs so that the edges come out as drawn.
//!
//! A tool path is for one's own machine, or by written agreement with the shop. A shop that is sent one as
//! if it were the finished size compensates the kerf a second time.
//!
//! # Stages
//! 1. `wanted`: what the machine is to leave: the finished shape, with the strips that stay on, without
//!    the holes that are drilled.
//! 2. `compensation`: that shape grown by half the kerf and the allowance, certified
//!    ([`geometry::offset`](crate::geometry::offset)), and every edge found again beside it.
//! 3. `route`: the direction of travel; the plate's own edges left out, with ways on and off the plate.
//! 4. `bridge`, `station`, `lead`: uncut bridges, starts away from corners, leads in the waste, each held
//!    against the part and its neighbours by exact distances (`waste`).
//! 5. `order`, `tour`: lines to mark, then openings before the outside, with little travel.
//! 6. `together`: the same for several parts on one sheet, part by part, each clear of the others.
//!
//! # What is promised
//! The middle of every cut is half the kerf and the allowance from the edge that it makes, as exactly as
//! an offset; no lead comes nearer to the part than that, nor does a pierce reach it; every opening is cut
//! before the outside.

mod bridge;
mod by_process;
mod compensation;
mod cut;
mod error;
mod lead;
mod note;
mod order;
mod route;
mod setting;
mod station;
mod together;
mod tour;
mod wanted;
mod waste;

#[cfg(test)]
mod tests;

pub use cut::Cut;
pub use cut::Entry;
pub use error::ToolPathError;
pub use note::Note;
pub use order::Travel;
pub use route::Side;
pub use setting::Bridges;
pub use setting::GoodSide;
pub use setting::Lead;
pub use setting::Setting;
pub use setting::Start;
pub use together::Placed;
pub use together::left_by;
pub use together::tool_path_together;
pub use tour::short_order;
pub use wanted::Drilled;
pub use wanted::WhyDrilled;

use crate::design::part::Part;
use crate::geometry::Path;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Region;
use lead::Joint;
use lead::LeadIn;
use order::Candidate;
use order::Group;
use route::Ends;
use route::Route;
use station::Rank;
use station::Station;
use waste::Waste;

/// At most so many starts of one cut are weighed against one another.
const MOST_CANDIDATES: usize = 8;

/// The work of a machine on one part, in order.
#[derive(Clone, Debug, PartialEq)]
pub struct ToolPath {
    /// Lines to mark, before anything is cut.
    pub marks: Vec<Path>,
    /// Cuts, openings before the outside.
    pub cuts: Vec<Cut>,
    /// Openings that are drilled and not cut.
    pub drilled: Vec<Drilled>,
    /// Where the tool is before the work.
    pub rest: Point,
    /// The ways between the cuts.
    pub travel: Travel,
    /// What the maker and the operator should know.
    pub notes: Vec<Note>,
}

impl ToolPath {
    /// Length of all cuts with their leads, in millimetres.
    pub fn cut_length(&self) -> f64 {
        self.cuts.iter().map(Cut::length).sum()
    }

    /// How often the material is pierced.
    pub fn pierces(&self) -> usize {
        let pierces = |cut: &&Cut| cut.entry == Entry::Pierce;
        self.cuts.iter().filter(pierces).count()
    }
}

/// The tool path of a part.
///
/// # Accuracy
/// As [`geometry::offset`](crate::geometry::offset): within 2e-8 mm of the distance, 2e-5 mm beside a tie.
///
/// # Errors
/// [`ToolPathError`], each with its place on the part where it has one: an offset that cannot be
/// certified, an opening or edge that the cut cannot reach, a lead or bridge without room.
pub fn tool_path(part: &Part, setting: &Setting) -> Result<ToolPath, ToolPathError> {
    let prepared = prepare(part, setting)?;
    let bounds = prepared.left.bounds();
    let rest = Point::new(bounds.x0, bounds.y0);
    Ok(arranged(vec![prepared], setting, rest))
}

/// What is to be done on a part, before it is put in order.
struct Prepared {
    /// What the machine leaves: the part with the strips that stay on.
    left: Region,
    group: Group,
    drilled: Vec<Drilled>,
    notes: Vec<Note>,
}

fn prepare(part: &Part, setting: &Setting) -> Result<Prepared, ToolPathError> {
    setting.check()?;
    let wanted = wanted::wanted(part, setting)?;
    let mut compensated = compensation::compensate(part, &wanted, setting)?;
    let routes = route::routes(part, &wanted, &compensated, setting);
    let waste = Waste::new(&wanted, setting);
    check_neighbours(&routes, setting, &waste)?;
    let chosen = chosen_starts(part, &routes, setting)?;
    let mut notes = std::mem::take(&mut compensated.notes);
    let work = Work {
        part,
        setting,
        waste: &waste,
    };
    let mut cuts = Vec::with_capacity(routes.len());
    for (route, start) in routes.iter().zip(chosen) {
        cuts.extend(work.prepared(route, start, &mut notes)?);
    }
    let scribes = part.scribes.iter().flat_map(|scribe| &scribe.paths);
    let marks = scribes.cloned().collect();
    Ok(Prepared {
        left: wanted.region,
        group: Group { marks, cuts },
        drilled: wanted.drilled,
        notes,
    })
}

/// All of it in order, part by part.
fn arranged(parts: Vec<Prepared>, setting: &Setting, rest: Point) -> ToolPath {
    let mut groups = Vec::with_capacity(parts.len());
    let mut drilled = Vec::new();
    let mut notes = Vec::new();
    for mut part in parts {
        groups.push(part.group);
        drilled.append(&mut part.drilled);
        notes.append(&mut part.notes);
    }
    let arranged = order::arrange(&groups, rest);
    notes.extend(
        arranged
            .cuts
            .iter()
            .filter_map(|candidate| short_lead(candidate, setting)),
    );
    ToolPath {
        marks: arranged.marks,
        cuts: arranged
            .cuts
            .into_iter()
            .map(|candidate| candidate.cut)
            .collect(),
        drilled,
        rest,
        travel: arranged.travel,
        notes,
    }
}

fn short_lead(candidate: &Candidate, setting: &Setting) -> Option<Note> {
    let is_short = candidate.lead_length < setting.lead_length * 0.999;
    is_short.then(|| Note::ShortLead {
        what: candidate.cut.what.clone(),
        at: candidate
            .cut
            .along
            .first()
            .map_or_else(|| candidate.cut.start(), |piece| piece.segment.start()),
        length: candidate.lead_length,
        wanted: setting.lead_length,
    })
}

fn check_neighbours(
    routes: &[Route],
    setting: &Setting,
    waste: &Waste<'_>,
) -> Result<(), ToolPathError> {
    let pieces = routes.iter().flat_map(|route| &route.pieces);
    for piece in pieces {
        if let Some((distance, at)) = waste.too_near_neighbour(&piece.segment) {
            return Err(ToolPathError::NeighbourTooNear {
                distance,
                needed: setting.reach(),
                at,
            });
        }
    }
    Ok(())
}

/// For each route the start that the user chose, if any.
fn chosen_starts(
    part: &Part,
    routes: &[Route],
    setting: &Setting,
) -> Result<Vec<Option<Station>>, ToolPathError> {
    let mut chosen = vec![None; routes.len()];
    for start in &setting.starts {
        match start {
            Start::Near(at) => {
                let nearest = routes
                    .iter()
                    .enumerate()
                    .filter_map(|(index, route)| {
                        Station::nearest(route, *at).map(|(station, away)| (index, station, away))
                    })
                    .min_by(|a, b| a.2.total_cmp(&b.2));
                if let Some((index, station, _)) = nearest {
                    chosen[index] = Some(station);
                }
            }
            Start::Edge(name) => {
                let feature = format!("the edge `{name}`");
                let found = routes.iter().enumerate().find_map(|(index, route)| {
                    Station::on_feature(route, part, &feature).map(|station| (index, station))
                });
                let Some((index, station)) = found else {
                    return Err(unknown_start(part, routes, name));
                };
                chosen[index] = Some(station);
            }
        }
    }
    Ok(chosen)
}

fn unknown_start(part: &Part, routes: &[Route], name: &str) -> ToolPathError {
    let pieces = routes.iter().flat_map(|route| &route.pieces);
    let mut known: Vec<String> = Vec::new();
    for piece in pieces {
        let feature = part
            .origin(piece.source)
            .map(|origin| origin.feature.as_str());
        if let Some(edge) = feature.and_then(|feature| feature.strip_prefix("the edge "))
            && !known.iter().any(|other| other == edge)
        {
            known.push(edge.to_owned());
        }
    }
    ToolPathError::UnknownStart {
        name: name.to_owned(),
        known,
    }
}

/// What preparing a cut needs.
struct Work<'a> {
    part: &'a Part,
    setting: &'a Setting,
    waste: &'a Waste<'a>,
}

impl Work<'_> {
    /// The cuts of a route, each with the ways in which it may be made.
    fn prepared(
        &self,
        route: &Route,
        start: Option<Station>,
        notes: &mut Vec<Note>,
    ) -> Result<Vec<Vec<Candidate>>, ToolPathError> {
        let bridges = self.setting.bridges.filter(|bridges| bridges.count > 0);
        let is_closed = route.ends == Ends::Closed;
        let bridged = route.side == Side::Outside && bridges.is_some();
        if start.is_some() && (!is_closed || bridged) {
            let what = self.words(route.side);
            notes.push(Note::StartIgnored { what });
        }
        match bridges.filter(|_| bridged) {
            Some(bridges) => self.bridged(route, bridges),
            None if is_closed => Ok(vec![self.closed(route, start)?]),
            None => Ok(vec![vec![self.chain(
                route,
                route.pieces.clone(),
                true,
                true,
            )?]]),
        }
    }

    fn words(&self, side: Side) -> String {
        match side {
            Side::Outside => "the outside".to_owned(),
            Side::Opening(index) => self
                .part
                .openings
                .get(index)
                .map_or_else(String::new, |opening| {
                    format!("the opening `{}`", opening.name)
                }),
        }
    }

    fn bridged(
        &self,
        route: &Route,
        bridges: Bridges,
    ) -> Result<Vec<Vec<Candidate>>, ToolPathError> {
        let chains = bridge::bridged(route, bridges, self.setting)?;
        let count = chains.len();
        let made = chains.into_iter().enumerate().map(|(index, pieces)| {
            self.chain(route, pieces, index == 0, index + 1 == count)
                .map(|candidate| vec![candidate])
        });
        made.collect()
    }

    /// A cut along an open chain: from outside the plate at the first, square in beside a bridge at the
    /// others.
    fn chain(
        &self,
        route: &Route,
        pieces: Vec<Piece>,
        is_first: bool,
        is_last: bool,
    ) -> Result<Candidate, ToolPathError> {
        let what = self.words(route.side);
        let wanted = self.setting.lead_length;
        let (entry, lead) = match (route.ends, pieces.first()) {
            (Ends::OffPlate { on, .. }, _) if is_first => {
                let segments = vec![on];
                (
                    Entry::FromEdge,
                    Some(LeadIn {
                        segments,
                        length: wanted,
                    }),
                )
            }
            (_, Some(first)) => {
                let joint = Joint {
                    at: first.segment.start(),
                    travel: first.segment.direction_at(0.0),
                    waste: route.waste,
                };
                let lead = lead::lead_square(joint, self.setting, self.waste);
                (Entry::Pierce, lead)
            }
            (_, None) => (Entry::Pierce, None),
        };
        let at = pieces
            .first()
            .map_or(Point::ORIGIN, |piece| piece.segment.start());
        let lead = lead.ok_or_else(|| self.no_lead(&what, at))?;
        let lead_out = match route.ends {
            Ends::OffPlate { off, .. } if is_last => vec![off],
            _ => Vec::new(),
        };
        if !self.waste.is_clear(&lead.segments) || !self.waste.is_clear(&lead_out) {
            return Err(self.no_lead(&what, at));
        }
        let cut = Cut {
            side: route.side,
            what,
            entry,
            lead_in: lead.segments,
            along: pieces,
            overlap: Vec::new(),
            lead_out,
        };
        Ok(Candidate {
            cut,
            lead_length: lead.length,
        })
    }

    /// The ways to make a closed cut: all on places of the same rank, with leads of the same length.
    fn closed(
        &self,
        route: &Route,
        start: Option<Station>,
    ) -> Result<Vec<Candidate>, ToolPathError> {
        let stations = match start {
            Some(station) => vec![station],
            None => station::stations(route, self.part, self.setting),
        };
        let mut found: Vec<Candidate> = Vec::new();
        let mut rank: Option<Rank> = None;
        for station in &stations {
            if rank.is_some_and(|rank| rank != station.rank) || found.len() >= MOST_CANDIDATES {
                break;
            }
            let Some(candidate) = self.closed_at(route, *station) else {
                continue;
            };
            rank = Some(station.rank);
            found.push(candidate);
        }
        let longest = found
            .iter()
            .map(|candidate| candidate.lead_length)
            .fold(0.0, f64::max);
        found.retain(|candidate| candidate.lead_length >= longest);
        if found.is_empty() {
            let first = stations.first().and_then(|station| station.point(route));
            let at = first.unwrap_or(Point::ORIGIN);
            return Err(self.no_lead(&self.words(route.side), at));
        }
        Ok(found)
    }

    fn closed_at(&self, route: &Route, station: Station) -> Option<Candidate> {
        let setting = self.setting;
        let piece = route.pieces.get(station.piece)?;
        let joint = Joint {
            at: piece.segment.point_at(station.share),
            travel: piece.segment.direction_at(station.share),
            waste: route.waste,
        };
        let round = match route.side {
            Side::Opening(_) => station::whole_circle(&route.pieces),
            Side::Outside => None,
        };
        let from_centre = round
            .and_then(|(_, radius)| lead::lead_from_centre(joint, radius, setting, self.waste));
        let lead = from_centre.or_else(|| lead::lead_in(joint, setting, self.waste))?;
        let along = cut::begun_at(&route.pieces, station.piece, station.share);
        let overlap = cut::first_of(&along, setting.overlap);
        let last = overlap.last().or_else(|| along.last())?.segment;
        let leaving = Joint {
            at: last.end(),
            travel: last.direction_at(1.0),
            waste: route.waste,
        };
        let cut = Cut {
            side: route.side,
            what: self.words(route.side),
            entry: Entry::Pierce,
            lead_in: lead.segments,
            along,
            overlap,
            lead_out: lead::lead_out(leaving, setting, self.waste),
        };
        Some(Candidate {
            cut,
            lead_length: lead.length,
        })
    }

    fn no_lead(&self, what: &str, at: Point) -> ToolPathError {
        ToolPathError::NoLead {
            what: what.to_owned(),
            at,
            pierce: self.setting.pierce,
            least: lead::least(self.setting),
        }
    }
}
