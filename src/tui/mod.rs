//! The trainer in the terminal: event loop, presses, theme, screens. Owns how things
//! look and which press does what; knows no music rules.

mod app;
mod chart;
mod parts;
mod press;
mod screens;
mod theme;

use std::io;
use std::time::Duration;

use crossterm::event;

pub use app::{App, Setup};
pub use press::Press;
pub use theme::Theme;

/// How long the loop waits for a press while something moves, and while nothing does.
const MOVING: Duration = Duration::from_millis(15);
const RESTING: Duration = Duration::from_millis(60);

/// Runs the trainer until it is left.
///
/// # Errors
/// If the terminal cannot be read or written.
pub fn run(setup: Setup) -> io::Result<()> {
    let mut terminal = ratatui::try_init()?;
    let outcome = turn(&mut terminal, App::new(setup));
    ratatui::restore();
    outcome
}

fn turn(terminal: &mut ratatui::DefaultTerminal, mut app: App) -> io::Result<()> {
    while !app.is_over() {
        app.poll();
        terminal.draw(|frame| app.draw(frame))?;
        let patience = if app.is_moving() { MOVING } else { RESTING };
        if event::poll(patience)? {
            while event::poll(Duration::ZERO)? {
                if let Some(press) = Press::of(&event::read()?) {
                    app.press(press);
                }
            }
        }
    }
    Ok(())
}
