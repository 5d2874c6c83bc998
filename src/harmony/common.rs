//! Which chord of a device tells it from other devices, and so which should be asked.
//!
//! Where V7 is asked of one cadence and of another, who names V7 has told neither. Each
//! device is therefore asked by the chords that the others are not asked by, as far as it
//! has such: the chords are shared out among the devices round by round, every device going
//! over to those that are mostly its own.

use std::ops::Range;

use crate::devices::{Device, DeviceId, Expansion, Kind, Shape};
use crate::theory::{Degree, Line, Mode, Numeral};

/// How often each device of some is asked by each chord.
#[derive(Clone, Debug, Default)]
pub struct Common {
    devices: Vec<Asked>,
}

/// By how many of a device's chords it is asked, of those that sound so; together 1.
#[derive(Clone, Debug)]
struct Asked {
    device: DeviceId,
    chords: Vec<(Sound, f64)>,
    /// In what part of the ways to spell it out each of them is.
    held: Vec<(Sound, f64)>,
}

/// Rounds in which the chords are shared out.
const ROUNDS: usize = 12;

/// The tonic at rest, beside another chord that tells as much: to know home teaches little.
const AT_REST: f64 = 0.2;

/// A chord tells as well as the best of its run if it is so much of its device's own.
const AS_WELL: f64 = 0.6;

/// Below this part of the best no chord is asked.
const SELDOM: f64 = 0.15;

/// The own chords of a way to spell a device out, and how likely that way is.
type Run = (Vec<Sound>, f64);

impl Common {
    /// The devices are taken to be as frequent as each other, and so are the ways to spell
    /// one of them out.
    #[must_use]
    pub fn of(devices: &[&Device], mode: Mode) -> Self {
        let runs: Vec<Vec<Run>> = devices.iter().map(|device| runs(device, mode)).collect();
        let mut common = Self {
            devices: devices
                .iter()
                .zip(&runs)
                .map(|(device, runs)| Asked {
                    device: device.id.clone(),
                    chords: Vec::new(),
                    held: held(runs),
                })
                .collect(),
        };
        // At first every own chord is asked alike.
        common.ask_by(&runs, |_, _| 1.0);
        for _ in 0..ROUNDS {
            let before = common.clone();
            common.ask_by(&runs, |device, sound| before.preference(device, sound));
            common.go_half_way_from(&before);
        }
        common
    }

    fn ask_by(&mut self, runs: &[Vec<Run>], weight: impl Fn(usize, Sound) -> f64) {
        for (device, runs) in runs.iter().enumerate() {
            let mut chords: Vec<(Sound, f64)> = Vec::new();
            for (sounds, share) in runs {
                let weights: Vec<f64> = sounds.iter().map(|sound| weight(device, *sound)).collect();
                let all: f64 = weights.iter().sum();
                for (sound, weight) in sounds.iter().zip(weights) {
                    let asked = share * weight / all;
                    match chords.iter_mut().find(|(known, _)| known == sound) {
                        Some((_, known)) => *known += asked,
                        None => chords.push((*sound, asked)),
                    }
                }
            }
            self.devices[device].chords = chords;
        }
    }

    /// Devices that all went at once to the chord that the others have left would go round
    /// for ever.
    fn go_half_way_from(&mut self, before: &Self) {
        for (now, before) in self.devices.iter_mut().zip(&before.devices) {
            // The same chords stand in the same order.
            for ((_, now), (_, before)) in now.chords.iter_mut().zip(&before.chords) {
                *now = 0.5 * (*now + before);
            }
        }
    }

    /// How much of the asking by this sound is this device's: 1 where no other is asked by
    /// it. What the devices are not known by is taken for the device's own.
    fn part(&self, device: usize, sound: Sound, of: impl Fn(&Asked) -> &Vec<(Sound, f64)>) -> f64 {
        let asked = |asked: &Asked| {
            let found = of(asked).iter().find(|(known, _)| *known == sound);
            found.map_or(0.0, |(_, asked)| asked.max(LEAST))
        };
        let all: f64 = self.devices.iter().map(asked).sum();
        if all > 0.0 {
            asked(&self.devices[device]) / all
        } else {
            1.0
        }
    }

    fn preference(&self, device: usize, sound: Sound) -> f64 {
        let asked = self.part(device, sound, |asked| &asked.chords);
        let held = self.part(device, sound, |asked| &asked.held);
        let part = asked * held * held;
        (if sound.is_at_rest() {
            AT_REST * part
        } else {
            part
        })
        .max(LEAST)
    }

    fn number(&self, device: &DeviceId) -> Option<usize> {
        self.devices
            .iter()
            .position(|asked| asked.device == *device)
    }

    fn tells(&self, device: &DeviceId, chords: &[Sound]) -> Vec<f64> {
        let Some(device) = self.number(device) else {
            return vec![1.0; chords.len()];
        };
        let preference = |sound: &Sound| self.preference(device, *sound);
        let tells: Vec<f64> = chords.iter().map(preference).collect();
        let best = tells.iter().copied().fold(0.0, f64::max);
        tells
            .into_iter()
            .map(|one| if one < SELDOM * best { 0.0 } else { one })
            .collect()
    }

    /// For each own chord of a way to spell a device out, how often it should be the one
    /// that is asked; together 1. The more it tells the device from the others, the more.
    #[must_use]
    pub fn shares(&self, device: &DeviceId, expansion: &Expansion) -> Vec<f64> {
        let own: Vec<Sound> = expansion
            .own
            .iter()
            .map(|one| sound(&one.numeral))
            .collect();
        let tells = self.tells(device, &own);
        let all: f64 = tells.iter().sum();
        tells.into_iter().map(|one| one / all).collect()
    }

    /// The slots of these that tell the device, the best first: who names the others need
    /// not have heard it. Never empty if `slots` is not.
    #[must_use]
    pub fn telling(&self, device: &DeviceId, line: &Line, slots: &[usize]) -> Vec<usize> {
        let sounds: Vec<Sound> = slots
            .iter()
            .map(|slot| sound(&line.slots()[*slot].numeral))
            .collect();
        let tells = self.tells(device, &sounds);
        let best = tells.iter().copied().fold(0.0, f64::max);
        let mut found: Vec<(usize, f64)> = slots.iter().copied().zip(tells).collect();
        found.retain(|(_, tells)| *tells >= AS_WELL * best);
        found.sort_by(|(_, one), (_, other)| other.total_cmp(one));
        found.into_iter().map(|(slot, _)| slot).collect()
    }

    /// [`Self::telling`] of the own chords of a device.
    #[must_use]
    pub fn telling_of(&self, device: &DeviceId, line: &Line, own: Range<usize>) -> Vec<usize> {
        let own: Vec<usize> = own.filter(|slot| *slot < line.slots().len()).collect();
        self.telling(device, line, &own)
    }
}

/// No chord is so little asked that it counts for nothing.
const LEAST: f64 = 1e-6;

/// The runs of own chords of a device, each as likely as any other, however many contexts
/// it is written with.
fn runs(device: &Device, mode: Mode) -> Vec<Run> {
    let mut runs: Vec<Vec<Sound>> = Vec::new();
    for expansion in device.expansions_in(mode) {
        let run: Vec<Sound> = expansion
            .own
            .iter()
            .map(|one| sound(&one.numeral))
            .collect();
        if !runs.contains(&run) {
            runs.push(run);
        }
    }
    let share = 1.0 / runs.len().max(1) as f64;
    runs.into_iter().map(|run| (run, share)).collect()
}

fn held(runs: &[Run]) -> Vec<(Sound, f64)> {
    let mut held: Vec<(Sound, f64)> = Vec::new();
    for (sounds, share) in runs {
        for (at, sound) in sounds.iter().enumerate() {
            if sounds[..at].contains(sound) {
                continue;
            }
            match held.iter_mut().find(|(known, _)| known == sound) {
                Some((_, known)) => *known += share,
                None => held.push((*sound, *share)),
            }
        }
    }
    held
}

/// Root and bass in chromatic steps above the tonic, and the kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Sound {
    root: i32,
    bass: i32,
    kind: Kind,
}

impl Sound {
    /// Whether it is the tonic in root position.
    fn is_at_rest(self) -> bool {
        self.root == 0 && self.bass == 0 && matches!(self.kind, Kind::Major | Kind::Minor)
    }
}

fn sound(numeral: &Numeral) -> Sound {
    let shape = Shape::acting(numeral);
    let bass = numeral.sounding_bass();
    let steps = |degree: Degree| degree.interval().chromatic();
    Sound {
        root: steps(shape.root),
        bass: steps(bass),
        kind: shape.kind,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::devices::Catalogue;

    fn devices<'a>(catalogue: &'a Catalogue, ids: &[&str]) -> Vec<&'a Device> {
        let device = |id: &&str| catalogue.get(&id.parse().expect("an id"));
        ids.iter().map(|id| device(id).expect("built in")).collect()
    }

    /// How often a device is asked by a chord that is written so.
    fn asked(common: &Common, device: &Device, mode: Mode, text: &str) -> f64 {
        let wanted = sound(&text.parse().expect("a numeral"));
        let runs: Vec<&Expansion> = device.expansions_in(mode).collect();
        let of = |expansion: &&Expansion| {
            let shares = common.shares(&device.id, expansion);
            assert!((shares.iter().sum::<f64>() - 1.0).abs() < 1e-9);
            let own = expansion.own.iter().zip(shares);
            own.filter(|(one, _)| sound(&one.numeral) == wanted)
                .map(|(_, share)| share)
                .sum::<f64>()
        };
        runs.iter().map(of).sum::<f64>() / runs.len() as f64
    }

    #[test]
    fn cadences_are_asked_by_the_chord_that_tells_them_apart() {
        let catalogue = Catalogue::built_in();
        let all = ["authentic-cadence", "plagal-cadence", "deceptive-cadence"];
        let devices = devices(&catalogue, &all);
        let common = Common::of(&devices, Mode::Major);
        assert!(asked(&common, devices[2], Mode::Major, "vi") > 0.9);
        assert!(asked(&common, devices[2], Mode::Major, "V7") < 0.05);
        assert!(asked(&common, devices[1], Mode::Major, "I") < 0.05);
        // V7 is nobody else's then, and the tonic at rest teaches less.
        assert!(asked(&common, devices[0], Mode::Major, "V7") > 0.5);
    }

    #[test]
    fn a_turnaround_in_minor_is_not_asked_by_its_tonic() {
        let catalogue = Catalogue::built_in();
        let all = [
            "minor-two-five-one",
            "minor-turnaround",
            "flat-six-dominant-minor",
            "dorian-four",
            "plagal-cadence",
        ];
        let devices = devices(&catalogue, &all);
        let common = Common::of(&devices, Mode::Minor);
        for device in devices {
            let rest = asked(&common, device, Mode::Minor, "i");
            assert!(rest < 0.2, "{}: {rest}", device.id);
        }
    }

    #[test]
    fn the_slots_that_tell_are_found_in_a_line() {
        let catalogue = Catalogue::built_in();
        let all = ["authentic-cadence", "plagal-cadence", "deceptive-cadence"];
        let devices = devices(&catalogue, &all);
        let common = Common::of(&devices, Mode::Major);
        let meter = "4/4".parse().expect("a meter");
        let line = Line::read("I IV V7 vi", meter, crate::theory::BareSix::AddedSixth);
        let line = line.expect("a line");
        assert_eq!(common.telling_of(&devices[2].id, &line, 2..4), [3]);
        assert_eq!(common.telling(&devices[2].id, &line, &[2]), [2]);
    }
}
