//! The body of an instrument as a fundsp graph of filters. Modal layers are weighted by
//! its response once a note, which costs nothing while they sound; noise runs through it.

use fundsp::prelude32::{
    AudioUnit, Net, bell_hz, db_amp, highpass_hz, highshelf_hz, lowpass_hz, lowshelf_hz, pass,
};

use super::sound::{Filter, FilterKind};

/// The filters in a row, at `rate` frames a second.
pub(super) fn body(filters: &[Filter], rate: f64) -> Net {
    let mut net = Net::wrap(Box::new(pass()));
    for filter in filters {
        net = net >> Net::wrap(unit(*filter, rate));
    }
    net.set_sample_rate(rate);
    net
}

/// The corner of a filter at `rate`: the highest that is stable, if it lies above.
pub(super) fn corner(hertz: f64, rate: f64) -> f32 {
    hertz.min(rate * 0.45) as f32
}

fn unit(filter: Filter, rate: f64) -> Box<dyn AudioUnit> {
    let (hertz, q) = (corner(filter.hertz, rate), filter.q as f32);
    let gain = db_amp(filter.gain as f32);
    match filter.kind {
        FilterKind::Bell => Box::new(bell_hz(hertz, q, gain)),
        FilterKind::LowShelf => Box::new(lowshelf_hz(hertz, q, gain)),
        FilterKind::HighShelf => Box::new(highshelf_hz(hertz, q, gain)),
        FilterKind::LowPass => Box::new(lowpass_hz(hertz, q)),
        FilterKind::HighPass => Box::new(highpass_hz(hertz, q)),
    }
}

/// The body's amplification at `hertz`, as a factor.
pub(super) fn weight(body: &mut Net, hertz: f64) -> f64 {
    body.response(0, hertz)
        .expect("a row of linear filters has a response")
        .norm()
}
