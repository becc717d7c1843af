//! The tool path of a part from what was asked.

use crate::failure::Failure;
use crate::input::Input;
use crate::tool_path_arguments::Direction;
use crate::tool_path_arguments::LeadForm;
use crate::tool_path_arguments::ToolPathArguments;
use kerfwise::design::part::Part;
use kerfwise::documents::cut_file::Cutting;
use kerfwise::documents::pattern::Face;
use kerfwise::geometry::Point;
use kerfwise::shop::tool_path::Bridges;
use kerfwise::shop::tool_path::GoodSide;
use kerfwise::shop::tool_path::Lead;
use kerfwise::shop::tool_path::Setting;
use kerfwise::shop::tool_path::Start;
use kerfwise::shop::tool_path::ToolPathError;
use kerfwise::trade::Caution;
use kerfwise::trade::materials;
use kerfwise::trade::processes::Process;
use kerfwise::trade::processes::Suits;

/// By what a tool path is made.
pub(crate) struct How {
    pub(crate) setting: Setting,
    /// The process for a file name: `waterjet`.
    pub(crate) key: String,
    /// The same in words.
    pub(crate) title: String,
    pub(crate) cautions: Vec<&'static Caution>,
}

/// How the tool path of a part is made, if one is asked for.
pub(crate) fn how(
    part: &Part,
    asked: &ToolPathArguments,
    process: Option<&Process>,
) -> Result<Option<How>, Failure> {
    if process.is_none() && asked.kerf.is_none() {
        return refuse_alone(asked).map(|()| None);
    }
    let mut setting = match process {
        Some(process) => {
            check_material(part, process)?;
            let thickness = thickness(part, process)?;
            Setting::for_process(process, thickness).map_err(Failure::said)?
        }
        None => Setting::plain(asked.kerf.unwrap_or(0.0)),
    };
    apply(&mut setting, asked);
    let (key, title) = match process {
        None => ("own-kerf", "a process that is not named".to_owned()),
        Some(process) if asked.kerf.is_some() => (process.key.as_str(), process.title.clone()),
        Some(process) => {
            let origin = process.kerf.origin.words();
            let title = format!("{} (its kerf: {origin})", process.title);
            (process.key.as_str(), title)
        }
    };
    let material = part
        .plate
        .as_ref()
        .and_then(|plate| materials::find(&plate.material).ok());
    let cautions = process.map_or_else(Vec::new, |process| process.cautions(material));
    Ok(Some(How {
        setting,
        key: key.to_owned(),
        title,
        cautions,
    }))
}

/// The tool path of a part, if one is asked for.
pub(crate) fn cutting(
    input: &Input,
    part: &Part,
    face: Face,
    asked: &ToolPathArguments,
    process: Option<&Process>,
) -> Result<Option<Cutting>, Failure> {
    let Some(how) = how(part, asked, process)? else {
        return Ok(None);
    };
    let cutting = Cutting::new(part, how.setting, face, (&how.key, &how.title))
        .map_err(|error| refused(input, part, error, None))?;
    Ok(Some(cutting.with_cautions(how.cautions)))
}

/// Refuses what belongs to a tool path where none is asked for.
fn refuse_alone(asked: &ToolPathArguments) -> Result<(), Failure> {
    let given = [
        ("--allowance", asked.allowance.is_some()),
        ("--lead", asked.lead.is_some()),
        ("--lead-length", asked.lead_length.is_some()),
        ("--pierce", asked.pierce.is_some()),
        ("--overlap", asked.overlap.is_some()),
        ("--direction", asked.direction.is_some()),
        ("--start", !asked.start.is_empty()),
        ("--bridges", asked.bridges.is_some()),
        ("--smallest-hole", asked.smallest_hole.is_some()),
    ];
    match given.iter().find(|(_, given)| *given) {
        Some((name, _)) => Err(Failure::Said(format!(
            "{name} belongs to a tool path, and this is the finished size, which the shop compensates: leave it \
             out, or ask for a tool path with --process NAME or --kerf MM"
        ))),
        None => Ok(()),
    }
}

/// Refuses a process that must not or cannot cut the part's material.
fn check_material(part: &Part, process: &Process) -> Result<(), Failure> {
    let material = part
        .plate
        .as_ref()
        .and_then(|plate| materials::find(&plate.material).ok());
    let Some(material) = material else {
        return Ok(());
    };
    match process.suits(material) {
        Suits::Yes => Ok(()),
        Suits::DoesNotCut => Err(Failure::Said(format!(
            "{} does not cut {}: choose another process for `{}`, or another part with --part",
            process.title, material.name, part.name
        ))),
        Suits::Never(refusal) => Err(Failure::Said(format!(
            "{} must never be used on {}, because {}: choose another process for `{}`",
            process.title, material.name, refusal.why, part.name
        ))),
    }
}

fn thickness(part: &Part, process: &Process) -> Result<f64, Failure> {
    let plate = part.plate.as_ref();
    plate.and_then(|plate| plate.thickness).ok_or_else(|| {
        Failure::Said(format!(
            "how {} cuts depends on the thickness, and `{}` names no plate that has one: add `plate` to the \
             part, or give --kerf without --process",
            process.title, part.name
        ))
    })
}

fn apply(setting: &mut Setting, asked: &ToolPathArguments) {
    let given = |own: &mut f64, asked: Option<f64>| {
        if let Some(value) = asked {
            *own = value;
        }
    };
    if let Some(kerf) = asked.kerf {
        // what goes down as wide as it cuts does so with any other tool too
        if setting.pierce == setting.kerf {
            setting.pierce = kerf;
        }
        setting.kerf = kerf;
    }
    given(&mut setting.allowance, asked.allowance);
    given(&mut setting.lead_length, asked.lead_length);
    given(&mut setting.pierce, asked.pierce);
    given(&mut setting.overlap, asked.overlap);
    given(&mut setting.smallest_hole, asked.smallest_hole);
    if let Some(lead) = asked.lead {
        setting.lead = match lead {
            LeadForm::Arc => Lead::Arc,
            LeadForm::Straight => Lead::Straight,
            LeadForm::None => Lead::None,
        };
    }
    if let Some(direction) = asked.direction {
        setting.good_side = match direction {
            Direction::Conventional => GoodSide::Left,
            Direction::Climb => GoodSide::Right,
        };
    }
    if let Some(count) = asked.bridges {
        let width = asked.bridge_width.unwrap_or(1.0);
        setting.bridges = Some(Bridges { count, width });
    }
    setting.starts = asked.start.iter().map(|text| start(text)).collect();
}

/// A place `X,Y` in mm, or the name of an edge.
fn start(text: &str) -> Start {
    let numbers = text
        .split_once(',')
        .and_then(|(x, y)| Some((x.trim().parse().ok()?, y.trim().parse().ok()?)));
    match numbers {
        Some((x, y)) => Start::Near(Point::new(x, y)),
        None => Start::Edge(text.to_owned()),
    }
}

/// Why there is no tool path, with the place on the part; of several pieces with which it is.
pub(crate) fn refused(
    input: &Input,
    part: &Part,
    error: ToolPathError,
    piece: Option<String>,
) -> Failure {
    Failure::ToolPath {
        source_text: Box::new(input.source.clone()),
        place: error.place(part),
        error: Box::new(error),
        piece,
    }
}
