//! The word that was probably meant.

/// Longer words than this are no misspelled names.
const LONGEST: usize = 64;

/// The candidate nearest to `word`, if it is near enough to be a misspelling of it: at
/// most a third of its letters wrong, a swap of neighbours counting as one.
#[must_use]
pub fn near<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<&'c str> {
    if word.len() > LONGEST {
        return None;
    }
    let word = word.to_lowercase();
    let allowed = (word.chars().count() / 3).max(1);
    candidates
        .into_iter()
        .map(|candidate| {
            let distance = strsim::damerau_levenshtein(&word, &candidate.to_lowercase());
            (distance, candidate)
        })
        .filter(|(distance, candidate)| {
            *distance <= allowed && *distance < candidate.chars().count()
        })
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, candidate)| candidate)
}

#[cfg(test)]
mod tests {
    use super::near;

    #[test]
    fn misspellings_are_recognised_and_other_words_are_not() {
        let known = ["minor-four", "tempo", "title", "id"];
        for (word, expected) in [
            ("minor-for", Some("minor-four")),
            ("tepmo", Some("tempo")),
            ("Title", Some("title")),
            ("ID", Some("id")),
            ("harpsichord", None),
            ("x", None),
            ("", None),
        ] {
            assert_eq!(near(word, known), expected, "{word}");
        }
        assert_eq!(near(&"a".repeat(100_000), known), None);
    }
}
