//! Struck, plucked and held: how partials begin, differ by touch and die.

use plagal::synth::{Settings, Sound, built_in, find};

use super::notes::{SECOND, mono, range, single};
use super::spectrum::{amplitudes, cents, frequency};

const RATE: f64 = 48_000.0;

fn sound(id: &str) -> &'static Sound {
    find(id).expect("a built-in sound")
}

fn dry() -> Settings {
    Settings {
        room: false,
        ..Settings::default()
    }
}

/// The spectrum in a third of a second from `start` seconds on.
fn spectrum(samples: &[f64], start: f64) -> (Vec<f64>, f64) {
    let from = (start * RATE) as usize;
    amplitudes(&samples[from..from + 16_384], RATE)
}

/// Where the middle of the amplitude lies, in hertz.
pub(crate) fn centroid(samples: &[f64], start: f64) -> f64 {
    let (amplitudes, bin) = spectrum(samples, start);
    let sum: f64 = amplitudes.iter().sum();
    let weighted = amplitudes
        .iter()
        .enumerate()
        .map(|(place, a)| place as f64 * bin * a);
    weighted.sum::<f64>() / sum
}

/// The level of a partial in decibels.
pub(crate) fn partial(samples: &[f64], start: f64, hertz: f64) -> f64 {
    let (amplitudes, bin) = spectrum(samples, start);
    let from = (hertz * 0.98 / bin) as usize;
    let to = (hertz * 1.02 / bin) as usize + 1;
    let peak = amplitudes[from..=to]
        .iter()
        .fold(1e-12f64, |a, b| a.max(*b));
    20.0 * peak.log10()
}

const STRUCK: [&str; 6] = [
    "electric-piano",
    "piano",
    "nylon-guitar",
    "archtop-guitar",
    "vibraphone",
    "upright-bass",
];

#[test]
fn a_stronger_touch_is_louder_and_brighter() {
    for id in STRUCK {
        let middle = (range(sound(id)).start() + range(sound(id)).end()) / 2;
        let of = |strength| mono(&single(middle, SECOND, strength), sound(id), &dry());
        let (soft, hard) = (of(0.3), of(0.9));
        let energy = |samples: &[f64]| samples.iter().map(|v| v * v).sum::<f64>();
        assert!(energy(&hard) > 4.0 * energy(&soft), "{id}");
        let (soft, hard) = (centroid(&soft, 0.0), centroid(&hard, 0.0));
        assert!(hard > 1.05 * soft, "{id}: {hard} Hz against {soft} Hz");
    }
}

#[test]
fn struck_sounds_fade_and_darken() {
    for id in STRUCK {
        let middle = (range(sound(id)).start() + range(sound(id)).end()) / 2;
        let hertz = 440.0 * ((f64::from(middle) - 69.0) / 12.0).exp2();
        let samples = mono(&single(middle, 3 * SECOND, 0.6), sound(id), &dry());
        let lost = partial(&samples, 0.1, hertz) - partial(&samples, 2.1, hertz);
        assert!((4.0..60.0).contains(&lost), "{id}: {lost} dB in 2 s");
        let (early, late) = (centroid(&samples, 0.0), centroid(&samples, 1.5));
        assert!(late < early, "{id}: {early} Hz, later {late} Hz");
    }
}

#[test]
fn held_sounds_stay() {
    for id in ["organ", "strings"] {
        for midi in [48, 60, 72] {
            let hertz = 440.0 * ((f64::from(midi) - 69.0) / 12.0).exp2();
            let samples = mono(&single(midi, 6 * SECOND, 0.6), sound(id), &dry());
            let change = partial(&samples, 0.5, hertz) - partial(&samples, 5.0, hertz);
            assert!(change.abs() < 4.5, "{id} at {midi}: {change} dB");
        }
    }
}

#[test]
fn high_notes_die_sooner_than_low_ones() {
    for id in STRUCK {
        let (low, high) = (*range(sound(id)).start() + 5, *range(sound(id)).end() - 8);
        let lost = |midi: i32| {
            let hertz = 440.0 * ((f64::from(midi) - 69.0) / 12.0).exp2();
            let samples = mono(&single(midi, 2 * SECOND, 0.6), sound(id), &dry());
            partial(&samples, 0.1, hertz) - partial(&samples, 1.1, hertz)
        };
        assert!(
            lost(high) > lost(low) + 2.0,
            "{id}: {} {}",
            lost(high),
            lost(low)
        );
    }
}

#[test]
fn no_two_attacks_are_the_same() {
    for sound in built_in() {
        let of = |seed| {
            let settings = Settings { seed, ..dry() };
            mono(&single(60, SECOND / 4, 0.6), sound, &settings)
        };
        let (first, second) = (of(1), of(2));
        let attack = |samples: &[f64]| samples[..4_800].to_vec();
        let difference: f64 = attack(&first)
            .iter()
            .zip(attack(&second))
            .map(|(a, b)| (a - b).powi(2))
            .sum();
        let energy: f64 = attack(&first).iter().map(|a| a * a).sum();
        // They differ, and not in loudness: that could give an answer away.
        assert!(difference > 1e-3 * energy, "{}", sound.id);
        let level = 10.0 * (attack(&second).iter().map(|a| a * a).sum::<f64>() / energy).log10();
        assert!(level.abs() < 1.5, "{}: {level} dB", sound.id);
    }
}

#[test]
fn a_piano_string_is_stiff_as_measured_ones_are() {
    // Fletcher & Rossing, The Physics of Musical Instruments, chapter on the piano (from
    // memory): f_n = n f √(1 + B n²), B near 0.0004 at middle C.
    let fundamental = 261.6256;
    let samples = mono(&single(60, SECOND, 0.7), sound("piano"), &dry());
    let steady = &samples[4_800..19_200];
    for number in 2..=6 {
        let number = f64::from(number);
        let stretch = |b: f64| number * ((1.0 + b * number * number) / (1.0 + b)).sqrt();
        let found = frequency(steady, RATE, fundamental * stretch(4e-4));
        let (least, most) = (fundamental * stretch(2e-4), fundamental * stretch(8e-4));
        assert!(
            found > least && found < most,
            "partial {number}: {found} Hz"
        );
    }
}

#[test]
fn a_vibraphone_bar_is_tuned_to_the_double_octave() {
    // Rossing, Science of Percussion Instruments (from memory): the arch under the bar
    // brings its second mode to four times the first.
    let fundamental = 349.2282;
    let samples = mono(&single(65, SECOND, 0.7), sound("vibraphone"), &dry());
    let found = frequency(&samples[2_400..19_200], RATE, 4.0 * fundamental);
    let off = cents(found, 4.0 * fundamental);
    assert!(off.abs() < 15.0, "{off} cents");
}

#[test]
fn a_small_speaker_still_gives_the_bass() {
    // A laptop's speakers give little below 200 Hz (common knowledge of the trade), so
    // partials two to six must carry the bass: together within 15 dB of the first.
    for sound in built_in() {
        for midi in 40..=50 {
            if !range(sound).contains(&midi) {
                continue;
            }
            let hertz = 440.0 * ((f64::from(midi) - 69.0) / 12.0).exp2();
            let samples = mono(&single(midi, SECOND, 0.6), sound, &dry());
            let power = |n: i32| 10f64.powf(partial(&samples, 0.1, f64::from(n) * hertz) / 10.0);
            let upper: f64 = (2..=6).map(power).sum();
            let level = 10.0 * (upper / power(1)).log10();
            assert!(level > -15.0, "{} at {midi}: {level} dB", sound.id);
        }
    }
}
