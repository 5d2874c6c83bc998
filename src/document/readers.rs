//! Readers of numbers, flags and lists.

use std::fmt::Display;
use std::ops::RangeInclusive;
use std::str::FromStr;

use jsonc_parser::ast;

use super::fault::{Faults, Problem};
use super::value::{Placed, Step, Value};

/// Reads `true` or `false`.
pub fn flag(value: &Value, faults: &mut Faults) -> Option<bool> {
    match value.node {
        ast::Value::BooleanLit(literal) => Some(literal.value),
        ast::Value::StringLit(_)
        | ast::Value::NumberLit(_)
        | ast::Value::Object(_)
        | ast::Value::Array(_)
        | ast::Value::NullKeyword(_) => value.expected("`true` or `false`", faults),
    }
}

/// Reads a finite number within `range`.
pub fn number(range: RangeInclusive<f64>) -> impl Fn(&Value, &mut Faults) -> Option<f64> + Clone {
    move |value, faults| within(value, &range, "a number", faults)
}

/// Reads a whole number within `range`, written without a fraction or an exponent.
pub fn whole<T>(range: RangeInclusive<T>) -> impl Fn(&Value, &mut Faults) -> Option<T> + Clone
where
    T: FromStr + PartialOrd + Display + Clone,
{
    move |value, faults| within(value, &range, "a whole number", faults)
}

fn within<T: FromStr + PartialOrd + Display>(
    value: &Value,
    range: &RangeInclusive<T>,
    what: &str,
    faults: &mut Faults,
) -> Option<T> {
    let literal = value.node.as_number_lit();
    let number = literal.and_then(|literal| literal.value.parse().ok());
    match number {
        Some(number) if range.contains(&number) => Some(number),
        _ => {
            let (from, to) = (range.start(), range.end());
            if from == to {
                return value.expected(format!("the number {from}"), faults);
            }
            value.expected(format!("{what} from {from} to {to}"), faults)
        }
    }
}

/// Reads a list with a number of entries within `count`, each with `entry`.
pub fn list<T>(
    count: RangeInclusive<usize>,
    entry: impl Fn(&Value, &mut Faults) -> Option<T> + Clone,
) -> impl Fn(&Value, &mut Faults) -> Option<Vec<T>> + Clone {
    move |value, faults| {
        let entries = entries(value, &count, &entry, faults)?;
        entries.into_iter().collect()
    }
}

/// The entries of a list, nothing in place of those with a fault.
fn entries<T>(
    value: &Value,
    count: &RangeInclusive<usize>,
    entry: impl Fn(&Value, &mut Faults) -> Option<T>,
    faults: &mut Faults,
) -> Option<Vec<Option<T>>> {
    let expected = format!("a list of {} entries", counted(count));
    let Some(array) = value.node.as_array() else {
        return value.expected(expected, faults);
    };
    if !count.contains(&array.elements.len()) {
        let problem = Problem::Wrong {
            message: format!("a list of {} entries", array.elements.len()),
            expected: Some(expected),
            near: None,
        };
        return value.fault(problem, faults);
    }
    let read = |(index, node)| entry(&value.child(node, Step::Entry(index)), faults);
    Some(array.elements.iter().enumerate().map(read).collect())
}

/// Reads a list like [`list`] in which no entry may stand twice.
pub fn distinct<T: PartialEq>(
    count: RangeInclusive<usize>,
    entry: impl Fn(&Value, &mut Faults) -> Option<T> + Clone,
) -> impl Fn(&Value, &mut Faults) -> Option<Vec<T>> + Clone {
    let entry = placed(entry);
    move |value, faults| {
        let entries: Vec<Option<Placed<T>>> = entries(value, &count, &entry, faults)?;
        for (index, entry) in entries.iter().enumerate() {
            let Some(entry) = entry else { continue };
            let first = entries[..index].iter().flatten().find(|e| *e == entry);
            if let Some(first) = first {
                let literal = faults.text()[entry.spot.range.clone()].to_owned();
                let problem = Problem::RepeatedEntry {
                    found: literal.trim_matches('"').to_owned(),
                    first: faults.place(&first.spot.range),
                };
                entry.spot.fault(problem, faults);
            }
        }
        let values = entries.into_iter().map(|entry| Some(entry?.value));
        values.collect()
    }
}

/// Reads a list of different entries, or one entry standing for a list of itself alone.
pub fn one_or_list<T: PartialEq>(
    count: RangeInclusive<usize>,
    entry: impl Fn(&Value, &mut Faults) -> Option<T> + Clone,
) -> impl Fn(&Value, &mut Faults) -> Option<Vec<T>> + Clone {
    let several = distinct(count, entry.clone());
    move |value, faults| {
        if value.is_list() {
            several(value, faults)
        } else {
            Some(vec![entry(value, faults)?])
        }
    }
}

/// Reads one number, or a pair `[from, to]` in rising order.
pub fn single_or_pair<T: PartialOrd + Display + Clone>(
    entry: impl Fn(&Value, &mut Faults) -> Option<T> + Clone,
) -> impl Fn(&Value, &mut Faults) -> Option<RangeInclusive<T>> + Clone {
    let pair = list(2..=2, entry.clone());
    move |value, faults| {
        if !value.is_list() {
            let before = faults.len();
            let only = entry(value, faults);
            faults.expect_also(before, "or a list of two, the smaller first");
            return only.map(|only| only.clone()..=only);
        }
        let ends = pair(value, faults)?;
        let [from, to] = <[T; 2]>::try_from(ends).ok()?;
        if from > to {
            let problem = Problem::Wrong {
                message: format!("the pair falls from {from} to {to}"),
                expected: Some("the smaller number first".to_owned()),
                near: None,
            };
            return value.fault(problem, faults);
        }
        Some(from..=to)
    }
}

/// Keeps where the value stood.
pub fn placed<T>(
    reader: impl Fn(&Value, &mut Faults) -> Option<T> + Clone,
) -> impl Fn(&Value, &mut Faults) -> Option<Placed<T>> + Clone {
    move |value, faults| {
        Some(Placed {
            value: reader(value, faults)?,
            spot: value.spot(),
        })
    }
}

/// `2` or `1 to 8`.
pub(super) fn counted(count: &RangeInclusive<usize>) -> String {
    if count.start() == count.end() {
        count.start().to_string()
    } else {
        format!("{} to {}", count.start(), count.end())
    }
}
