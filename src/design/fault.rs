//! The faults of a design file by stage, with their numbers and without their places.

use super::expression::Kind;

/// The file is not written as a design file is.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FileFault {
    /// The bytes are no text.
    #[error("the file is not plain text: byte {offset} is no UTF-8")]
    NotText {
        /// Offset of the first such byte.
        offset: usize,
    },
    /// The file is larger than any design.
    #[error("the file has {bytes} bytes, and a design has at most {limit}")]
    TooLarge {
        /// Its size.
        bytes: usize,
        /// The most.
        limit: usize,
    },
    /// Not TOML, or not JSON.
    #[error("{message}")]
    Syntax {
        /// What the reader of TOML or JSON says.
        message: String,
    },
    /// Tables and lists nested deeper than any design.
    #[error("tables and lists are nested more than {limit} deep here")]
    TooDeep {
        /// The most.
        limit: usize,
    },
    /// `25,4` for 25.4.
    #[error("`{written}` has a decimal comma, and a design file has decimal points")]
    DecimalComma {
        /// What was written.
        written: String,
    },
    /// There is more wrong than is worth reading.
    #[error("{count} further errors are not shown")]
    MoreErrors {
        /// How many more.
        count: usize,
    },
    /// A key that means nothing here.
    #[error("`{key}` is not a key of {within}")]
    UnknownKey {
        /// The key.
        key: String,
        /// What it stands in.
        within: String,
    },
    /// A key written twice.
    #[error("`{key}` stands twice in {within}")]
    DuplicateKey {
        /// The key.
        key: String,
        /// What it stands in.
        within: String,
    },
    /// A key that has to be there.
    #[error("{within} has no `{key}`")]
    MissingKey {
        /// The key.
        key: String,
        /// What it is missing in.
        within: String,
    },
    /// A table where a length should be, and the like.
    #[error("{what} must be {expected}, and this is {found}")]
    WrongType {
        /// The key, or what it stands in.
        what: String,
        /// What it should be.
        expected: String,
        /// What it is.
        found: String,
    },
    /// A list with too few or too many entries.
    #[error("{what} must have {expected} entries, and this has {found}")]
    WrongCount {
        /// The key.
        what: String,
        /// How many it should have.
        expected: usize,
        /// How many it has.
        found: usize,
    },
    /// Several keys of which only one can hold.
    #[error("{within} has both `{first}` and `{second}`, and only one of them can hold")]
    OnlyOneOf {
        /// What they stand in.
        within: String,
        /// The one.
        first: String,
        /// The other.
        second: String,
    },
    /// None of several keys of which one is needed.
    #[error("{within} needs one of {choices}")]
    OneIsNeeded {
        /// What lacks it.
        within: String,
        /// The keys, listed.
        choices: String,
    },
    /// A key that goes with another, which is not there.
    #[error("{within} has `{key}` without {other}")]
    NeedsOther {
        /// What it stands in.
        within: String,
        /// The key.
        key: String,
        /// What it goes with.
        other: String,
    },
    /// A word that is none of the choices.
    #[error("`{word}` is none of the choices for {what}")]
    UnknownWord {
        /// The word.
        word: String,
        /// What it was to choose.
        what: String,
    },
    /// Infinity, NaN, or beyond what a double holds.
    #[error("`{written}` is not a usable number")]
    NotANumber {
        /// What was written.
        written: String,
    },
    /// A whole number that is negative, broken or too large.
    #[error("{what} must be a whole number from {least} to {most}, and this is {found}")]
    NotACount {
        /// The key.
        what: String,
        /// The least.
        least: u32,
        /// The most.
        most: u32,
        /// What was written.
        found: String,
    },
    /// A name that cannot be one.
    #[error("`{name}` cannot be the name of {what}: {why}")]
    BadName {
        /// The name.
        name: String,
        /// What it was to name.
        what: String,
        /// Why not.
        why: String,
    },
    /// Two things with one name.
    #[error("`{name}` is the name of two things in {within}")]
    DuplicateName {
        /// The name.
        name: String,
        /// Where both stand.
        within: String,
    },
    /// A reference to a part, plate or the like that is not there.
    #[error("there is no {what} `{name}`")]
    UnknownReference {
        /// What it should be.
        what: String,
        /// The name.
        name: String,
    },
}

named!(FileFault:
    NotText => "not-text",
    TooLarge => "too-large",
    Syntax => "syntax",
    TooDeep => "too-deep",
    DecimalComma => "decimal-comma",
    MoreErrors => "more-errors",
    UnknownKey => "unknown-key",
    DuplicateKey => "duplicate-key",
    MissingKey => "missing-key",
    WrongType => "wrong-type",
    WrongCount => "wrong-count",
    OnlyOneOf => "only-one-of",
    OneIsNeeded => "one-is-needed",
    NeedsOther => "needs-other",
    UnknownWord => "unknown-word",
    NotANumber => "not-a-number",
    NotACount => "not-a-count",
    BadName => "bad-name",
    DuplicateName => "duplicate-name",
    UnknownReference => "unknown-reference",
);

/// An expression has no value.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ExpressionFault {
    /// Nothing between the quotes.
    #[error("the expression is empty")]
    Empty,
    /// Longer than any dimension needs.
    #[error("the expression has {length} bytes, and may have {limit}")]
    TooLong {
        /// Its length.
        length: usize,
        /// The most.
        limit: usize,
    },
    /// Nested deeper than any dimension needs.
    #[error("the expression is nested more than {limit} deep")]
    TooDeep {
        /// The most.
        limit: usize,
    },
    /// A character that no expression has.
    #[error("`{character}` means nothing in an expression")]
    UnexpectedCharacter {
        /// The character.
        character: char,
    },
    /// `25,4` for 25.4.
    #[error("`{written}` has a decimal comma, and an expression has decimal points")]
    DecimalComma {
        /// What was written.
        written: String,
    },
    /// `2 3`.
    #[error("an operator is missing between `{before}` and `{after}`")]
    MissingOperator {
        /// What stands before the gap.
        before: String,
        /// What stands after it.
        after: String,
    },
    /// An operator with nothing after it, and the like.
    #[error("{expected} is missing {before}")]
    Missing {
        /// What should be there.
        expected: &'static str,
        /// Before what.
        before: String,
    },
    /// A parenthesis that is never opened.
    #[error("this parenthesis closes nothing")]
    StrayParenthesis,
    /// A number that cannot be read.
    #[error("`{written}` is not a number")]
    BadNumber {
        /// What was written.
        written: String,
    },
    /// `4-1/2` without a unit.
    #[error("`{written}` can be read as a mixed number or as a subtraction")]
    AmbiguousMixedNumber {
        /// What was written.
        written: String,
    },
    /// `1/2` in a file of millimetres.
    #[error("`{written}` without a unit is {value} here, and looks like a fraction of an inch")]
    BareFraction {
        /// What was written.
        written: String,
        /// What it is in the file's unit.
        value: String,
    },
    /// A word after a number that is no unit.
    #[error("`{word}` is not a unit")]
    UnknownUnit {
        /// The word.
        word: String,
    },
    /// A name that no dimension has.
    #[error("there is no dimension `{name}`")]
    UnknownName {
        /// The name.
        name: String,
    },
    /// A function that does not exist.
    #[error("there is no function `{name}`")]
    UnknownFunction {
        /// The name.
        name: String,
    },
    /// Too few or too many arguments.
    #[error("`{function}` takes {expected}, and was given {found}")]
    ArgumentCount {
        /// The function.
        function: &'static str,
        /// What it takes, in words.
        expected: &'static str,
        /// How many it was given.
        found: usize,
    },
    /// A length plus an area, and the like.
    #[error("{left} and {right} cannot be {operation}")]
    KindMismatch {
        /// Kind of the left side.
        left: Kind,
        /// Kind of the right side.
        right: Kind,
        /// What was to be done, as a participle.
        operation: &'static str,
    },
    /// A function of something it has no value for.
    #[error("`{function}` takes {expected}, and this is {found}")]
    WrongArgument {
        /// The function.
        function: &'static str,
        /// What it takes.
        expected: &'static str,
        /// What it was given.
        found: String,
    },
    /// An area where a length is needed, and the like.
    #[error("{expected} is needed here, and this is {found}")]
    WrongKind {
        /// The kind needed.
        expected: Kind,
        /// The kind it is.
        found: Kind,
    },
    /// A division by zero.
    #[error("division by `{divisor}`, which is 0")]
    DivisionByZero {
        /// The divisor as written.
        divisor: String,
    },
    /// Beyond what a double holds.
    #[error("the value of `{expression}` is too large for a number")]
    Overflow {
        /// The expression as written.
        expression: String,
    },
    /// A power that is no whole number, or too high.
    #[error("a power must be a whole number from 0 to {most}, and this is `{written}`")]
    BadPower {
        /// The most.
        most: i8,
        /// What was written.
        written: String,
    },
    /// A power of a length beyond any use.
    #[error("this is {found}, which no dimension of a flat part is")]
    UselessKind {
        /// The kind.
        found: Kind,
    },
}

named!(ExpressionFault:
    Empty => "empty-expression",
    TooLong => "expression-too-long",
    TooDeep => "expression-too-deep",
    UnexpectedCharacter => "unexpected-character",
    DecimalComma => "decimal-comma-in-expression",
    MissingOperator => "missing-operator",
    Missing => "missing-operand",
    StrayParenthesis => "stray-parenthesis",
    BadNumber => "bad-number",
    AmbiguousMixedNumber => "ambiguous-mixed-number",
    BareFraction => "bare-fraction",
    UnknownUnit => "unknown-unit",
    UnknownName => "unknown-name",
    UnknownFunction => "unknown-function",
    ArgumentCount => "argument-count",
    KindMismatch => "kind-mismatch",
    WrongArgument => "wrong-argument",
    WrongKind => "wrong-kind",
    DivisionByZero => "division-by-zero",
    Overflow => "overflow",
    BadPower => "bad-power",
    UselessKind => "useless-kind",
);

/// The dimensions do not agree.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum DimensionFault {
    /// Dimensions that depend on each other in a ring.
    #[error("{ring} depend on each other in a ring")]
    Cycle {
        /// Their names in order, the first again at the end.
        ring: String,
    },
    /// A dimension with neither value nor readings.
    #[error("`{name}` has no value")]
    NoValue {
        /// The dimension.
        name: String,
    },
    /// A limit above the other.
    #[error("`{name}` may not be less than {min} nor more than {max}, which nothing is")]
    NothingPermitted {
        /// The dimension.
        name: String,
        /// The least, with its unit.
        min: String,
        /// The most, with its unit.
        max: String,
    },
    /// A negative tolerance.
    #[error("{what} is {value}, and cannot be negative")]
    Negative {
        /// What it is.
        what: String,
        /// Its value, with its unit.
        value: String,
    },
    /// A value outside its own limits.
    #[error("`{name}` is {value}, {by} {side} the {limit} permitted")]
    OutsideLimits {
        /// The dimension.
        name: String,
        /// Its value, with its unit.
        value: String,
        /// By how much, with its unit.
        by: String,
        /// "under" or "over".
        side: &'static str,
        /// The limit, with its unit.
        limit: String,
    },
    /// A repeated dimension that does not agree with what it repeats.
    #[error(
        "`{name}` is {value}, but `{of}` is {other}: they differ by {by}, and may by {tolerance}"
    )]
    ReferenceDisagrees {
        /// The dimension.
        name: String,
        /// Its value, with its unit.
        value: String,
        /// What it repeats, as written.
        of: String,
        /// The value of that, with its unit.
        other: String,
        /// The difference, with its unit.
        by: String,
        /// The tolerance, with its unit.
        tolerance: String,
    },
    /// A `--set` of a name that no dimension has.
    #[error("cannot set `{name}`: there is no dimension of that name")]
    UnknownOverride {
        /// The name.
        name: String,
    },
    /// A `--set` of something that has no value.
    #[error("cannot set `{name}` to `{text}`: {fault}")]
    BadOverride {
        /// The dimension.
        name: String,
        /// What it was to be.
        text: String,
        /// Why not.
        fault: Box<ExpressionFault>,
    },
    /// A dimension with limits that nobody can take on the part.
    #[error("`{name}` has limits but no `measure`, so it cannot be inspected on the finished part")]
    NoMeasure {
        /// The dimension.
        name: String,
    },
    /// A dimension that nothing is drawn or measured by.
    #[error("the dimension `{name}` is used nowhere")]
    Unused {
        /// The dimension.
        name: String,
    },
}

named!(DimensionFault:
    Cycle => "cycle",
    NoValue => "no-value",
    NothingPermitted => "nothing-permitted",
    Negative => "negative",
    OutsideLimits => "outside-limits",
    ReferenceDisagrees => "reference-disagrees",
    UnknownOverride => "unknown-override",
    BadOverride => "bad-override",
    NoMeasure => "no-measure",
    Unused => "unused-dimension",
);
