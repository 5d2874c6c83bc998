//! Signals as Unix has them.

use std::io;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

use signal_hook::consts::{SIGCONT, SIGTSTP};
use signal_hook::{flag, low_level};

use super::at_once::{self, die_of};

/// The signals that have come.
#[derive(Debug, Default)]
pub struct Signals {
    ended: Arc<AtomicUsize>,
    suspended: Arc<AtomicBool>,
    resumed: Arc<AtomicBool>,
}

impl Signals {
    /// Notes the signals that ask for the end, such as SIGTERM and SIGUSR1, instead of dying
    /// of them.
    ///
    /// # Errors
    /// If the system refuses.
    pub fn watch_ends() -> io::Result<Self> {
        let signals = Self::default();
        for signal in ends() {
            let again = AtomicBool::new(false);
            at_once::register(i32::from(signal), move || {
                if again.swap(true, Ordering::Relaxed) {
                    die_of(signal);
                }
            })?;
            let ended = Arc::clone(&signals.ended);
            flag::register_usize(i32::from(signal), ended, usize::from(signal))?;
        }
        // A file that may not grow is a write that fails, and told as one.
        flag::register(libc::SIGXFSZ, Arc::default())?;
        at_once::watch_faults(&FAULTS)?;
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

/// Faults of the program itself, which cannot go on after them.
const FAULTS: [libc::c_int; 7] = [
    libc::SIGABRT,
    libc::SIGBUS,
    libc::SIGFPE,
    libc::SIGILL,
    libc::SIGSEGV,
    libc::SIGSYS,
    libc::SIGTRAP,
];

/// Signals that end no program that does not ask for it: they are ignored, stop it or let it
/// go on, or Rust has them ignored (SIGPIPE).
const HARMLESS: [libc::c_int; 9] = [
    libc::SIGCHLD,
    libc::SIGCONT,
    libc::SIGPIPE,
    libc::SIGTSTP,
    libc::SIGTTIN,
    libc::SIGTTOU,
    libc::SIGURG,
    libc::SIGWINCH,
    libc::SIGXFSZ,
];

/// Signals that nobody can note.
const DEAF: [libc::c_int; 2] = [libc::SIGKILL, libc::SIGSTOP];

/// Those that are ignored where the system is not Linux: SIGIO, and SIGINFO, which is a key.
#[cfg(not(target_os = "linux"))]
const ELSEWHERE: &[libc::c_int] = &[libc::SIGIO, 29];
#[cfg(target_os = "linux")]
const ELSEWHERE: &[libc::c_int] = &[];

/// All that end a program unless it notes them (POSIX.1-2024, `<signal.h>`, default actions T
/// and A); on Linux those of real time and of its own too (`signal(7)`).
fn ends() -> impl Iterator<Item = u8> {
    let others = [&FAULTS[..], &HARMLESS, &DEAF, ELSEWHERE].concat();
    (1..32)
        .chain(real_time())
        .filter(move |signal| !others.contains(signal))
        .filter_map(|signal| u8::try_from(signal).ok())
}

#[cfg(target_os = "linux")]
fn real_time() -> std::ops::RangeInclusive<libc::c_int> {
    libc::SIGRTMIN()..=libc::SIGRTMAX()
}

/// Elsewhere they are few programs' business.
#[cfg(not(target_os = "linux"))]
fn real_time() -> std::ops::Range<libc::c_int> {
    0..0
}
