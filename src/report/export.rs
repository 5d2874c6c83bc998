//! Entries as rows of CSV (RFC 4180), one a slot, for spreadsheets and statistics.

use jiff::tz::TimeZone;

use super::calendar::day;
use crate::devices::DeviceId;
use crate::document::shown;
use crate::journal::{Entry, KeySetting, SlotAnswer};

/// The names of the columns.
pub const CSV_HEAD: &str = "time,date,learner,session,exercise,seed,index,kind,key,line,tempo,sound,texture,key_setting,answers,inversion,texture_difficulty,tempo_difficulty,similarity,thinking,replays,explained,slot,devices,truth,function,quality,degree,bass,answer,mark,credit,heard_as\r\n";

/// The rows of one entry, each with its line break. The zone decides the date.
#[must_use]
pub fn csv_rows(entry: &Entry, zone: &TimeZone) -> String {
    let row = |slot| row(entry, slot, zone);
    entry.slots.iter().map(row).collect()
}

fn row(entry: &Entry, slot: &SlotAnswer, zone: &TimeZone) -> String {
    let devices: Vec<&str> = slot.devices.iter().map(DeviceId::as_str).collect();
    let difficulty = entry.difficulty;
    let cells = [
        entry.time.to_string(),
        day(entry.time, zone).to_string(),
        text(&entry.learner),
        text(&entry.session),
        text(&entry.exercise),
        entry.seed.to_string(),
        entry.index.to_string(),
        text(&entry.kind),
        text(&entry.key),
        text(&entry.line),
        entry.tempo.to_string(),
        text(&entry.sound),
        text(&entry.texture),
        match entry.key_setting {
            KeySetting::Cadence => "cadence",
            KeySetting::Tonic => "tonic",
            KeySetting::Nothing => "nothing",
        }
        .to_owned(),
        entry.answers.to_string(),
        difficulty.inversion.to_string(),
        difficulty.texture.to_string(),
        difficulty.tempo.to_string(),
        difficulty.similarity.to_string(),
        entry.thinking.to_string(),
        entry.replays.to_string(),
        entry.explained.to_string(),
        slot.slot.to_string(),
        devices.join(" "),
        text(&slot.truth),
        text(&slot.function),
        text(&slot.quality),
        text(&slot.degree),
        text(&slot.bass),
        text(&slot.answer),
        text(&slot.mark),
        slot.credit.to_string(),
        slot.heard_as
            .as_ref()
            .map_or_else(String::new, ToString::to_string),
    ];
    cells.join(",") + "\r\n"
}

/// A cell that a terminal shows and does not obey, and that a spreadsheet shows and does not
/// compute: quoted where needed, and text that begins like a formula (OWASP, "CSV
/// injection") held back by an apostrophe.
fn text(cell: &str) -> String {
    let cell = &shown(cell);
    let cell = if cell.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        format!("'{cell}")
    } else {
        cell.clone()
    };
    if cell.contains([',', '"', '\n', '\r']) {
        format!("\"{}\"", cell.replace('"', "\"\""))
    } else {
        cell
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_are_quoted_as_the_standard_says() {
        // RFC 4180, section 2, rules 6 and 7.
        assert_eq!(text("plain"), "plain");
        assert_eq!(text("a,b"), "\"a,b\"");
        assert_eq!(text("say \"iv\""), "\"say \"\"iv\"\"\"");
        assert_eq!(text("two\nlines"), "two\\nlines");
        assert_eq!(text("\u{1b}[31m\u{202e}"), "\\u001b[31m\\u202e");
        assert_eq!(text("=HYPERLINK(1)"), "'=HYPERLINK(1)");
    }
}
