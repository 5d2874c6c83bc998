//! Tests of the lines that the grammar makes.

use super::*;
use crate::devices::{Kind, Shape};
use crate::theory::{Degree, Key, Meter, Quality};

fn c(mode: Mode) -> Key {
    Key::new(crate::theory::PitchClass::C, mode).expect("C has few accidentals")
}

/// Eight bars in C with a device in them, in any company and style.
fn request(wanted: &DeviceId, mode: Mode) -> Request<'_> {
    Request {
        wanted,
        company: &[],
        never: &[],
        key: c(mode),
        meter: Meter::FourFour,
        bars: 8,
        styles: &[],
        phrasing: Phrasing::Plain,
    }
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
                    styles: &[],
                    phrasing: Phrasing::Plain,
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
        styles: &[],
        phrasing: Phrasing::Plain,
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
            styles: &[],
            phrasing: Phrasing::Plain,
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
fn dominants_do_not_fall_back_and_lines_close_from_the_root() {
    // Common practice: outside the blues V does not retreat to IV; what has its leading
    // tone in the bass goes home; nothing resolves to a half-diminished chord.
    let catalogue = Catalogue::built_in();
    let (mut lines, mut faults) = (0, Vec::new());
    for device in catalogue.devices().iter().filter(|device| device.asked) {
        for seed in 0..20 {
            let request = request(&device.id, device.modes[0]);
            let Ok(made) = progression(&request, &catalogue, seed) else {
                continue;
            };
            lines += 1;
            let chords: Vec<Shape> = made.line.numerals().map(Shape::acting).collect();
            let retreats = chords.windows(2).any(|pair| {
                let (from, to) = (pair[0], pair[1]);
                let five = from.kind == Kind::Dominant && from.root == Degree::new(5, 0);
                let applied = from.kind == Kind::Dominant && from.root != Degree::TONIC;
                five && to.root == Degree::new(4, 0) && to.kind == Kind::Major
                    || applied
                        && to.kind == Kind::HalfDiminished
                        && !five
                        && to.root == Degree::new(7, 0)
            });
            let before_last = made.line.numerals().nth(chords.len().saturating_sub(2));
            let weak = before_last.is_some_and(|numeral| {
                numeral.bass.is_some()
                    && made.devices_at(chords.len() - 2).all(|id| *id != device.id)
            });
            if retreats || weak {
                faults.push(format!("{}: {}", device.id, made.line));
            }
        }
    }
    assert!(lines > 1000, "{lines}");
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn chords_are_coloured_as_they_lead() {
    // Common practice: the leading tone of V rises to a minor tonic without a seventh, the
    // major subdominant of minor has no major seventh, and a bass that has climbed to
    // sharp 4 goes on to 5.
    let catalogue = Catalogue::built_in();
    let (mut lines, mut faults) = (0, Vec::new());
    for device in catalogue.devices().iter().filter(|device| device.asked) {
        for (mode, seed) in device
            .modes
            .iter()
            .flat_map(|mode| (0..20).map(|seed| (*mode, seed)))
        {
            let request = request(&device.id, mode);
            let Ok(made) = progression(&request, &catalogue, seed) else {
                continue;
            };
            lines += 1;
            let chords: Vec<String> = made.line.numerals().map(ToString::to_string).collect();
            let is_odd = |pair: &[String]| {
                let pair = (pair[0].as_str(), pair[1].as_str());
                let (before, chord) = pair;
                ["V7", "subV7"].contains(&before) && chord == "i7"
                    || mode == Mode::Minor && (before == "IVmaj7" || chord == "IVmaj7")
                    || before == "#ivo7" && ["I", "Iadd6", "Imaj7"].contains(&chord)
            };
            if chords.windows(2).any(is_odd) {
                faults.push(format!("{}: {}", device.id, made.line));
            }
        }
    }
    assert!(lines > 1000, "{lines}");
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn lines_keep_to_the_styles_that_are_asked() {
    let catalogue = Catalogue::built_in();
    let wanted = "authentic-cadence".parse().expect("an id");
    for seed in 0..50 {
        let request = Request {
            styles: &[Style::Triads, Style::MinorSevenths],
            ..request(&wanted, Mode::Major)
        };
        let made = progression(&request, &catalogue, seed).expect("a line");
        for numeral in made.line.numerals() {
            let is_home = numeral.root() == Degree::TONIC && numeral.target.is_none();
            assert!(
                !is_home || numeral.quality() == Quality::MAJOR,
                "{}",
                made.line
            );
        }
    }
}

#[test]
fn blues_sevenths_stand_among_their_like() {
    let catalogue = Catalogue::built_in();
    let wanted = "blues-sevenths".parse().expect("an id");
    for seed in 0..50 {
        let request = request(&wanted, Mode::Major);
        let made = progression(&request, &catalogue, seed).expect("a line");
        for numeral in made.line.numerals() {
            let root = Shape::of(numeral).root;
            let is_major = Kind::of(numeral.quality()) == Kind::Major;
            assert!(
                !is_major || ![Degree::TONIC, Degree::new(4, 0)].contains(&root),
                "{}",
                made.line
            );
        }
    }
}

#[test]
fn what_cannot_be_met_is_refused_with_the_reason() {
    let catalogue = Catalogue::built_in();
    let id = |text: &str| text.parse::<DeviceId>().expect("an id");
    let (wanted, never) = (id("turnaround"), [id("two-five-one")]);
    let request = Request {
        never: &never,
        meter: Meter::ThreeFour,
        bars: 2,
        ..request(&wanted, Mode::Major)
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
