//! Where a pupil begins: one press starts the exercise that is due.

use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};
use ratatui::widgets::Paragraph;

use super::ProgressScreen;
use super::layout::{draw_status, status};
use crate::exercise::Exercise;
use crate::host::clock;
use crate::practice::{Due, Practice, due};
use crate::tui::app::{App, Screen};
use crate::tui::parts::{self, Hint};
use crate::tui::press::Press;
use crate::tui::status_message::StatusMessage;

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

/// The most columns for a learner's name.
const NAME: usize = 24;

/// How far a page goes.
const PAGE: usize = 10;

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
            Press::PageDown if count > 0 => self.selected = (self.selected + PAGE).min(count - 1),
            Press::PageUp => self.selected = self.selected.saturating_sub(PAGE),
            Press::Character('p') => {
                app.screen = Screen::Progress(ProgressScreen::new(app));
                return None;
            }
            Press::Character('q') | Press::Escape => app.is_over = true,
            Press::Character(_)
            | Press::Enter
            | Press::Up
            | Press::Down
            | Press::PageDown
            | Press::Left
            | Press::Right
            | Press::Backspace
            | Press::Interrupt
            | Press::Suspend => {}
        }
        Some(Screen::Home(self))
    }

    pub(in crate::tui) fn draw(&self, app: &App, frame: &mut Frame<'_>) {
        let theme = app.theme;
        let status = status(app);
        let places = parts::places(
            frame.area(),
            &HINTS,
            status.as_ref().map(StatusMessage::text),
        );
        let volume = format!("volume {}", app.practice.performer().level());
        let state = match &app.learner {
            Some(learner) => format!("{}   {volume}", parts::cut(learner, NAME, theme)),
            None => volume,
        };
        parts::head(frame, places.head, "plagal", &state, theme);
        parts::foot(frame, places.foot, &HINTS, theme);
        draw_status(app, frame, places.message);
        let care = if self.is_new {
            "New here? On headphones begin softly. Rest your ears every twenty minutes."
        } else {
            "Keep it soft enough to talk over, and rest your ears every twenty minutes."
        };
        let care = Line::from(Span::styled(care, theme.faint()));
        let welcome = match (places.body.height < LOW, self.is_new) {
            (false, _) => vec![Line::from("Hear what each chord does in its key."), care],
            (true, true) => vec![care],
            (true, false) => Vec::new(),
        };
        let greeting = match parts::lines_of(welcome.clone(), places.body.width) {
            0 => 0,
            lines => lines + 1,
        };
        let below = self.lines_below(app, places.body);
        let listed = places.body.height.saturating_sub(greeting + 2 + below);
        let [welcomed, head, list, gap, about] = Layout::vertical([
            Constraint::Length(greeting),
            Constraint::Length(1),
            Constraint::Length(listed.clamp(1, app.exercises.len().max(1) as u16)),
            Constraint::Length(1),
            Constraint::Min(0),
        ])
        .areas(places.body);
        frame.render_widget(parts::wrapped(welcome), welcomed);
        self.draw_list(app, frame, [head, list, gap]);
        frame.render_widget(parts::wrapped(self.about(app)), about);
    }

    /// What the selected exercise is about.
    fn about<'a>(&self, app: &'a App) -> Vec<Line<'a>> {
        let exercise = app.exercises.get(self.selected);
        exercise.map_or_else(Vec::new, |exercise| {
            vec![Line::from(exercise.about.as_str())]
        })
    }

    /// Lines for it, the most that any exercise needs, so that the list stands still; on a
    /// low screen as many as this one needs.
    fn lines_below(&self, app: &App, body: Rect) -> u16 {
        if body.height < LOW {
            return parts::lines_of(self.about(app), body.width).min(body.height / 3);
        }
        let lines = app
            .exercises
            .iter()
            .map(|exercise| parts::lines_of(vec![Line::from(exercise.about.as_str())], body.width));
        lines.max().unwrap_or(0).min(body.height / 3)
    }

    fn draw_list(&self, app: &App, frame: &mut Frame<'_>, [head, list, gap]: [Rect; 3]) {
        let theme = app.theme;
        let first = (self.selected + 1).saturating_sub(usize::from(list.height));
        let below = app.exercises.len() - first;
        let below = below.saturating_sub(usize::from(list.height));
        let title = title_columns(&app.exercises, list.width);
        let heading = format!(
            " {} {:>9}",
            parts::fitted("exercise", title, theme),
            "secure"
        );
        frame.render_widget(Line::from(Span::styled(heading, theme.faint())), head);
        let rows: Vec<Line<'_>> = (first..app.exercises.len())
            .map(|index| self.row(app, index, title))
            .collect();
        frame.render_widget(Paragraph::new(rows), list);
        let elsewhere = Span::styled(parts::elsewhere(first, below), theme.faint());
        frame.render_widget(Line::from(elsewhere).right_aligned(), gap);
    }

    fn row(&self, app: &App, index: usize, title: usize) -> Line<'static> {
        let theme = app.theme;
        let exercise = &app.exercises[index];
        let style = if index == self.selected {
            theme.current()
        } else {
            theme.text()
        };
        let due = &self.due[index];
        let note = if due.is_next { "due" } else { "" };
        let exercise = parts::fitted(&exercise.title, title, theme);
        Line::from(vec![
            Span::styled(format!(" {exercise} "), style),
            Span::raw(format!(" {:>2} of {:>2}  ", due.secure, due.devices)),
            Span::styled(note, theme.press()),
        ])
    }
}

/// The height of a body that has no line to spare for a greeting.
const LOW: u16 = 16;

/// Columns for the titles of exercises, beside what is secure and due.
fn title_columns(exercises: &[Exercise], width: u16) -> usize {
    const FEWEST: usize = 44;
    const BESIDE: usize = 16;
    let titles = exercises
        .iter()
        .map(|exercise| Span::raw(&exercise.title).width());
    let longest = titles.max().unwrap_or(0).max(FEWEST);
    longest
        .min(usize::from(width).saturating_sub(BESIDE))
        .max(1)
}
