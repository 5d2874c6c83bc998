//! The exercise files built into the program.

/// Pairs each file name with the text of the file in `exercises/`.
macro_rules! files {
    ($($name:literal),* $(,)?) => {
        &[$(($name, include_str!(concat!("../../../exercises/", $name)))),*]
    };
}

/// Name and text of each exercise file, in the order in which they are best taken.
pub const EXERCISES: &[(&str, &str)] = files![
    "first-cadences.json",
    "roads-to-the-dominant.json",
    "borrowed-dominants-nearby.json",
    "out-of-the-key.json",
    "borrowed-dominants-further.json",
    "shadows-of-minor.json",
    "side-doors.json",
    "diminished-steps.json",
    "easily-confused.json",
    "away-from-home.json",
    "where-is-home.json",
    "mixed-colours.json",
];
