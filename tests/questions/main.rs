//! Questions of the built-in exercises, and what can be heard of them.

mod built_in;
mod exercises;
mod hearings;
mod many;
mod telling;
mod variety;
