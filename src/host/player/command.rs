//! What the remote tells the mixer.

use super::{Cue, CueId, Region};

/// What the mixer is told; read on the audio thread, so plain data.
#[derive(Debug)]
pub(super) enum Command {
    Play {
        id: CueId,
        cue: Cue,
        /// Begin where the present cue is, not where the new one says.
        here: bool,
    },
    Stop,
    Pause,
    Resume,
    Seek(u64),
    Repeat(Option<Region>),
    /// A factor on amplitude, 0 to 1.
    Gain(f32),
}
