//! The screens, one file each. A screen draws itself from the app and answers a press
//! with itself, or with nothing once it has put another screen in its place.

mod asking;
mod hearing;
mod help;
mod home;
mod layout;
mod marked;
mod over;
mod progress;

pub(super) use asking::AskingScreen;
pub(super) use help::Help;
pub(super) use home::Home;
pub(super) use marked::Marked;
pub(super) use over::Over;
pub(super) use progress::ProgressScreen;
