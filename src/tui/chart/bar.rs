//! Where the chords of one bar stand, so that each has its name and its mark.

use super::cell::Cell;

/// A chord as it is drawn: columns from where the bar's first chord may begin, and text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Placed {
    pub(super) column: usize,
    pub(super) text: String,
}

/// How much air a cell is given.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Air {
    /// A space on either side of what is current, and one before the sign.
    Wide,
    /// A space before the sign.
    Little,
    None,
}

/// Places cells that want to begin at these columns in a bar of so many: at their time
/// where there is room, else aside; a name is cut only where all together are too long,
/// and a sign never.
pub(super) fn placed(cells: &[(usize, &Cell)], columns: usize, cut: &str) -> Vec<Placed> {
    let air = [Air::Wide, Air::Little, Air::None]
        .into_iter()
        .find(|air| together(cells, *air) <= columns)
        .unwrap_or(Air::None);
    let mut widths: Vec<usize> = cells.iter().map(|(_, cell)| width(cell, air)).collect();
    while sum(&widths) > columns {
        let widest = widths.iter_mut().max().filter(|width| **width > 1);
        let Some(widest) = widest else { break };
        *widest -= 1;
    }
    let mut starts = Vec::with_capacity(cells.len());
    let mut free = 0;
    for ((wanted, _), width) in cells.iter().zip(&widths) {
        let start = free.max(*wanted);
        starts.push(start);
        free = start + width + 1;
    }
    let mut end = columns;
    for (start, width) in starts.iter_mut().zip(&widths).rev() {
        *start = (*start).min(end.saturating_sub(*width));
        end = start.saturating_sub(1);
    }
    let texts = cells.iter().zip(&widths);
    let texts = texts.map(|((_, cell), width)| text(cell, air, *width, cut));
    starts
        .into_iter()
        .zip(texts)
        .map(|(column, text)| Placed { column, text })
        .collect()
}

/// Whether cells have room in a bar of so many columns without a name being cut.
pub(super) fn fit(cells: &[(usize, &Cell)], columns: usize) -> bool {
    together(cells, Air::None) <= columns
}

fn together(cells: &[(usize, &Cell)], air: Air) -> usize {
    let widths: Vec<usize> = cells.iter().map(|(_, cell)| width(cell, air)).collect();
    sum(&widths)
}

/// With a space between each two.
fn sum(widths: &[usize]) -> usize {
    widths.iter().sum::<usize>() + widths.len().saturating_sub(1)
}

fn width(cell: &Cell, air: Air) -> usize {
    whole(cell, air).chars().count()
}

fn whole(cell: &Cell, air: Air) -> String {
    let gap = if cell.sign.is_empty() || air == Air::None {
        ""
    } else {
        " "
    };
    let text = format!("{}{gap}{}", cell.text, cell.sign);
    if air == Air::Wide && cell.is_current {
        format!(" {text} ")
    } else {
        text
    }
}

fn text(cell: &Cell, air: Air, width: usize, cut: &str) -> String {
    let text = whole(cell, air);
    if text.chars().count() <= width {
        return text;
    }
    let kept = width.saturating_sub(cell.sign.chars().count() + cut.chars().count());
    let kept: String = cell.text.chars().take(kept).collect();
    let text = format!("{kept}{cut}{}", cell.sign);
    let over = text.chars().count().saturating_sub(width);
    text.chars().skip(over).collect()
}

#[cfg(test)]
mod tests {
    use ratatui::style::Style;

    use super::*;

    fn cell(text: &str, sign: &'static str, is_current: bool) -> Cell {
        Cell {
            text: text.to_owned(),
            sign,
            is_current,
            style: Style::new(),
        }
    }

    fn drawn(cells: &[(usize, &Cell)], columns: usize) -> String {
        let mut row: Vec<char> = vec!['_'; columns];
        for placed in placed(cells, columns, "…") {
            for (at, letter) in placed.text.chars().enumerate() {
                row[placed.column + at] = letter;
            }
        }
        row.into_iter().collect()
    }

    #[test]
    fn chords_give_way_to_each_other_before_a_name_is_cut() {
        let (long, short) = (cell("♭VImaj7", "≈", true), cell("♭II7", "✓", false));
        let plain = cell("I", "", false);
        assert_eq!(drawn(&[(0, &plain), (8, &short)], 17), "I_______♭II7 ✓___");
        assert_eq!(drawn(&[(0, &long), (8, &short)], 17), "♭VImaj7 ≈_♭II7 ✓_");
        assert_eq!(drawn(&[(0, &long), (8, &plain)], 17), " ♭VImaj7 ≈ _I____");
        assert_eq!(drawn(&[(0, &short), (8, &long)], 17), "♭II7 ✓__♭VImaj7 ≈");
    }

    #[test]
    fn where_all_are_too_long_the_longest_is_cut_and_keeps_its_sign() {
        let (long, short) = (cell("♭VImaj7", "≈", true), cell("♭II7", "✓", false));
        assert!(!fit(&[(0, &long), (6, &short)], 12));
        assert_eq!(drawn(&[(0, &long), (6, &short)], 12), "♭VIm…≈_♭II7✓");
        assert_eq!(drawn(&[(0, &long), (1, &short)], 3), "≈_✓");
        assert_eq!(drawn(&[(0, &long)], 1), "≈");
    }
}
