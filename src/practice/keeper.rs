//! Keeps the answers: the journal on disk, and the scorer that folds them in.

use std::path::{Path, PathBuf};

use super::entry::{Circumstances, entry};
use crate::devices::{Catalogue, DeviceId};
use crate::host::journal_file::{
    JournalFile, KeepError, Rescued, Unsaved, fold_journal, fresh_session, left_behind,
};
use crate::quiz::{Answered, Millis};
use crate::scorer::{Choice, Scorer, Wishes};

/// Whose answers are kept, and where.
#[derive(Clone, Debug)]
pub struct Person<'a> {
    /// The learner's name in the journal.
    pub learner: &'a str,
    /// The journal; with none the answers are folded in and forgotten at the end.
    pub journal: Option<&'a Path>,
    /// Where answers are put that the journal refuses, the best folder first.
    pub rescue: &'a [PathBuf],
}

/// The journal and the scorer of one learner.
#[derive(Debug)]
pub struct Keeper {
    learner: String,
    session: String,
    /// Answers so far, over all drills: each has an id of its own.
    answers: u64,
    journal: Option<JournalFile>,
    scorer: Scorer,
}

impl Keeper {
    /// Opens the journal and folds in what it holds of this learner. What could not be
    /// read or mended is told and the drill can go on.
    #[must_use]
    pub fn open(person: &Person<'_>, catalogue: &Catalogue, now: Millis) -> (Self, Vec<String>) {
        let families = catalogue
            .devices()
            .iter()
            .map(|device| (device.id.clone(), device.family.name()));
        let mut scorer = Scorer::new(families);
        let session = fresh_session(now);
        let mut told: Vec<String> = left_behind(person.rescue)
            .iter()
            .map(|file| {
                let file = file.display().to_string();
                format!(
                    "a drill before left answers in `{}`; take them in with `plagal journal \
                     merge`, then remove the file",
                    file.escape_debug()
                )
            })
            .collect();
        let journal = person.journal.map(|path| {
            let (journal, mended) = JournalFile::open(path, &session, person.rescue);
            match mended {
                Ok(mended) if mended.set_aside > 0 => told.push(format!(
                    "the journal's last line was torn; its {} bytes are kept beside it",
                    mended.set_aside
                )),
                Ok(_) => {}
                Err(error) => told.push(error.to_string()),
            }
            match fold_journal(path, person.learner, &mut scorer) {
                Ok(folded) => {
                    if folded.newer > 0 {
                        told.push(format!(
                            "the journal has {} answers of a newer program; they are kept",
                            folded.newer
                        ));
                    }
                    if let Some((line, fault)) = folded.first_fault {
                        told.push(format!(
                            "line {line} of the journal is passed over: {fault}"
                        ));
                    }
                }
                Err(error) => told.push(format!("the journal cannot be read: {error}")),
            }
            journal
        });
        let learner = person.learner.to_owned();
        (
            Self {
                learner,
                session,
                answers: 0,
                journal,
                scorer,
            },
            told,
        )
    }

    /// What is believed of the learner.
    #[must_use]
    pub fn scorer(&self) -> &Scorer {
        &self.scorer
    }

    /// The device to ask next.
    #[must_use]
    pub fn choose(
        &self,
        pool: &[DeviceId],
        wishes: &Wishes,
        now: Millis,
        seed: u64,
    ) -> Option<Choice> {
        self.scorer.next(pool, wishes, now, seed)
    }

    /// Puts an answered question on disk and folds it in.
    ///
    /// # Errors
    /// If the journal refuses it; it is folded in all the same and waits to be written.
    pub fn keep(
        &mut self,
        answered: &Answered,
        exercise: &str,
        seed: u64,
        catalogue: &Catalogue,
    ) -> Result<(), KeepError> {
        let circumstances = Circumstances {
            learner: &self.learner,
            session: &self.session,
            number: self.answers,
            exercise,
            seed,
        };
        let entry = entry(answered, &circumstances, catalogue);
        self.answers += 1;
        let kept = match &mut self.journal {
            Some(journal) => journal.append(&entry),
            None => Ok(()),
        };
        self.scorer.fold(&entry);
        kept
    }

    /// At the end: writes what still waits to the journal, or says in which rescue file it is.
    ///
    /// # Errors
    /// If it is written nowhere; the answers come back.
    pub fn settle(&mut self) -> Result<Option<Rescued>, Unsaved> {
        self.journal.as_mut().map_or(Ok(None), JournalFile::settle)
    }
}
