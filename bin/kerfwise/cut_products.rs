//! Cut files and what goes with them: order sheet, drawing of a tool path.

use crate::arguments::CutFormat;
use crate::arguments::DxfEdition;
use crate::arguments::FileUnit;
use crate::failure::Failure;
use crate::products::Product;
use crate::products::file_word;
use kerfwise::design::part::Part;
use kerfwise::documents::Stamp;
use kerfwise::documents::cut_file::CutFile;
use kerfwise::documents::cut_file::Cutting;
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
        }
    }
}

/// The cut file, its order sheet, and for a tool path a drawing of it.
pub(crate) fn cut(part: &Part, stamp: &Stamp, wish: &Wish<'_>) -> Result<Vec<Product>, Failure> {
    let unit = match (wish.format, wish.unit) {
        (CutFormat::Svg, FileUnit::In) => {
            let said = "an SVG cut file is always in mm: leave --units out, or take --format dxf";
            return Err(Failure::Said(said.to_owned()));
        }
        (_, FileUnit::Mm) => LengthUnit::Millimetre,
        (CutFormat::Dxf, FileUnit::In) => LengthUnit::Inch,
    };
    // what the file and its order sheet say about sizes is in the file's own unit
    let stamp = &Stamp {
        unit,
        ..stamp.clone()
    };
    let file = CutFile {
        part,
        stamp,
        face: wish.face,
        with_words: wish.with_words,
        cutting: wish.cutting,
    };
    let order = file.order_sheet().map_err(Failure::said)?;
    let (ending, bytes) = match wish.format {
        CutFormat::Dxf => ("dxf", dxf_bytes(&file, wish.edition)?),
        CutFormat::Svg => ("svg", svg_bytes(&file)?),
    };
    let kind = match wish.cutting {
        None => format!(
            "nominal finished size in {}; the shop compensates the kerf",
            unit.name()
        ),
        Some(cutting) => format!(
            "tool path in {} for a cut {} mm wide; for your own machine or by written agreement with the \
             shop, nobody compensates again",
            unit.name(),
            kerfwise::sheet::number::trimmed(cutting.setting.kerf, 3)
        ),
    };
    let mirrored = match wish.face {
        Face::AsDrawn => "",
        Face::Mirrored => ", mirrored",
    };
    let mut products = vec![Product {
        name: format!("{}.{ending}", file.file_stem()),
        what: format!("cut file of `{}`{mirrored}, {kind}", part.name),
        bytes,
    }];
    let kind = match wish.cutting {
        None => "",
        Some(_) => "-tool-path",
    };
    products.push(Product {
        name: format!("{}-order-sheet{kind}.pdf", file_word(&part.name)),
        what: format!("order sheet for `{}`", part.name),
        bytes: pdf::document_on_one_page(&order, pdf::Paper::A4)?,
    });
    if let Some(drawing) = file.path_drawing() {
        let options = SvgOptions {
            title: format!("{}: {}", stamp.design, part.name),
            comments: vec![stamp.line()],
            ..SvgOptions::default()
        };
        products.push(Product {
            name: format!("{}-tool-path-drawing.svg", file_word(&part.name)),
            what: format!(
                "drawing of the tool path of `{}`: look at it before you cut",
                part.name
            ),
            bytes: svg::write(&drawing.picture, &options)?.into_bytes(),
        });
    }
    Ok(products)
}

fn dxf_bytes(file: &CutFile<'_>, edition: DxfEdition) -> Result<Vec<u8>, Failure> {
    let picture = file.picture();
    let options = DxfOptions {
        version: version(edition),
        unit: file.stamp.unit,
        comments: file.comments(),
    };
    written_dxf(&picture, &options)
}

/// A picture as DXF, read back and compared.
pub(crate) fn written_dxf(picture: &Picture, options: &DxfOptions) -> Result<Vec<u8>, Failure> {
    let bytes = dxf::write(picture, options)?;
    contents::compare(picture, &dxf::read_contours(&bytes, options.unit)?)?;
    Ok(bytes)
}

fn svg_bytes(file: &CutFile<'_>) -> Result<Vec<u8>, Failure> {
    let picture = file.picture();
    let options = SvgOptions {
        title: format!("{}: {}", file.stamp.design, file.part.name),
        comments: file.comments(),
        margin: 0.0,
        pens: Pens::AllContinuous(HAIR_LINE),
    };
    let text = svg::write(&picture, &options)?;
    contents::compare(&picture, &svg_read::read_contours(text.as_bytes())?)?;
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
