//! Writes samples as a WAV file (RIFF/WAVE, the format of Microsoft and IBM, 1991).

use std::fmt;
use std::io::{Seek, Write};

use hound::{SampleFormat, WavSpec, WavWriter};
use rand::{RngExt as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;

use crate::synth::Samples;

/// How a value is stored.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Depth {
    /// 16-bit whole numbers, dithered: what every program reads.
    Sixteen,
    /// 24-bit whole numbers.
    TwentyFour,
    /// 32-bit floating point: the samples as they are.
    Float,
}

/// Why samples could not be written.
#[derive(Debug)]
pub struct NotWritten(hound::Error);

impl fmt::Display for NotWritten {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the WAV file could not be written: {}", self.0)
    }
}

impl std::error::Error for NotWritten {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        Some(&self.0)
    }
}

impl From<hound::Error> for NotWritten {
    fn from(error: hound::Error) -> Self {
        Self(error)
    }
}

/// Writes `samples` to `target`, which is flushed at the end.
///
/// # Errors
///
/// Whatever `target` answers; a file longer than 4 GiB.
pub fn write_wav(
    samples: &Samples,
    depth: Depth,
    target: impl Write + Seek,
) -> Result<(), NotWritten> {
    let (bits_per_sample, sample_format) = match depth {
        Depth::Sixteen => (16, SampleFormat::Int),
        Depth::TwentyFour => (24, SampleFormat::Int),
        Depth::Float => (32, SampleFormat::Float),
    };
    let spec = WavSpec {
        channels: 2,
        sample_rate: samples.rate,
        bits_per_sample,
        sample_format,
    };
    let mut writer = WavWriter::new(target, spec)?;
    match depth {
        Depth::Sixteen => write_dithered(&samples.interleaved, &mut writer)?,
        Depth::TwentyFour => {
            for value in &samples.interleaved {
                writer.write_sample(whole(f64::from(*value), 23))?;
            }
        }
        Depth::Float => {
            for value in &samples.interleaved {
                writer.write_sample(*value)?;
            }
        }
    }
    writer.finalize()?;
    Ok(())
}

/// Triangular noise of two steps turns rounding, a distortion, into a faint even hiss
/// (common practice; from a fixed seed, so that the same samples give the same file).
fn write_dithered<W: Write + Seek>(
    values: &[f32],
    writer: &mut WavWriter<W>,
) -> Result<(), NotWritten> {
    let mut chance = ChaCha8Rng::seed_from_u64(0);
    let step = 0.5f64.powi(15);
    for value in values {
        let noise = if *value == 0.0 {
            // Silence stays silence.
            0.0
        } else {
            step * (chance.random::<f64>() - chance.random::<f64>())
        };
        writer.write_sample(whole(f64::from(*value) + noise, 15))?;
    }
    Ok(())
}

/// The nearest whole number of `bits` and a sign; what lies outside is cut off.
fn whole(value: f64, bits: i32) -> i32 {
    let full = 2f64.powi(bits);
    (value * full).round().clamp(-full, full - 1.0) as i32
}

#[cfg(test)]
mod tests {
    use std::io::Cursor;

    use super::*;

    fn samples() -> Samples {
        let interleaved = (0..2000)
            .map(|place| (place as f32 * 0.05).sin() * 0.8)
            .chain([0.0, 1.5, -1.5, 0.0])
            .collect();
        Samples {
            rate: 44_100,
            interleaved,
        }
    }

    fn written(depth: Depth) -> Vec<u8> {
        let mut file = Cursor::new(Vec::new());
        write_wav(&samples(), depth, &mut file).expect("memory takes everything");
        file.into_inner()
    }

    #[test]
    fn files_read_back_as_they_were() {
        for (depth, tolerance) in [
            (Depth::Sixteen, 1.6 / 32_768.0),
            (Depth::TwentyFour, 1.0 / 8_388_608.0),
            (Depth::Float, 0.0),
        ] {
            let mut reader = hound::WavReader::new(Cursor::new(written(depth))).expect("a file");
            assert_eq!(
                (reader.spec().channels, reader.spec().sample_rate),
                (2, 44_100)
            );
            let values: Vec<f32> = match depth {
                Depth::Float => reader.samples().map(|v| v.expect("a value")).collect(),
                Depth::Sixteen | Depth::TwentyFour => {
                    let full = 2f32.powi(i32::from(reader.spec().bits_per_sample) - 1);
                    let values = reader.samples::<i32>();
                    values.map(|v| v.expect("a value") as f32 / full).collect()
                }
            };
            assert_eq!(values.len(), 2004);
            for (read, value) in values.iter().zip(samples().interleaved) {
                let bound = if depth == Depth::Float { 2.0 } else { 1.0 };
                let difference = (read - value.clamp(-bound, bound)).abs();
                assert!(difference <= tolerance, "{depth:?}: {read} for {value}");
            }
        }
    }

    #[test]
    fn the_header_is_that_of_the_format() {
        // Multimedia Programming Interface and Data Specifications 1.0 (IBM, Microsoft
        // 1991): "RIFF", size less 8, "WAVE".
        let file = written(Depth::Sixteen);
        assert_eq!((&file[..4], &file[8..12]), (&b"RIFF"[..], &b"WAVE"[..]));
        let size = u32::from_le_bytes(file[4..8].try_into().expect("four bytes"));
        assert_eq!(size as usize, file.len() - 8);
    }

    #[test]
    fn the_same_samples_give_the_same_file() {
        assert_eq!(written(Depth::Sixteen), written(Depth::Sixteen));
    }
}
