//! The device files that come with the program.

/// Id and text of each built-in device file.
pub(super) const FILES: &[(&str, &str)] = &files![
    "ascending-passing-diminished",
    "authentic-cadence",
    "backdoor-dominant",
    "backdoor-two-five",
    "deceptive-cadence",
    "delayed-dominant-of-five",
    "descending-passing-diminished",
    "dominant-chain",
    "dominant-of-five",
    "dominant-of-four",
    "dominant-of-six",
    "dominant-of-three",
    "dominant-of-two",
    "form-end-dominant",
    "half-diminished-two",
    "mediant-turnaround",
    "minor-four",
    "off-tonic-opening",
    "plagal-cadence",
    "sharp-four-diminished",
    "tritone-substitute",
    "turnaround",
    "two-five-of-four",
    "two-five-one",
];
