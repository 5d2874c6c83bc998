//! How near the wrong answers on offer lie to the right one.

use super::question::Question;
use crate::devices::{Catalogue, Device, DeviceId};
use crate::theory::Notation;

/// The part of the wrong answers on offer, 0 to 1, that would be a near miss, or would
/// name a neighbour of the asked device or one of its family. Nothing where answers are
/// typed or are neither chords nor devices.
pub(super) fn nearness(question: &Question, catalogue: &Catalogue) -> Option<f64> {
    let (mut near, mut wrong) = (0_u32, 0_u32);
    for ask in &question.asks {
        if !ask.has_neighbours() {
            continue;
        }
        let devices = ask.devices();
        let wanted = devices.is_empty().then_some(&question.wanted);
        let asked = devices.iter().chain(wanted);
        let asked: Vec<&Device> = asked.filter_map(|id| catalogue.get(id)).collect();
        let is_related = |id: &DeviceId| {
            let family = catalogue.get(id).map(|device| device.family);
            let mut asked = asked.iter();
            asked.any(|device| device.neighbours.contains(id) || Some(device.family) == family)
        };
        let mut ask = ask.clone();
        for choice in 0..ask.labels(Notation::Text).len() {
            ask.choose(choice);
            let mark = ask.mark(question.material(), catalogue);
            let Some(mark) = mark.filter(|mark| !mark.tier.is_right()) else {
                continue;
            };
            wrong += 1;
            near += u32::from(mark.credit > 0.0 || mark.heard_as.iter().any(is_related));
        }
    }
    (wrong > 0).then(|| f64::from(near) / f64::from(wrong))
}
