//! `plagal play`: a line on the sound device.

use std::sync::Arc;
use std::thread;
use std::time::Duration;

use clap::Args;

use super::context::Context;
use super::failure::Failure;
use super::sounding::SoundingArguments;
use crate::host::player::{Cue, Player, Status};

/// How long a device may take to open.
const PATIENCE: Duration = Duration::from_secs(10);

/// How often the playhead is looked at.
const GLANCE: Duration = Duration::from_millis(20);

/// Sound numerals now
#[derive(Debug, Args)]
pub(super) struct Play {
    #[command(flatten)]
    sounding: SoundingArguments,
}

impl Play {
    pub(super) fn run(&self, context: &Context) -> Result<(), Failure> {
        let sounding = self.sounding.read(context)?;
        let mut player = Player::start(context.player.clone());
        match player.wait(PATIENCE) {
            Status::Open(_) => {}
            Status::Opening => return Err(Failure::NoSound("the device does not open".to_owned())),
            Status::Silent(fault) => return Err(Failure::NoSound(fault.to_string())),
        }
        let rate = player.rate();
        let samples: Arc<[f32]> = sounding.samples(rate).interleaved.into();
        let cue = player
            .play(Cue::new(samples, rate))
            .map_err(|refusal| Failure::NoSound(refusal.to_string()))?;
        while !player.has_ended(cue) {
            while player.poll().is_some() {}
            if let Status::Silent(fault) = player.status() {
                return Err(Failure::NoSound(fault.to_string()));
            }
            thread::sleep(GLANCE);
        }
        Ok(())
    }
}
