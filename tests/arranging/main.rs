//! The arranger, from outside: worked part-writing and properties of every arrangement.

mod lines;
mod part_writing;
mod passages;
mod properties;
