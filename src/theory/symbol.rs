//! Chord symbols: `E7`, `Cm6`, `C♯°7`, `G/D`.

use std::fmt;
use std::ops::Range;
use std::str::FromStr;

use super::notation::Notation;
use super::pitch::{LONGEST_NOTE, PitchClass};
use super::quality::{Figures, LONGEST_SUFFIX, Quality, Suffix, Third};
use super::quoted::quoted;

/// A chord by its root, quality and bass, without a key.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Symbol {
    /// The root.
    pub root: PitchClass,
    /// What stands above the root.
    pub quality: Quality,
    /// The lowest note; the root where no other is written.
    pub bass: PitchClass,
}

impl Symbol {
    /// The symbol of a chord on this root over this bass.
    #[must_use]
    pub const fn new(root: PitchClass, quality: Quality, bass: PitchClass) -> Self {
        Self {
            root,
            quality,
            bass,
        }
    }

    /// The chord's own notes, root first.
    #[must_use]
    pub fn notes(&self) -> Vec<PitchClass> {
        self.quality
            .members()
            .into_iter()
            .map(|(_, interval)| self.root.up(interval))
            .collect()
    }

    /// The symbol in a notation.
    #[must_use]
    pub fn written(&self, notation: Notation) -> String {
        let mut text = self.root.written(notation) + &self.quality.symbol_suffix(notation);
        if self.bass != self.root {
            text += "/";
            text += &self.bass.written(notation);
        }
        text
    }
}

impl fmt::Display for Symbol {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.written(Notation::Text))
    }
}

/// A text that is no chord symbol, and the bytes where reading stopped.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SymbolError {
    /// The text that was read.
    pub text: String,
    /// Its bytes that are at fault.
    pub at: Range<usize>,
}

impl fmt::Display for SymbolError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (found, whole) = (&self.text[self.at.clone()], quoted(&self.text));
        if found.is_empty() {
            write!(f, "`{whole}` ends too early")?;
        } else if found == self.text {
            write!(f, "`{whole}` cannot be read")?;
        } else {
            write!(f, "`{}` in `{whole}` cannot be read", quoted(found))?;
        }
        write!(
            f,
            "; expected a chord symbol such as `E7`, `Cm6`, `C#o7` or `G/D`"
        )
    }
}

impl std::error::Error for SymbolError {}

/// A longer text than this is no chord symbol: every symbol that is printed is shorter.
const LONGEST: usize = 2 * LONGEST_NOTE + LONGEST_SUFFIX + 2;

impl FromStr for Symbol {
    type Err = SymbolError;

    fn from_str(text: &str) -> Result<Self, SymbolError> {
        let refuse = |at: usize| SymbolError {
            text: text.to_owned(),
            at: at..text.len(),
        };
        if text.len() > LONGEST {
            let end = (0..=LONGEST)
                .rev()
                .find(|at| text.is_char_boundary(*at))
                .unwrap_or(0);
            return Err(SymbolError {
                text: text[..end].to_owned(),
                at: 0..end,
            });
        }
        if !text.starts_with(|c: char| ('A'..='G').contains(&c)) {
            return Err(refuse(0));
        }
        let signs = text[1..]
            .find(|c| !matches!(c, '#' | 'b' | '♯' | '♭'))
            .map_or(text.len(), |at| at + 1);
        let root: PitchClass = text[..signs].parse().map_err(|_| refuse(0))?;
        let (suffix, length) = Suffix::read(&text[signs..], Third::Major, Figures::None)
            .map_err(|fault| refuse(signs + fault.offset))?;
        let rest = &text[signs + length..];
        let bass = match rest.strip_prefix('/') {
            Some(bass) => bass.parse().map_err(|_| refuse(signs + length))?,
            None if rest.is_empty() => root,
            None => return Err(refuse(signs + length)),
        };
        Ok(Self {
            root,
            quality: suffix.quality,
            bass,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn symbols_read_every_common_writing() {
        // Common practice: the writings met in lead sheets.
        for (written, plain) in [
            ("Cmaj7", "Cmaj7"),
            ("CM7", "Cmaj7"),
            ("CΔ", "Cmaj7"),
            ("C-7", "Cm7"),
            ("Cmin7", "Cm7"),
            ("Cø", "Cø7"),
            ("Cm7b5", "Cø7"),
            ("C°7", "Co7"),
            ("Cdim", "Co"),
            ("Caug", "C+"),
            ("C7#5", "C+7"),
            ("Csus", "Csus4"),
            ("C6/9", "C6add9"),
            ("Cm(maj7)", "Cm(maj7)"),
            ("Cmmaj7", "Cm(maj7)"),
            ("Bb7(b9)", "Bb7b9"),
            ("F#m7/C#", "F#m7/C#"),
            ("Ab6", "Ab6"),
            ("C/G", "C/G"),
            ("G7sus4", "G7sus4"),
            ("G7alt", "G7b9#9#11b13"),
            ("Galt", "G7b9#9#11b13"),
            ("C(b5)", "C(b5)"),
            ("F#(#9)", "F#(#9)"),
        ] {
            let symbol: Symbol = written.parse().unwrap_or_else(|error| panic!("{error}"));
            assert_eq!(symbol.to_string(), plain, "{written}");
        }
    }

    #[test]
    fn a_broken_symbol_names_its_place() {
        for (text, at) in [
            ("H7", 0),
            ("Cq", 1),
            ("C7x", 2),
            ("C/H", 1),
            ("Cm7m", 3),
            ("C7altalt", 5),
        ] {
            assert_eq!(
                text.parse::<Symbol>().map_err(|e| e.at.start),
                Err(at),
                "{text}"
            );
        }
    }
}
