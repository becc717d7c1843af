//! Which stations of a table bend the batten against their neighbours.

use super::super::Point;
use super::super::Vec2;
use super::super::number;
use super::fairness::REACH;
use super::fairness::spring_at;
use super::fairness::spring_at_stations;
use super::spline::BattenEnd;
use super::spline::Spline;
use super::spline::to_number;

/// A station that does not lie fair with its neighbours.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lump {
    /// The station.
    pub station: usize,
    /// Where it is.
    pub at: Point,
    /// Where the batten would go if this station's weight were lifted.
    pub fair: Point,
    /// How far it would spring to the left of the way of the table, in millimetres (negative: right).
    pub spring: f64,
}

/// The stations to blame for lumps: moving them, and no others, to where the batten goes without them
/// leaves a fair table. That whose mending leaves the least to mend comes first; each further one is
/// as it is when those before it are mended.
///
/// A fair table springs the same way at neighbouring stations, and less the closer they stand; one
/// wrong value makes itself and its neighbours spring in turn to either side. So there is a lump where
/// a station would spring by more than `smallest` millimetres, further than at either neighbour and the
/// other way than at both. That station need not be the wrong one: near the end of a table its
/// neighbours spring further. Each of them is tried. What is below a twentieth of the largest lump may be
/// its echo and is left out: mend the largest and look again.
///
/// Where more than a dozen stand out, the table is rough and not wrong in places: they are all told, in
/// its order.
///
/// # Source
/// As [`spring_at_stations`].
pub fn lumps(spline: &Spline, smallest: f64) -> Vec<Lump> {
    let mut table = Table::new(spline.clone());
    let standing_out = table.standing_out(smallest);
    let largest = table.largest(&standing_out);
    let least = smallest.max(ECHO * largest);
    if standing_out.len() > MOST_MENDED {
        let large = standing_out.into_iter();
        let large = large.filter(|&station| table.sideways[station].abs() > least);
        return large.map(|station| table.lump(station)).collect();
    }
    let mut found: Vec<Lump> = Vec::new();
    while found.len() < MOST_MENDED {
        let standing_out = table.standing_out(least);
        let tried = table.suspects(&standing_out, least).into_iter();
        let mended = tried.filter_map(|station| Some((station, table.mended(station)?)));
        let mended = mended.map(|(station, mended)| (mended.largest_of_all(), station, mended));
        let Some((_, station, mended)) = mended.min_by(|a, b| a.0.total_cmp(&b.0)) else {
            break;
        };
        if found.iter().any(|lump| lump.station == station) {
            // moving stations to and fro mends nothing
            break;
        }
        found.push(table.lump(station));
        table = mended;
    }
    found
}

/// The most lumps that are mended one after the other.
const MOST_MENDED: usize = 12;

/// Share of the largest lump below which another may be its echo along the table.
const ECHO: f64 = 0.05;

/// A table of stations and how far the batten would spring at each, sideways, to the left of its way.
#[derive(Clone, Debug)]
struct Table {
    spline: Spline,
    springs: Vec<Vec2>,
    sideways: Vec<f64>,
}

impl Table {
    fn new(spline: Spline) -> Self {
        let springs = spring_at_stations(&spline);
        let sideways = (0..springs.len())
            .map(|station| sideways(&spline, station, springs[station]))
            .collect();
        Self {
            spline,
            springs,
            sideways,
        }
    }

    fn last(&self) -> usize {
        self.spline.points().len() - 1
    }

    /// How many stations there are, those that a closed table repeats counted once.
    fn count(&self) -> usize {
        self.last() + usize::from(!self.spline.is_closed())
    }

    /// The station some steps on, or back: on a closed table past its start.
    fn beside(&self, station: usize, step: isize) -> Option<usize> {
        let count = self.count();
        if self.spline.is_closed() {
            let round = isize::try_from(count).ok()?;
            let back = usize::try_from(step.rem_euclid(round)).ok()?;
            return Some((station + back) % count);
        }
        let beside = station.checked_add_signed(step)?;
        (beside < count).then_some(beside)
    }

    fn stands_out(&self, station: usize, smallest: f64) -> bool {
        let own = self.sideways[station];
        let neighbours = [-1, 1].map(|step| self.beside(station, step));
        own.abs() > smallest
            && neighbours.into_iter().flatten().all(|other| {
                let is_end = !self.spline.is_closed() && (other == 0 || other == self.last());
                let theirs = self.sideways[other];
                is_end || (theirs * own < 0.0 && theirs.abs() < own.abs())
            })
    }

    fn standing_out(&self, smallest: f64) -> Vec<usize> {
        (0..self.count())
            .filter(|&station| self.stands_out(station, smallest))
            .collect()
    }

    fn largest(&self, stations: &[usize]) -> f64 {
        let sizes = stations.iter().map(|&station| self.sideways[station].abs());
        sizes.fold(0.0, f64::max)
    }

    fn largest_of_all(&self) -> f64 {
        let sizes = self.sideways.iter().map(|spring| spring.abs());
        sizes.fold(0.0, f64::max)
    }

    /// Those that stand out and the stations beside them that would spring, too.
    fn suspects(&self, standing_out: &[usize], smallest: f64) -> Vec<usize> {
        let mut suspects: Vec<usize> = standing_out
            .iter()
            .flat_map(|&station| (-2..=2).filter_map(move |step| self.beside(station, step)))
            .filter(|&station| self.sideways[station].abs() > smallest)
            .collect();
        suspects.sort_unstable();
        suspects.dedup();
        suspects
    }

    fn lump(&self, station: usize) -> Lump {
        let at = self.spline.points()[station];
        Lump {
            station,
            at,
            fair: at + self.springs[station],
            spring: self.sideways[station],
        }
    }

    /// The table with one station moved to where the batten goes without it.
    fn mended(&self, station: usize) -> Option<Self> {
        let mut points = self.spline.points().to_vec();
        let last = self.last();
        points[station] += self.springs[station];
        let spline = if self.spline.is_closed() {
            Spline::closed(&points[..last]).ok()?
        } else {
            Spline::through(&points, BattenEnd::Natural, BattenEnd::Natural).ok()?
        };
        let mut mended = Self {
            spline,
            springs: self.springs.clone(),
            sideways: self.sideways.clone(),
        };
        // further off nothing has changed
        let reach = isize::try_from(REACH).ok()?;
        for step in -reach..=reach {
            if let Some(changed) = self.beside(station, step) {
                let spring = spring_at(&mended.spline, changed);
                mended.springs[changed] = spring;
                mended.sideways[changed] = sideways(&mended.spline, changed, spring);
            }
        }
        if self.spline.is_closed() {
            mended.springs[last] = mended.springs[0];
            mended.sideways[last] = mended.sideways[0];
        }
        Some(mended)
    }
}

/// The part of a spring across the way of the batten, to its left.
fn sideways(spline: &Spline, station: usize, spring: Vec2) -> f64 {
    let along: Option<Vec2> = spline.jet(to_number(station)).direction();
    number::normalized(along.unwrap_or(Vec2::ZERO)).map_or(0.0, |along| along.cross(spring))
}
