//! The program run as a command: what it prints, and how it ends.

mod answers;
mod audit;
mod basics;
#[cfg(target_os = "linux")]
mod disks;
mod drill_killed;
#[cfg(target_os = "linux")]
mod drive;
#[cfg(target_os = "linux")]
mod faults;
mod library;
mod mistakes;
mod needs;
#[cfg(target_os = "linux")]
mod place;
mod plain_drill;
#[cfg(target_os = "linux")]
mod power;
mod progress;
mod render;
mod run;
#[cfg(target_os = "linux")]
mod signals;
mod simulate;
mod spell;
mod terminal;
mod tmux;
