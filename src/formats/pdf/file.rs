//! The objects of the file.

use std::collections::BTreeMap;

use pdf_writer::Content;
use pdf_writer::Filter;
use pdf_writer::Finish;
use pdf_writer::Name;
use pdf_writer::Pdf;
use pdf_writer::Rect as PdfRect;
use pdf_writer::Ref;
use pdf_writer::TextStr;
use pdf_writer::types::NumberingStyle;
use sha2::Digest;
use sha2::Sha256;

use super::LARGEST_SIDE;
use super::LEAST_SIDE;
use super::POINTS;
use super::PdfFile;
use super::PdfPage;
use super::Placement;
use super::drawing;
use super::drawing::Drawing;
use super::drawing::single;
use super::letters::FontReferences;
use super::letters::Letters;
use crate::formats::FormatError;
use crate::formats::font;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::sheet::Layer;

/// Compressed as the format wants it.
pub(super) fn compressed(bytes: &[u8]) -> Vec<u8> {
    miniz_oxide::deflate::compress_to_vec_zlib(bytes, 6)
}

/// Numbers of the objects that others refer to.
struct References {
    last: Ref,
    catalog: Ref,
    page_tree: Ref,
    information: Ref,
    font: FontReferences,
    layers: BTreeMap<Layer, Ref>,
    /// One a picture; `None` for an empty one.
    pictures: Vec<Option<Ref>>,
    pages: Vec<Ref>,
}

pub(super) fn write(file: &PdfFile) -> Result<Vec<u8>, FormatError> {
    check(file)?;
    let mut letters = Letters::default();
    let mut drawings = Vec::new();
    for picture in &file.pictures {
        drawings.push(drawing::draw(picture, &mut letters)?);
    }
    let mut references = references(file, &drawings);
    let mut pdf = Pdf::new();
    write_catalog(&mut pdf, file, &references);
    write_information(&mut pdf, file, &references);
    for (layer, &reference) in &references.layers {
        let mut group = pdf.indirect(reference).dict();
        group.pair(Name(b"Type"), Name(b"OCG"));
        group.pair(Name(b"Name"), TextStr(layer.name()));
    }
    for (drawing, reference) in drawings.iter().zip(&references.pictures) {
        if let (Some(drawing), Some(reference)) = (drawing, reference) {
            write_picture(&mut pdf, drawing, *reference, &references);
        }
    }
    pdf.pages(references.page_tree)
        .kids(references.pages.iter().copied())
        .count(i32::try_from(file.pages.len()).unwrap_or(i32::MAX));
    for (page, reference) in file.pages.iter().zip(references.pages.clone()) {
        let contents = references.last.bump();
        write_page(
            &mut pdf,
            page,
            [reference, contents],
            (&drawings, &references),
        );
    }
    if !letters.is_empty() {
        letters.write(&mut pdf, &references.font)?;
    }
    let digest = Sha256::digest(pdf.as_bytes());
    let identity: Vec<u8> = digest.iter().take(16).copied().collect();
    pdf.set_file_id((identity.clone(), identity));
    Ok(pdf.finish())
}

fn check(file: &PdfFile) -> Result<(), FormatError> {
    if file.pages.is_empty() {
        return Err(FormatError::NoPages);
    }
    for (index, page) in file.pages.iter().enumerate() {
        let fits = |side: f64| (LEAST_SIDE..=LARGEST_SIDE).contains(&side);
        if !fits(page.width) || !fits(page.height) {
            return Err(FormatError::PageSize {
                width: page.width,
                height: page.height,
                least: LEAST_SIDE,
                largest: LARGEST_SIDE,
            });
        }
        for placement in &page.placements {
            if placement.picture >= file.pictures.len() {
                return Err(FormatError::NoSuchPicture {
                    page: index + 1,
                    index: placement.picture,
                    pictures: file.pictures.len(),
                });
            }
            check_placement(placement)?;
        }
    }
    Ok(())
}

fn check_placement(placement: &Placement) -> Result<(), FormatError> {
    let stretch = &placement.stretch;
    let area = stretch.x_axis.cross(stretch.y_axis);
    if !area.is_finite() || area == 0.0 {
        return Err(FormatError::NotUsable {
            what: "stretch of a picture",
            value: area,
            needed: "axes that are not parallel",
        });
    }
    let shift = placement.motion.point(Point::ORIGIN).to_vec2() + stretch.about.to_vec2();
    let clip = placement
        .clip
        .map_or(0.0, |clip| clip.x0 + clip.y0 + clip.x1 + clip.y1);
    let sum = shift.x + shift.y + clip;
    if sum.is_finite() {
        return Ok(());
    }
    Err(FormatError::NotUsable {
        what: "place of a picture",
        value: sum,
        needed: "a number of mm",
    })
}

fn references(file: &PdfFile, drawings: &[Option<Drawing>]) -> References {
    let mut last = Ref::new(1);
    let mut next = || last.bump();
    let (catalog, page_tree, information) = (next(), next(), next());
    let font = FontReferences {
        font: next(),
        descendant: next(),
        descriptor: next(),
        program: next(),
        characters: next(),
    };
    let used = |layer: &Layer| {
        let in_drawing = |drawing: &Drawing| drawing.layers.contains(layer);
        drawings.iter().flatten().any(in_drawing)
    };
    let layers: Vec<Layer> = Layer::ALL.into_iter().filter(used).collect();
    let layers = layers.into_iter().map(|layer| (layer, next())).collect();
    let pictures = drawings
        .iter()
        .map(|drawing| drawing.as_ref().map(|_| next()))
        .collect();
    let pages = file.pages.iter().map(|_| next()).collect();
    References {
        last,
        catalog,
        page_tree,
        information,
        font,
        layers,
        pictures,
        pages,
    }
}

fn write_catalog(pdf: &mut Pdf, file: &PdfFile, references: &References) {
    let mut catalog = pdf.catalog(references.catalog);
    catalog.pages(references.page_tree);
    let mut preferences = catalog.viewer_preferences();
    preferences.pair(Name(b"PrintScaling"), Name(b"None"));
    preferences.pair(Name(b"PickTrayByPDFSize"), true);
    preferences.display_doc_title(!file.title.is_empty());
    preferences.finish();
    if file.pages.iter().any(|page| !page.label.is_empty()) {
        let mut labels = catalog.insert(Name(b"PageLabels")).dict();
        let mut entries = labels.insert(Name(b"Nums")).array();
        for (index, page) in (0..).zip(&file.pages) {
            entries.item(index);
            let mut label = entries.push().start::<pdf_writer::writers::PageLabel<'_>>();
            if page.label.is_empty() {
                label.style(NumberingStyle::Arabic).offset(index + 1);
            } else {
                label.prefix(TextStr(&font::displayable(&page.label)));
            }
        }
    }
    if references.layers.is_empty() {
        return;
    }
    let groups = || references.layers.values().copied();
    let mut content = catalog.insert(Name(b"OCProperties")).dict();
    content.insert(Name(b"OCGs")).array().items(groups());
    let mut shown = content.insert(Name(b"D")).dict();
    shown.pair(Name(b"Name"), TextStr("Layers"));
    shown.insert(Name(b"Order")).array().items(groups());
}

fn write_information(pdf: &mut Pdf, file: &PdfFile, references: &References) {
    let mut information = pdf.document_info(references.information);
    if !file.title.is_empty() {
        information.title(TextStr(&font::displayable(&file.title)));
    }
    if !file.subject.is_empty() {
        information.subject(TextStr(&font::displayable(&file.subject)));
    }
    let maker = concat!("Kerfwise ", env!("CARGO_PKG_VERSION"));
    information.creator(TextStr(maker)).producer(TextStr(maker));
}

fn write_picture(pdf: &mut Pdf, drawing: &Drawing, reference: Ref, references: &References) {
    let packed = compressed(&drawing.operators);
    let mut form = pdf.form_xobject(reference, &packed);
    form.filter(Filter::FlateDecode);
    // a millimetre more all round: what is drawn must not be cut off by rounding
    let room = drawing.extent.inflate(1.0, 1.0) - drawing.centre.to_vec2();
    form.bbox(points(room));
    let mut resources = form.resources();
    if drawing.has_words {
        resources.fonts().pair(drawing::FONT, references.font.font);
    }
    let mut groups = resources.insert(Name(b"Properties")).dict();
    for layer in &drawing.layers {
        if let Some(&group) = references.layers.get(layer) {
            groups.pair(Name(layer.name().as_bytes()), group);
        }
    }
}

fn write_page(
    pdf: &mut Pdf,
    page: &PdfPage,
    [reference, contents]: [Ref; 2],
    (drawings, references): (&[Option<Drawing>], &References),
) {
    let mut content = Content::new();
    let mut shown: BTreeMap<String, Ref> = BTreeMap::new();
    for placement in &page.placements {
        let drawing = drawings.get(placement.picture).and_then(Option::as_ref);
        let picture = references
            .pictures
            .get(placement.picture)
            .copied()
            .flatten();
        let (Some(drawing), Some(picture)) = (drawing, picture) else {
            continue;
        };
        let name = format!("P{}", placement.picture);
        content.save_state();
        if let Some(clip) = placement.clip {
            let window = points(clip.abs());
            let (width, height) = (window.x2 - window.x1, window.y2 - window.y1);
            content.rect(window.x1, window.y1, width, height);
            content.clip_nonzero().end_path();
        }
        content.transform(matrix(placement, drawing));
        content.x_object(Name(name.as_bytes()));
        content.restore_state();
        shown.insert(name, picture);
    }
    let packed = compressed(content.finish().as_slice());
    pdf.stream(contents, &packed).filter(Filter::FlateDecode);
    let whole = Rect::new(0.0, 0.0, page.width, page.height);
    let mut object = pdf.page(reference);
    object
        .parent(references.page_tree)
        .media_box(points(whole))
        .contents(contents);
    let mut resources = object.resources();
    let mut pictures = resources.x_objects();
    for (name, picture) in &shown {
        pictures.pair(Name(name.as_bytes()), *picture);
    }
}

/// From the drawing's points about its centre to points of the page.
fn matrix(placement: &Placement, drawing: &Drawing) -> [f32; 6] {
    let axis = |unit: Vec2| {
        let turned = placement.motion.vector(unit);
        placement.stretch.vector(turned)
    };
    let (x, y) = (axis(Vec2::new(1.0, 0.0)), axis(Vec2::new(0.0, 1.0)));
    let centre = placement
        .stretch
        .point(placement.motion.point(drawing.centre));
    let shift = centre.to_vec2() * POINTS;
    [x.x, x.y, y.x, y.y, shift.x, shift.y].map(single)
}

fn points(rect: Rect) -> PdfRect {
    let [x0, y0, x1, y1] = [rect.x0, rect.y0, rect.x1, rect.y1].map(|side| single(side * POINTS));
    PdfRect::new(x0, y0, x1, y1)
}
