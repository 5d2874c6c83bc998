//! The program run as a command: what it prints, and how it ends.

mod basics;
mod library;
mod render;
mod run;
mod spell;
