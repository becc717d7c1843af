//! Length of cut, starts, time, money, material lost, stock for filing.

use super::AsCut;
use super::KerfError;
use super::case::Kerf;
use crate::design::part::Part;
use crate::geometry::Region;
use crate::trade::Material;
use crate::trade::Process;
use crate::trade::processes::Start;

/// What a cut takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Work {
    /// Length that the tool runs along the outlines, in millimetres.
    pub length: f64,
    /// Length of the ways in, in millimetres.
    pub ways_in: f64,
    /// Starts in the middle of the plate.
    pub starts: usize,
    /// Whether those need drilled holes.
    pub start: Start,
    /// Minutes of cutting, between the fastest and the slowest usual feed; none where no feed is known.
    pub minutes: Option<[f64; 2]>,
    /// Whether the time to get through the plate is in it.
    pub starts_are_timed: bool,
    /// Area of the plate that goes with the cut, in mm².
    pub lost: f64,
    /// Its weight in kilograms, where material and thickness are known.
    pub lost_weight: Option<f64>,
    /// What to leave on all round for filing, in millimetres, so that the finished line is met with the
    /// widest cut, on the smaller face, and with the usual error of the process.
    pub stock: f64,
    /// What it costs by the user's rates; none without any.
    pub cost: Option<Cost>,
}

/// Money, in the user's own.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cost {
    /// With the fastest usual feed.
    pub least: f64,
    /// With the slowest.
    pub most: f64,
    /// Whether the hours are in it; not when no feed is known.
    pub hours_counted: bool,
}

pub(super) fn work(
    cut: &AsCut<'_>,
    process: &Process,
    kerf: Kerf,
    material: Option<&Material>,
    thickness: f64,
) -> Result<Work, KerfError> {
    let (length, closed) = cut.way(0.5 * kerf.value)?;
    let count = f64::from(u32::try_from(closed).unwrap_or(u32::MAX));
    let at = |figure: &Option<crate::trade::processes::ByThickness>| {
        figure.as_ref().map(|figure| figure.at(thickness))
    };
    let ways_in = count * at(&process.lead_in).unwrap_or(0.0);
    let outer: f64 = cut.shape(kerf.value, 0.0)?.iter().map(Region::area).sum();
    let inner: f64 = cut
        .shape(0.5 * kerf.value, 0.5 * kerf.value)?
        .iter()
        .map(Region::area)
        .sum();
    let lost = outer - inner;
    let feed = material.and_then(|material| process.feed(material, thickness));
    let through = at(&process.pierce_time).map(|seconds| seconds * count / 60.0);
    let minutes = feed.map(|feed| {
        let run = length + ways_in;
        let through = through.unwrap_or(0.0);
        [run / feed.high + through, run / feed.low + through]
    });
    Ok(Work {
        length,
        ways_in,
        starts: closed,
        start: process.start,
        minutes,
        starts_are_timed: through.is_some() || closed == 0,
        lost,
        lost_weight: material.map(|material| material.mass(lost, thickness)),
        stock: 0.5 * (kerf.high - kerf.value)
            + 0.5 * at(&process.taper).unwrap_or(0.0)
            + at(&process.tolerance).unwrap_or(0.0),
        cost: cost(process, length, count, minutes, cut.part()),
    })
}

fn cost(
    process: &Process,
    length: f64,
    starts: f64,
    minutes: Option<[f64; 2]>,
    part: &Part,
) -> Option<Cost> {
    let rates = &process.rates;
    if !rates.are_given() {
        return None;
    }
    let quantity = f64::from(part.quantity);
    let each =
        rates.per_metre.unwrap_or(0.0) * length / 1000.0 + rates.per_pierce.unwrap_or(0.0) * starts;
    let hours = |minutes: f64| rates.per_hour.unwrap_or(0.0) * minutes / 60.0;
    let [fast, slow] = minutes.unwrap_or([0.0, 0.0]);
    let whole = |each: f64| rates.set_up.unwrap_or(0.0) + quantity * each;
    Some(Cost {
        least: whole(each + hours(fast)),
        most: whole(each + hours(slow)),
        hours_counted: minutes.is_some() || rates.per_hour.is_none(),
    })
}
