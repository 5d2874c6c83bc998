//! Columns of text, aligned by the width that a terminal gives them.

use unicode_width::UnicodeWidthStr;

/// The rows with their cells padded to columns two spaces apart, a line each.
pub(super) fn table(rows: &[Vec<String>]) -> String {
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let width = |column: usize| {
        let cells = rows.iter().filter_map(|row| row.get(column));
        cells.map(|cell| cell.width()).max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..columns).map(width).collect();
    let mut text = String::new();
    for row in rows {
        let mut line = String::new();
        for (cell, width) in row.iter().zip(&widths) {
            line += cell;
            line += &" ".repeat(width - cell.width() + 2);
        }
        text += line.trim_end();
        text += "\n";
    }
    text
}

/// `label` in a column of `indent`, then the text, its lines broken before `width` and
/// indented alike.
pub(super) fn labelled(label: &str, text: &str, indent: usize, width: usize) -> String {
    let mut out = format!("{label:<indent$}");
    let mut column = indent;
    for (index, word) in text.split(' ').enumerate() {
        if index > 0 && column + 1 + word.width() > width {
            out += "\n";
            out += &" ".repeat(indent);
            column = indent;
        } else if index > 0 {
            out += " ";
            column += 1;
        }
        out += word;
        column += word.width();
    }
    out + "\n"
}

#[cfg(test)]
mod tests {
    use super::{labelled, table};

    #[test]
    fn columns_align_by_width_and_not_by_bytes() {
        let rows = [["V7/ii", "C7"], ["♯iv°7", "A°7"], ["I", "E♭"]];
        let rows = rows.map(|row| row.map(str::to_owned).to_vec());
        assert_eq!(table(&rows), "V7/ii  C7\n♯iv°7  A°7\nI      E♭\n");
        assert_eq!(table(&[]), "");
    }

    #[test]
    fn long_text_is_broken_between_words() {
        let text = labelled("by ear", "the ♭6 sinks to 5", 8, 17);
        assert_eq!(text, "by ear  the ♭6\n        sinks to\n        5\n");
        assert_eq!(labelled("a", "immeasurably", 2, 5), "a immeasurably\n");
    }
}
