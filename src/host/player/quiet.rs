//! Keeps ALSA from writing into the screen. The one file with a foreign call.
#![allow(
    unsafe_code,
    reason = "ALSA prints its errors to standard error from any thread; only \
              snd_lib_error_set_handler stops it for all threads, and it is a C function"
)]

use std::ffi::{c_char, c_int};
use std::sync::Once;

use alsa_sys::{snd_lib_error_handler_t, snd_lib_error_set_handler};

/// The type of the handler but for its variable arguments, which Rust cannot yet take.
type Handler = unsafe extern "C" fn(*const c_char, c_int, *const c_char, c_int, *const c_char);

unsafe extern "C" fn ignore(
    _file: *const c_char,
    _line: c_int,
    _function: *const c_char,
    _error: c_int,
    _format: *const c_char,
) {
}

/// From now on ALSA keeps its errors to itself. They still come back as values.
pub(super) fn quiet() {
    static ONCE: Once = Once::new();
    ONCE.call_once(|| {
        // SAFETY: both are nullable pointers to C functions. The caller clears variable
        // arguments itself in the C ABIs of Linux, so a callee that reads none is sound.
        let handler = unsafe { std::mem::transmute::<Handler, snd_lib_error_handler_t>(ignore) };
        // SAFETY: only stores the pointer, which is valid for the life of the program.
        unsafe { snd_lib_error_set_handler(handler) };
    });
}
