//! Values of the dimensions, in order of dependence.

use super::Dimension;
use super::Dimensions;
use super::Permitted;
use super::Spread;
use super::State;
use super::Workmanship;
use super::amount::PlainScope;
use super::amount::amount_in;
use super::draft::Draft;
use super::draft::Origination;
use super::draft::Override;
use super::draft::unknown_name;
use super::limits;
use super::order::order;
use crate::design::error::DesignError;
use crate::design::error::DimensionFault;
use crate::design::error::ExpressionFault;
use crate::design::error::Sink;
use crate::design::expression;
use crate::design::expression::ExpressionError;
use crate::design::expression::Kind;
use crate::design::expression::Quantity;
use crate::design::expression::Scope;
use crate::design::expression::adapted;
use crate::design::expression::working;
use crate::design::file::DesignFile;
use crate::design::file::DimensionTable;
use crate::design::file::Origin;
use crate::design::located::Word;
use crate::design::read::keys::suggestion;
use crate::design::source::Place;
use crate::geometry::LengthUnit;
use std::collections::BTreeMap;
use std::collections::BTreeSet;

/// The dimensions of a file, or all that is wrong with them.
pub(super) fn dimensions(
    file: &DesignFile,
    overrides: &[Override],
) -> Result<Dimensions, Vec<DesignError>> {
    let mut sink = Sink::new();
    let drafts = drafts(file, overrides, &mut sink);
    let index: BTreeMap<String, usize> = drafts
        .iter()
        .enumerate()
        .map(|(at, draft)| (draft.name.value.clone(), at))
        .collect();
    let mut made_of: Vec<Vec<usize>> = Vec::with_capacity(drafts.len());
    let mut faulty = BTreeSet::new();
    for (at, draft) in drafts.iter().enumerate() {
        made_of.push(dependencies(draft, &index, &mut sink).unwrap_or_else(|| {
            faulty.insert(at);
            Vec::new()
        }));
    }
    let order = order(&made_of);
    for ring in &order.rings {
        sink.push(ring_error(ring, &drafts));
    }
    let mut run = Run {
        unit: file.units.length_unit(),
        drafts: &drafts,
        index: &index,
        done: drafts.iter().map(|_| None).collect(),
    };
    for &at in order.sequence.iter().filter(|at| !faulty.contains(at)) {
        let parts = made_of.get(at).map_or(&[][..], Vec::as_slice);
        let value = sink.take(run.evaluate(at, parts)).flatten();
        if let Some(slot) = run.done.get_mut(at) {
            *slot = value;
        }
    }
    let entries: Vec<Dimension> = run.done.into_iter().flatten().collect();
    if sink.has_errors() || entries.len() != drafts.len() {
        return Err(sink.into_errors());
    }
    let mut dimensions = Dimensions {
        entries,
        index,
        unit: file.units.length_unit(),
        workmanship: Workmanship::Assumed(super::DEFAULT_WORKMANSHIP),
        findings: Vec::new(),
    };
    limits::complete(&mut dimensions, file, &drafts)?;
    Ok(dimensions)
}

/// What every dimension comes from.
fn drafts<'a>(file: &'a DesignFile, overrides: &'a [Override], sink: &mut Sink) -> Vec<Draft<'a>> {
    let names: Vec<&str> = file.dims.names().collect();
    for set in overrides {
        if !names.contains(&set.name.as_str()) {
            let name = set.name.clone();
            let help = suggestion(&name, &names);
            let fault = DimensionFault::UnknownOverride { name };
            sink.push(DesignError::new(fault, Place::default()).with_help(help));
        }
    }
    let mut drafts = Vec::with_capacity(names.len());
    for named in &file.dims {
        let set = overrides
            .iter()
            .rev()
            .find(|set| set.name == named.name.value);
        let draft = sink.take(Draft::new(&named.name, &named.entry, set));
        drafts.push(draft.unwrap_or_else(|| Draft::faulty(&named.name)));
    }
    drafts
}

/// The indices of the dimensions that a dimension is made of, each once. For an exact override these
/// are those of the file's own value, which says of what kind it is. `None` if there is no such name,
/// which is in the sink.
fn dependencies(
    draft: &Draft<'_>,
    index: &BTreeMap<String, usize>,
    sink: &mut Sink,
) -> Option<Vec<usize>> {
    let ((Origination::Text(term, _), _) | (Origination::Exact(_), Origination::Text(term, _))) =
        (draft.from(), &draft.own)
    else {
        return Some(Vec::new());
    };
    let mut known_all = true;
    let mut names = Vec::new();
    term.collect_names(&mut names);
    let mut parts = Vec::new();
    for (name, range) in names {
        match index.get(name) {
            Some(&part) if !parts.contains(&part) => parts.push(part),
            Some(_) => {}
            None => {
                sink.push_with(|| {
                    let known: Vec<&str> = index.keys().map(String::as_str).collect();
                    draft.error(unknown_name(name, range, &known))
                });
                known_all = false;
            }
        }
    }
    known_all.then_some(parts)
}

fn ring_error(ring: &[usize], drafts: &[Draft<'_>]) -> DesignError {
    let members: Vec<&Draft<'_>> = ring.iter().filter_map(|&at| drafts.get(at)).collect();
    let mut names: Vec<String> = members
        .iter()
        .map(|draft| format!("`{}`", draft.name.value))
        .collect();
    names.extend(names.first().cloned());
    let place = members
        .first()
        .map_or(Place::default(), |draft| draft.place());
    let fault = DimensionFault::Cycle {
        ring: names.join(" → "),
    };
    let mut error = DesignError::new(fault, place).with_help("give one of them a value of its own");
    for draft in members.iter().skip(1) {
        let label = format!("`{}` is made here", draft.name.value);
        error = error.with_also(draft.place(), label);
    }
    error
}

/// The run over all dimensions.
struct Run<'a> {
    unit: LengthUnit,
    drafts: &'a [Draft<'a>],
    index: &'a BTreeMap<String, usize>,
    done: Vec<Option<Dimension>>,
}

impl Run<'_> {
    /// The dimension at an index, made of those at `parts`; `None` if one of these failed.
    fn evaluate(&self, at: usize, parts: &[usize]) -> Result<Option<Dimension>, DesignError> {
        let Some(draft) = self.drafts.get(at) else {
            return Ok(None);
        };
        let mut made_of = Vec::new();
        let mut missing = Vec::new();
        for &part in parts {
            let Some(Some(dimension)) = self.done.get(part) else {
                return Ok(None);
            };
            made_of.push(dimension.name.clone());
            match &dimension.state {
                State::Known(_) => {}
                State::Open => missing.push(dimension.name.clone()),
                State::Undecided(names) => missing.extend(names.iter().cloned()),
            }
        }
        missing.sort();
        missing.dedup();
        let scope = PlainScope {
            unit: draft.unit(self.unit),
            value: &|name| self.done.get(*self.index.get(name)?)?.as_ref()?.quantity(),
        };
        finished(draft, self.unit, &scope, (made_of, missing)).map(Some)
    }
}

/// A dimension that no other is made of, such as the thickness of a plate.
pub(super) fn alone(draft: &Draft<'_>, dimensions: &Dimensions) -> Result<Dimension, DesignError> {
    let scope = PlainScope {
        unit: draft.unit(dimensions.unit),
        value: &|name| dimensions.value(name),
    };
    let (mut made_of, mut missing) = (Vec::new(), Vec::new());
    if let Origination::Text(term, _) = draft.from() {
        missing = dimensions
            .missing(term)
            .map_err(|error| draft.error(error))?;
        let mut names = Vec::new();
        term.collect_names(&mut names);
        made_of = names.iter().map(|(name, _)| (*name).to_owned()).collect();
        made_of.sort();
        made_of.dedup();
    }
    finished(draft, dimensions.unit, &scope, (made_of, missing))
}

/// The dimension, given what it is made of and what of that is still to be measured.
fn finished(
    draft: &Draft<'_>,
    file_unit: LengthUnit,
    scope: &PlainScope<'_>,
    (made_of, missing): (Vec<String>, Vec<String>),
) -> Result<Dimension, DesignError> {
    let mut dimension = blank(draft, file_unit);
    let exact = matches!(draft.from(), Origination::Exact(_));
    if !exact {
        dimension.made_of = made_of;
    }
    if missing.is_empty() || exact {
        fill(&mut dimension, draft, scope)?;
    } else {
        dimension.state = State::Undecided(missing);
    }
    dimension.origin = origin(draft, &dimension);
    Ok(dimension)
}

/// A dimension with all that needs no value.
fn blank(draft: &Draft<'_>, file_unit: LengthUnit) -> Dimension {
    let word = |word: fn(&DimensionTable) -> Option<&Word>| {
        draft.table.and_then(word).map(|word| word.value.clone())
    };
    Dimension {
        name: draft.name.value.clone(),
        place: draft.name.place,
        value_place: draft.place(),
        kind: draft.wanted().unwrap_or(Kind::LENGTH),
        state: State::Open,
        nominal: None,
        unit: draft.unit(file_unit),
        permitted: Permitted::default(),
        general: None,
        origin: Origin::Chosen,
        spread: Spread::Follows,
        working: None,
        made_of: Vec::new(),
        note: word(|table| table.note.as_ref()),
        instrument: word(|table| table.with.as_ref()),
        readings: Vec::new(),
        measure: draft.table.and_then(|table| table.measure.clone()),
        part: word(|table| table.part.as_ref()),
    }
}

fn origin(draft: &Draft<'_>, dimension: &Dimension) -> Origin {
    match draft.table.and_then(|table| table.origin.as_ref()) {
        Some(origin) => origin.value,
        None if !dimension.made_of.is_empty() => Origin::Derived,
        None => match draft.own {
            Origination::Open | Origination::Readings => Origin::Measured,
            _ => Origin::Chosen,
        },
    }
}

/// Puts in the value, and what comes with it.
fn fill(
    dimension: &mut Dimension,
    draft: &Draft<'_>,
    scope: &PlainScope<'_>,
) -> Result<(), DesignError> {
    let quantity = match draft.from() {
        Origination::Open | Origination::Readings => None,
        from => Some(quantity(from, draft, scope).map_err(|error| draft.error(error))?),
    };
    if let Some(quantity) = quantity {
        dimension.kind = kind(draft, quantity).map_err(|error| draft.error(error))?;
        if let Origination::Text(_, text) = draft.from() {
            expression::refuse_bare(text, quantity, dimension.kind, scope.unit)
                .map_err(|error| draft.error(error))?;
        }
    }
    let readings = draft.table.map(|table| &table.readings);
    for amount in readings.into_iter().flat_map(|readings| readings.iter()) {
        let reading = amount_in(amount, dimension.kind, scope)?;
        dimension.readings.push(reading);
    }
    let value = match draft.from() {
        Origination::Readings => dimension.mean_reading(),
        _ => quantity.map(|quantity| adapted(quantity, dimension.kind, scope.unit).value),
    };
    let Some(value) = value else {
        return Ok(());
    };
    dimension.state = State::Known(value);
    if let Origination::Text(term, text) = draft.from() {
        let kind = dimension.kind;
        dimension.working = working::working(term, text, Quantity { value, kind }, scope);
    }
    Ok(())
}

/// The quantity that a value stands for; an exact one is of the kind of the file's own value.
fn quantity(
    from: &Origination<'_>,
    draft: &Draft<'_>,
    scope: &PlainScope<'_>,
) -> Result<Quantity, ExpressionError> {
    match from {
        Origination::Text(term, text) => expression::evaluate(term, text, scope),
        Origination::Exact(value) => {
            let own = match &draft.own {
                Origination::Text(term, text) => expression::evaluate(term, text, scope).ok(),
                _ => None,
            };
            let kind = own
                .map(|own| own.kind)
                .filter(|kind| *kind != Kind::Bare)
                .or(draft.wanted())
                .unwrap_or(Kind::LENGTH);
            let value = *value;
            if value.is_finite() {
                return Ok(Quantity { value, kind });
            }
            let expression = value.to_string();
            Err(ExpressionError::new(
                ExpressionFault::Overflow { expression },
                0..0,
            ))
        }
        Origination::Number(value) => Ok(Quantity {
            value: *value,
            kind: Kind::Bare,
        }),
        Origination::Readings | Origination::Open => {
            Err(ExpressionError::new(ExpressionFault::Empty, 0..0))
        }
    }
}

/// The kind of a dimension with this value: what its unit asks for, else what the value is, else a
/// length.
fn kind(draft: &Draft<'_>, quantity: Quantity) -> Result<Kind, ExpressionError> {
    let whole = match draft.from() {
        Origination::Text(_, text) => 0..text.len(),
        _ => 0..0,
    };
    match (quantity.kind, draft.wanted()) {
        (Kind::Bare, wanted) => Ok(wanted.unwrap_or(Kind::LENGTH)),
        (found, Some(wanted)) if found != wanted => {
            let fault = ExpressionFault::WrongKind {
                expected: wanted,
                found,
            };
            Err(ExpressionError::new(fault, whole).with_help("change the value or the `unit`"))
        }
        (found @ Kind::Power(power), _) if !(0..=3).contains(&power) => {
            let fault = ExpressionFault::UselessKind { found };
            Err(ExpressionError::new(fault, whole)
                .with_help("look for a factor too many, or a division the wrong way up"))
        }
        (found, _) => Ok(found),
    }
}
