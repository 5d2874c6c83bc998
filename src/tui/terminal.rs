//! The terminal while the trainer has it: raw, on its other screen, with pastes told from
//! presses; given back however the trainer ends.

use std::io;

use crossterm::event::{DisableBracketedPaste, EnableBracketedPaste};
use crossterm::execute;
use ratatui::DefaultTerminal;

/// Takes the terminal.
///
/// # Errors
/// If it is none, or cannot be changed.
pub(super) fn take() -> io::Result<DefaultTerminal> {
    let terminal = ratatui::try_init()?;
    execute!(io::stdout(), EnableBracketedPaste)?;
    // A panic elsewhere is told by whoever waits for that thread: it must neither write over
    // the screen nor give the terminal back while the trainer goes on.
    let restoring = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |panic| {
        if std::thread::current().name() == Some("main") {
            restoring(panic);
        }
    }));
    Ok(terminal)
}

/// Gives it back. Where it is gone there is nothing to give back to.
pub(super) fn give_back() {
    let _ = execute!(io::stdout(), DisableBracketedPaste);
    ratatui::restore();
}

/// Takes it again after a stop, and has everything drawn anew.
///
/// # Errors
/// If it cannot be changed.
pub(super) fn take_again(terminal: &mut DefaultTerminal) -> io::Result<()> {
    crossterm::terminal::enable_raw_mode()?;
    execute!(
        io::stdout(),
        crossterm::terminal::EnterAlternateScreen,
        EnableBracketedPaste,
        crossterm::terminal::Clear(crossterm::terminal::ClearType::All)
    )?;
    // What was drawn last is forgotten; `clear` would first wait for the cursor's place.
    terminal.swap_buffers();
    Ok(())
}
