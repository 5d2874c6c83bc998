//! A question is open: the chart with its gaps, and the answers on offer or a line to
//! type in.

use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};
use ratatui::widgets::Paragraph;

use super::hearing::{Stretch, hearing, repeat};
use super::layout::{about_line, draw_frame, sounding};
use crate::document::is_invisible;
use crate::host::clock;
use crate::practice::Practice;
use crate::quiz::{self, AnswerManner, Event, State};
use crate::tui::app::{App, Screen};
use crate::tui::chart::{Cell, Chart};
use crate::tui::parts::{self, Hint};
use crate::tui::press::Press;
use crate::tui::status_message::StatusMessage;
use crate::tui::theme::Theme;

/// The screen of an open question.
#[derive(Default)]
pub(in crate::tui) struct AskingScreen {
    typed: String,
    /// The chord that the next press of `x` takes in or out, where chords are the answer.
    cursor: usize,
    stretch: Option<Stretch>,
}

/// The presses that choose an answer, in the order of the keyboard's upper row.
const CHOICES: [char; 12] = ['1', '2', '3', '4', '5', '6', '7', '8', '9', '0', '-', '='];

/// The most characters that can be typed.
const LONGEST: usize = 48;

/// How many lines part what stands on the screen, and the least that a chart needs.
const GAPS: u16 = 3;
const LEAST_CHART: u16 = 4;

const HINTS: [Hint; 10] = [
    ("Space", "again"),
    ("Left Right", "another chord"),
    ("c", "this chord"),
    ("l", "loop"),
    ("_ : '", "bass, inner, top"),
    ("<", "slower"),
    ("k", "key"),
    ("[ ]", "volume"),
    ("?", "help"),
    ("Esc", "leave"),
];

/// The hints that mean something to a question.
fn hints(asking: &quiz::Asking) -> Vec<Hint> {
    let question = &asking.question;
    HINTS
        .into_iter()
        .filter(|(press, _)| match *press {
            "Left Right" => question.asks.len() > 1,
            "c" | "l" => question.other.is_none(),
            "k" => !question.asks_for_home(),
            _ => true,
        })
        .collect()
}

impl AskingScreen {
    pub(in crate::tui) fn press(mut self, press: Press, app: &mut App) -> Option<Screen> {
        if self.hear(press, app) {
            return Some(Screen::Asking(self));
        }
        let Some(asking) = open(app) else {
            app.follow();
            return None;
        };
        let current = asking.current;
        let Some(event) = self.event(press, asking) else {
            return Some(Screen::Asking(self));
        };
        app.practice.step(event);
        let Some(asking) = open(app) else {
            app.follow();
            return None;
        };
        // What was misread stays to be put right.
        let taken = asking.current != current || asking.open().all(|ask| ask != current);
        if taken && press == Press::Enter {
            self.typed.clear();
        }
        Some(Screen::Asking(self))
    }

    /// Adds what can be seen of the first line of a pasted text to what is typed; whether
    /// anything is typed here.
    pub(in crate::tui) fn paste(&mut self, text: &str, practice: &Practice) -> bool {
        let Some(State::Asking(asking)) = practice.session().map(quiz::Session::state) else {
            return false;
        };
        if !is_typed(asking) {
            return false;
        }
        let room = LONGEST.saturating_sub(self.typed.chars().count());
        let line = text.lines().next().unwrap_or_default();
        let visible = line.chars().filter(|one| !is_invisible(*one));
        self.typed.extend(visible.take(room));
        true
    }

    /// Whether the press was one that makes something sound.
    fn hear(&mut self, press: Press, app: &mut App) -> bool {
        let Some(asking) = open(app) else {
            return false;
        };
        let is_between_words =
            asking.ask().manner() == AnswerManner::Words && !self.typed.is_empty();
        if press == Press::Character(' ') && is_between_words {
            return false;
        }
        let slot = self.slot(asking);
        if press == Press::Character('k') && asking.question.asks_for_home() {
            let text = "home is what is asked: the key can be heard after the mark";
            app.status = Some(StatusMessage::Aside(text.to_owned()));
            return true;
        }
        if let Some(hearing) = hearing(press, slot) {
            let now = clock::now();
            app.practice.step(Event::Hear { hearing, now });
            return true;
        }
        slot.is_some_and(|slot| repeat(press, &mut self.stretch, slot, app))
    }

    /// The chord that the question is about just now; none where two lines are compared.
    fn slot(&self, asking: &quiz::Asking) -> Option<usize> {
        let ask = asking.ask();
        let pointed = asking.question.pointed.first().copied();
        match (ask.slot(), &asking.question.other) {
            (Some(slot), _) => Some(slot),
            (None, Some(_)) => None,
            (None, None) if ask.manner() == AnswerManner::OnChart => Some(self.cursor),
            (None, None) => pointed.or(Some(0)),
        }
    }

    /// What the press means to the session; nothing if it changes the screen alone.
    fn event(&mut self, press: Press, asking: &quiz::Asking) -> Option<Event> {
        let manner = asking.ask().manner();
        let now = clock::now();
        let turned = |from: usize, count: usize| {
            let step = if press == Press::Left { count - 1 } else { 1 };
            (from + step) % count
        };
        match press {
            Press::Escape => Some(Event::Leave),
            Press::Left | Press::Right if manner == AnswerManner::OnChart => {
                let slots = asking.question.progression.line.slots().len();
                self.cursor = turned(self.cursor, slots);
                None
            }
            Press::Left | Press::Right => Some(Event::Select {
                ask: turned(asking.current, asking.question.asks.len()),
            }),
            Press::Character('x') if manner == AnswerManner::OnChart => {
                Some(Event::Toggle { slot: self.cursor })
            }
            Press::Backspace => {
                self.typed.pop();
                None
            }
            Press::Enter if self.typed.is_empty() => {
                asking.is_complete().then_some(Event::Submit { now })
            }
            Press::Enter => Some(Event::Type {
                text: self.typed.clone(),
                now,
            }),
            Press::Character(character) => {
                if is_typed(asking) && self.typed.chars().count() < LONGEST {
                    self.typed.push(character);
                }
                let choice = CHOICES.iter().position(|press| *press == character);
                let choice = choice.filter(|_| manner == AnswerManner::Offered)?;
                Some(Event::Choose { choice, now })
            }
            Press::Up
            | Press::Down
            | Press::PageUp
            | Press::PageDown
            | Press::Interrupt
            | Press::Suspend => None,
        }
    }

    pub(in crate::tui) fn draw(&self, app: &App, frame: &mut Frame<'_>) {
        let theme = app.theme;
        let Some(asking) = open(app) else {
            draw_frame(app, frame, &HINTS);
            return;
        };
        let body = draw_frame(app, frame, &hints(asking));
        let question = &asking.question;
        let chart = Chart {
            line: &question.progression.line,
            cells: self.cells(asking, theme),
            sounding: sounding(app, &question.progression.line),
            theme,
        };
        let answers_height = self.answers_height(asking, body.width);
        let asked = vec![prompt(app, asking)];
        let prompt_height = parts::lines_of(asked.clone(), body.width).max(1);
        let room = body
            .height
            .saturating_sub(answers_height + prompt_height + 1);
        // Of a low screen the chart has the lines that would part it from the rest.
        let gap = u16::from(room >= GAPS + LEAST_CHART);
        let height = chart.height(body.width, room.saturating_sub(GAPS * gap));
        let [about, _, lines, _, prompt, _, answers, explained] = Layout::vertical([
            Constraint::Length(1),
            Constraint::Length(gap),
            Constraint::Length(height),
            Constraint::Length(gap),
            Constraint::Length(prompt_height),
            Constraint::Length(gap),
            Constraint::Length(answers_height),
            Constraint::Min(0),
        ])
        .areas(body);
        frame.render_widget(Line::from(about_line(app, question)), about);
        if question.other.is_some() {
            let bars = question.progression.line.bars();
            let text = format!("Two lines of {bars} bars, one after the other.");
            frame.render_widget(Line::from(text), lines);
        } else {
            frame.render_widget(chart, lines);
        }
        frame.render_widget(parts::wrapped(asked), prompt);
        self.draw_answers(app, asking, frame, answers);
        frame.render_widget(parts::wrapped(explanation(app, asking)), explained);
    }

    fn answers_height(&self, asking: &quiz::Asking, width: u16) -> u16 {
        let labels = asking.ask().labels(crate::theory::Notation::Screen);
        if labels.is_empty() {
            return 2;
        }
        (labels.len() as u16).div_ceil(columns(width, &labels)) + 1
    }

    fn draw_answers(&self, app: &App, asking: &quiz::Asking, frame: &mut Frame<'_>, area: Rect) {
        let theme = app.theme;
        let labels = asking.ask().labels(theme.notation());
        if asking.ask().manner() == AnswerManner::OnChart {
            let hint = [
                ("Left Right", "to a chord"),
                ("x", "mark it"),
                ("Enter", "done"),
            ];
            parts::foot(frame, area, &hint, theme);
            return;
        }
        if labels.is_empty() {
            let example = match asking.ask().example() {
                example if self.typed.is_empty() => format!("  {example}"),
                _ => String::new(),
            };
            let typed = Line::from(vec![
                Span::styled("> ", theme.press()),
                Span::raw(self.typed.clone()),
                Span::styled(" ", theme.current()),
                Span::styled(example, theme.faint()),
            ]);
            frame.render_widget(typed, area);
            return;
        }
        let columns = usize::from(columns(area.width, &labels));
        let cell = usize::from(area.width) / columns;
        let chosen = asking.ask().given(theme.notation());
        let lines: Vec<Line<'_>> = labels
            .chunks(columns)
            .enumerate()
            .map(|(row, chunk)| {
                let spans = chunk.iter().enumerate().flat_map(|(column, label)| {
                    let press = CHOICES.get(row * columns + column).copied().unwrap_or(' ');
                    let style = if chosen.as_ref() == Some(label) {
                        theme.current()
                    } else {
                        theme.text()
                    };
                    let pad = cell.saturating_sub(4 + label.chars().count());
                    [
                        Span::styled(format!(" {press}  "), theme.press()),
                        Span::styled(label.clone(), style),
                        Span::raw(" ".repeat(pad)),
                    ]
                });
                Line::from(spans.collect::<Vec<_>>())
            })
            .collect();
        frame.render_widget(Paragraph::new(lines), area);
    }
}

/// What is asked now.
fn prompt(app: &App, asking: &quiz::Asking) -> Line<'static> {
    let text = if asking.is_complete() && asking.question.asks.len() > 1 {
        "All answered: Enter marks them.".to_owned()
    } else {
        let notation = app.theme.notation();
        asking.question.prompt_of(asking.ask(), notation)
    };
    Line::from(Span::styled(text, app.theme.strong()))
}

/// What tells devices apart that do not come apart by themselves.
fn explanation(app: &App, asking: &quiz::Asking) -> Vec<Line<'static>> {
    let catalogue = app.practice.catalogue();
    let devices = asking.explained.iter().filter_map(|id| catalogue.get(id));
    let mut lines: Vec<Line<'static>> = devices
        .map(|device| {
            Line::from(vec![
                Span::styled(format!("{}: ", device.name()), app.theme.strong()),
                Span::raw(format!("{}.", device.tell)),
            ])
        })
        .collect();
    if !lines.is_empty() {
        lines.insert(0, Line::from("These do not come apart yet. Listen for:"));
    }
    lines
}

/// How many answers stand side by side.
fn columns(width: u16, labels: &[String]) -> u16 {
    let widest = labels
        .iter()
        .map(|label| label.chars().count())
        .max()
        .unwrap_or(0) as u16;
    (width / (widest + 6).max(18)).clamp(1, 6)
}

fn is_typed(asking: &quiz::Asking) -> bool {
    match asking.ask().manner() {
        AnswerManner::Typed | AnswerManner::Words => true,
        AnswerManner::Offered | AnswerManner::OnChart => false,
    }
}

fn open(app: &App) -> Option<&quiz::Asking> {
    match app.practice.session()?.state() {
        State::Asking(asking) => Some(asking),
        State::Waiting | State::Marked(_) | State::Finished => None,
    }
}

impl AskingScreen {
    /// What the chart shows while a question is open.
    fn cells(&self, asking: &quiz::Asking, theme: Theme) -> Vec<Cell> {
        let question = &asking.question;
        let slots = question.progression.line.slots();
        let chosen = asking.ask().marked_slots();
        let cell = |slot: usize| {
            let ask = question.ask_at(slot);
            let is_current = match chosen {
                Some(_) => slot == self.cursor,
                None => ask.is_some() && ask == Some(asking.current),
            };
            let given = || slots[slot].numeral.written(theme.notation());
            let text = match ask.map(|ask| question.asks[ask].given(theme.notation())) {
                Some(given) => given.unwrap_or_else(|| "?".to_owned()),
                None if question.given.contains(&slot) => given(),
                None if question.pointed.contains(&slot) => "?".to_owned(),
                None if chosen.is_some_and(|chosen| chosen.contains(&slot)) => "out".to_owned(),
                None => theme.hidden().to_owned(),
            };
            let matters = ask.is_some() || text == "?" || text == "out";
            let style = match (is_current, matters) {
                (true, _) => theme.current(),
                (false, true) => theme.strong(),
                (false, false) => theme.faint(),
            };
            Cell {
                text,
                sign: "",
                is_current,
                style,
            }
        };
        (0..slots.len()).map(cell).collect()
    }
}
