//! Plays rendered buffers on the sound device. Owns the device, the thread that watches
//! it and the source that the device's callback drains; may not render or know music.
//!
//! [`Player::start`] returns at once and never fails: where there is no device, the
//! player says why ([`Player::status`]), goes on without sound and keeps looking for
//! one. Nothing here blocks but [`Player::wait`].
//!
//! ```
//! use plagal::host::player::{Cue, Player, Settings};
//! use std::sync::Arc;
//!
//! let mut player = Player::start(Settings::default());
//! let silence: Arc<[f32]> = vec![0.0; 2 * 480].into();
//! match player.play(Cue::new(silence, player.rate())) {
//!     Ok(cue) => println!("{:?}", player.playhead().filter(|head| head.cue == cue)),
//!     Err(refusal) => println!("{refusal}"),
//! }
//! while let Some(notice) = player.poll() {
//!     println!("{notice}");
//! }
//! ```
//!
//! Buffers are stereo, interleaved, at [`Player::rate`] frames a second. A device that
//! comes back may run at another rate; a cue at the wrong one is refused, so keep the
//! passage and render it again.

mod clip;
mod command;
mod cue;
mod fault;
mod level;
mod link;
mod mixer;
mod notice;
#[expect(
    clippy::module_inception,
    reason = "the type and its folder share a name"
)]
mod player;
mod playhead;
mod settings;
mod watch;

#[cfg(feature = "audio")]
mod device;
#[cfg(feature = "audio")]
mod feed;
#[cfg(all(feature = "audio", target_os = "linux"))]
mod quiet;

#[cfg(not(feature = "audio"))]
#[path = "mute.rs"]
mod device;

pub use cue::{Cue, CueId, Refusal, Region};
pub use device::{default_device, devices};
pub use fault::Fault;
pub use level::Level;
pub use link::{Remote, link};
pub use mixer::Mixer;
pub use notice::{Notice, Status};
pub use player::Player;
pub use playhead::{Motion, Playhead};
pub use settings::{BufferSize, Choice, DeviceName, Output, Settings};
