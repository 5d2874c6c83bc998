//! A trainer without sound or journal, and its screen as text.

use std::sync::Arc;
use std::time::Duration;

use plagal::devices::Catalogue;
use plagal::exercise::{Exercise, Known};
use plagal::host::library::EXERCISES;
use plagal::host::player::{Player, Settings};
use plagal::practice::{Keeper, Performer, Person, Practice};
use plagal::synth;
use plagal::theory::BareSix;
use plagal::tui::{App, Press, Setup, Theme};
use ratatui::Terminal;
use ratatui::backend::TestBackend;

pub(crate) struct Desk {
    pub(crate) app: App,
    terminal: Terminal<TestBackend>,
}

/// A trainer on its home screen, of this size.
pub(crate) fn desk(width: u16, height: u16, ascii: bool) -> Desk {
    let catalogue = Arc::new(Catalogue::built_in());
    let person = Person {
        learner: "mira",
        journal: None,
        rescue: &[],
    };
    let (keeper, told) = Keeper::open(&person, &catalogue, 0);
    let mut player = Player::start(Settings::off());
    player.wait(Duration::from_secs(5));
    let performer = Performer::new(player, synth::built_in().to_vec(), 440.0);
    let sounds: Vec<&str> = synth::built_in()
        .iter()
        .map(|sound| sound.id.as_str())
        .collect();
    let known = Known {
        catalogue: &catalogue,
        sounds: &sounds,
    };
    let exercises = EXERCISES
        .iter()
        .map(|(name, text)| {
            Exercise::read(text, known).unwrap_or_else(|_| panic!("{name} is sound"))
        })
        .collect();
    let setup = Setup {
        practice: Practice::new(Arc::clone(&catalogue), keeper, performer),
        exercises,
        theme: Theme {
            colour: false,
            ascii,
        },
        six: BareSix::AddedSixth,
        begin: None,
        learner: None,
        told,
    };
    let terminal = Terminal::new(TestBackend::new(width, height)).expect("memory can be drawn on");
    Desk {
        app: App::new(setup),
        terminal,
    }
}

impl Desk {
    pub(crate) fn press(&mut self, presses: &[Press]) -> &mut Self {
        for press in presses {
            self.app.press(*press);
            self.app.poll();
        }
        self
    }

    pub(crate) fn typed(&mut self, text: &str) -> &mut Self {
        let presses: Vec<Press> = text.chars().map(Press::Character).collect();
        self.press(&presses)
    }

    /// The screen, its lines without trailing spaces.
    pub(crate) fn screen(&mut self) -> String {
        self.terminal
            .draw(|frame| self.app.draw(frame))
            .expect("memory can be drawn on");
        let buffer = self.terminal.backend().buffer();
        let width = usize::from(buffer.area.width);
        let rows: Vec<String> = buffer
            .content
            .chunks(width)
            .map(|row| {
                row.iter()
                    .map(ratatui::buffer::Cell::symbol)
                    .collect::<String>()
            })
            .map(|row| row.trim_end().to_owned())
            .collect();
        rows.join("\n")
    }
}
