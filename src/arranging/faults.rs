//! What a strict ear would find in a setting, counted.

use std::ops::AddAssign;

use super::motion::{Matched, consecutive};
use super::palette::Palette;
use super::palette::Tendency;
use super::register::{BASS_REACH, TOP, UPPER, WIDEST_GAP, is_clear};
use super::setting::Setting;
use super::tendency::pull;
use super::voicing::Voicing;
use crate::theory::Pitch;

/// Faults and motion of one setting, or of several added up.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct VoiceLeading {
    /// Consecutive fifths or octaves between the bass and the top voice.
    pub outer_parallels: u32,
    /// Voices out of their register, gaps too wide, intervals too low.
    pub range_faults: u32,
    /// Leading tones that neither rise, stay nor slide down a semitone although they could.
    pub unresolved_leading_tones: u32,
    /// Sevenths that neither stay nor fall a step although they could.
    pub unresolved_sevenths: u32,
    /// The widest move of an upper voice, in semitones.
    pub largest_leap: u32,
    /// All moves of upper voices together, in semitones.
    pub motion: u32,
    /// How many moves that were, held notes among them.
    pub moves: u32,
}

impl VoiceLeading {
    /// All faults together.
    #[must_use]
    pub fn faults(&self) -> u32 {
        self.outer_parallels
            + self.range_faults
            + self.unresolved_leading_tones
            + self.unresolved_sevenths
    }

    /// Semitones that an upper voice moves from one chord to the next, on average.
    #[must_use]
    pub fn mean_motion(&self) -> f64 {
        f64::from(self.motion) / f64::from(self.moves.max(1))
    }
}

impl AddAssign for VoiceLeading {
    fn add_assign(&mut self, other: Self) {
        self.outer_parallels += other.outer_parallels;
        self.range_faults += other.range_faults;
        self.unresolved_leading_tones += other.unresolved_leading_tones;
        self.unresolved_sevenths += other.unresolved_sevenths;
        self.largest_leap = self.largest_leap.max(other.largest_leap);
        self.motion += other.motion;
        self.moves += other.moves;
    }
}

/// Counts the faults of a setting.
#[must_use]
pub fn faults(setting: &Setting) -> VoiceLeading {
    let mut found = VoiceLeading::default();
    let palettes: Vec<Palette> = setting.chords.iter().map(Palette::new).collect();
    for voicing in &setting.voicings {
        found.range_faults += range_faults(voicing);
    }
    for (voicings, palettes) in setting.voicings.windows(2).zip(palettes.windows(2)) {
        found.outer_parallels += u32::from(outer_parallel(&voicings[0], &voicings[1]));
        change(&mut found, voicings, palettes);
    }
    found
}

/// Counts the faults of one change of chord, from the chord numbered `at` to the next;
/// none if there is no such change.
#[must_use]
pub fn faults_of_change(setting: &Setting, at: usize) -> VoiceLeading {
    let mut found = VoiceLeading::default();
    let (Some(voicings), Some(chords)) = (
        setting.voicings.get(at..at + 2),
        setting.chords.get(at..at + 2),
    ) else {
        return found;
    };
    let palettes: Vec<Palette> = chords.iter().map(Palette::new).collect();
    found.outer_parallels += u32::from(outer_parallel(&voicings[0], &voicings[1]));
    change(&mut found, voicings, &palettes);
    found
}

fn change(found: &mut VoiceLeading, voicings: &[Voicing], palettes: &[Palette]) {
    let (before, after) = (heights(&voicings[0]), heights(&voicings[1]));
    for (one, other) in Matched::new(&before, &after).pairs() {
        let step = i32::from(after[other] - before[one]);
        found.motion += step.unsigned_abs();
        found.moves += 1;
        found.largest_leap = found.largest_leap.max(step.unsigned_abs());
        let pulled = palettes[0]
            .sounding(i32::from(before[one]))
            .and_then(|note| pull(&palettes[0], &palettes[0].ingredients[note], &palettes[1]));
        if let Some(pull) = pulled
            && !pull.is_met_by(step)
        {
            match pull.tendency {
                Tendency::LeadingTone => found.unresolved_leading_tones += 1,
                Tendency::Seventh => found.unresolved_sevenths += 1,
                Tendency::Altered => {}
            }
        }
    }
}

fn heights(voicing: &Voicing) -> Vec<i8> {
    voicing
        .upper
        .iter()
        .map(|pitch| pitch.midi() as i8)
        .collect()
}

fn outer_parallel(before: &Voicing, after: &Voicing) -> bool {
    consecutive(
        (before.bass.midi(), after.bass.midi()),
        (before.top().midi(), after.top().midi()),
    )
    .is_some()
}

fn range_faults(voicing: &Voicing) -> u32 {
    let upper: Vec<i32> = voicing.upper.iter().map(|pitch| pitch.midi()).collect();
    let all: Vec<i32> = voicing.pitches().map(Pitch::midi).collect();
    let low_bass = !BASS_REACH.contains(&all[0]);
    let inner = &upper[..upper.len().saturating_sub(1)];
    let out_of_register = inner.iter().filter(|midi| !UPPER.contains(midi)).count();
    let top = upper
        .last()
        .is_some_and(|midi| !(*UPPER.start()..=TOP).contains(midi));
    let gaps = upper
        .windows(2)
        .filter(|pair| pair[1] - pair[0] > WIDEST_GAP)
        .count();
    let muddy = all
        .windows(2)
        .filter(|pair| pair[1] <= pair[0] || !is_clear(pair[0], pair[1]))
        .count();
    (usize::from(low_bass) + out_of_register + usize::from(top) + gaps + muddy) as u32
}
