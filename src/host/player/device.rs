//! Opens and lists the system's sound devices. The only file that knows cpal and rodio's
//! device side.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

use cpal::traits::{DeviceTrait, HostTrait};
use cpal::{Error, ErrorKind};
use rodio::{DeviceSinkBuilder, DeviceSinkError, MixerDeviceSink};

use super::feed::Feed;
use super::link::link;
use super::watch::Opened;
use super::{Choice, DeviceName, Fault, Output, Settings};

/// Errors after which every further one is slowed down: a dead ALSA stream reports
/// hundreds of thousands a second.
const STORM: u32 = 20;
const STORM_PAUSE: Duration = Duration::from_millis(2);

/// The thread on which the system's sound is asked.
const SOUND_THREAD: &str = "sound";

/// Opens the device that `settings` name and sets a mixer going on it.
pub(super) fn open(settings: &Settings) -> Result<Opened, Fault> {
    guarded(|| opened(settings))
}

/// Sound libraries panic where the system's configuration is broken: that is silence, and
/// not the end of the trainer.
fn guarded<T: Send>(ask: impl FnOnce() -> Result<T, Fault> + Send) -> Result<T, Fault> {
    // On a thread of its own, whose panics are told here and nowhere else.
    let asked = std::thread::scope(|scope| {
        let thread = std::thread::Builder::new().name(SOUND_THREAD.to_owned());
        match thread.spawn_scoped(scope, ask) {
            Ok(asking) => asking.join(),
            Err(error) => Ok(Err(Fault::System(error.to_string()))),
        }
    });
    asked.unwrap_or_else(|panic| {
        let said = panic
            .downcast_ref::<String>()
            .map(String::as_str)
            .or_else(|| panic.downcast_ref::<&str>().copied());
        Err(Fault::System(plain(
            said.unwrap_or("the sound library failed"),
        )))
    })
}

fn opened(settings: &Settings) -> Result<Opened, Fault> {
    let device = find(&settings.choice)?;
    let dead = Arc::new(AtomicBool::new(false));
    let wanted = cpal::BufferSize::Fixed(settings.buffer.frames());
    let (sink, block) = match start(&device, wanted, &dead) {
        Ok(sink) => (sink, Some(settings.buffer.frames())),
        // Some devices fix their own block.
        Err(Fault::Unsupported) => (start(&device, cpal::BufferSize::Default, &dead)?, None),
        Err(fault) => return Err(fault),
    };
    let rate = sink.config().sample_rate();
    let channels = sink.config().channel_count();
    let (remote, mixer) = link(rate.get(), settings.level);
    sink.mixer().add(Feed::new(mixer, channels, rate));
    let output = Output {
        device: name(&device),
        rate: rate.get(),
        channels: channels.get(),
        block,
    };
    Ok(Opened {
        output,
        remote,
        dead,
        stream: Box::new(sink),
    })
}

/// The devices that could be chosen. May take a second where many are probed.
///
/// # Errors
/// If the system's sound cannot be asked.
pub fn devices() -> Result<Vec<DeviceName>, Fault> {
    hush();
    guarded(|| {
        let devices = cpal::default_host().output_devices();
        let devices = devices.map_err(|error| fault(&error))?;
        Ok(devices.map(|device| name(&device)).collect())
    })
}

/// The device that the system would choose, if there is one.
#[must_use]
pub fn default_device() -> Option<DeviceName> {
    hush();
    let device = guarded(|| Ok(cpal::default_host().default_output_device()));
    device.ok().flatten().map(|device| name(&device))
}

/// ALSA writes to standard error unless told not to.
fn hush() {
    #[cfg(target_os = "linux")]
    super::quiet::quiet();
}

fn find(choice: &Choice) -> Result<cpal::Device, Fault> {
    hush();
    match choice {
        Choice::Off => Err(Fault::TurnedOff),
        Choice::Default => cpal::default_host()
            .default_output_device()
            .ok_or(Fault::NoDevice),
        Choice::Device(text) => {
            let missing = || Fault::NoSuchDevice(text.clone());
            let id: cpal::DeviceId = text.parse().map_err(|_| missing())?;
            let host = cpal::host_from_id(id.host()).map_err(|error| fault(&error))?;
            host.device_by_id(&id).ok_or_else(missing)
        }
    }
}

fn start(
    device: &cpal::Device,
    block: cpal::BufferSize,
    dead: &Arc<AtomicBool>,
) -> Result<MixerDeviceSink, Fault> {
    let dead = Arc::clone(dead);
    let mut errors = 0u32;
    let mut sink = DeviceSinkBuilder::from_device(device.clone())
        .map_err(|error| sink_fault(&error))?
        .with_buffer_size(block)
        .with_error_callback(move |error: Error| {
            errors = errors.saturating_add(1);
            if is_final(error.kind()) {
                dead.store(true, Ordering::Relaxed);
            }
            if errors > STORM {
                std::thread::sleep(STORM_PAUSE);
            }
        })
        .open_stream()
        .map_err(|error| sink_fault(&error))?;
    sink.log_on_drop(false);
    Ok(sink)
}

/// Whether a stream that reports this can never sound again. Backend errors and breaks
/// also come in bursts from healthy streams and prove nothing.
fn is_final(kind: ErrorKind) -> bool {
    matches!(
        kind,
        ErrorKind::StreamInvalidated | ErrorKind::DeviceNotAvailable
    )
}

fn sink_fault(error: &DeviceSinkError) -> Fault {
    match error {
        DeviceSinkError::PlayError(error)
        | DeviceSinkError::DefaultSinkConfigError(error)
        | DeviceSinkError::BuildError(error)
        | DeviceSinkError::SupportedConfigsError(error) => fault(error),
        DeviceSinkError::NoDevice => Fault::NoDevice,
        DeviceSinkError::UnsupportedSampleFormat => Fault::Unsupported,
    }
}

fn fault(error: &Error) -> Fault {
    match error.kind() {
        ErrorKind::DeviceNotAvailable | ErrorKind::HostUnavailable => Fault::NoDevice,
        ErrorKind::DeviceBusy => Fault::Busy,
        ErrorKind::PermissionDenied => Fault::Denied,
        ErrorKind::UnsupportedConfig | ErrorKind::InvalidInput => Fault::Unsupported,
        ErrorKind::StreamInvalidated => Fault::Lost,
        // cpal's list is open; the rest has nothing that a pupil could act on.
        _ => Fault::System(plain(&error.to_string())),
    }
}

fn name(device: &cpal::Device) -> DeviceName {
    let id = device
        .id()
        .map_or_else(|_| String::new(), |id| id.to_string());
    let name = device
        .description()
        .map_or_else(|_| id.clone(), |description| plain(description.name()));
    DeviceName { id, name }
}

/// Names and messages come from outside: no control characters.
fn plain(text: &str) -> String {
    text.chars().filter(|c| !c.is_control()).collect()
}
