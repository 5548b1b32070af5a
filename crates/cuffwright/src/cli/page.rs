//! Lines, paragraphs and tables for a terminal: plain text, aligned, readable without colour.

/// The widest line.
const WIDTH: usize = 100;
/// The narrowest last column of a table, however wide the others are.
const LEAST: usize = 36;

/// A page of text as it grows.
#[derive(Debug, Default)]
pub(crate) struct Page {
    text: String,
}

impl Page {
    /// One line as it stands.
    pub(crate) fn line(&mut self, line: &str) {
        self.text.push_str(line.trim_end());
        self.text.push('\n');
    }

    /// An empty line, unless the page is empty or ends with one.
    pub(crate) fn gap(&mut self) {
        if !self.text.is_empty() && !self.text.ends_with("\n\n") {
            self.text.push('\n');
        }
    }

    /// A heading with room above it.
    pub(crate) fn heading(&mut self, text: &str) {
        self.gap();
        self.line(text);
    }

    /// A paragraph: the first line begins with `lead`, the others stand under its text.
    pub(crate) fn paragraph(&mut self, lead: &str, text: &str) {
        let indent = lead.chars().count();
        let mut lines = wrapped(text, WIDTH.saturating_sub(indent).max(LEAST)).into_iter();
        self.line(&format!("{lead}{}", lines.next().unwrap_or_default()));
        for line in lines {
            self.line(&format!("{:indent$}{line}", ""));
        }
    }

    /// Rows whose columns stand under each other; the last column is wrapped.
    pub(crate) fn table(&mut self, indent: usize, rows: &[Vec<String>]) {
        let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
        let widths: Vec<usize> = (0..columns.saturating_sub(1))
            .map(|column| {
                rows.iter()
                    .filter_map(|row| row.get(column))
                    .map(|cell| cell.chars().count())
                    .max()
                    .unwrap_or(0)
            })
            .collect();
        for row in rows {
            let mut lead = " ".repeat(indent);
            let (last, cells) = match row.split_last() {
                Some((last, cells)) if row.len() == columns => (last.as_str(), cells),
                _ => ("", row.as_slice()),
            };
            for (cell, width) in cells.iter().zip(&widths) {
                let room = " ".repeat(width.saturating_sub(cell.chars().count()) + 2);
                lead.push_str(cell);
                lead.push_str(&room);
            }
            self.paragraph(&lead, last);
        }
    }

    /// The text, whole.
    pub(crate) fn into_text(self) -> String {
        harmless(&self.text)
    }
}

/// A text that a terminal only shows: names and cells come from files, and an escape sequence in one of them must
/// not move the cursor, and a change of direction must not turn a line round.
pub(crate) fn harmless(text: &str) -> String {
    let acts = |letter: char| {
        (letter.is_control() && letter != '\n')
            || matches!(letter, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
    };
    text.chars().map(|letter| if acts(letter) { '\u{fffd}' } else { letter }).collect()
}

/// Breaks a text between words. A word that is too long keeps a line of its own.
fn wrapped(text: &str, width: usize) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    let mut length = 0;
    for word in text.split_whitespace() {
        let letters = word.chars().count();
        if length > 0 && length + 1 + letters > width {
            lines.push(std::mem::take(&mut line));
            length = 0;
        }
        if length > 0 {
            line.push(' ');
            length += 1;
        }
        line.push_str(word);
        length += letters;
    }
    lines.push(line);
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_stand_under_each_other_and_long_words_stay_whole() {
        let mut page = Page::default();
        let row = |cells: [&str; 3]| cells.map(str::to_owned).to_vec();
        page.table(
            2,
            &[row(["Åse", "full", "nothing holds"]), row(["Bo", "out today", &"long ".repeat(40)])],
        );
        let text = page.into_text();
        let lines: Vec<&str> = text.lines().collect();
        assert_eq!(lines[0], "  Åse  full       nothing holds");
        assert_eq!(lines[1].find("long"), Some(18));
        assert_eq!(lines[2].find("long"), Some(18));
        assert!(lines.iter().all(|line| line.chars().count() <= WIDTH));
        assert_eq!(wrapped(&"x".repeat(300), 40), ["x".repeat(300)]);
        assert_eq!(wrapped("", 40), [""]);
    }
}
