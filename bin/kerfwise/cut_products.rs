//! Cut files and what goes with them: order sheet, drawing of a tool path.

use crate::arguments::CutFormat;
use crate::arguments::DxfEdition;
use crate::arguments::FileUnit;
use crate::failure::Failure;
use crate::products::Product;
use kerfwise::design::part::Part;
use kerfwise::documents::Stamp;
use kerfwise::documents::cut_file::CutFile;
use kerfwise::documents::cut_file::Cutting;
use kerfwise::documents::cut_file::Together;
use kerfwise::documents::pattern::Face;
use kerfwise::formats::contents;
use kerfwise::formats::dxf;
use kerfwise::formats::dxf::DxfOptions;
use kerfwise::formats::dxf::DxfVersion;
use kerfwise::formats::pdf;
use kerfwise::formats::svg;
use kerfwise::formats::svg::Pens;
use kerfwise::formats::svg::SvgOptions;
use kerfwise::formats::svg_read;
use kerfwise::geometry::LengthUnit;
use kerfwise::sheet::Document;
use kerfwise::sheet::Picture;

/// Width of lines in an SVG cut file: a hair line, since some machines take a wide one for an area.
pub(crate) const HAIR_LINE: f64 = 0.05;

/// How a cut file is to be written.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Wish<'a> {
    pub(crate) format: CutFormat,
    pub(crate) edition: DxfEdition,
    pub(crate) unit: FileUnit,
    pub(crate) face: Face,
    pub(crate) with_words: bool,
    /// The tool path; none for the finished size.
    pub(crate) cutting: Option<&'a Cutting>,
    /// The name that the user gives the file, without its ending; by what it is if none.
    pub(crate) stem: Option<&'a str>,
    /// What the name says of values that are not the design's own.
    pub(crate) tried: &'static str,
}

impl Wish<'_> {
    /// The finished size as drawn.
    pub(crate) const fn nominal(format: CutFormat, edition: DxfEdition, unit: FileUnit) -> Self {
        Self {
            format,
            edition,
            unit,
            face: Face::AsDrawn,
            with_words: false,
            cutting: None,
            stem: None,
            tried: "",
        }
    }

    const fn ending(&self) -> &'static str {
        match self.format {
            CutFormat::Dxf => "dxf",
            CutFormat::Svg => "svg",
        }
    }

    /// The name of the file as it is written, for the papers that go with it; `own` is its own name.
    fn file_name(&self, own: &str) -> String {
        let ending = self.ending();
        match self.stem {
            Some(given) => format!("{given}.{ending}"),
            None => format!("{own}{}.{ending}", self.tried),
        }
    }
}

/// The cut file, its order sheet, and for a tool path a drawing of it.
pub(crate) fn cut(part: &Part, stamp: &Stamp, wish: &Wish<'_>) -> Result<Vec<Product>, Failure> {
    // what the file and its order sheet say about sizes is in the file's own unit
    let stamp = &Stamp {
        unit: unit(wish.format, wish.unit)?,
        ..stamp.clone()
    };
    let file = CutFile {
        part,
        stamp,
        face: wish.face,
        with_words: wish.with_words,
        cutting: wish.cutting,
    };
    let stem = file.file_stem();
    let order = file.order_sheet(&wish.file_name(&stem));
    made(
        &Made {
            picture: file.picture(),
            comments: file.comments(),
            stem,
            order: order.map_err(Failure::said)?,
            drawing: file.path_drawing().map(|drawing| drawing.picture),
            names: &format!("`{}`", part.name),
            cutting: wish.cutting,
            face: wish.face,
        },
        stamp,
        wish,
    )
}

/// The same for several parts in one file.
pub(crate) fn cut_together(
    together: &Together<'_>,
    wish: &Wish<'_>,
) -> Result<Vec<Product>, Failure> {
    let names: Vec<String> = together
        .parts
        .iter()
        .map(|part| format!("`{}`", part.name))
        .collect();
    let stem = together.file_stem();
    let order = together.order_sheet(&wish.file_name(&stem));
    made(
        &Made {
            picture: together.picture(),
            comments: together.comments(),
            stem,
            order: order.map_err(Failure::said)?,
            drawing: together.path_drawing().map(|drawing| drawing.picture),
            names: &names.join(", "),
            cutting: together.cutting.as_ref(),
            face: together.face,
        },
        together.stamp,
        wish,
    )
}

/// The unit of a file.
pub(crate) fn unit(format: CutFormat, unit: FileUnit) -> Result<LengthUnit, Failure> {
    match (format, unit) {
        (CutFormat::Svg, FileUnit::In) => {
            let said = "an SVG cut file is always in mm: leave --units out, or take --format dxf";
            Err(Failure::Said(said.to_owned()))
        }
        (_, FileUnit::Mm) => Ok(LengthUnit::Millimetre),
        (CutFormat::Dxf, FileUnit::In) => Ok(LengthUnit::Inch),
    }
}

/// A cut file before it is written.
struct Made<'a> {
    picture: Picture,
    comments: Vec<String>,
    /// Its own name, without its ending.
    stem: String,
    order: Document,
    drawing: Option<Picture>,
    /// The parts in words.
    names: &'a str,
    cutting: Option<&'a Cutting>,
    face: Face,
}

fn made(made: &Made<'_>, stamp: &Stamp, wish: &Wish<'_>) -> Result<Vec<Product>, Failure> {
    let names = made.names;
    // its papers are named after it, so that those of another file of the part stay as they are
    let stem = wish.stem.unwrap_or(&made.stem);
    let ending = wish.ending();
    let title = format!("{}: {}", stamp.design, names.replace('`', ""));
    let bytes = match wish.format {
        CutFormat::Dxf => {
            let options = DxfOptions {
                version: version(wish.edition),
                unit: stamp.unit,
                comments: made.comments.clone(),
            };
            written_dxf(&made.picture, &options)?
        }
        CutFormat::Svg => svg_bytes(made, title.clone())?,
    };
    let kind = match made.cutting {
        None => format!(
            "nominal finished size in {}; the shop compensates the kerf",
            stamp.unit.name()
        ),
        Some(cutting) => format!(
            "tool path in {} for a cut {} mm wide; for your own machine or by written agreement with the \
             shop, nobody compensates again",
            stamp.unit.name(),
            kerfwise::sheet::number::trimmed(cutting.setting.kerf, 3)
        ),
    };
    let mirrored = match made.face {
        Face::AsDrawn => "",
        Face::Mirrored => ", mirrored",
    };
    let mut products = vec![Product {
        name: format!("{stem}.{ending}"),
        what: format!("cut file of {names}{mirrored}, {kind}"),
        bytes,
    }];
    products.push(Product {
        name: format!("{stem}-{ending}-order-sheet.pdf"),
        what: format!("order sheet for {names}"),
        bytes: pdf::document_on_one_page(&made.order, pdf::Paper::A4)?,
    });
    if let Some(drawing) = &made.drawing {
        let options = SvgOptions {
            title,
            comments: vec![stamp.line()],
            ..SvgOptions::default()
        };
        products.push(Product {
            name: format!("{stem}-{ending}-drawing.svg"),
            what: format!("drawing of the tool path of {names}: look at it before you cut"),
            bytes: svg::write(drawing, &options)?.into_bytes(),
        });
    }
    Ok(products)
}

/// A picture as DXF, read back and compared.
pub(crate) fn written_dxf(picture: &Picture, options: &DxfOptions) -> Result<Vec<u8>, Failure> {
    let bytes = dxf::write(picture, options)?;
    contents::compare(picture, &dxf::read_contours(&bytes, options.unit)?)?;
    Ok(bytes)
}

fn svg_bytes(made: &Made<'_>, title: String) -> Result<Vec<u8>, Failure> {
    let options = SvgOptions {
        title,
        comments: made.comments.clone(),
        margin: 0.0,
        pens: Pens::AllContinuous(HAIR_LINE),
    };
    let text = svg::write(&made.picture, &options)?;
    contents::compare(&made.picture, &svg_read::read_contours(text.as_bytes())?)?;
    Ok(text.into_bytes())
}

pub(crate) const fn version(edition: DxfEdition) -> DxfVersion {
    match edition {
        DxfEdition::R12 => DxfVersion::R12,
        DxfEdition::R2000 => DxfVersion::R2000,
        DxfEdition::R2007 => DxfVersion::R2007,
        DxfEdition::R2013 => DxfVersion::R2013,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kerfwise::design::Design;
    use kerfwise::design::Source;
    use kerfwise::shop::tool_path::Setting;
    use std::collections::BTreeSet;

    /// Whatever a part is cut by, in whatever format, unit and face: no file and no paper takes the name of
    /// another, and every paper begins with the name of its file.
    #[test]
    fn papers_are_named_after_their_file() {
        let text = include_str!("../../fixtures/parts/belt-guard.toml");
        let source = Source::new("belt-guard.toml", text);
        let design = Design::load(&source, &[]).expect("the demo");
        let (stamp, part) = (Stamp::of(&design), &design.resolved.parts[0]);
        let cutting = |face, key| {
            Cutting::new(part, Setting::plain(1.0), face, (key, key)).expect("a tool path")
        };
        let mut names = BTreeSet::new();
        let mut files = 0;
        for face in [Face::AsDrawn, Face::Mirrored] {
            let paths = [
                None,
                Some(cutting(face, "router")),
                Some(cutting(face, "waterjet")),
            ];
            for path in &paths {
                for (format, unit) in [
                    (CutFormat::Dxf, FileUnit::Mm),
                    (CutFormat::Dxf, FileUnit::In),
                    (CutFormat::Svg, FileUnit::Mm),
                ] {
                    let wish = Wish {
                        face,
                        cutting: path.as_ref(),
                        ..Wish::nominal(format, DxfEdition::R2000, unit)
                    };
                    let made = cut(part, &stamp, &wish).expect("files");
                    let (own, ending) = made[0].name.rsplit_once('.').expect("an ending");
                    for product in &made {
                        files += 1;
                        assert!(
                            names.insert(product.name.clone()),
                            "{} is there twice",
                            product.name
                        );
                    }
                    for paper in made.iter().skip(1) {
                        let begin = format!("{own}-{ending}-");
                        assert!(paper.name.starts_with(&begin), "{}: {begin}", paper.name);
                    }
                }
            }
        }
        // 6 of the finished size with 1 paper, 12 tool paths with 2
        assert_eq!(files, 6 * 2 + 12 * 3, "files");
    }

    #[test]
    fn a_given_name_is_that_of_the_papers_too() {
        let text = include_str!("../../fixtures/parts/belt-guard.toml");
        let source = Source::new("belt-guard.toml", text);
        let design = Design::load(&source, &[]).expect("the demo");
        let part = &design.resolved.parts[0];
        let wish = Wish {
            stem: Some("first"),
            tried: "-what-if",
            ..Wish::nominal(CutFormat::Svg, DxfEdition::R2000, FileUnit::Mm)
        };
        let made = cut(part, &Stamp::of(&design), &wish).expect("files");
        let names: Vec<&str> = made.iter().map(|product| product.name.as_str()).collect();
        assert_eq!(names, ["first.svg", "first-svg-order-sheet.pdf"], "names");
        assert_eq!(wish.file_name("guard"), "first.svg", "as it is written");
        let wish = Wish { stem: None, ..wish };
        assert_eq!(wish.file_name("guard"), "guard-what-if.svg", "its own name");
    }
}
