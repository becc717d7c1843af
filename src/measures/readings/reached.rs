//! Which of two figures was read, where a row ends at a rounding.

use super::ReadingFault;
use crate::measures::How;
use crate::measures::inspection::Item;

/// Which of the two figures of a row a reading is: jaws that close on a rounding read another number
/// than a rule held to where the row says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reached {
    /// It was taken as the row says: to the sharp corner, or straight across.
    AsTheRowSays,
    /// It was taken over the rounds.
    OverTheRounds,
}

/// The ways of reading that a person can name, each as a person may write it; the longer words first.
pub(super) const WAYS: [(&str, How); 9] = [
    ("over the roundings", How::OverTheRounds),
    ("over the rounds", How::OverTheRounds),
    ("over rounds", How::OverTheRounds),
    ("to the sharp corner", How::SharpCorner),
    ("to sharp corner", How::SharpCorner),
    ("sharp corner", How::SharpCorner),
    ("rounds", How::OverTheRounds),
    ("straight across", How::Straight),
    ("straight", How::Straight),
];

impl Reached {
    /// What a person says of a reading of this item.
    ///
    /// # Errors
    /// What is no way of reading, or not one of this row.
    pub(super) fn parse(text: &str, item: &Item) -> Result<Self, ReadingFault> {
        let plain = text.trim().to_lowercase().replace(['_', '-'], " ");
        let (number, name) = (item.number, item.name.clone());
        let own = item.taken.map(|taken| taken.how);
        let said = WAYS
            .into_iter()
            .find_map(|(words, how)| (words == plain).then_some(how));
        match said {
            Some(How::OverTheRounds) if item.ways_of_reading().is_some() => Ok(Self::OverTheRounds),
            Some(said) if own == Some(said) => Ok(Self::AsTheRowSays),
            _ => Err(ReadingFault::NotTakenSo {
                number,
                name,
                written: text.to_owned(),
                how: own.map_or("otherwise", How::words),
            }),
        }
    }

    /// In the words that are read back.
    pub fn words(self, item: &Item) -> &'static str {
        match (self, item.taken) {
            (Self::AsTheRowSays, Some(taken)) => taken.how.words(),
            _ => How::OverTheRounds.words(),
        }
    }

    /// What readings of an item may be expected to be, where this is said of them or nothing is.
    pub(super) fn expected(reached: Option<Self>, item: &Item) -> Vec<f64> {
        let own = item.expected;
        let beyond = item.taken.and_then(|taken| taken.beyond_the_rounds());
        let over = own.zip(beyond).map(|(own, beyond)| own - beyond);
        match reached {
            Some(Self::OverTheRounds) => over.or(own).into_iter().collect(),
            Some(Self::AsTheRowSays) => own.into_iter().collect(),
            None => own.into_iter().chain(over).collect(),
        }
    }
}

/// The way out where the way of reading is not one of the row.
pub(super) fn help(item: &Item) -> String {
    match item.ways_of_reading() {
        Some([over, own]) => format!(
            "write `{}` or `{}`, whichever it was",
            over.words(),
            own.words()
        ),
        None => "leave it out: this row has one figure only".to_owned(),
    }
}
