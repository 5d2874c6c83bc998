//! Reads a glance out of a line that stands exactly as [`super::print`] writes it. A long
//! journal holds hardly any others, and the names of its fields, always in the same order,
//! need only be compared. Whatever is not as printed is left to the reader of all JSON.

use std::str::FromStr;

use super::{Difficulty, Glance, GlanceSlot, KeySetting, Text};

/// The glance, or nothing if the line is not as printed, which is no fault.
pub(super) fn glance(line: &str) -> Option<Glance<'_>> {
    // With neither escapes nor control characters, a text ends at the next quote. All bytes
    // are looked at, for then the compiler looks at many at once.
    let is_plain = |plain, byte: u8| plain & (byte >= b' ') & (byte != b'\\');
    if !line.bytes().fold(true, is_plain) {
        return None;
    }
    let mut line = Printed(line);
    let version = line.whole(r#"{"version":"#)?;
    line.text(r#","id":"#)?;
    let time = line.whole(r#","time":"#)?;
    let learner = line.text(r#","learner":"#)?;
    line.text(r#","session":"#)?;
    line.text(r#","exercise":"#)?;
    line.whole::<u64>(r#","seed":"#)?;
    line.whole::<u32>(r#","index":"#)?;
    line.text(r#","kind":"#)?;
    line.text(r#","key":"#)?;
    line.text(r#","line":"#)?;
    line.real(r#","tempo":"#)?;
    line.text(r#","sound":"#)?;
    line.text(r#","texture":"#)?;
    let key_setting = match line.text(r#","key_setting":"#)?.as_str() {
        "cadence" => KeySetting::Cadence,
        "tonic" => KeySetting::Tonic,
        "nothing" => KeySetting::Nothing,
        _ => return None,
    };
    let answers = line.whole(r#","answers":"#)?;
    let difficulty = Difficulty {
        inversion: line.real(r#","difficulty":{"inversion":"#)?,
        texture: line.real(r#","texture":"#)?,
        tempo: line.real(r#","tempo":"#)?,
        similarity: line.real(r#","similarity":"#)?,
    };
    line.whole::<u64>(r#"},"thinking":"#)?;
    line.whole::<u32>(r#","replays":"#)?;
    // Told only where something was explained.
    let explained = if line.comes(r#","explained":"#) {
        line.whole("")?
    } else {
        0
    };
    let slots = line.many(r#","slots":["#, Printed::slot)?;
    (line.0 == "}").then_some(Glance {
        version,
        time,
        learner,
        key_setting,
        answers,
        difficulty,
        explained,
        slots,
    })
}

/// What is left of the line.
struct Printed<'a>(&'a str);

impl<'a> Printed<'a> {
    fn slot(&mut self) -> Option<GlanceSlot<'a>> {
        self.whole::<u32>(r#"{"slot":"#)?;
        let devices = self.many(r#","devices":["#, |line| line.text(""))?;
        self.text(r#","truth":"#)?;
        self.text(r#","function":"#)?;
        self.text(r#","quality":"#)?;
        self.text(r#","degree":"#)?;
        self.text(r#","bass":"#)?;
        self.text(r#","answer":"#)?;
        self.text(r#","mark":"#)?;
        let credit = self.real(r#","credit":"#)?;
        let heard_as = if self.comes(r#","heard_as":null"#) {
            None
        } else {
            Some(self.text(r#","heard_as":"#)?)
        };
        self.comes("}").then_some(GlanceSlot {
            devices,
            credit,
            heard_as,
        })
    }

    #[inline(always)]
    fn comes(&mut self, expected: &str) -> bool {
        let comes = self.0.as_bytes().starts_with(expected.as_bytes());
        if comes {
            self.0 = &self.0[expected.len()..];
        }
        comes
    }

    /// The digits that come now.
    fn digits(&mut self) -> &'a str {
        let end = self.0.bytes().position(|byte| !byte.is_ascii_digit());
        let (digits, rest) = self.0.split_at(end.unwrap_or(self.0.len()));
        self.0 = rest;
        digits
    }

    /// What comes between brackets, of which `name` has opened the first.
    fn many<T>(
        &mut self,
        name: &str,
        mut one: impl FnMut(&mut Self) -> Option<T>,
    ) -> Option<Vec<T>> {
        if !self.comes(name) {
            return None;
        }
        let mut all = Vec::new();
        if self.comes("]") {
            return Some(all);
        }
        loop {
            all.push(one(self)?);
            if self.comes("]") {
                return Some(all);
            }
            if !self.comes(",") {
                return None;
            }
        }
    }

    #[inline(always)]
    fn text(&mut self, name: &str) -> Option<Text<'a>> {
        if !self.comes(name) || !self.comes("\"") {
            return None;
        }
        let end = memchr::memchr(b'"', self.0.as_bytes())?;
        let text = &self.0[..end];
        self.0 = &self.0[end + 1..];
        Some(text.into())
    }

    #[inline(always)]
    fn whole<T: FromStr>(&mut self, name: &str) -> Option<T> {
        if !self.comes(name) {
            return None;
        }
        let digits = self.digits();
        is_whole(digits).then(|| digits.parse().ok()).flatten()
    }

    /// A number with a point: digits on both sides of it, as every number is printed that
    /// is neither huge nor tiny nor below 0.
    #[inline(always)]
    fn real(&mut self, name: &str) -> Option<f64> {
        if !self.comes(name) {
            return None;
        }
        let all = self.0;
        let whole = self.digits();
        if !is_whole(whole) || !self.comes(".") {
            return None;
        }
        let part = self.digits();
        if part.is_empty() {
            return None;
        }
        if let (Some(power), ..=15) = (POWERS.get(part.len()), whole.len() + part.len()) {
            let digits = whole.bytes().chain(part.bytes());
            let value = digits.fold(0, followed);
            return Some(value as f64 / power);
        }
        all[..all.len() - self.0.len()].parse().ok()
    }
}

/// Powers of ten. Fifteen digits and these are exact in binary, so that one division gives
/// the nearest number (Clinger, "How to read floating point numbers accurately", 1990).
const POWERS: [f64; 16] = [
    1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
];

/// The number with one more digit behind it.
fn followed(number: u64, digit: u8) -> u64 {
    10 * number + u64::from(digit - b'0')
}

/// Whether JSON takes the digits for a whole number.
fn is_whole(digits: &str) -> bool {
    digits == "0" || !(digits.is_empty() || digits.starts_with('0'))
}

#[cfg(test)]
mod tests {
    use super::super::{Entry, SlotAnswer, print};
    use super::*;

    proptest::proptest! {
        #[test]
        fn a_number_is_the_one_that_was_printed(number in 0.0..1e9_f64, places in 0_usize..9) {
            for text in [format!("{number:?}"), format!("{number:.*}", places + 1)] {
                let mut line = text.clone();
                line.push(',');
                let read = Printed(&line).real("").expect("digits on both sides of a point");
                let expected: f64 = text.parse().expect("a number");
                proptest::prop_assert_eq!(read.to_bits(), expected.to_bits(), "{}", text);
            }
        }
    }

    #[test]
    fn reads_what_is_printed() {
        let id = |text: &str| text.parse().expect("a device's id");
        let slot = SlotAnswer {
            slot: 1,
            devices: vec![id("minor-four"), id("minor-four-added-sixth")],
            truth: "ivadd6".to_owned(),
            function: "borrowed subdominant".to_owned(),
            quality: "minor".to_owned(),
            degree: "4".to_owned(),
            bass: "4".to_owned(),
            answer: "♭VII7".to_owned(),
            mark: "near".to_owned(),
            credit: 0.5,
            heard_as: Some(id("backdoor-dominant")),
        };
        let mut entry = Entry {
            version: 1,
            id: "a-0".to_owned(),
            time: 1_760_000_000_123,
            learner: "Zoë".to_owned(),
            session: "a".to_owned(),
            exercise: "borrowed-colours".to_owned(),
            seed: u64::MAX,
            index: 3,
            kind: "name-chords".to_owned(),
            key: "Eb major".to_owned(),
            line: "IVadd6 | ivadd6 | I %".to_owned(),
            tempo: 96.0,
            sound: "piano".to_owned(),
            texture: "held-chords".to_owned(),
            key_setting: KeySetting::Nothing,
            answers: 9,
            difficulty: Difficulty::default(),
            thinking: 4210,
            replays: 1,
            explained: 0,
            slots: vec![slot.clone(), slot],
        };
        entry.slots[1].devices.clear();
        entry.slots[1].heard_as = None;
        assert_eq!(glance(print(&entry).trim_end()), Some(entry.glance()));
        entry.explained = 3;
        assert_eq!(glance(print(&entry).trim_end()), Some(entry.glance()));
        entry.slots.clear();
        assert_eq!(glance(print(&entry).trim_end()), Some(entry.glance()));
    }
}
