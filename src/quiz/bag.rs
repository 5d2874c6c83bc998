//! Which device a question asks where no scorer chooses.

use rand::seq::SliceRandom;
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::SeedableRng;

use super::drill::Drill;
use crate::devices::DeviceId;

/// The device of a drill's question number `index`, from 0: a bag of all its devices,
/// shuffled anew each time it is empty.
#[must_use]
pub fn from_bag(drill: &Drill, seed: u64, index: u32) -> &DeviceId {
    let count = drill.devices.len();
    let (bag, place) = (index as usize / count, index as usize % count);
    let mut order: Vec<usize> = (0..count).collect();
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    random.set_stream(u64::MAX - bag as u64);
    order.shuffle(&mut random);
    &drill.devices[order[place]]
}
