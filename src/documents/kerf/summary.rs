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
use crate::shop::kerf::Standing;

pub(super) fn blocks(compared: &Compared<'_>, unit: LengthUnit) -> Vec<Block> {
    let mut blocks = vec![Block::Paragraph(answer(compared, unit))];
    if compared.compared().next().is_some() {
        blocks.push(Block::Table(table(compared, unit)));
    }
    blocks.push(Block::List(rooms(compared, unit)));
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
    let spare = best.room.map_or(String::new(), |(room, judged)| {
        let narrowest = all.get(judged).map_or("", |judged| judged.name.as_str());
        format!(
            ", with {} to spare at the narrowest ({narrowest})",
            features::length_with_unit(room, unit)
        )
    });
    let not = words::outcome(best, Case::NotCompensated, all, unit);
    let if_not = if not == "fits" {
        "If the shop does not compensate, it still fits.".to_owned()
    } else {
        format!("If the shop does not compensate: {not}.")
    };
    match best.standing {
        Standing::Fits => format!(
            "Best choice: {name}, kerf {kerf}. Every limit and fit holds, from its narrowest kerf to \
             its widest and on both faces{spare}. {if_not}"
        ),
        Standing::FitsWithCare => {
            let concern = best.concerns.first();
            let concern =
                concern.map_or(String::new(), |concern| words::concern(concern, all, unit));
            format!(
                "Best choice, with care: {name}, kerf {kerf}. Every limit and fit holds{spare}, but: \
                 {concern}. {if_not}"
            )
        }
        Standing::Unsure => format!(
            "None is sure to keep every limit and fit by itself, so none is recommended. The nearest is \
             {name}, kerf {kerf}: {}. Ask the shop for its kerf and how far that strays, or cut a trial \
             piece, and state it in a processes file; or have holes drilled to size. {if_not}",
            why_not(best, all, unit)
        ),
        Standing::DoesNotFit | Standing::NotForThis => format!(
            "None keeps every limit and fit by itself, so none is recommended. The nearest is {name}, \
             kerf {kerf}: {}. Leave metal on, and file or drill to size. {if_not}",
            why_not(best, all, unit)
        ),
    }
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
        .or_else(|| {
            let said = words::compensated(one, all, unit);
            (said != "fits").then_some(said)
        })
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
        "“Scrap”: the metal is gone. “Can be filed”: there is metal left to take off.".to_owned(),
        format!(
            "Openings are judged by the general tolerance of ISO 2768-1, class {}, unless the design \
             limits them.",
            compared.class.letter()
        ),
    ];
    table
}

fn row(compared: &Compared<'_>, one: &Comparison, unit: LengthUnit) -> Vec<Cell> {
    let all = &compared.judged;
    let mut compensated = words::compensated(one, all, unit);
    let weighty =
        |concern: &&Concern| concern.is_sure() || (compensated == "fits" && concern.is_unlikely());
    if let Some(concern) = one.concerns.iter().find(weighty) {
        compensated = words::concern(concern, all, unit);
    } else if compensated == "fits" && !one.concerns.is_empty() {
        "fits, with care".clone_into(&mut compensated);
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
    let mut list = if compared.judged.is_empty() {
        vec![
            "The design limits nothing that kerf changes: state limits, and they are judged."
                .to_owned(),
        ]
    } else {
        vec![
            side(&compared.room.small, "too much taken off", "wider"),
            side(&compared.room.large, "too much left on", "narrower"),
        ]
    };
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
