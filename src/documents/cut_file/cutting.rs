//! A tool path made ready to be written.

use crate::design::part::Part;
use crate::documents::pattern::Face;
use crate::geometry::Path;
use crate::shop::tool_path::Cut;
use crate::shop::tool_path::Setting;
use crate::shop::tool_path::ToolPath;
use crate::shop::tool_path::ToolPathError;
use crate::shop::tool_path::tool_path;
use crate::trade::Caution;

/// A tool path with what it was made for.
#[derive(Clone, Debug)]
pub struct Cutting {
    /// The path, on the part as drawn.
    pub path: ToolPath,
    /// By what it was made; the side of the part is that in the file.
    pub setting: Setting,
    /// How it is cut, in words: "jet of water with abrasive".
    pub process: String,
    /// The same for a file name: `waterjet`.
    pub key: String,
    /// What to heed with this process and material.
    pub cautions: Vec<&'static Caution>,
    /// Each cut as one open path, in order.
    pub lines: Vec<Path>,
}

impl Cutting {
    /// The tool path of a part for a file that shows the face. A mirrored file turns the travel over, so
    /// the path is made for the other side first.
    ///
    /// # Errors
    /// As [`tool_path`].
    pub fn new(
        part: &Part,
        setting: Setting,
        face: Face,
        (key, process): (&str, &str),
    ) -> Result<Self, ToolPathError> {
        let good_side = match (face, setting.good_side) {
            (Face::AsDrawn, side) => side,
            (Face::Mirrored, side) => side.other(),
        };
        let as_drawn = Setting {
            good_side,
            ..setting.clone()
        };
        let path = tool_path(part, &as_drawn)?;
        Self::of_path(path, setting, (key.to_owned(), process.to_owned()))
    }

    /// A path that is made already.
    pub(super) fn of_path(
        path: ToolPath,
        setting: Setting,
        (key, process): (String, String),
    ) -> Result<Self, ToolPathError> {
        let lines: Result<Vec<Path>, _> = path.cuts.iter().map(Cut::path).collect();
        Ok(Self {
            lines: lines?,
            path,
            setting,
            process,
            key,
            cautions: Vec::new(),
        })
    }

    /// The same with its cautions.
    #[must_use]
    pub fn with_cautions(self, cautions: Vec<&'static Caution>) -> Self {
        Self { cautions, ..self }
    }
}
