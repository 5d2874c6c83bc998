//! A rhythm section: walking bass, comping, brushes; in plain and in double time, and with
//! an improvised line above.

use super::part::{Groove, Segment, brush, comp, improvise, segments, walk};
use super::{Card, Manner, Scene, Touch};

pub(super) const PLAIN: Card = Card {
    id: "band",
    title: "Band",
    about: "Walking bass, comping and brushes.",
    difficulty: 0.6,
    fair: true,
    tempos: (66, 300),
    bassist: true,
    manner: Manner::Full,
    lay: plain,
};

pub(super) const DOUBLE_TIME: Card = Card {
    id: "band-double-time",
    title: "Band in double time",
    about: "The band counts two beats for each of a slow tune.",
    difficulty: 0.7,
    fair: true,
    tempos: (30, 96),
    bassist: true,
    manner: Manner::Full,
    lay: double_time,
};

pub(super) const WITH_MELODY: Card = Card {
    id: "band-with-melody",
    title: "Band with a melody",
    about: "The band and an improvised line with notes foreign to the chords.",
    difficulty: 0.85,
    fair: true,
    tempos: (66, 240),
    bassist: true,
    manner: Manner::Full,
    lay: with_melody,
};

/// How much softer the comping is under a melody.
const UNDER: f32 = 0.92;

fn plain(scene: &Scene, touch: &mut Touch) {
    let groove = Groove::swung(scene.setting.meter, scene.tempo);
    rhythm_section(scene, groove, (scene.tempo, 1.0), touch);
}

fn double_time(scene: &Scene, touch: &mut Touch) {
    let groove = Groove::doubled(scene.setting.meter, scene.tempo);
    rhythm_section(scene, groove, (2.0 * scene.tempo, 1.0), touch);
}

fn with_melody(scene: &Scene, touch: &mut Touch) {
    let groove = Groove::swung(scene.setting.meter, scene.tempo);
    let segments = rhythm_section(scene, groove, (scene.tempo, UNDER), touch);
    let voices = scene.setting.voicings.iter();
    let fullest = voices.map(|voicing| voicing.upper.len()).max().unwrap_or(0);
    improvise(&segments, groove, fullest as u8, touch);
}

/// At so many beats a minute, the comping by so much stronger.
fn rhythm_section<'a>(
    scene: &'a Scene,
    groove: Groove,
    (tempo, accent): (f32, f32),
    touch: &mut Touch,
) -> Vec<Segment<'a>> {
    let segments = segments(scene.setting, groove);
    walk(&segments, groove, touch);
    comp(&segments, groove, accent, touch);
    brush(scene.setting.length(), groove, tempo, touch);
    segments
}
