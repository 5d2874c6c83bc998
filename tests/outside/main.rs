//! Harmony against the outside: tables made with music21, handbook tables, laws, and input
//! of every kind.

mod bad_input;
mod catalogue;
mod devices;
mod fuzz;
mod handbook;
mod laws;
mod mutation;
mod pitches;
mod readers;
mod roman_text;
mod spelling;
mod symbols;
mod tables;
mod textbook;
mod winners;
