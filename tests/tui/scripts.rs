//! What a pupil presses, and what must then be on the screen.

use plagal::tui::Press::{Backspace, Character, Down, Enter, Escape, Interrupt, Right};

use crate::desk::desk;

#[test]
fn one_press_begins_a_drill_and_one_answers_it() {
    // Seeds are fresh: on a lower screen a long mark pushes out why it was asked.
    let mut desk = desk(80, 36, false);
    assert!(desk.screen().contains("First cadences"));
    let asked = desk.press(&[Enter]).screen();
    assert!(asked.contains("1 of 12"), "{asked}");
    let marked = desk.press(&[Character('1')]).screen();
    assert!(marked.contains("It was "), "{marked}");
    assert!(marked.contains("asked because: first time"), "{marked}");
    assert!(marked.contains("What gives it away: "), "{marked}");
    let next = desk.press(&[Enter]).screen();
    assert!(next.contains("2 of 12"), "{next}");
}

#[test]
fn a_drill_can_be_left_and_what_was_answered_counts() {
    let mut desk = desk(80, 24, false);
    desk.press(&[Enter, Character('1'), Escape]);
    let over = desk.screen();
    assert!(over.contains("The one answer was "), "{over}");
    assert_eq!(
        over.contains("was not right"),
        over.contains("Missed, "),
        "{over}"
    );
    let progress = desk.press(&[Character('p')]).screen();
    assert!(
        progress.contains("1 devices heard") || progress.contains("/1"),
        "{progress}"
    );
    assert!(
        desk.press(&[Escape])
            .screen()
            .contains("Hear what each chord does")
    );
    desk.press(&[Character('q')]);
    assert!(desk.app.is_over());
}

#[test]
fn every_chord_is_answered_in_turn_and_marked_by_enter() {
    let mut desk = desk(120, 36, false);
    // The line below the list tells which exercise is selected.
    while !desk.screen().contains("chains of falling fifths") {
        desk.press(&[Down]);
    }
    let asked = desk.press(&[Enter]).screen();
    let slots = asked.matches('?').count();
    for _ in 0..24 {
        desk.press(&[Character('1')]);
        if desk.screen().contains("Enter marks them") {
            break;
        }
    }
    assert!(slots > 2 && desk.screen().contains("Enter marks them"));
    let marked = desk.press(&[Enter]).screen();
    assert!(marked.contains("It was "), "{marked}");
    let other = desk.press(&[Right]).screen();
    assert_ne!(marked, other, "another chord is explained");
}

#[test]
fn a_key_that_is_not_given_is_not_told() {
    let mut desk = desk(80, 24, false);
    while !desk.screen().contains("No key is given") {
        desk.press(&[Down]);
    }
    let asked = desk.press(&[Enter]).screen();
    assert!(asked.contains("key not given"), "{asked}");
}

#[test]
fn typed_numerals_are_read_and_misreadings_are_put_right() {
    let mut desk = desk(80, 24, false);
    // The last exercise asks for typed numerals.
    desk.press(&[plagal::tui::Press::Up, Enter]);
    let asked = desk.screen();
    assert!(asked.contains("> "), "{asked}");
    let misread = desk.typed("ivx").press(&[Enter]).screen();
    assert!(misread.contains("cannot be read"), "{misread}");
    assert!(misread.contains("ivx"), "the text stays: {misread}");
    for _ in 0..64 {
        desk.press(&[Backspace, Backspace, Backspace])
            .typed("iv")
            .press(&[Enter]);
        if desk.screen().contains("Enter marks them") {
            desk.press(&[Enter]);
        }
        if desk.screen().contains("It was ") {
            return;
        }
    }
    panic!("never marked:\n{}", desk.screen());
}

#[test]
fn degrees_are_typed_with_spaces_and_the_whole_prompt_is_read() {
    let mut desk = desk(50, 24, false);
    while !desk.screen().contains("One upper voice steps out") {
        desk.press(&[Down]);
    }
    let asked = desk.press(&[Enter]).screen();
    assert!(asked.contains("go through?"), "{asked}");
    let typed = desk.typed("6 b6 5").screen();
    assert!(typed.contains("> 6 b6 5"), "{typed}");
    let marked = desk.press(&[Enter]).screen();
    assert!(marked.contains("It went "), "{marked}");
}

#[test]
fn help_lies_over_the_screen_and_control_c_quits_anywhere() {
    let mut desk = desk(80, 24, false);
    let asked = desk.press(&[Enter]).screen();
    assert!(desk.press(&[Character('?')]).screen().contains("Help"));
    assert_eq!(desk.press(&[Escape]).screen(), asked, "back where it was");
    desk.press(&[Interrupt]);
    assert!(desk.app.is_over());
}

#[test]
fn volume_turns_in_steps_and_never_above_full() {
    let mut desk = desk(80, 24, false);
    assert!(desk.screen().contains("-12 dB"), "moderate at the start");
    for _ in 0..40 {
        desk.press(&[Character(']')]);
    }
    assert!(desk.screen().contains("volume 0 dB"));
    for _ in 0..40 {
        desk.press(&[Character('[')]);
    }
    assert!(desk.screen().contains("volume off"));
}

#[test]
fn a_long_message_is_told_to_its_end() {
    let mut desk = desk(80, 24, false);
    desk.press(&[plagal::tui::Press::Up, Enter]);
    let misread = desk.typed("ivx").press(&[Enter]).screen();
    assert!(misread.contains("did you mean `iv`?"), "{misread}");
    assert!(
        misread.contains("leave"),
        "the presses are still told: {misread}"
    );
}
