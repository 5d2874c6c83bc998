//! Every policy in every world, with the same learners.

use super::chance::Chance;
use super::course::Course;
use super::figures::{Cell, Forecast, Interval, median};
use super::learner::Learner;
use super::policy::{Chooser, Policy};
use super::syllabus::{ANSWERS, DEVICES};
use super::verdicts::Verdicts;
use super::world::World;
use crate::journal::{Difficulty, FORMAT, KeySetting, ScoredEntry, ScoredSlot};
use crate::scorer::Scorer;

/// What to simulate.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Learners in each world.
    pub learners: u32,
    /// The seed of everything that is drawn.
    pub seed: u64,
    /// The drill after which the delayed test comes, in questions.
    pub drill: u32,
    /// The question after which it is looked at what the learner is told.
    pub verdicts: u32,
    /// The question at which a learner who has not mastered enough gives up.
    pub patience: u32,
    /// The worlds they learn in.
    pub worlds: Vec<World>,
    /// What chooses their questions, one after the other.
    pub policies: Vec<Policy>,
}

impl Default for Plan {
    fn default() -> Self {
        Self {
            learners: 300,
            seed: 1,
            drill: 600,
            verdicts: 400,
            patience: 2400,
            worlds: World::ALL.to_vec(),
            policies: Policy::ALL.to_vec(),
        }
    }
}

/// One world's figures.
#[derive(Clone, Debug, PartialEq)]
pub struct WorldResult {
    /// The world.
    pub world: World,
    /// What each policy reached in it.
    pub cells: Vec<Cell>,
}

const DAY: u64 = 86_400_000;
const QUESTIONS_A_DAY: u32 = 30;
const MASTERED: f64 = 0.85;
const DELAY_DAYS: f64 = 30.0;

/// One learner's way under one policy.
struct Outcome {
    delayed: f64,
    weakest_quarter: f64,
    to_mastery: Option<u32>,
    /// The true chances of the drill's questions, added up.
    success: f64,
    forecast: Forecast,
    squared_error: f64,
    verdicts: Verdicts,
}

/// Runs the plan; `done` hears of every world as it is finished.
pub fn simulate(plan: &Plan, mut done: impl FnMut(&WorldResult)) -> Vec<WorldResult> {
    let course = Course::new();
    plan.worlds
        .iter()
        .map(|world| {
            let result = WorldResult {
                world: *world,
                cells: cells(plan, &course, *world),
            };
            done(&result);
            result
        })
        .collect()
}

fn cells(plan: &Plan, course: &Course, world: World) -> Vec<Cell> {
    let bag: Vec<f64> = outcomes(plan, course, world, Policy::Bag)
        .iter()
        .map(|outcome| outcome.delayed)
        .collect();
    plan.policies
        .iter()
        .map(|policy| cell(plan, *policy, &outcomes(plan, course, world, *policy), &bag))
        .collect()
}

/// All learners, spread over the machine's cores.
fn outcomes(plan: &Plan, course: &Course, world: World, policy: Policy) -> Vec<Outcome> {
    let seeds: Vec<u64> = (0..u64::from(plan.learners))
        .map(|number| plan.seed.wrapping_mul(1_000_003).wrapping_add(number))
        .collect();
    let cores = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    let part = seeds.len().div_ceil(cores).max(1);
    std::thread::scope(|scope| {
        let workers: Vec<_> = seeds
            .chunks(part)
            .map(|seeds| {
                scope.spawn(move || {
                    seeds
                        .iter()
                        .map(|seed| one(plan, course, world, policy, *seed))
                        .collect::<Vec<_>>()
                })
            })
            .collect();
        workers
            .into_iter()
            .flat_map(|worker| worker.join().expect("a simulated learner never fails"))
            .collect()
    })
}

fn one(plan: &Plan, course: &Course, world: World, policy: Policy, seed: u64) -> Outcome {
    let devices = course.devices();
    let mut scorer = course.scorer();
    let mut learner = Learner::new(world, course.average, seed);
    let mut chooser = Chooser::new(policy, course, seed);
    let mut exemplars = Chance::new(seed, 4);
    let mut outcome = Outcome {
        delayed: 0.0,
        weakest_quarter: 0.0,
        to_mastery: None,
        success: 0.0,
        forecast: Forecast::default(),
        squared_error: 0.0,
        verdicts: Verdicts::default(),
    };
    for question in 0..plan.patience.max(plan.drill + 1) {
        if question == plan.verdicts {
            outcome.verdicts = Verdicts::of(&learner, &scorer, course, now(question));
        }
        if question == plan.drill {
            outcome.delayed = learner.delayed(DELAY_DAYS);
            outcome.weakest_quarter = weakest_quarter(&learner);
            outcome.squared_error = squared_error(&learner, &scorer, course, now(question));
        }
        if question >= plan.drill && outcome.to_mastery.is_some() {
            break;
        }
        if question > 0 && question.is_multiple_of(QUESTIONS_A_DAY) {
            learner.sleep();
        }
        let now = now(question);
        let wanted = chooser.next(&scorer, now);
        let device = wanted.device;
        let mut entry = entry(devices[device].as_str(), now);
        entry.difficulty = course.exemplar(&wanted.aim, &mut exemplars);
        let predicted = scorer.predict(&entry).first().copied().flatten();
        let reply = learner.answer(device, entry.difficulty);
        chooser.count(device, reply.right);
        if question < plan.drill {
            outcome.success += reply.chance;
        }
        outcome
            .forecast
            .add(predicted.expect("the device is known"), reply.right);
        entry.slots[0].credit = f64::from(u8::from(reply.right));
        entry.slots[0].heard_as = reply.heard_as.map(|other| devices[other].as_str().into());
        scorer.fold_scored(&entry);
        if outcome.to_mastery.is_none() && has_mastered(&learner) {
            outcome.to_mastery = Some(question + 1);
        }
    }
    outcome
}

/// When a question comes, in milliseconds since 1970: so many a day, half a minute apart.
fn now(question: u32) -> u64 {
    let day = u64::from(question / QUESTIONS_A_DAY);
    (20_000 + day) * DAY + u64::from(question % QUESTIONS_A_DAY) * 30_000
}

pub(super) fn entry(device: &str, time: u64) -> ScoredEntry<'_> {
    ScoredEntry {
        version: FORMAT,
        time,
        learner: "simulated".into(),
        key_setting: KeySetting::Cadence,
        answers: ANSWERS,
        difficulty: Difficulty::default(),
        explained: 0,
        slots: vec![ScoredSlot {
            devices: vec![device.into()].into(),
            credit: 0.0,
            heard_as: None,
            ..ScoredSlot::default()
        }]
        .into(),
    }
}

fn has_mastered(learner: &Learner) -> bool {
    let mastered = (0..DEVICES)
        .filter(|device| learner.success(*device) >= MASTERED)
        .count();
    mastered * 5 >= DEVICES * 4
}

#[allow(clippy::cast_precision_loss)]
fn weakest_quarter(learner: &Learner) -> f64 {
    let mut successes: Vec<f64> = (0..DEVICES).map(|device| learner.success(device)).collect();
    successes.sort_by(f64::total_cmp);
    successes[..DEVICES / 4].iter().sum::<f64>() / (DEVICES / 4) as f64
}

/// Of the estimates, for the average exemplar and the number of answers on offer here.
#[allow(clippy::cast_precision_loss)]
fn squared_error(learner: &Learner, scorer: &Scorer, course: &Course, now: u64) -> f64 {
    let devices = course.devices().iter().enumerate();
    let sum: f64 = devices
        .map(|(device, id)| {
            let mut entry = entry(id.as_str(), now);
            entry.difficulty = course.average;
            let predicted = scorer.predict(&entry)[0].expect("the device is known");
            let away = predicted - learner.success(device);
            away * away
        })
        .sum();
    sum / DEVICES as f64
}

#[allow(clippy::cast_precision_loss)]
fn cell(plan: &Plan, policy: Policy, outcomes: &[Outcome], bag: &[f64]) -> Cell {
    let delayed: Vec<f64> = outcomes.iter().map(|outcome| outcome.delayed).collect();
    let paired: Vec<f64> = delayed
        .iter()
        .zip(bag)
        .map(|(own, bag)| own - bag)
        .collect();
    let weakest: Vec<f64> = outcomes
        .iter()
        .map(|outcome| outcome.weakest_quarter)
        .collect();
    let mut forecast = Forecast::default();
    let mut verdicts = Verdicts::default();
    for outcome in outcomes {
        verdicts.join(&outcome.verdicts);
        forecast.join(&outcome.forecast);
    }
    // Who never got there counts as later than everyone who did.
    let mut mastery: Vec<f64> = outcomes
        .iter()
        .map(|outcome| f64::from(outcome.to_mastery.unwrap_or(plan.patience)))
        .collect();
    let (to_mastery, to_mastery_low, to_mastery_high) = median(&mut mastery);
    let count = outcomes.len() as f64;
    let censored = outcomes
        .iter()
        .filter(|outcome| outcome.to_mastery.is_none())
        .count();
    let squared: f64 = outcomes.iter().map(|outcome| outcome.squared_error).sum();
    let success: f64 = outcomes.iter().map(|outcome| outcome.success).sum();
    Cell {
        policy,
        success: success / (count * f64::from(plan.drill)),
        delayed: Interval::of(&delayed),
        against_bag: Interval::of(&paired),
        weakest_quarter: Interval::of(&weakest),
        to_mastery,
        to_mastery_low,
        to_mastery_high,
        censored: censored as f64 / count,
        log_loss: forecast.log_loss(),
        brier: forecast.brier(),
        calibration: forecast.calibration(),
        error: libm::sqrt(squared / count),
        verdicts,
    }
}
