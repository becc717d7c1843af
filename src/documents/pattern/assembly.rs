//! The page that comes first: a map of the sheets, what to check, how to join and glue them.

use super::checks::Check;
use super::flow::Flow;
use super::grid::Grid;
use super::outline::THIN;
use crate::design::part::Part;
use crate::formats::font;
use crate::geometry::Contour;
use crate::geometry::LengthUnit;
use crate::geometry::Motion;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::sheet::Anchor;
use crate::sheet::Layer;
use crate::sheet::LineType;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Shade;
use crate::sheet::Table;
use crate::sheet::Text;

/// What the page tells.
pub(super) struct Assembly<'a> {
    pub(super) title: String,
    pub(super) facts: Vec<String>,
    pub(super) parts: &'a [Part],
    pub(super) grid: &'a Grid,
    pub(super) checks: &'a [(String, Check)],
    pub(super) unit: LengthUnit,
    pub(super) steps: Vec<String>,
    pub(super) cautions: Vec<String>,
    pub(super) stamp: String,
}

/// Writes the page, or as many as it takes.
pub(super) fn pages(area: Rect, assembly: &Assembly<'_>) -> Vec<Picture> {
    let mut flow = Flow::new(area);
    flow.heading(&assembly.title, 5.5);
    flow.paragraph(&assembly.stamp);
    for fact in &assembly.facts {
        flow.item("•", fact);
    }
    if assembly.grid.count() > 1 {
        flow.heading("The sheets", 4.0);
        let bounds = assembly.grid.bounds();
        let wanted = flow.width() * bounds.height() / bounds.width();
        let height = wanted.min(area.height() * 0.32).max(40.0);
        flow.figure(height, |picture, rect| draw_map(picture, rect, assembly));
    }
    let table: Table = super::checks::table(assembly.checks, assembly.unit);
    flow.heading(&table.title, 4.0);
    flow.table(&table);
    flow.heading("How to use it", 4.0);
    for (number, step) in (1..).zip(&assembly.steps) {
        flow.item(&format!("{number}."), step);
    }
    flow.heading("Mind", 4.0);
    for caution in &assembly.cautions {
        flow.item("•", caution);
    }
    flow.pages
}

/// The sheets in small, with the parts on them.
fn draw_map(picture: &mut Picture, rect: Rect, assembly: &Assembly<'_>) {
    let grid = assembly.grid;
    let bounds = grid.bounds();
    let scale = (rect.width() / bounds.width()).min(rect.height() / bounds.height());
    let to = rect.center().to_vec2() - bounds.center().to_vec2() * scale;
    let motion = Motion::scale(scale).then(&Motion::shift(to));
    let dotted = THIN.line_type(LineType::Dotted);
    for place in grid.sheets() {
        let cell = grid.rect(place);
        let corners = [
            Point::new(cell.x0, cell.y0),
            Point::new(cell.x1, cell.y0),
            Point::new(cell.x1, cell.y1),
            Point::new(cell.x0, cell.y1),
        ]
        .map(|corner| motion.point(corner));
        if let Ok(outline) = Contour::polygon(&corners) {
            picture.contour(Layer::Guides, outline, dotted);
        }
    }
    for part in assembly.parts {
        for contour in part.region.contours() {
            // a circle of 0.2 mm in small says nothing
            let small = motion.contour(contour);
            picture.contour(Layer::Outside, small, Pen::solid(0.25));
        }
    }
    let size = (grid.cell.0.min(grid.cell.1) * scale * 0.3).clamp(1.6, 5.0);
    for place in grid.sheets() {
        let middle = motion.point(grid.rect(place).center());
        let name = place.name();
        let half = Vec2::new(
            font::text_width(&name, size) / 2.0 + size * 0.15,
            font::capital_height(size) / 2.0 + size * 0.15,
        );
        // the lines of the part would run through the names
        let clear = [
            middle - half,
            middle + Vec2::new(half.x, -half.y),
            middle + half,
            middle + Vec2::new(-half.x, half.y),
        ];
        if let Ok(clear) = Contour::polygon(&clear) {
            picture.fill(Layer::Words, clear, Shade::White);
        }
        picture.text(Text {
            layer: Layer::Words,
            at: middle - Vec2::new(0.0, size * 0.36),
            size,
            anchor: Anchor::Middle,
            angle: 0.0,
            content: name,
        });
    }
}
