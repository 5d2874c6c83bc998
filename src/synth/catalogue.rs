//! The sounds that come with the program.

use std::sync::LazyLock;

use super::sound::{Kit, Sound};

/// The sound files, in the order in which they are offered.
const FILES: [&str; 8] = [
    include_str!("../../sounds/electric-piano.json"),
    include_str!("../../sounds/piano.json"),
    include_str!("../../sounds/nylon-guitar.json"),
    include_str!("../../sounds/archtop-guitar.json"),
    include_str!("../../sounds/vibraphone.json"),
    include_str!("../../sounds/organ.json"),
    include_str!("../../sounds/strings.json"),
    include_str!("../../sounds/upright-bass.json"),
];

static KIT: LazyLock<Kit> = LazyLock::new(|| {
    Kit::read(include_str!("../../sounds/kits/brushes.json")).expect("the built-in kit is tested")
});

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

/// The bass of a rhythm section.
pub(super) fn double_bass() -> &'static Sound {
    find("upright-bass").expect("it is built in")
}

/// The built-in rhythm section: ride, hi-hat and brushes.
#[must_use]
pub fn kit() -> &'static Kit {
    &KIT
}
