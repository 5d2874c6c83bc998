//! Presses without sense, in every exercise and at every size: the trainer stays up.

use plagal::host::library::EXERCISES;
use plagal::tui::Press::{self, Backspace, Character, Down, Enter, Escape, Left, Right, Up};
use rand::SeedableRng;
use rand::seq::IndexedRandom;
use rand_chacha::ChaCha8Rng;

use crate::desk::desk;

/// All that means something somewhere, but for the way out: answers and Enter come most.
fn press(chance: &mut ChaCha8Rng) -> Press {
    let characters: Vec<Press> = " c_:'l{}<kmf[]?xpyniIvVb#o7/-="
        .chars()
        .map(Character)
        .collect();
    let answers: Vec<Press> = "1234567".chars().map(Character).collect();
    let others = [Escape, Backspace, Left, Right, Up, Down, Enter];
    let groups: [&[Press]; 5] = [&characters, &answers, &answers, &others, &[Enter]];
    let group = groups.choose(chance).expect("there are five");
    *group.choose(chance).expect("no group is empty")
}

#[test]
fn nothing_that_is_pressed_brings_the_trainer_down() {
    let sizes = [(80, 24), (120, 36), (60, 20), (24, 8), (3, 2)];
    let mut chance = ChaCha8Rng::seed_from_u64(6);
    let mut marked = 0;
    for at in 0..EXERCISES.len() {
        let (width, height) = sizes[at % sizes.len()];
        let mut desk = desk(width, height, at.is_multiple_of(2));
        desk.press(&vec![Down; at]).press(&[Enter]);
        for _ in 0..120 {
            desk.press(&[press(&mut chance)]);
            let screen = desk.screen();
            assert_eq!(screen.split('\n').count(), usize::from(height), "{screen}");
            marked += usize::from(screen.contains("asked because"));
        }
    }
    assert!(marked > 100, "marks were seen {marked} times");
}
