//! Where the wanted device, its company and the ends of the phrase stand in a line.

use rand::{Rng, RngExt};

use super::bridge::{bridge, draw};
use super::colour::Style;
use super::transition::fillers;
use super::{Request, rhythm};
use crate::devices::{Catalogue, Device, Expansion, Rule};
use crate::theory::{Degree, IntervalClass, Mode, Numeral, Quality};

/// The chords of a line before they are coloured and timed.
pub(super) struct Plan {
    pub(super) chords: Vec<Numeral>,
    pub(super) style: Style,
}

/// A fixed run of chords within a line.
struct Block {
    chords: Vec<Numeral>,
    at_start: bool,
    at_end: bool,
}

/// How the phrase ends.
#[derive(Clone, Copy, PartialEq)]
enum Ending {
    /// On the tonic.
    Closed,
    /// On the dominant of the first chord.
    TurnsBack,
    /// As the device itself ends.
    AsPlanted,
}

/// Everything a plan is drawn from.
pub(super) struct Planting<'a> {
    pub(super) request: &'a Request<'a>,
    pub(super) device: &'a Device,
    pub(super) catalogue: &'a Catalogue,
    pub(super) mode: Mode,
}

/// Openings off the tonic and how often they are met in the repertoire, in per cent
/// (counted in the Jazz Harmony Treebank, Harasim et al. 2020).
const OPENINGS_MAJOR: [(&str, f64); 6] = [
    ("ii7", 8.9),
    ("vi7", 3.0),
    ("IV", 1.8),
    ("V7/V", 1.5),
    ("iii7", 1.0),
    ("V7/ii", 1.0),
];
const OPENINGS_MINOR: [(&str, f64); 4] = [("iiø7", 4.0), ("iv7", 4.0), ("bVI", 2.0), ("V7", 2.0)];

impl Planting<'_> {
    /// Draws a plan, or nothing if this draw leads nowhere.
    pub(super) fn plan(&self, random: &mut impl Rng) -> Option<Plan> {
        let style = Style::drawn(random);
        let fillers = fillers(self.mode);
        let block = self.block(self.device, random)?;
        let ending = self.ending(&block, random);
        let opening = self.opening(&block, random)?;
        let (most, least) = rhythm::capacity(self.request.bars as usize, self.request.meter);
        let mut blocks: Vec<Block> = opening.into_iter().chain([block]).collect();
        if let Some(other) = self.companion(random) {
            let place = if random.random_bool(0.5) {
                blocks.len()
            } else {
                blocks.len() - 1
            };
            if !other.at_start && !other.at_end && place > 0 && !blocks[place - 1].at_end {
                blocks.insert(place, other);
            }
        }
        let first = blocks[0].chords.first()?.clone();
        // A phrase that has come home after its opening may stop there.
        let is_home = blocks.last()?.chords.last()? == &fillers[0] && blocks.len() > 1;
        let may_stop = ending == Ending::Closed && is_home && random.random_bool(0.6);
        if !may_stop {
            blocks.extend(self.close(ending, &first, random));
        }
        let fixed: usize = blocks.iter().map(|block| block.chords.len()).sum();
        // About one chord a bar sounds natural; a few more or fewer keep lines apart.
        let bars = self.request.bars as usize;
        let low = least.max(fixed).max(bars * 3 / 4);
        let high = most.min(bars * 3 / 2).max(low);
        if fixed > most || low > most {
            return None;
        }
        let total = random.random_range(low..=high);
        let chords = join(&blocks, total - fixed, &fillers, self.mode, random)?;
        Some(Plan { chords, style })
    }

    /// The device's own run of chords with its context.
    fn block(&self, device: &Device, random: &mut impl Rng) -> Option<Block> {
        if device.rule() == Some(Rule::FormEndDominant) {
            // Planned as an ending; here it only asks for an opening.
            let tonic = fillers(self.mode).swap_remove(0);
            let off = self.off_tonic(random)?;
            let first = if random.random_bool(0.4) { tonic } else { off };
            return Some(Block {
                chords: vec![first],
                at_start: true,
                at_end: false,
            });
        }
        let expansions: Vec<&Expansion> = device.expansions_in(self.mode).collect();
        if expansions.is_empty() {
            return None;
        }
        let expansion = expansions[random.random_range(0..expansions.len())];
        let chords = expansion
            .chords()
            .map(|wanted| wanted.numeral.clone())
            .collect();
        Some(Block {
            chords,
            at_start: expansion.at_start,
            at_end: expansion.at_end,
        })
    }

    fn off_tonic(&self, random: &mut impl Rng) -> Option<Numeral> {
        let table: &[(&str, f64)] = match self.mode {
            Mode::Major => &OPENINGS_MAJOR,
            Mode::Minor => &OPENINGS_MINOR,
        };
        // Square roots keep the order of the repertoire and let the rare ones be heard.
        let weights: Vec<f64> = table.iter().map(|(_, share)| share.sqrt()).collect();
        let (text, _) = table[draw(&weights, random)?];
        Some(text.parse().expect("the table holds numerals"))
    }

    /// A tonic to begin with, unless the block begins the line itself.
    fn opening(&self, block: &Block, random: &mut impl Rng) -> Option<Option<Block>> {
        if block.at_start {
            return Some(None);
        }
        let first = block.chords.first()?;
        if first.root() == Degree::TONIC && first.quality() == Quality::MAJOR && !block.at_end {
            return Some(None);
        }
        let may_open_off = self.may_accompany(Rule::OffTonicOpening);
        let chord = if may_open_off && random.random_bool(0.5) {
            self.off_tonic(random)?
        } else {
            fillers(self.mode).swap_remove(0)
        };
        Some(Some(Block {
            chords: vec![chord],
            at_start: true,
            at_end: false,
        }))
    }

    fn ending(&self, block: &Block, random: &mut impl Rng) -> Ending {
        if self.device.rule() == Some(Rule::FormEndDominant) {
            Ending::TurnsBack
        } else if block.at_end {
            Ending::AsPlanted
        } else if self.may_accompany(Rule::FormEndDominant) && random.random_bool(0.3) {
            Ending::TurnsBack
        } else {
            Ending::Closed
        }
    }

    /// The last chords of the phrase, unless the device ends it.
    fn close(&self, ending: Ending, first: &Numeral, random: &mut impl Rng) -> Option<Block> {
        let tonic = || fillers(self.mode).swap_remove(0);
        let dominant = Numeral::roman(Degree::new(5, 0), Quality::DOMINANT_SEVENTH);
        let chords = match ending {
            Ending::AsPlanted => return None,
            Ending::Closed if random.random_bool(0.75) => vec![dominant, tonic()],
            Ending::Closed => vec![tonic()],
            Ending::TurnsBack => {
                let root = first.root().up(IntervalClass::PERFECT_FIFTH);
                let turn = Numeral::roman(root, Quality::DOMINANT_SEVENTH);
                // I7 turns back to IV best from a tonic that has just been reached.
                if root == Degree::TONIC {
                    vec![dominant, tonic(), turn]
                } else {
                    vec![turn]
                }
            }
        };
        Some(Block {
            chords,
            at_start: false,
            at_end: true,
        })
    }

    fn may_accompany(&self, rule: Rule) -> bool {
        self.catalogue.devices().iter().any(|device| {
            device.rule() == Some(rule)
                && self.request.company.contains(&device.id)
                && !self.request.never.contains(&device.id)
        })
    }

    /// Now and then another device from the company, if there is room.
    fn companion(&self, random: &mut impl Rng) -> Option<Block> {
        let company = self.request.company;
        if company.is_empty() || self.request.bars < 6 || random.random_bool(0.5) {
            return None;
        }
        let id = &company[random.random_range(0..company.len())];
        let device = self.catalogue.get(id)?;
        let fits = device.modes.contains(&self.mode)
            && id != self.request.wanted
            && !matches!(
                device.rule(),
                Some(Rule::OffTonicOpening | Rule::FormEndDominant)
            );
        if fits {
            self.block(device, random)
        } else {
            None
        }
    }
}

/// Joins blocks with `spare` filling chords spread over the gaps. Where a block begins
/// with the chord that the one before ends on, the two share it.
fn join(
    blocks: &[Block],
    spare: usize,
    fillers: &[Numeral],
    mode: Mode,
    random: &mut impl Rng,
) -> Option<Vec<Numeral>> {
    let gaps = blocks.len() - 1;
    let mut shares = vec![0; gaps.max(1)];
    for _ in 0..spare {
        let gap = random.random_range(0..shares.len());
        shares[gap] += 1;
    }
    let mut line: Vec<Numeral> = blocks[0].chords.clone();
    for (block, share) in blocks[1..].iter().zip(&shares) {
        let from = line.last()?.clone();
        let to = block.chords.first()?;
        if *share == 0 && from == *to {
            line.extend(block.chords[1..].iter().cloned());
            continue;
        }
        line.extend(bridge(
            Some(&from),
            Some(to),
            *share,
            fillers,
            mode,
            random,
        )?);
        line.extend(block.chords.iter().cloned());
    }
    if gaps == 0 && spare > 0 {
        let from = line.last()?.clone();
        line.extend(bridge(Some(&from), None, spare, fillers, mode, random)?);
    }
    Some(line)
}
