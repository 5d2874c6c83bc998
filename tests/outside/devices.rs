//! What every device of the catalogue must have, whatever it is.

use plagal::devices::{Catalogue, Device, DeviceId, Expansion};
use plagal::theory::{Chord, Key, Numeral};

/// Ids that journals hold. An id may be added; none may go or change its meaning.
const JOURNALLED: &str = "
    authentic-cadence half-cadence plagal-cadence deceptive-cadence dominant-to-mediant
    two-five-one turnaround mediant-turnaround diatonic-fifths-cycle tonic-substitute
    cadential-six-four passing-inversions leading-tone-chord
    dominant-of-five dominant-of-two dominant-of-six dominant-of-four dominant-of-three
    delayed-dominant-of-five applied-leading-tone related-two-five-major-target
    related-two-five-minor-target two-five-of-four dominant-chain two-five-chain
    applied-dominant-deceptive dominant-of-borrowed
    tritone-substitute tritone-substitute-of-five tritone-substitute-applied
    two-tritone-substitute related-two-of-substitute substitute-chain augmented-sixth
    common-tone-augmented-sixth enharmonic-german-sixth
    minor-four minor-four-added-sixth half-diminished-two backdoor-dominant
    backdoor-two-five four-to-backdoor flat-six flat-three flat-seven flat-six-flat-seven
    minor-five picardy-third sharp-four-half-diminished double-plagal neapolitan
    flat-six-deceptive borrowed-turnaround chromatic-mediant
    ascending-passing-diminished descending-passing-diminished sharp-four-diminished
    common-tone-diminished rootless-dominant-ninth
    minor-two-five-one minor-turnaround minor-line-cliche major-line-cliche
    descending-tetrachord chromatic-descending-bass relative-major-two-five
    flat-six-dominant-minor flat-two-to-minor-tonic applied-dominants-minor dorian-four
    off-tonic-opening form-end-dominant blues-sevenths suspended-dominant pedal-point
    pivot-modulation direct-modulation common-tone-modulation sequential-modulation
    enharmonic-modulation major-third-cycle
";

/// Asserts that no device has a fault, and names all that have.
fn every_device(fault: impl Fn(&Catalogue, &Device) -> Option<String>) {
    let catalogue = Catalogue::built_in();
    let faults: Vec<String> = catalogue
        .devices()
        .iter()
        .filter_map(|device| Some(format!("{}: {}", device.id, fault(&catalogue, device)?)))
        .collect();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn no_journalled_device_is_missing() {
    let catalogue = Catalogue::built_in();
    let missing: Vec<&str> = JOURNALLED
        .split_whitespace()
        .filter(|id| {
            let id: DeviceId = id.parse().expect("a device id");
            catalogue.get(&id).is_none()
        })
        .collect();
    assert!(missing.is_empty(), "{missing:?}");
}

#[test]
fn a_device_that_is_asked_can_be_spelled_out_in_each_of_its_modes() {
    every_device(|_, device| {
        let silent = device
            .modes
            .iter()
            .find(|mode| device.asked && device.expansions_in(**mode).next().is_none());
        silent.map(|mode| format!("no pattern in {mode}"))
    });
}

#[test]
fn each_device_has_three_examples_and_two_counterexamples() {
    every_device(|_, device| {
        let (examples, counterexamples) = (device.examples.len(), device.counterexamples.len());
        (examples < 3 || counterexamples < 2)
            .then(|| format!("{examples} examples, {counterexamples} counterexamples"))
    });
}

#[test]
fn patterns_stay_small() {
    every_device(|_, device| {
        let ways = device.expansions().len();
        (ways > 60).then(|| format!("spelled out in {ways} ways"))
    });
}

#[test]
fn neighbours_are_others_of_the_same_mode() {
    every_device(|catalogue, device| {
        let stranger = device.neighbours.iter().find(|id| {
            let shares_a_mode = catalogue
                .get(id)
                .is_some_and(|other| other.modes.iter().any(|mode| device.modes.contains(mode)));
            **id == device.id || !shares_a_mode
        });
        stranger.map(|id| format!("cannot be confused with {id}"))
    });
}

#[test]
fn each_mode_of_a_device_has_three_neighbours() {
    every_device(|catalogue, device| {
        let neighbours = |mode| {
            let all = device.neighbours.iter();
            all.filter_map(|id| catalogue.get(id))
                .filter(|other| other.modes.contains(mode))
                .count()
        };
        let lonely = device.modes.iter().find(|mode| neighbours(*mode) < 3);
        lonely.map(|mode| format!("too few neighbours in {mode}"))
    });
}

#[test]
fn prose_is_plain_ascii_without_a_full_stop() {
    every_device(|_, device| {
        let sentences = [&device.tell, &device.source];
        let all = device
            .names
            .iter()
            .chain(sentences)
            .chain([&device.explains]);
        let foreign = all.into_iter().find(|text| !text.is_ascii());
        let stopped = sentences.into_iter().find(|text| text.ends_with('.'));
        let open = Some(&device.explains).filter(|text| !text.ends_with('.'));
        foreign.or(stopped).or(open).cloned()
    });
}

#[test]
fn every_pattern_can_be_spelled_in_every_everyday_key() {
    every_device(|_, device| {
        let unspelled = |numeral: &Numeral| {
            Key::everyday()
                .filter(|key| device.modes.contains(&key.mode()))
                .find_map(|key| Chord::new(numeral, key).err())
        };
        device
            .modes
            .iter()
            .flat_map(|mode| device.expansions_in(*mode))
            .flat_map(Expansion::chords)
            .find_map(|wanted| unspelled(&wanted.numeral))
            .map(|remote| remote.to_string())
    });
}

#[test]
fn names_are_not_shared() {
    every_device(|catalogue, device| {
        let others = catalogue
            .devices()
            .iter()
            .filter(|other| other.id != device.id);
        others
            .flat_map(|other| &other.names)
            .find(|name| device.names.contains(name))
            .map(|name| format!("another device is called {name} too"))
    });
}
