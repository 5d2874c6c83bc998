//! Where a chord stands, in words.

use crate::theory::Line;

/// A chord of the line by its place: its bar, and where several begin there, which of them
/// it is.
#[must_use]
pub fn place(line: &Line, slot: usize) -> String {
    let bar = line.bar(slot);
    let in_bar: Vec<usize> = (0..line.slots().len())
        .filter(|other| line.bar(*other) == bar)
        .collect();
    let which = match (in_bar.len(), in_bar.iter().position(|other| *other == slot)) {
        (1, _) => "chord",
        (_, Some(0)) => "first chord",
        (_, Some(1)) => "second chord",
        (_, Some(2)) => "third chord",
        (_, Some(_) | None) => "last chord",
    };
    format!("{which} in bar {bar}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::theory::{BareSix, Meter};

    #[test]
    fn a_chord_alone_in_its_bar_needs_no_number() {
        let meter = "4/4".parse::<Meter>().expect("a meter");
        let text = "I ii V7 I | IV V7 | I";
        let line = Line::read(text, meter, BareSix::AddedSixth).expect("a line");
        let places: Vec<String> = (0..7).map(|slot| place(&line, slot)).collect();
        assert_eq!(places[0], "first chord in bar 1");
        assert_eq!(places[2], "third chord in bar 1");
        assert_eq!(places[3], "last chord in bar 1");
        assert_eq!(places[5], "second chord in bar 2");
        assert_eq!(places[6], "chord in bar 3");
    }
}
