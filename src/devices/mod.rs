//! Named harmonic idioms: what they are made of and where a line holds them. Owns the
//! catalogue; may not touch chance or files.

mod id;

pub use id::{DeviceId, NotADeviceId};
