//! What the scorer chooses, steers and says.

mod choice;
mod estimates;
mod exemplar;
mod trial;
mod words;
