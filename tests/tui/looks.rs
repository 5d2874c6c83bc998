//! How the screens look: whole, within their size, in ASCII where it is asked for.

use plagal::tui::Press::{Character, Down, Enter, Escape};

use crate::desk::desk;

#[test]
fn the_home_screen_looks_like_this() {
    insta::assert_snapshot!(desk(80, 24, false).screen());
}

#[test]
fn the_help_looks_like_this() {
    insta::assert_snapshot!(desk(80, 24, false).press(&[Character('?')]).screen());
}

#[test]
fn ascii_screens_have_no_other_character() {
    let mut desk = desk(80, 24, true);
    for press in [
        Enter,
        Character('1'),
        Character('?'),
        Escape,
        Escape,
        Character('p'),
    ] {
        let screen = desk.screen();
        assert!(screen.is_ascii(), "{screen}");
        desk.press(&[press]);
    }
    assert!(desk.screen().is_ascii());
}

#[test]
fn every_press_is_told_at_every_size() {
    for (width, height) in [(80, 24), (120, 36), (60, 20)] {
        let mut desk = desk(width, height, false);
        let screens = [
            desk.screen(),
            desk.press(&[Enter]).screen(),
            desk.press(&[Character('1')]).screen(),
        ];
        for (screen, told) in screens.iter().zip(["quit", "leave", "leave"]) {
            assert!(screen.contains(told), "{width}x{height}:\n{screen}");
        }
    }
}

#[test]
fn every_mark_is_seen_beside_its_chord_at_every_size() {
    for (width, height) in [(80, 24), (120, 36), (60, 20), (40, 16)] {
        let mut desk = desk(width, height, false);
        // The third exercise asks for every chord.
        desk.press(&[Down, Down]);
        desk.press(&[Enter]);
        let mut chords = 0;
        while !desk.screen().contains("It was ") {
            let press = if desk.screen().contains("Enter marks them") {
                Enter
            } else {
                chords += 1;
                Character('1')
            };
            desk.press(&[press]);
            assert!(chords < 32, "never marked:\n{}", desk.screen());
        }
        let screen = desk.screen();
        let chart = screen.lines().filter(|line| line.contains('│'));
        let signs = chart.flat_map(|line| line.chars().filter(|c| "✓≈✗".contains(*c)));
        assert_eq!(signs.count(), chords, "{width}x{height}:\n{screen}");
    }
}

#[test]
fn what_a_low_screen_cannot_hold_is_reached_by_scrolling() {
    let mut desk = desk(60, 16, false);
    desk.press(&[Enter, Character('1')]);
    let top = desk.screen();
    assert!(top.contains("It was ") && top.contains("more"), "{top}");
    for _ in 0..30 {
        desk.press(&[Down]);
    }
    let end = desk.screen();
    assert!(
        end.contains("Up: back") && !end.contains("It was "),
        "{end}"
    );
}

#[test]
fn the_help_is_whole_on_a_narrow_screen() {
    let mut desk = desk(60, 20, false);
    desk.press(&[Character('?')]);
    let mut told = desk.screen();
    for _ in 0..20 {
        desk.press(&[Down]);
    }
    told += &desk.screen();
    let told: String = told.split_whitespace().collect::<Vec<_>>().join(" ");
    for end in ["the other line", "quit at once", "before or after"] {
        assert!(told.contains(end), "{end}: {told}");
    }
}
