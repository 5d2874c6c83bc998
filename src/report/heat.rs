//! Truth against answer: which chords are taken for which.

use std::collections::BTreeMap;

/// How often each answer was given for each chord.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Heat {
    rows: BTreeMap<String, BTreeMap<String, u32>>,
}

/// The heat map of the chords that are asked most.
#[derive(Clone, Debug, PartialEq)]
pub struct Map {
    /// What sounded and what was said, in the same order; answers elsewhere are left out.
    pub names: Vec<String>,
    /// For each name that sounded, how often each name was said.
    pub counts: Vec<Vec<u32>>,
    /// For each name that sounded, how often it was asked, with all answers.
    pub asked: Vec<u32>,
}

impl Heat {
    pub(super) fn count(&mut self, truth: &str, answer: &str) {
        // The same few pairs come all the time, and need no text of their own.
        let row = self.rows.get_mut(truth);
        if let Some(count) = row.and_then(|row| row.get_mut(answer)) {
            *count += 1;
            return;
        }
        let row = self.rows.entry(truth.to_owned()).or_default();
        row.insert(answer.to_owned(), 1);
    }

    /// The map of the `most` chords that were asked most.
    #[must_use]
    pub fn map(&self, most: usize) -> Map {
        let asked = |row: &BTreeMap<String, u32>| row.values().sum::<u32>();
        let mut order: Vec<(&String, u32)> = self
            .rows
            .iter()
            .map(|(name, row)| (name, asked(row)))
            .collect();
        order.sort_by(|a, b| b.1.cmp(&a.1).then(a.0.cmp(b.0)));
        order.truncate(most);
        let count =
            |truth: &String, answer: &String| self.rows[truth].get(answer).copied().unwrap_or(0);
        Map {
            names: order.iter().map(|(name, _)| (*name).clone()).collect(),
            counts: order
                .iter()
                .map(|(truth, _)| order.iter().map(|(said, _)| count(truth, said)).collect())
                .collect(),
            asked: order.iter().map(|(_, asked)| *asked).collect(),
        }
    }
}

impl Map {
    /// A cell's warmth, 0 to 4, by its share of the answers to its row.
    #[must_use]
    pub fn warmth(&self, row: usize, column: usize) -> usize {
        let (count, asked) = (self.counts[row][column], self.asked[row]);
        let steps = [1, 10, 25, 50];
        steps
            .iter()
            .filter(|percent| count > 0 && count * 100 >= **percent * asked)
            .count()
            .max(usize::from(count > 0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_map_holds_the_chords_asked_most_and_their_shares() {
        let mut heat = Heat::default();
        for (truth, answer, times) in [
            ("iv", "iv", 6),
            ("iv", "ii", 3),
            ("iv", "vi", 1),
            ("ii", "ii", 4),
        ] {
            for _ in 0..times {
                heat.count(truth, answer);
            }
        }
        let map = heat.map(2);
        assert_eq!(map.names, ["iv", "ii"]);
        assert_eq!(map.counts, [[6, 3], [0, 4]]);
        assert_eq!(map.asked, [10, 4]);
        assert_eq!((map.warmth(0, 0), map.warmth(0, 1)), (4, 3));
        assert_eq!((map.warmth(1, 0), map.warmth(1, 1)), (0, 4));
    }
}
