//! The audio thread neither allocates nor frees, whatever it is told.

use std::sync::Arc;

use assert_no_alloc::{AllocDisabler, assert_no_alloc};
use plagal::host::player::{Cue, CueId, Level, Region, link};

#[global_allocator]
static WATCHED: AllocDisabler = AllocDisabler;

const RATE: u32 = 48_000;

#[test]
fn the_deck_leaves_memory_alone() {
    let (mut remote, mut mixer) = link(RATE, Level::FULL);
    let mut block = [0.0; 2 * 512];
    for turn in 0..40 {
        // The only owner of the buffer is on its way: dropped there, it would be freed there.
        let samples: Arc<[f32]> = vec![0.25; 2 * 3000].into();
        let cue = Cue::new(samples, RATE).repeating(Region::new(500..2500));
        let id = CueId::numbered(turn + 1);
        let sent = match turn % 4 {
            0 => remote.cross_to(id, cue),
            1 => remote.play(id, cue).and_then(|()| remote.pause()),
            2 => remote.play(id, cue).and_then(|()| remote.seek(1000)),
            _ => remote.play(id, cue).and_then(|()| remote.stop()),
        };
        sent.expect("room");
        for _ in 0..turn % 7 {
            assert_no_alloc(|| mixer.fill(&mut block));
        }
        remote.repeat(None).expect("room");
        assert_no_alloc(|| mixer.fill(&mut block));
    }
}
