//! What is done inside a signal's handler, where nothing may be allocated or locked: the
//! terminal is given back and the program dies of the signal.
#![allow(
    unsafe_code,
    reason = "handlers and the calls that they may make (POSIX.1-2024, 2.4.3) are C functions"
)]

use std::fs::{File, OpenOptions};
use std::io::{self, IsTerminal};
use std::mem::MaybeUninit;
use std::os::fd::{AsRawFd, RawFd};
use std::ptr;
use std::sync::OnceLock;
use std::sync::atomic::{AtomicPtr, Ordering};

use libc::{c_int, c_void, siginfo_t};

/// What the terminal must be given.
struct Owed {
    terminal: RawFd,
    modes: libc::termios,
    farewell: String,
}

/// Nothing, or what is owed now.
static OWED: AtomicPtr<Owed> = AtomicPtr::new(ptr::null_mut());

/// What was done at each fault before: a message about a stack that is too deep.
static BEFORE: OnceLock<Vec<(c_int, libc::sigaction)>> = OnceLock::new();

/// Notes the terminal's modes before they are changed, and what to write to it: both are
/// given to it if a signal ends the program at once. Without a terminal nothing is owed.
pub fn owe_terminal(farewell: String) {
    let Some(terminal) = terminal() else { return };
    let mut modes = MaybeUninit::uninit();
    // SAFETY: the call fills what it is given, and says so by 0.
    let modes = unsafe {
        if libc::tcgetattr(terminal, modes.as_mut_ptr()) != 0 {
            return;
        }
        modes.assume_init()
    };
    let owed = Box::new(Owed {
        terminal,
        modes,
        farewell,
    });
    // Never freed: a handler may be looking at it. There is one for each time that the
    // terminal is taken.
    OWED.store(Box::into_raw(owed), Ordering::Release);
}

/// The terminal is as it was, and nothing is owed.
pub fn terminal_is_back() {
    OWED.store(ptr::null_mut(), Ordering::Release);
}

fn terminal() -> Option<RawFd> {
    static OPENED: OnceLock<Option<File>> = OnceLock::new();
    if io::stdin().is_terminal() {
        return Some(libc::STDIN_FILENO);
    }
    let open = || OpenOptions::new().write(true).open("/dev/tty").ok();
    OPENED.get_or_init(open).as_ref().map(AsRawFd::as_raw_fd)
}

fn give_back() {
    let owed = OWED.swap(ptr::null_mut(), Ordering::AcqRel);
    // SAFETY: what was stored there is never freed.
    let Some(owed) = (unsafe { owed.as_ref() }) else {
        return;
    };
    let bytes = owed.farewell.as_bytes();
    // SAFETY: both may be called in a handler; the pointers are of values that live on.
    unsafe {
        let written = libc::write(libc::STDOUT_FILENO, bytes.as_ptr().cast(), bytes.len());
        // Where nobody reads any longer there is nobody to tell.
        let _ = written;
        libc::tcsetattr(owed.terminal, libc::TCSANOW, &raw const owed.modes);
    }
}

/// Gives the terminal back and dies of the signal, so that whoever waits for the program
/// learns of it. May be called in a handler.
pub fn die_of(signal: u8) {
    give_back();
    let signal = c_int::from(signal);
    // SAFETY: all may be called in a handler, with a set of this function's own.
    unsafe {
        libc::signal(signal, libc::SIG_DFL);
        let mut set = MaybeUninit::uninit();
        libc::sigemptyset(set.as_mut_ptr());
        libc::sigaddset(set.as_mut_ptr(), signal);
        libc::pthread_sigmask(libc::SIG_UNBLOCK, set.as_ptr(), ptr::null_mut());
        libc::raise(signal);
    }
}

/// Has `action` done in the handler of a signal; it must do only what may be done there.
pub(super) fn register(signal: c_int, action: impl Fn() + Send + Sync + 'static) -> io::Result<()> {
    // SAFETY: the one action given sets a flag or calls `die_of`.
    unsafe { signal_hook::low_level::register(signal, action) }.map(|_| ())
}

/// Has the terminal given back before the program dies of a fault.
pub(super) fn watch_faults(faults: &[c_int]) -> io::Result<()> {
    let mut before = Vec::new();
    for signal in faults {
        let mut known = MaybeUninit::uninit();
        // SAFETY: the call fills what it is given, and says so by 0.
        let known = unsafe {
            if libc::sigaction(*signal, ptr::null(), known.as_mut_ptr()) != 0 {
                return Err(io::Error::last_os_error());
            }
            known.assume_init()
        };
        before.push((*signal, known));
    }
    if BEFORE.set(before).is_err() {
        return Ok(());
    }
    for signal in faults {
        // SAFETY: the whole of a `sigaction` may be 0, and the handler is of the kind that
        // SA_SIGINFO asks for. A stack that is too deep leaves room on the other one alone.
        let done = unsafe {
            let mut action: libc::sigaction = std::mem::zeroed();
            action.sa_sigaction = at_fault as *const () as usize;
            action.sa_flags = libc::SA_SIGINFO | libc::SA_ONSTACK | libc::SA_NODEFER;
            libc::sigaction(*signal, &raw const action, ptr::null_mut())
        };
        if done != 0 {
            return Err(io::Error::last_os_error());
        }
    }
    Ok(())
}

extern "C" fn at_fault(signal: c_int, info: *mut siginfo_t, context: *mut c_void) {
    give_back();
    let known = BEFORE.get().into_iter().flatten();
    let before = known
        .filter(|(known, _)| *known == signal)
        .find(|(_, action)| {
            action.sa_flags & libc::SA_SIGINFO != 0 && action.sa_sigaction != libc::SIG_DFL
        });
    if let Some((_, action)) = before {
        // SAFETY: with SA_SIGINFO it is a function of these parameters; it was in place before
        // and is given what the system would have given it.
        unsafe {
            let act: extern "C" fn(c_int, *mut siginfo_t, *mut c_void) =
                std::mem::transmute(action.sa_sigaction);
            act(signal, info, context);
        }
    }
    die_of(u8::try_from(signal).unwrap_or_default());
}
