//! The presses that let something be heard, alike on every screen with a line.

use crate::arranging::Strand;
use crate::host::clock;
use crate::quiz::{Event, Hearing, Session};
use crate::tui::app::App;
use crate::tui::press::Press;

/// What a press lets be heard; `slot` is the chord that is asked or explained.
pub(super) fn hearing(press: Press, slot: Option<usize>) -> Option<Hearing> {
    match press {
        Press::Character(' ') | Press::Up => Some(Hearing::Line),
        Press::Character('c') | Press::Down => Some(Hearing::Slot(slot?)),
        Press::Character('_') => Some(Hearing::Strand(Strand::Bass)),
        Press::Character(':') => Some(Hearing::Strand(Strand::Inner)),
        Press::Character('\'') => Some(Hearing::Strand(Strand::Top)),
        Press::Character('<') => Some(Hearing::Slower),
        Press::Character('k') => Some(Hearing::Key),
        Press::Character(_)
        | Press::Enter
        | Press::Escape
        | Press::Backspace
        | Press::Left
        | Press::Right
        | Press::PageUp
        | Press::PageDown
        | Press::Interrupt
        | Press::Suspend => None,
    }
}

/// Lets a press repeat a stretch around `slot`, or lets go of it; false if it is another
/// press.
pub(super) fn repeat(
    press: Press,
    stretch: &mut Option<Stretch>,
    slot: usize,
    app: &mut App,
) -> bool {
    let Some(question) = app.practice.session().and_then(Session::question) else {
        return false;
    };
    let count = question.progression.line.slots().len();
    let Some(wider) = Stretch::press(press, *stretch, slot, count) else {
        return false;
    };
    if press == Press::Character('l') && app.practice.performer().is_repeating() {
        app.practice.performer_mut().go_on();
        *stretch = None;
        return true;
    }
    *stretch = Some(wider);
    let hearing = wider.hearing();
    let now = clock::now();
    app.practice.step(Event::Hear { hearing, now });
    true
}

/// The stretch that is repeated: which chords, from and to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Stretch {
    from: usize,
    to: usize,
}

impl Stretch {
    /// What a press makes of the stretch `before` around `slot`, in a line of `count` chords:
    /// `l` begins with the chord and its neighbours, `{` and `}` take in one chord more.
    pub(super) fn press(
        press: Press,
        before: Option<Self>,
        slot: usize,
        count: usize,
    ) -> Option<Self> {
        let last = count.saturating_sub(1);
        let around = Self {
            from: slot.saturating_sub(1),
            to: (slot + 1).min(last),
        };
        let before = before.unwrap_or(around);
        match press {
            Press::Character('l') => Some(around),
            Press::Character('{') => Some(Self {
                from: before.from.saturating_sub(1),
                ..before
            }),
            Press::Character('}') => Some(Self {
                to: (before.to + 1).min(last),
                ..before
            }),
            _ => None,
        }
    }

    fn hearing(self) -> Hearing {
        Hearing::Loop {
            from: self.from,
            to: self.to,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stretch_grows_by_a_chord_within_the_line() {
        let press = |sign, before| Stretch::press(Press::Character(sign), before, 1, 4);
        let begun = press('l', None).expect("it begins");
        assert_eq!((begun.from, begun.to), (0, 2));
        let longer = press('}', Some(begun)).expect("it grows");
        assert_eq!((longer.from, longer.to), (0, 3));
        for sign in ['{', '}'] {
            assert_eq!(press(sign, Some(longer)), Some(longer), "the line is full");
        }
        assert_eq!(press('l', Some(longer)), Some(begun));
        assert_eq!(press('x', None), None);
        let only = Stretch::press(Press::Character('l'), None, 0, 1).expect("one chord");
        assert_eq!(only.hearing(), Hearing::Loop { from: 0, to: 0 });
    }
}
