//! Finds every pattern of the catalogue in a line at once: the spelled-out patterns are
//! kept by their first chord, and chords are compared as small numbers.

use std::ops::Range;

use super::device::{Device, Form};
use super::pattern::{Expansion, Wanted, bass_of};
use super::shape::{Kind, Shape};
use crate::theory::{Degree, Mode, Numeral, Quality};

/// Twelve roots in each of seven kinds.
const CODES: usize = 12 * Kind::COUNT;

/// Where a line holds a device, which is given by its place in the catalogue.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Hit {
    pub(super) device: usize,
    pub(super) own: (usize, usize),
    pub(super) span: (usize, usize),
}

impl Hit {
    /// Whether the own chords of `other` are among the own chords of this one.
    pub(super) fn holds(&self, other: &Self) -> bool {
        self.own.0 <= other.own.0 && other.own.1 <= self.own.1
    }

    fn length(&self) -> usize {
        self.span.1 - self.span.0
    }
}

/// All patterns of a catalogue, by the code of their first chord.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Finder {
    by_first: Vec<Vec<Entry>>,
}

/// One way to spell one device out.
#[derive(Clone, Debug, PartialEq)]
struct Entry {
    device: usize,
    modes: Vec<Mode>,
    at_start: bool,
    at_end: bool,
    own: Range<usize>,
    chords: Vec<Asked>,
}

/// A wanted chord as numbers.
#[derive(Clone, Debug, PartialEq)]
struct Asked {
    code: u8,
    bass: Option<u8>,
    quality: Option<Quality>,
}

/// A chord of a line as numbers.
struct Seen {
    code: u8,
    bass: u8,
    quality: Quality,
}

fn chromatic(degree: Degree) -> u8 {
    degree.interval().chromatic() as u8
}

fn code(numeral: &Numeral) -> u8 {
    let shape = Shape::acting(numeral);
    shape.kind as u8 * 12 + chromatic(shape.root)
}

impl Asked {
    fn of(wanted: &Wanted) -> Self {
        Self {
            code: code(&wanted.numeral),
            bass: wanted.bass().map(chromatic),
            quality: wanted.exact.then(|| wanted.numeral.quality()),
        }
    }

    fn accepts(&self, seen: &Seen) -> bool {
        self.code == seen.code
            && self.bass.is_none_or(|bass| bass == seen.bass)
            && self.quality.is_none_or(|quality| quality == seen.quality)
    }
}

impl Entry {
    fn of(device: usize, expansion: &Expansion, modes: Vec<Mode>) -> Self {
        let own = expansion.before.len();
        Self {
            device,
            modes,
            at_start: expansion.at_start,
            at_end: expansion.at_end,
            own: own..own + expansion.own.len(),
            chords: expansion.chords().map(Asked::of).collect(),
        }
    }

    fn matches(&self, line: &[Seen], from: usize, mode: Mode) -> bool {
        let end = from + self.chords.len();
        end <= line.len()
            && (!self.at_start || from == 0)
            && (!self.at_end || end == line.len())
            && self.modes.contains(&mode)
            && self
                .chords
                .iter()
                .zip(&line[from..end])
                .all(|(asked, seen)| asked.accepts(seen))
    }
}

impl Finder {
    pub(super) fn new(devices: &[Device]) -> Self {
        let mut by_first = vec![Vec::new(); CODES];
        for (place, device) in devices.iter().enumerate() {
            let Form::Patterns { expansions, .. } = &device.form else {
                continue;
            };
            for expansion in expansions {
                let modes: Vec<Mode> = device
                    .modes
                    .iter()
                    .copied()
                    .filter(|mode| expansion.suits(*mode))
                    .collect();
                let entry = Entry::of(place, expansion, modes);
                if let Some(first) = entry.chords.first() {
                    by_first[usize::from(first.code)].push(entry);
                }
            }
        }
        Self { by_first }
    }

    /// Every device in a line, in the order of the catalogue. Of several spans around the
    /// same own chords the longest is kept, of own chords within own chords the outer.
    pub(super) fn find(&self, devices: &[Device], line: &[&Numeral], mode: Mode) -> Vec<Hit> {
        let mut hits = self.patterns(line, mode);
        for (device, rule) in devices
            .iter()
            .enumerate()
            .filter(|(_, device)| device.modes.contains(&mode))
            .filter_map(|(place, device)| match &device.form {
                Form::Rule { rule, .. } => Some((place, *rule)),
                Form::Patterns { .. } => None,
            })
        {
            hits.extend(rule.find(line, mode).into_iter().map(|own| Hit {
                device,
                own: (own.start, own.end),
                span: (own.start, own.end),
            }));
        }
        hits.sort_by_key(|hit| (hit.device, hit.own, std::cmp::Reverse(hit.length())));
        hits.dedup_by_key(|hit| (hit.device, hit.own));
        let all = hits.clone();
        hits.retain(|hit| {
            let around = |other: &Hit| {
                other.device == hit.device && other.own != hit.own && other.holds(hit)
            };
            !all.iter().any(around)
        });
        hits
    }

    fn patterns(&self, line: &[&Numeral], mode: Mode) -> Vec<Hit> {
        let seen: Vec<Seen> = line
            .iter()
            .map(|numeral| Seen {
                code: code(numeral),
                bass: chromatic(bass_of(numeral)),
                quality: numeral.quality(),
            })
            .collect();
        let mut hits = Vec::new();
        for (from, first) in seen.iter().enumerate() {
            for entry in &self.by_first[usize::from(first.code)] {
                if entry.matches(&seen, from, mode) {
                    hits.push(Hit {
                        device: entry.device,
                        own: (from + entry.own.start, from + entry.own.end),
                        span: (from, from + entry.chords.len()),
                    });
                }
            }
        }
        hits
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::devices::Catalogue;

    #[test]
    fn the_index_finds_what_the_patterns_themselves_match() {
        let catalogue = Catalogue::built_in();
        let devices = catalogue.devices();
        let finder = Finder::new(devices);
        for line in devices.iter().flat_map(|device| &device.examples) {
            let numerals: Vec<&Numeral> = line.line.numerals().collect();
            let mut expected = Vec::new();
            for from in 0..numerals.len() {
                for (place, device) in devices.iter().enumerate() {
                    if matches!(device.form, Form::Rule { .. }) {
                        continue;
                    }
                    for expansion in device.expansions_in(line.mode) {
                        let own = from + expansion.before.len();
                        expected.extend(expansion.matches(&numerals, from).then(|| Hit {
                            device: place,
                            own: (own, own + expansion.own.len()),
                            span: (from, from + expansion.len()),
                        }));
                    }
                }
            }
            let mut found = finder.patterns(&numerals, line.mode);
            expected.sort();
            found.sort();
            assert_eq!(found, expected, "{}", line.line);
        }
    }
}
