//! Sheets that belong together: what goes out as one PDF or as one page for a browser.

use super::Sheet;

/// Sheets with a title, and what they say in plain words.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Document {
    /// What it is called.
    pub title: String,
    /// Whose it is; empty where nobody is named.
    pub author: String,
    /// What it is about, in a sentence or two.
    pub subject: String,
    /// Its sheets, in order. They may differ in size.
    pub pages: Vec<Sheet>,
    /// What they say, for a phone or for those who can't see them; only in HTML, and not printed.
    pub words: Vec<Section>,
}

/// A heading and what stands under it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Section {
    /// Heading.
    pub heading: String,
    /// Paragraphs.
    pub paragraphs: Vec<String>,
}

impl From<Sheet> for Document {
    fn from(sheet: Sheet) -> Self {
        let (title, subject) = (sheet.title.clone(), sheet.about.clone());
        Self { title, subject, pages: vec![sheet], ..Self::default() }
    }
}
