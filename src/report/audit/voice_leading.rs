//! How the voices are led in the settings that questions are played from.
//!
//! What is counted here is counted on the pitches alone, apart from the sums that the
//! arranger's own report gives.

use serde::Serialize;

use super::case::{Cases, Subject};
use crate::arranging::{Setting, VoiceLeading, Voicing, faults, faults_of_change, low_limit};
use crate::harmony::{Role, roles};
use crate::theory::{Member, OCTAVE, Pitch};

/// How the voices are led.
#[derive(Clone, Debug, Serialize)]
pub struct Leading {
    /// Changes of chord.
    pub changes: u32,
    /// Consecutive fifths and octaves between bass and top voice, and how many of which.
    pub outer_parallels: u32,
    pub outer_fifths: u32,
    pub outer_octaves: u32,
    /// Voices out of their register, and gaps too wide.
    pub range_faults: u32,
    /// Intervals below the low-interval limit.
    pub low_intervals: u32,
    /// Leading tones and sevenths of all chords that neither move as they want nor stay,
    /// although they could.
    pub unresolved_leading_tones: u32,
    pub unresolved_sevenths: u32,
    /// Applied dominants that go to their target, and what their leading tones do.
    pub applied: Applied,
    /// The widest move of an upper voice in semitones, and how often each width comes.
    pub largest_leap: u32,
    /// Semitones that a voice moves from one chord to the next, on average.
    pub mean_motion: f64,
    pub mean_bass_motion: f64,
    /// The first of the parallels and of the tones left open.
    pub cases: Cases,
}

/// The leading tones of applied dominants that go to their target.
#[derive(Clone, Copy, Debug, Default, Serialize)]
pub struct Applied {
    pub resolving: u32,
    /// Up a semitone, in the voice that has them.
    pub up: u32,
    /// Held, as where the target has them for its seventh.
    pub held: u32,
    /// Down a semitone into the seventh of the next dominant.
    pub down: u32,
    pub unresolved: u32,
}

impl Applied {
    /// Follows every voice that has the leading tone into the next chord.
    fn follow(&mut self, leading_tone: i32, before: &Voicing, after: &Voicing) {
        let class = |midi: i32| midi.rem_euclid(OCTAVE);
        let leads = |midi: &i32| class(*midi) == class(leading_tone);
        for midi in before.pitches().map(Pitch::midi).filter(leads) {
            let to = |step: i32| after.pitches().any(|pitch| pitch.midi() == midi + step);
            if to(1) {
                self.up += 1;
            } else if to(0) {
                self.held += 1;
            } else if to(-1) {
                self.down += 1;
            } else {
                self.unresolved += 1;
            }
        }
    }
}

impl Leading {
    pub(super) fn faults(&self) -> impl Iterator<Item = String> {
        let told = |count: u32, what: &str| (count > 0).then(|| format!("{count} {what}"));
        [
            told(self.outer_parallels, "outer parallels"),
            told(
                self.range_faults,
                "voices out of their register or too far apart",
            ),
            told(self.low_intervals, "intervals too low"),
            told(
                self.applied.unresolved,
                "leading tones left open in applied dominants that resolve",
            ),
        ]
        .into_iter()
        .flatten()
    }
}

#[derive(Default)]
pub(super) struct VoiceLeadingExaminer {
    sum: VoiceLeading,
    changes: u32,
    fifths: u32,
    octaves: u32,
    low: u32,
    bass: u32,
    applied: Applied,
    cases: Cases,
}

impl VoiceLeadingExaminer {
    pub(super) fn examine(&mut self, subject: &Subject<'_>) {
        let question = subject.question;
        let manner = question.texture.card().manner;
        let line = &question.progression.line;
        let setting = Setting::in_manner(line, question.key(), question.seed, manner)
            .expect("questions spell their chords");
        let roles = roles(line, question.key().mode());
        self.setting(subject, &setting, &roles);
    }

    fn setting(&mut self, subject: &Subject<'_>, setting: &Setting, roles: &[Role]) {
        self.sum += faults(setting);
        for voicing in &setting.voicings {
            self.low += low_intervals(voicing);
        }
        for (at, pair) in setting.voicings.windows(2).enumerate() {
            self.changes += 1;
            self.bass += pair[0].bass.midi().abs_diff(pair[1].bass.midi());
            match outer_parallel(&pair[0], &pair[1]) {
                Some(true) => self.octaves += 1,
                Some(false) => self.fifths += 1,
                None => {}
            }
            if outer_parallel(&pair[0], &pair[1]).is_some() {
                self.cases
                    .add(subject.case(Some(at), "outer parallels".to_owned()));
            }
            let change = faults_of_change(setting, at);
            if change.unresolved_sevenths > 0 {
                let what = "a seventh is left open";
                self.cases.add(subject.case(Some(at), what.to_owned()));
            }
            if change.unresolved_leading_tones > 0 {
                let what = "a leading tone is left open";
                self.cases.add(subject.case(Some(at), what.to_owned()));
            }
            let Role::AppliedDominant(target) = roles[at] else {
                continue;
            };
            if setting.chords[at + 1].numeral().root() == target {
                self.leading_tone(subject, setting, at);
            }
        }
    }

    fn leading_tone(&mut self, subject: &Subject<'_>, setting: &Setting, at: usize) {
        let Some(third) = setting.chords[at].member(Member::Third) else {
            return;
        };
        let open = self.applied.unresolved;
        let (before, after) = (&setting.voicings[at], &setting.voicings[at + 1]);
        self.applied.resolving += 1;
        self.applied.follow(third.chromatic(), before, after);
        if self.applied.unresolved > open {
            let what = "the leading tone of an applied dominant is left open";
            self.cases.add(subject.case(Some(at), what.to_owned()));
        }
    }

    pub(super) fn finish(self) -> Leading {
        Leading {
            changes: self.changes,
            outer_parallels: self.fifths + self.octaves,
            outer_fifths: self.fifths,
            outer_octaves: self.octaves,
            range_faults: self.sum.range_faults,
            low_intervals: self.low,
            unresolved_leading_tones: self.sum.unresolved_leading_tones,
            unresolved_sevenths: self.sum.unresolved_sevenths,
            applied: self.applied,
            largest_leap: self.sum.largest_leap,
            mean_motion: self.sum.mean_motion(),
            mean_bass_motion: f64::from(self.bass) / f64::from(self.changes.max(1)),
            cases: self.cases,
        }
    }
}

/// Neighbouring notes that lie too low for their interval.
fn low_intervals(voicing: &Voicing) -> u32 {
    let notes: Vec<i32> = voicing.pitches().map(Pitch::midi).collect();
    let low = |pair: &&[i32]| pair[0] < low_limit(pair[1] - pair[0]);
    u32::try_from(notes.windows(2).filter(low).count()).expect("voices are few")
}

/// Whether bass and top voice both move from one perfect octave to another (true) or from
/// one perfect fifth to another (false), in whichever direction.
fn outer_parallel(before: &Voicing, after: &Voicing) -> Option<bool> {
    let gap = |voicing: &Voicing| (voicing.top().midi() - voicing.bass.midi()).rem_euclid(OCTAVE);
    let moves = before.bass.midi() != after.bass.midi() && before.top() != after.top();
    match (moves, gap(before), gap(after)) {
        (true, 0, 0) => Some(true),
        (true, 7, 7) => Some(false),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn voicing(text: &str) -> Voicing {
        let mut pitches = text.split(' ').map(|name| name.parse().expect("a pitch"));
        Voicing {
            bass: pitches.next().expect("a bass"),
            upper: pitches.collect(),
        }
    }

    #[test]
    fn outer_parallels_are_told_from_other_motion() {
        // Strict style (common practice), contrary motion from fifth to twelfth included.
        for (before, after, found) in [
            ("C3 E4 G4", "D3 F4 A4", Some(false)),
            ("C3 E4 C5", "D3 F4 D5", Some(true)),
            ("G2 B3 D4", "C3 E4 G3", Some(false)),
            ("C3 E4 G4", "D3 A4 F4", None),
            ("C3 E4 G4", "C3 E4 G4", None),
            ("C3 E4 G4", "C3 A4 C5", None),
        ] {
            let found_here = outer_parallel(&voicing(before), &voicing(after));
            assert_eq!(found_here, found, "{before} to {after}");
        }
    }

    #[test]
    fn leading_tones_are_followed_by_their_pitch() {
        // A7 in C, whose leading tone C sharp rises to D, is the third of the next chord,
        // falls to its seventh, or leaps away.
        let a7 = "A2 G3 C#4 E4";
        let found = |after| {
            let mut applied = Applied::default();
            applied.follow(1, &voicing(a7), &voicing(after));
            (applied.up, applied.held, applied.down, applied.unresolved)
        };
        assert_eq!(found("D3 A3 D4 F4"), (1, 0, 0, 0));
        assert_eq!(found("A2 G3 C#4 E4"), (0, 1, 0, 0));
        assert_eq!(found("D3 F3 C4 F4"), (0, 0, 1, 0));
        assert_eq!(found("D3 A3 F4 A4"), (0, 0, 0, 1));
    }

    #[test]
    fn low_intervals_are_found() {
        assert_eq!(low_intervals(&voicing("C3 G3 E4")), 0);
        // A major third on A2 lies below B flat 2, where it begins to sound clear.
        assert_eq!(low_intervals(&voicing("A2 C#3 E4")), 1);
    }
}
