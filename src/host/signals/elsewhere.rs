//! Where no signals are known.

use std::io;

/// No signals are known here.
#[derive(Debug, Default)]
pub struct Signals;

impl Signals {
    /// # Errors
    /// None.
    pub fn watch_ends() -> io::Result<Self> {
        Ok(Self)
    }

    /// # Errors
    /// None.
    pub fn watch_stops(&self) -> io::Result<()> {
        Ok(())
    }

    #[must_use]
    pub fn ended(&self) -> Option<u8> {
        None
    }

    #[must_use]
    pub fn take_suspended(&self) -> bool {
        false
    }

    #[must_use]
    pub fn take_resumed(&self) -> bool {
        false
    }

    /// # Errors
    /// None.
    pub fn stop() -> io::Result<()> {
        Ok(())
    }
}

/// Nothing dies of a signal here.
pub fn die_of(_signal: u8) {}

/// Nothing need be given back at once here.
pub fn owe_terminal(_farewell: String) {}

/// The same.
pub fn terminal_is_back() {}
