//! How common chords are among devices, and so which chord of a device tells it from others.

use crate::devices::{Device, Expansion, Kind, Shape};
use crate::theory::{Degree, Mode, Numeral};

/// How often each chord is among the own chords of some devices.
#[derive(Clone, Debug, Default)]
pub struct Common {
    chords: Vec<(Sound, f64)>,
}

impl Common {
    /// The devices are taken to be as frequent as each other, and so are the ways to spell
    /// one of them out and the chords of each way.
    #[must_use]
    pub fn of(devices: &[&Device], mode: Mode) -> Self {
        let mut common = Self::default();
        for device in devices {
            let ways = device.expansions_in(mode).count() as f64;
            for expansion in device.expansions_in(mode) {
                let share = 1.0 / ways / expansion.own.len() as f64;
                for wanted in &expansion.own {
                    common.add(sound(&wanted.numeral), share);
                }
            }
        }
        common
    }

    fn add(&mut self, sound: Sound, share: f64) {
        match self.chords.iter_mut().find(|(known, _)| *known == sound) {
            Some((_, known)) => *known += share,
            None => self.chords.push((sound, share)),
        }
    }

    fn share(&self, numeral: &Numeral) -> f64 {
        let sound = sound(numeral);
        let found = self.chords.iter().find(|(known, _)| *known == sound);
        found.map_or(1.0, |(_, share)| *share)
    }

    /// For each own chord of a way to spell a device out, how often it should be the one
    /// that is asked; together 1. The rarer a chord is elsewhere, the more it tells.
    #[must_use]
    pub fn shares(&self, expansion: &Expansion) -> Vec<f64> {
        let own = expansion.own.iter();
        let tells: Vec<f64> = own.map(|one| 1.0 / self.share(&one.numeral)).collect();
        let all: f64 = tells.iter().sum();
        tells.into_iter().map(|one| one / all).collect()
    }
}

/// Root and bass in chromatic steps above the tonic, and the kind.
type Sound = (i32, i32, Kind);

fn sound(numeral: &Numeral) -> Sound {
    let shape = Shape::acting(numeral);
    let bass = numeral.sounding_bass();
    let steps = |degree: Degree| degree.interval().chromatic();
    (steps(shape.root), steps(bass), shape.kind)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::devices::Catalogue;

    #[test]
    fn what_devices_share_is_asked_less() {
        let catalogue = Catalogue::built_in();
        let devices = ["authentic-cadence", "plagal-cadence", "deceptive-cadence"];
        let device = |id: &str| {
            catalogue
                .get(&id.parse().expect("an id"))
                .expect("built in")
        };
        let devices: Vec<&Device> = devices.iter().map(|id| device(id)).collect();
        let common = Common::of(&devices, Mode::Major);
        for (device, telling, shared) in [(devices[1], "IV", "I"), (devices[2], "vi", "V7")] {
            for expansion in device.expansions_in(Mode::Major) {
                let shares = common.shares(expansion);
                let of = |text: &str| {
                    let wanted = sound(&text.parse().expect("a numeral"));
                    let own = expansion.own.iter().zip(&shares);
                    own.filter(|(one, _)| sound(&one.numeral) == wanted)
                        .map(|(_, share)| *share)
                        .sum::<f64>()
                };
                assert!(of(telling) > of(shared), "{}: {shares:?}", device.id);
                assert!((shares.iter().sum::<f64>() - 1.0).abs() < 1e-9);
            }
        }
    }
}
