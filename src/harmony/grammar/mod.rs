//! Makes progressions that hold a wanted device in a phrase that closes or turns back.
//!
//! The device's chords are planted as its catalogue file spells them; the gaps before,
//! between and after are filled with paths of the key; the whole is coloured, given a
//! harmonic rhythm, and read again by the catalogue, so that the truth that travels with
//! it is what the line says, not what was meant. Drills on the blues take their lines of
//! twelve bars from that form.

mod blues;
mod board;
mod bridge;
mod chord;
mod colour;
mod company;
mod ends;
mod favour;
mod fit;
mod form;
mod frame;
mod line_rejection;
mod motion;
mod paths;
mod phrasing;
mod plain;
mod plan;
mod pulse;
mod refusal;
mod request;
mod rhythm;
mod table;
mod tile;
mod tunes;
mod vocabulary;

use rand::RngExt;
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng;

use super::progression::Progression;
use crate::devices::{Catalogue, Device, DeviceId, Expansion, Family};
use crate::theory::{Degree, Line, Mode, Numeral, Slot};
use plan::{Frame, Plan, Planner};

pub use colour::Style;
pub use phrasing::Phrasing;
pub use refusal::Refusal;
pub use request::Request;

/// Frames that are drawn before a request is refused, and draws within each. Many draws
/// in one frame keep the places and lengths of chords the same for every device.
const FRAMES: usize = 40;
const DRAWS: usize = 16;

/// Makes a progression: the same for the same request and seed on every machine.
///
/// # Errors
/// If the request cannot be met, with the reason. Nothing is relaxed.
///
/// # Examples
/// ```
/// use plagal::devices::{Catalogue, DeviceId};
/// use plagal::harmony::{Phrasing, Request, progression};
/// use plagal::theory::{Key, Meter};
///
/// let wanted = "minor-four".parse::<DeviceId>()?;
/// let request = Request {
///     wanted: &wanted,
///     company: &[],
///     never: &[],
///     key: Key::C_MAJOR,
///     meter: Meter::FourFour,
///     bars: 8,
///     styles: &[],
///     phrasing: Phrasing::Plain,
/// };
/// let made = progression(&request, &Catalogue::built_in(), 1)?;
/// assert!(made.devices.iter().any(|found| found.device == wanted));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn progression(
    request: &Request<'_>,
    catalogue: &Catalogue,
    seed: u64,
) -> Result<Progression, Refusal> {
    let device = admissible(request, catalogue)?;
    let planner = Planner::new(request, device, catalogue);
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    if let Some(made) = chorus(request, catalogue, &mut random) {
        return Ok(made);
    }
    let mut refusal = Refusal::NoPath(device.id.clone());
    for _ in 0..FRAMES {
        let frame = planner.frame(&mut random);
        for _ in 0..DRAWS {
            let style = Style::drawn(request.styles, &mut random);
            let Some(plan) = planner.plan(&frame, &mut random) else {
                continue;
            };
            let made = made(&plan, &frame, style, request, catalogue);
            let planted = |focus| made.devices_at(focus).any(|found| *found == device.id);
            if !made.focus.is_some_and(planted) || leans_in_blues(&made, request, catalogue) {
                continue;
            }
            match intruder(&made, request, catalogue) {
                Some(found) => {
                    refusal = Refusal::Forbidden {
                        device: device.id.clone(),
                        found,
                    }
                }
                None => return Ok(made),
            }
        }
    }
    Err(refusal)
}

/// Choruses of the blues that are drawn before a device is taken to have no chord in the
/// place that is asked, and as many again before it is taken to have none at all.
const CHORUSES: usize = 100;

/// Twelve bars of blues with the wanted device in them, in a drill on the blues. Nothing
/// where the device has no place in the form.
fn chorus(
    request: &Request<'_>,
    catalogue: &Catalogue,
    random: &mut ChaCha8Rng,
) -> Option<Progression> {
    let mut ids = request.company.iter().chain([request.wanted]);
    if !is_chorus(&mut ids, request.bars) {
        return None;
    }
    let place = blues::PLACES[random.random_range(0..blues::PLACES.len())];
    let is_placed = request.key.mode() == Mode::Major;
    (0..2 * CHORUSES).find_map(|draw| {
        let line = blues::line(request.key.mode(), request.meter, random);
        let asked = match place.slot(&line) {
            None if is_placed && draw < CHORUSES => return None,
            slot => slot.filter(|_| is_placed && draw < CHORUSES),
        };
        let made = Progression::new(request.key, line, catalogue);
        let own: Vec<usize> = (0..made.line.slots().len())
            .filter(|slot| asked.is_none_or(|asked| asked == *slot))
            .filter(|slot| made.devices_at(*slot).any(|id| id == request.wanted))
            .collect();
        let focus = *own.get(random.random_range(0..own.len().max(1)))?;
        intruder(&made, request, catalogue)
            .is_none()
            .then_some(Progression {
                focus: Some(focus),
                ..made
            })
    })
}

/// Whether lines of so many bars with devices among which are these are choruses.
fn is_chorus<'a>(mut ids: impl Iterator<Item = &'a DeviceId>, bars: u32) -> bool {
    bars == blues::BARS && ids.any(|id| id.as_str() == blues::DEVICE)
}

/// The names of what leaves the key in choruses of the blues, with how often each is there,
/// if lines of so many bars with these devices are such.
#[must_use]
pub fn chorus_names(
    devices: &[DeviceId],
    bars: u32,
    mode: Mode,
) -> Option<&'static [(Numeral, f64)]> {
    is_chorus(devices.iter(), bars).then(|| blues::names(mode))
}

/// The planned chords in the colours of a style, read again by the catalogue.
fn made(
    plan: &Plan,
    frame: &Frame,
    style: Style,
    request: &Request<'_>,
    catalogue: &Catalogue,
) -> Progression {
    let mode = request.key.mode();
    let chords = &plan.chords;
    let slots = chords.iter().enumerate().map(|(at, chord)| Slot {
        numeral: if chord.exact {
            chord.numeral.clone()
        } else {
            let numeral = |at: usize| chords.get(at).map(|chord| &chord.numeral);
            let before = at.checked_sub(1).and_then(numeral);
            let dressed = style.dress(&chord.numeral, before, numeral(at + 1), mode);
            if request.wanted.as_str() == blues::DEVICE {
                colour::blue(dressed)
            } else {
                dressed
            }
        },
        length: frame.cells[at].length,
    });
    let line = Line::new(request.meter, slots);
    Progression {
        focus: Some(plan.focus),
        ..Progression::new(request.key, line, catalogue)
    }
}

/// The wanted device, if the request can be met as far as can be told beforehand.
fn admissible<'c>(request: &Request<'_>, catalogue: &'c Catalogue) -> Result<&'c Device, Refusal> {
    let wanted = request.wanted;
    let device = catalogue
        .get(wanted)
        .ok_or_else(|| Refusal::UnknownDevice(wanted.clone()))?;
    let mode = request.key.mode();
    if !device.asked {
        return Err(Refusal::NotAsked(wanted.clone()));
    }
    if !device.modes.contains(&mode) {
        return Err(Refusal::WrongMode {
            device: wanted.clone(),
            mode,
        });
    }
    if !(2..=32).contains(&request.bars) {
        return Err(Refusal::Bars(request.bars));
    }
    if shortest(device, mode) > rhythm::capacity(request.bars as usize) {
        return Err(Refusal::TooShort {
            device: wanted.clone(),
            bars: request.bars,
            meter: request.meter,
        });
    }
    Ok(device)
}

/// The fewest chords that hold the device.
fn shortest(device: &Device, mode: Mode) -> usize {
    device
        .expansions_in(mode)
        .map(Expansion::len)
        .min()
        .unwrap_or(2)
}

/// Whether a line that is made around the resting sevenths of the blues has others that lean,
/// or the tonic twice in two writings.
fn leans_in_blues(made: &Progression, request: &Request<'_>, catalogue: &Catalogue) -> bool {
    let is_applied = |id: &DeviceId| {
        let device = catalogue.get(id);
        device.is_some_and(|device| device.family == Family::Applied)
    };
    request.wanted.as_str() == blues::DEVICE
        && (made.devices.iter().any(|found| is_applied(&found.device))
            || made
                .line
                .numerals()
                .any(|numeral| numeral.target.is_some() && numeral.root() == Degree::TONIC))
}

/// A device that was not asked for and is not harmless company.
fn intruder(made: &Progression, request: &Request<'_>, catalogue: &Catalogue) -> Option<DeviceId> {
    let harmless = |id: &DeviceId| {
        let family = catalogue.get(id).map(|device| device.family);
        id == request.wanted
            || request.company.contains(id)
            || matches!(
                family,
                Some(Family::Cadential | Family::Minor | Family::Form)
            )
            || family == Some(Family::Applied) && request.phrasing == Phrasing::Tune
            || made.occurrence(id).is_some_and(|other| {
                // Part of what was wanted, or grown together with it: the dominants of a
                // chain, a turn inside a turnaround, the cadence that a pivot leads to.
                made.occurrence(request.wanted).is_some_and(|wanted| {
                    wanted.span.start < other.own.end && other.own.start < wanted.span.end
                })
            })
    };
    made.devices
        .iter()
        .map(|found| &found.device)
        .find(|id| request.never.contains(id) || !harmless(id))
        .cloned()
}

#[cfg(test)]
mod tests;
