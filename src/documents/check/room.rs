//! How far each dimension may still move before something breaks.

use super::words;
use crate::design::Design;
use crate::measures::TakenKind;
use crate::measures::limits::Limit;
use crate::measures::stack::Bench;
use crate::measures::stack::Holder;
use crate::measures::stack::Move;
use crate::measures::stack::Stop;
use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Table;

pub(super) fn room(bench: &Bench<'_>, limits: &[Limit], design: &Design) -> Option<Block> {
    let mut table = Table::new(
        "How far each may still move, the others as designed",
        vec![
            Column::words("Dimension", "dimension"),
            Column::numbers("Value", "value"),
            Column::numbers("Down", "down"),
            Column::words("Then", "then_down"),
            Column::numbers("Up", "up"),
            Column::words("Then", "then_up"),
        ],
    );
    for room in bench.room(limits) {
        let of_dimension = design.dimensions.get(&room.name);
        let unit = of_dimension.map_or(design.unit(), |dimension| dimension.unit);
        let kind = match (room.holder, of_dimension) {
            (Holder::Dimension, Some(dimension)) => TakenKind::of(dimension.kind),
            _ => Some(TakenKind::Length),
        };
        let kind = kind.unwrap_or(TakenKind::Number);
        let far = |way: &Move| -> [Cell; 2] {
            match way {
                Move::Beyond(by) => {
                    let more = format!("more than {}", words::shown(kind, *by, unit));
                    [more.into(), Cell::Empty]
                }
                Move::Until(by, stop) => {
                    let by = words::quantity(kind, *by, unit);
                    [by.into(), then(stop).into()]
                }
            }
        };
        let name = match room.holder {
            Holder::Dimension => room.name.clone(),
            Holder::Plate => format!("thickness of {}", room.name),
        };
        let ([down, then_down], [up, then_up]) = (far(&room.down), far(&room.up));
        table.row(vec![
            name.into(),
            words::quantity(kind, room.value, unit).into(),
            down,
            then_down,
            up,
            then_up,
        ]);
    }
    (!table.rows.is_empty()).then_some(Block::Table(table))
}

fn then(stop: &Stop) -> String {
    match stop {
        Stop::Limit(name) => format!("limit: {name}"),
        Stop::Fit(name) => format!("fit: {name}"),
        Stop::Shape(why) => why.clone(),
    }
}
