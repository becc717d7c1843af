//! Sizes of letters and distances, in millimetres.

/// A size of letters with the distance from line to line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Letter {
    /// Size of the font.
    pub(super) size: f64,
    /// Base line to base line.
    pub(super) leading: f64,
}

impl Letter {
    const fn new(size: f64, leading: f64) -> Self {
        Self { size, leading }
    }

    /// 16 points.
    pub(super) const TITLE: Self = Self::new(5.6, 7.6);
    /// 12 points.
    pub(super) const HEADING: Self = Self::new(4.2, 5.8);
    /// 9.5 points: the font is a large one for its size.
    pub(super) const BODY: Self = Self::new(3.35, 4.8);
    /// 10 points, over a table.
    pub(super) const TABLE_TITLE: Self = Self::new(3.5, 5.0);
    /// 8.5 points, under figures and tables.
    pub(super) const SMALL: Self = Self::new(2.9, 4.1);
    /// 7.5 points.
    pub(super) const FOOTER: Self = Self::new(2.6, 3.6);

    /// The letters of a table, from the usual size to the smallest for tables of many columns.
    pub(super) const TABLE: [Self; 4] = [
        Self::new(3.0, 4.1),
        Self::new(2.7, 3.7),
        Self::new(2.4, 3.3),
        Self::new(2.1, 2.9),
    ];
}

/// Margins: left, right and top; the foot has its own line.
pub(super) const MARGIN: f64 = 20.0;
/// From the lower edge of the paper to the base line of the footer's last line.
pub(super) const FOOT_MARGIN: f64 = 12.0;
/// Margins are no more than this share of a side, on small paper.
pub(super) const LARGEST_MARGIN_SHARE: f64 = 0.1;
/// Smallest height left for the blocks.
pub(super) const LEAST_ROOM: f64 = 40.0;
/// Smallest side of the paper, on which that is left over a footer of a few lines.
pub(super) const LEAST_PAPER: f64 = 75.0;
/// Running words are no wider: some 90 letters, which the eye can follow.
pub(super) const LONGEST_LINE: f64 = 150.0;
/// Over a heading.
pub(super) const OVER_HEADING: f64 = 6.5;
/// Under a heading.
pub(super) const UNDER_HEADING: f64 = 1.4;
/// Between blocks.
pub(super) const BETWEEN_BLOCKS: f64 = 3.0;
/// Around tables, figures and cautions, which are set off a little more.
pub(super) const AROUND: f64 = 4.5;
/// Indent of a list's words behind their dash.
pub(super) const LIST_INDENT: f64 = 5.0;
/// Between the items of a list.
pub(super) const BETWEEN_ITEMS: f64 = 0.8;
/// Inside the frame of a caution.
pub(super) const BOX_PADDING: f64 = 3.0;
/// Room for the sign of a caution.
pub(super) const SIGN_WIDTH: f64 = 8.5;
/// Over and under a cell's words.
pub(super) const CELL_ABOVE: f64 = 0.7;
/// Height of a row with a space for writing in.
pub(super) const WRITING_HEIGHT: f64 = 8.0;
/// Width of a space for writing in.
pub(super) const WRITING_WIDTH: f64 = 26.0;
/// Kept free over a figure as high as the page, for its heading.
pub(super) const OVER_FIGURE: f64 = 16.0;

/// Lines: of frames and the outer rules of tables.
pub(super) const WIDE_RULE: f64 = 0.35;
/// Under the headings of a table.
pub(super) const RULE: f64 = 0.25;
/// Between rows and over the footer.
pub(super) const HAIRLINE: f64 = 0.13;
