//! What stands around every question: the head, what it is played on, the message.

use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

use crate::quiz::{self, State};
use crate::tui::app::App;
use crate::tui::chart::Chart;
use crate::tui::parts::{self, Hint};
use crate::tui::theme::Theme;

/// Draws head, hints and message, and says what is left for the question itself.
pub(super) fn draw_around(app: &App, frame: &mut Frame<'_>, hints: &[Hint]) -> Rect {
    let places = parts::places(frame.area(), hints, message(app).as_deref());
    draw_head(app, frame, places.head);
    parts::foot(frame, places.foot, hints, app.theme);
    draw_message(app, frame, places.message);
    places.body
}

/// The exercise, and which of its questions this is.
fn draw_head(app: &App, frame: &mut Frame<'_>, area: Rect) {
    let Some(session) = app.practice.session() else {
        return;
    };
    let drill = session.drill();
    let exercise = app
        .exercises
        .iter()
        .find(|exercise| exercise.id == drill.exercise);
    let title = exercise.map_or(drill.exercise.as_str(), |exercise| exercise.title.as_str());
    let done = session.tally().questions;
    let number = match session.state() {
        State::Marked(_) => done,
        State::Asking(_) | State::Waiting | State::Finished => done + 1,
    };
    let place = format!("{} of {}", number.min(drill.questions), drill.questions);
    parts::head(frame, area, title, &place, app.theme);
}

/// The latest message, or why nothing is heard.
pub(super) fn draw_message(app: &App, frame: &mut Frame<'_>, area: Rect) {
    if let Some(text) = message(app) {
        let line = Line::from(Span::styled(text, app.theme.warning()));
        frame.render_widget(parts::wrapped(vec![line]), area);
    }
}

/// What there is to tell.
pub(super) fn message(app: &App) -> Option<String> {
    let silent = match app.practice.performer().status() {
        crate::host::player::Status::Silent(fault) => Some(format!(
            "{fault}; `plagal render` writes a line to a sound file"
        )),
        crate::host::player::Status::Opening | crate::host::player::Status::Open(_) => None,
    };
    app.message.clone().or(silent)
}

/// Key, tempo and sound of a question, as far as they may be known.
pub(super) fn about_line(question: &quiz::Question, theme: Theme) -> Vec<Span<'static>> {
    let key = match question.key_given {
        quiz::KeyGiven::Nothing => "key not given".to_owned(),
        quiz::KeyGiven::Cadence | quiz::KeyGiven::Tonic => question.key().written(theme.notation()),
    };
    let meter = question.meter();
    let rest = format!(
        "   {meter}   {} beats a minute   {}",
        question.tempo, question.sound
    );
    vec![
        Span::styled(key, theme.strong()),
        Span::styled(rest, theme.faint()),
    ]
}

/// The slot that sounds now.
pub(super) fn sounding(app: &App, line: &crate::theory::Line) -> Option<usize> {
    let position = app.practice.performer().position()?;
    if position.is_line {
        Chart::slot_at(line, position.ticks)
    } else {
        None
    }
}
