//! The progressions that questions are made of, arranged: no fault may be left.

use plagal::arranging::{Setting, VoiceLeading, faults};
use plagal::devices::Catalogue;
use plagal::harmony::{Phrasing, Request, progression};
use plagal::theory::{Key, Meter};

/// In semitones.
const FIFTH: u32 = 7;

/// Rounds through the everyday keys, each with seeds of its own.
const ROUNDS: usize = 4;

#[test]
fn generated_progressions_lead_without_a_fault() {
    let catalogue = Catalogue::built_in();
    let keys: Vec<Key> = Key::everyday().collect();
    let mut all = VoiceLeading::default();
    let (mut settings, mut uneven, mut wide) = (0, 0, 0);
    for device in catalogue.devices().iter().filter(|device| device.asked) {
        for (seed, key) in (0..).zip(keys.repeat(ROUNDS)) {
            let request = Request {
                wanted: &device.id,
                company: &[],
                never: &[],
                key,
                meter: Meter::FourFour,
                bars: 8,
                styles: &[],
                phrasing: Phrasing::Plain,
            };
            // A device of the other mode makes nothing in this key.
            let Ok(made) = progression(&request, &catalogue, seed) else {
                continue;
            };
            let setting = Setting::new(&made.line, key, seed)
                .unwrap_or_else(|error| panic!("{}: {error}", made.line));
            let found = faults(&setting);
            assert_eq!(found.faults(), 0, "{} in {key}: {found:?}", made.line);
            let voices = setting.voicings[0].upper.len();
            let even = setting
                .voicings
                .iter()
                .all(|voicing| voicing.upper.len() == voices);
            uneven += u32::from(!even);
            wide += u32::from(found.largest_leap > FIFTH);
            all += found;
            settings += 1;
        }
    }
    assert!(settings > 500, "{settings}");
    // Common practice: upper voices leap no further than a fifth, save in a corner.
    assert!(wide * 200 <= settings, "{wide} of {settings}: {all:?}");
    assert!(all.mean_motion() < 1.5, "{all:?}");
    // The number of voices must not tell the chords apart.
    assert!(uneven * 100 <= settings, "{uneven} of {settings}");
}
