//! One attempt at a line: its rhythm, the wanted device planted, its company, the ends,
//! and the paths between them.

use rand::{Rng, RngExt};

use super::board::Board;
use super::bridge::draw;
use super::chord::Chord;
use super::company::Offered;
use super::ends::Openings;
use super::fit::Fit;
use super::frame;
use super::line_rejection::{has_bad_seam, has_weak_six_four, repeats_itself};
use super::phrasing::Phrasing;
use super::pulse::Close;
use super::request::Request;
use super::rhythm::Cell;
use super::tile::{self, Planting, Room};
use super::vocabulary::Vocabulary;
use super::{ends, favour, form, rhythm};
use crate::devices::{Catalogue, Device, Expansion, Rule};
use crate::harmony::common::Common;

/// The cells of a line and the one that it is made around, drawn before anything is known
/// of the device.
pub(super) struct Frame {
    pub(super) cells: Vec<Cell>,
    focus: usize,
    /// How it ends, where that is drawn beforehand.
    close: Option<Close>,
}

/// The chords of a line before they are coloured, and the cell that it was made around.
pub(super) struct Plan {
    pub(super) chords: Vec<Chord>,
    pub(super) focus: usize,
}

/// What lines for a request are drawn from.
pub(super) struct Planner<'a> {
    request: &'a Request<'a>,
    device: &'a Device,
    company: Vec<&'a Device>,
    common: Common,
    /// Where the wanted device stands, unless it belongs to the ends of a line.
    fit: Option<Fit>,
    /// Where the others of the company stand.
    fits: Vec<Fit>,
    /// The company that stands within lines, if the wanted device is of it.
    peers: Vec<&'a Device>,
    vocabulary: &'static Vocabulary,
    offered: Offered,
    openings: Openings,
    may_turn_back: bool,
}

impl<'a> Planner<'a> {
    pub(super) fn new(
        request: &'a Request<'a>,
        device: &'a Device,
        catalogue: &'a Catalogue,
    ) -> Self {
        let mode = request.key.mode();
        let company: Vec<&Device> = request
            .company
            .iter()
            .filter(|id| !request.never.contains(id))
            .filter_map(|id| catalogue.get(id))
            .filter(|device| device.modes.contains(&mode))
            .collect();
        let may = |rule| company.iter().any(|device| device.rule() == Some(rule));
        let vocabulary = Vocabulary::of(mode, request.phrasing);
        let others = company.iter().filter(|other| other.id != device.id);
        let asked = others.filter(|device| device.asked);
        let fit = Fit::of(device, vocabulary);
        let is_peer = |peer: &&&Device| peer.asked && Fit::of(peer, vocabulary).is_some();
        let among = fit.is_some() && company.iter().any(|other| other.id == device.id);
        let peers = company.iter().filter(is_peer).copied();
        Self {
            request,
            device,
            fit,
            peers: if among && company.len() <= MOST_PEERS {
                peers.collect()
            } else {
                Vec::new()
            },
            fits: asked
                .filter_map(|device| Fit::of(device, vocabulary))
                .collect(),
            vocabulary,
            offered: Offered::of(vocabulary, request.phrasing, &company),
            openings: openings(request, &company, catalogue),
            may_turn_back: may(Rule::FormEndDominant),
            common: Common::of(&company, mode),
            company,
        }
    }

    /// Draws a frame in which a line was found for every device of the company, if there
    /// are such: what a frame is like then says nothing of the device, because any other
    /// would have been given the same.
    pub(super) fn frame(&self, random: &mut impl Rng) -> Frame {
        let mut frame = self.likely_frame(random);
        for _ in 0..SHARED {
            let takes = |peer: &&Device, random: &mut _| {
                (0..PEERS).any(|_| self.plan_for(peer, &frame, random).is_some())
            };
            if self.peers.len() < 2 || self.peers.iter().all(|peer| takes(peer, random)) {
                break;
            }
            frame = self.likely_frame(random);
        }
        frame
    }

    /// Draws a frame in which every device of the company could stand, or at least the
    /// wanted one if they have no place in common.
    fn likely_frame(&self, random: &mut impl Rng) -> Frame {
        let mut frame = self.blank(random);
        for draw in 0..FRAMES {
            let all = draw < FRAMES / 2;
            let count = frame.cells.len();
            let fits = |at: &usize| {
                is_clear(&frame.cells, *at)
                    && self.fit.iter().all(|fit| fit.stands(*at, count))
                    && !(all && self.fits.iter().any(|fit| !fit.stands(*at, count)))
            };
            let places: Vec<usize> = (0..count).filter(fits).collect();
            if !places.is_empty() {
                frame.focus = places[random.random_range(0..places.len())];
                break;
            }
            frame = self.blank(random);
        }
        frame
    }

    fn blank(&self, random: &mut impl Rng) -> Frame {
        let (bars, meter) = (self.request.bars as usize, self.request.meter);
        let (cells, close) = match self.request.phrasing {
            Phrasing::Plain => {
                let phrases = form::form(bars, random);
                (rhythm::cells(&phrases, meter, random), None)
            }
            Phrasing::Tune => {
                let close = frame::close(random);
                (frame::cells(bars, meter, close, random), Some(close))
            }
        };
        Frame {
            cells,
            focus: 0,
            close,
        }
    }

    /// Draws a plan for a frame, or nothing if this draw leads nowhere.
    pub(super) fn plan(&self, frame: &Frame, random: &mut impl Rng) -> Option<Plan> {
        self.plan_for(self.device, frame, random)
    }

    fn plan_for(&self, device: &'a Device, frame: &Frame, random: &mut impl Rng) -> Option<Plan> {
        let (cells, mut focus) = (&frame.cells, frame.focus);
        let mut board = Board::new(self.vocabulary, cells);
        let turns_back = device.rule() == Some(Rule::FormEndDominant);
        if turns_back {
            focus = cells.len() - 1;
        } else {
            let planting = match self.around(device, focus, cells, random) {
                Some(planting) => planting,
                None => {
                    let (planting, own) = self.anchored(device, cells, random)?;
                    focus = own;
                    planting
                }
            };
            if !board.plant(planting.start, &planting.chords(self.vocabulary)) {
                return None;
            }
        }
        if !ends::open(&mut board, self.openings, random) {
            return None;
        }
        let last = cells.len() - 1;
        if let (Some(close), false) = (frame.close, turns_back) {
            if !self.end(&mut board, close, random) {
                return None;
            }
        } else if turns_back
            || (self.may_turn_back && board.is_free(last) && random.random_bool(0.3))
        {
            ends::turn_back(&mut board);
        } else if !ends::close(&mut board) {
            return None;
        }
        self.bring_company(device, &mut board, random);
        ends::contrast(&mut board, random);
        if self.request.phrasing == Phrasing::Plain {
            ends::cadence(&mut board, random);
            ends::pause_phrases(&mut board, random);
        }
        let chords = board.fill(&self.offered, random)?;
        let sound = !repeats_itself(&chords, cells)
            && !has_weak_six_four(&chords, cells)
            && !has_bad_seam(&chords, cells, self.vocabulary);
        sound.then_some(Plan { chords, focus })
    }

    /// Ends the line as its frame says; tells whether that goes with what is planted.
    fn end(&self, board: &mut Board<'_>, close: Close, random: &mut impl Rng) -> bool {
        let last = board.cells.len() - 1;
        if !board.is_free(last) {
            return true;
        }
        match close {
            Close::Home => ends::close(board),
            Close::Dominant => {
                let opens_off = board.planned(0).is_some_and(|first| !first.is_home());
                if opens_off && random.random_bool(0.3) {
                    ends::turn_back(board);
                    return true;
                }
                board.set_if_it_joins(last, self.vocabulary.dominant()) || ends::close(board)
            }
            Close::Onward => ends::lead_on(board, random) || ends::close(board),
        }
    }

    fn around(
        &self,
        device: &'a Device,
        focus: usize,
        cells: &[Cell],
        random: &mut impl Rng,
    ) -> Option<Planting<'a>> {
        let ways = tile::around(
            device,
            self.vocabulary,
            &self.common,
            focus,
            self.room(cells),
        );
        let placed = |planting: &Planting<'_>| match self.request.phrasing {
            Phrasing::Plain => 1.0,
            Phrasing::Tune => {
                let chords = planting.chords(self.vocabulary);
                let cells = &cells[planting.range()];
                let stands = chords.iter().zip(cells);
                stands
                    .map(|(chord, cell)| favour::place(cell, chord))
                    .product()
            }
        };
        let weigh = |(planting, weight): &(Planting<'_>, f64)| weight * placed(planting);
        let weights: Vec<f64> = ways.iter().map(weigh).collect();
        Some(ways[draw(&weights, random)?].0)
    }

    /// A planting of a device that stands only at the beginning or the end of a line,
    /// with a cell of its own.
    fn anchored(
        &self,
        device: &'a Device,
        cells: &[Cell],
        random: &mut impl Rng,
    ) -> Option<(Planting<'a>, usize)> {
        let all: Vec<&Expansion> = device.expansions_in(self.vocabulary.mode).collect();
        let is_anchored = |expansion: &&Expansion| expansion.at_start || expansion.at_end;
        if !all.iter().all(is_anchored) {
            return None;
        }
        let expansion = all[random.random_range(0..all.len())];
        let start = if expansion.at_start {
            0
        } else {
            cells.len().checked_sub(expansion.len())?
        };
        let asked = draw(&self.common.shares(&device.id, expansion), random).unwrap_or(0);
        let own = start + expansion.before.len() + asked;
        let planting = Planting { expansion, start };
        self.room(cells).takes(&planting).then_some((planting, own))
    }

    fn room(&self, cells: &[Cell]) -> Room {
        Room {
            cells: cells.len(),
            opens_off: self.openings == Openings::AnyChord,
        }
    }

    /// Plants other devices of the company where there is room.
    fn bring_company(&self, wanted: &Device, board: &mut Board<'_>, random: &mut impl Rng) {
        let room = board.cells.len().saturating_sub(4) / 3;
        if self.company.is_empty() || room == 0 {
            return;
        }
        let most = match self.request.phrasing {
            Phrasing::Plain => random.random_range(0..=room),
            // The chords of the company are among those that fill the line.
            Phrasing::Tune => usize::from(random.random_bool(0.3)),
        };
        for _ in 0..most {
            let device = self.company[random.random_range(0..self.company.len())];
            if device.id == wanted.id {
                continue;
            }
            let free: Vec<&Expansion> = device
                .expansions_in(self.vocabulary.mode)
                .filter(|expansion| !expansion.at_start && !expansion.at_end)
                .filter(|expansion| !tile::leaps_from_sharp_four(expansion))
                .collect();
            if free.is_empty() {
                continue;
            }
            let expansion = free[random.random_range(0..free.len())];
            for _ in 0..TRIES {
                let start = random.random_range(0..board.cells.len());
                let planting = Planting { expansion, start };
                if self.room(board.cells).takes(&planting)
                    && board.plant(start, &planting.chords(self.vocabulary))
                {
                    break;
                }
            }
        }
    }
}

/// Off the tonic freely where that is among what is asked, and not at all where it is
/// excluded.
fn openings(request: &Request<'_>, company: &[&Device], catalogue: &Catalogue) -> Openings {
    let is_opening = |device: &Device| device.rule() == Some(Rule::OffTonicOpening);
    let excluded = request.never.iter().filter_map(|id| catalogue.get(id));
    if excluded.into_iter().any(is_opening) {
        Openings::Tonic
    } else if company.iter().any(|device| is_opening(device)) {
        Openings::AnyChord
    } else {
        match request.phrasing {
            Phrasing::Plain => Openings::OfTheKey,
            Phrasing::Tune => Openings::OfTunes,
        }
    }
}

/// Tries to find room for one device of the company.
const TRIES: usize = 6;

/// Frames that are tried for a place which the whole company shares, and draws of a line
/// for each of it.
const SHARED: usize = 24;
/// A larger company shares too few frames, and each of it is so seldom asked that its place
/// says little.
const MOST_PEERS: usize = 7;
const PEERS: usize = 4;

/// Draws of a frame before it is taken as it is.
const FRAMES: usize = 60;

/// Whether a cell and those around it, where a device may reach, take no chord from an
/// earlier phrase. The first cell belongs to the opening.
fn is_clear(cells: &[Cell], at: usize) -> bool {
    let around = at.saturating_sub(2)..(at + 4).min(cells.len());
    at > 0 && cells[around].iter().all(|cell| cell.copy_of.is_none())
}
