//! The answers are marked: the chart with its chords, and what each mark says.

use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};

use super::hearing::{Stretch, hearing, repeat};
use super::layout::{about_line, draw_frame, sounding};
use crate::host::clock;
use crate::quiz::{Answered, Event, Hearing, Question, Session, State};
use crate::tui::app::{App, Screen};
use crate::tui::chart::{Cell, Chart};
use crate::tui::parts::{self, Hint};
use crate::tui::press::Press;

/// The screen of a marked question.
pub(in crate::tui) struct Marked {
    /// The ask whose mark is explained.
    shown: usize,
    stretch: Option<Stretch>,
    /// Whether the line with the answer in it was heard last.
    heard_mine: bool,
    /// The first line of what is said that is shown; drawing keeps it within what is said.
    first: std::cell::Cell<u16>,
}

const HINTS: [Hint; 13] = [
    ("Enter", "next"),
    ("Left Right", "another chord"),
    ("Space", "as it was"),
    ("m", "with my answer"),
    ("f", "fade to the other"),
    ("c", "this chord"),
    ("l", "loop"),
    ("_ : '", "bass, inner, top"),
    ("<", "slower"),
    ("k", "key"),
    ("[ ]", "volume"),
    ("?", "help"),
    ("Esc", "leave"),
];

/// How far a page goes.
const PAGE: u16 = 5;

impl Marked {
    /// Begins at the first answer that was not right.
    pub(in crate::tui) fn new(answered: &Answered) -> Self {
        let astray = answered.marks.iter().position(|mark| !mark.tier.is_right());
        Self {
            shown: astray.unwrap_or(0),
            stretch: None,
            heard_mine: false,
            first: std::cell::Cell::new(0),
        }
    }

    pub(in crate::tui) fn press(mut self, press: Press, app: &mut App) -> Option<Screen> {
        let Some(answered) = answered(app) else {
            app.follow();
            return None;
        };
        let count = answered.marks.len();
        let slot = self.slot(&answered.question);
        let mine = self.mine(answered).map(|(_, hearing)| hearing.clone());
        let now = clock::now();
        if let Some(first) = self.scrolled(press) {
            self.first.set(first);
            return Some(Screen::Marked(self));
        }
        if let Some(hearing) = hearing(press, Some(slot)) {
            self.heard_mine = false;
            app.practice.step(Event::Hear { hearing, now });
            return Some(Screen::Marked(self));
        }
        if repeat(press, &mut self.stretch, slot, app) {
            self.heard_mine = false;
            return Some(Screen::Marked(self));
        }
        let event = match (press, mine) {
            (Press::Enter, _) => Event::Next,
            (Press::Escape, _) => Event::Leave,
            (Press::Character('m'), Some(hearing)) => {
                self.heard_mine = true;
                Event::Hear { hearing, now }
            }
            (Press::Character('f'), Some(mine)) => {
                let other = if self.heard_mine { Hearing::Line } else { mine };
                self.heard_mine = !self.heard_mine;
                let hearing = Hearing::Instead(Box::new(other));
                Event::Hear { hearing, now }
            }
            (Press::Left | Press::Right, _) => {
                let step = if press == Press::Left { count - 1 } else { 1 };
                self.shown = (self.shown + step) % count;
                self.first.set(0);
                return Some(Screen::Marked(self));
            }
            _ => return Some(Screen::Marked(self)),
        };
        app.practice.step(event);
        if matches!(
            app.practice.session().map(Session::state),
            Some(State::Marked(_))
        ) {
            return Some(Screen::Marked(self));
        }
        app.follow();
        None
    }

    fn scrolled(&self, press: Press) -> Option<u16> {
        match press {
            Press::Up => Some(self.first.get().saturating_sub(1)),
            Press::PageUp => Some(self.first.get().saturating_sub(PAGE)),
            Press::Down => Some(self.first.get().saturating_add(1)),
            Press::PageDown => Some(self.first.get().saturating_add(PAGE)),
            _ => None,
        }
    }

    /// The chord that is explained.
    fn slot(&self, question: &Question) -> usize {
        let pointed = question.pointed.first().copied();
        question.asks[self.shown].slot().or(pointed).unwrap_or(0)
    }

    /// What else there is to compare the line with, and what that is called.
    fn mine<'a>(&self, answered: &'a Answered) -> Option<(&'static str, &'a Hearing)> {
        let hearing = answered.playback[self.shown].as_ref()?;
        let name = match hearing {
            Hearing::Other => "the other line",
            _ => "with my answer",
        };
        Some((name, hearing))
    }

    fn hints(&self, answered: &Answered) -> Vec<Hint> {
        let mine = self.mine(answered).map(|(name, _)| name);
        HINTS
            .into_iter()
            .filter_map(|(press, does)| match press {
                "m" => Some((press, mine?)),
                "f" => mine.map(|_| (press, does)),
                "Left Right" => (answered.marks.len() > 1).then_some((press, does)),
                _ => Some((press, does)),
            })
            .collect()
    }

    pub(in crate::tui) fn draw(&self, app: &App, frame: &mut Frame<'_>) {
        let theme = app.theme;
        let Some(answered) = answered(app) else {
            return;
        };
        let body = draw_frame(app, frame, &self.hints(answered));
        let question = &answered.question;
        let chart = Chart {
            line: &question.progression.line,
            cells: self.cells(answered, app),
            sounding: sounding(app, &question.progression.line),
            theme,
        };
        let said = self.said(answered, app);
        let room = body
            .height
            .saturating_sub(parts::lines_of(said.clone(), body.width) + 3);
        let height = chart.height(body.width, room.max(body.height / 4));
        let needed = parts::lines_of(said.clone(), body.width) + height + 3;
        // Of a low screen the words have every line that can be had.
        let gap = u16::from(body.height > needed);
        let reason = u16::from(body.height >= needed);
        let [about, _, lines, _, words, because] = Layout::vertical([
            Constraint::Length(1),
            Constraint::Length(gap),
            Constraint::Length(height),
            Constraint::Length(1),
            Constraint::Min(1),
            Constraint::Length(reason),
        ])
        .areas(body);
        frame.render_widget(Line::from(about_line(app, question)), about);
        frame.render_widget(chart, lines);
        self.draw_said(app, frame, said, words);
        let reason = format!("asked because: {}", answered.reason);
        let reason = Line::from(Span::styled(reason, theme.faint()));
        frame.render_widget(reason, because);
    }

    /// What is said, from the first line that is shown, and how much of it is left.
    fn draw_said(&self, app: &App, frame: &mut Frame<'_>, said: Vec<Line<'_>>, area: Rect) {
        let lines = parts::lines_of(said.clone(), area.width);
        if lines <= area.height {
            self.first.set(0);
            frame.render_widget(parts::wrapped(said), area);
            return;
        }
        let [words, more] =
            Layout::vertical([Constraint::Min(1), Constraint::Length(1)]).areas(area);
        let last = lines.saturating_sub(words.height);
        self.first.set(self.first.get().min(last));
        let first = self.first.get();
        frame.render_widget(parts::wrapped(said).scroll((first, 0)), words);
        let left = match last - first {
            0 => "Up: back".to_owned(),
            1 => "Down: 1 line more".to_owned(),
            left => format!("Down: {left} lines more"),
        };
        let left = Line::from(Span::styled(left, app.theme.faint()));
        frame.render_widget(left, more);
    }

    fn cells(&self, answered: &Answered, app: &App) -> Vec<Cell> {
        let theme = app.theme;
        let question = &answered.question;
        let slots = question.progression.line.slots();
        (0..slots.len())
            .map(|slot| {
                let name = slots[slot].numeral.written(theme.notation());
                let Some(ask) = question.ask_at(slot) else {
                    let matters = question.points_at(slot);
                    let style = if matters {
                        theme.strong()
                    } else {
                        theme.faint()
                    };
                    return Cell {
                        text: name,
                        sign: "",
                        is_current: false,
                        style,
                    };
                };
                let tier = answered.marks[ask].tier;
                let is_current = ask == self.shown && answered.marks.len() > 1;
                Cell {
                    text: name,
                    sign: theme.mark_sign(tier),
                    is_current,
                    style: if is_current {
                        theme.current()
                    } else {
                        theme.mark(tier)
                    },
                }
            })
            .collect()
    }

    fn said(&self, answered: &Answered, app: &App) -> Vec<Line<'static>> {
        let theme = app.theme;
        let notation = theme.notation();
        let ask = &answered.question.asks[self.shown];
        let mark = &answered.marks[self.shown];
        let mut lines = Vec::new();
        let sign = Span::styled(
            format!("{} ", theme.mark_sign(mark.tier)),
            theme.mark(mark.tier),
        );
        for (index, sentence) in ask
            .diagnosis(mark, answered.question.material(), notation)
            .into_iter()
            .enumerate()
        {
            if index == 0 {
                let first = Span::styled(sentence, theme.strong());
                lines.push(Line::from(vec![sign.clone(), first]));
            } else {
                lines.push(Line::from(sentence));
            }
        }
        if let Some(other) = &answered.question.other {
            let line = other.progression.line.written(notation);
            lines.push(Line::from(vec![
                Span::styled("The other line (m): ", theme.faint()),
                Span::raw(line),
            ]));
        }
        let catalogue = app.practice.catalogue();
        let told_by = ask.cue(answered.question.material());
        if let Some(device) = told_by.and_then(|id| catalogue.get(id)) {
            lines.push(Line::default());
            lines.push(Line::from(Span::styled(
                device.name().to_owned(),
                theme.strong(),
            )));
            lines.push(Line::from(device.explains.clone()));
            lines.push(Line::from(vec![
                Span::styled("What gives it away: ", theme.faint()),
                Span::raw(format!("{}.", device.tell)),
            ]));
        }
        if let Some(other) = mark.heard_as.as_ref().and_then(|id| catalogue.get(id)) {
            lines.push(Line::default());
            lines.push(Line::from(vec![
                Span::styled(format!("{} would have: ", other.name()), theme.faint()),
                Span::raw(format!("{}.", other.tell)),
            ]));
        }
        lines
    }
}

fn answered(app: &App) -> Option<&Answered> {
    match app.practice.session()?.state() {
        State::Marked(answered) => Some(answered),
        State::Waiting | State::Asking(_) | State::Finished => None,
    }
}
