//! Every reader of `tests/outside/readers`, one a run (`PLAGAL_READER`), on texts that
//! libFuzzer makes by what the code does with them. `run.sh` builds and runs it.

#![no_main]

use std::sync::LazyLock;

use libfuzzer_sys::fuzz_target;

#[path = "../outside/readers/mod.rs"]
mod readers;

static READER: LazyLock<&readers::Reader> = LazyLock::new(|| {
    let name = std::env::var("PLAGAL_READER").expect("PLAGAL_READER names a reader");
    let found = readers::READERS.iter().find(|reader| reader.name == name);
    let reader = found.expect("a reader has this name");
    if let Ok(folder) = std::env::var("PLAGAL_SAMPLES") {
        for (number, text) in (reader.samples)().iter().enumerate() {
            let file = format!("{folder}/{number}");
            let bytes = [&[u8::try_from(number % 256).unwrap_or(0)], text.as_bytes()].concat();
            std::fs::write(file, bytes).expect("the folder takes files");
        }
    }
    reader
});

// The first byte chooses among circumstances.
fuzz_target!(|bytes: &[u8]| {
    let reader = *READER;
    let Some((chance, bytes)) = bytes.split_first() else {
        return;
    };
    if let Ok(text) = std::str::from_utf8(bytes) {
        (reader.read)(text, usize::from(*chance));
    }
});
