//! The built-in exercises, read as the program reads them.

use plagal::devices::Catalogue;
use plagal::exercise::{Exercise, Known};
use plagal::host::library::EXERCISES;
use plagal::synth;

/// All of them, in the order in which they are best taken.
pub(crate) fn exercises(catalogue: &Catalogue) -> Vec<Exercise> {
    let sounds: Vec<&str> = synth::built_in()
        .iter()
        .map(|sound| sound.id.as_str())
        .collect();
    let known = Known {
        catalogue,
        sounds: &sounds,
    };
    let read = |(name, text): &(&str, &str)| {
        Exercise::read(text, known).unwrap_or_else(|faults| {
            let all: Vec<String> = faults.iter().map(|f| format!("{}: {f}", f.place)).collect();
            panic!("{name}: {}", all.join("\n"))
        })
    };
    EXERCISES.iter().map(read).collect()
}
