//! Tests of what is said of a tool path of ours.

use super::*;
use crate::documents::cut_file::CutFile;
use crate::documents::samples;
use crate::formats::dxf;
use crate::formats::incoming;
use crate::formats::incoming::ReadOptions;
use crate::sheet::Picture;

/// The tool path of the guard for a cut 1 mm wide, and what its file says of itself.
fn tool_path_of_the_guard() -> (Picture, Vec<String>) {
    let (part, stamp) = (
        samples::belt_guard(),
        samples::stamp(LengthUnit::Millimetre),
    );
    let cutting = cut_file::Cutting::new(
        &part,
        crate::shop::tool_path::Setting::plain(1.0),
        crate::documents::pattern::Face::AsDrawn,
        ("waterjet", "a jet of water"),
    )
    .expect("a tool path");
    let file = CutFile {
        cutting: Some(&cutting),
        ..CutFile::nominal(&part, &stamp)
    };
    (file.picture(), file.comments())
}

#[test]
fn our_own_tool_path_is_one_finding_and_no_error() {
    let (picture, comments) = tool_path_of_the_guard();
    let mut files: Vec<Vec<u8>> = dxf::DxfVersion::ALL
        .iter()
        .map(|&version| {
            let options = dxf::DxfOptions {
                version,
                comments: comments.clone(),
                ..dxf::DxfOptions::default()
            };
            dxf::write(&picture, &options).expect("a file")
        })
        .collect();
    let options = crate::formats::svg::SvgOptions {
        comments: comments.clone(),
        ..crate::formats::svg::SvgOptions::default()
    };
    let svg = crate::formats::svg::write(&picture, &options).expect("a file");
    files.push(svg.into_bytes());
    for bytes in files {
        let drawing = incoming::read(&bytes, &ReadOptions::default()).expect("a drawing");
        let found = inspect(drawing, InspectOptions::default());
        assert_eq!(
            found.tool_path(),
            Some("for a cut 1 mm wide, by a jet of water"),
            "{:?}",
            found.drawing.comments
        );
        let rules: Vec<_> = found
            .findings
            .iter()
            .map(|one| (one.rule, one.grade))
            .collect();
        assert_eq!(
            rules,
            [(checks::Rule::ToolPath, Grade::Notice)],
            "{:?}",
            found.findings
        );
        assert!(
            found.findings[0]
                .message
                .contains("must not compensate again")
                && found.findings[0].help.contains("made without a process"),
            "{:?}",
            found.findings
        );
    }
    // lines that say nothing of themselves, or that somebody else's program wrote, are judged as edges
    for said in [Vec::new(), vec![comments[1].clone(), comments[2].clone()]] {
        let options = dxf::DxfOptions {
            comments: said,
            ..dxf::DxfOptions::default()
        };
        let bytes = dxf::write(&picture, &options).expect("a file");
        let bytes = String::from_utf8(bytes)
            .expect("text")
            .replace("kerfwise", "other");
        let drawing = incoming::read(bytes.as_bytes(), &ReadOptions::default()).expect("a drawing");
        let found = inspect(drawing, InspectOptions::default());
        assert_eq!(found.tool_path(), None, "{:?}", found.drawing.comments);
        assert!(found.has_errors(), "open leads");
    }
    // and the finished size is none
    let nominal = CutFile::nominal(
        &samples::belt_guard(),
        &samples::stamp(LengthUnit::Millimetre),
    )
    .comments();
    assert_eq!(cut_file::tool_path_said(&nominal), None, "{nominal:?}");
}
