//! Simulated learners against ways of choosing the next question. Owns the worlds, the
//! policies and the figures they are judged by; the scorer knows nothing of them.

mod chance;
mod course;
mod dynamics;
mod ease;
mod figures;
mod learner;
mod policy;
mod replay;
mod run;
mod syllabus;
mod verdicts;
mod world;

pub use figures::{Cell, Forecast, Interval};
pub use policy::Policy;
pub use replay::{NotAnAnswer, Part, Replay, replay};
pub use run::{Plan, WorldResult, simulate};
pub use verdicts::Verdicts;
pub use world::World;
