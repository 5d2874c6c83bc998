//! Signals from outside: those that end the program are noted, so that it ends by itself,
//! gives the terminal back and keeps every answer; those that suspend and resume it are
//! noted for the screen. The second of a kind that ends acts at once, and so does a fault of
//! the program itself: the terminal is given back even then.

#[cfg(unix)]
mod at_once;
#[cfg(not(unix))]
mod elsewhere;
#[cfg(unix)]
mod unix;

#[cfg(unix)]
pub use at_once::{die_of, owe_terminal, terminal_is_back};
#[cfg(not(unix))]
pub use elsewhere::{Signals, die_of, owe_terminal, terminal_is_back};
#[cfg(unix)]
pub use unix::Signals;
