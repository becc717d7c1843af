//! Whether a figure can be one, and what is said when it cannot.

use super::fault::ProcessFault;
use super::file::NeverEntry;
use crate::design::error::DesignError;
use crate::design::error::DesignErrorKind;
use crate::design::error::ExpressionFault;
use crate::design::expression::Kind;
use crate::design::expression::Quantity;
use crate::design::expression::working::with_unit;
use crate::design::located::Word;
use crate::design::read::keys::suggestion;
use crate::design::source::Place;
use crate::geometry::LengthUnit;
use crate::trade::Mark;
use crate::trade::materials;
use crate::trade::materials::Family;
use crate::trade::processes::ByThickness;
use crate::trade::processes::Refusal;
use crate::trade::processes::Subject;

pub(super) fn is_an_angle(error: &DesignError) -> bool {
    matches!(
        &*error.kind,
        DesignErrorKind::Expression(ExpressionFault::WrongKind {
            found: Kind::Angle,
            ..
        })
    )
}

/// The same figure, if a cut can have it.
pub(super) fn checked(
    figure: ByThickness,
    what: &str,
    place: Place,
    unit: LengthUnit,
) -> Result<ByThickness, DesignError> {
    let grows = figure.per_thickness > 0.0 && figure.base >= 0.0;
    // what was not said to be a least value is none
    let largest = if figure.least == 0.0 {
        figure.base
    } else {
        figure.base.max(figure.least)
    };
    let may_be_nothing = matches!(what, "`taper`" | "`pierce_time`");
    if figure.per_thickness < 0.0 || largest < 0.0 || !(largest > 0.0 || grows || may_be_nothing) {
        let value = if figure.per_thickness < 0.0 {
            figure.per_thickness
        } else {
            largest
        };
        return Err(not_a_size(what, value, place, unit));
    }
    if what == "`kerf`" && !grows && largest - figure.below <= 0.0 {
        let ends = (largest - figure.below, largest + figure.above);
        return Err(bad_spread(what, ends, "leaves no cut", place, unit));
    }
    Ok(figure)
}

fn length_words(value: f64, unit: LengthUnit) -> String {
    let kind = Kind::LENGTH;
    with_unit(Quantity { value, kind }, unit)
}

pub(super) fn not_a_size(what: &str, value: f64, place: Place, unit: LengthUnit) -> DesignError {
    let fault = ProcessFault::NotASize {
        what: what.to_owned(),
        value: length_words(value, unit),
    };
    let help = if what == "`kerf`" {
        "give the width of the cut as measured in a trial cut, such as `kerf = 1.05`"
    } else {
        "give a size, or leave it out if it is not known"
    };
    DesignError::new(fault, place).with_help(help)
}

pub(super) fn bad_spread(
    what: &str,
    (low, high): (f64, f64),
    why: &'static str,
    place: Place,
    unit: LengthUnit,
) -> DesignError {
    let fault = ProcessFault::BadSpread {
        what: what.to_owned(),
        low: length_words(low, unit),
        high: length_words(high, unit),
        why,
    };
    DesignError::new(fault, place)
        .with_help("state how far it really lies either way, such as `spread = 0.05`")
}

pub(super) fn subject(word: &Word) -> Result<Subject, DesignError> {
    Subject::find(&word.value).map_err(|_| {
        let families = Family::ALL.into_iter().map(Family::word);
        let names = materials::ALL.iter().map(|material| material.name);
        let known: Vec<&str> = families.chain(names).collect();
        let name = word.value.clone();
        DesignError::new(ProcessFault::UnknownMaterial { name }, word.place)
            .with_help(suggestion(&word.value, &known))
    })
}

pub(super) fn refusal(entry: &NeverEntry) -> Result<Refusal, DesignError> {
    Ok(Refusal {
        of: subject(&entry.material)?,
        why: entry.why.value.clone(),
        mark: Mark::CommonPractice,
    })
}
