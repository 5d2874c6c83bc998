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
mod colour;
mod dull;
mod ends;
mod fit;
mod form;
mod motion;
mod plan;
mod refusal;
mod rhythm;
mod tile;
mod vocabulary;

use rand::RngExt;
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng;

use super::progression::Progression;
use crate::devices::{Catalogue, Device, DeviceId, Expansion, Family};
use crate::theory::{Key, Line, Meter, Mode, Slot};
use plan::{Frame, Plan, Planner};

pub use colour::Style;
pub use refusal::Refusal;

/// What a progression should be.
#[derive(Clone, Debug, PartialEq)]
pub struct Request<'a> {
    /// The device that must be there.
    pub wanted: &'a DeviceId,
    /// Devices that may be there too. Those of cadences, of the minor mode and of form
    /// always may.
    pub company: &'a [DeviceId],
    /// Devices that must not be there.
    pub never: &'a [DeviceId],
    pub key: Key,
    pub meter: Meter,
    /// 2 to 32.
    pub bars: u32,
}

/// Frames that are drawn before a request is refused, and draws within each. Many draws
/// in one frame keep the places and lengths of chords the same for every device.
const FRAMES: usize = 40;
const DRAWS: usize = 16;

/// Makes a progression: the same for the same request and seed on every machine.
///
/// # Errors
/// If the request cannot be met, with the reason. Nothing is relaxed.
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
            let style = Style::drawn(&mut random);
            let Some(plan) = planner.plan(&frame, &mut random) else {
                continue;
            };
            let made = made(&plan, &frame, style, request, catalogue);
            let planted = |focus| made.devices_at(focus).any(|found| *found == device.id);
            if !made.focus.is_some_and(planted) {
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

/// Choruses of the blues that are drawn before a device is taken to have no place there.
const CHORUSES: usize = 100;

/// Twelve bars of blues with the wanted device in them, in a drill on the blues. Nothing
/// where the device has no place in the form.
fn chorus(
    request: &Request<'_>,
    catalogue: &Catalogue,
    random: &mut ChaCha8Rng,
) -> Option<Progression> {
    let mut ids = request.company.iter().chain([request.wanted]);
    if request.bars != blues::BARS || !ids.any(|id| id.as_str() == blues::DEVICE) {
        return None;
    }
    (0..CHORUSES).find_map(|_| {
        let line = blues::line(request.key.mode(), request.meter, random);
        let made = Progression::new(request.key, line, catalogue);
        let own: Vec<usize> = (0..made.line.slots().len())
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
            let next = chords.get(at + 1).map(|next| &next.numeral);
            style.dress(&chord.numeral, next, mode)
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
mod tests {
    use super::*;

    fn c(mode: Mode) -> Key {
        Key::new(crate::theory::PitchClass::C, mode).expect("C has few accidentals")
    }

    #[test]
    fn every_device_is_planted_and_found_in_every_length_that_fits() {
        let catalogue = Catalogue::built_in();
        let mut refused = Vec::new();
        for device in catalogue.devices().iter().filter(|device| device.asked) {
            for (mode, bars) in device
                .modes
                .iter()
                .flat_map(|mode| [(*mode, 8), (*mode, 12)])
            {
                for seed in 0..20 {
                    let request = Request {
                        wanted: &device.id,
                        company: &[],
                        never: &[],
                        key: c(mode),
                        meter: Meter::FourFour,
                        bars,
                    };
                    match progression(&request, &catalogue, seed) {
                        Ok(made) => assert!(made.occurrence(&device.id).is_some()),
                        Err(refusal) => refused.push(refusal.to_string()),
                    }
                }
            }
        }
        assert!(refused.is_empty(), "{}", refused.join("\n"));
    }

    #[test]
    fn the_same_seed_makes_the_same_line_and_others_differ() {
        let catalogue = Catalogue::built_in();
        let wanted = "minor-four".parse().expect("an id");
        let key = c(Mode::Major);
        let request = Request {
            wanted: &wanted,
            company: &[],
            never: &[],
            key,
            meter: Meter::FourFour,
            bars: 8,
        };
        let line = |seed| progression(&request, &catalogue, seed).map(|made| made.line.to_string());
        let lines: std::collections::BTreeSet<_> = (0..100).map(|seed| line(seed).ok()).collect();
        assert_eq!(line(7), line(7));
        assert!(lines.len() > 80, "only {} different lines", lines.len());
    }

    #[test]
    fn drills_on_the_blues_have_choruses() {
        let catalogue = Catalogue::built_in();
        let id = |text: &str| text.parse::<DeviceId>().expect("an id");
        let company = [id("blues-sevenths")];
        for (mode, wanted) in [
            (Mode::Major, "blues-sevenths"),
            (Mode::Major, "form-end-dominant"),
            (Mode::Minor, "minor-two-five-one"),
            (Mode::Minor, "flat-six-dominant-minor"),
        ] {
            let request = Request {
                wanted: &id(wanted),
                company: &company,
                never: &[],
                key: c(mode),
                meter: Meter::FourFour,
                bars: blues::BARS,
            };
            for seed in 0..50 {
                let made = progression(&request, &catalogue, seed).expect("a chorus");
                let numeral = made.line.slots()[0].numeral.to_string();
                assert!(
                    numeral == "I7" || numeral == "i7",
                    "{wanted}: {}",
                    made.line
                );
                let focus = made.focus.expect("a chord of the device");
                assert!(made.devices_at(focus).any(|found| found.as_str() == wanted));
            }
        }
    }

    #[test]
    fn what_cannot_be_met_is_refused_with_the_reason() {
        let catalogue = Catalogue::built_in();
        let id = |text: &str| text.parse::<DeviceId>().expect("an id");
        let (wanted, never) = (id("turnaround"), [id("two-five-one")]);
        let request = Request {
            wanted: &wanted,
            company: &[],
            never: &never,
            key: c(Mode::Major),
            meter: Meter::ThreeFour,
            bars: 2,
        };
        let refused = |request: &Request<'_>| progression(request, &catalogue, 1).err();
        assert!(matches!(
            refused(&request),
            Some(Refusal::TooShort { bars: 2, .. })
        ));
        let minor = Request {
            key: c(Mode::Minor),
            ..request.clone()
        };
        assert!(matches!(
            refused(&minor),
            Some(Refusal::WrongMode {
                mode: Mode::Minor,
                ..
            })
        ));
        let unknown = id("no-such-device");
        let request = Request {
            wanted: &unknown,
            ..request
        };
        assert_eq!(
            refused(&request),
            Some(Refusal::UnknownDevice(unknown.clone()))
        );
    }
}
