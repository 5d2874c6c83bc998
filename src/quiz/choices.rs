//! Wrong answers worth thinking about: what the drill's other devices and their
//! neighbours would have put there.

use rand::seq::SliceRandom;
use rand_chacha::ChaCha8Rng;

use super::alike::Alike;
use super::drill::Drill;
use super::question::Question;
use crate::devices::{Catalogue, Device, DeviceId};
use crate::harmony::{Context, Sounding, usual_name};
use crate::theory::{Mode, Numeral};

/// `count` numerals for a slot: one that is right and others that are not, in the order
/// of the scale, so that their places say nothing. No two of them do the same there.
pub(super) fn numerals(
    slot: usize,
    sounding: &Sounding,
    question: &Question,
    drill: &Drill,
    catalogue: &Catalogue,
    count: usize,
    random: &mut ChaCha8Rng,
) -> Vec<Numeral> {
    let mode = question.key().mode();
    let context = Context::in_line(&question.progression.line, slot, mode);
    let right = Sounding::new(sounding.usual(), context.clone());
    let alike = Alike::to(&right.truth, mode);
    let mut chosen = vec![right];
    for numeral in candidates(question, drill, catalogue, mode, random) {
        if chosen.len() == count {
            break;
        }
        let offered = Sounding::new(alike.name(numeral), context.clone());
        if !sounding.is_as_good(&offered) && !chosen.iter().any(|one| one.is_as_good(&offered)) {
            chosen.push(offered);
        }
    }
    let mut numerals: Vec<Numeral> = chosen.into_iter().map(|offered| offered.truth).collect();
    numerals.sort_by_key(|numeral| {
        let root = numeral.root().interval();
        (root.chromatic(), numeral.to_string())
    });
    numerals
}

/// Likely wrong answers, the nearest first: by turns the neighbours of the wanted device
/// and the drill's own devices, then the chords of the key and those borrowed most. The
/// drill's own come early, or a chord that is offered only where it is right would tell.
fn candidates(
    question: &Question,
    drill: &Drill,
    catalogue: &Catalogue,
    mode: Mode,
    random: &mut ChaCha8Rng,
) -> Vec<Numeral> {
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
    let numerals = |texts: &[&str]| {
        let numerals = texts.iter();
        numerals
            .map(|text| text.parse().expect("the table holds numerals"))
            .collect()
    };
    let (key, borrowed): (&[&str], &[&str]) = match mode {
        Mode::Major => (
            &["I", "ii", "iii", "IV", "V7", "vi", "viiø7"],
            &["iv", "bVI", "bVII", "bIII", "V7/V", "V7/ii", "V7/vi"],
        ),
        Mode::Minor => (
            &["i", "iiø7", "bIII", "iv", "V7", "bVI", "bVII"],
            &["IV7", "ii", "v", "V7/V", "V7/iv", "viio7", "N6"],
        ),
    };
    let [mut near, mut own, mut key, mut borrowed] = [
        of(neighbours),
        of(&drill.devices),
        numerals(key),
        numerals(borrowed),
    ];
    for circle in [&mut near, &mut own, &mut key, &mut borrowed] {
        circle.shuffle(random);
    }
    by_turns(near, own).chain(key).chain(borrowed).collect()
}

/// One of the first, one of the second, and so on; then what is left of the longer.
fn by_turns<T>(first: Vec<T>, second: Vec<T>) -> impl Iterator<Item = T> {
    let mut first = first.into_iter();
    let mut second = second.into_iter();
    let mut turn = false;
    std::iter::from_fn(move || {
        turn = !turn;
        if turn {
            first.next().or_else(|| second.next())
        } else {
            second.next().or_else(|| first.next())
        }
    })
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
