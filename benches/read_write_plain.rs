//! A drawing read and written as it is, as a whole process: `benches/read_write.py` runs it beside ezdxf.
//!
//! `cargo bench --bench read_write_plain -- IN.dxf OUT.dxf`; without arguments it does nothing.

use kerfwise::formats::dxf;
use kerfwise::formats::dxf::DxfOptions;
use kerfwise::formats::incoming;
use kerfwise::formats::incoming::DrawnShape;
use kerfwise::formats::incoming::ReadOptions;
use kerfwise::geometry::Contour;
use kerfwise::geometry::GeometryError;
use kerfwise::geometry::Path;
use kerfwise::geometry::Piece;
use kerfwise::geometry::SourceId;
use kerfwise::sheet::Layer;
use kerfwise::sheet::Pen;
use kerfwise::sheet::Picture;
use kerfwise::sheet::Shape;
use std::error::Error;

/// Width of the lines in millimetres.
const PEN: Pen = Pen::solid(0.25);

fn main() -> Result<(), Box<dyn Error>> {
    // cargo adds `--bench`
    let arguments: Vec<String> = std::env::args()
        .skip(1)
        .filter(|argument| !argument.starts_with("--"))
        .collect();
    let [source, target] = arguments.as_slice() else {
        return Ok(());
    };
    let drawing = incoming::read(&std::fs::read(source)?, &ReadOptions::default())?;
    let mut picture = Picture::new();
    for drawn in &drawing.drawn {
        match &drawn.shape {
            DrawnShape::Spot(at) => picture.stroke(Layer::Mark, Shape::Spot(*at), PEN),
            DrawnShape::Run { segments, closed } => {
                let pieces = segments.iter();
                let pieces = pieces.map(|segment| Piece::new(*segment, SourceId::UNTRACED));
                add(&mut picture, pieces.collect(), *closed)?;
            }
        }
    }
    std::fs::write(target, dxf::write(&picture, &DxfOptions::default())?)?;
    Ok(())
}

fn add(picture: &mut Picture, pieces: Vec<Piece>, closed: bool) -> Result<(), GeometryError> {
    if closed {
        picture.contour(Layer::Outside, Contour::new(pieces)?, PEN);
    } else {
        picture.path(Layer::Outside, Path::new(pieces)?, PEN);
    }
    Ok(())
}
