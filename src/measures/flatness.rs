//! How flat plates are: what their readings say, with the uncertainty of the instrument, and whether
//! ordinary stock can be trusted to be flat enough.

use crate::design::Design;
use crate::design::DesignError;
use crate::design::dimensions::Permitted;
use crate::design::error::MeasureFault;
use crate::design::expression;
use crate::design::expression::Kind;
use crate::design::flatness::Flatness;
use crate::design::flatness::FlatnessWay;
use crate::design::part::Plate;
use crate::geometry::LengthUnit;
use crate::measures::TakenKind;
use crate::measures::inspection::Filing;
use crate::measures::limits::LimitCheck;
use crate::measures::limits::broken_by;
use crate::measures::plates::Stock;
use crate::measures::uncertainty::Budget;
use crate::measures::uncertainty::Circumstances;
use crate::measures::uncertainty::Means;
use crate::measures::uncertainty::Sample;
use crate::measures::uncertainty::temperature::Temperature;
use crate::measures::verdict;
use crate::measures::verdict::Judgement;
use crate::trade::Mark;
use crate::trade::flatness;
use crate::trade::flatness::MillFlatness;

/// A plate with what is known of its flatness, in millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct Flat {
    /// Its name.
    pub plate: String,
    /// What it is made of, as written.
    pub material: String,
    /// What it is sold as, if that is known.
    pub nominal: Option<f64>,
    /// The unit that it is shown in.
    pub unit: LengthUnit,
    /// What is written of it.
    pub flatness: Flatness,
    /// With what it is measured.
    pub means: Means,
    /// What the readings say, if there are any.
    pub readings: Option<Sample>,
    /// How far the greatest reading may be off, either way: g = 2 standard uncertainties.
    pub sure_to: Option<f64>,
    /// What can be said of the greatest reading; `None` without readings or a limit.
    pub judgement: Option<Judgement>,
    /// What the mill may deliver, if it is known.
    pub mill: Option<MillFlatness>,
    /// Whether all that the mill may deliver keeps the limit; `None` without limit or mill tolerance.
    pub stock: Option<Stock>,
}

impl Flat {
    /// What is permitted.
    pub fn permitted(&self) -> Permitted {
        permitted(&self.flatness)
    }
}

/// What is permitted of a flatness: a gap has no least.
pub(super) const fn permitted(flatness: &Flatness) -> Permitted {
    Permitted {
        min: None,
        max: flatness.max,
    }
}

/// The plates of a design that say something of their flatness, and what is wrong with them.
pub fn flatnesses(design: &Design) -> (Vec<Flat>, Vec<DesignError>) {
    let mut findings = Vec::new();
    let mut all = Vec::new();
    for plate in &design.resolved.plates {
        let Some(flatness) = plate.flatness.as_deref() else {
            continue;
        };
        match flat(design, plate, flatness) {
            Ok(flat) => {
                findings.extend(outside(&flat));
                findings.extend(not_trusted(&flat));
                all.push(flat);
            }
            Err(error) => findings.push(error),
        }
    }
    (all, findings)
}

fn flat(design: &Design, plate: &Plate, flatness: &Flatness) -> Result<Flat, DesignError> {
    let means = means(design, plate, flatness)?;
    let readings = Sample::of(&flatness.readings);
    let circumstances = Circumstances {
        means: means.clone(),
        // what a gap of a millimetre grows by with heat is nothing
        temperature: Temperature::UNREAD,
        expansion: None,
    };
    let budget = readings.map(|readings| Budget::of_one(readings.greatest, &circumstances));
    let sure_to = budget
        .as_ref()
        .map(|budget| verdict::USUAL_GUARD * budget.combined.standard);
    let judgement = readings.zip(sure_to).and_then(|(readings, guard)| {
        let greatest = readings.greatest;
        verdict::judge(greatest, permitted(flatness), guard, Filing::Neither)
    });
    let gauged = plate.gauged.as_deref();
    let nominal = gauged.and_then(crate::design::Dimension::value);
    let stated = flatness.mill.map(|gap| MillFlatness {
        gap,
        mark: Mark::Read,
        source: "as the design says",
    });
    let mill = stated.or_else(|| flatness::of(&plate.material, nominal?, flatness.over));
    let stock = mill.filter(|_| flatness.max.is_some()).map(|mill| {
        if LimitCheck::on(Some(mill.gap), permitted(flatness)).is_broken() {
            Stock::NotTrusted
        } else {
            Stock::Trusted
        }
    });
    Ok(Flat {
        plate: plate.name.clone(),
        material: plate.material.clone(),
        nominal,
        unit: design.unit(),
        flatness: flatness.clone(),
        means,
        readings,
        sure_to,
        judgement,
        mill,
        stock,
    })
}

/// With what it is measured: as the file says, or what one takes for it.
fn means(design: &Design, plate: &Plate, flatness: &Flatness) -> Result<Means, DesignError> {
    let usual = match flatness.way {
        FlatnessWay::Gap => "feeler gauges",
        FlatnessWay::Bow => "steel rule",
    };
    let words = flatness.with.as_deref().unwrap_or(usual);
    let length_of = |text: &str| {
        let term = expression::parse(text).ok()?;
        let found = expression::evaluate(&term, text, &design.dimensions).ok()?;
        let found = expression::adapted(found, Kind::LENGTH, design.unit());
        (found.kind == Kind::LENGTH).then_some(found.value)
    };
    Means::parse(words, length_of).map_err(|fault| {
        let fault = MeasureFault::UnknownMeans {
            plate: plate.name.clone(),
            why: fault.to_string(),
        };
        let help = "name one of those, or state what it may be off by, such as `feelers ±0.1 mm`";
        DesignError::new(fault, flatness.with_place).with_help(help)
    })
}

/// The readings past the limit.
fn outside(flat: &Flat) -> Vec<DesignError> {
    let flatness = &flat.flatness;
    let kind = TakenKind::Length;
    let places = flatness.readings.iter().zip(&flatness.reading_places);
    let told = |(index, (&reading, &place))| {
        let (side, by, limit) = broken_by(reading, flat.permitted())?;
        let more = kind.decimals_to_tell(reading, limit, flat.unit);
        let shown = |value: f64| kind.shown_finer(value, flat.unit, more);
        let fault = MeasureFault::ReadingOutside {
            name: format!("flatness of {}", flat.plate),
            number: index + 1,
            reading: shown(reading),
            by: shown(by),
            side,
            limit: shown(limit),
        };
        let help =
            "cut the part where the plate is flatter, have it flattened, or take another plate";
        Some(DesignError::new(fault, place).with_help(help))
    };
    places.enumerate().filter_map(told).collect()
}

/// The notice that ordinary stock may not be flat enough; only before the plate was measured.
fn not_trusted(flat: &Flat) -> Option<DesignError> {
    if flat.stock != Some(Stock::NotTrusted) || flat.readings.is_some() {
        return None;
    }
    let shown = |value: f64| TakenKind::Length.shown(value, flat.unit);
    let fault = MeasureFault::StockNotFlat {
        material: flat.material.clone(),
        nominal: flat.nominal.map_or_else(|| flat.plate.clone(), shown),
        most: shown(flat.mill?.gap),
        over: shown(flat.flatness.over),
        permitted: shown(flat.flatness.max?),
    };
    let help = "lay a straight edge on the plate before buying, and write the `readings` here; what \
                the mill itself states goes into `mill`";
    Some(DesignError::notice(fault, flat.flatness.place).with_help(help))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Source;
    use crate::measures::verdict::Verdict;

    fn of(flatness: &str) -> (Flat, Vec<&'static str>) {
        let text = format!(
            "[plate.alloy]\nmaterial = \"aluminium 6061-T6\"\nthickness = 8\nflatness = {{ {flatness} }}\n"
        );
        let design = Design::load(&Source::new("flat.toml", text), &[]).expect(flatness);
        let (mut all, findings) = flatnesses(&design);
        let names = findings.iter().map(|found| found.kind.name()).collect();
        (all.remove(0), names)
    }

    #[test]
    fn the_greatest_reading_counts_with_what_it_is_sure_to() {
        // feelers within 0.02 mm, read to 0.05 mm: 2·√(0.02² + 0.05²)/√3 = 0.0622 mm
        for (readings, expected, found) in [
            ("0.2, 1.13, 0.6", Verdict::Conforms, &[][..]),
            ("0.2, 1.15, 0.6", Verdict::TooClose, &[]),
            ("1.25", Verdict::TooClose, &["reading-outside"]),
            (
                "1.3, 0.1, 1.27",
                Verdict::DoesNotConform,
                &["reading-outside"; 2],
            ),
        ] {
            let (flat, names) = of(&format!(
                "straight_edge = 600, max = 1.2, readings = [{readings}]"
            ));
            let judgement = flat.judgement.expect("limited");
            assert_eq!(judgement.verdict, expected, "{readings}");
            assert!(
                (judgement.guard - 0.062_182_5).abs() < 1e-6,
                "{judgement:?}"
            );
            assert_eq!(names, found, "{readings}");
        }
    }

    #[test]
    fn what_it_is_measured_with_counts() {
        // a rule from its end within 0.3 mm, read to 0.2 mm: 2·√(0.3² + 0.2²)/√3
        let (flat, _) = of("span = 600, max = 1.2, readings = [0.7]");
        assert_eq!(flat.means.words(), "steel rule", "for a bow");
        let guard = flat.sure_to.expect("read");
        assert!((guard - 0.416_333).abs() < 1e-6, "{guard}");
        let (flat, _) = of("span = 600, readings = [0.7], with = \"dial gauge ±0.03 mm\"");
        let guard = flat.sure_to.expect("read");
        assert!((guard - 0.06 / 3f64.sqrt()).abs() < 1e-9, "{guard}");
        assert_eq!(flat.judgement, None, "nothing is limited");
    }

    #[test]
    fn ordinary_stock_is_doubted_before_it_is_measured() {
        // 0.3 % of 600 mm, remembered
        let (flat, names) = of("straight_edge = 600, max = 1.2");
        assert_eq!(flat.stock, Some(Stock::NotTrusted), "1.8 over 600");
        assert_eq!(names, ["stock-not-flat"], "a notice");
        let (flat, names) = of("straight_edge = 600, max = 1.2, mill = 1");
        assert_eq!(flat.stock, Some(Stock::Trusted), "what the mill says");
        assert!(names.is_empty(), "{names:?}");
        let (flat, names) = of("straight_edge = 600, max = 1.2, readings = [0.4]");
        assert_eq!(flat.stock, Some(Stock::NotTrusted), "as before");
        assert!(names.is_empty(), "but it was measured: {names:?}");
    }
}
