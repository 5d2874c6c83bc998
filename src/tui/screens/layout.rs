//! What stands around every question: the head, what it is played on, the message.

use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::{Line, Span};

use crate::host::player::{Fault, Status};
use crate::quiz::{self, KeyGiven, Session, State};
use crate::tui::app::App;
use crate::tui::chart::Chart;
use crate::tui::parts::{self, Hint};
use crate::tui::status_message::StatusMessage;

/// Draws head, hints and message, and says what is left for the question itself.
pub(super) fn draw_frame(app: &App, frame: &mut Frame<'_>, hints: &[Hint]) -> Rect {
    let status = status(app);
    let places = parts::places(
        frame.area(),
        hints,
        status.as_ref().map(StatusMessage::text),
    );
    draw_head(app, frame, places.head);
    parts::foot(frame, places.foot, hints, app.theme);
    draw_status(app, frame, places.message);
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
pub(super) fn draw_status(app: &App, frame: &mut Frame<'_>, area: Rect) {
    if let Some(status) = status(app) {
        let line = Line::from(Span::styled(
            status.text().to_owned(),
            status.style(app.theme),
        ));
        frame.render_widget(parts::wrapped(vec![line]), area);
    }
}

/// What there is to tell.
pub(super) fn status(app: &App) -> Option<StatusMessage> {
    let silent = match app.practice.performer().status() {
        Status::Silent(Fault::TurnedOff) => {
            Some(StatusMessage::Aside(Fault::TurnedOff.to_string()))
        }
        Status::Silent(fault) => Some(StatusMessage::Fault(format!(
            "{fault}; `plagal render` writes a line to a sound file"
        ))),
        Status::Opening | Status::Open(_) => None,
    };
    app.status.clone().or(silent)
}

/// What a line is played in and on, as far as it may be known.
pub(super) fn about_line(app: &App, question: &quiz::Question) -> Vec<Span<'static>> {
    let theme = app.theme;
    let is_marked = matches!(
        app.practice.session().map(Session::state),
        Some(State::Marked(_))
    );
    let key = match question.key_given {
        KeyGiven::Nothing if !is_marked => "key not given".to_owned(),
        KeyGiven::Nothing | KeyGiven::Cadence | KeyGiven::Tonic => {
            question.key().written(theme.notation())
        }
    };
    let meter = question.meter();
    let sound = app.practice.performer().title_of(&question.sound);
    let rest = format!("   {meter}   {} beats a minute   {sound}", question.tempo);
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
