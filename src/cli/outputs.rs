//! `plagal outputs`: the sound devices that can be chosen.

use clap::Args;

use super::context::{Context, print};
use super::failure::Failure;
use super::table::table;
use crate::host::player::{self, Choice, DeviceName};

/// List the sound devices that --audio-output can choose
#[derive(Debug, Args)]
pub(super) struct Outputs {}

impl Outputs {
    pub(super) fn run(context: &Context) -> Result<(), Failure> {
        let devices = player::devices().map_err(|fault| Failure::NoSound(fault.to_string()))?;
        let default = player::default_device().map(|device| device.id);
        let is_default = |device: &DeviceName| default.as_ref() == Some(&device.id);
        let is_chosen = |device: &DeviceName| match &context.player.choice {
            Choice::Device(id) => *id == device.id,
            Choice::Off | Choice::Default => false,
        };
        if context.json {
            let listed = devices.iter().map(|device| {
                serde_json::json!({
                    "id": device.id,
                    "name": device.name,
                    "default": is_default(device),
                    "chosen": is_chosen(device),
                })
            });
            let listed: Vec<_> = listed.collect();
            let buffer = context.player.buffer.frames();
            return context.print_json(&serde_json::json!({ "outputs": listed, "buffer": buffer }));
        }
        let rows = devices.iter().map(|device| {
            vec![
                context.style.safe(&device.id),
                context.style.safe(&device.name),
                marks(is_default(device), is_chosen(device)).to_owned(),
            ]
        });
        print(&table(&rows.collect::<Vec<_>>()))
    }
}

/// What stands beside a device.
fn marks(is_default: bool, is_chosen: bool) -> &'static str {
    match (is_default, is_chosen) {
        (true, true) => "system default, chosen",
        (true, false) => "system default",
        (false, true) => "chosen",
        (false, false) => "",
    }
}
