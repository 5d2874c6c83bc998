//! Music against the outside: tables made with music21, and handbook tables.

mod catalogue;
mod handbook;
mod pitches;
mod roman_text;
mod spelling;
mod symbols;
mod tables;
