//! The index page of a job folder.

use super::DocumentError;
use super::Stamp;
use super::drawing;
use crate::design::part::Part;
use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Document;
use crate::sheet::Figure;
use crate::sheet::Table;

/// Which cut files are in the folder.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CutFiles {
    /// The finished size.
    Nominal,
    /// The finished size, and the tool path beside it.
    NominalAndToolPath,
}

/// The page that says what is in the folder: `files` are names with what they are.
///
/// # Errors
/// As [`drawing::draw`].
pub fn index<'a>(
    parts: &[&Part],
    stamp: &Stamp,
    cut_files: CutFiles,
    files: impl Iterator<Item = (&'a str, &'a str)>,
) -> Result<Document, DocumentError> {
    let mut table = Table::new(
        "Files",
        vec![
            Column::words("File", "file"),
            Column::words("What it is", "what"),
        ],
    );
    for (name, what) in files {
        table.row(vec![Cell::File(name.to_owned()), what.into()]);
    }
    let mut blocks = vec![
        Block::Paragraph(
            "Everything here was made from one design in one run; the same design number stands on \
             every paper and in every file. Papers or files with another number do not belong to it."
                .to_owned(),
        ),
        Block::Table(table),
        Block::Heading("Before anything is cut".to_owned()),
        Block::List(vec![
            "Print patterns at actual size (100 %), then measure the scale bars and the check \
             distances with a steel rule before gluing."
                .to_owned(),
            match cut_files {
                CutFiles::Nominal => {
                    "The cut files hold the finished size, as DXF and as SVG: send one of them. Let one side \
                     only compensate the kerf: the shop. Send with the file the order sheet that has its \
                     name, which says so."
                }
                CutFiles::NominalAndToolPath => {
                    "There are two kinds of cut file, and each file has its own order sheet, with its name. A shop gets the \
                     one with “nominal” in its name: the finished size, and the shop compensates the \
                     kerf. The one with “tool-path” in its name is compensated already: for your own \
                     machine, or by written agreement. Never send both, and look at the drawing of the \
                     tool path before you cut."
                }
            }
            .to_owned(),
            "Limits, loads and safety are judged by the rules of the class, local codes and \
             qualified people, not by this folder."
                .to_owned(),
        ]),
    ];
    for part in parts {
        let drawn = drawing::draw(part, stamp, drawing::SheetSize::A4)?;
        blocks.push(Block::Heading(format!("Part “{}”", part.name)));
        blocks.push(Block::Figure(Figure {
            picture: drawn.picture,
            caption: format!("Drawing of “{}”, scale {}", part.name, drawn.scale),
        }));
    }
    let title = if stamp.design.is_empty() {
        "Job folder".to_owned()
    } else {
        stamp.design.clone()
    };
    Ok(Document {
        title,
        footer: stamp.line(),
        blocks,
    })
}
