//! `plagal devices`: the catalogue, or one device in full.

use clap::Args;
use serde::Serialize;

use super::context::{Context, print};
use super::failure::Failure;
use super::shelves;
use super::table::{labelled, table};
use crate::devices::{Device, DeviceId, Example};

/// Show the catalogue of devices, or one device in full
#[derive(Debug, Args)]
pub(super) struct Devices {
    /// The device
    #[arg(value_name = "ID")]
    id: Option<String>,
}

#[derive(Serialize)]
struct ListedDevice<'d> {
    id: &'d DeviceId,
    names: &'d [String],
    family: &'static str,
    pattern: String,
    modes: Vec<&'static str>,
    tell: &'d str,
    explains: &'d str,
    neighbours: &'d [DeviceId],
    source: &'d str,
    share: f64,
    examples: Vec<String>,
    counterexamples: Vec<String>,
    asked: bool,
}

impl Devices {
    pub(super) fn run(&self, context: &Context) -> Result<(), Failure> {
        let mut shelf = shelves::devices(context);
        shelves::catalogue(&shelf)?;
        if let Some(id) = &self.id {
            let device = shelves::find("device", &mut shelf, id)?;
            return if context.json {
                context.print_json(&serde_json::json!({ "devices": [listed(device)] }))
            } else {
                print(&in_full(device, context))
            };
        }
        let devices = shelf.things.iter().map(|known| &known.thing);
        if context.json {
            let devices: Vec<ListedDevice<'_>> = devices.map(listed).collect();
            context.print_json(&serde_json::json!({ "devices": devices }))?;
        } else {
            let rows = devices.map(|device| {
                vec![
                    device.id.to_string(),
                    device.family.name().to_owned(),
                    modes(device).join(", "),
                    context.style.safe(device.name()),
                ]
            });
            print(&table(&rows.collect::<Vec<_>>()))?;
        }
        shelves::finish(shelf)
    }
}

fn listed(device: &Device) -> ListedDevice<'_> {
    let written = |examples: &[Example]| {
        let examples = examples.iter();
        examples.map(|example| text(example, device)).collect()
    };
    ListedDevice {
        id: &device.id,
        names: &device.names,
        family: device.family.name(),
        pattern: device.pattern_text(),
        modes: modes(device),
        tell: &device.tell,
        explains: &device.explains,
        neighbours: &device.neighbours,
        source: &device.source,
        share: device.share,
        examples: written(&device.examples),
        counterexamples: written(&device.counterexamples),
        asked: device.asked,
    }
}

fn modes(device: &Device) -> Vec<&'static str> {
    device.modes.iter().map(|mode| mode.name()).collect()
}

/// As a device's file writes it: the mode only where it is not the device's first.
fn text(example: &Example, device: &Device) -> String {
    if device.modes.first() == Some(&example.mode) {
        example.line.to_string()
    } else {
        format!("{}: {}", example.mode, example.line)
    }
}

fn in_full(device: &Device, context: &Context) -> String {
    let safe = |text: &str| context.style.safe(text);
    let mut out = format!(
        "{}\n",
        context.style.strong(&safe(&device.names.join(", ")))
    );
    let mut row = |label: &str, text: &str| {
        out += &labelled(label, &safe(text), 15, 92);
    };
    row("id", device.id.as_str());
    row("family", device.family.name());
    row("modes", &modes(device).join(", "));
    row("by ear", &device.tell);
    row("how it works", &device.explains);
    row("pattern", &device.pattern_text());
    let neighbours: Vec<&str> = device.neighbours.iter().map(DeviceId::as_str).collect();
    row("confused with", &neighbours.join(", "));
    row("source", &device.source);
    if !device.asked {
        row("questions", "none: it is only recognised");
    }
    for (label, examples) in [
        ("example", &device.examples),
        ("no example", &device.counterexamples),
    ] {
        for example in examples {
            let line = example.line.written(context.notation());
            row(label, &format!("{}: {line}", example.mode));
        }
    }
    out
}
