//! The budget of edges and faces: what saw, file, paper and polish take off, and what paint lays on.

use super::limits::LimitCheck;
use super::plates::Readings;
use crate::design::Design;
use crate::design::DesignError;
use crate::design::Dimension;
use crate::design::Unresolved;
use crate::design::file::Finish;

/// One step of the work on an edge or a face, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// What is done.
    pub what: &'static str,
    /// What it takes off one edge or face; negative for what is laid on.
    pub takes: f64,
    /// How far outside the drawn line the edge stands after it; for a face how much thicker than the
    /// bare plate it is on that side.
    pub stands: f64,
}

/// The work on the edges of a part.
#[derive(Clone, Debug, PartialEq)]
pub struct EdgeBudget {
    /// The part.
    pub part: String,
    /// The steps, in order.
    pub steps: Vec<Step>,
    /// How far outside the drawn line the edge ends; 0 when the budget comes out even.
    pub over: f64,
}

/// The work on the faces of a plate.
#[derive(Clone, Debug, PartialEq)]
pub struct FaceBudget {
    /// The plate.
    pub plate: String,
    /// The steps on one face, in order.
    pub steps: Vec<Step>,
    /// The thickness before and after both faces are done, mean or nominal.
    pub thickness: Option<(f64, f64)>,
    /// The least and the greatest thickness afterwards, from the readings.
    pub finished: Option<[f64; 2]>,
    /// The verdict on the finished thickness.
    pub verdict: LimitCheck,
}

/// The budgets of a design, and what is wrong with them.
#[derive(Clone, Debug, Default)]
pub struct Budgets {
    /// Of parts, in the order of the file.
    pub edges: Vec<EdgeBudget>,
    /// Of plates, in the order of the file.
    pub faces: Vec<FaceBudget>,
    /// What is wrong with them.
    pub findings: Vec<DesignError>,
}

/// The budgets of a design's edges and faces.
pub fn budgets(design: &Design) -> Budgets {
    let mut budgets = Budgets::default();
    for named in &design.file.part {
        if let Some(finish) = &named.entry.edges {
            match steps(design, &finish.value, finish.value.saw.as_ref()) {
                Ok(steps) => budgets.edges.push(EdgeBudget {
                    part: named.name.value.clone(),
                    over: steps.last().map_or(0.0, |step| step.stands),
                    steps,
                }),
                Err(Unresolved::Fault(error)) => budgets.findings.push(error),
                Err(Unresolved::Open(_)) => {}
            }
        }
    }
    for named in &design.file.plate {
        if let Some(finish) = &named.entry.faces {
            match steps(design, &finish.value, None) {
                Ok(steps) => budgets.faces.push(face(design, &named.name.value, steps)),
                Err(Unresolved::Fault(error)) => budgets.findings.push(error),
                Err(Unresolved::Open(_)) => {}
            }
        }
    }
    budgets
}

fn steps(
    design: &Design,
    finish: &Finish,
    saw: Option<&crate::design::Amount>,
) -> Result<Vec<Step>, Unresolved> {
    let length = |amount: Option<&crate::design::Amount>| {
        amount
            .map(|amount| design.dimensions.length(amount))
            .transpose()
    };
    let mut stands = 0.0;
    let mut steps = Vec::new();
    if let Some(saw) = length(saw)? {
        stands = saw;
        steps.push(Step {
            what: "sawn or cut outside the line",
            takes: 0.0,
            stands,
        });
    }
    for (what, amount, sign) in [
        ("filed", &finish.file, 1.0),
        ("sanded", &finish.sand, 1.0),
        ("polished", &finish.polish, 1.0),
        ("painted or coated", &finish.coating, -1.0),
    ] {
        if let Some(amount) = length(amount.as_ref())? {
            stands -= sign * amount;
            steps.push(Step {
                what,
                takes: sign * amount,
                stands,
            });
        }
    }
    Ok(steps)
}

fn face(design: &Design, plate: &str, steps: Vec<Step>) -> FaceBudget {
    let change = 2.0 * steps.last().map_or(0.0, |step| step.stands);
    let found = design.resolved.plates.iter().find(|of| of.name == plate);
    let gauged: Option<&Dimension> = found.and_then(|plate| plate.gauged.as_deref());
    let thickness = found
        .and_then(|plate| plate.thickness)
        .map(|thickness| (thickness, thickness + change));
    let readings = gauged.and_then(Readings::of);
    let finished = readings.map(|all| [all.least + change, all.greatest + change]);
    let judged = finished.or(thickness.map(|(_, after)| [after, after]));
    let permitted = gauged.map(|gauged| gauged.permitted).unwrap_or_default();
    let verdict = judged.map_or(LimitCheck::Open, |ends| {
        let on_ends = ends.map(|end| LimitCheck::on(Some(end), permitted));
        let broken = on_ends.into_iter().find(|verdict| verdict.is_broken());
        broken.unwrap_or(on_ends[0])
    });
    FaceBudget {
        plate: plate.to_owned(),
        steps,
        thickness,
        finished,
        verdict,
    }
}
