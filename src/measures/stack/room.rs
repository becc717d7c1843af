//! How far each value may still move before something breaks.

use super::bench::Bench;
use super::bench::Bent;
use super::bench::Holder;
use crate::measures::limits::Limit;
use crate::measures::limits::LimitCheck;
use crate::measures::limits::value_at;

/// How near the end of the room is found, in millimetres: finer than anybody sets a tool.
const FINENESS: f64 = 1e-3;
/// How far a value is followed, in times its own size.
const FARTHEST: f64 = 2.0;

/// The room of one value, everything else as designed.
#[derive(Clone, Debug, PartialEq)]
pub struct Room {
    /// Its name.
    pub name: String,
    /// What has it.
    pub holder: Holder,
    /// Its value in millimetres.
    pub value: f64,
    /// How far down.
    pub down: Move,
    /// How far up.
    pub up: Move,
}

/// How far a value may move one way.
#[derive(Clone, Debug, PartialEq)]
pub enum Move {
    /// Past any size that makes sense: nothing breaks up to here.
    Far,
    /// As far as this, in millimetres; then something breaks.
    Until(f64, Stop),
}

/// What breaks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Stop {
    /// The limit of this name.
    Limit(String),
    /// The part cannot be built: why, in words.
    Shape(String),
}

impl Bench<'_> {
    /// The room of every free value, in the order of the file: values are moved and the design resolved
    /// again until something breaks, and the place is found by halving, to a thousandth of a
    /// millimetre.
    pub fn room(&self, limits: &[Limit]) -> Vec<Room> {
        let room = |(index, free): (usize, &super::Free)| Room {
            name: free.name.clone(),
            holder: free.holder,
            value: free.value,
            down: self.way(index, -1.0, limits),
            up: self.way(index, 1.0, limits),
        };
        self.free().iter().enumerate().map(room).collect()
    }

    fn way(&self, index: usize, sign: f64, limits: &[Limit]) -> Move {
        let Some(free) = self.free().get(index) else {
            return Move::Far;
        };
        if let Some(stop) = self.stop(index, 0.0, limits) {
            return Move::Until(0.0, stop);
        }
        let farthest = FARTHEST * free.value.abs().max(1.0);
        let (mut kept, mut step) = (0.0, free.band.half().clamp(0.25, 2.0));
        let (mut broken, mut stop) = loop {
            let tried = (kept + step).min(farthest);
            match self.stop(index, sign * tried, limits) {
                Some(stop) => break (tried, stop),
                None if tried >= farthest => return Move::Far,
                None => kept = tried,
            }
            step *= 2.0;
        };
        while broken - kept > FINENESS {
            let tried = f64::midpoint(kept, broken);
            match self.stop(index, sign * tried, limits) {
                Some(found) => (broken, stop) = (tried, found),
                None => kept = tried,
            }
        }
        // the end itself when it is a round number: limits are met by their very value
        let round = (broken / FINENESS).round() * FINENESS;
        let kept = if self.stop(index, sign * round, limits).is_none() {
            round
        } else {
            kept
        };
        Move::Until(kept, stop)
    }

    /// What breaks when a value is moved by so much.
    fn stop(&self, index: usize, by: f64, limits: &[Limit]) -> Option<Stop> {
        match self.bent(&[(index, by)]) {
            Ok(bent) => broken_limit(&bent, limits),
            Err(errors) => {
                let first = errors.first().map(|error| error.kind.to_string());
                Some(Stop::Shape(first.unwrap_or_default()))
            }
        }
    }
}

/// The first limit that a design breaks.
fn broken_limit(bent: &Bent, limits: &[Limit]) -> Option<Stop> {
    for limit in limits {
        let value = value_at(limit, &bent.dimensions, &bent.parts);
        match (value, &limit.measure) {
            (Some(value), _) => {
                if LimitCheck::on(Some(value), limit.permitted).is_broken() {
                    return Some(Stop::Limit(limit.name.clone()));
                }
            }
            (None, Some(_)) => {
                let why = format!("`{}` cannot be measured any more", limit.name);
                return Some(Stop::Shape(why));
            }
            (None, None) => {}
        }
    }
    let finding = bent.findings.first()?;
    Some(Stop::Shape(finding.kind.to_string()))
}
