//! A guesser: naive Bayes over buckets, tried on rows that it has not learned from.
//!
//! Multinomial naive Bayes with one added to every count (Laplace), as in any textbook of
//! statistical learning. Each row is guessed once, by counts of the other four fifths.

/// Values of one thing that is seen, in at most this many buckets.
pub(super) const BUCKETS: usize = 64;

const FOLDS: usize = 5;

/// What is seen of one question, and which of the classes it belongs to.
#[derive(Clone, Copy, Debug)]
pub(super) struct Row<const FEATURES: usize> {
    pub(super) class: u8,
    /// Each below [`BUCKETS`].
    pub(super) seen: [u8; FEATURES],
}

/// How many rows were guessed rightly by the features that `uses` admits.
pub(super) fn right_guesses<const FEATURES: usize>(
    rows: &[Row<FEATURES>],
    uses: impl Fn(usize) -> bool,
) -> u32 {
    let classes = rows
        .iter()
        .map(|row| usize::from(row.class) + 1)
        .max()
        .unwrap_or(0);
    let mut right = 0;
    for fold in 0..FOLDS {
        let held_out = |at: usize| at % FOLDS == fold;
        let mut learned = Learned::new(classes, FEATURES);
        for (_, row) in rows.iter().enumerate().filter(|(at, _)| !held_out(*at)) {
            learned.add(row);
        }
        let guesser = learned.guesser(&uses);
        let asked = rows.iter().enumerate().filter(|(at, _)| held_out(*at));
        right += asked
            .filter(|(_, row)| guesser.guess(row) == usize::from(row.class))
            .count();
    }
    u32::try_from(right).expect("rows are counted in 32 bits")
}

/// Counts of what was seen with each class.
struct Learned {
    features: usize,
    classes: Vec<u32>,
    /// By class, feature and bucket.
    seen: Vec<u32>,
}

impl Learned {
    fn new(classes: usize, features: usize) -> Self {
        Self {
            features,
            classes: vec![0; classes],
            seen: vec![0; classes * features * BUCKETS],
        }
    }

    fn add<const FEATURES: usize>(&mut self, row: &Row<FEATURES>) {
        let class = usize::from(row.class);
        self.classes[class] += 1;
        for (feature, bucket) in row.seen.iter().enumerate() {
            self.seen[place(class, self.features, feature, *bucket)] += 1;
        }
    }

    /// Turns the counts into logarithms of what each bucket says for each class.
    fn guesser(self, uses: &impl Fn(usize) -> bool) -> Guesser {
        let used: Vec<usize> = (0..self.features)
            .filter(|feature| uses(*feature))
            .collect();
        let all: u32 = self.classes.iter().sum();
        let odds = |count: u32, of: u32, ways: usize| {
            libm::log(f64::from(count + 1) / (f64::from(of) + ways as f64))
        };
        let classes = self.classes.len();
        let prior = self
            .classes
            .iter()
            .map(|count| odds(*count, all, classes))
            .collect();
        let mut says = vec![0.0; self.seen.len()];
        for (at, count) in self.seen.iter().enumerate() {
            let class = at / (self.features * BUCKETS);
            says[at] = odds(*count, self.classes[class], BUCKETS);
        }
        Guesser {
            features: self.features,
            used,
            prior,
            says,
        }
    }
}

struct Guesser {
    features: usize,
    used: Vec<usize>,
    prior: Vec<f64>,
    says: Vec<f64>,
}

impl Guesser {
    /// The likeliest class; of several the first.
    fn guess<const FEATURES: usize>(&self, row: &Row<FEATURES>) -> usize {
        let mut best = (f64::NEG_INFINITY, 0);
        for (class, prior) in self.prior.iter().enumerate() {
            let evidence: f64 = self
                .used
                .iter()
                .map(|feature| self.says[place(class, self.features, *feature, row.seen[*feature])])
                .sum();
            if prior + evidence > best.0 {
                best = (prior + evidence, class);
            }
        }
        best.1
    }
}

fn place(class: usize, features: usize, feature: usize, bucket: u8) -> usize {
    (class * features + feature) * BUCKETS + usize::from(bucket)
}

/// The interval that holds the true share with 95 % (Wilson 1927, the score interval).
pub(super) fn interval(right: u32, of: u32) -> (f64, f64) {
    const Z: f64 = 1.959_963_984_540_054;
    if of == 0 {
        return (0.0, 1.0);
    }
    let (n, share) = (f64::from(of), f64::from(right) / f64::from(of));
    let middle = share + Z * Z / (2.0 * n);
    let half = Z * libm::sqrt(share * (1.0 - share) / n + Z * Z / (4.0 * n * n));
    let whole = 1.0 + Z * Z / n;
    ((middle - half) / whole, (middle + half) / whole)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 300 rows of three classes; the second feature says the class in some of them.
    fn rows(telling: impl Fn(usize) -> bool) -> Vec<Row<2>> {
        let row = |at: usize| {
            let class = (at * 7 % 3) as u8;
            let noise = (at * 31 % 17) as u8;
            Row {
                class,
                seen: [noise, if telling(at) { class } else { noise % 3 }],
            }
        };
        (0..300).map(row).collect()
    }

    #[test]
    fn a_feature_that_tells_is_used_and_one_that_does_not_is_not() {
        assert_eq!(right_guesses(&rows(|_| true), |_| true), 300);
        let half = right_guesses(&rows(|at| at % 2 == 0), |feature| feature == 1);
        assert!((180..=240).contains(&half), "{half}");
        let none = right_guesses(&rows(|_| true), |feature| feature == 0);
        assert!((60..=140).contains(&none), "{none}");
    }

    #[test]
    fn nothing_is_learned_from_the_row_that_is_guessed() {
        // Each row has a bucket of its own: whoever learned from it would know it.
        let own = |at: usize| Row {
            class: (at * 7 % 5 % 2) as u8,
            seen: [at as u8],
        };
        let rows: Vec<Row<1>> = (0..60).map(own).collect();
        assert!(right_guesses(&rows, |_| true) < 45);
    }

    #[test]
    fn the_interval_is_that_of_the_handbook() {
        // Newcombe 1998, "Two-sided confidence intervals for the single proportion", table
        // I (from memory): 81 of 263 gives 0.2553 to 0.3662 by Wilson's method.
        let (low, high) = interval(81, 263);
        assert!(
            (low - 0.2553).abs() < 5e-5 && (high - 0.3662).abs() < 5e-5,
            "{low} {high}"
        );
    }
}
