//! How the screens look: whole, within their size, in ASCII where it is asked for.

use plagal::tui::Press::{Character, Enter, Escape};

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
