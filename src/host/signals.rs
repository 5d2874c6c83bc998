//! Signals from outside: those that end the program are noted, so that it ends by itself,
//! gives the terminal back and keeps every answer; those that suspend and resume it are
//! noted for the screen. The second of a kind that ends acts at once.

#[cfg(unix)]
mod unix {
    use std::io;
    use std::sync::Arc;
    use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

    use signal_hook::consts::{SIGCONT, SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGTSTP};
    use signal_hook::{flag, low_level};

    /// The signals that have come.
    #[derive(Debug, Default)]
    pub struct Signals {
        ended: Arc<AtomicUsize>,
        suspended: Arc<AtomicBool>,
        resumed: Arc<AtomicBool>,
    }

    impl Signals {
        /// Notes SIGINT, SIGTERM, SIGHUP and SIGQUIT instead of dying of them.
        ///
        /// # Errors
        /// If the system refuses.
        pub fn watch_ends() -> io::Result<Self> {
            let signals = Self::default();
            for signal in [SIGINT, SIGTERM, SIGHUP, SIGQUIT] {
                let again = Arc::new(AtomicBool::new(false));
                // In this order: the first sets the flags, the second finds them set.
                flag::register_conditional_default(signal, Arc::clone(&again))?;
                flag::register(signal, again)?;
                let number = usize::try_from(signal).expect("signals are above 0");
                flag::register_usize(signal, Arc::clone(&signals.ended), number)?;
            }
            Ok(signals)
        }

        /// Notes SIGTSTP and SIGCONT too, for whoever has changed the terminal.
        ///
        /// # Errors
        /// If the system refuses.
        pub fn watch_stops(&self) -> io::Result<()> {
            flag::register(SIGTSTP, Arc::clone(&self.suspended))?;
            flag::register(SIGCONT, Arc::clone(&self.resumed))?;
            Ok(())
        }

        /// The number of the signal that asked for the end, if one has.
        #[must_use]
        pub fn ended(&self) -> Option<u8> {
            u8::try_from(self.ended.load(Ordering::Relaxed))
                .ok()
                .filter(|signal| *signal > 0)
        }

        /// Whether the program has been asked to stop, since this was asked last.
        #[must_use]
        pub fn take_suspended(&self) -> bool {
            self.suspended.swap(false, Ordering::Relaxed)
        }

        /// Whether the program goes on after a stop, since this was asked last.
        #[must_use]
        pub fn take_resumed(&self) -> bool {
            self.resumed.swap(false, Ordering::Relaxed)
        }

        /// Stops the process until it is told to go on.
        ///
        /// # Errors
        /// If the system refuses.
        pub fn stop() -> io::Result<()> {
            low_level::emulate_default_handler(SIGTSTP)
        }
    }
}

#[cfg(not(unix))]
mod elsewhere {
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
}

#[cfg(not(unix))]
pub use elsewhere::Signals;
#[cfg(unix)]
pub use unix::Signals;
