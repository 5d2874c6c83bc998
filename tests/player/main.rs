//! Playback: the deck without a device, and devices heard on a sound server without a card.

mod deck;
mod device;
mod loss;
mod no_alloc;
mod null_sink;
mod performer;
mod silence;
