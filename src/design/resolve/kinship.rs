//! Parts that come from other parts: mirror images, and openings taken over so that pins line up.

use super::amounts::Amounts;
use super::fault::PartFault;
use super::moved::Move;
use super::names::find_plate;
use super::openings;
use super::part;
use super::part::Draft;
use crate::design::file;
use crate::design::file::DesignFile;
use crate::design::located::Named;
use crate::design::located::Word;
use crate::design::part::Features;
use crate::design::part::Mark;
use crate::design::part::Opening;
use crate::design::part::Part;
use crate::design::part::Plate;
use crate::design::part::Scribe;
use crate::geometry::Motion;
use crate::geometry::Point;
use crate::geometry::Vec2;

/// How far a part has come.
#[derive(Debug)]
enum State {
    /// It waits for another part.
    Waiting,
    /// It is built; `None` when something was wrong with it, or undecided.
    Done(Option<Box<Part>>),
}

/// The parts of the file, in its order, each built after the part it comes from.
pub(super) fn parts(file: &DesignFile, plates: &[Plate], amounts: &mut Amounts<'_>) -> Vec<Part> {
    let written: Vec<_> = file.part.iter().collect();
    let mut states: Vec<State> = written.iter().map(|_| State::Waiting).collect();
    while let Some((index, parent)) = next_ready(&written, &states) {
        let part = match parent {
            Parent::None => build(written[index], None, plates, amounts),
            Parent::Built(part) => build(written[index], Some(part), plates, amounts),
            Parent::Failed => None,
        };
        states[index] = State::Done(part.map(Box::new));
    }
    report_rings(&written, &states, amounts);
    let done = |state| match state {
        State::Done(part) => part.map(|part| *part),
        State::Waiting => None,
    };
    states.into_iter().filter_map(done).collect()
}

/// The part that another comes from.
#[derive(Clone, Copy, Debug)]
enum Parent<'a> {
    /// It comes from none.
    None,
    /// It is built.
    Built(&'a Part),
    /// It is not there, or could not be built; that has been reported.
    Failed,
}

/// The first part that waits for nothing any more, and the part it comes from.
fn next_ready<'a>(
    written: &[&Named<file::Part>],
    states: &'a [State],
) -> Option<(usize, Parent<'a>)> {
    let waiting = |index: &usize| matches!(states[*index], State::Waiting);
    (0..written.len()).filter(waiting).find_map(|index| {
        let Some(word) = parent(written[index]) else {
            return Some((index, Parent::None));
        };
        let found = written
            .iter()
            .position(|named| named.name.value == word.value);
        let parent = match found.map(|found| &states[found]) {
            Some(State::Waiting) => return None,
            Some(State::Done(Some(part))) => Parent::Built(part),
            Some(State::Done(None)) | None => Parent::Failed,
        };
        Some((index, parent))
    })
}

/// The part that a part comes from.
fn parent(named: &Named<file::Part>) -> Option<&Word> {
    let entry = &named.entry;
    entry
        .mirror_of
        .as_ref()
        .or_else(|| entry.share_openings.as_ref().map(|shared| &shared.value.of))
}

fn report_rings(written: &[&Named<file::Part>], states: &[State], amounts: &mut Amounts<'_>) {
    for (named, state) in written.iter().zip(states) {
        if let (State::Waiting, Some(word)) = (state, parent(named)) {
            let (part, other) = (named.name.value.clone(), word.value.clone());
            let fault = PartFault::Ring { part, other };
            amounts.fault(
                fault,
                word.place,
                "give one of these parts an outline of its own",
            );
        }
    }
}

/// Builds a part; `parent` is the part it comes from, if it does.
fn build(
    named: &Named<file::Part>,
    parent: Option<&Part>,
    plates: &[Plate],
    amounts: &mut Amounts<'_>,
) -> Option<Part> {
    let entry = &named.entry;
    match (&entry.outline, &entry.mirror_of) {
        // refused when the file was read
        (None, None) | (Some(_), Some(_)) => None,
        (None, Some(_)) => mirror_image(named, parent?, plates, amounts),
        (Some(outline), None) => {
            let mut draft = part::draft(named, outline, amounts)?;
            if let Some(parent) = parent {
                share(&mut draft, parent, amounts)?;
            }
            part::finish(draft, plates, amounts)
        }
    }
}

/// Adds the openings that a part takes over from another.
fn share(draft: &mut Draft<'_>, other: &Part, amounts: &mut Amounts<'_>) -> Option<()> {
    let shared = draft.entry.share_openings.as_ref()?;
    let shift = match &shared.value.shift {
        Some(shift) => amounts.point(shift)?.to_vec2(),
        None => Vec2::ZERO,
    };
    let motion = Motion::shift(shift);
    let names = shared.value.names.as_ref();
    let wanted = other.openings.iter().filter(|opening| {
        names.is_none_or(|names| names.iter().any(|name| bears(opening, &name.value)))
    });
    for opening in wanted {
        let hole = other.region.holes().get(opening.hole)?;
        let feature = format!("the opening `{}` of `{}`", opening.name, other.name);
        let source = draft.sources.add(feature, shared.place);
        let contour = openings::resourced(&motion.contour(hole), source);
        let shape = openings::moved(&opening.shape, &motion);
        let copy = Opening {
            shape,
            sources: source.0..source.0 + 1,
            features: Features {
                sides: opening.features.sides,
                ..Features::default()
            },
            place: shared.place,
            ..opening.clone()
        };
        draft.openings.push(copy, contour);
    }
    Some(())
}

/// Whether an opening bears a name, or is one of the pattern of that name.
fn bears(opening: &Opening, name: &str) -> bool {
    let number = opening
        .name
        .strip_prefix(name)
        .and_then(|rest| rest.strip_prefix(' '));
    opening.name == name || number.is_some_and(|number| number.parse::<u32>().is_ok())
}

/// The mirror image of a part, left and right exchanged about its own middle.
fn mirror_image(
    named: &Named<file::Part>,
    of: &Part,
    plates: &[Plate],
    amounts: &mut Amounts<'_>,
) -> Option<Part> {
    let entry = &named.entry;
    let middle = of.region.bounds().center().x;
    let motion = Motion::mirror_in(Point::new(middle, 0.0), Vec2::new(0.0, 1.0));
    let quantity = match &entry.quantity {
        Some(quantity) => amounts.count(quantity, "quantity", 1..=part::MOST_COPIES)?,
        None => of.quantity,
    };
    let plate = match &entry.plate {
        Some(word) => find_plate(word, plates),
        None => of.plate.clone(),
    };
    let note = entry.note.as_ref().map(|note| note.value.clone());
    Some(Part {
        name: named.name.value.clone(),
        quantity,
        note: note.or_else(|| of.note.clone()),
        plate,
        mirror_of: Some(of.name.clone()),
        ..moved(of, &motion)
    })
}

/// A part with all its features moved.
fn moved(part: &Part, motion: &Motion) -> Part {
    let to = Move {
        motion,
        sources_on: 0,
    };
    let opening = |opening: &Opening| Opening {
        shape: openings::moved(&opening.shape, motion),
        features: to.features(&opening.features),
        ..opening.clone()
    };
    let scribe = |scribe: &Scribe| Scribe {
        paths: scribe.paths.iter().map(|path| motion.path(path)).collect(),
        ..scribe.clone()
    };
    let mark = |mark: &Mark| Mark {
        at: motion.point(mark.at),
        ..mark.clone()
    };
    let mut datum = part.datum.clone();
    datum.origin = motion.point(datum.origin);
    datum.along = motion.vector(datum.along);
    datum.across = motion.vector(datum.across);
    Part {
        region: motion.region(&part.region),
        corners: part.corners.iter().map(|c| to.corner(c)).collect(),
        rounds: part.rounds.iter().map(|r| to.round(r)).collect(),
        edges: part.edges.iter().map(|e| to.edge(e)).collect(),
        openings: part.openings.iter().map(opening).collect(),
        scribes: part.scribes.iter().map(scribe).collect(),
        marks: part.marks.iter().map(mark).collect(),
        datum,
        ..part.clone()
    }
}
