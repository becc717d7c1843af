//! Cautions, in plain words, to be shown near the step they belong to.

use super::Mark;

/// A caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Caution {
    /// When it matters.
    pub step: Step,
    /// What to heed.
    pub words: &'static str,
    /// How it was come by.
    pub mark: Mark,
    /// Where it stands; empty for common practice.
    pub source: &'static str,
}

/// The step of the work that a caution belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Step {
    /// Any work at all.
    Always,
    /// Sawing, routing, drilling, filing by hand or hand-held machine, whichever of them.
    HandWork,
    /// Sawing.
    Sawing,
    /// Routing, by hand or by a machine that leads the router.
    Routing,
    /// Laser cutting.
    Laser,
    /// Plasma or flame cutting.
    Plasma,
    /// Cutting with a jet of water.
    Waterjet,
    /// Gluing a pattern on and taking it off.
    Gluing,
    /// Lifting and handling the plate.
    Handling,
}

impl Step {
    /// Whether it is work that people do with tools in their hands.
    pub const fn is_by_hand(self) -> bool {
        matches!(self, Self::HandWork | Self::Sawing | Self::Routing)
    }

    /// What the words of a caution begin with where it is not said how the part is cut: "If it is cut by
    /// laser: "; nothing for a step that any work has.
    pub const fn condition(self) -> &'static str {
        match self {
            Self::Laser => "If it is cut by laser: ",
            Self::Plasma => "If it is cut by plasma or flame: ",
            Self::Waterjet => "If it is cut by a jet of water: ",
            Self::Sawing => "If it is sawn: ",
            Self::Routing => "If it is routed: ",
            Self::Always | Self::HandWork | Self::Gluing | Self::Handling => "",
        }
    }
}

impl Caution {
    const fn new(step: Step, words: &'static str, mark: Mark, source: &'static str) -> Self {
        Self {
            step,
            words,
            mark,
            source,
        }
    }
}

/// Cautions for every material.
pub const GENERAL: &[Caution] = &[
    Caution::new(
        Step::Always,
        "Every number here is an aid. Make a trial cut in scrap and measure it.",
        Mark::CommonPractice,
        "",
    ),
    Caution::new(
        Step::Always,
        "This is no proof of strength. Where a failure can hurt somebody (lifting, pressure, vehicles, \
         buildings, craft that carry passengers), have a qualified engineer or surveyor decide.",
        Mark::CommonPractice,
        "",
    ),
    Caution::new(
        Step::HandWork,
        "Wear eye protection for every cut and every hole, and ear protection at running machines. \
         Closed shoes; no gloves, loose sleeves or jewellery near a turning cutter.",
        Mark::Read,
        "university workshop rules and protective-equipment card for cut-off saws",
    ),
    Caution::new(
        Step::Sawing,
        "Clamp the plate on both sides of the cut and support what falls off. Keep both hands on the \
         saw and the body out of its line. Pull the plug before changing a blade.",
        Mark::ReadSecondHand,
        "power-saw safety sheet",
    ),
    Caution::new(
        Step::Sawing,
        "Carbide teeth are brittle: do not twist the saw in the cut and do not set it down running.",
        Mark::CommonPractice,
        "",
    ),
    Caution::new(
        Step::Routing,
        "Clamp the plate, and hold what is cut free so that it cannot shift into the cutter. Go round \
         against the turn of the cutter, in several shallow passes. Pull the plug before changing a \
         cutter.",
        Mark::CommonPractice,
        "",
    ),
    Caution::new(
        Step::Laser,
        "Never PVC or vinyl under the laser: it gives off chlorine and acid. Nor polycarbonate, \
         polyethylene, ABS, epoxy with glass, or a plastic nobody can name.",
        Mark::Read,
        "lists of forbidden materials, University of Texas School of Architecture and University of \
         Illinois Chicago",
    ),
    Caution::new(
        Step::Waterjet,
        "Keep away from the jet. Cut edges are sharp.",
        Mark::CommonPractice,
        "",
    ),
    Caution::new(
        Step::Plasma,
        "Shade the eyes and keep onlookers away: the arc gives ultraviolet light.",
        Mark::ReadSecondHand,
        "plasma cutting safety notices",
    ),
    Caution::new(
        Step::Gluing,
        "Spray glue and solvents: open the windows, no flames.",
        Mark::CommonPractice,
        "",
    ),
    Caution::new(
        Step::Handling,
        "Take off burrs and splinters before handling.",
        Mark::CommonPractice,
        "",
    ),
];

/// Above this weight in kilograms nobody lifts alone: common practice.
const HEAVY: f64 = 25.0;

/// The caution for lifting something of so many kilograms, if it is heavy.
pub fn lifting(kilograms: f64) -> Option<&'static Caution> {
    const LIFTING: Caution = Caution::new(
        Step::Handling,
        "This is heavier than about 25 kg: lift it with two.",
        Mark::CommonPractice,
        "",
    );
    (kilograms > HEAVY).then_some(&LIFTING)
}

pub(super) const ALUMINIUM: &[Caution] = &[
    Caution::new(
        Step::Sawing,
        "Saw aluminium with a carbide blade made for it, slowly, with stick wax or light oil.",
        Mark::Remembered,
        "",
    ),
    Caution::new(
        Step::HandWork,
        "Chips of aluminium are hot and sharp. Do not grind it on a wheel that has ground steel.",
        Mark::Remembered,
        "",
    ),
    Caution::new(
        Step::Plasma,
        "Aluminium cut over a water table makes hydrogen, which must not gather under the plate or in \
         the table. Ask the shop.",
        Mark::ReadSecondHand,
        "safety notices of makers of cutting tables",
    ),
];

pub(super) const GALVANISED: &[Caution] = &[Caution::new(
    Step::Plasma,
    "Hot zinc gives fume that makes ill (limit 5 mg/m³ of zinc oxide over 8 hours). Strip the zinc \
     first, ventilate, keep your head out of the smoke. The same goes for laser and welding.",
    Mark::Read,
    "American Welding Society, Safety and Health Fact Sheet 25",
)];

pub(super) const STAINLESS: &[Caution] = &[
    Caution::new(
        Step::Plasma,
        "Hot cutting of stainless steel gives fume with hexavalent chromium, which causes cancer: \
         extract it.",
        Mark::ReadSecondHand,
        "notice of an OSHA booklet",
    ),
    Caution::new(
        Step::Handling,
        "Cut edges of stainless steel cut skin: take off the burrs first.",
        Mark::CommonPractice,
        "",
    ),
];

pub(super) const GLASS_EPOXY: &[Caution] = &[
    Caution::new(
        Step::HandWork,
        "The dust of glass and epoxy irritates skin, eyes and lungs (recommended limits 3 fibres/cm³ \
         and 5 mg/m³). Extract it or cut wet, wear a respirator against particles, wash rather than \
         blow it off.",
        Mark::Read,
        "OSHA chemical page on fibrous glass (NIOSH limits); Western Australian safety regulator",
    ),
    Caution::new(
        Step::Laser,
        "Not for the laser: epoxy and glass give poisonous smoke.",
        Mark::Read,
        "lists of forbidden materials, University of Texas School of Architecture and University of \
         Illinois Chicago",
    ),
    Caution::new(
        Step::Handling,
        "Cut edges of glass laminate cut skin.",
        Mark::CommonPractice,
        "",
    ),
];

pub(super) const NOT_FOR_LASER: &[Caution] = &[Caution::new(
    Step::Laser,
    "Not for the laser: it melts, burns or gives poisonous smoke.",
    Mark::Read,
    "lists of forbidden materials, University of Texas School of Architecture and University of Illinois \
     Chicago",
)];

pub(super) const PVC: &[Caution] = &[Caution::new(
    Step::Laser,
    "Never PVC under the laser: it gives off chlorine and acid, which hurt people and ruin the machine.",
    Mark::Read,
    "lists of forbidden materials, University of Texas School of Architecture and University of Illinois \
     Chicago",
)];

pub(super) const ACRYLIC: &[Caution] = &[Caution::new(
    Step::Waterjet,
    "Acrylic cracks under a full-pressure pierce: ask for low pressure or a drilled start hole.",
    Mark::Remembered,
    "",
)];

pub(super) const PLYWOOD: &[Caution] = &[
    Caution::new(
        Step::HandWork,
        "Wood dust irritates the airways: extract it or wear a dust mask.",
        Mark::CommonPractice,
        "",
    ),
    Caution::new(
        Step::Laser,
        "Plywood can catch fire under the laser, and unknown glues give bad smoke: ask the shop, and \
         let nobody leave the machine.",
        Mark::CommonPractice,
        "",
    ),
    Caution::new(
        Step::Waterjet,
        "Water soaks into wood: cut edges swell and raise their grain, thickness and size are off until it is \
         dry, and a full-pressure pierce can lift the plies apart. Ask the shop for pierces in the waste or drilled \
         start holes; wipe the part, dry it slowly between boards, and only then measure, glue and seal it. Where \
         it must stay dry, have it routed.",
        Mark::CommonPractice,
        "",
    ),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_caution_that_was_read_names_its_source() {
        let all = [
            GENERAL,
            ALUMINIUM,
            GALVANISED,
            STAINLESS,
            GLASS_EPOXY,
            NOT_FOR_LASER,
            PVC,
            ACRYLIC,
            PLYWOOD,
        ];
        assert_eq!(lifting(25.0), None, "two are not needed");
        let lifting = lifting(25.1).expect("heavy");
        for caution in [all.concat(), vec![*lifting]].concat() {
            assert_eq!(
                caution.mark.is_authority(),
                !caution.source.is_empty(),
                "source of: {}",
                caution.words
            );
            assert!(
                caution.words.ends_with('.'),
                "a sentence: {}",
                caution.words
            );
        }
    }
}
