//! What a file states, over what is known.

use super::checked::bad_spread;
use super::checked::checked;
use super::checked::is_an_angle;
use super::checked::not_a_size;
use super::checked::refusal;
use super::checked::subject;
use super::fault::ProcessFault;
use super::file::FeedEntry;
use super::file::FigureEntry;
use super::file::FigureTable;
use super::file::ProcessEntry;
use super::file::ProcessesFile;
use super::file::RatesEntry;
use super::file::SideWord;
use super::file::StartWord;
use crate::design::dimensions::plain_amount;
use crate::design::error::DesignError;
use crate::design::error::Sink;
use crate::design::expression::Kind;
use crate::design::located::Amount;
use crate::design::located::Named;
use crate::design::located::Word;
use crate::design::read::keys::suggestion;
use crate::design::source::Place;
use crate::geometry::LengthUnit;
use crate::geometry::number;
use crate::trade::Process;
use crate::trade::Processes;
use crate::trade::cautions::Step;
use crate::trade::processes::ByThickness;
use crate::trade::processes::Feed;
use crate::trade::processes::Origin;
use crate::trade::processes::PartSide;
use crate::trade::processes::Rates;
use crate::trade::processes::Start;

/// What a file states, over what is known.
pub(super) fn apply(
    file: &ProcessesFile,
    mut known: Processes,
) -> Result<Processes, Vec<DesignError>> {
    let mut sink = Sink::new();
    if let Some(currency) = &file.currency {
        known.currency.clone_from(&currency.value);
    }
    for named in &file.process {
        match one(file, named, &known, &mut sink) {
            Ok(process) => match known.all.iter_mut().find(|old| old.key == process.key) {
                Some(old) => *old = process,
                None => known.all.push(process),
            },
            Err(error) => sink.push(error),
        }
    }
    if sink.has_errors() {
        Err(sink.into_errors())
    } else {
        Ok(known)
    }
}

/// Says what a figure is, and who stands behind it.
struct Reading<'a> {
    unit: LengthUnit,
    stated_by: Option<&'a Word>,
    stated_on: Option<&'a Word>,
}

fn one(
    file: &ProcessesFile,
    named: &Named<ProcessEntry>,
    known: &Processes,
    sink: &mut Sink,
) -> Result<Process, DesignError> {
    let entry = &named.entry;
    let reading = Reading {
        unit: file.units.length_unit(),
        stated_by: entry.stated_by.as_ref().or(file.stated_by.as_ref()),
        stated_on: entry.stated_on.as_ref().or(file.stated_on.as_ref()),
    };
    let mut process = start_from(named, known, &reading)?;
    reading.figures(entry, &mut process, sink);
    reading.words(entry, &mut process, sink);
    Ok(process)
}

/// What is known of the process before it states anything itself.
fn start_from(
    named: &Named<ProcessEntry>,
    known: &Processes,
    reading: &Reading<'_>,
) -> Result<Process, DesignError> {
    let (name, entry) = (&named.name, &named.entry);
    let key = name.value.trim().to_lowercase();
    let keys: Vec<&str> = known
        .all
        .iter()
        .map(|process| process.key.as_str())
        .collect();
    let base = match &entry.like {
        Some(like) => Some(known.find(&like.value).map_err(|_| {
            let name = like.value.clone();
            DesignError::new(ProcessFault::UnknownProcess { name }, like.place)
                .with_help(suggestion(&like.value, &keys))
        })?),
        None => known.all.iter().find(|process| process.key == key),
    };
    if let Some(base) = base {
        let mut process = base.clone();
        if process.key != key {
            process.title = format!("{key}, like {}", base.title);
            process.aliases = &[];
        }
        process.key = key;
        return Ok(process);
    }
    let too_little = |missing| {
        let fault = ProcessFault::TooLittleKnown {
            process: name.value.clone(),
            key: missing,
        };
        let help = match missing {
            "kerf" => format!(
                "say what it is like, such as `like = \"waterjet\"`, or give \
                 `kerf = {{ value = 1, spread = 0.1 }}`; {}",
                suggestion(&name.value, &keys)
            ),
            _ => "say how far the kerf may lie either way, such as `spread = 0.1`".to_owned(),
        };
        DesignError::new(fault, name.place).with_help(help)
    };
    let Some(figure) = &entry.kerf else {
        return Err(too_little("kerf"));
    };
    if !has_spread(figure) {
        return Err(too_little("spread"));
    }
    let kerf = reading.figure(figure, "`kerf`", None)?;
    Ok(Process::new(&key, &key, Step::Always, kerf))
}

fn has_spread(figure: &FigureEntry) -> bool {
    match figure {
        FigureEntry::Short(_) => false,
        FigureEntry::Table(table) => {
            let table = &table.value;
            table.spread.is_some() || (table.low.is_some() && table.high.is_some())
        }
    }
}

impl Reading<'_> {
    fn figures(&self, entry: &ProcessEntry, process: &mut Process, sink: &mut Sink) {
        let kerf = entry.kerf.as_ref();
        let kerf = kerf.map(|figure| self.figure(figure, "`kerf`", Some(&process.kerf)));
        if let Some(kerf) = kerf.and_then(|kerf| sink.take(kerf)) {
            process.kerf = kerf;
        }
        for (written, what, figure) in [
            (&entry.taper, "`taper`", &mut process.taper),
            (&entry.tolerance, "`tolerance`", &mut process.tolerance),
            (
                &entry.smallest_hole,
                "`smallest_hole`",
                &mut process.smallest_hole,
            ),
            (
                &entry.inside_radius,
                "`inside_radius`",
                &mut process.inside_radius,
            ),
            (&entry.web, "`web`", &mut process.web),
            (&entry.pierce, "`pierce`", &mut process.pierce),
            (&entry.longest, "`longest`", &mut process.longest),
            (&entry.thickest, "`thickest`", &mut process.thickest),
            (&entry.lead_in, "`lead_in`", &mut process.lead_in),
            (
                &entry.pierce_time,
                "`pierce_time`",
                &mut process.pierce_time,
            ),
        ] {
            let stated = written
                .as_ref()
                .map(|written| self.figure(written, what, figure.as_ref()));
            if let Some(stated) = stated.and_then(|stated| sink.take(stated)) {
                *figure = Some(stated);
            }
        }
    }

    fn words(&self, entry: &ProcessEntry, process: &mut Process, sink: &mut Sink) {
        if let Some(title) = &entry.title {
            process.title.clone_from(&title.value);
        }
        if let Some(note) = &entry.note {
            process.note.clone_from(&note.value);
        }
        if let Some(side) = entry.part_on {
            process.part_on = match side {
                SideWord::Either => PartSide::Either,
                SideWord::Left => PartSide::Left,
                SideWord::Right => PartSide::Right,
            };
        }
        if let Some(straight_only) = entry.straight_only {
            process.straight_only = straight_only;
        }
        if let Some(start) = entry.start {
            process.start = match start {
                StartWord::Pierces => Start::Pierces,
                StartWord::DrilledHole => Start::DrilledHole,
                StartWord::EdgeOnly => Start::EdgeOnly,
            };
        }
        if let Some(cuts) = &entry.cuts {
            process.cuts = cuts
                .iter()
                .filter_map(|word| sink.take(subject(word)))
                .collect();
        }
        let refusals = entry
            .never
            .iter()
            .filter_map(|entry| sink.take(refusal(entry)));
        process.never.extend(refusals);
        let stated: Vec<Feed> = entry
            .feeds
            .iter()
            .filter_map(|feed| sink.take(self.feed(feed)))
            .collect();
        process
            .feeds
            .retain(|old| stated.iter().all(|new| new.of != old.of));
        process.feeds.extend(stated);
        if let Some(rates) = &entry.rates
            && let Some(rates) = sink.take(self.rates(rates))
        {
            process.rates = rates;
        }
    }

    fn origin(&self, by: Option<&Word>, on: Option<&Word>) -> Origin {
        let text = |word: Option<&Word>| word.map(|word| word.value.clone()).unwrap_or_default();
        Origin::Stated {
            by: text(by.or(self.stated_by)),
            on: text(on.or(self.stated_on)),
        }
    }

    /// A figure; what it does not say of its spread stays as it was.
    fn figure(
        &self,
        written: &FigureEntry,
        what: &str,
        old: Option<&ByThickness>,
    ) -> Result<ByThickness, DesignError> {
        let (below, above) = old.map_or((0.0, 0.0), |old| (old.below, old.above));
        match written {
            FigureEntry::Short(amount) => {
                let figure = self.line(Some(amount), None, None, what)?;
                let figure = figure.within(below, above);
                checked(figure, what, amount.place, self.unit)
            }
            FigureEntry::Table(located) => {
                let (place, table) = (located.place, &located.value);
                self.table(table, place, what, old)
                    .and_then(|figure| checked(figure, what, place, self.unit))
            }
        }
    }

    fn table(
        &self,
        table: &FigureTable,
        place: Place,
        what: &str,
        old: Option<&ByThickness>,
    ) -> Result<ByThickness, DesignError> {
        let says_value = [&table.value, &table.per_thickness, &table.least]
            .iter()
            .any(|amount| amount.is_some());
        let mut figure = match old {
            Some(old) if !says_value => old.clone(),
            _ => self.line(
                table.value.as_ref(),
                table.per_thickness.as_ref(),
                table.least.as_ref(),
                what,
            )?,
        };
        figure.origin = self.origin(table.stated_by.as_ref(), table.on.as_ref());
        if let Some(old) = old {
            (figure.below, figure.above) = (old.below, old.above);
        }
        if let Some(spread) = &table.spread {
            let spread_value = self.size(spread, what)?;
            if spread_value < 0.0 {
                return Err(not_a_size(
                    "the spread",
                    spread_value,
                    spread.place,
                    self.unit,
                ));
            }
            (figure.below, figure.above) = (spread_value, spread_value);
        }
        for (end, side) in [
            (&table.low, &mut figure.below),
            (&table.high, &mut figure.above),
        ] {
            if let Some(end) = end {
                *side = self.size(end, what)?;
            }
        }
        if table.low.is_some() {
            figure.below = figure.base - figure.below;
        }
        if table.high.is_some() {
            figure.above -= figure.base;
        }
        if figure.below < 0.0 || figure.above < 0.0 {
            let (low, high) = (figure.base - figure.below, figure.base + figure.above);
            return Err(bad_spread(
                what,
                (low, high),
                "does not hold its value",
                place,
                self.unit,
            ));
        }
        Ok(figure)
    }

    /// The line over the thickness; an angle of taper is one.
    fn line(
        &self,
        value: Option<&Amount>,
        per_thickness: Option<&Amount>,
        least: Option<&Amount>,
        what: &str,
    ) -> Result<ByThickness, DesignError> {
        let mut figure = ByThickness::constant(0.0, self.origin(None, None));
        if let Some(value) = value {
            match self.size(value, what) {
                Ok(length) => figure.base = length,
                Err(error) if what == "`taper`" && is_an_angle(&error) => {
                    let angle = plain_amount(value, Kind::Angle, self.unit)?;
                    figure.per_thickness = number::tan(angle);
                }
                Err(error) => return Err(error),
            }
        }
        if let Some(per_thickness) = per_thickness {
            figure.per_thickness = plain_amount(per_thickness, Kind::NUMBER, self.unit)?;
        }
        if let Some(least) = least {
            figure.least = self.size(least, what)?;
        }
        Ok(figure)
    }

    /// Seconds of a time, millimetres of everything else.
    fn size(&self, amount: &Amount, what: &str) -> Result<f64, DesignError> {
        let kind = if what == "`pierce_time`" {
            Kind::NUMBER
        } else {
            Kind::LENGTH
        };
        plain_amount(amount, kind, self.unit)
    }

    fn length(&self, amount: &Amount) -> Result<f64, DesignError> {
        plain_amount(amount, Kind::LENGTH, self.unit)
    }

    fn feed(&self, entry: &FeedEntry) -> Result<Feed, DesignError> {
        let size = |amount: &Amount, what: &str| {
            let value = self.length(amount)?;
            if value > 0.0 {
                Ok(value)
            } else {
                Err(not_a_size(what, value, amount.place, self.unit))
            }
        };
        let value = size(&entry.a_minute, "`a_minute`")?;
        let end = |amount: &Option<Amount>, what| {
            amount
                .as_ref()
                .map_or(Ok(value), |amount| size(amount, what))
        };
        Ok(Feed {
            of: subject(&entry.material)?,
            thickness: size(&entry.thickness, "`thickness`")?,
            value,
            low: end(&entry.low, "`low`")?,
            high: end(&entry.high, "`high`")?,
            origin: self.origin(None, None),
        })
    }

    fn rates(&self, entry: &RatesEntry) -> Result<Rates, DesignError> {
        let rate = |amount: &Option<Amount>, what: &str| {
            let Some(amount) = amount else {
                return Ok(None);
            };
            let value = plain_amount(amount, Kind::NUMBER, self.unit)?;
            if value >= 0.0 {
                return Ok(Some(value));
            }
            let fault = ProcessFault::NotASize {
                what: what.to_owned(),
                value: value.to_string(),
            };
            Err(DesignError::new(fault, amount.place).with_help("leave it out if it costs nothing"))
        };
        Ok(Rates {
            per_hour: rate(&entry.per_hour, "`per_hour`")?,
            per_metre: rate(&entry.per_metre, "`per_metre`")?,
            per_pierce: rate(&entry.per_pierce, "`per_pierce`")?,
            set_up: rate(&entry.set_up, "`set_up`")?,
        })
    }
}
