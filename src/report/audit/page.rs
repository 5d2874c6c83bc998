//! An audit as lines of text.

use super::Audit;
use super::case::{Case, Cases};

/// The most cases of one sort, exercises and features that are listed; JSON has them all.
const CASES: usize = 20;
const ROWS: usize = 8;

impl Audit {
    /// The audit as lines of text.
    #[must_use]
    pub fn page(&self) -> Vec<String> {
        let mut page = vec![format!("{} questions, seed {}", self.questions, self.seed)];
        self.refusals(&mut page);
        self.truth_lines(&mut page);
        self.fairness_lines(&mut page);
        self.leak_lines(&mut page);
        self.offer_lines(&mut page);
        self.variety_lines(&mut page);
        self.leading_lines(&mut page);
        self.coverage_lines(&mut page);
        page.push(String::new());
        let faults = self.faults();
        if faults.is_empty() {
            page.push("nothing falls short".to_owned());
        } else {
            page.push("falls short:".to_owned());
            page.extend(faults.into_iter().map(|fault| format!("  {fault}")));
        }
        page
    }

    fn refusals(&self, page: &mut Vec<String>) {
        if self.refused.count() > 0 {
            page.push(format!("not made       {}", self.refused.count()));
            list(&self.refused, page);
        }
    }

    fn truth_lines(&self, page: &mut Vec<String>) {
        let truth = &self.truth;
        page.push(format!(
            "truth          {} of questions, {} of chords, {} with all devices read alike",
            percent(truth.agreement),
            percent(truth.chords),
            percent(truth.all_devices),
        ));
        list(&truth.disagreements, page);
    }

    fn fairness_lines(&self, page: &mut Vec<String>) {
        let fairness = &self.fairness;
        page.push(format!(
            "fairness       {} faults in {} asks with {} answers on offer",
            fairness.faults, fairness.asks, fairness.offers
        ));
        for (sort, count) in &fairness.sorts {
            page.push(format!("  {count}: {}", sort.words()));
        }
        list(&fairness.cases, page);
    }

    fn leak_lines(&self, page: &mut Vec<String>) {
        let leaks = &self.leaks;
        page.push(format!(
            "leaks          guessed without harmony {} ({} to {}), by chance {}",
            percent(leaks.guess_rate),
            percent(leaks.low),
            percent(leaks.high),
            percent(leaks.base_rate),
        ));
        page.push(format!(
            "  {} within the exercise alone, by chance {}",
            percent(leaks.exercise_guess_rate),
            percent(leaks.exercise_base_rate),
        ));
        page.push(format!(
            "  {} by what is seen, {} by what is heard",
            percent(leaks.seen_rate),
            percent(leaks.heard_rate)
        ));
        for feature in leaks.features.iter().take(ROWS) {
            page.push(format!(
                "  {} by {}",
                percent(feature.guess_rate),
                feature.name
            ));
        }
        for exercise in leaks.exercises.iter().take(ROWS) {
            let by = exercise.features.first().map_or("nothing", |one| one.name);
            page.push(format!(
                "  {} in {}, by chance {}, most of it by {by}",
                percent(exercise.guess_rate),
                exercise.id,
                percent(exercise.base_rate)
            ));
        }
    }

    fn offer_lines(&self, page: &mut Vec<String>) {
        let offers = &self.offers;
        page.push(format!(
            "offers         guessed by remembered names {} ({} to {}), by chance {}",
            percent(offers.guess_rate),
            percent(offers.low),
            percent(offers.high),
            percent(offers.chance_rate),
        ));
        for kind in &offers.kinds {
            page.push(format!(
                "  {} in questions of kind {}, by chance {}",
                percent(kind.guess_rate),
                kind.kind,
                percent(kind.chance_rate)
            ));
        }
        for exercise in offers.exercises.iter().take(ROWS) {
            page.push(format!(
                "  {} in {}, by chance {}, by the commonest answer {}; {} of offers never right",
                percent(exercise.guess_rate),
                exercise.id,
                percent(exercise.chance_rate),
                percent(exercise.commonest),
                percent(exercise.never_right)
            ));
        }
        for name in offers.never_right.iter().take(ROWS) {
            page.push(format!(
                "  {} on offer {} times in {}, never right",
                name.name, name.offered, name.exercise
            ));
        }
    }

    fn variety_lines(&self, page: &mut Vec<String>) {
        let variety = &self.variety;
        page.push(format!(
            "variety        fewest different lines in {} draws: {}",
            variety.draws, variety.least_distinct
        ));
        let mut rows: Vec<_> = variety.devices.iter().collect();
        rows.sort_by_key(|row| row.distinct);
        for row in rows.into_iter().take(ROWS) {
            page.push(format!(
                "  {} lines, {} successions: {} in {} ({} keys, {} lengths, {} places)",
                row.distinct,
                row.successions,
                row.id,
                row.exercise,
                row.keys,
                row.lengths,
                row.places
            ));
        }
    }

    fn leading_lines(&self, page: &mut Vec<String>) {
        let leading = &self.voice_leading;
        page.push(format!(
            "voice leading  {} changes: {} outer fifths, {} outer octaves, {} out of register, \
             {} intervals too low",
            leading.changes,
            leading.outer_fifths,
            leading.outer_octaves,
            leading.range_faults,
            leading.low_intervals
        ));
        page.push(format!(
            "  left open: {} leading tones, {} sevenths; largest leap {}, mean motion {:.2}, of \
             the bass {:.2} semitones",
            leading.unresolved_leading_tones,
            leading.unresolved_sevenths,
            leading.largest_leap,
            leading.mean_motion,
            leading.mean_bass_motion
        ));
        let applied = leading.applied;
        page.push(format!(
            "  {} applied dominants that resolve; their leading tones: {} up, {} held, {} down a \
             semitone, {} left open",
            applied.resolving, applied.up, applied.held, applied.down, applied.unresolved
        ));
        list(&leading.cases, page);
    }

    fn coverage_lines(&self, page: &mut Vec<String>) {
        let coverage = &self.coverage;
        page.push(format!(
            "coverage       {} devices asked, {} missing, {} in no exercise",
            coverage.asked,
            coverage.missing.len(),
            coverage.in_no_exercise.len()
        ));
        let mut rows: Vec<_> = coverage.devices.iter().collect();
        rows.sort_by_key(|row| row.contexts);
        for row in rows.into_iter().take(ROWS) {
            page.push(format!(
                "  {} contexts: {}, asked {} times in {} exercises",
                row.contexts, row.id, row.asked, row.exercises
            ));
        }
    }
}

fn percent(share: f64) -> String {
    format!("{:.2} %", 100.0 * share)
}

fn list(cases: &Cases, page: &mut Vec<String>) {
    page.extend(cases.kept().iter().take(CASES).flat_map(lines));
    let more = cases.count() as usize - cases.kept().len().min(CASES);
    if more > 0 {
        page.push(format!("  and {more} more"));
    }
}

fn lines(case: &Case) -> [String; 2] {
    let slot = case
        .slot
        .map_or_else(String::new, |slot| format!(" chord {}", slot + 1));
    let head = format!(
        "  {} {}, {}{slot}: {}",
        case.exercise,
        case.index + 1,
        case.device,
        case.what
    );
    [head, format!("    {}", case.line)]
}
