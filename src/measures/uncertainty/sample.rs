//! Repeated readings of one thing.

/// What repeated readings of one thing come to, in their own unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sample {
    /// How many readings there are, at least one.
    pub count: usize,
    /// Their mean.
    pub mean: f64,
    /// The smallest.
    pub least: f64,
    /// The largest.
    pub greatest: f64,
    /// Their standard deviation about the mean (divided by one less than their number); 0 for a single
    /// reading, whose scatter nobody knows.
    pub deviation: f64,
}

impl Sample {
    /// The sample of these readings; `None` for none.
    ///
    /// # Example
    /// ```
    /// use kerfwise::measures::uncertainty::Sample;
    ///
    /// let sample = Sample::of(&[5.08, 5.11, 5.05, 5.12]).ok_or("no readings")?;
    /// assert!((sample.mean - 5.09).abs() < 1e-12 && (sample.range() - 0.07).abs() < 1e-12);
    /// # Ok::<(), &str>(())
    /// ```
    #[expect(clippy::cast_precision_loss, reason = "nobody takes 2^53 readings")]
    pub fn of(readings: &[f64]) -> Option<Self> {
        let count = readings.len();
        if count == 0 {
            return None;
        }
        let mean = readings.iter().sum::<f64>() / count as f64;
        let squares: f64 = readings
            .iter()
            .map(|reading| (reading - mean).powi(2))
            .sum();
        let deviation = if count == 1 {
            0.0
        } else {
            (squares / (count - 1) as f64).sqrt()
        };
        Some(Self {
            count,
            mean,
            least: readings.iter().copied().fold(f64::INFINITY, f64::min),
            greatest: readings.iter().copied().fold(f64::NEG_INFINITY, f64::max),
            deviation,
        })
    }

    /// The largest less the smallest.
    pub fn range(&self) -> f64 {
        self.greatest - self.least
    }

    /// Standard uncertainty of the mean (type A): the standard deviation over the square root of the
    /// number of readings.
    #[expect(clippy::cast_precision_loss, reason = "nobody takes 2^53 readings")]
    pub fn of_the_mean(&self) -> f64 {
        self.deviation / (self.count as f64).sqrt()
    }

    /// Degrees of freedom of the deviation; `None` for a single reading.
    #[expect(clippy::cast_precision_loss, reason = "nobody takes 2^53 readings")]
    pub fn freedom(&self) -> Option<f64> {
        (self.count > 1).then(|| (self.count - 1) as f64)
    }
}
