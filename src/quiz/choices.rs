//! Wrong answers worth thinking about: what the drill's other devices and their
//! neighbours would have put there.

use rand::seq::SliceRandom;
use rand_chacha::ChaCha8Rng;

use super::drill::Drill;
use super::question::Question;
use crate::devices::{Catalogue, Device, DeviceId};
use crate::harmony::{Sounding, usual_name};
use crate::theory::{Mode, Numeral};

/// `count` numerals for a slot: one that is right and others that are not, in the order
/// of the scale, so that their places say nothing.
pub(super) fn numerals(
    sounding: &Sounding,
    question: &Question,
    drill: &Drill,
    catalogue: &Catalogue,
    count: usize,
    random: &mut ChaCha8Rng,
) -> Vec<Numeral> {
    let mode = question.key().mode();
    let mut chosen = vec![sounding.usual()];
    for mut circle in circles(question, drill, catalogue, mode) {
        circle.shuffle(random);
        for numeral in circle {
            let is_new = chosen.iter().all(|other| *other != numeral);
            if chosen.len() < count && is_new && !sounding.judge(&numeral).is_right() {
                chosen.push(numeral);
            }
        }
    }
    chosen.sort_by_key(|numeral| {
        let root = numeral.root().interval();
        (root.chromatic(), numeral.to_string())
    });
    chosen
}

/// Sets of likely wrong answers, the nearest first: the neighbours of the wanted device,
/// the drill's own devices, the chords of the key.
fn circles(
    question: &Question,
    drill: &Drill,
    catalogue: &Catalogue,
    mode: Mode,
) -> [Vec<Numeral>; 3] {
    let neighbours: &[DeviceId] = catalogue
        .get(&question.wanted)
        .map_or(&[], |device| device.neighbours.as_slice());
    let of = |ids: &[DeviceId]| {
        let devices = ids.iter().filter_map(|id| catalogue.get(id));
        let mut all: Vec<Numeral> = devices.flat_map(|device| own_names(device, mode)).collect();
        all.sort_by_key(ToString::to_string);
        all.dedup();
        all
    };
    let key: &[&str] = match mode {
        Mode::Major => &["I", "ii", "iii", "IV", "V7", "vi", "viiø7"],
        Mode::Minor => &["i", "iiø7", "bIII", "iv", "V7", "bVI", "bVII"],
    };
    let key = key
        .iter()
        .map(|text| text.parse().expect("the table holds numerals"))
        .collect();
    [of(neighbours), of(&drill.devices), key]
}

/// The usual names of a device's own chords.
fn own_names(device: &Device, mode: Mode) -> Vec<Numeral> {
    let mut names = Vec::new();
    for expansion in device.expansions_in(mode) {
        let chords: Vec<&Numeral> = expansion.chords().map(|wanted| &wanted.numeral).collect();
        let own = expansion.before.len()..expansion.before.len() + expansion.own.len();
        for at in own {
            let next = chords
                .get(at + 1)
                .or(chords.first())
                .copied()
                .unwrap_or(chords[at]);
            names.push(usual_name(chords[at], next, mode));
        }
    }
    names
}
