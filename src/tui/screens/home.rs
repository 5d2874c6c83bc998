//! Where a pupil begins: one press starts the exercise that is due.

use ratatui::Frame;
use ratatui::layout::{Constraint, Layout};
use ratatui::text::{Line, Span};
use ratatui::widgets::Paragraph;

use super::Progress;
use super::around::{draw_message, message};
use crate::exercise::Exercise;
use crate::host::clock;
use crate::practice::{Due, Practice, due};
use crate::tui::app::{App, Screen};
use crate::tui::parts::{self, Hint};
use crate::tui::press::Press;

/// The first screen.
pub(in crate::tui) struct Home {
    selected: usize,
    due: Vec<Due>,
    is_new: bool,
}

const HINTS: [Hint; 6] = [
    ("Enter", "begin"),
    ("Up Down", "choose"),
    ("p", "progress"),
    ("[ ]", "volume"),
    ("?", "help"),
    ("q", "quit"),
];

impl Home {
    pub(in crate::tui) fn new(exercises: &[Exercise], practice: &Practice) -> Self {
        let standings = practice.keeper().scorer().standings(clock::now());
        let due = due(exercises, &standings);
        let selected = due.iter().position(|due| due.is_next).unwrap_or(0);
        let is_new = standings.iter().all(|standing| standing.asked == 0);
        Self {
            selected,
            due,
            is_new,
        }
    }

    pub(in crate::tui) fn press(mut self, press: Press, app: &mut App) -> Option<Screen> {
        let count = app.exercises.len();
        match press {
            Press::Enter | Press::Character(' ') if count > 0 => {
                app.begin_exercise(self.selected);
                return None;
            }
            Press::Down if count > 0 => self.selected = (self.selected + 1) % count,
            Press::Up if count > 0 => self.selected = (self.selected + count - 1) % count,
            Press::Character('p') => {
                app.screen = Screen::Progress(Progress::default());
                return None;
            }
            Press::Character('q') | Press::Escape => app.is_over = true,
            Press::Character(_)
            | Press::Enter
            | Press::Up
            | Press::Down
            | Press::Left
            | Press::Right
            | Press::Backspace
            | Press::Interrupt => {}
        }
        Some(Screen::Home(self))
    }

    pub(in crate::tui) fn draw(&self, app: &App, frame: &mut Frame<'_>) {
        let theme = app.theme;
        let places = parts::places(frame.area(), &HINTS, message(app).as_deref());
        let volume = format!("volume {}", app.practice.performer().level());
        parts::head(frame, places.head, "plagal", &volume, theme);
        parts::foot(frame, places.foot, &HINTS, theme);
        draw_message(app, frame, places.message);
        let listed = app.exercises.len() as u16;
        let [welcome, _, list, gap, about] = Layout::vertical([
            Constraint::Length(2),
            Constraint::Length(1),
            Constraint::Length(listed.min(places.body.height.saturating_sub(8))),
            Constraint::Length(1),
            Constraint::Min(3),
        ])
        .areas(places.body);
        let care = if self.is_new {
            "New here? On headphones begin softly. Rest your ears every twenty minutes."
        } else {
            "Keep it soft enough to talk over, and rest your ears every twenty minutes."
        };
        let first = (self.selected + 1).saturating_sub(usize::from(list.height));
        let below = app.exercises.len() - first;
        let below = below.saturating_sub(usize::from(list.height));
        let lines = vec![
            Line::from("Hear what each chord does in its key."),
            Line::from(Span::styled(care, theme.faint())),
        ];
        frame.render_widget(Paragraph::new(lines), welcome);
        frame.render_widget(
            Line::from(Span::styled(elsewhere(first, below), theme.faint())).right_aligned(),
            gap,
        );
        let rows: Vec<Line<'_>> = (first..app.exercises.len())
            .map(|index| self.row(app, index))
            .collect();
        frame.render_widget(Paragraph::new(rows), list);
        if let Some(exercise) = app.exercises.get(self.selected) {
            let lines = vec![Line::from(exercise.about.clone())];
            frame.render_widget(parts::wrapped(lines), about);
        }
    }

    fn row(&self, app: &App, index: usize) -> Line<'static> {
        let theme = app.theme;
        let exercise = &app.exercises[index];
        let style = if index == self.selected {
            theme.current()
        } else {
            theme.text()
        };
        let due = &self.due[index];
        let note = if due.is_next { "due" } else { "" };
        Line::from(vec![
            Span::styled(format!(" {:<44} ", exercise.title), style),
            Span::raw(format!(" {:>2} of {:>2} secure  ", due.secure, due.devices)),
            Span::styled(note, theme.press()),
        ])
    }
}

/// How much of the list lies outside the window.
fn elsewhere(above: usize, below: usize) -> String {
    match (above, below) {
        (0, 0) => String::new(),
        (0, below) => format!("{below} more below"),
        (above, 0) => format!("{above} more above"),
        (above, below) => format!("{above} more above, {below} below"),
    }
}
