//! What the scorer chooses, steers and says.

mod choice;
mod estimates;
mod exemplar;
mod order;
mod pupils;
mod trial;
mod words;
