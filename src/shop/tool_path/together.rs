//! Several parts on one sheet.

use super::Prepared;
use super::ToolPath;
use super::arranged;
use super::error::ToolPathError;
use super::note::Note;
use super::order::Candidate;
use super::order::Group;
use super::prepare;
use super::setting::Setting;
use super::wanted;
use crate::design::part::Part;
use crate::geometry::Motion;
use crate::geometry::Point;
use crate::geometry::Region;

/// A part in its place on a sheet.
#[derive(Clone, Debug)]
pub struct Placed<'a> {
    /// The part.
    pub part: &'a Part,
    /// Which piece it is, in words: `cheek 2`.
    pub label: String,
    /// From the part as drawn to its place; no scale.
    pub motion: Motion,
}

/// What the machine leaves of a part: its shape with the strips that stay on, without the holes that are
/// drilled.
///
/// # Errors
/// [`ToolPathError`]: a strip too wide for a hollow edge.
pub fn left_by(part: &Part, setting: &Setting) -> Result<Region, ToolPathError> {
    Ok(wanted::wanted(part, setting)?.region)
}

/// The tool path of several parts in one plate, each kept clear of all others: lines to mark first, then
/// part by part, openings before the outside. On which side of travel a part lies is that on the sheet.
///
/// # Accuracy
/// As [`tool_path`](super::tool_path).
///
/// # Errors
/// Which of the parts has no path where it lies, and why.
pub fn tool_path_together(
    placed: &[Placed<'_>],
    setting: &Setting,
    rest: Point,
) -> Result<ToolPath, (usize, ToolPathError)> {
    let mut lying = Vec::with_capacity(placed.len());
    for (index, own) in placed.iter().enumerate() {
        let left = left_by(own.part, setting).map_err(|error| (index, error))?;
        lying.push(own.motion.region(&left));
    }
    let mut parts = Vec::with_capacity(placed.len());
    for (index, own) in placed.iter().enumerate() {
        let back = own.motion.inverse();
        let others = lying.iter().enumerate();
        let neighbours = others
            .filter(|(other, _)| *other != index)
            .map(|(_, region)| back.region(region));
        let good_side = if own.motion.mirrors() {
            setting.good_side.other()
        } else {
            setting.good_side
        };
        let as_drawn = Setting {
            neighbours: neighbours.collect(),
            good_side,
            ..setting.clone()
        };
        let prepared = prepare(own.part, &as_drawn).map_err(|error| (index, error))?;
        parts.push(prepared.placed(own));
    }
    Ok(arranged(parts, setting, rest))
}

impl Prepared {
    /// The same in its place.
    fn placed(self, at: &Placed<'_>) -> Self {
        let motion = &at.motion;
        let named = |what: &str| format!("{what} of {}", at.label);
        let candidate = |candidate: Candidate| {
            let mut cut = candidate.cut.moved(motion);
            cut.what = named(&cut.what);
            Candidate { cut, ..candidate }
        };
        let candidates = |list: Vec<Candidate>| list.into_iter().map(candidate).collect();
        let cuts = self.group.cuts.into_iter().map(candidates).collect();
        let marks = self.group.marks.iter().map(|mark| motion.path(mark));
        let mut drilled = self.drilled;
        for hole in &mut drilled {
            hole.name = named(&hole.name);
            hole.centre = motion.point(hole.centre);
        }
        let mut notes = self.notes;
        for note in &mut notes {
            match note {
                Note::CornerLeft {
                    feature: what, at, ..
                }
                | Note::ShortLead { what, at, .. } => {
                    *what = named(what);
                    *at = motion.point(*at);
                }
                Note::StartIgnored { what } => *what = named(what),
            }
        }
        Self {
            left: motion.region(&self.left),
            group: Group {
                marks: marks.collect(),
                cuts,
            },
            drilled,
            notes,
        }
    }
}
