//! Plates: what their readings say, and whether ordinary stock can be trusted to keep a limit.

use crate::design::Band;
use crate::design::Design;
use crate::design::DesignError;
use crate::design::Dimension;
use crate::design::dimensions::Spread;
use crate::design::error::MeasureFault;
use crate::design::part::Plate;
use crate::measures::limits::LimitCheck;
use crate::measures::limits::broken_by;
use crate::trade::thickness;
use crate::trade::thickness::MillTolerance;

/// A plate with what is known of its thickness, in millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct Gauged {
    /// Its name.
    pub name: String,
    /// What it is made of, as written.
    pub material: String,
    /// Its thickness with limits and readings.
    pub thickness: Dimension,
    /// What the readings say, if there are any.
    pub readings: Option<Readings>,
    /// What the mill may deliver of this nominal thickness, if it is known.
    pub mill: Option<MillTolerance>,
    /// Whether all that the mill may deliver keeps the limits; `None` without limits or mill tolerance.
    pub stock: Option<Stock>,
    /// The verdict on the readings, each of which counts; on the nominal thickness without readings.
    pub verdict: LimitCheck,
}

/// What the readings of a thickness say.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Readings {
    /// How many.
    pub count: usize,
    /// Their mean: it serves the half-thickness line.
    pub mean: f64,
    /// The least.
    pub least: f64,
    /// The greatest.
    pub greatest: f64,
}

impl Readings {
    /// What they say; `None` if there are none.
    pub fn of(dimension: &Dimension) -> Option<Self> {
        let readings = &dimension.readings;
        let fold = |choose: fn(f64, f64) -> f64| readings.iter().copied().reduce(choose);
        Some(Self {
            count: readings.len(),
            mean: dimension.mean_reading()?,
            least: fold(f64::min)?,
            greatest: fold(f64::max)?,
        })
    }

    /// From the least to the greatest.
    pub fn variation(&self) -> f64 {
        self.greatest - self.least
    }
}

/// Whether stock of a nominal thickness can be trusted to keep a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stock {
    /// All that the mill may deliver keeps it.
    Trusted,
    /// Some of it may not: measure before buying.
    NotTrusted,
}

/// The plates of a design that have a thickness, and what is wrong with them.
pub fn plates(design: &Design) -> (Vec<Gauged>, Vec<DesignError>) {
    let mut findings = Vec::new();
    let mut all = Vec::new();
    for plate in &design.resolved.plates {
        let Some(thickness) = plate.gauged.as_deref() else {
            continue;
        };
        let gauged = gauged(plate, thickness);
        findings.extend(outside(&gauged));
        findings.extend(not_trusted(&gauged));
        all.push(gauged);
    }
    (all, findings)
}

fn gauged(plate: &Plate, thickness: &Dimension) -> Gauged {
    let readings = Readings::of(thickness);
    let nominal = thickness.value();
    let mill = nominal.and_then(|nominal| {
        let across = plate.size.map(|(a, b)| a.min(b));
        thickness::of(&plate.material, nominal, across)
    });
    let permitted = thickness.permitted;
    let keeps = |value: f64| !LimitCheck::on(Some(value), permitted).is_broken();
    let stock = nominal.zip(mill).filter(|_| permitted.is_limited());
    let verdict = match readings {
        Some(readings) => [readings.least, readings.greatest]
            .map(|reading| LimitCheck::on(Some(reading), permitted))
            .into_iter()
            .find(|verdict| verdict.is_broken())
            .unwrap_or_else(|| LimitCheck::on(Some(readings.mean), permitted)),
        None => LimitCheck::on(nominal, permitted),
    };
    Gauged {
        name: plate.name.clone(),
        material: plate.material.clone(),
        thickness: thickness.clone(),
        readings,
        mill,
        stock: stock.map(|(nominal, mill)| {
            if keeps(nominal - mill.minus) && keeps(nominal + mill.plus) {
                Stock::Trusted
            } else {
                Stock::NotTrusted
            }
        }),
        verdict,
    }
}

/// How far the thickness of a plate is expected to be from what is reckoned with: half the variation of
/// its readings; without readings what the file says, or what the mill may deliver.
pub(super) fn expected(plate: &Plate) -> Band {
    let Some(thickness) = plate.gauged.as_deref() else {
        return Band::default();
    };
    if let Some(readings) = Readings::of(thickness) {
        return Band {
            plus: readings.greatest - readings.mean,
            minus: readings.mean - readings.least,
        };
    }
    if let Spread::Given(band) = thickness.spread {
        return band;
    }
    let across = plate.size.map(|(a, b)| a.min(b));
    let mill = thickness
        .value()
        .and_then(|nominal| thickness::of(&plate.material, nominal, across));
    mill.map_or_else(Band::default, |mill| Band {
        plus: mill.plus,
        minus: mill.minus,
    })
}

/// The readings past the limits.
fn outside(gauged: &Gauged) -> Vec<DesignError> {
    let thickness = &gauged.thickness;
    let told = |(index, &reading): (usize, &f64)| {
        let (side, by, limit) = broken_by(reading, thickness.permitted)?;
        let [shown, limit] = thickness.shown_apart([reading, limit]);
        let fault = MeasureFault::ReadingOutside {
            name: thickness.name.clone(),
            number: index + 1,
            reading: shown,
            by: thickness.shown(by),
            side,
            limit,
        };
        let help = match side {
            "under" => "cut the part elsewhere on the plate, or take another plate",
            _ => "take it down there, cut the part elsewhere, or take another plate",
        };
        Some(DesignError::new(fault, thickness.value_place).with_help(help))
    };
    thickness
        .readings
        .iter()
        .enumerate()
        .filter_map(told)
        .collect()
}

/// The notice that ordinary stock may not keep the limits; only before the plate was measured.
fn not_trusted(gauged: &Gauged) -> Option<DesignError> {
    if gauged.stock != Some(Stock::NotTrusted) || gauged.readings.is_some() {
        return None;
    }
    let thickness = &gauged.thickness;
    let (nominal, mill) = (thickness.value()?, gauged.mill?);
    let shown = |value: f64| thickness.shown(value);
    let permitted = match (thickness.permitted.min, thickness.permitted.max) {
        (Some(min), Some(max)) => format!("{} to {}", shown(min), shown(max)),
        (Some(min), None) => format!("not less than {}", shown(min)),
        (None, Some(max)) => format!("not more than {}", shown(max)),
        (None, None) => return None,
    };
    let fault = MeasureFault::StockNotTrusted {
        material: gauged.material.clone(),
        nominal: shown(nominal),
        least: shown(nominal - mill.minus),
        most: shown(nominal + mill.plus),
        permitted,
    };
    Some(
        DesignError::notice(fault, thickness.value_place)
            .with_help("measure the plate before buying, and write the `readings` here"),
    )
}
