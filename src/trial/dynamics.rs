//! How abilities begin, grow and fade in each world. Abilities are logits between the
//! blind guess and the slip.

use super::chance::Chance;
use super::syllabus::{DEVICES, FAMILY, family};
use super::world::World;

/// What a night leaves of what was learnt.
const KEPT: f64 = 0.995;

/// An ability from which a device counts as heard, in worlds that ask for it.
const HEARD: f64 = 1.0;

/// Abilities that practice changes.
#[derive(Clone, Debug)]
pub(super) struct Dynamics {
    world: World,
    start: Vec<f64>,
    learnt: Vec<f64>,
    /// How well each device can be learnt; 1 is ordinary.
    talent: Vec<f64>,
    /// The last questions, the newest last.
    before: Vec<usize>,
}

impl Dynamics {
    pub(super) fn new(world: World, chance: &mut Chance) -> Self {
        let learner = 0.3 * chance.normal();
        let families: Vec<f64> = (0..DEVICES / FAMILY)
            .map(|_| 0.3 * chance.normal())
            .collect();
        let mut start = Vec::with_capacity(DEVICES);
        let mut talent = Vec::with_capacity(DEVICES);
        for device in 0..DEVICES {
            let common = learner + families[family(device)];
            let own = common + 0.4 * chance.normal();
            let far = common + 1.4 * chance.normal();
            let stuck = chance.happens(0.15);
            start.push(match world {
                World::AllOrNone => -1.5,
                World::Alike => 0.1 + learner,
                World::Wide => 0.1 + far,
                World::Flat
                | World::PeakLow
                | World::PeakHigh
                | World::Stuck
                | World::Contrast
                | World::Features
                | World::Lapses
                | World::Moods
                | World::Ladder => -0.4 + own,
            });
            let is_stuck = world == World::Stuck && stuck;
            talent.push(if is_stuck { 0.0 } else { 1.0 });
        }
        Self {
            world,
            learnt: vec![0.0; DEVICES],
            start,
            talent,
            before: Vec::new(),
        }
    }

    pub(super) fn world(&self) -> World {
        self.world
    }

    /// The ability, in logits.
    pub(super) fn ability(&self, device: usize) -> f64 {
        let own = self.start[device] + self.learnt[device];
        match self.world {
            // A chord is heard by its own mark and by the mark that parts its pair.
            World::Features => {
                0.5 * (own + own.min(self.start[pair(device)] + self.learnt[pair(device)]))
            }
            World::Flat
            | World::PeakLow
            | World::PeakHigh
            | World::Stuck
            | World::Contrast
            | World::AllOrNone
            | World::Alike
            | World::Wide
            | World::Lapses
            | World::Moods
            | World::Ladder => own,
        }
    }

    /// A question was asked that had this chance of success.
    pub(super) fn learn(&mut self, device: usize, success: f64, chance: &mut Chance) {
        let step = self.talent[device]
            * match self.world {
                World::Flat | World::Stuck | World::Wide | World::Lapses | World::Moods => 0.1,
                World::Alike => 0.16,
                World::PeakLow => 0.06 + 0.12 * bell(success, 0.58),
                World::PeakHigh => 0.06 + 0.12 * bell(success, 0.80),
                World::Contrast => {
                    if self.contrasted(device) {
                        0.17
                    } else {
                        0.08
                    }
                }
                World::AllOrNone => {
                    if self.learnt[device] < HEARD && chance.happens(0.14) {
                        4.5
                    } else {
                        0.0
                    }
                }
                World::Features => 0.12,
                World::Ladder => {
                    if self.is_open(device) {
                        0.14
                    } else {
                        0.01
                    }
                }
            };
        self.learnt[device] += step;
        if self.world == World::Features {
            self.learnt[pair(device)] += 0.3 * step;
        }
        self.before.push(device);
        if self.before.len() > 3 {
            self.before.remove(0);
        }
    }

    /// Nights pass.
    pub(super) fn forget(&mut self, days: f64) {
        let kept = libm::pow(KEPT, days);
        for learnt in &mut self.learnt {
            *learnt *= kept;
        }
    }

    fn contrasted(&self, device: usize) -> bool {
        self.before
            .iter()
            .any(|other| *other != device && family(*other) == family(device))
    }

    /// The ladder's rungs are the devices of a family, in order.
    fn is_open(&self, device: usize) -> bool {
        device.is_multiple_of(FAMILY) || self.ability(device - 1) > HEARD
    }
}

/// The other device of a confusable pair; the last of a family pairs with its first.
fn pair(device: usize) -> usize {
    let (base, place) = (family(device) * FAMILY, device % FAMILY);
    base + match place {
        0 | 2 => place + 1,
        1 | 3 => place - 1,
        _ => 0,
    }
}

fn bell(success: f64, peak: f64) -> f64 {
    let away = (success - peak) / 0.2;
    libm::exp(-away * away)
}
