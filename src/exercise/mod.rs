//! From an exercise file to a checked exercise, or all the faults of the file at once. Owns
//! the words of exercise files; may not touch the disk.

mod definition;
mod keys;
mod reading;
#[cfg(test)]
mod tests;

pub use definition::Exercise;
pub use reading::Known;
