//! What a process cuts, and what it must never be used on.

use super::Process;
use crate::trade::Mark;
use crate::trade::Material;
use crate::trade::TradeError;
use crate::trade::materials;
use crate::trade::materials::Family;

/// A material, or all of a family.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Subject {
    /// All of a family.
    Family(Family),
    /// One material, by its name.
    Material(&'static str),
}

impl Subject {
    /// The family or material called so.
    ///
    /// # Errors
    /// [`TradeError::UnknownMaterial`] with the nearest names.
    pub fn find(name: &str) -> Result<Self, TradeError> {
        let lower = name.trim().to_lowercase();
        if let Some(family) = Family::ALL
            .into_iter()
            .find(|family| family.word() == lower)
        {
            return Ok(Self::Family(family));
        }
        materials::find(name).map(|material| Self::Material(material.name))
    }

    /// Its word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Family(family) => family.word(),
            Self::Material(name) => name,
        }
    }

    /// Whether a material is it, or of it.
    pub fn holds(self, material: &Material) -> bool {
        match self {
            Self::Family(family) => family == material.family,
            Self::Material(name) => name == material.name,
        }
    }
}

/// Something that a process must never be used on.
#[derive(Clone, Debug, PartialEq)]
pub struct Refusal {
    /// What.
    pub of: Subject,
    /// Why, in words that follow "because".
    pub why: String,
    /// How it was come by.
    pub mark: Mark,
}

/// Whether a process can be used on a material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Suits<'a> {
    /// It cuts it.
    Yes,
    /// It does not cut it.
    DoesNotCut,
    /// It must never be used on it.
    Never(&'a Refusal),
}

pub(super) fn suits<'a>(process: &'a Process, material: &Material) -> Suits<'a> {
    let refused = process
        .never
        .iter()
        .find(|refusal| refusal.of.holds(material));
    if let Some(refusal) = refused {
        Suits::Never(refusal)
    } else if process.cuts.iter().any(|of| of.holds(material)) {
        Suits::Yes
    } else {
        Suits::DoesNotCut
    }
}
