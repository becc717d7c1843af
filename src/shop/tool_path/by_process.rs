//! A setting from what is known of a process.

use super::error::ToolPathError;
use super::setting::GoodSide;
use super::setting::Setting;
use crate::trade::processes::ByThickness;
use crate::trade::processes::PartSide;
use crate::trade::processes::Process;
use crate::trade::processes::Start;

impl Setting {
    /// The setting for a process in plate of a thickness in millimetres, by its own figures as far as they
    /// are known, else as [`Setting::plain`].
    ///
    /// # Errors
    /// [`ToolPathError::NoPathFollowed`] for a saw that follows no path by itself.
    ///
    /// # Example
    /// ```
    /// use kerfwise::shop::tool_path::Setting;
    /// use kerfwise::trade::processes::Processes;
    ///
    /// let known = Processes::default();
    /// let setting = Setting::for_process(known.find("waterjet")?, 8.0)?;
    /// assert_eq!((setting.kerf, setting.smallest_hole), (1.0, 6.0));
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn for_process(process: &Process, thickness: f64) -> Result<Self, ToolPathError> {
        // a machine may lead a router, which goes into the plate by itself
        let by_hand = process.step.is_by_hand() && process.start != Start::Pierces;
        if by_hand || process.start == Start::EdgeOnly {
            return Err(ToolPathError::NoPathFollowed {
                process: process.title.clone(),
            });
        }
        let at = |figure: &Option<ByThickness>| figure.as_ref().map(|figure| figure.at(thickness));
        let kerf = process.kerf.at(thickness);
        let plain = Self::plain(kerf);
        let pierce = match process.start {
            Start::Pierces => at(&process.pierce),
            // the hole is there before the cut, and wide enough to start in
            Start::DrilledHole | Start::EdgeOnly => None,
        };
        Ok(Self {
            good_side: match process.part_on {
                PartSide::Right => GoodSide::Right,
                PartSide::Left | PartSide::Either => GoodSide::Left,
            },
            pierce: pierce.unwrap_or(kerf),
            lead_length: at(&process.lead_in).unwrap_or(plain.lead_length),
            smallest_hole: at(&process.smallest_hole).unwrap_or(0.0),
            ..plain
        })
    }
}
