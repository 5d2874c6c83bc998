//! What a policy reached in a world, with its uncertainty.

/// A mean with its 95 % interval.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// The mean.
    pub mean: f64,
    /// The lower end of the interval.
    pub low: f64,
    /// The upper end of the interval.
    pub high: f64,
}

impl Interval {
    /// From one value a learner; the interval is the normal one, for hundreds of learners.
    #[must_use]
    #[allow(clippy::cast_precision_loss)]
    pub fn of(values: &[f64]) -> Self {
        let n = values.len() as f64;
        let mean = values.iter().sum::<f64>() / n;
        let squares: f64 = values
            .iter()
            .map(|value| (value - mean) * (value - mean))
            .sum();
        let half = 1.959_963_984_540_054 * libm::sqrt(squares / (n - 1.0).max(1.0) / n);
        Self {
            mean,
            low: mean - half,
            high: mean + half,
        }
    }
}

/// What one policy reached in one world.
#[derive(Clone, Debug, PartialEq)]
pub struct Cell {
    /// What chose the questions.
    pub policy: super::Policy,
    /// The mean true chance of a right answer to the drill's questions.
    pub success: f64,
    /// Mean true success over all devices, some weeks after the drill.
    pub delayed: Interval,
    /// The same less the bag's, learner by learner.
    pub against_bag: Interval,
    /// Success of the weakest quarter of the devices.
    pub weakest_quarter: Interval,
    /// The median over learners of the questions until four devices in five are mastered.
    pub to_mastery: f64,
    /// The median's 95 % interval, from its order statistics.
    pub to_mastery_low: f64,
    /// The upper end of that interval.
    pub to_mastery_high: f64,
    /// The part of the learners that did not get there.
    pub censored: f64,
    /// The model's log-loss over all its predictions.
    pub log_loss: f64,
    /// The mean square of predicted chance less what happened, 0 to 1.
    pub brier: f64,
    /// How far predicted chances lie from what happened, over ten bins.
    pub calibration: f64,
    /// How far the estimates lie from the truth at the end of the drill, root mean square.
    pub error: f64,
    /// What the learners were told, against the truth.
    pub verdicts: super::Verdicts,
}

/// Predictions against what happened.
#[derive(Clone, Debug, Default)]
pub struct Forecast {
    bins: [(f64, f64); 10],
    loss: f64,
    squares: f64,
    count: f64,
}

impl Forecast {
    /// Takes in a prediction (0 to 1) and what happened.
    pub fn add(&mut self, predicted: f64, right: bool) {
        let happened = if right { predicted } else { 1.0 - predicted };
        self.loss -= libm::log(happened.max(1e-9));
        self.squares += (1.0 - happened) * (1.0 - happened);
        self.count += 1.0;
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let bin = ((predicted * 10.0) as usize).min(9);
        self.bins[bin].0 += predicted;
        self.bins[bin].1 += f64::from(u8::from(right));
    }

    /// Takes in the predictions of another.
    pub fn join(&mut self, other: &Self) {
        self.loss += other.loss;
        self.squares += other.squares;
        self.count += other.count;
        for (own, more) in self.bins.iter_mut().zip(other.bins) {
            own.0 += more.0;
            own.1 += more.1;
        }
    }

    /// Mean log-loss in nats.
    #[must_use]
    pub fn log_loss(&self) -> f64 {
        self.loss / self.count
    }

    /// The mean squared error of the chances (Brier 1950).
    #[must_use]
    pub fn brier(&self) -> f64 {
        self.squares / self.count
    }

    /// Mean distance of predicted from observed rates over ten bins, by their weight.
    #[must_use]
    pub fn calibration(&self) -> f64 {
        let away: f64 = self
            .bins
            .iter()
            .map(|(sum, right)| (sum - right).abs())
            .sum();
        away / self.count
    }
}

/// The median and its 95 % interval by order statistics (binomial, normal approximation).
#[allow(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss
)]
pub(super) fn median(values: &mut [f64]) -> (f64, f64, f64) {
    values.sort_by(f64::total_cmp);
    let n = values.len();
    let half = 0.5 * 1.959_963_984_540_054 * (n as f64).sqrt();
    let middle = 0.5 * n as f64;
    let at = |place: f64| values[(place.max(0.0) as usize).min(n - 1)];
    let centre = 0.5 * (values[(n - 1) / 2] + values[n / 2]);
    (centre, at(middle - half), at(middle + half))
}
