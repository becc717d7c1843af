use super::*;
use crate::geometry::Contour;
use crate::geometry::SourceId;
use crate::sheet::Layer;
use crate::sheet::Pen;
use crate::sheet::Shape;

fn a4(placements: Vec<Placement>) -> PdfPage {
    PdfPage {
        width: 210.0,
        height: 297.0,
        placements,
        label: String::new(),
    }
}

fn circle_picture() -> Picture {
    let mut picture = Picture::new();
    let circle = Contour::circle(Point::new(500.0, 0.0), 400.0, SourceId::UNTRACED).unwrap();
    picture.contour(Layer::Outside, circle, Pen::solid(0.2));
    picture
}

fn file_of(pages: Vec<PdfPage>) -> PdfFile {
    PdfFile {
        title: "Test".to_owned(),
        subject: "nothing".to_owned(),
        pictures: vec![circle_picture()],
        pages,
    }
}

fn count(bytes: &[u8], part: &str) -> usize {
    let part = part.as_bytes();
    bytes
        .windows(part.len())
        .filter(|window| *window == part)
        .count()
}

#[test]
fn one_picture_on_many_pages_is_written_once_and_the_paper_is_exact() {
    let page = |x| a4(vec![Placement::new(0, Motion::shift(Vec2::new(x, 20.0)))]);
    let bytes = write(&file_of(vec![page(0.0), page(-190.0), page(-380.0)])).unwrap();
    for (part, times) in [
        ("/Subtype /Form", 1),
        ("/Type /Page\n", 3),
        // ISO 216 A4 in points: 595.275590551 × 841.889763780
        ("/MediaBox [0 0 595.2756 841.8898]", 3),
        ("/PrintScaling /None", 1),
        ("/Type /OCG", 1),
    ] {
        assert_eq!(count(&bytes, part), times, "{part}");
    }
    assert_eq!(count(&bytes, "Date"), 0, "no dates");
}

#[test]
fn the_same_file_gives_the_same_bytes_and_another_another_identity() {
    let file = file_of(vec![a4(vec![Placement::new(0, Motion::IDENTITY)])]);
    assert_eq!(write(&file), write(&file), "two writings");
    let identity = |file: &PdfFile| {
        let bytes = write(file).unwrap();
        let start = bytes
            .windows(4)
            .rposition(|window| window == b"/ID ")
            .unwrap();
        bytes[start..start + 40].to_vec()
    };
    let mut other = file.clone();
    other.pages.push(a4(Vec::new()));
    assert_ne!(identity(&file), identity(&other), "identities");
}

#[test]
fn pages_and_pictures_that_cannot_be_written_are_refused() {
    let mut page = a4(Vec::new());
    page.width = 5081.0;
    let found = write(&file_of(vec![page.clone()]));
    assert!(
        matches!(found, Err(FormatError::PageSize { .. })),
        "{found:?}"
    );
    page.width = f64::NAN;
    let found = write(&file_of(vec![page]));
    assert!(
        matches!(found, Err(FormatError::PageSize { .. })),
        "{found:?}"
    );
    let found = write(&file_of(Vec::new()));
    assert_eq!(found, Err(FormatError::NoPages), "no pages");
    let found = write(&file_of(vec![a4(vec![Placement::new(
        7,
        Motion::IDENTITY,
    )])]));
    assert!(
        matches!(found, Err(FormatError::NoSuchPicture { .. })),
        "{found:?}"
    );
    let mut placement = Placement::new(0, Motion::IDENTITY);
    placement.stretch.x_axis = Vec2::ZERO;
    let found = write(&file_of(vec![a4(vec![placement])]));
    assert!(
        matches!(found, Err(FormatError::NotUsable { .. })),
        "{found:?}"
    );
    let far = Motion::shift(Vec2::new(f64::NAN, 0.0));
    let found = write(&file_of(vec![a4(vec![Placement::new(0, far)])]));
    assert!(
        matches!(found, Err(FormatError::NotUsable { .. })),
        "{found:?}"
    );
    let mut file = file_of(vec![a4(Vec::new())]);
    let pen = Pen::solid(0.2);
    file.pictures[0].stroke(Layer::Drill, Shape::Spot(Point::new(24e3, 0.0)), pen);
    let found = write(&file);
    assert!(
        matches!(found, Err(FormatError::DrawingTooLarge { .. })),
        "{found:?}"
    );
}

#[test]
fn an_empty_picture_is_an_empty_page() {
    let mut file = file_of(vec![a4(vec![Placement::new(0, Motion::IDENTITY)])]);
    file.pictures = vec![Picture::new()];
    let bytes = write(&file).unwrap();
    assert_eq!(count(&bytes, "/Form"), 0, "no form for nothing");
    assert_eq!(count(&bytes, "/OCProperties"), 0, "no layers for nothing");
}
