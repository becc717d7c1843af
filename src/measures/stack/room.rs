//! How far each value may still move before something breaks.

use super::bench::Bench;
use super::bench::Free;
use super::bench::Holder;
use super::watch::Stop;
use super::watch::Watch;
use crate::design::dimensions::Permitted;
use crate::design::expression::Kind;
use crate::geometry::number;
use crate::measures::limits::Limit;

/// How near the end of the room is found, in millimetres: finer than anybody sets a tool.
const FINENESS: f64 = 1e-3;
/// The same in radians and pure numbers.
const FINENESS_OF_OTHERS: f64 = 1e-5;
/// Each step of the search is at most so many times the one before it.
const GROWTH: f64 = 1.5;
/// No step is more than this part of the way to be searched, so that what breaks and heals again on the
/// way, as an opening does that crosses an edge, is not jumped over.
const STEPS: f64 = 64.0;

/// The room of one value, everything else as designed.
#[derive(Clone, Debug, PartialEq)]
pub struct Room {
    /// Its name.
    pub name: String,
    /// What has it.
    pub holder: Holder,
    /// Its value in millimetres, radians or a pure number.
    pub value: f64,
    /// How far down.
    pub down: Move,
    /// How far up.
    pub up: Move,
}

/// How far a value may move one way, in its own unit.
#[derive(Clone, Debug, PartialEq)]
pub enum Move {
    /// Further than this, where the search ended: nothing breaks up to here.
    Beyond(f64),
    /// As far as this; then something breaks.
    Until(f64, Stop),
}

/// One way of one value.
struct Way<'w, 'a> {
    bench: &'w Bench<'a>,
    watch: &'w Watch<'a>,
    index: usize,
    sign: f64,
    fineness: f64,
}

impl<'a> Bench<'a> {
    /// The room of every free value, in the order of the file: values are moved and the design resolved
    /// again until a limit or a fit breaks or the part cannot be built; the place is found by halving, to a
    /// thousandth of a millimetre. The search ends where a value has moved by twice itself and the
    /// longest part together. What is broken as designed is left out.
    pub fn room(&self, limits: &'a [Limit]) -> Vec<Room> {
        let watch = Watch::new(self, limits);
        let room = |(index, free): (usize, &Free)| Room {
            name: free.name.clone(),
            holder: free.holder,
            value: free.value,
            down: self.way(&watch, index, -1.0),
            up: self.way(&watch, index, 1.0),
        };
        self.free().iter().enumerate().map(room).collect()
    }

    fn way(&self, watch: &Watch<'a>, index: usize, sign: f64) -> Move {
        let Some(free) = self.free().get(index) else {
            return Move::Beyond(0.0);
        };
        let kind = self.kind(free);
        let way = Way {
            bench: self,
            watch,
            index,
            sign,
            fineness: match kind {
                Kind::LENGTH => FINENESS,
                _ => FINENESS_OF_OTHERS,
            },
        };
        let farthest = match kind {
            Kind::LENGTH => 2.0 * free.value.abs() + self.longest(),
            Kind::Angle => number::HALF_TURN,
            _ => 2.0 * free.value.abs().max(1.0),
        };
        let first = match kind {
            Kind::LENGTH => free.band.half().clamp(0.25, 2.0),
            _ => free.band.half().max(farthest / 1024.0),
        };
        way.searched(first, farthest, self.own_limit(free, sign))
    }

    fn kind(&self, free: &Free) -> Kind {
        let dimension = self.design().dimensions.get(&free.name);
        match free.holder {
            Holder::Dimension => dimension.map_or(Kind::LENGTH, |dimension| dimension.kind),
            Holder::Plate => Kind::LENGTH,
        }
    }

    /// The longest reach of its parts.
    pub(super) fn longest(&self) -> f64 {
        let parts = self.design().resolved.parts.iter();
        parts
            .map(crate::design::part::Part::reach)
            .fold(0.0, f64::max)
    }

    /// How far a value is from its own limit on one side, if it has one there and keeps it.
    fn own_limit(&self, free: &Free, sign: f64) -> Option<f64> {
        let permitted = match free.holder {
            Holder::Dimension => self.design().dimensions.get(&free.name)?.permitted,
            Holder::Plate => {
                let plates = &self.design().resolved.plates;
                let plate = plates.iter().find(|plate| plate.name == free.name)?;
                let (min, max) = plate.permitted();
                Permitted { min, max }
            }
        };
        let limit = if sign > 0.0 {
            permitted.max
        } else {
            permitted.min
        };
        Some(sign * (limit? - free.value)).filter(|room| *room >= 0.0)
    }
}

impl Way<'_, '_> {
    /// What breaks when the value is moved by so much.
    fn stop(&self, by: f64) -> Option<Stop> {
        self.watch
            .stop(&self.bench.bent(&[(self.index, self.sign * by)]))
    }

    /// Looks for the first stop: in steps that grow, and at the value's own limit.
    fn searched(&self, first: f64, farthest: f64, own: Option<f64>) -> Move {
        if let Some(stop) = self.stop(0.0) {
            return Move::Until(0.0, stop);
        }
        let (mut kept, mut step) = (0.0, first);
        loop {
            let mut tried = (kept + step).min(farthest);
            if let Some(own) = own.filter(|own| kept <= *own && *own <= tried) {
                // limits are met by their very value, and nothing is to be had beyond
                match (self.stop(own), self.stop(own + self.fineness)) {
                    (None, Some(stop)) => return Move::Until(own, stop),
                    (Some(stop), _) => return self.halved(kept, own, stop),
                    (None, None) => tried = tried.max(own + self.fineness),
                }
            }
            match self.stop(tried) {
                Some(stop) => return self.halved(kept, tried, stop),
                None if tried >= farthest => return Move::Beyond(farthest),
                None => kept = tried,
            }
            step = (step * GROWTH).min(farthest / STEPS);
        }
    }

    /// The end of the room between what is kept and what breaks.
    fn halved(&self, mut kept: f64, mut broken: f64, mut stop: Stop) -> Move {
        while broken - kept > self.fineness {
            let tried = f64::midpoint(kept, broken);
            match self.stop(tried) {
                Some(found) => (broken, stop) = (tried, found),
                None => kept = tried,
            }
        }
        // the end itself when it is a round number: limits are met by their very value
        let round = (broken / self.fineness).round() * self.fineness;
        match self.stop(round) {
            Some(found) if round >= kept => stop = found,
            Some(_) => {}
            None => kept = round,
        }
        Move::Until(kept, stop)
    }
}
