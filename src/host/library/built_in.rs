//! The exercise files built into the program.

/// Pairs each file name with the text of the file in `exercises/`.
macro_rules! files {
    ($($name:literal),* $(,)?) => {
        &[$(($name, include_str!(concat!("../../../exercises/", $name)))),*]
    };
}

/// Name and text of each exercise file, as `exercises/` holds them.
pub const EXERCISES: &[(&str, &str)] = files![
    "away-from-home.json",
    "borrowed-dominants-further.json",
    "borrowed-dominants-nearby.json",
    "diminished-steps.json",
    "first-cadences.json",
    "mixed-colours.json",
    "roads-to-the-dominant.json",
    "shadows-of-minor.json",
    "side-doors.json",
];
