//! The table of sounds in docs/sounds.md is what is measured. `PLAGAL_BLESS=1` renews it.

use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use plagal::synth::{Settings, Sound, built_in, loudness, render, true_peak};

use super::notes::{SECOND, mono, phrase, single};
use super::spectrum::{cents, frequency};
use super::touch::{centroid, partial};
use super::tuning::worst;

const BEGIN: &str = "<!-- sounds -->\n";
const END: &str = "<!-- end of sounds -->";

const RATE: f64 = 48_000.0;
const MIDDLE: i32 = 60;
const MIDDLE_HERTZ: f64 = 261.625_565_3;

fn note(sound: &Sound, seconds: u32, strength: f32) -> Vec<f64> {
    let settings = Settings {
        room: false,
        ..Settings::default()
    };
    mono(
        &single(MIDDLE, seconds * SECOND, strength),
        sound,
        &settings,
    )
}

/// Seconds in which the fundamental of middle C falls by 60 dB, by its second second.
fn decay(sound: &Sound) -> String {
    let samples = note(sound, 3, 0.6);
    let lost = partial(&samples, 0.5, MIDDLE_HERTZ) - partial(&samples, 1.5, MIDDLE_HERTZ);
    // The players of a section swell and fade a little.
    if lost < 3.0 {
        "held".to_owned()
    } else {
        format!("{:.1}", 60.0 / lost)
    }
}

/// Cents by which the fourth partial of middle C lies above four times its fundamental;
/// nothing where there is hardly any.
fn stretch(sound: &Sound) -> String {
    let samples = note(sound, 2, 0.6);
    let steady = &samples[2880..2880 + 24_000];
    let level = |hertz| partial(&samples, 0.06, hertz);
    if level(4.0 * MIDDLE_HERTZ) < level(MIDDLE_HERTZ) - 60.0 {
        return "–".to_owned();
    }
    let found = frequency(steady, RATE, 4.0 * MIDDLE_HERTZ);
    // No minus before a nought.
    format!("{:.1}", cents(found, 4.0 * MIDDLE_HERTZ).abs())
}

fn row(sound: &Sound) -> String {
    let bright = |strength| (centroid(&note(sound, 1, strength), 0.0) / 10.0).round() * 10.0;
    let tuning = worst(sound, 48_000, 440.0).0.abs();
    let heard = render(&phrase(), sound, &Settings::default());
    let level = loudness(&heard.interleaved, heard.rate).expect("it is not silent");
    let peak = 20.0 * f64::from(true_peak(&heard.interleaved)).log10();
    format!(
        "| `{}` | {} to {} | {} | {} | {} to {} | {tuning:.2} | {level:.1} | {peak:.1} |",
        sound.id,
        sound.range.0,
        sound.range.1,
        decay(sound),
        stretch(sound),
        bright(0.3),
        bright(0.9),
    )
}

fn table() -> String {
    let mut table =
        "| id | range | decay, s | fourth partial, cents | brightness, Hz | tuning, cents \
                     | loudness, LUFS | peak, dBTP |\n|---|---|---|---|---|---|---|---|\n"
            .to_owned();
    for sound in built_in() {
        writeln!(table, "{}", row(sound)).expect("text can be written to");
    }
    table
}

#[test]
fn the_table_of_sounds_is_measured() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/sounds.md");
    let sounds = fs::read_to_string(&path).expect("it is there");
    let (before, rest) = sounds.split_once(BEGIN).expect("the table begins");
    let (listed, after) = rest.split_once(END).expect("the table ends");
    let table = table();
    if std::env::var_os("PLAGAL_BLESS").is_some() {
        fs::write(path, format!("{before}{BEGIN}{table}{END}{after}")).expect("it can be written");
        return;
    }
    assert_eq!(
        listed, table,
        "renew it with PLAGAL_BLESS=1 cargo test --test sound table"
    );
}
