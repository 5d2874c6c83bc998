//! The sounds that come with the program.

use std::sync::LazyLock;

use super::sound::Sound;

/// The sound files, in the order in which they are offered.
const FILES: [&str; 3] = [
    include_str!("../../sounds/electric-piano.json"),
    include_str!("../../sounds/nylon-guitar.json"),
    include_str!("../../sounds/organ.json"),
];

static SOUNDS: LazyLock<Vec<Sound>> = LazyLock::new(|| {
    FILES
        .iter()
        .map(|text| Sound::read(text).expect("the built-in sounds are tested"))
        .collect()
});

/// All built-in sounds.
#[must_use]
pub fn built_in() -> &'static [Sound] {
    &SOUNDS
}

/// The built-in sound of that id.
#[must_use]
pub fn find(id: &str) -> Option<&'static Sound> {
    built_in().iter().find(|sound| sound.id == id)
}
