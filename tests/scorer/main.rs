//! What the scorer chooses, steers and says.

mod choice;
mod exemplar;
mod trial;
mod words;
