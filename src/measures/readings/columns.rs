//! The columns of a table of readings.

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Column {
    Row,
    Name,
    Reading,
    Unit,
    /// Over the rounds or not.
    Taken,
    With,
    Temperature,
    Note,
    /// What the form says, and nobody fills in.
    OfTheForm,
}

/// Headings and what stands under them.
pub(super) const HEADINGS: [(&str, Column); 15] = [
    ("row", Column::Row),
    ("no", Column::Row),
    ("name", Column::Name),
    ("reading", Column::Reading),
    ("readings", Column::Reading),
    ("unit", Column::Unit),
    ("taken", Column::Taken),
    ("with", Column::With),
    ("instrument", Column::With),
    ("temperature", Column::Temperature),
    ("note", Column::Note),
    ("part", Column::OfTheForm),
    ("expected", Column::OfTheForm),
    ("permitted", Column::OfTheForm),
    ("how", Column::OfTheForm),
];
