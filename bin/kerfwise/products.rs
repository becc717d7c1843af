//! Files in the making: their names, bytes, and what they are.

use crate::arguments::DrawFormat;
use crate::arguments::SheetFormat;
use crate::cut_products::written_dxf;
use crate::failure::Failure;
use crate::kerf_arguments::KerfFormat;
use kerfwise::design::part::Part;
use kerfwise::documents::Stamp;
use kerfwise::documents::cut_file::CutFile;
use kerfwise::documents::drawing;
use kerfwise::documents::drawing::SheetSize;
use kerfwise::documents::kerf;
use kerfwise::documents::kerf::Compared;
use kerfwise::documents::marking_out;
use kerfwise::documents::pattern;
use kerfwise::documents::pattern::Correction;
use kerfwise::documents::pattern::Face;
use kerfwise::documents::pattern::PatternOptions;
use kerfwise::documents::pattern::PatternPaper;
use kerfwise::documents::pattern::Printer;
use kerfwise::formats::FormatError;
use kerfwise::formats::dxf::DxfOptions;
use kerfwise::formats::html;
use kerfwise::formats::pdf;
use kerfwise::formats::pdf::PdfFile;
use kerfwise::formats::pdf::PdfPage;
use kerfwise::formats::pdf::Placement;
use kerfwise::formats::png;
use kerfwise::formats::svg;
use kerfwise::formats::svg::SvgOptions;
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

/// The comparison of kerf allowances.
pub(crate) fn kerf(
    compared: &Compared<'_>,
    stamp: &Stamp,
    format: KerfFormat,
) -> Result<Vec<Product>, Failure> {
    let name = &compared.part.name;
    let stem = format!("{}-kerf", file_word(name));
    let what = format!("kerf allowances for `{name}`, side by side");
    let sheet_format = match format {
        KerfFormat::Html => SheetFormat::Html,
        KerfFormat::Pdf => SheetFormat::Pdf,
        KerfFormat::Svg => {
            let figures = compared.figures(stamp.unit).map_err(Failure::said)?;
            let file = |(index, figure): (usize, &Figure)| {
                let options = SvgOptions {
                    title: figure.caption.clone(),
                    comments: vec![stamp.line()],
                    ..SvgOptions::default()
                };
                Ok(Product {
                    name: format!("{stem}-{}.svg", index + 1),
                    what: figure.caption.clone(),
                    bytes: svg::write(&figure.picture, &options)?.into_bytes(),
                })
            };
            return figures.iter().enumerate().map(file).collect();
        }
    };
    let document = compared.document(stamp).map_err(Failure::said)?;
    let a4 = paper("a4")?;
    Ok(vec![sheet(&document, &stem, what, sheet_format, &a4)?])
}

/// The piece to cut first: its cut file, the form to read it by, and the table for the readings.
pub(crate) fn trial_cut(part: &Part, stamp: &Stamp) -> Result<Vec<Product>, Failure> {
    let picture = CutFile::nominal(part, stamp).picture();
    let options = DxfOptions {
        comments: vec![
            stamp.line(),
            "cut on the line: no allowance for the kerf".to_owned(),
        ],
        ..DxfOptions::default()
    };
    let bytes = written_dxf(&picture, &options)?;
    let cut = Product {
        name: "trial-cut-on-the-line-mm.dxf".to_owned(),
        what: "piece to cut first, on the line, without any allowance".to_owned(),
        bytes,
    };
    let form = kerf::trial_form(part, stamp).map_err(Failure::said)?;
    let form = sheet(
        &form,
        "trial-cut-form",
        "form to measure it by".to_owned(),
        SheetFormat::Pdf,
        &paper("a4")?,
    )?;
    let readings = Product {
        name: "trial-cut-readings.csv".to_owned(),
        what: "table for the readings; give it with --readings".to_owned(),
        bytes: kerf::readings_form().into_bytes(),
    };
    Ok(vec![cut, form, readings])
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
