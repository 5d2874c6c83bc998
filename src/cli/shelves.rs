//! What the library holds, for the commands that name things in it.

use super::context::Context;
use super::failure::{Failure, Missing};
use crate::devices::{Catalogue, CatalogueError, Device};
use crate::document::near;
use crate::exercise::{Exercise, Known};
use crate::host::library::{BadFile, EXERCISES, Loaded, Named, Origin, Reason, Shelf, may_name};
use crate::synth::{self, Kit, Sound};

/// The built-in devices and the user's.
pub(super) fn devices(context: &Context) -> Shelf<Device> {
    let built_in = Catalogue::built_in().devices().to_vec();
    Shelf::load(built_in, context.home.as_deref(), Device::read)
}

/// The catalogue of these devices.
pub(super) fn catalogue(shelf: &Shelf<Device>) -> Result<Catalogue, Failure> {
    let devices = shelf.things.iter().map(|device| device.thing.clone());
    Catalogue::of(devices.collect()).map_err(|error| {
        let CatalogueError::Unknown { device, .. } = &error;
        let named = |known: &&Loaded<Device>| known.thing.id == *device;
        let name = match shelf.things.iter().find(named).map(|known| &known.origin) {
            Some(Origin::User(path)) => path.display().to_string(),
            Some(Origin::BuiltIn) | None => device.to_string(),
        };
        let reason = Reason::Unfitting(error.to_string());
        Failure::BadFiles(vec![BadFile { name, reason }])
    })
}

/// The built-in sounds and the user's.
pub(super) fn sounds(context: &Context) -> Shelf<Sound> {
    let built_in = synth::built_in().iter().cloned();
    Shelf::load(built_in, context.home.as_deref(), Sound::read)
}

/// The built-in percussion and the user's.
pub(super) fn kits(context: &Context) -> Shelf<Kit> {
    let built_in = std::iter::once(synth::kit().clone());
    Shelf::load(built_in, context.home.as_deref(), Kit::read)
}

/// The percussion that is chosen; the built-in one if none is.
pub(super) fn kit<'s>(shelf: &'s mut Shelf<Kit>, chosen: Option<&str>) -> Result<&'s Kit, Failure> {
    find("kit", shelf, chosen.unwrap_or(&synth::kit().id))
}

/// Calls with what an exercise may name: built-in sounds first, for the first is the
/// default.
pub(super) fn with_known<T>(
    catalogue: &Catalogue,
    context: &Context,
    call: impl FnOnce(Known<'_>) -> T,
) -> T {
    let shelf = sounds(context);
    let built_in = synth::built_in().iter().map(|sound| sound.id.as_str());
    let mut sounds: Vec<&str> = built_in.collect();
    sounds.extend(shelf.ids().filter(|id| synth::find(id).is_none()));
    call(Known {
        catalogue,
        sounds: &sounds,
    })
}

/// The built-in exercises and the user's; with `only` the one of that id, and what else its
/// files may hold. A user's device may spoil a built-in exercise that names it.
pub(super) fn exercises(
    context: &Context,
    known: Known<'_>,
    only: Option<&str>,
) -> Shelf<Exercise> {
    let mut spoiled = Vec::new();
    let wanted = |(_, text): &&(&str, &str)| only.is_none_or(|id| may_name(text.as_bytes(), id));
    let built_in = EXERCISES.iter().filter(wanted).filter_map(|(name, text)| {
        let bad = |faults| BadFile {
            name: format!("{name} (built in)"),
            reason: Reason::Faulty(faults),
        };
        let read = Exercise::read(text, known).map_err(bad);
        read.map_err(|bad| spoiled.push(bad)).ok()
    });
    let built_in: Vec<Exercise> = built_in.collect();
    let read = |text: &str| Exercise::read(text, known);
    let mut shelf = Shelf::load_named(built_in, context.home.as_deref(), only, read);
    shelf.bad.append(&mut spoiled);
    shelf
}

/// The thing of an id; a broken file of the user may be why there is none.
pub(super) fn find<'s, T: Named>(
    what: &'static str,
    shelf: &'s mut Shelf<T>,
    id: &str,
) -> Result<&'s T, Failure> {
    if shelf.find(id).is_none() {
        return Err(Failure::Missing(Missing {
            what,
            id: id.to_owned(),
            near: near(id, shelf.ids()).map(str::to_owned),
            bad: std::mem::take(&mut shelf.bad),
        }));
    }
    Ok(shelf.find(id).expect("it was just found"))
}

/// Ends a command that listed a shelf: with the files that are not on it, if any.
pub(super) fn finish<T>(shelf: Shelf<T>) -> Result<(), Failure> {
    if shelf.bad.is_empty() {
        Ok(())
    } else {
        Err(Failure::BadFiles(shelf.bad))
    }
}
