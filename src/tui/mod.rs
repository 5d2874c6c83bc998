//! The trainer in the terminal: event loop, presses, theme, screens. Owns how things
//! look and which press does what; knows no music rules.

mod app;
mod chart;
mod parts;
mod press;
mod screens;
mod status_message;
mod terminal;
mod theme;

use std::io;
use std::time::Duration;

use crossterm::event::{self, Event};
use ratatui::DefaultTerminal;

use crate::host::signals::Signals;
use crate::practice::Practice;

pub use app::{App, Setup};
pub use press::Press;
pub use theme::Theme;

/// How long the loop waits for a press while something moves, and while nothing does.
const MOVING: Duration = Duration::from_millis(15);
const RESTING: Duration = Duration::from_millis(60);

/// Runs the trainer until it is left, a signal asks for its end, or the terminal can no
/// longer be read or written. The practice comes back in any case.
#[must_use = "the practice may hold answers to be settled"]
pub fn run(setup: Setup, signals: &Signals) -> (io::Result<()>, Practice) {
    let mut app = App::new(setup);
    let outcome = terminal::take().and_then(|mut terminal| {
        signals.watch_stops()?;
        turn(&mut terminal, &mut app, signals)
    });
    terminal::give_back();
    (outcome, app.practice)
}

fn turn(terminal: &mut DefaultTerminal, app: &mut App, signals: &Signals) -> io::Result<()> {
    while !app.is_over() && signals.ended().is_none() {
        app.poll();
        terminal.draw(|frame| app.draw(frame))?;
        if signals.take_suspended() || app.take_suspension() {
            app.hush();
            terminal::give_back();
            Signals::stop()?;
        }
        if signals.take_resumed() {
            terminal::take_again(terminal)?;
        }
        let patience = if app.is_moving() { MOVING } else { RESTING };
        if event::poll(patience)? {
            while event::poll(Duration::ZERO)? {
                match event::read()? {
                    Event::Paste(text) => app.paste(&text),
                    event => {
                        if let Some(press) = Press::of(&event) {
                            app.press(press);
                        }
                    }
                }
            }
        }
    }
    Ok(())
}
