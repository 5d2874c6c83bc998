//! `plagal audit`: makes many questions and looks for faults in them.

use clap::Args;

use super::context::{Context, print};
use super::failure::Failure;
use super::options::whole;
use super::practising::exercise;
use super::shelves;
use crate::devices::Catalogue;
use crate::exercise::{Exercise, Known};
use crate::host::library::{BadFile, EXERCISES, Reason};
use crate::quiz::Drill;
use crate::report::{Plan, audit};

/// Make many questions and look for faults in them
///
/// Questions are made as a drill makes them, of every exercise in turn. Reported are: truth,
/// whether the analyser reads from the printed symbols alone what the question holds true;
/// fairness of what is accepted and of what is on offer; leaks, how often a naive Bayes
/// classifier guesses the device from everything but the harmony, tried on questions that it
/// did not learn from; offers, what a pupil gains who only remembers which of the names on
/// offer turned out right; variety of lines; voice leading; coverage. The exit code is 1 if
/// anything falls short.
#[derive(Debug, Args)]
#[command(after_long_help = JSON)]
pub(super) struct AuditArguments {
    /// Exercises by id or file; without any, all that come with the program
    exercises: Vec<String>,
    /// How many questions, over all exercises
    #[arg(long, value_name = "N", default_value_t = 1000, allow_negative_numbers = true, value_parser = whole(1..=10_000_000_u32))]
    count: u32,
    /// The seed of the drills
    #[arg(long, value_name = "N", default_value_t = 1, allow_negative_numbers = true, value_parser = whole(0..=u64::MAX))]
    seed: u64,
}

const JSON: &str = "\
With --json one object:
  questions, seed
  refused        questions that could not be made
  truth          agreement (questions), chords, all_devices: shares, 0 to 1; count, disagreements
  fairness       faults, sorts (how many of each), asks, offers, cases
  leaks          guesses, base_rate (by exercise, mode and end of the line), guess_rate with its
                 95 % interval low to high, seen_rate (by the chart), heard_rate;
                 exercise_base_rate and exercise_guess_rate (within the exercise alone);
                 features, exercises
  offers         guesses, chance_rate (1 in as many as are on offer), guess_rate (by which names
                 were right before) with its interval low to high; kinds, exercises,
                 never_right (names on offer at least 30 times)
  variety        draws, least_distinct with its device and exercise, devices
  voice_leading  changes, outer_parallels (outer_fifths, outer_octaves), range_faults,
                 low_intervals, unresolved_leading_tones, unresolved_sevenths, applied,
                 largest_leap, mean_motion and mean_bass_motion in semitones, cases
  coverage       asked, missing, in_no_exercise, devices
A case has exercise, index, device, line, slot and what; `plagal question EXERCISE --seed N
--count INDEX+1` shows its question again. The first 1,000 of each list are told, all counted.";

impl AuditArguments {
    pub(super) fn run(&self, context: &Context) -> Result<(), Failure> {
        let catalogue = shelves::catalogue(&shelves::devices(context))?;
        let drills = self.drills(&catalogue, context)?;
        let found = audit(&Plan {
            catalogue: &catalogue,
            drills: &drills,
            questions: self.count,
            seed: self.seed,
        });
        if context.json {
            context.print_json(&found)?;
        } else {
            let page = found.page();
            let lines = page.iter().map(|line| context.style.safe(line) + "\n");
            print(&lines.collect::<String>())?;
        }
        if found.faults().is_empty() {
            Ok(())
        } else {
            Err(Failure::Found)
        }
    }

    fn drills(&self, catalogue: &Catalogue, context: &Context) -> Result<Vec<Drill>, Failure> {
        if !self.exercises.is_empty() {
            let named = self.exercises.iter();
            return named
                .map(|named| Ok(exercise(named, catalogue, context)?.drill(context.bare_six)))
                .collect();
        }
        shelves::with_known(catalogue, context, |known| {
            let exercises = EXERCISES.iter().map(|file| built_in(file, known));
            exercises
                .map(|exercise| Ok(exercise?.drill(context.bare_six)))
                .collect()
        })
    }
}

fn built_in((name, text): &(&str, &str), known: Known<'_>) -> Result<Exercise, Failure> {
    Exercise::read(text, known).map_err(|faults| {
        Failure::BadFiles(vec![BadFile {
            name: format!("{name} (built in)"),
            reason: Reason::Faulty(faults),
        }])
    })
}
