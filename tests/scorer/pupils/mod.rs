//! Scripted pupils at the real practice: who does not hear a device is never told so.
//!
//! `PLAGAL_PUPILS=200 cargo test --release --test scorer pupils -- --nocapture` asks each of
//! them so many questions of every exercise and prints what they are told.

mod desk;
mod pupil;

use plagal::devices::Catalogue;
use plagal::scorer::Word;

use desk::{Verdict, exercises, taught};
use pupil::Pupil;

/// Questions that each pupil is asked in each exercise.
fn questions() -> u32 {
    let asked = std::env::var("PLAGAL_PUPILS").ok();
    asked.map_or(60, |count| count.parse().expect("a number of questions"))
}

/// What some pupils were told of the devices that they do not hear.
#[derive(Default)]
struct Told {
    devices: u32,
    secure: Vec<String>,
    rising: Vec<String>,
}

impl Told {
    fn count(&mut self, exercise: &str, verdict: &Verdict) {
        self.devices += 1;
        let what = format!("{exercise}: {verdict:?}");
        if matches!(verdict.word, Word::Secure | Word::Resting) {
            self.secure.push(what.clone());
        }
        if verdict.direction > 0 {
            self.rising.push(what);
        }
    }
}

/// What the pupils are told in every exercise, of the devices that `unheard` picks.
fn told(pupil: Pupil, unheard: impl Fn(&Verdict) -> bool) -> Told {
    let catalogue = Catalogue::built_in();
    let mut told = Told::default();
    for exercise in exercises(&catalogue) {
        for verdict in taught(&exercise, pupil, questions()) {
            if unheard(&verdict) {
                told.count(&exercise.id, &verdict);
            }
        }
    }
    println!(
        "{pupil:?}: {} devices not heard, {} called secure, {} rising",
        told.devices,
        told.secure.len(),
        told.rising.len()
    );
    for one in told.secure.iter().chain(&told.rising) {
        println!("  {one}");
    }
    told
}

fn is_never_praised(pupil: Pupil, unheard: impl Fn(&Verdict) -> bool) {
    let told = told(pupil, unheard);
    assert!(told.devices > 0);
    assert!(told.secure.is_empty(), "{pupil:?}: {:?}", told.secure);
    assert!(told.rising.is_empty(), "{pupil:?}: {:?}", told.rising);
}

#[test]
fn one_answer_to_everything_is_no_hearing() {
    is_never_praised(Pupil::Fixed { device: 0 }, |_| true);
    is_never_praised(Pupil::Fixed { device: 1 }, |_| true);
}

#[test]
fn the_commonest_answer_is_no_hearing() {
    is_never_praised(Pupil::Commonest, |_| true);
}

#[test]
fn who_misses_what_tells_a_device_is_not_told_otherwise() {
    is_never_praised(Pupil::DeafToTelling, |_| true);
}

#[test]
fn who_is_deaf_to_one_device_is_not_told_otherwise() {
    is_never_praised(Pupil::DeafTo { device: 0 }, |verdict| verdict.place == 0);
}

#[test]
fn who_hears_all_and_slips_is_told_so() {
    for pupil in [Pupil::Slips, Pupil::Tires] {
        let catalogue = Catalogue::built_in();
        let (mut secure, mut weak, mut all) = (0, 0, 0);
        for exercise in exercises(&catalogue) {
            for verdict in taught(&exercise, pupil, questions()) {
                all += 1;
                secure += u32::from(verdict.word == Word::Secure);
                weak += u32::from(verdict.word == Word::Weak);
            }
        }
        println!("{pupil:?}: {secure} of {all} devices secure, {weak} weak");
        assert!(weak * 50 <= all, "{pupil:?}: {weak} of {all}");
    }
}

#[test]
fn a_habit_is_told_in_words() {
    let catalogue = Catalogue::built_in();
    let all = exercises(&catalogue);
    let nearby = all
        .iter()
        .find(|exercise| exercise.id == "borrowed-dominants-nearby");
    let told = desk::biases(nearby.expect("built in"), Pupil::Fixed { device: 1 }, 60);
    println!("{told:?}");
    assert!(told.iter().any(|words| words.starts_with("you say V7/ii ")));
    let told = desk::biases(nearby.expect("built in"), Pupil::Slips, 60);
    assert!(told.is_empty(), "{told:?}");
}
