//! The first page.

use super::Compared;
use super::words;
use crate::design::part::EdgeState;
use crate::documents::features;
use crate::geometry::LengthUnit;
use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Quantity;
use crate::sheet::Table;
use crate::shop::kerf::Broken;
use crate::shop::kerf::Case;
use crate::shop::kerf::Comparison;
use crate::shop::kerf::Concern;
use crate::shop::kerf::Judged;
use crate::shop::kerf::Kind;
use crate::shop::kerf::Standing;
use crate::shop::kerf::limits_anything;

pub(super) fn blocks(compared: &Compared<'_>, unit: LengthUnit) -> Vec<Block> {
    let mut blocks = vec![Block::Paragraph(answer(compared, unit))];
    if compared.compared().next().is_some() {
        blocks.push(Block::Table(table(compared, unit)));
    }
    let rooms = rooms(compared, unit);
    if !rooms.is_empty() {
        blocks.push(Block::List(rooms));
    }
    let refused: Vec<String> = compared
        .found
        .iter()
        .filter_map(|one| {
            let why = one.refused.as_ref()?;
            Some(format!("{}: {why}.", one.process.key))
        })
        .collect();
    if !refused.is_empty() {
        blocks.push(Block::Heading("Not for this plate".to_owned()));
        blocks.push(Block::List(refused));
    }
    blocks.extend(cautions(compared));
    blocks
}

/// The best choice with its reason, and what happens if the shop does not compensate.
fn answer(compared: &Compared<'_>, unit: LengthUnit) -> String {
    let all = &compared.judged;
    let Some(best) = compared.compared().next() else {
        return "None of the ways of cutting asked for is for this plate.".to_owned();
    };
    let kerf = features::length_with_unit(best.kerf.value, unit);
    let name = &best.process.key;
    let spare = best
        .room
        .and_then(|(room, judged)| all.get(judged).map(|judged| (room, judged)))
        .map_or(String::new(), |(room, judged)| {
            let room = words::difference(judged, room, unit);
            format!(", with {room} to spare at the narrowest ({})", judged.name)
        });
    let if_not = if_not_compensated(best, all, unit);
    let is_limited = limits_anything(all);
    match best.standing {
        Standing::Fits if is_limited => format!(
            "Best choice: {name}, kerf {kerf}. Every limit and fit holds, from its narrowest kerf to \
             its widest and on both faces{spare}.{if_not}"
        ),
        Standing::FitsWithCare if is_limited => {
            let concern = best.concerns.first();
            let concern =
                concern.map_or(String::new(), |concern| words::concern(concern, all, unit));
            format!(
                "Best choice, with care: {name}, kerf {kerf}. Every limit and fit holds{spare}, but: \
                 {concern}.{if_not}"
            )
        }
        Standing::Fits | Standing::FitsWithCare => format!(
            "Nothing here limits what kerf changes, so none is the best choice by it. {LIMIT_IT}{if_not}"
        ),
        Standing::Unsure => format!(
            "None is sure to {} by itself, so none is recommended. The nearest is \
             {name}, kerf {kerf}: {}. Ask the shop for its kerf and how far that strays, or cut a trial \
             piece, and state it in a processes file; or have holes drilled to size.{if_not}",
            if is_limited {
                "keep every limit and fit"
            } else {
                "make the part as drawn"
            },
            why_not(best, all, unit)
        ),
        Standing::DoesNotFit | Standing::NotForThis => format!(
            "None {} by itself, so none is recommended. The nearest is {name}, \
             kerf {kerf}: {}. Leave material on, and file or drill to size.{if_not}",
            if is_limited {
                "keeps every limit and fit"
            } else {
                "makes the part as drawn"
            },
            why_not(best, all, unit)
        ),
    }
}

/// What to do where nothing is limited.
const LIMIT_IT: &str = "Give a dimension of this part a `measure` and limits, or name this part and a \
     `measure` on one side of a `[[fit]]`: then that is judged.";

/// What happens if the shop does not compensate, as a sentence; nothing where nothing speaks of it.
fn if_not_compensated(one: &Comparison, all: &[Judged], unit: LengthUnit) -> String {
    let case = Case::NotCompensated;
    let said = match (one.holds(case, all), words::remark(one, case, all, unit)) {
        (false, _) => format!(": {}", words::outcome(one, case, all, unit)),
        (true, None) if limits_anything(all) => ", it still fits".to_owned(),
        (true, None) => return String::new(),
        (true, Some(remark)) if limits_anything(all) => format!(", it still fits, but {remark}"),
        (true, Some(remark)) => format!(": {remark}"),
    };
    format!(" If the shop does not compensate{said}.")
}

/// Whether nothing breaks when the shop compensates, at the ends of its kerf too.
fn goes_right(one: &Comparison, all: &[Judged]) -> bool {
    let mut cases = [Case::Right, Case::Narrow, Case::Wide].into_iter();
    cases.all(|case| one.holds(case, all))
}

/// Why a way of cutting is not recommended.
fn why_not(one: &Comparison, all: &[Judged], unit: LengthUnit) -> String {
    let by_concern = |sure: bool| {
        one.concerns
            .iter()
            .find(|concern| concern.is_sure() == sure && (sure || concern.is_unlikely()))
            .map(|concern| words::concern(concern, all, unit))
    };
    by_concern(true)
        .or_else(|| (!goes_right(one, all)).then(|| words::compensated(one, all, unit)))
        .or_else(|| by_concern(false))
        .unwrap_or_default()
}

fn table(compared: &Compared<'_>, unit: LengthUnit) -> Table {
    let columns = vec![
        Column::words("Process", "process"),
        Column::numbers("Kerf", "kerf"),
        Column::words("Shop compensates", "compensated"),
        Column::words("Nobody does", "not_compensated"),
        Column::words("Both do", "twice"),
        Column::numbers("To spare", "room"),
    ];
    let mut table = Table::new("What each does to the part", columns);
    for one in compared.compared() {
        table.row(row(compared, one, unit));
    }
    table.notes = vec![
        "“To spare”: the least that is left to a limit when the shop compensates, over the usual \
         kerfs and both faces."
            .to_owned(),
        "“Scrap”: the material is gone. “Can be filed”: there is material left to take off."
            .to_owned(),
    ];
    let has = |kind: Kind| compared.judged.iter().any(|judged| judged.kind == kind);
    if has(Kind::Fit) {
        table.notes.push(
            "A fit is judged by this part as cut and the other as designed: if both are cut wrong, both \
             errors add up."
                .to_owned(),
        );
    }
    if let Some(class) = compared.judged.iter().find_map(|judged| match judged.kind {
        Kind::Class(class) => Some(class),
        _ => None,
    }) {
        table.notes.push(format!(
            "Openings and tongues of which the design says nothing else are judged by the class of general \
             tolerances that it names, ISO 2768-{}.",
            class.letter()
        ));
    }
    if has(Kind::General) {
        table.notes.push(
            "Openings and tongues that the design does not limit are looked at by the general tolerance \
             of ISO 2768-1, class m; what is outside of it is a remark and decides nothing."
                .to_owned(),
        );
    }
    table
}

fn row(compared: &Compared<'_>, one: &Comparison, unit: LengthUnit) -> Vec<Cell> {
    let all = &compared.judged;
    let mut compensated = words::compensated(one, all, unit);
    let weighty =
        |concern: &&Concern| concern.is_sure() || (goes_right(one, all) && concern.is_unlikely());
    if let Some(concern) = one.concerns.iter().find(weighty) {
        compensated = words::concern(concern, all, unit);
    } else if goes_right(one, all) && !one.concerns.is_empty() {
        compensated = match compensated.split_once("; ") {
            Some((holds, remark)) => format!("{holds}, with care; {remark}"),
            None => format!("{compensated}, with care"),
        };
    }
    vec![
        one.process.key.clone().into(),
        Quantity::length(one.kerf.value, unit).into(),
        compensated.into(),
        words::outcome(one, Case::NotCompensated, all, unit).into(),
        words::outcome(one, Case::Twice, all, unit).into(),
        one.room
            .map_or(Cell::Empty, |(room, _)| Quantity::length(room, unit).into()),
    ]
}

/// How much the part can stand, and what is not cut at all.
fn rooms(compared: &Compared<'_>, unit: LengthUnit) -> Vec<String> {
    let side = |broken: &Broken, taken: &str, kerf: &str| {
        let mm = |value| features::length_with_unit(value, unit);
        match broken {
            Broken::NotBy(error) => {
                format!("{} {taken} all round breaks nothing.", mm(*error))
            }
            Broken::AsDrawn { judged } => format!(
                "{} is outside its limit as drawn.",
                compared
                    .judged
                    .get(*judged)
                    .map_or("A limit", |one| one.name.as_str())
            ),
            Broken::At { error, judged } => format!(
                "The part stands {} {taken} all round (a kerf {} {kerf} than compensated for); then {} \
                 breaks.",
                mm(*error),
                mm(2.0 * error),
                compared
                    .judged
                    .get(*judged)
                    .map_or("a limit", |one| one.name.as_str())
            ),
        }
    };
    let mut list = Vec::new();
    if limits_anything(&compared.judged) {
        list.push(side(&compared.room.small, "too much taken off", "wider"));
        list.push(side(&compared.room.large, "too much left on", "narrower"));
    }
    let uncut = |state: EdgeState| state != EdgeState::Cut;
    let edges: Vec<String> = compared
        .part
        .edges
        .iter()
        .filter(|edge| uncut(edge.state))
        .map(|edge| format!("“{}”", edge.name))
        .collect();
    if !edges.is_empty() {
        list.push(format!(
            "Not cut, so no kerf moves it: {}.",
            edges.join(", ")
        ));
    }
    let plate = compared.part.plate.as_ref();
    if plate.is_none_or(|plate| plate.thickness.is_none()) {
        list.push(format!(
            "The design states no thickness: figures are for {}.",
            features::length_with_unit(compared.thickness, unit)
        ));
    }
    if compared.material.is_none() {
        let name = plate.map_or("", |plate| plate.material.as_str());
        list.push(format!(
            "The material {} is not known here: whether a process may cut it, and how fast, is not \
             judged.",
            if name.is_empty() {
                "is not stated, so it"
            } else {
                name
            }
        ));
    }
    list
}

fn cautions(compared: &Compared<'_>) -> Vec<Block> {
    let mut said: Vec<(String, Vec<&str>)> = Vec::new();
    for one in compared.compared() {
        for caution in one.process.cautions(compared.material) {
            match said.iter_mut().find(|(words, _)| words == caution.words) {
                Some((_, keys)) if !keys.contains(&one.process.key.as_str()) => {
                    keys.push(&one.process.key);
                }
                Some(_) => {}
                None => said.push((caution.words.to_owned(), vec![&one.process.key])),
            }
        }
    }
    if said.is_empty() {
        return Vec::new();
    }
    let everything = compared.compared().count();
    let line = |(words, keys): (String, Vec<&str>)| {
        Block::Caution(if keys.len() == everything {
            words
        } else {
            format!("{}: {words}", keys.join(", "))
        })
    };
    let mut blocks = vec![Block::Heading("Heed".to_owned())];
    blocks.extend(said.into_iter().map(line));
    blocks
}
