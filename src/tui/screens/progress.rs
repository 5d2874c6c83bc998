//! Where each device stands.

use ratatui::Frame;
use ratatui::text::{Line, Span};
use ratatui::widgets::Paragraph;

use super::around::{draw_told, told};
use crate::host::clock;
use crate::scorer::Standing;
use crate::tui::app::{App, Screen};
use crate::tui::parts::{self, Hint};
use crate::tui::press::Press;
use crate::tui::told::Told;

/// The screen of standings.
#[derive(Default)]
pub(in crate::tui) struct Progress {
    /// The first row that is shown.
    first: usize,
}

const HINTS: [Hint; 3] = [("Up Down", "scroll"), ("?", "help"), ("Esc", "home")];

/// Columns of a device's name.
const NAME: usize = 38;

/// Columns of everything else but the picture of an estimate.
const NUMBERS: usize = 24;

impl Progress {
    pub(in crate::tui) fn press(mut self, press: Press, app: &mut App) -> Option<Screen> {
        match press {
            Press::Down => {
                let last = heard(app).len().saturating_sub(1);
                self.first = (self.first + 1).min(last);
            }
            Press::Up => self.first = self.first.saturating_sub(1),
            Press::Escape | Press::Enter | Press::Character('q') => {
                app.go_home();
                return None;
            }
            Press::Character(_)
            | Press::Left
            | Press::Right
            | Press::Backspace
            | Press::Interrupt => {}
        }
        Some(Screen::Progress(self))
    }

    pub(in crate::tui) fn draw(&self, app: &App, frame: &mut Frame<'_>) {
        let theme = app.theme;
        let told = told(app);
        let places = parts::places(frame.area(), &HINTS, told.as_ref().map(Told::text));
        let standings = heard(app);
        let count = format!(
            "{} of {} devices asked",
            standings.len(),
            app.practice.catalogue().devices().len()
        );
        parts::head(frame, places.head, "Progress", &count, theme);
        parts::foot(frame, places.foot, &HINTS, theme);
        draw_told(app, frame, places.message);
        let mut lines = vec![Line::from(Span::styled(
            format!(
                " {:<NAME$}{:>7}  {:<9}{}",
                "device", "right", "standing", "chance of naming"
            ),
            theme.faint(),
        ))];
        let picture = usize::from(places.body.width).saturating_sub(NAME + NUMBERS);
        if standings.is_empty() {
            lines.push(Line::from(" Nothing has been answered yet."));
        }
        lines.extend(
            standings
                .iter()
                .skip(self.first)
                .map(|standing| row(app, standing, picture)),
        );
        frame.render_widget(Paragraph::new(lines), places.body);
    }
}

/// The devices that have been asked, the least certain first.
fn heard(app: &App) -> Vec<Standing> {
    let mut standings = app.practice.keeper().scorer().standings(clock::now());
    standings.retain(|standing| standing.asked > 0);
    standings.sort_by(|one, other| one.estimate.total_cmp(&other.estimate));
    standings
}

/// One device; its estimate is drawn in so many columns.
fn row(app: &App, standing: &Standing, picture: usize) -> Line<'static> {
    let theme = app.theme;
    let device = app.practice.catalogue().get(&standing.device);
    let name = device.map_or(standing.device.as_str(), |device| device.name());
    let right = format!("{}/{}", standing.right, standing.asked);
    let last = picture.clamp(1, 40) - 1;
    let at = |share: f64| ((share * last as f64).round() as usize).min(last);
    let (low, high) = (at(standing.low), at(standing.high));
    let middle = at(standing.estimate).clamp(low, high.max(low));
    let (line, dot) = if theme.ascii {
        ("-", "o")
    } else {
        ("─", "●")
    };
    let band: String = (0..=last)
        .map(|place| match place {
            place if place == middle => dot,
            place if (low..=high).contains(&place) => line,
            _ => " ",
        })
        .collect();
    Line::from(vec![
        Span::raw(format!(
            " {name:<NAME$.NAME$}{right:>7}  {:<9}",
            standing.word.as_str()
        )),
        Span::styled(band, theme.press()),
        Span::styled(
            format!(" {:.0} %", 100.0 * standing.estimate),
            theme.faint(),
        ),
    ])
}
