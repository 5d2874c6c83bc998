//! The terminal while the trainer has it: raw, on its other screen, with pastes told from
//! presses; given back however the trainer ends.

use std::io;

use crossterm::Command;
use crossterm::cursor::Show;
use crossterm::event::{DisableBracketedPaste, EnableBracketedPaste};
use crossterm::execute;
use crossterm::terminal::{
    Clear, ClearType, EnterAlternateScreen, LeaveAlternateScreen, enable_raw_mode,
};
use ratatui::DefaultTerminal;
use ratatui::Terminal;
use ratatui::backend::CrosstermBackend;

use crate::host::signals::{owe_terminal, terminal_is_back};

/// Takes the terminal.
///
/// # Errors
/// If it is none, or cannot be changed.
pub(super) fn take() -> io::Result<DefaultTerminal> {
    // Not by `ratatui::init`, whose hook gives the terminal back at a panic of any thread:
    // one of another thread is told by whoever waits for it, and the trainer goes on.
    let telling = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |panic| {
        if std::thread::current().name() == Some("main") {
            give_back();
            telling(panic);
        }
    }));
    change()?;
    Terminal::new(CrosstermBackend::new(io::stdout()))
}

fn change() -> io::Result<()> {
    owe_terminal(farewell());
    enable_raw_mode()?;
    execute!(io::stdout(), EnterAlternateScreen, EnableBracketedPaste)
}

/// What gives the screen back, for a signal that ends the trainer at once.
fn farewell() -> String {
    let mut text = String::new();
    let written = DisableBracketedPaste
        .write_ansi(&mut text)
        .and_then(|()| LeaveAlternateScreen.write_ansi(&mut text))
        .and_then(|()| Show.write_ansi(&mut text));
    written.expect("a string takes everything");
    text
}

/// Gives it back. Where it is gone there is nothing to give back to.
pub(super) fn give_back() {
    let _ = execute!(io::stdout(), DisableBracketedPaste);
    let _ = ratatui::try_restore();
    terminal_is_back();
}

/// Takes it again after a stop, and has everything drawn anew.
///
/// # Errors
/// If it cannot be changed.
pub(super) fn take_again(terminal: &mut DefaultTerminal) -> io::Result<()> {
    change()?;
    execute!(io::stdout(), Clear(ClearType::All))?;
    // What was drawn last is forgotten; `clear` would first wait for the cursor's place.
    terminal.swap_buffers();
    Ok(())
}
