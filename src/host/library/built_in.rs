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
    "open-ends.json",
    "roads-to-the-dominant.json",
    "where-is-home.json",
    "the-bass-moves.json",
    "the-bass-by-degrees.json",
    "out-of-the-key.json",
    "borrowed-dominants-nearby.json",
    "borrowed-dominants-further.json",
    "away-from-home.json",
    "dominants-in-company.json",
    "shadows-of-minor.json",
    "shades-of-four.json",
    "the-voice-that-tells.json",
    "side-doors.json",
    "borrowed-colours.json",
    "big-steps.json",
    "diminished-steps.json",
    "diminished-ornaments.json",
    "easily-confused.json",
    "half-step-dominants.json",
    "three-at-a-time.json",
    "home-in-minor.json",
    "sixths-that-spread.json",
    "lines-that-sink.json",
    "journeys-in-minor.json",
    "sevenths-at-rest.json",
    "twelve-bars.json",
    "new-keys.json",
    "mixed-colours.json",
];
