//! What simulated learners are asked for.

/// How many devices there are, in families of this size.
pub(super) const DEVICES: usize = 40;
pub(super) const FAMILY: usize = 5;

/// How many answers are on offer.
pub(super) const ANSWERS: u32 = 5;

/// The family of a device.
pub(super) fn family(device: usize) -> usize {
    device / FAMILY
}
