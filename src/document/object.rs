//! The fields of an object, asked for by name.

use jsonc_parser::ast;
use jsonc_parser::common::Ranged;

use super::fault::{Faults, Problem};
use super::near::near;
use super::value::{Step, Value};

/// An object being read: ask for every field it may have, then [`finish`](Self::finish).
#[must_use = "call `finish`, or unknown fields pass unseen"]
pub struct Object<'v, 'f> {
    value: &'v Value<'v>,
    object: &'v ast::Object<'v>,
    faults: &'f mut Faults,
    asked: Vec<&'static str>,
}

impl<'v, 'f> Object<'v, 'f> {
    /// The fields of `value`; a fault if it is not an object or holds a field twice.
    pub fn of(value: &'v Value<'v>, faults: &'f mut Faults) -> Option<Self> {
        let Some(object) = value.node.as_object() else {
            return value.expected("an object", faults);
        };
        let mut first = std::collections::HashMap::new();
        for property in &object.properties {
            let range = name_range(property);
            if let Some(first) = first.get(property.name.as_str()) {
                let problem = Problem::RepeatedField {
                    first: faults.place(first),
                };
                faults.add(&range, path_of(value, property), problem);
            } else {
                first.insert(property.name.as_str(), range);
            }
        }
        Some(Self {
            value,
            object,
            faults,
            asked: Vec::new(),
        })
    }

    /// Whether the field stands in the object.
    #[must_use]
    pub fn has(&self, name: &str) -> bool {
        self.object.get(name).is_some()
    }

    /// Reads a field that must be there.
    pub fn required<T>(
        &mut self,
        name: &'static str,
        reader: impl FnOnce(&Value, &mut Faults) -> Option<T>,
    ) -> Option<T> {
        if self.has(name) {
            return self.optional(name, reader);
        }
        self.asked.push(name);
        let problem = Problem::MissingField {
            expected: wanted(reader),
        };
        let start = self.value.range().start;
        let path = path_to(self.value, name);
        self.faults.add(&(start..start + 1), path, problem);
        None
    }

    /// Reads a field that may be missing. A field with a fault also reads as `None`: the
    /// fault already spoils the whole.
    pub fn optional<T>(
        &mut self,
        name: &'static str,
        reader: impl FnOnce(&Value, &mut Faults) -> Option<T>,
    ) -> Option<T> {
        self.asked.push(name);
        let property = self.object.get(name)?;
        let child = self.value.child(&property.value, Step::Field(name));
        reader(&child, self.faults)
    }

    /// The collector, for faults that span fields.
    pub fn faults(&mut self) -> &mut Faults {
        self.faults
    }

    /// Reports a problem of the object as a whole.
    pub fn fault(&mut self, problem: Problem) {
        self.value.fault::<()>(problem, self.faults);
    }

    /// Rejects every field that nobody asked for.
    pub fn finish(self) {
        for property in &self.object.properties {
            let name = property.name.as_str();
            if self.asked.contains(&name) {
                continue;
            }
            let unused = self.asked.iter().copied().filter(|field| !self.has(field));
            let problem = Problem::UnknownField {
                near: near(name, unused).map(str::to_owned),
            };
            let path = path_of(self.value, property);
            self.faults.add(&name_range(property), path, problem);
        }
    }
}

/// What a reader wants: what it says of `null`.
fn wanted<T>(reader: impl FnOnce(&Value, &mut Faults) -> Option<T>) -> Option<String> {
    const NULL: &str = "null";
    let range = jsonc_parser::common::Range::new(0, NULL.len());
    let node = ast::Value::NullKeyword(ast::NullKeyword { range });
    let mut faults = Faults::of(NULL);
    reader(&Value::root(&node, NULL), &mut faults);
    let fault = faults.into_iter().next()?;
    fault.problem.expected().map(str::to_owned)
}

fn name_range(property: &ast::ObjectProp<'_>) -> std::ops::Range<usize> {
    let range = match &property.name {
        ast::ObjectPropName::String(name) => name.range(),
        ast::ObjectPropName::Word(name) => name.range(),
    };
    range.start..range.end
}

fn path_of(object: &Value<'_>, property: &ast::ObjectProp<'_>) -> String {
    path_to(object, property.name.as_str())
}

fn path_to(object: &Value<'_>, name: &str) -> String {
    let before = object.path();
    if before.is_empty() {
        name.to_owned()
    } else {
        format!("{before}.{name}")
    }
}
