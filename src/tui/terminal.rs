//! The terminal while the trainer has it: raw, on its other screen, with pastes told from
//! presses; given back however the trainer ends.

use std::io;

use crossterm::event::{DisableBracketedPaste, EnableBracketedPaste};
use crossterm::execute;
use crossterm::terminal::{Clear, ClearType, EnterAlternateScreen, enable_raw_mode};
use ratatui::DefaultTerminal;
use ratatui::Terminal;
use ratatui::backend::CrosstermBackend;

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
    enable_raw_mode()?;
    execute!(io::stdout(), EnterAlternateScreen, EnableBracketedPaste)
}

/// Gives it back. Where it is gone there is nothing to give back to.
pub(super) fn give_back() {
    let _ = execute!(io::stdout(), DisableBracketedPaste);
    let _ = ratatui::try_restore();
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
