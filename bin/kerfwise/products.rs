//! Files in the making: their names, bytes, and what they are.

use crate::arguments::CutFormat;
use crate::arguments::DrawFormat;
use crate::arguments::DxfEdition;
use crate::arguments::FileUnit;
use crate::arguments::SheetFormat;
use crate::failure::Failure;
use kerfwise::design::part::Part;
use kerfwise::documents::Stamp;
use kerfwise::documents::cut_file;
use kerfwise::documents::drawing;
use kerfwise::documents::drawing::SheetSize;
use kerfwise::documents::marking_out;
use kerfwise::documents::pattern;
use kerfwise::documents::pattern::Correction;
use kerfwise::documents::pattern::Face;
use kerfwise::documents::pattern::PatternOptions;
use kerfwise::documents::pattern::PatternPaper;
use kerfwise::documents::pattern::Printer;
use kerfwise::formats::FormatError;
use kerfwise::formats::contents;
use kerfwise::formats::dxf;
use kerfwise::formats::dxf::DxfOptions;
use kerfwise::formats::dxf::DxfVersion;
use kerfwise::formats::html;
use kerfwise::formats::pdf;
use kerfwise::formats::pdf::PdfFile;
use kerfwise::formats::pdf::PdfPage;
use kerfwise::formats::pdf::Placement;
use kerfwise::formats::png;
use kerfwise::formats::svg;
use kerfwise::formats::svg::Pens;
use kerfwise::formats::svg::SvgOptions;
use kerfwise::formats::svg_read;
use kerfwise::geometry::LengthUnit;
use kerfwise::geometry::Motion;
use kerfwise::sheet::Document;
use kerfwise::sheet::Figure;
use kerfwise::trade::papers;

/// A file that is ready to be written.
#[derive(Debug)]
pub(crate) struct Product {
    /// Its name, without a folder.
    pub(crate) name: String,
    /// What it is, in a few words.
    pub(crate) what: String,
    /// What it holds.
    pub(crate) bytes: Vec<u8>,
}

/// Dots a millimetre of a PNG: 203 dots an inch, enough to print.
const DOTS_PER_MILLIMETRE: f64 = 8.0;

/// Width of lines in an SVG cut file: a hair line, since some machines take a wide one for an area.
const HAIR_LINE: f64 = 0.05;

/// A sheet of paper, upright.
#[derive(Clone, Debug)]
pub(crate) struct Paper {
    /// Its name, as in "A4" or "600x900".
    pub(crate) name: String,
    /// Its shorter side in millimetres.
    pub(crate) width: f64,
    /// Its longer side in millimetres.
    pub(crate) height: f64,
}

/// The paper of this name, or of this size in millimetres: `600x900`.
pub(crate) fn paper(name: &str) -> Result<Paper, Failure> {
    let sides = name
        .split_once(['x', '×'])
        .map(|(a, b)| (a.trim().parse(), b.trim().parse()));
    if let Some((Ok(a), Ok(b))) = sides {
        let (a, b): (f64, f64) = (a, b);
        if a > 0.0 && b > 0.0 && a.is_finite() && b.is_finite() {
            let name = name.replace('×', "x");
            return Ok(Paper {
                name,
                width: a.min(b),
                height: a.max(b),
            });
        }
    }
    let said = |error| {
        Failure::Said(format!(
            "{error}, as --paper 600x900 in millimetres, or name one of its kind"
        ))
    };
    let paper = papers::find(name).map_err(said)?;
    Ok(Paper {
        name: paper.name.to_owned(),
        width: paper.width,
        height: paper.height,
    })
}

/// The dimensioned drawing.
pub(crate) fn drawing(
    part: &Part,
    stamp: &Stamp,
    format: DrawFormat,
    paper: &Paper,
) -> Result<Product, Failure> {
    let (width, height) = (paper.width, paper.height);
    let drawn = drawing::draw(part, stamp, SheetSize { width, height }).map_err(Failure::said)?;
    let (ending, bytes) = match format {
        DrawFormat::Svg => {
            let title = format!("{}: {}", stamp.design, part.name);
            let comments = vec![stamp.line()];
            let options = SvgOptions {
                title,
                comments,
                ..SvgOptions::default()
            };
            ("svg", svg::write(&drawn.picture, &options)?.into_bytes())
        }
        DrawFormat::Pdf => {
            let page = PdfPage {
                width: drawn.sheet.width,
                height: drawn.sheet.height,
                placements: vec![Placement::new(0, Motion::IDENTITY)],
                label: String::new(),
            };
            let file = PdfFile {
                title: format!("{}: {}", stamp.design, part.name),
                subject: stamp.line(),
                pictures: vec![drawn.picture],
                pages: vec![page],
            };
            ("pdf", pdf::write(&file)?)
        }
        DrawFormat::Png => ("png", png::write(&drawn.picture, DOTS_PER_MILLIMETRE)?),
    };
    Ok(Product {
        name: format!("{}-drawing.{ending}", file_word(&part.name)),
        what: format!("drawing of `{}`, scale {}", part.name, drawn.scale),
        bytes,
    })
}

/// What is printed on, by the name of a paper.
pub(crate) fn sheets(paper: &Paper) -> PatternPaper {
    PatternPaper::Sheets {
        name: paper.name.clone(),
        width: paper.width,
        height: paper.height,
    }
}

/// What is printed on, by what the arguments say of it.
pub(crate) fn printed_on(
    roll: Option<f64>,
    one_page: bool,
    name: &str,
) -> Result<PatternPaper, Failure> {
    match roll {
        Some(width) => Ok(PatternPaper::Roll { width }),
        None if one_page => Ok(PatternPaper::OnePage),
        None => Ok(sheets(&paper(name)?)),
    }
}

/// What a paper is called in the name of a file.
fn paper_word(paper: &PatternPaper) -> String {
    match paper {
        PatternPaper::Sheets { name, .. } => file_word(name),
        PatternPaper::Roll { .. } => "roll".to_owned(),
        PatternPaper::OnePage => "one-page".to_owned(),
    }
}

/// The page on which a printer is measured; `asked` repeats the arguments that say which paper.
pub(crate) fn calibration_page(options: &PatternOptions, asked: &str) -> Result<Product, Failure> {
    let page = pattern::calibration_page(options).map_err(Failure::said)?;
    Ok(Product {
        name: format!("printer-{}-calibration.pdf", paper_word(&options.paper)),
        what: format!(
            "calibration page; print it at 100 % and lay a steel rule on its four lines, then give all \
             four: kerfwise printer {asked} --x … --y … --rising … --falling …"
        ),
        bytes: pdf::write(&page.pdf)?,
    })
}

/// The error of a printer, kept for its next pattern.
pub(crate) fn correction(
    correction: &Correction,
    paper: &PatternPaper,
) -> Result<Product, Failure> {
    let text = serde_json::to_string_pretty(correction).map_err(Failure::said)?;
    Ok(Product {
        name: format!("printer-{}.json", paper_word(paper)),
        what: correction.words().map_err(Failure::said)?,
        bytes: (text + "\n").into_bytes(),
    })
}

/// The full-size pattern of one part, or of several on the same sheets.
pub(crate) fn pattern(
    parts: &[Part],
    stamp: &Stamp,
    options: &PatternOptions,
) -> Result<Product, Failure> {
    let built = pattern::build(parts, stamp, options).map_err(Failure::said)?;
    let names: Vec<_> = parts.iter().map(|part| part.name.as_str()).collect();
    let several = if built.summary.sheets == 1 { "" } else { "s" };
    let pages = match &options.paper {
        PatternPaper::Sheets { name, .. } => format!("sheet{several} {name}"),
        PatternPaper::Roll { width } => format!("length{several} of roll {width} mm wide"),
        PatternPaper::OnePage => format!("page{several}"),
    };
    let short = paper_word(&options.paper);
    let face = match options.face {
        Face::AsDrawn => "",
        Face::Mirrored => "-mirrored",
    };
    let saved = match built.summary.sheets_saved() {
        0 => String::new(),
        saved => format!(" ({saved} fewer than laid as drawn)"),
    };
    Ok(Product {
        name: format!("{}-pattern-{short}{face}.pdf", file_word(&names.join("-"))),
        what: format!(
            "full-size pattern of `{}`: {} {pages}{saved} and a map; print at 100 %{}",
            names.join("`, `"),
            built.summary.sheets,
            undone(options)
        ),
        bytes: pdf::write(&built.pdf)?,
    })
}

/// What is done about the printer, if it was measured.
fn undone(options: &PatternOptions) -> &'static str {
    match options.printer {
        Printer::TakenAsTrue => "",
        Printer::Measured(_) => "; the error of the printer measured is undone",
    }
}

/// The cut file and its order sheet.
pub(crate) fn cut(
    part: &Part,
    stamp: &Stamp,
    format: CutFormat,
    edition: DxfEdition,
    unit: FileUnit,
) -> Result<[Product; 2], Failure> {
    let unit = match (format, unit) {
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
    let order = cut_file::order_sheet(part, stamp).map_err(Failure::said)?;
    let picture = cut_file::picture(part);
    let comments = cut_file::comments(part, stamp);
    let (ending, bytes) = match format {
        CutFormat::Dxf => {
            let options = DxfOptions {
                version: version(edition),
                unit,
                comments,
            };
            let bytes = dxf::write(&picture, &options)?;
            contents::compare(&picture, &dxf::read_contours(&bytes, unit)?)?;
            ("dxf", bytes)
        }
        CutFormat::Svg => {
            let title = format!("{}: {}", stamp.design, part.name);
            let pens = Pens::AllContinuous(HAIR_LINE);
            let text = svg::write(
                &picture,
                &SvgOptions {
                    title,
                    comments,
                    margin: 0.0,
                    pens,
                },
            )?;
            contents::compare(&picture, &svg_read::read_contours(text.as_bytes())?)?;
            ("svg", text.into_bytes())
        }
    };
    let stem = cut_file::file_stem(part, unit);
    let what = format!(
        "cut file of `{}`, nominal finished size in {}; the shop compensates the kerf",
        part.name,
        unit.name()
    );
    let cut = Product {
        name: format!("{stem}.{ending}"),
        what,
        bytes,
    };
    let a4 = pdf::Paper::A4;
    let order = Product {
        name: format!("{}-order-sheet.pdf", file_word(&part.name)),
        what: format!("order sheet for `{}`", part.name),
        bytes: pdf::document_on_one_page(&order, a4)?,
    };
    Ok([cut, order])
}

/// The marking-out sheet.
pub(crate) fn marking_out(
    part: &Part,
    stamp: &Stamp,
    format: SheetFormat,
    paper: &Paper,
) -> Result<Product, Failure> {
    let document = marking_out::sheet(part, stamp).map_err(Failure::said)?;
    let stem = format!("{}-marking-out", file_word(&part.name));
    sheet(
        &document,
        &stem,
        format!("marking-out sheet of `{}`", part.name),
        format,
        paper,
    )
}

/// A document as a file.
pub(crate) fn sheet(
    document: &Document,
    stem: &str,
    what: String,
    format: SheetFormat,
    paper: &Paper,
) -> Result<Product, Failure> {
    let (ending, bytes) = match format {
        SheetFormat::Pdf => {
            let paper = pdf::Paper {
                width: paper.width,
                height: paper.height,
            };
            ("pdf", pdf::document(document, paper)?)
        }
        SheetFormat::Html => ("html", page(document)?),
    };
    Ok(Product {
        name: format!("{stem}.{ending}"),
        what,
        bytes,
    })
}

/// A document as one HTML page with its figures in it.
pub(crate) fn page(document: &Document) -> Result<Vec<u8>, FormatError> {
    let figure = |figure: &Figure| svg::write(&figure.picture, &SvgOptions::default());
    html::write(document, figure).map(String::into_bytes)
}

const fn version(edition: DxfEdition) -> DxfVersion {
    match edition {
        DxfEdition::R12 => DxfVersion::R12,
        DxfEdition::R2000 => DxfVersion::R2000,
        DxfEdition::R2007 => DxfVersion::R2007,
        DxfEdition::R2013 => DxfVersion::R2013,
    }
}

/// A name as part of a file name: lower case letters, digits and hyphens.
pub(crate) fn file_word(name: &str) -> String {
    let kept = |c: char| {
        if c.is_alphanumeric() {
            c.to_ascii_lowercase()
        } else {
            '-'
        }
    };
    name.chars().map(kept).collect()
}
