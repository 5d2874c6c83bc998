//! Measures the sounds as a listener would: pitch, level, beginnings and ends.

mod blocks;
mod chords;
mod ends;
mod levels;
mod notes;
mod percussion;
mod spectrum;
mod table;
mod touch;
mod tuning;
