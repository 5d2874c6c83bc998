//! Where each device stands, and what is known of the one that is chosen.

use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};
use ratatui::widgets::Paragraph;

use super::layout::{draw_status, status};
use crate::host::clock;
use crate::report::{self, Confused, Device};
use crate::tui::app::{App, Screen};
use crate::tui::parts::{self, Hint};
use crate::tui::press::Press;
use crate::tui::status_message::StatusMessage;

/// The screen of standings.
pub(in crate::tui) struct ProgressScreen {
    /// The devices that have been asked, the lowest estimate first.
    standings: Vec<Device>,
    confusions: Vec<Confused>,
    selected: usize,
}

const HINTS: [Hint; 4] = [
    ("Up Down", "choose"),
    ("PgUp PgDn", "by ten"),
    ("?", "help"),
    ("Esc", "home"),
];

/// How far a page goes.
const PAGE: usize = 10;

/// The lines that are kept for the chosen device, and the least that a list must have.
const CHOSEN: u16 = 7;
const LEAST: u16 = 5;

impl ProgressScreen {
    pub(in crate::tui) fn new(app: &App) -> Self {
        let progress = report::Progress::of(app.practice.keeper().scorer(), clock::now());
        Self {
            standings: progress.asked().into_iter().cloned().collect(),
            confusions: progress.confusions,
            selected: 0,
        }
    }

    pub(in crate::tui) fn press(mut self, press: Press, app: &mut App) -> Option<Screen> {
        let last = self.standings.len().saturating_sub(1);
        match press {
            Press::Down => self.selected += 1,
            Press::Up => self.selected = self.selected.saturating_sub(1),
            Press::PageDown => self.selected += PAGE,
            Press::PageUp => self.selected = self.selected.saturating_sub(PAGE),
            Press::Escape | Press::Enter | Press::Character('q') => {
                app.go_home();
                return None;
            }
            Press::Character(_)
            | Press::Left
            | Press::Right
            | Press::Backspace
            | Press::Interrupt
            | Press::Suspend => {}
        }
        self.selected = self.selected.min(last);
        Some(Screen::Progress(self))
    }

    pub(in crate::tui) fn draw(&self, app: &App, frame: &mut Frame<'_>) {
        let theme = app.theme;
        let status = status(app);
        let places = parts::places(
            frame.area(),
            &HINTS,
            status.as_ref().map(StatusMessage::text),
        );
        let all = app.practice.catalogue().devices().len();
        let count = format!("{} of {all} devices asked", self.standings.len());
        let title = match &app.learner {
            Some(learner) => format!("Progress of {learner}"),
            None => "Progress".to_owned(),
        };
        parts::head(frame, places.head, &title, &count, theme);
        parts::foot(frame, places.foot, &HINTS, theme);
        draw_status(app, frame, places.message);
        let Some(chosen) = self.standings.get(self.selected) else {
            let nothing = "Nothing has been answered yet. Each device that a drill asks for comes \
                 here: how often it was named rightly, and how likely you would name it now.";
            frame.render_widget(parts::wrapped(vec![Line::from(nothing)]), places.body);
            return;
        };
        let below = if places.body.height >= LEAST + CHOSEN {
            CHOSEN
        } else {
            0
        };
        let [head, list, gap, about] = Layout::vertical([
            Constraint::Length(1),
            Constraint::Min(1),
            Constraint::Length(1),
            Constraint::Length(below),
        ])
        .areas(places.body);
        let columns = Columns::of(list.width);
        let heading = Span::styled(columns.heading(), theme.faint());
        frame.render_widget(Line::from(heading), head);
        self.draw_list(app, frame, list, gap);
        frame.render_widget(parts::wrapped(self.about(chosen, app)), about);
    }

    fn draw_list(&self, app: &App, frame: &mut Frame<'_>, list: Rect, gap: Rect) {
        let height = usize::from(list.height);
        let first = (self.selected + 1).saturating_sub(height);
        let below = self.standings.len().saturating_sub(first + height);
        let columns = Columns::of(list.width);
        let rows: Vec<Line<'_>> = self
            .standings
            .iter()
            .enumerate()
            .skip(first)
            .take(height)
            .map(|(at, standing)| columns.row(app, standing, at == self.selected))
            .collect();
        frame.render_widget(Paragraph::new(rows), list);
        let elsewhere = Span::styled(parts::elsewhere(first, below), app.theme.faint());
        frame.render_widget(Line::from(elsewhere).right_aligned(), gap);
    }

    /// What the chosen device's figures mean, what gives it away, and what it is taken for.
    fn about<'a>(&self, chosen: &Device, app: &'a App) -> Vec<Line<'a>> {
        let theme = app.theme;
        let catalogue = app.practice.catalogue();
        let percent = |share: f64| format!("{:.0}", 100.0 * share);
        let mut lines = vec![Line::from(vec![
            Span::styled(format!("{}: ", chosen.standing), theme.strong()),
            Span::raw(format!(
                "{}. You would name it about {} times in 100 ({} to {} with 95 % certainty).",
                chosen.meaning,
                percent(chosen.estimate),
                percent(chosen.low),
                percent(chosen.high)
            )),
        ])];
        if let Some(device) = catalogue.get(&chosen.id) {
            lines.push(Line::from(vec![
                Span::styled("What gives it away: ", theme.faint()),
                Span::raw(format!("{}.", device.tell)),
            ]));
        }
        let heard: Vec<String> = self
            .confusions
            .iter()
            .filter(|confusion| confusion.device == chosen.id)
            .filter_map(|confusion| {
                let name = catalogue.get(&confusion.heard_as)?.name();
                Some(format!("{name} ({} times)", confusion.times))
            })
            .collect();
        if !heard.is_empty() {
            lines.push(Line::from(vec![
                Span::styled("Taken for: ", theme.faint()),
                Span::raw(format!("{}.", heard.join(", "))),
            ]));
        }
        lines
    }
}

/// The widths of what changes with the screen: names, and the pictures of estimates.
struct Columns {
    name: usize,
    picture: usize,
}

impl Columns {
    fn of(width: u16) -> Self {
        const BESIDE: usize = 30;
        const NAME: usize = 38;
        const PICTURE: (usize, usize) = (10, 41);
        let spare = usize::from(width).saturating_sub(BESIDE);
        let (least, most) = PICTURE;
        let picture = match spare {
            0..20 => 0,
            _ => spare.saturating_sub(NAME).clamp(least, most),
        };
        Self {
            name: (spare - picture).min(NAME),
            picture,
        }
    }

    fn heading(&self) -> String {
        let Self { name, picture } = *self;
        let scale = match picture {
            0 => String::new(),
            _ => format!("0{:>1$}", "100 %", picture - 1),
        };
        format!(
            " {:<name$}{:>8}  {:<9}{:>7}   {scale}",
            "device", "right", "standing", "chance"
        )
    }

    fn row(&self, app: &App, standing: &Device, is_selected: bool) -> Line<'static> {
        let theme = app.theme;
        let device = app.practice.catalogue().get(&standing.id);
        let name = device.map_or(standing.id.as_str(), |device| device.name());
        let right = format!("{}/{}", standing.right, standing.asked);
        let style = if is_selected {
            theme.current()
        } else {
            theme.text()
        };
        Line::from(vec![
            Span::styled(format!(" {}", parts::fitted(name, self.name, theme)), style),
            Span::raw(format!("{right:>8}  {:<9}", standing.standing)),
            Span::raw(format!("{:>5.0} %   ", 100.0 * standing.estimate)),
            Span::styled(self.band(app, standing), theme.press()),
        ])
    }

    /// The estimate and what surrounds it, on a scale from 0 to 100 %.
    fn band(&self, app: &App, standing: &Device) -> String {
        let Some(last) = self.picture.checked_sub(1) else {
            return String::new();
        };
        let at = |share: f64| ((share * last as f64).round() as usize).min(last);
        let (low, high) = (at(standing.low), at(standing.high));
        let middle = at(standing.estimate).clamp(low, high.max(low));
        let (line, dot) = if app.theme.ascii {
            ("-", "o")
        } else {
            ("─", "●")
        };
        (0..=last)
            .map(|place| match place {
                place if place == middle => dot,
                place if (low..=high).contains(&place) => line,
                _ => " ",
            })
            .collect()
    }
}
