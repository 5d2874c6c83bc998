//! How many different lines a device comes in.

use std::collections::{BTreeMap, BTreeSet, HashSet};
use std::hash::{DefaultHasher, Hash, Hasher};

use serde::Serialize;

use super::case::Subject;
use super::plan::Plan;
use crate::devices::DeviceId;
use crate::quiz::{Drill, Question, question_seed};
use crate::theory::{Key, Numeral, Ticks};

/// The draws in which different lines are counted, and how many of them there should be.
const DRAWS: u32 = 1000;
const LEAST: u32 = 200;

/// A draw more than these many questions of the audit is not worth its time.
const QUESTIONS_A_DRAW: u32 = 30;

/// How various the lines are.
#[derive(Clone, Debug, Serialize)]
pub struct Variety {
    /// Draws of each device in each exercise; whether they are enough is judged at 1,000.
    pub draws: u32,
    /// The fewest different lines of one device in one exercise, transposition aside.
    pub least_distinct: u32,
    pub device: Option<DeviceId>,
    pub exercise: Option<String>,
    /// Every device, in the exercise where it has the fewest lines.
    pub devices: Vec<DeviceVariety>,
}

/// How various the lines of one device are.
#[derive(Clone, Debug, Serialize)]
pub struct DeviceVariety {
    pub id: DeviceId,
    /// Where it has the fewest lines.
    pub exercise: String,
    /// Different lines among the draws: other numerals or another rhythm.
    pub distinct: u32,
    /// Different successions of chords, whatever their rhythm.
    pub successions: u32,
    /// Over all questions of the audit: keys, lengths in bars and places of the device.
    pub keys: usize,
    pub lengths: usize,
    pub places: usize,
}

impl Variety {
    pub(super) fn fault(&self) -> Option<String> {
        let few: Vec<&DeviceVariety> = self
            .devices
            .iter()
            .filter(|row| row.distinct < LEAST)
            .collect();
        (self.draws >= DRAWS && !few.is_empty()).then(|| {
            format!(
                "{} devices have fewer than {LEAST} different lines in {DRAWS} draws, the \
                 fewest {}",
                few.len(),
                self.least_distinct
            )
        })
    }
}

#[derive(Default)]
struct SeenLines {
    keys: BTreeSet<Key>,
    lengths: BTreeSet<u32>,
    places: BTreeSet<usize>,
}

impl SeenLines {
    fn add(&mut self, key: Key, bars: u32, place: usize) {
        self.keys.insert(key);
        self.lengths.insert(bars);
        self.places.insert(place);
    }
}

pub(super) struct VarietyExaminer {
    draws: u32,
    seen: BTreeMap<DeviceId, SeenLines>,
}

impl VarietyExaminer {
    pub(super) fn new(plan: &Plan<'_>) -> Self {
        Self {
            draws: (plan.questions / QUESTIONS_A_DRAW).clamp(1, DRAWS),
            seen: BTreeMap::new(),
        }
    }

    pub(super) fn examine(&mut self, subject: &Subject<'_>) {
        let progression = &subject.question.progression;
        let seen = self
            .seen
            .entry(subject.question.wanted.clone())
            .or_default();
        seen.add(progression.key, progression.line.bars(), subject.focus());
    }

    pub(super) fn finish(self, plan: &Plan<'_>) -> Variety {
        let mut rows: BTreeMap<&DeviceId, DeviceVariety> = BTreeMap::new();
        for drill in plan.drills {
            for device in &drill.devices {
                let (distinct, successions) = distinct(plan, drill, device, self.draws);
                let seen = self.seen.get(device);
                let count = |part: fn(&SeenLines) -> usize| seen.map_or(0, part);
                let row = DeviceVariety {
                    id: device.clone(),
                    exercise: drill.exercise.clone(),
                    distinct,
                    successions,
                    keys: count(|seen| seen.keys.len()),
                    lengths: count(|seen| seen.lengths.len()),
                    places: count(|seen| seen.places.len()),
                };
                let known = rows.get(device).map(|row| row.distinct);
                if known.is_none_or(|known| distinct < known) {
                    rows.insert(device, row);
                }
            }
        }
        let devices: Vec<DeviceVariety> = rows.into_values().collect();
        let least = devices.iter().min_by_key(|row| row.distinct);
        Variety {
            draws: self.draws,
            least_distinct: least.map_or(0, |row| row.distinct),
            device: least.map(|row| row.id.clone()),
            exercise: least.map(|row| row.exercise.clone()),
            devices,
        }
    }
}

/// How many different lines, and successions of chords, a device has in so many draws.
fn distinct(plan: &Plan<'_>, drill: &Drill, device: &DeviceId, draws: u32) -> (u32, u32) {
    let mut lines = HashSet::new();
    let mut successions = HashSet::new();
    for draw in 0..draws {
        let seed = question_seed(plan.seed ^ VARIETY, draw);
        let Ok(question) = Question::new(drill, plan.catalogue, device, seed) else {
            continue;
        };
        lines.insert(mark_of(&question, true));
        successions.insert(mark_of(&question, false));
    }
    let count = |set: &HashSet<u64>| u32::try_from(set.len()).expect("draws are few");
    (count(&lines), count(&successions))
}

/// Sets the seeds of these draws apart from those of the questions.
const VARIETY: u64 = 0x7661_7269_6574_7900;

/// A number that lines which differ in more than key do not share.
fn mark_of(question: &Question, with_rhythm: bool) -> u64 {
    let line = &question.progression.line;
    let chords: Vec<(&Numeral, Option<Ticks>)> = line
        .slots()
        .iter()
        .map(|slot| (&slot.numeral, with_rhythm.then_some(slot.length)))
        .collect();
    let mut hasher = DefaultHasher::new();
    question.key().mode().hash(&mut hasher);
    chords.hash(&mut hasher);
    hasher.finish()
}
