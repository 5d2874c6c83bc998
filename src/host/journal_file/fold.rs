//! Folding a long journal: lines are read on all cores, and taken in in their order.

use std::io;
use std::path::Path;
use std::sync::mpsc::{Receiver, SyncSender, sync_channel};
use std::thread;

use super::read::{blocks, lines};
use crate::journal::{JournalFault, JournalLine, ScoredEntry, parse};
use crate::scorer::{Digest, Digester, Scorer};

/// What was found besides the learner's answers.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Folded {
    /// Answered questions of the learner.
    pub questions: usize,
    /// Answered questions of other learners.
    pub others: usize,
    /// Lines of a newer program, kept in the file and not understood.
    pub newer: usize,
    /// How many lines are no entries, and the first of them by its number, from 1.
    pub faults: usize,
    /// The number of the first line that is no entry, and what is wrong with it.
    pub first_fault: Option<(usize, JournalFault)>,
}

/// Blocks that wait for a worker, or digests for the scorer, at most.
const WAITING: usize = 2;

/// What a worker makes of a block.
#[derive(Default)]
struct Block {
    digests: Vec<Digest>,
    lines: usize,
    found: Folded,
    /// The block itself, to be filled again.
    read: Vec<u8>,
}

struct Worker {
    blocks: SyncSender<Vec<u8>>,
    made: Receiver<Block>,
}

/// Folds all answers of a learner into the scorer; a missing journal holds none.
///
/// # Errors
/// When the file is there and cannot be read.
pub fn fold_journal(path: &Path, learner: &str, scorer: &mut Scorer) -> io::Result<Folded> {
    let cores = thread::available_parallelism().map_or(1, std::num::NonZero::get);
    let digester = scorer.digester().clone();
    let mut all = Block::default();
    thread::scope(|scope| {
        let workers: Vec<Worker> = (0..cores.min(8))
            .map(|_| {
                let (blocks, given) = sync_channel::<Vec<u8>>(WAITING);
                let (make, made) = sync_channel(WAITING);
                let digester = &digester;
                scope.spawn(move || {
                    for block in given {
                        if make.send(look(block, learner, digester)).is_err() {
                            return;
                        }
                    }
                });
                Worker { blocks, made }
            })
            .collect();
        let (mut sent, mut taken) = (0, 0);
        let mut take = |taken: &mut usize| {
            let block = workers[*taken % workers.len()].made.recv();
            *taken += 1;
            all.join(block.expect("a worker never fails"), scorer)
        };
        let read = blocks(path, |block| {
            let worker = &workers[sent % workers.len()];
            worker
                .blocks
                .send(block)
                .expect("a worker waits until the reading is over");
            sent += 1;
            // Every worker has one block under way and one waiting.
            if sent - taken >= workers.len() * WAITING {
                take(&mut taken)
            } else {
                Vec::new()
            }
        });
        while taken < sent {
            take(&mut taken);
        }
        read
    })?;
    Ok(all.found)
}

fn look(read: Vec<u8>, learner: &str, digester: &Digester) -> Block {
    let mut made = Block::default();
    for line in lines(&read) {
        made.lines += 1;
        if line.iter().all(u8::is_ascii_whitespace) {
            continue;
        }
        let text = std::str::from_utf8(line)
            .map_err(|error| JournalFault::not_utf8(error.valid_up_to() + 1));
        match text.and_then(parse::<ScoredEntry>) {
            Ok(JournalLine::Known(glance)) if glance.learner.as_str() == learner => {
                made.found.questions += 1;
                made.digests.push(digester.digest(&glance));
            }
            Ok(JournalLine::Known(_)) => made.found.others += 1,
            Ok(JournalLine::Newer(_)) => made.found.newer += 1,
            Err(fault) => {
                made.found.faults += 1;
                let number = made.lines;
                made.found.first_fault.get_or_insert((number, fault));
            }
        }
    }
    made.read = read;
    made
}

impl Block {
    /// Takes in what was made of the next block, and gives back the block.
    fn join(&mut self, block: Self, scorer: &mut Scorer) -> Vec<u8> {
        for digest in &block.digests {
            scorer.fold_digest(digest);
        }
        let found = &mut self.found;
        found.questions += block.found.questions;
        found.others += block.found.others;
        found.newer += block.found.newer;
        found.faults += block.found.faults;
        if let (None, Some((number, fault))) = (&found.first_fault, block.found.first_fault) {
            found.first_fault = Some((self.lines + number, fault));
        }
        self.lines += block.lines;
        block.read
    }
}
