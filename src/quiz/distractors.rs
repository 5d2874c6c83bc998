//! Wrong answers worth thinking about: what the drill's other devices would have put there.
//!
//! A wrong answer is drawn as often as it is right elsewhere in the drill, so that whoever
//! remembers which names turn out right and does not listen gains as little as may be.

use std::hash::{DefaultHasher, Hash, Hasher};

use rand::seq::SliceRandom;
use rand_chacha::ChaCha8Rng;

use super::distractor_naming::DistractorNaming;
use super::drill::{Asked, Drill};
use super::question::Question;
use super::weighted_sampling::drawn;
use crate::devices::{Catalogue, Device, DeviceId, Expansion};
use crate::harmony::{ChordInContext, Common, Context, chorus_names, current_name, usual_name};
use crate::theory::{Key, Mode, Numeral};

/// The names that can be put on offer in one question of a drill.
pub(super) struct Names {
    /// What the drill's own devices put into their lines, with how often that is asked.
    own: Vec<(Numeral, f64)>,
    /// What the neighbours of the wanted device put there: near, but not of this drill.
    near: Vec<Numeral>,
    naming: DistractorNaming,
}

impl Names {
    pub(super) fn of(question: &Question, drill: &Drill, catalogue: &Catalogue) -> Self {
        let key = question.key();
        let devices = |ids: &[DeviceId]| -> Vec<&Device> {
            ids.iter().filter_map(|id| catalogue.get(id)).collect()
        };
        let bars = question.progression.line.bars();
        let of_form = chorus_names(&drill.devices, bars, key.mode());
        let of_form = of_form.filter(|_| drill.asked == Asked::ChordsOutOfKey);
        let mut own: Vec<(Numeral, f64)> = of_form.unwrap_or_default().to_vec();
        if own.is_empty() {
            for chord in asked(&devices(&drill.devices), key, drill.asked) {
                let name = usual_name(chord.numeral, &chord.context);
                add(&mut own, name, chord.weight);
            }
        }
        let neighbours: &[DeviceId] = catalogue
            .get(&question.wanted)
            .map_or(&[], |device| device.neighbours.as_slice());
        let mut near: Vec<(Numeral, f64)> = Vec::new();
        for chord in asked(&devices(neighbours), key, Asked::MarkedChord) {
            add(&mut near, current_name(chord.numeral, &chord.context), 1.0);
        }
        Self {
            naming: DistractorNaming::in_drill(&own, key.mode()),
            own,
            near: near.into_iter().map(|(name, _)| name).collect(),
        }
    }

    /// `count` numerals for a slot: one that is right and others that are not, in the order
    /// of the scale, so that their places say nothing. No two of them do the same there.
    pub(super) fn offered(
        &self,
        slot: usize,
        sounding: &ChordInContext,
        question: &Question,
        count: usize,
        random: &mut ChaCha8Rng,
    ) -> Vec<Numeral> {
        let mode = question.key().mode();
        let context = Context::in_line(&question.progression.line, slot, mode);
        let naming = self.naming.to(&sounding.usual());
        let mut chosen = vec![right(sounding, &naming, &context)];
        for numeral in self.candidates(mode, random) {
            if chosen.len() == count {
                break;
            }
            let offered = ChordInContext::new(naming.name(numeral), context.clone());
            if !sounding.is_as_good(&offered) && !chosen.iter().any(|one| one.is_as_good(&offered))
            {
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

    /// Wrong answers in the order in which they are taken: the drill's own, each early as
    /// often as it is asked; then those of the neighbours, of the key, and those borrowed
    /// most.
    fn candidates(&self, mode: Mode, random: &mut ChaCha8Rng) -> impl Iterator<Item = Numeral> {
        let own = self.own.iter().map(|(name, weight)| (name, *weight));
        let own: Vec<Numeral> = drawn(own, random).cloned().collect();
        let mut near = self.near.clone();
        let [mut key, mut borrowed] = ordinary(mode).map(|texts| {
            let numerals = texts.iter();
            let read = |text: &&str| text.parse().expect("the table holds numerals");
            numerals.map(read).collect::<Vec<Numeral>>()
        });
        for circle in [&mut near, &mut key, &mut borrowed] {
            circle.shuffle(random);
        }
        own.into_iter().chain(near).chain(key).chain(borrowed)
    }
}

/// The chords of the key, and those that are borrowed most.
fn ordinary(mode: Mode) -> [&'static [&'static str]; 2] {
    match mode {
        Mode::Major => [
            &["I", "ii", "iii", "IV", "V7", "vi", "viiø7"],
            &["iv", "bVI", "bVII", "bIII", "V7/V", "V7/ii", "V7/vi"],
        ],
        Mode::Minor => [
            &["i", "iiø7", "bIII", "iv", "V7", "bVI", "bVII"],
            &["IV7", "ii", "v", "V7/V", "V7/iv", "viio7", "N6"],
        ],
    }
}

fn add(names: &mut Vec<(Numeral, f64)>, name: Numeral, weight: f64) {
    match names.iter_mut().find(|(known, _)| *known == name) {
        Some((_, known)) => *known += weight,
        None => names.push((name, weight)),
    }
}

/// The right answer in the manner of the others, if it is right under that name too.
fn right(
    sounding: &ChordInContext,
    naming: &DistractorNaming,
    context: &Context,
) -> ChordInContext {
    let usual = sounding.usual();
    let named = naming.name(usual.clone());
    let is_right = sounding.judge(&named).is_right();
    ChordInContext::new(if is_right { named } else { usual }, context.clone())
}

/// A chord of a device, spelled out, with how often it is asked.
struct AskedChord<'a> {
    numeral: &'a Numeral,
    context: Context,
    weight: f64,
}

/// The chords that are asked where devices stand. The devices are asked as often as each
/// other; of one device, each run of own chords is as likely as any other, however many
/// contexts it is written with. Of a run one chord is marked, the one that tells it from
/// the other devices rather than one that they share.
fn asked<'a>(devices: &[&'a Device], key: Key, asked: Asked) -> Vec<AskedChord<'a>> {
    let mode = key.mode();
    let common = Common::of(devices, mode);
    let mut found = Vec::new();
    for device in devices {
        let expansions: Vec<&Expansion> = device.expansions_in(mode).collect();
        let prints: Vec<u64> = expansions.iter().map(|one| fingerprint(one)).collect();
        let alike = |print: &u64| prints.iter().filter(|other| *other == print).count() as f64;
        let runs: f64 = prints.iter().map(|print| 1.0 / alike(print)).sum();
        for (expansion, print) in expansions.iter().zip(&prints) {
            let chords: Vec<&Numeral> = expansion.chords().map(|one| &one.numeral).collect();
            let shares = common.shares(&device.id, expansion);
            for at in slots(expansion, key, asked) {
                let share = match asked {
                    Asked::MarkedChord => shares[at - expansion.before.len()],
                    Asked::EveryChord | Asked::ChordsOutOfKey => 1.0,
                };
                found.push(AskedChord {
                    numeral: chords[at],
                    context: context(&chords, at, mode),
                    weight: share / alike(print) / runs,
                });
            }
        }
    }
    found
}

/// A number that expansions share whose own chords are the same.
fn fingerprint(expansion: &Expansion) -> u64 {
    let mut hasher = DefaultHasher::new();
    for wanted in &expansion.own {
        wanted.numeral.hash(&mut hasher);
    }
    hasher.finish()
}

/// Which chords of a device, spelled out, are asked.
fn slots(expansion: &Expansion, key: Key, asked: Asked) -> Vec<usize> {
    let own = expansion.before.len()..expansion.before.len() + expansion.own.len();
    match asked {
        Asked::EveryChord => (0..expansion.len()).collect(),
        Asked::MarkedChord => own.collect(),
        Asked::ChordsOutOfKey => {
            let leaves = |numeral: &Numeral| {
                let degrees = numeral.degrees();
                degrees.into_iter().any(|degree| !key.holds(degree))
            };
            let chords = expansion.chords().enumerate();
            let out: Vec<usize> = chords
                .filter(|(_, wanted)| leaves(&wanted.numeral))
                .map(|(at, _)| at)
                .collect();
            if out.is_empty() { own.collect() } else { out }
        }
    }
}

/// What a chord of a device stands between; the tonic follows the last.
fn context(chords: &[&Numeral], at: usize, mode: Mode) -> Context {
    let tonic = || ordinary(mode)[0][0].parse().expect("a numeral");
    let chord = |at: usize| chords.get(at).map(|numeral| (*numeral).clone());
    Context {
        mode,
        before: at.checked_sub(1).and_then(chord),
        next: chord(at + 1).unwrap_or_else(tonic),
        after: chord(at + 2),
    }
}
