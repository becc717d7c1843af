//! `kerfwise cut`: the cut file at nominal finished size, or on request a tool path; and its order sheet.

use super::deliver::deliver_checked;
use crate::arguments::CutArguments;
use crate::cut_products;
use crate::cut_products::Wish;
use crate::exit_code::Outcome;
use crate::failure::Failure;
use crate::files;
use crate::input;
use crate::input::Input;
use crate::products::Product;
use crate::sending;
use crate::tool_paths;
use kerfwise::checks::Limit;
use kerfwise::checks::SheetSize;
use kerfwise::design::part::Part;
use kerfwise::design::part::Plate;
use kerfwise::documents::Stamp;
use kerfwise::documents::cut_file;
use kerfwise::documents::cut_file::Cutting;
use kerfwise::documents::cut_file::Together;
use kerfwise::documents::cut_file::TogetherError;
use kerfwise::documents::cut_file::TogetherOptions;
use kerfwise::documents::inspection;
use kerfwise::documents::inspection::BeforeSending;
use kerfwise::documents::pattern::Face;
use kerfwise::trade::processes::Process;

pub(crate) fn run(arguments: &CutArguments) -> Result<Outcome, Failure> {
    let sheet = arguments.sheet.as_deref().map(sending::sheet).transpose()?;
    let input = input::load(&arguments.shared)?.on_sheet(sheet);
    input.refuse_unfit("a cut file")?;
    let parts = input.parts(&arguments.shared)?;
    let face = if arguments.mirror {
        Face::Mirrored
    } else {
        Face::AsDrawn
    };
    let known = input::processes(arguments.tool_path.processes.as_deref())?;
    let process = sending::process(arguments.tool_path.process.as_deref(), &known)?;
    let out = arguments.output.out.as_deref();
    let named = out.filter(|out| !files::is_folder(out));
    let named = named.and_then(|out| Some(out.file_stem()?.to_string_lossy()));
    let wish = Wish {
        face,
        with_words: arguments.words,
        stem: named.as_deref(),
        tried: arguments.shared.suffix(),
        ..Wish::nominal(arguments.format, arguments.dxf, arguments.units)
    };
    let mut work = Work {
        input: &input,
        arguments,
        process,
        wish,
    };
    let mut products = Vec::new();
    let mut looked = Vec::new();
    if arguments.together {
        for group in cut_file::by_plate(&parts) {
            let (made, found) = work.together(&group, sheet.or_else(|| plate_size(&group)))?;
            products.extend(made);
            looked.extend(found);
            // a name that is given is that of the first file
            work.wish.stem = None;
        }
    } else {
        for part in parts {
            let asked = &arguments.tool_path;
            let cutting = tool_paths::cutting(&input, part, face, asked, process)?;
            looked.push(work.looked(part, cutting.as_ref(), sheet));
            let cutting = cutting.as_ref();
            let wish = Wish {
                cutting,
                ..work.wish
            };
            products.extend(cut_products::cut(part, &input.stamp, &wish)?);
            work.wish.stem = None;
        }
    }
    sending::refuse("a cut file", &looked)?;
    let output = &arguments.output;
    deliver_checked(
        &input,
        &arguments.shared,
        output,
        &products,
        looked.as_slice(),
    )
}

/// The size of the one plate that these parts are cut from, where the design states it.
fn plate_size(parts: &[&Part]) -> Option<SheetSize> {
    let mut plates = parts.iter().map(|part| part.plate.as_ref());
    let plate = plates.next()??;
    let (width, height) = plate.size?;
    let is_it = |other: Option<&Plate>| other.is_some_and(|other| other.name == plate.name);
    plates.all(is_it).then_some(SheetSize { width, height })
}

/// What making cut files needs.
struct Work<'a> {
    input: &'a Input,
    arguments: &'a CutArguments,
    process: Option<&'a Process>,
    wish: Wish<'a>,
}

impl Work<'_> {
    /// What a shop would find.
    fn looked<'p>(
        &self,
        part: &'p Part,
        cutting: Option<&Cutting>,
        sheet: Option<SheetSize>,
    ) -> BeforeSending<'p> {
        let mut limits = sending::limits(part, self.process);
        if let Some(kerf) = self.arguments.tool_path.kerf {
            limits.kerf = Some(Limit {
                value: kerf,
                basis: "as asked for".to_owned(),
                decides: true,
            });
        }
        let unit = self.input.stamp.unit;
        inspection::before_sending(part, cutting, &limits, sheet, unit)
    }

    /// Parts of one plate in one file.
    fn together<'p>(
        &self,
        parts: &[&'p Part],
        sheet: Option<SheetSize>,
    ) -> Result<(Vec<Product>, Vec<BeforeSending<'p>>), Failure> {
        let asked = &self.arguments.tool_path;
        let mut how = None;
        for part in parts {
            // of one plate, so the last is as good as any
            how = tool_paths::how(part, asked, self.process)?;
        }
        let stamp = Stamp {
            unit: cut_products::unit(self.wish.format, self.wish.unit)?,
            ..self.input.stamp.clone()
        };
        let options = TogetherOptions {
            face: self.wish.face,
            with_words: self.wish.with_words,
            sheet,
            gap: self.arguments.gap,
            cutting: how
                .as_ref()
                .map(|how| (how.setting.clone(), how.key.as_str(), how.title.as_str())),
        };
        let mut together =
            Together::new(parts, &stamp, &options).map_err(|error| self.refused(parts, error))?;
        if let (Some(cutting), Some(how)) = (&mut together.cutting, &how) {
            cutting.cautions.clone_from(&how.cautions);
        }
        let cutting = together.cutting.as_ref();
        let looked = parts.iter().map(|part| self.looked(part, cutting, None));
        let looked = looked.collect();
        Ok((cut_products::cut_together(&together, &self.wish)?, looked))
    }

    fn refused(&self, parts: &[&Part], error: TogetherError) -> Failure {
        match error {
            TogetherError::ToolPath {
                index,
                piece,
                error,
            } => match parts.get(index) {
                Some(part) => tool_paths::refused(self.input, part, *error, Some(piece)),
                None => Failure::said(error),
            },
            other => Failure::said(other),
        }
    }
}
