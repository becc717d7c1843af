//! The table of materials.

use super::Family;
use super::Material;
use super::Strength;
use super::StrengthKind;
use crate::trade::Figure;
use crate::trade::Mark;
use crate::trade::cautions;

const STOCKISTS: &str = "data sheets of stockholders";
const MAKERS: &str = "data sheets of makers of laminate, three agreeing";
const MEMORY: &str = "";

const fn minimum(value: f64, mark: Mark, source: &'static str) -> Strength {
    Strength {
        figure: Figure::exact(value, mark, source),
        kind: StrengthKind::Minimum,
    }
}

const fn usual(value: f64, low: f64, high: f64, mark: Mark, source: &'static str) -> Strength {
    Strength {
        figure: Figure::within(value, (low, high), mark, source),
        kind: StrengthKind::Typical,
    }
}

const fn figure(value: f64, low: f64, high: f64, mark: Mark, source: &'static str) -> Figure {
    Figure::within(value, (low, high), mark, source)
}

/// Every material that is known here.
pub const ALL: &[Material] = &[
    Material {
        name: "aluminium",
        aliases: &["alloy aluminium", "light alloy"],
        family: Family::Aluminium,
        density: figure(2700.0, 2650.0, 2710.0, Mark::ReadSecondHand, STOCKISTS),
        yield_strength: None,
        ultimate_strength: None,
        elasticity: Some(figure(69.0, 68.0, 71.0, Mark::ReadSecondHand, STOCKISTS)),
        expansion: Some(figure(
            23.4,
            22.9,
            24.0,
            Mark::ReadSecondHand,
            "Callister, Fundamentals of Materials Science and Engineering, Table B.6",
        )),
        cautions: &[cautions::ALUMINIUM],
        note: "Name the alloy and its temper for a strength: they differ tenfold.",
    },
    Material {
        name: "aluminium 6061-T6",
        aliases: &[
            "6061",
            "6061-T6",
            "6061-T651",
            "aluminium 6061",
            "aluminium 6061-T651",
            "EN AW-6061",
        ],
        family: Family::Aluminium,
        density: Figure::exact(2700.0, Mark::ReadSecondHand, STOCKISTS),
        yield_strength: Some(minimum(240.0, Mark::Remembered, "ASTM B209, EN 485-2")),
        ultimate_strength: Some(minimum(290.0, Mark::ReadSecondHand, "ASTM B209, restated")),
        elasticity: Some(figure(69.0, 68.0, 69.0, Mark::ReadSecondHand, STOCKISTS)),
        expansion: Some(figure(
            23.6,
            23.2,
            23.6,
            Mark::ReadSecondHand,
            "Callister, Fundamentals of Materials Science and Engineering, Table B.6",
        )),
        cautions: &[cautions::ALUMINIUM],
        note: "Usual plate has 276 and 310 MPa, which is not promised. Heat takes the temper away.",
    },
    Material {
        name: "aluminium 5083-H116",
        aliases: &[
            "5083",
            "5083-H116",
            "5083-H321",
            "aluminium 5083",
            "aluminium 5083-H321",
            "marine aluminium",
            "EN AW-5083",
        ],
        family: Family::Aluminium,
        density: figure(2660.0, 2650.0, 2660.0, Mark::ReadSecondHand, STOCKISTS),
        yield_strength: Some(minimum(215.0, Mark::Remembered, "ASTM B928, EN 485-2")),
        ultimate_strength: Some(minimum(305.0, Mark::Remembered, "ASTM B928, EN 485-2")),
        elasticity: Some(figure(
            71.0,
            70.0,
            71.0,
            Mark::ReadSecondHand,
            "aluminium association data, not for design",
        )),
        expansion: Some(figure(23.4, 23.4, 24.0, Mark::ReadSecondHand, STOCKISTS)),
        cautions: &[cautions::ALUMINIUM],
        note: "A mill page gives 275 and 175 MPa as minimum: go by the certificate of your plate.",
    },
    Material {
        name: "stainless steel 304",
        aliases: &[
            "304",
            "1.4301",
            "A2",
            "stainless steel",
            "stainless",
            "steel stainless 1.4301",
        ],
        family: Family::StainlessSteel,
        density: Figure::exact(8000.0, Mark::ReadSecondHand, STOCKISTS),
        yield_strength: Some(minimum(205.0, Mark::Remembered, MEMORY)),
        ultimate_strength: Some(minimum(515.0, Mark::Remembered, MEMORY)),
        elasticity: Some(figure(193.0, 193.0, 200.0, Mark::ReadSecondHand, STOCKISTS)),
        expansion: Some(Figure::exact(
            17.2,
            Mark::ReadSecondHand,
            "Callister, Fundamentals of Materials Science and Engineering, Table B.6",
        )),
        cautions: &[cautions::STAINLESS],
        note: "",
    },
    Material {
        name: "stainless steel 316",
        aliases: &[
            "316",
            "316L",
            "1.4401",
            "A4",
            "steel stainless 1.4401",
            "marine stainless steel",
        ],
        family: Family::StainlessSteel,
        density: Figure::exact(8000.0, Mark::Remembered, MEMORY),
        yield_strength: Some(minimum(205.0, Mark::Remembered, MEMORY)),
        ultimate_strength: Some(minimum(515.0, Mark::Remembered, MEMORY)),
        elasticity: Some(figure(193.0, 193.0, 200.0, Mark::Remembered, MEMORY)),
        expansion: Some(figure(
            15.9,
            15.9,
            16.5,
            Mark::ReadSecondHand,
            "Callister, Fundamentals of Materials Science and Engineering, Table B.6",
        )),
        cautions: &[cautions::STAINLESS],
        note: "",
    },
    Material {
        name: "steel S235JR",
        aliases: &[
            "steel",
            "mild steel",
            "S235",
            "S235JR",
            "steel S235",
            "black steel",
            "carbon steel",
        ],
        family: Family::Steel,
        density: Figure::exact(7850.0, Mark::ReadSecondHand, STOCKISTS),
        yield_strength: Some(minimum(
            235.0,
            Mark::ReadSecondHand,
            "EN 10025-2, Table 7, up to 16 mm",
        )),
        ultimate_strength: Some(minimum(360.0, Mark::ReadSecondHand, "EN 10025-2, Table 7")),
        elasticity: Some(Figure::exact(210.0, Mark::Remembered, MEMORY)),
        expansion: Some(figure(12.0, 11.7, 12.0, Mark::Remembered, MEMORY)),
        cautions: &[],
        note: "",
    },
    Material {
        name: "steel, galvanised",
        aliases: &[
            "galvanised",
            "galvanised steel plate",
            "galvanised mild steel",
            "zinced steel",
        ],
        family: Family::Steel,
        density: Figure::exact(7850.0, Mark::ReadSecondHand, STOCKISTS),
        yield_strength: Some(minimum(
            235.0,
            Mark::ReadSecondHand,
            "EN 10025-2, Table 7, as S235JR",
        )),
        ultimate_strength: Some(minimum(
            360.0,
            Mark::ReadSecondHand,
            "EN 10025-2, Table 7, as S235JR",
        )),
        elasticity: Some(Figure::exact(210.0, Mark::Remembered, MEMORY)),
        expansion: Some(figure(12.0, 11.7, 12.0, Mark::Remembered, MEMORY)),
        cautions: &[cautions::GALVANISED],
        note: "Taken as S235JR with its coating; the coating counts in the thickness.",
    },
    Material {
        name: "okoume plywood",
        aliases: &[
            "okoume",
            "gaboon plywood",
            "marine plywood",
            "okoume marine plywood",
        ],
        family: Family::Wood,
        density: figure(
            450.0,
            430.0,
            500.0,
            Mark::ReadSecondHand,
            "published list of masses of a maker of plywood",
        ),
        yield_strength: None,
        ultimate_strength: Some(usual(25.0, 25.0, 50.0, Mark::Remembered, MEMORY)),
        elasticity: Some(figure(4.0, 4.0, 6.0, Mark::Remembered, MEMORY)),
        expansion: Some(figure(6.5, 5.0, 8.0, Mark::Remembered, MEMORY)),
        cautions: &[cautions::PLYWOOD],
        note: "Nearly always thinner than its name says: measure it. Moisture moves it more than heat.",
    },
    Material {
        name: "birch plywood",
        aliases: &["birch"],
        family: Family::Wood,
        density: figure(680.0, 640.0, 720.0, Mark::Remembered, MEMORY),
        yield_strength: None,
        ultimate_strength: None,
        elasticity: None,
        expansion: None,
        cautions: &[cautions::PLYWOOD],
        note: "",
    },
    Material {
        name: "MDF",
        aliases: &[
            "medium density fibreboard",
            "medium density fiberboard",
            "fibreboard",
        ],
        family: Family::Wood,
        density: figure(750.0, 700.0, 800.0, Mark::Remembered, MEMORY),
        yield_strength: None,
        ultimate_strength: None,
        elasticity: None,
        expansion: None,
        cautions: &[cautions::PLYWOOD],
        note: "For templates; water makes it swell for good.",
    },
    Material {
        name: "G10",
        aliases: &[
            "FR4",
            "G10/FR4",
            "G-10",
            "FR-4",
            "glass epoxy",
            "epoxy glass laminate",
            "EP GC 202",
        ],
        family: Family::Laminate,
        density: figure(1850.0, 1800.0, 1900.0, Mark::ReadSecondHand, MAKERS),
        yield_strength: None,
        ultimate_strength: Some(usual(310.0, 310.0, 379.0, Mark::ReadSecondHand, MAKERS)),
        elasticity: Some(figure(15.2, 15.2, 18.6, Mark::ReadSecondHand, MAKERS)),
        expansion: Some(figure(9.0, 9.0, 9.0, Mark::ReadSecondHand, MAKERS)),
        cautions: &[cautions::GLASS_EPOXY],
        note: "Brittle. Bending across its length; along it, 379 MPa and 18.6 GPa.",
    },
    Material {
        name: "HDPE",
        aliases: &[
            "polyethylene",
            "PE-HD",
            "PE 300",
            "high density polyethylene",
        ],
        family: Family::Plastic,
        density: figure(955.0, 950.0, 960.0, Mark::Remembered, MEMORY),
        yield_strength: Some(usual(23.0, 23.0, 30.0, Mark::Remembered, MEMORY)),
        ultimate_strength: Some(usual(25.0, 25.0, 35.0, Mark::Remembered, MEMORY)),
        elasticity: Some(figure(0.8, 0.8, 1.1, Mark::Remembered, MEMORY)),
        expansion: Some(figure(150.0, 110.0, 200.0, Mark::Remembered, MEMORY)),
        cautions: &[cautions::NOT_FOR_LASER],
        note: "1 m grows by 3 mm in 20 K.",
    },
    Material {
        name: "acrylic",
        aliases: &["PMMA", "acrylic glass", "acrylic sheet"],
        family: Family::Plastic,
        density: Figure::exact(
            1190.0,
            Mark::Read,
            "United States federal guide specification",
        ),
        yield_strength: None,
        ultimate_strength: Some(minimum(
            62.0,
            Mark::Read,
            "United States federal guide specification",
        )),
        elasticity: Some(Figure::exact(
            2.76,
            Mark::Read,
            "United States federal guide specification",
        )),
        expansion: Some(Figure::exact(
            72.0,
            Mark::Read,
            "United States federal guide specification",
        )),
        cautions: &[cautions::ACRYLIC],
        note: "Brittle: no sharp inside corners.",
    },
    Material {
        name: "polycarbonate",
        aliases: &["PC", "polycarbonate sheet"],
        family: Family::Plastic,
        density: figure(1200.0, 1190.0, 1220.0, Mark::Remembered, MEMORY),
        yield_strength: Some(usual(60.0, 55.0, 65.0, Mark::Remembered, MEMORY)),
        ultimate_strength: None,
        elasticity: Some(figure(2.3, 2.2, 2.4, Mark::Remembered, MEMORY)),
        expansion: Some(figure(68.0, 65.0, 70.0, Mark::Remembered, MEMORY)),
        cautions: &[cautions::NOT_FOR_LASER],
        note: "",
    },
    Material {
        name: "PVC",
        aliases: &["vinyl", "polyvinyl chloride", "PVC sheet", "PVC foam board"],
        family: Family::Plastic,
        density: figure(1400.0, 1350.0, 1450.0, Mark::Remembered, MEMORY),
        yield_strength: None,
        ultimate_strength: None,
        elasticity: Some(figure(3.0, 2.4, 4.1, Mark::Remembered, MEMORY)),
        expansion: Some(figure(70.0, 50.0, 100.0, Mark::Remembered, MEMORY)),
        cautions: &[cautions::PVC],
        note: "The hard sheet; foamed board weighs less than half.",
    },
];
