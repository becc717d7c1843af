//! The processes that are known without being told.

use super::ByThickness;
use super::Feed;
use super::Origin;
use super::PartSide;
use super::Process;
use super::Refusal;
use super::Start;
use super::Subject;
use crate::trade::Mark;
use crate::trade::cautions::Step;
use crate::trade::materials::Family;

const LASER_TEXT: &str =
    "Process Fundamentals of Industrial Laser Welding and Cutting, section 4.2.1 and 4.2.2";
const FORBIDDEN: &str = "lists of forbidden materials, University of Texas School of Architecture and \
                         University of Illinois Chicago";
const PLASMA_TABLE: &str = "Mathers, The Welding of Aluminium and its Alloys, Table 4.1";

/// Growth of the laser's kerf a millimetre of plate: 0.15 mm in 3 mm and 0.38 mm in 19 mm of steel.
const LASER_GROWTH: f64 = (0.38 - 0.15) / (19.0 - 3.0);

/// Leaning of a cut face a millimetre of plate, by its angle.
const ONE_DEGREE: f64 = 0.017_455_064_928_217_585;

const fn memory() -> Origin {
    trade(Mark::Remembered, "")
}

const fn practice() -> Origin {
    trade(Mark::CommonPractice, "")
}

const fn trade(mark: Mark, source: &'static str) -> Origin {
    Origin::Trade { mark, source }
}

const fn remembered(value: f64, low: f64, high: f64) -> ByThickness {
    ByThickness::constant(value, memory()).within(value - low, high - value)
}

const fn usual(per_thickness: f64, least: f64) -> ByThickness {
    ByThickness::proportional(per_thickness, least, practice())
}

/// An angle of lean in degrees, usually between two others; the spread is that of 6 mm of plate.
const fn lean(degrees: f64, low: f64, high: f64) -> ByThickness {
    ByThickness::proportional(degrees * ONE_DEGREE, 0.0, memory()).within(
        (degrees - low) * ONE_DEGREE * 6.0,
        (high - degrees) * ONE_DEGREE * 6.0,
    )
}

fn feeds(of: &[(Subject, f64, f64, f64)], origin: &Origin) -> Vec<Feed> {
    of.iter()
        .map(|&(of, thickness, low, high)| Feed {
            of,
            thickness,
            value: f64::midpoint(low, high),
            low,
            high,
            origin: origin.clone(),
        })
        .collect()
}

fn never(names: &[&'static str], why: &str, mark: Mark) -> Vec<Refusal> {
    names
        .iter()
        .map(|&name| Refusal {
            of: Subject::Material(name),
            why: why.to_owned(),
            mark,
        })
        .collect()
}

const ALUMINIUM: Subject = Subject::Family(Family::Aluminium);
const STEEL: Subject = Subject::Family(Family::Steel);
const STAINLESS: Subject = Subject::Family(Family::StainlessSteel);
const WOOD: Subject = Subject::Family(Family::Wood);
const LAMINATE: Subject = Subject::Family(Family::Laminate);
const PLASTIC: Subject = Subject::Family(Family::Plastic);
const METALS: [Subject; 3] = [ALUMINIUM, STEEL, STAINLESS];
const HDPE: Subject = Subject::Material("HDPE");
const ACRYLIC: Subject = Subject::Material("acrylic");

/// Every process that is known without being told, the usual choices of a shop first.
pub fn defaults() -> Vec<Process> {
    vec![
        waterjet(),
        laser(),
        laser_non_metal(),
        plasma(),
        fine_plasma(),
        flame(),
        router(),
        wire_erosion(),
        jigsaw(),
        band_saw(),
        circular_saw(),
        hacksaw(),
        piercing_saw(),
    ]
}

fn waterjet() -> Process {
    Process {
        aliases: &["water jet", "abrasive waterjet", "jet of water"],
        taper: Some(remembered(0.15, 0.05, 0.25)),
        tolerance: Some(remembered(0.2, 0.1, 0.25)),
        smallest_hole: Some(usual(0.75, 2.0)),
        inside_radius: Some(remembered(0.9, 0.8, 1.0)),
        web: Some(usual(0.5, 2.0)),
        pierce: Some(ByThickness::constant(1.75, practice()).within(0.25, 0.25)),
        lead_in: Some(usual(0.5, 3.0)),
        cuts: vec![ALUMINIUM, STEEL, STAINLESS, WOOD, LAMINATE, PLASTIC],
        feeds: feeds(
            &[
                (ALUMINIUM, 3.0, 900.0, 1500.0),
                (ALUMINIUM, 6.0, 400.0, 700.0),
                (ALUMINIUM, 10.0, 220.0, 400.0),
                (ALUMINIUM, 15.0, 130.0, 250.0),
                (STAINLESS, 3.0, 360.0, 750.0),
                (STAINLESS, 6.0, 160.0, 350.0),
                (STAINLESS, 10.0, 88.0, 200.0),
                (STAINLESS, 15.0, 52.0, 125.0),
                (STEEL, 3.0, 405.0, 750.0),
                (STEEL, 6.0, 180.0, 350.0),
                (STEEL, 10.0, 99.0, 200.0),
                (STEEL, 15.0, 58.5, 125.0),
                (LAMINATE, 3.0, 1350.0, 3000.0),
                (LAMINATE, 6.0, 600.0, 1400.0),
                (LAMINATE, 10.0, 330.0, 800.0),
                (HDPE, 3.0, 2700.0, 7500.0),
                (HDPE, 6.0, 1200.0, 3500.0),
                (HDPE, 10.0, 660.0, 2000.0),
                (ACRYLIC, 3.0, 1800.0, 6000.0),
                (ACRYLIC, 6.0, 800.0, 2800.0),
                (ACRYLIC, 10.0, 440.0, 1600.0),
            ],
            &memory(),
        ),
        note: "The nozzle wears, and the cut widens with it: ask for the kerf of the day. Wood gets wet."
            .to_owned(),
        ..Process::new(
            "waterjet",
            "jet of water with abrasive",
            Step::Waterjet,
            remembered(1.0, 0.8, 1.3),
        )
    }
}

fn laser() -> Process {
    let kerf = ByThickness {
        least: 0.1,
        base: 0.15 - 3.0 * LASER_GROWTH,
        per_thickness: LASER_GROWTH,
        below: 0.0,
        above: 0.0,
        origin: trade(Mark::Read, LASER_TEXT),
    }
    .within(0.08, 0.15);
    let taper = ByThickness::proportional(ONE_DEGREE, 0.0, trade(Mark::Read, LASER_TEXT))
        .within(0.0, ONE_DEGREE * 6.0);
    Process {
        aliases: &["laser metal", "fibre laser", "fiber laser", "metal laser"],
        taper: Some(taper),
        tolerance: Some(remembered(0.15, 0.1, 0.3)),
        smallest_hole: Some(ByThickness::proportional(1.0, 0.5, memory())),
        inside_radius: Some(remembered(0.3, 0.2, 0.5)),
        web: Some(usual(1.0, 1.0)),
        pierce: Some(ByThickness::constant(1.0, practice()).within(0.5, 1.0)),
        lead_in: Some(usual(0.5, 2.0)),
        cuts: METALS.to_vec(),
        feeds: feeds(
            &[
                (ALUMINIUM, 3.0, 6000.0, 15000.0),
                (ALUMINIUM, 6.0, 2000.0, 5000.0),
                (ALUMINIUM, 10.0, 800.0, 2000.0),
                (ALUMINIUM, 15.0, 400.0, 800.0),
                (STAINLESS, 6.0, 2000.0, 4000.0),
                (STAINLESS, 10.0, 800.0, 1500.0),
                (STEEL, 6.0, 2500.0, 3500.0),
                (STEEL, 10.0, 1500.0, 2200.0),
                (STEEL, 15.0, 1000.0, 1400.0),
            ],
            &memory(),
        ),
        note: "The spread of the kerf is memory: oxygen and thick plate take a wider beam."
            .to_owned(),
        ..Process::new("laser", "laser for metal", Step::Laser, kerf)
    }
}

fn laser_non_metal() -> Process {
    Process {
        aliases: &[
            "plastic laser",
            "wood laser",
            "laser plastic",
            "laser wood",
            "CO2 laser",
        ],
        taper: Some(lean(1.0, 0.5, 2.0)),
        tolerance: Some(remembered(0.15, 0.1, 0.25)),
        smallest_hole: Some(usual(0.5, 0.5)),
        inside_radius: Some(usual(0.0, 0.3)),
        web: Some(usual(1.0, 1.5)),
        pierce: Some(ByThickness::constant(0.6, practice())),
        lead_in: Some(usual(0.0, 2.0)),
        cuts: vec![WOOD, ACRYLIC],
        never: [
            never(
                &["PVC"],
                "it gives off chlorine and acid, which hurt people and ruin the machine",
                Mark::Read,
            ),
            never(
                &["polycarbonate", "HDPE"],
                "it melts or burns and gives bad smoke",
                Mark::Read,
            ),
            never(&["G10"], "epoxy and glass give poisonous smoke", Mark::Read),
        ]
        .concat(),
        feeds: feeds(
            &[(WOOD, 6.0, 500.0, 1500.0), (ACRYLIC, 6.0, 300.0, 800.0)],
            &memory(),
        ),
        note: format!("Wood is charred 0.1 to 0.5 mm deep. What it must not cut: {FORBIDDEN}."),
        ..Process::new(
            "laser-non-metal",
            "laser for wood and plastics",
            Step::Laser,
            remembered(0.25, 0.15, 0.4),
        )
    }
}

fn plasma() -> Process {
    Process {
        aliases: &["air plasma", "plasma cutter"],
        taper: Some(lean(4.0, 2.0, 8.0)),
        tolerance: Some(remembered(1.0, 0.75, 1.5)),
        smallest_hole: Some(usual(2.0, 5.0)),
        inside_radius: Some(usual(0.0, 1.8)),
        web: Some(usual(1.0, 5.0)),
        pierce: Some(usual(1.0, 3.0)),
        lead_in: Some(usual(1.0, 5.0)),
        part_on: PartSide::Right,
        cuts: METALS.to_vec(),
        feeds: feeds(
            &[
                (ALUMINIUM, 3.0, 3000.0, 3000.0),
                (ALUMINIUM, 6.5, 1000.0, 1000.0),
            ],
            &trade(Mark::Read, PLASMA_TABLE),
        ),
        note: "The side at the right of the torch is the squarer one. Heat takes temper away: remove 0.5 \
               to 1 mm where strength counts."
            .to_owned(),
        ..Process::new("plasma", "plasma, air", Step::Plasma, remembered(1.8, 1.2, 2.5))
    }
}

fn fine_plasma() -> Process {
    Process {
        aliases: &[
            "high definition plasma",
            "high tolerance plasma",
            "HD plasma",
        ],
        taper: Some(lean(2.0, 1.0, 3.0)),
        tolerance: Some(remembered(0.5, 0.25, 0.75)),
        smallest_hole: Some(usual(1.0, 5.0)),
        inside_radius: Some(usual(0.0, 1.5)),
        web: Some(usual(1.0, 3.0)),
        pierce: Some(usual(1.0, 3.0)),
        lead_in: Some(usual(1.0, 5.0)),
        part_on: PartSide::Right,
        cuts: METALS.to_vec(),
        feeds: feeds(
            &[
                (ALUMINIUM, 6.0, 1800.0, 7500.0),
                (ALUMINIUM, 10.0, 900.0, 1250.0),
                (ALUMINIUM, 12.5, 480.0, 5000.0),
            ],
            &trade(Mark::Read, PLASMA_TABLE),
        ),
        ..Process::new(
            "fine-plasma",
            "plasma, high definition",
            Step::Plasma,
            remembered(2.0, 1.3, 3.0),
        )
    }
}

fn flame() -> Process {
    let no_oxide = "its oxide does not melt away, and stops the flame";
    Process {
        aliases: &["oxy-fuel", "oxyfuel", "gas cutting", "torch"],
        taper: Some(lean(2.0, 1.0, 3.0)),
        tolerance: Some(remembered(1.2, 1.0, 1.5)),
        smallest_hole: Some(usual(2.0, 12.0)),
        inside_radius: Some(usual(0.0, 3.0)),
        web: Some(usual(0.0, 11.0)),
        pierce: Some(usual(1.0, 6.0)),
        lead_in: Some(usual(0.0, 12.0)),
        start: Start::DrilledHole,
        cuts: vec![STEEL],
        never: [ALUMINIUM, STAINLESS]
            .map(|of| Refusal {
                of,
                why: no_oxide.to_owned(),
                mark: Mark::ReadSecondHand,
            })
            .to_vec(),
        note: "Start from the edge or from a drilled hole.".to_owned(),
        ..Process::new(
            "flame",
            "flame of gas and oxygen",
            Step::Plasma,
            remembered(1.6, 1.2, 2.0),
        )
    }
}

fn router() -> Process {
    Process {
        aliases: &["milling", "milling cutter", "router bit", "routing"],
        taper: Some(remembered(0.1, 0.05, 0.2)),
        tolerance: Some(remembered(0.15, 0.05, 0.25)),
        smallest_hole: Some(usual(0.0, 7.0)),
        inside_radius: Some(usual(0.0, 3.2)),
        web: Some(usual(0.0, 3.0)),
        lead_in: Some(usual(0.0, 6.0)),
        part_on: PartSide::Left,
        cuts: vec![ALUMINIUM, WOOD, LAMINATE, PLASTIC],
        feeds: feeds(
            &[
                (ALUMINIUM, 6.0, 600.0, 1500.0),
                (WOOD, 6.0, 2000.0, 5000.0),
                (WOOD, 12.0, 1000.0, 2500.0),
                (LAMINATE, 6.0, 600.0, 1500.0),
                (HDPE, 6.0, 1500.0, 4000.0),
                (ACRYLIC, 6.0, 1000.0, 2500.0),
            ],
            &memory(),
        ),
        note: "A 6 mm bit; the cut is as wide as the bit and its run-out. A 1/4 in bit is 0.35 mm wider. \
               The feed is for one pass, and hard or thick plate takes several."
            .to_owned(),
        ..Process::new(
            "router",
            "router with a 6 mm bit",
            Step::Routing,
            remembered(6.06, 6.02, 6.1),
        )
    }
}

fn wire_erosion() -> Process {
    Process {
        aliases: &["wire EDM", "EDM", "spark erosion"],
        taper: Some(remembered(0.01, 0.0, 0.02)),
        tolerance: Some(
            ByThickness::constant(
                0.01,
                trade(Mark::ReadSecondHand, "trade table of wire erosion"),
            )
            .within(0.005, 0.01),
        ),
        smallest_hole: Some(usual(0.0, 0.8)),
        inside_radius: Some(remembered(0.18, 0.15, 0.2)),
        web: Some(usual(0.0, 0.5)),
        lead_in: Some(usual(0.0, 1.0)),
        start: Start::DrilledHole,
        longest: Some(usual(0.0, 400.0)),
        cuts: METALS.to_vec(),
        ..Process::new(
            "wire-erosion",
            "wire erosion with a 0.25 mm wire",
            Step::Always,
            ByThickness::constant(
                0.355,
                trade(Mark::ReadSecondHand, "trade table of wire erosion"),
            )
            .within(0.055, 0.055),
        )
    }
}

fn saw(key: &str, title: &str, kerf: ByThickness, wander: f64) -> Process {
    Process {
        tolerance: Some(ByThickness::constant(wander, practice())),
        start: Start::DrilledHole,
        cuts: vec![ALUMINIUM, STEEL, STAINLESS, WOOD, LAMINATE, PLASTIC],
        ..Process::new(key, title, Step::Sawing, kerf)
    }
}

fn jigsaw() -> Process {
    Process {
        aliases: &["jig saw", "sabre saw"],
        taper: Some(ByThickness::proportional(2.0 * ONE_DEGREE, 0.0, practice())),
        inside_radius: Some(usual(0.0, 12.0)),
        ..saw("jigsaw", "jigsaw by hand", remembered(1.3, 1.0, 1.6), 1.5)
    }
}

fn band_saw() -> Process {
    Process {
        aliases: &["bandsaw", "vertical bandsaw"],
        inside_radius: Some(ByThickness::constant(
            16.0,
            trade(Mark::ReadSecondHand, "machine manual: a 1/4 in blade"),
        )),
        start: Start::EdgeOnly,
        ..saw("band-saw", "band saw", remembered(1.2, 0.9, 1.5), 0.75)
    }
}

fn circular_saw() -> Process {
    Process {
        aliases: &["table saw", "track saw"],
        start: Start::EdgeOnly,
        cuts: vec![ALUMINIUM, WOOD, LAMINATE, PLASTIC],
        straight_only: true,
        ..saw(
            "circular-saw",
            "circular saw with a guide",
            remembered(2.2, 1.8, 2.6),
            0.5,
        )
    }
}

fn hacksaw() -> Process {
    Process {
        aliases: &["hack saw"],
        start: Start::EdgeOnly,
        straight_only: true,
        ..saw("hacksaw", "hacksaw", remembered(1.05, 0.9, 1.2), 1.0)
    }
}

fn piercing_saw() -> Process {
    Process {
        aliases: &["coping saw", "fret saw", "fretsaw"],
        thickest: Some(usual(0.0, 3.0)),
        ..saw(
            "piercing-saw",
            "piercing saw",
            remembered(0.45, 0.3, 0.6),
            0.5,
        )
    }
}
