//! What the part as a whole has: area, weight, thickness.

use crate::design::DesignError;
use crate::design::Place;
use crate::design::error::MeasureFault;
use crate::geometry::Region;
use crate::measures::shape::Shape;
use crate::measures::taken::How;
use crate::measures::taken::Taken;
use crate::measures::taken::TakenKind;
use crate::trade::TradeError;
use crate::trade::materials;

fn square_millimetres(shape: &Shape<'_>) -> f64 {
    shape.regions().iter().map(Region::area).sum()
}

pub(super) fn area(shape: &Shape<'_>) -> Taken {
    Taken::whole(TakenKind::Area, square_millimetres(shape), How::WorkedOut)
}

pub(super) fn thickness(shape: &Shape<'_>, place: Place) -> Result<Taken, DesignError> {
    let thickness = millimetres_thick(shape, place)?;
    Ok(Taken::whole(TakenKind::Length, thickness, How::Straight))
}

pub(super) fn weight(shape: &Shape<'_>, place: Place) -> Result<Taken, DesignError> {
    let thickness = millimetres_thick(shape, place)?;
    let part = shape.part();
    let material = part
        .plate
        .as_ref()
        .map_or("", |plate| plate.material.as_str());
    let known = materials::find(material).map_err(|unknown| {
        let fault = MeasureFault::NoDensity {
            material: material.to_owned(),
            part: part.name.clone(),
        };
        let near = match &unknown {
            TradeError::UnknownMaterial { nearest, .. } => nearest.first(),
            _ => None,
        };
        let help = "name a material that has a density, or weigh an offcut and limit the area";
        DesignError::new(fault, place).with_help(match near {
            Some(near) => format!("did you mean `{near}`? Else {help}"),
            None => help.to_owned(),
        })
    })?;
    let kilograms = known.mass(square_millimetres(shape), thickness);
    Ok(Taken::whole(TakenKind::Weight, kilograms, How::Scales))
}

fn millimetres_thick(shape: &Shape<'_>, place: Place) -> Result<f64, DesignError> {
    let part = shape.part();
    let thickness = part.plate.as_ref().and_then(|plate| plate.thickness);
    thickness.ok_or_else(|| {
        let part = part.name.clone();
        DesignError::new(MeasureFault::NoThickness { part }, place)
            .with_help("give its plate a `thickness`, or readings of it")
    })
}
