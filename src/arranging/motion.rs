//! How voices move from one chord to the next: which goes where, and which pairs run in
//! parallel.

use crate::theory::OCTAVE;

/// Which voice of one chord becomes which of the next, each counted from the lowest.
///
/// Where the numbers differ, neighbouring voices of the fuller chord begin or end; those
/// that go on move least.
#[derive(Clone, Copy, Debug)]
pub(super) struct Matched {
    fewer: usize,
    surplus: usize,
    /// The first voice of the fuller chord that is left out.
    gap: usize,
    thins: bool,
}

impl Matched {
    pub(super) fn new(from: &[i8], to: &[i8]) -> Self {
        let fewer = from.len().min(to.len());
        let surplus = from.len().abs_diff(to.len());
        let with_gap = |gap| Self {
            fewer,
            surplus,
            gap,
            thins: from.len() > to.len(),
        };
        let motion = |matched: &Self| -> i32 {
            let steps = matched.pairs();
            steps
                .map(|(one, other)| i32::from(to[other] - from[one]).abs())
                .sum()
        };
        if surplus == 0 {
            return with_gap(0);
        }
        (0..=fewer)
            .map(with_gap)
            .min_by_key(motion)
            .expect("a gap at least below all voices")
    }

    /// Index before and index after, of each voice that goes on.
    pub(super) fn pairs(self) -> impl Iterator<Item = (usize, usize)> {
        (0..self.fewer).map(move |index| {
            let shifted = if index < self.gap {
                index
            } else {
                index + self.surplus
            };
            if self.thins {
                (shifted, index)
            } else {
                (index, shifted)
            }
        })
    }
}

/// Whether two voices, the lower first, move from one perfect fifth or octave to another:
/// in parallel, or by contrary motion, which the strict style counts as well.
pub(super) fn consecutive(lower: (i32, i32), upper: (i32, i32)) -> Option<Perfect> {
    let before = (upper.0 - lower.0).rem_euclid(OCTAVE);
    let after = (upper.1 - lower.1).rem_euclid(OCTAVE);
    if before != after || lower.0 == lower.1 || upper.0 == upper.1 {
        return None;
    }
    match before {
        0 => Some(Perfect::Octave),
        7 => Some(Perfect::Fifth),
        _ => None,
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Perfect {
    Fifth,
    Octave,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn consecutive_perfects_are_those_of_the_handbooks() {
        // Strict style (common practice): C-G to D-A are fifths, C-C to D-D octaves; an
        // octave that leaps to the other octave of the same chord is none.
        assert_eq!(consecutive((48, 50), (67, 69)), Some(Perfect::Fifth));
        assert_eq!(consecutive((48, 50), (60, 62)), Some(Perfect::Octave));
        assert_eq!(consecutive((48, 43), (67, 74)), Some(Perfect::Fifth));
        assert_eq!(consecutive((48, 50), (64, 65)), None);
        assert_eq!(consecutive((48, 48), (67, 67)), None);
        assert_eq!(
            consecutive((48, 50), (66, 69)),
            None,
            "a diminished fifth first"
        );
    }

    #[test]
    fn a_voice_that_ends_leaves_the_others_where_they_are() {
        let pairs: Vec<_> = Matched::new(&[55, 60, 64, 67], &[55, 60, 67])
            .pairs()
            .collect();
        assert_eq!(pairs, [(0, 0), (1, 1), (3, 2)]);
        let pairs: Vec<_> = Matched::new(&[60, 64, 67], &[55, 60, 64, 67])
            .pairs()
            .collect();
        assert_eq!(pairs, [(0, 1), (1, 2), (2, 3)]);
    }
}
