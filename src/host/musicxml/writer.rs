//! Writes XML elements.

use std::fmt::Display;

/// XML in the making, an element a line.
#[derive(Debug, Default)]
pub(super) struct Writer {
    text: String,
}

impl Writer {
    /// What is XML already.
    pub(super) fn raw(&mut self, xml: &str) {
        self.text += xml;
    }

    /// An element around what `content` writes; `attributes` begin with a space.
    pub(super) fn within(
        &mut self,
        element: &str,
        attributes: &str,
        content: impl FnOnce(&mut Self),
    ) {
        self.text += &format!("<{element}{attributes}>\n");
        content(self);
        self.text += &format!("</{element}>\n");
    }

    /// An element with text.
    pub(super) fn text(&mut self, element: &str, attributes: &str, text: impl Display) {
        let text = escaped(&text.to_string());
        self.text += &format!("<{element}{attributes}>{text}</{element}>\n");
    }

    pub(super) fn finish(self) -> String {
        self.text
    }
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::Writer;

    #[test]
    fn text_is_escaped() {
        let mut xml = Writer::default();
        xml.within("a", " b=\"1\"", |xml| xml.text("c", "", "1 < 2 & 3 > 2"));
        assert_eq!(
            xml.finish(),
            "<a b=\"1\">\n<c>1 &lt; 2 &amp; 3 &gt; 2</c>\n</a>\n"
        );
    }
}
