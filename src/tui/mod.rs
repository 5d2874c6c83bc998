//! The trainer in the terminal: event loop, presses, theme, screens. Owns how things
//! look and which press does what; knows no music rules.

mod app;
mod chart;
mod parts;
mod press;
mod screens;
mod status_message;
mod theme;

use std::io;
use std::time::Duration;

use crossterm::event;

use crate::practice::Practice;

pub use app::{App, Setup};
pub use press::Press;
pub use theme::Theme;

/// How long the loop waits for a press while something moves, and while nothing does.
const MOVING: Duration = Duration::from_millis(15);
const RESTING: Duration = Duration::from_millis(60);

/// Runs the trainer until it is left, or until the terminal can no longer be read or
/// written. The practice comes back either way.
#[must_use = "the practice may hold answers to be settled"]
pub fn run(setup: Setup) -> (io::Result<()>, Practice) {
    let mut app = App::new(setup);
    let outcome = ratatui::try_init().and_then(|mut terminal| turn(&mut terminal, &mut app));
    ratatui::restore();
    (outcome, app.practice)
}

fn turn(terminal: &mut ratatui::DefaultTerminal, app: &mut App) -> io::Result<()> {
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
