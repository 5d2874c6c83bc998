//! The source that the device drains, driven without a device.

use std::sync::Arc;

use plagal::host::player::{Cue, CueId, Level, Mixer, Motion, Refusal, Region, Remote, link};
use proptest::prelude::*;

const RATE: u32 = 48_000;
/// Longer than any fade, in frames.
const SETTLED: usize = 1000;
/// The fastest any gain moves: a smooth ramp of 8 ms has slope 1.5 / 384 a frame; two
/// strands, pause and level may move at once on samples of 0.5. A cut would step by 0.5.
const LARGEST_STEP: f32 = 0.5 * (2.0 * 1.5 + 1.5 + 0.15) / 384.0 + 1e-4;

struct Rig {
    remote: Remote,
    mixer: Mixer,
    heard: Vec<f32>,
    cues: u32,
}

impl Rig {
    fn new() -> Self {
        let (remote, mixer) = link(RATE, Level::FULL);
        Self {
            remote,
            mixer,
            heard: Vec::new(),
            cues: 0,
        }
    }

    fn play(&mut self, cue: Cue) -> CueId {
        self.cues += 1;
        let id = CueId::numbered(self.cues);
        self.remote.play(id, cue).expect("a cue that fits");
        id
    }

    fn fill(&mut self, frames: usize) -> &[f32] {
        let from = self.heard.len();
        self.heard.resize(from + 2 * frames, f32::NAN);
        self.mixer.fill(&mut self.heard[from..]);
        &self.heard[from..]
    }

    fn frame(&self) -> u64 {
        self.remote.playhead().frame
    }

    fn motion(&self) -> Motion {
        self.remote.playhead().motion
    }

    /// The largest step between neighbouring samples of one side.
    fn largest_step(&self) -> f32 {
        let silent_before = std::iter::repeat_n(&0.0, 2);
        silent_before
            .chain(&self.heard)
            .zip(&self.heard)
            .map(|(before, now)| (now - before).abs())
            .fold(0.0, f32::max)
    }
}

fn level(value: f32, frames: usize) -> Arc<[f32]> {
    vec![value; 2 * frames].into()
}

/// 220 Hz left, 330 Hz right, from silence.
fn tones(frames: usize) -> Arc<[f32]> {
    let turn = std::f32::consts::TAU / RATE as f32;
    (0..frames)
        .flat_map(|n| [220.0, 330.0].map(|hertz| 0.5 * (turn * hertz * n as f32).sin()))
        .collect()
}

fn cue(samples: &Arc<[f32]>) -> Cue {
    Cue::new(Arc::clone(samples), RATE)
}

#[test]
fn a_buffer_comes_out_bit_by_bit_up_to_its_last_fade() {
    let samples = tones(10_000);
    let mut rig = Rig::new();
    rig.play(cue(&samples));
    let heard = rig.fill(10_000).to_vec();
    let exact = 2 * (10_000 - 384);
    assert_eq!(heard[..exact], samples[..exact]);
    assert!(rig.fill(100).iter().all(|x| *x == 0.0));
}

#[test]
fn a_stereo_pair_keeps_its_sides() {
    let samples: Arc<[f32]> = [0.5, -0.25].repeat(4000).into();
    let mut rig = Rig::new();
    rig.play(cue(&samples));
    assert_eq!(rig.fill(2000)[2 * SETTLED..2 * SETTLED + 2], [0.5, -0.25]);
}

#[test]
fn the_playhead_is_exact_to_the_frame() {
    let mut rig = Rig::new();
    let id = rig.play(cue(&level(0.5, 20_000)).from(700));
    for (asked, expected) in [(1, 701), (63, 764), (64, 828), (1000, 1828)] {
        rig.fill(asked);
        assert_eq!(rig.frame(), expected);
    }
    assert_eq!(rig.remote.playhead().cue, id);
    rig.remote.seek(15_000).expect("room");
    rig.fill(10);
    assert_eq!(rig.frame(), 15_010);
    assert_eq!(rig.remote.frames(), 1138);
}

#[test]
fn the_end_is_seen_in_the_frame_it_happens() {
    let mut rig = Rig::new();
    let id = rig.play(cue(&tones(5000)));
    rig.fill(4999);
    assert_eq!(rig.motion(), Motion::Playing);
    rig.fill(1);
    let head = rig.remote.playhead();
    assert_eq!(
        (head.cue, head.motion, head.frame),
        (id, Motion::Ended, 5000)
    );
}

#[test]
fn a_pause_holds_its_place() {
    let mut rig = Rig::new();
    rig.play(cue(&level(0.5, 40_000)));
    rig.fill(SETTLED);
    rig.remote.pause().expect("room");
    rig.fill(SETTLED);
    let held = rig.frame();
    assert!(rig.fill(5000).iter().all(|x| *x == 0.0));
    assert_eq!((rig.frame(), rig.motion()), (held, Motion::Paused));
    rig.remote.resume().expect("room");
    rig.fill(SETTLED);
    assert_eq!((rig.frame(), rig.motion()), (held + 1000, Motion::Playing));
    assert!(rig.largest_step() < LARGEST_STEP);
}

#[test]
fn a_cue_played_and_paused_at_once_waits_at_its_beginning() {
    let mut rig = Rig::new();
    rig.play(cue(&level(0.5, 40_000)));
    rig.fill(SETTLED);
    rig.play(cue(&level(-0.5, 40_000)));
    let third = rig.play(cue(&level(0.5, 40_000)));
    rig.remote.pause().expect("room");
    rig.fill(SETTLED);
    let head = rig.remote.playhead();
    assert_eq!((head.cue, head.motion), (third, Motion::Paused));
    assert!(rig.largest_step() < LARGEST_STEP);
}

#[test]
fn a_region_repeats_with_its_exact_period() {
    let mut rig = Rig::new();
    let region = Region::new(1000..11_000);
    rig.play(cue(&level(0.5, 40_000)).repeating(region));
    rig.fill(11_000);
    assert_eq!(rig.frame(), 1000);
    rig.fill(10_000 * 3 + 17);
    assert_eq!(rig.frame(), 1017);
    rig.remote.repeat(None).expect("room");
    rig.fill(20_000);
    assert_eq!(rig.frame(), 21_017);
    assert!(rig.largest_step() < LARGEST_STEP);
}

#[test]
fn a_region_set_too_late_begins_afresh() {
    let mut rig = Rig::new();
    rig.play(cue(&level(0.5, 40_000)));
    rig.fill(10_950);
    let region = Region::new(1000..11_000);
    rig.remote.repeat(Some(region)).expect("room");
    rig.fill(100);
    assert_eq!(rig.frame(), 1100);
    rig.fill(9900);
    assert_eq!(rig.frame(), 1000);
    assert!(rig.largest_step() < LARGEST_STEP);
}

#[test]
fn another_mix_takes_over_where_the_first_one_is() {
    let mut rig = Rig::new();
    rig.play(cue(&level(0.5, 40_000)));
    rig.fill(12_345);
    let second = CueId::numbered(2);
    let mix = cue(&level(-0.5, 40_000));
    rig.remote.cross_to(second, mix).expect("room");
    rig.fill(55);
    let head = rig.remote.playhead();
    assert_eq!((head.cue, head.frame), (second, 12_400));
    assert_eq!(rig.fill(SETTLED)[2 * SETTLED - 1], -0.5);
    assert!(rig.largest_step() < LARGEST_STEP);
}

#[test]
fn the_level_moves_without_a_click_and_only_down() {
    let mut rig = Rig::new();
    rig.play(cue(&level(0.5, 80_000)));
    rig.fill(SETTLED);
    for decibels in [-20.0, 40.0, -60.0, -6.0206] {
        let wanted = Level::from_decibels(decibels);
        rig.remote.set_level(wanted).expect("room");
        let last = *rig.fill(4000).last().expect("samples");
        assert!((last - 0.5 * wanted.amplitude()).abs() < 1e-4, "{decibels}");
    }
    assert!(rig.largest_step() < LARGEST_STEP);
}

#[test]
fn no_buffer_can_sound_louder_than_the_ceiling() {
    for wild in [50.0, f32::INFINITY, f32::NEG_INFINITY, f32::NAN] {
        let mut rig = Rig::new();
        rig.play(cue(&level(wild, 4000)));
        assert!(rig.fill(4000).iter().all(|x| x.abs() <= 0.95), "{wild}");
    }
}

#[test]
fn buffers_come_back_to_be_freed() {
    let mut rig = Rig::new();
    let samples = level(0.5, 4000);
    rig.play(cue(&samples));
    rig.fill(100);
    rig.remote.seek(2000).expect("room");
    rig.fill(100);
    rig.play(cue(&samples));
    rig.fill(SETTLED);
    rig.remote.stop().expect("room");
    rig.fill(SETTLED);
    assert!(Arc::strong_count(&samples) > 1, "freed by the mixer");
    assert!(rig.remote.collect() > 0);
    assert_eq!(Arc::strong_count(&samples), 1);
}

#[test]
fn what_does_not_fit_is_refused() {
    let mut rig = Rig::new();
    let id = CueId::numbered(1);
    let wrong_rate = Cue::new(level(0.5, 4000), 44_100);
    assert_eq!(
        rig.remote.play(id, wrong_rate),
        Err(Refusal::Rate {
            found: 44_100,
            expected: RATE
        })
    );
    let odd: Arc<[f32]> = vec![0.0; 3].into();
    assert_eq!(rig.remote.play(id, cue(&odd)), Err(Refusal::Shape(3)));
    let samples = level(0.5, 4000);
    for (start, end) in [(0, 4001), (9, 9), (0, 10), (3990, 4000), (u64::MAX, 4000)] {
        let region = Region::new(start..end);
        let refused = rig.remote.play(id, cue(&samples).repeating(region));
        assert!(matches!(refused, Err(Refusal::Region { .. })), "{start}");
    }
    for _ in 0..64 {
        rig.remote.pause().expect("room");
    }
    assert_eq!(rig.remote.pause(), Err(Refusal::Crowded));
}

#[derive(Clone, Debug)]
enum Press {
    Play(usize, u64, Option<(u64, u64)>),
    Cross(usize),
    Stop,
    Pause,
    Resume,
    Seek(u64),
    Repeat(Option<(u64, u64)>),
    Level(f32),
    Fill(usize),
}

const LENGTH: u64 = 6000;

fn presses() -> impl Strategy<Value = Vec<Press>> {
    let region = || proptest::option::of((0..LENGTH, 0..=LENGTH));
    let press = prop_oneof![
        2 => (0..3usize, 0..LENGTH + 100, region()).prop_map(|(b, f, r)| Press::Play(b, f, r)),
        1 => (0..3usize).prop_map(Press::Cross),
        1 => Just(Press::Stop),
        1 => Just(Press::Pause),
        1 => Just(Press::Resume),
        1 => (0..LENGTH + 100).prop_map(Press::Seek),
        2 => region().prop_map(Press::Repeat),
        1 => (-70f32..10.0).prop_map(Press::Level),
        6 => prop_oneof![0..200usize, 0..3000usize].prop_map(Press::Fill),
    ];
    proptest::collection::vec(press, 1..60)
}

fn as_region(bounds: Option<(u64, u64)>) -> Option<Region> {
    bounds.map(|(start, end)| Region::new(start..end))
}

/// Presses a key; what the mixer refuses or has no room for is left out.
fn press(rig: &mut Rig, buffers: &[Arc<[f32]>], key: &Press) {
    rig.cues += 1;
    let id = CueId::numbered(rig.cues);
    let _ = match *key {
        Press::Play(buffer, from, region) => {
            let cue = cue(&buffers[buffer]).from(from);
            let cue = match as_region(region) {
                Some(region) => cue.repeating(region),
                None => cue,
            };
            rig.remote.play(id, cue)
        }
        Press::Cross(buffer) => rig.remote.cross_to(id, cue(&buffers[buffer])),
        Press::Stop => rig.remote.stop(),
        Press::Pause => rig.remote.pause(),
        Press::Resume => rig.remote.resume(),
        Press::Seek(frame) => rig.remote.seek(frame),
        Press::Repeat(region) => rig.remote.repeat(as_region(region)),
        Press::Level(decibels) => rig.remote.set_level(Level::from_decibels(decibels)),
        Press::Fill(frames) => {
            rig.fill(frames);
            Ok(())
        }
    };
}

proptest! {
    #[test]
    fn whatever_is_pressed_nothing_clicks_and_nothing_is_lost(keys in presses()) {
        let buffers = [0.5, -0.5, 0.3].map(|value| level(value, LENGTH as usize));
        let mut rig = Rig::new();
        for key in keys {
            press(&mut rig, &buffers, &key);
            prop_assert!(rig.frame() <= LENGTH + 100);
        }
        prop_assert!(rig.largest_step() < LARGEST_STEP, "{}", rig.largest_step());
        rig.remote.collect();
        rig.fill(64);
        rig.remote.stop().expect("room after a block");
        rig.fill(2 * SETTLED);
        prop_assert!(rig.fill(64).iter().all(|x| *x == 0.0));
        prop_assert_eq!(rig.motion(), Motion::Idle);
        rig.remote.collect();
        for buffer in &buffers {
            prop_assert_eq!(Arc::strong_count(buffer), 1);
        }
    }

    #[test]
    fn the_size_of_the_blocks_changes_nothing(
        sizes in proptest::collection::vec(1..40usize, 1..40)
    ) {
        let samples = tones(4000);
        let mut whole = Rig::new();
        whole.play(cue(&samples).from(123));
        let mut parts = Rig::new();
        parts.play(cue(&samples).from(123));
        for size in &sizes {
            parts.fill(*size);
        }
        whole.fill(sizes.iter().sum());
        prop_assert_eq!(&whole.heard, &parts.heard);
        prop_assert_eq!(whole.remote.playhead(), parts.remote.playhead());
    }
}
