//! What a device is taken for.

use crate::devices::DeviceId;

use super::beta;
use super::model::fading;

/// A confusion that the answers bear out.
#[derive(Clone, Debug, PartialEq)]
pub struct Confusion {
    /// The device that was asked.
    pub device: DeviceId,
    /// The device that was named instead.
    pub heard_as: DeviceId,
    /// How often it happened.
    pub times: u32,
    /// How large a part of the answers to this device it is by now, 0 to 1.
    pub rate: f64,
}

/// One device's row of the table of truth against answer: a Dirichlet belief over what it
/// is heard as, the old answers faded.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Row {
    cells: Vec<Cell>,
    answers: f64,
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Cell {
    pub(super) heard_as: usize,
    pub(super) times: u32,
    faded: f64,
}

/// Prior mass on each neighbour of the same family, on each stranger, and in all.
const FAMILY: f64 = 0.1;
const STRANGER: f64 = 0.01;
const ALL: f64 = 4.0;

/// A confusion is named from this many occurrences on, when its rate is above [`RATE`]
/// with this certainty.
const TIMES: u32 = 5;
const RATE: f64 = 0.25;
const CERTAINTY: f64 = 0.9;

impl Row {
    /// Another answer to the device, heard as another one or not.
    pub(super) fn count(&mut self, heard_as: Option<usize>) {
        self.answers = self.answers * fading::ANSWER + 1.0;
        for cell in &mut self.cells {
            cell.faded *= fading::ANSWER;
        }
        let Some(heard_as) = heard_as else {
            return;
        };
        match self.cells.iter_mut().find(|cell| cell.heard_as == heard_as) {
            Some(cell) => {
                cell.times += 1;
                cell.faded += 1.0;
            }
            None => self.cells.push(Cell {
                heard_as,
                times: 1,
                faded: 1.0,
            }),
        }
    }

    /// The rate that is believed of a cell.
    pub(super) fn rate(&self, cell: Cell, same_family: bool) -> f64 {
        (cell.faded + prior(same_family)) / (self.answers + ALL)
    }

    /// Whether the confusion may be named.
    pub(super) fn is_named(&self, cell: Cell, same_family: bool) -> bool {
        let a = cell.faded + prior(same_family);
        let b = self.answers + ALL - a;
        cell.times >= TIMES && 1.0 - beta::below(RATE, a, b) > CERTAINTY
    }

    pub(super) fn cells(&self) -> &[Cell] {
        &self.cells
    }
}

fn prior(same_family: bool) -> f64 {
    if same_family { FAMILY } else { STRANGER }
}
