//! Materials of flat parts: density, strength, stiffness, growth with heat.

mod data;

use super::Caution;
use super::Figure;
use super::TradeError;
use super::names;
pub use data::ALL;

/// A material; a figure that is missing is not known here, and the user has to give it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Material {
    /// Its name here.
    pub name: &'static str,
    /// Other names it is found by; order of words, case and punctuation do not matter.
    pub aliases: &'static [&'static str],
    /// What family it is of.
    pub family: Family,
    /// kg/m³.
    pub density: Figure,
    /// Yield or 0.2 % proof strength in megapascals; none for a brittle material.
    pub yield_strength: Option<Strength>,
    /// Ultimate strength in megapascals: in tension, in bending for plywood and laminates.
    pub ultimate_strength: Option<Strength>,
    /// Modulus of elasticity in gigapascals; in bending for plywood and laminates.
    pub elasticity: Option<Figure>,
    /// Growth with heat in 1e-6 per kelvin.
    pub expansion: Option<Figure>,
    /// What to heed with it, besides [`super::cautions::GENERAL`].
    pub cautions: &'static [&'static [Caution]],
    /// What a reader should know about the figures; may be empty.
    pub note: &'static str,
}

/// A strength, and whether one may count on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strength {
    /// In megapascals.
    pub figure: Figure,
    /// Whether it is promised or only usual.
    pub kind: StrengthKind,
}

/// Whether a strength is promised.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StrengthKind {
    /// The least that a standard or specification asks of the material.
    Minimum,
    /// What it usually has; half of all plates may have less.
    Typical,
}

/// Families of materials.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Family {
    /// Aluminium and its alloys.
    Aluminium,
    /// Steel that rusts, coated or not.
    Steel,
    /// Stainless steel.
    StainlessSteel,
    /// Wood, plywood, fibreboard.
    Wood,
    /// Fibres in resin.
    Laminate,
    /// Plastics without fibres.
    Plastic,
}

impl Family {
    /// Every family.
    pub const ALL: [Self; 6] = [
        Self::Aluminium,
        Self::Steel,
        Self::StainlessSteel,
        Self::Wood,
        Self::Laminate,
        Self::Plastic,
    ];

    /// Its word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Aluminium => "aluminium",
            Self::Steel => "steel",
            Self::StainlessSteel => "stainless steel",
            Self::Wood => "wood",
            Self::Laminate => "laminate",
            Self::Plastic => "plastic",
        }
    }
}

impl Material {
    /// Cautions for this material alone.
    pub fn cautions(&self) -> impl Iterator<Item = &'static Caution> {
        self.cautions.iter().copied().flatten()
    }

    /// Mass in kg of a plate of this material.
    ///
    /// # Units
    /// `area` in mm², `thickness` in mm.
    ///
    /// # Example
    /// A blade of 1200 × 300 × 8 mm in an alloy of 2700 kg/m³:
    /// ```
    /// let alloy = kerfwise::trade::materials::find("6061-T6")?;
    /// assert!((alloy.mass(1200.0 * 300.0, 8.0) - 7.776).abs() < 1e-12, "kg");
    /// # Ok::<(), kerfwise::trade::TradeError>(())
    /// ```
    pub fn mass(&self, area: f64, thickness: f64) -> f64 {
        // kg/m³ = 1e-9 kg/mm³
        area * thickness * self.density.value * 1e-9
    }
}

/// The material called so, in any order of words, case and punctuation: `aluminium 5083`,
/// `Steel, galvanised`, `G10`.
///
/// # Errors
/// [`TradeError::UnknownMaterial`] with the nearest names.
pub fn find(name: &str) -> Result<&'static Material, TradeError> {
    let known = || ALL.iter().map(|material| (material.name, material.aliases));
    names::place(name, known())
        .and_then(|place| ALL.get(place))
        .ok_or_else(|| TradeError::UnknownMaterial {
            asked: name.to_owned(),
            nearest: names::nearest(name, known()),
        })
}

#[cfg(test)]
mod tests;
