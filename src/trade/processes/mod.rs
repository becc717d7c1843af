//! Ways of cutting a plate: how wide the cut is and what follows from it, each value with its mark.
//!
//! Nothing here is promised by anybody: the shop's own figures always win, and carry the name of who
//! gave them. What was only remembered or is usual practice warns, and fails nothing.

mod data;
mod feed;
mod figure;
pub mod iso9013;
mod suits;

use super::Material;
use super::TradeError;
use super::cautions::Step;
use super::names;
pub use data::defaults;
pub use feed::Feed;
pub use figure::ByThickness;
pub use figure::Origin;
pub use suits::Refusal;
pub use suits::Subject;
pub use suits::Suits;

/// A way of cutting. A figure that is missing is not known, and nothing is checked by it.
#[derive(Clone, Debug, PartialEq)]
pub struct Process {
    /// What it is called on the command line and in files: one word.
    pub key: String,
    /// What it is, in words.
    pub title: String,
    /// Other words it is found by.
    pub aliases: &'static [&'static str],
    /// The step of the work whose cautions go with it.
    pub step: Step,
    /// Width of the cut at half the thickness, in millimetres, and between what it usually lies.
    pub kerf: ByThickness,
    /// By how much one cut face leans, top against bottom, in millimetres: the part is smaller by half
    /// of it at the top, and larger by half of it at the bottom.
    pub taper: Option<ByThickness>,
    /// How far a finished edge usually is from where it should be, either way, in millimetres.
    pub tolerance: Option<ByThickness>,
    /// Diameter of the smallest hole that comes out well, in millimetres.
    pub smallest_hole: Option<ByThickness>,
    /// Smallest radius of an inside corner, in millimetres.
    pub inside_radius: Option<ByThickness>,
    /// Least width of metal between two cuts, in millimetres.
    pub web: Option<ByThickness>,
    /// Diameter of the mark where the cut starts in the plate, in millimetres; none where it cannot
    /// start in the plate without a drilled hole, or leaves none.
    pub pierce: Option<ByThickness>,
    /// Length of the way from there to the outline, in millimetres.
    pub lead_in: Option<ByThickness>,
    /// Seconds to get through the plate.
    pub pierce_time: Option<ByThickness>,
    /// The side of the direction of travel on which the part should lie.
    pub part_on: PartSide,
    /// Whether a hole can be started in the middle of the plate.
    pub start: Start,
    /// Whether it only cuts along straight lines.
    pub straight_only: bool,
    /// The longest part that usual machines take, in millimetres.
    pub longest: Option<ByThickness>,
    /// The thickest plate that it is usual for, in millimetres.
    pub thickest: Option<ByThickness>,
    /// What it cuts.
    pub cuts: Vec<Subject>,
    /// What it must never be used on, though it might cut it.
    pub never: Vec<Refusal>,
    /// How fast it goes, for reckoning time and money only.
    pub feeds: Vec<Feed>,
    /// What the shop asks for it.
    pub rates: Rates,
    /// What a reader should know; may be empty.
    pub note: String,
}

/// The side of the direction of travel on which the part lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartSide {
    /// It does not matter.
    Either,
    /// At the left: round the outside anticlockwise, in openings clockwise.
    Left,
    /// At the right: round the outside clockwise, in openings anticlockwise.
    Right,
}

impl PartSide {
    /// Its word in files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Either => "either",
            Self::Left => "left",
            Self::Right => "right",
        }
    }
}

/// How a cut starts that does not come from the edge of the plate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Start {
    /// It goes through the plate by itself.
    Pierces,
    /// It needs a drilled hole.
    DrilledHole,
    /// It only comes from the edge.
    EdgeOnly,
}

impl Start {
    /// Its word in files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Pierces => "pierces",
            Self::DrilledHole => "drilled hole",
            Self::EdgeOnly => "edge only",
        }
    }
}

/// What a shop asks, in its own money; nothing is built in.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Rates {
    /// For an hour of cutting.
    pub per_hour: Option<f64>,
    /// For a metre of cut.
    pub per_metre: Option<f64>,
    /// For each start in the plate.
    pub per_pierce: Option<f64>,
    /// Once an order.
    pub set_up: Option<f64>,
}

impl Rates {
    /// Whether any is given.
    pub fn are_given(&self) -> bool {
        [self.per_hour, self.per_metre, self.per_pierce, self.set_up]
            .iter()
            .any(Option::is_some)
    }
}

/// The ways of cutting that there are to choose from.
#[derive(Clone, Debug, PartialEq)]
pub struct Processes {
    /// They, in the order in which they are shown.
    pub all: Vec<Process>,
    /// The money of the rates; empty if not said.
    pub currency: String,
}

impl Default for Processes {
    fn default() -> Self {
        Self {
            all: defaults(),
            currency: String::new(),
        }
    }
}

impl Processes {
    /// The process called so: by its key, its title or another word for it.
    ///
    /// # Errors
    /// [`TradeError::UnknownProcess`] with the nearest names.
    ///
    /// # Example
    /// ```
    /// use kerfwise::trade::processes::Processes;
    /// let known = Processes::default();
    /// assert_eq!(known.find("water jet")?.key, "waterjet");
    /// # Ok::<(), kerfwise::trade::TradeError>(())
    /// ```
    pub fn find(&self, name: &str) -> Result<&Process, TradeError> {
        let by_key = |process: &&Process| process.key == name.trim().to_lowercase();
        if let Some(found) = self.all.iter().find(by_key) {
            return Ok(found);
        }
        let spellings: Vec<(&str, Vec<&str>)> = self
            .all
            .iter()
            .map(|process| {
                let others = std::iter::once(process.title.as_str())
                    .chain(process.aliases.iter().copied())
                    .collect();
                (process.key.as_str(), others)
            })
            .collect();
        let known = || spellings.iter().map(|(key, others)| (*key, &others[..]));
        names::place(name, known())
            .and_then(|place| self.all.get(place))
            .ok_or_else(|| TradeError::UnknownProcess {
                asked: name.to_owned(),
                nearest: names::nearest(name, known())
                    .into_iter()
                    .map(str::to_owned)
                    .collect(),
                known: self.all.iter().map(|process| process.key.clone()).collect(),
            })
    }
}

impl Process {
    /// A process of which only the kerf is known: it checks nothing and cuts nothing yet.
    pub fn new(key: &str, title: &str, step: Step, kerf: ByThickness) -> Self {
        Self {
            key: key.to_owned(),
            title: title.to_owned(),
            aliases: &[],
            step,
            kerf,
            taper: None,
            tolerance: None,
            smallest_hole: None,
            inside_radius: None,
            web: None,
            pierce: None,
            lead_in: None,
            pierce_time: None,
            part_on: PartSide::Either,
            start: Start::Pierces,
            straight_only: false,
            longest: None,
            thickest: None,
            cuts: Vec::new(),
            never: Vec::new(),
            feeds: Vec::new(),
            rates: Rates::default(),
            note: String::new(),
        }
    }

    /// Whether it can be used on a material.
    pub fn suits(&self, material: &Material) -> Suits<'_> {
        suits::suits(self, material)
    }

    /// Cautions for cutting a material by it: those for any work, those of the step, and those of the
    /// material at that step.
    pub fn cautions(&self, material: Option<&'static Material>) -> Vec<&'static super::Caution> {
        let general = super::cautions::GENERAL.iter();
        let own = material.into_iter().flat_map(Material::cautions);
        general
            .chain(own)
            .filter(|caution| {
                let of_hand_work = caution.step == Step::HandWork && self.step.is_by_hand();
                of_hand_work || [self.step, Step::Always].contains(&caution.step)
            })
            .collect()
    }

    /// How fast it goes in a material of a thickness in millimetres, in millimetres a minute; none where
    /// nothing is known, or where the thickness is outside what is known.
    pub fn feed(&self, material: &Material, thickness: f64) -> Option<Feed> {
        feed::feed(&self.feeds, material, thickness)
    }
}

#[cfg(test)]
mod tests;
