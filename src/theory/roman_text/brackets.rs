//! What brackets do to a chord: notes left out, altered and added.

use super::syntax::Bracket;
use crate::theory::pitch::IntervalClass;
use crate::theory::quality::{Fifth, Member, Quality, Seventh, Tension, Third};

/// A chord on its way: its quality, and those of its notes that do not sound.
pub(super) struct Stacked {
    pub(super) quality: Quality,
    pub(super) omitted: Vec<Member>,
}

impl Stacked {
    /// Takes a bracket in, or nothing if the chord has no such note to change. `step`
    /// gives the scale's interval at a number above the root.
    pub(super) fn apply(
        &mut self,
        bracket: Bracket,
        step: impl Fn(u8) -> IntervalClass,
    ) -> Option<()> {
        match bracket {
            Bracket::Omitted(number) => {
                self.omit(number);
                Some(())
            }
            Bracket::Altered(shift, number) => self.alter(number, shift),
            Bracket::Added(shift, number) => self.add(number, shifted(step(number), shift)),
        }
    }

    /// Puts an added fourth or second in the place of a third that is left out.
    pub(super) fn suspend(&mut self, added: u8) {
        let (tension, third) = match added {
            4 => (Tension::Eleven, Third::Fourth),
            2 => (Tension::Nine, Third::Second),
            _ => return,
        };
        let Quality {
            fifth, tensions, ..
        } = self.quality;
        let place = self.omitted.iter().position(|m| *m == Member::Third);
        if let Some(place) = place
            && tensions.has(tension)
            && fifth == Fifth::Perfect
        {
            self.omitted.remove(place);
            self.quality.tensions = tensions.without(tension);
            self.quality.third = third;
        }
    }

    /// Silences a note; one that is not there is silent already.
    fn omit(&mut self, number: u8) {
        let member = match number {
            1 | 8 => Member::Root,
            3 | 10 => Member::Third,
            5 | 12 => Member::Fifth,
            7 => Member::Seventh,
            _ => {
                if let Some(tension) = tension_on(number, &self.quality) {
                    self.quality.tensions = self.quality.tensions.without(tension);
                }
                return;
            }
        };
        if !self.omitted.contains(&member) {
            self.omitted.push(member);
        }
    }

    /// Raises or lowers a note of the chord; one that already stands there stays.
    fn alter(&mut self, number: u8, shift: i16) -> Option<()> {
        let quality = &mut self.quality;
        match number {
            3 => {
                quality.third = match (quality.third, shift) {
                    (Third::Minor | Third::Major, 1) => Third::Major,
                    (Third::Major | Third::Minor, -1) => Third::Minor,
                    _ => return None,
                };
            }
            5 => {
                quality.fifth = match (quality.fifth, shift) {
                    (Fifth::Perfect | Fifth::Augmented, 1) => Fifth::Augmented,
                    (Fifth::Perfect | Fifth::Diminished, -1) => Fifth::Diminished,
                    (Fifth::Diminished, 1) | (Fifth::Augmented, -1) => Fifth::Perfect,
                    _ => return None,
                };
            }
            7 => {
                quality.seventh = Some(match (quality.seventh?, shift) {
                    (Seventh::Minor | Seventh::Major, 1) => Seventh::Major,
                    (Seventh::Major, -1) | (Seventh::Diminished, 1) => Seventh::Minor,
                    _ => return None,
                });
            }
            _ => {
                let old = tension_on(number, quality)?;
                let new = tension(shifted(old.interval(), shift))?;
                quality.tensions = quality.tensions.without(old).with(new);
            }
        }
        Some(())
    }

    fn add(&mut self, number: u8, interval: IntervalClass) -> Option<()> {
        let quality = &mut self.quality;
        match (number, interval) {
            (6, IntervalClass::MAJOR_SIXTH) => {
                (!quality.added_sixth).then(|| quality.added_sixth = true)
            }
            (7, IntervalClass::MAJOR_SEVENTH) if quality.seventh.is_none() => {
                quality.seventh = Some(Seventh::Major);
                Some(())
            }
            (7, IntervalClass::MINOR_SEVENTH) if quality.seventh.is_none() => {
                quality.seventh = Some(Seventh::Minor);
                Some(())
            }
            (2 | 4 | 6 | 9 | 11 | 13, _) => {
                let tension = tension(interval).filter(|new| !quality.tensions.has(*new))?;
                quality.tensions = quality.tensions.with(tension);
                Some(())
            }
            _ => None,
        }
    }
}

fn shifted(interval: IntervalClass, semitones: i16) -> IntervalClass {
    IntervalClass::from_fifths(interval.fifths() + 7 * semitones)
}

pub(super) fn tension(interval: IntervalClass) -> Option<Tension> {
    Tension::ALL
        .into_iter()
        .find(|tension| tension.interval() == interval)
}

/// The chord's tension on a number above the root.
fn tension_on(number: u8, quality: &Quality) -> Option<Tension> {
    quality
        .tensions
        .iter()
        .find(|tension| tension.interval().steps() == i32::from(number - 1) % 7)
}
