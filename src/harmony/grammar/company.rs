//! Which chords may fill a line.

use super::chord::Chord;
use super::phrasing::Phrasing;
use super::vocabulary::Vocabulary;
use crate::devices::Device;

/// Dominants and their ii that tunes use everywhere: whoever is at home with the chords of
/// the key is led through them.
const EVERYDAY: [&str; 9] = [
    "V7/ii", "V7/V", "V7/IV", "v7", "V7/vi", "iiiø7", "viiø7", "V7/iv", "IV7",
];

/// The chords that may fill a line, by their place among the fillers.
pub(super) struct Offered {
    pub(super) phrasing: Phrasing,
    shares: Vec<f64>,
}

impl Offered {
    /// The chords of the key; in tunes also what leads everywhere, and the own chords of the
    /// devices in the company.
    pub(super) fn of(vocabulary: &Vocabulary, phrasing: Phrasing, company: &[&Device]) -> Self {
        let everyday = EVERYDAY.map(|text| vocabulary.read(text));
        let expansions = company
            .iter()
            .flat_map(|device| device.expansions_in(vocabulary.mode));
        let own: Vec<Chord> = expansions
            .flat_map(|expansion| &expansion.own)
            .map(|wanted| vocabulary.chord(wanted.numeral.clone(), false))
            .collect();
        let all = vocabulary.fillers.iter().enumerate();
        let share = |(at, chord): (usize, &Chord)| {
            let mut others = everyday.iter().chain(&own);
            f64::from(u8::from(
                vocabulary.is_plain(at) || others.any(|other| other.is_like(chord)),
            ))
        };
        Self {
            phrasing,
            shares: all.map(share).collect(),
        }
    }

    /// How readily a filler is taken.
    pub(super) fn share(&self, chord: &Chord) -> f64 {
        chord.filler.map_or(1.0, |filler| self.shares[filler])
    }
}
