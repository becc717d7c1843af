//! What a record says about part, boat, rules and the claim; and where people sign.

use crate::design::Design;
use crate::design::Word;
use crate::documents::Stamp;
use crate::measures::inspection::Inspection;
use crate::measures::inspection::Item;
use crate::measures::verdict::Claimant;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Table;
use crate::sheet::number::trimmed;

/// Who has the last word.
pub(super) const DECIDES: &str = "Whether the part is legal is for the rules and for whoever they \
    appoint to measure, not for this paper. It says what was read, and how far the reading is sure.";

/// What a record stands for.
pub(super) fn of_record(inspection: &Inspection, design: &Design, stamp: &Stamp) -> Table {
    let mut parts: Vec<&str> = Vec::new();
    for inspected in &inspection.items {
        if !parts.contains(&inspected.item.part.as_str()) {
            parts.push(&inspected.item.part);
        }
    }
    let mut table = about(&parts, design, stamp);
    let claim = match inspection.rules.claimant {
        Claimant::Maker => "the maker, that the part keeps the limits",
        Claimant::Inspector => "the inspector, that the part does not keep the limits",
    };
    table.row(vec!["who claims".into(), claim.into()]);
    let g = trimmed(inspection.rules.guard, 3);
    let guard = format!(
        "limits drawn in by {g} standard uncertainties (g = {g}; more where readings are few) for a \
         claim that they are kept, and out by as much for a claim that they are not"
    );
    table.row(vec!["verdicts".into(), guard.into()]);
    for blank in ["place", "date", "measured by"] {
        table.row(vec![blank.into(), Cell::Blank]);
    }
    table
}

/// What a form stands for.
pub(super) fn of_form(items: &[&Item], design: &Design, stamp: &Stamp) -> Table {
    let mut parts: Vec<&str> = Vec::new();
    for item in items {
        if !parts.contains(&item.part.as_str()) {
            parts.push(&item.part);
        }
    }
    let mut table = about(&parts, design, stamp);
    for blank in [
        "measured with",
        "temperature, °C",
        "place",
        "date",
        "measured by",
    ] {
        table.row(vec![blank.into(), Cell::Blank]);
    }
    table
}

fn about(parts: &[&str], design: &Design, stamp: &Stamp) -> Table {
    let mut table = Table::new(
        "",
        vec![
            Column::words("What", "what"),
            Column::words("Which", "which"),
        ],
    );
    let noun = if parts.len() == 1 { "part" } else { "parts" };
    table.row(vec![noun.into(), parts.join(", ").into()]);
    for named in &design.file.identity {
        let key = named.name.value.replace('_', " ");
        table.row(vec![key.into(), named.entry.value.as_str().into()]);
    }
    if let Some(rules) = &design.file.rules {
        let lines = [
            ("rules", &rules.title),
            ("edition", &rules.edition),
            ("clause", &rules.clause),
        ];
        for (what, word) in lines {
            if let Some(Word { value, .. }) = word {
                table.row(vec![what.into(), value.as_str().into()]);
            }
        }
    }
    if let Some(class) = stamp.general {
        table.row(vec!["general tolerances".into(), class.name().into()]);
    }
    table.row(vec!["design".into(), stamp.fingerprint.as_str().into()]);
    table
}

/// Where people sign.
pub(super) fn signatures() -> Table {
    let mut table = Table::new(
        "Signatures",
        vec![
            Column::words("Who", "who"),
            Column::words("Name", "name"),
            Column::words("Signature", "signature"),
            Column::words("Place and date", "place_and_date"),
        ],
    );
    for who in ["maker", "inspector"] {
        table.row(vec![who.into(), Cell::Blank, Cell::Blank, Cell::Blank]);
    }
    table
}
