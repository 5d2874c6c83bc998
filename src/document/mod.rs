//! The checked reading of JSON data files: from text to values with their places, and
//! every fault of a file at once. Knows no music and opens no file.
//!
//! A reader is a plain function `fn(&Value, &mut Faults) -> Option<T>`: it answers `None`
//! only after it has reported a fault. [`read`] runs one over a whole text:
//!
//! ```
//! use plagal::document::{self, Faults, Object, Value, text, whole};
//!
//! struct Tune { title: String, tempo: u16 }
//!
//! fn tune(value: &Value, faults: &mut Faults) -> Option<Tune> {
//!     let mut fields = Object::of(value, faults)?;
//!     let title = fields.required("title", text(1..=80));
//!     let tempo = fields.optional("tempo", whole(30..=300)).unwrap_or(96);
//!     fields.finish();
//!     Some(Tune { title: title?, tempo })
//! }
//!
//! let faults = document::read(r#"{"titel": "Slow", "tempo": 400}"#, tune).err().unwrap();
//! let messages: Vec<String> = faults.iter().map(ToString::to_string).collect();
//! assert_eq!(messages, [
//!     "`title` is missing; expected text of 1 to 80 characters",
//!     "`titel` is not a field here; did you mean `title`?",
//!     "`tempo` is `400`; expected a whole number from 30 to 300",
//! ]);
//! ```

mod fault;
mod near;
mod object;
mod place;
mod readers;
mod shown;
mod syntax;
mod value;
mod words;

pub use fault::{Fault, Faults, Problem};
pub use near::near;
pub use object::Object;
pub use place::Place;
pub use readers::{distinct, flag, list, number, one_or_list, placed, single_or_pair, whole};
pub use shown::{is_invisible, shown};
pub use syntax::{LARGEST_FILE, utf8};
pub use value::{Placed, Spot, Value};
pub use words::{Mismatch, id, known, one_of, parsed, text};

/// Reads a whole JSON text with `reader`.
///
/// # Errors
///
/// All faults, in the order of their places: those of the syntax alone if it is broken,
/// else all that the reader reported.
pub fn read<T>(
    text: &str,
    reader: impl FnOnce(&Value, &mut Faults) -> Option<T>,
) -> Result<T, Faults> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut faults = Faults::of(text);
    let Some(root) = syntax::parse(text, &mut faults) else {
        return Err(faults.sorted());
    };
    let value = reader(&Value::root(&root, text), &mut faults);
    match value {
        Some(value) if faults.is_empty() => Ok(value),
        Some(_) => Err(faults.sorted()),
        None => {
            assert!(!faults.is_empty(), "a reader gave up without a fault");
            Err(faults.sorted())
        }
    }
}

#[cfg(test)]
mod tests;
