//! The arranger, from outside: worked part-writing and properties of every arrangement.

mod generated;
mod lines;
mod part_writing;
mod passages;
mod properties;
mod report;
mod strange;
mod styles;
mod textures;
