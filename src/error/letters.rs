//! Which letters may leave the program? Names come from files of anybody's; what would steer a terminal, turn a line about,
//! hide a word or break a file of XML stops here. Every writer asks this file.

use std::borrow::Cow;

use unicode_general_category::{GeneralCategory, get_general_category};

/// What becomes of a letter.
fn seen(letter: char) -> Seen {
    match letter {
        '\n' | '\t' => Seen::Break,
        // The separators of lines and paragraphs break lines as well.
        '\u{2028}' | '\u{2029}' => Seen::Space,
        _ if letter.is_control() => Seen::Space,
        // What has no mark of its own: joiners, marks, embeddings, overrides and isolates of direction, tags (Unicode's
        // category Cf). Persian, the scripts of India and some pictures are joined by such; that is given up.
        _ if get_general_category(letter) == GeneralCategory::Format => Seen::Nothing,
        // Letters that are drawn as nothing (Unicode, Default_Ignorable_Code_Point, those that are no marks or variants).
        '\u{34f}' | '\u{115f}' | '\u{1160}' | '\u{3164}' | '\u{ffa0}' => Seen::Nothing,
        // XML 1.0, 2.2: the two that are no letters and that no file of it may hold.
        '\u{fffe}' | '\u{ffff}' => Seen::Instead,
        _ => Seen::Plainly,
    }
}

#[derive(PartialEq)]
enum Seen {
    Plainly,
    Break,
    Space,
    Nothing,
    Instead,
}

fn put(text: &str, breaks: bool) -> Cow<'_, str> {
    // A line break of two letters is one of the breaks.
    let plain = |letter| seen(letter) == Seen::Plainly || (breaks && matches!(letter, '\n' | '\t'));
    if text.chars().all(plain) {
        return Cow::Borrowed(text);
    }
    let mut shown = String::with_capacity(text.len());
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        match seen(letter) {
            _ if letter == '\r' && breaks && letters.peek() == Some(&'\n') => shown.push(letter),
            Seen::Plainly => shown.push(letter),
            Seen::Break if breaks => shown.push(letter),
            Seen::Break | Seen::Space => shown.push(' '),
            Seen::Nothing => {}
            Seen::Instead => shown.push(char::REPLACEMENT_CHARACTER),
        }
    }
    Cow::Owned(shown)
}

/// A text as it may be put out: its lines stay lines, and whatever can't be seen in it is a space or is left out.
pub fn shown(text: &str) -> Cow<'_, str> {
    put(text, true)
}

/// A name or a cell as it may be put out: the same, on one line.
pub fn on_one_line(text: &str) -> Cow<'_, str> {
    put(text, false)
}

/// A cell of words that no spreadsheet takes for a formula: one that begins with a sign that starts one is led by a quote,
/// which makes it text (OWASP, "CSV Injection"). Numbers are no words, and don't come here.
pub fn cell(text: &str) -> String {
    let text = on_one_line(text);
    // The wide forms of the same signs start a formula where people write with them.
    let signs = ['=', '+', '-', '@', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}'];
    if text.trim_start().starts_with(signs) { format!("'{text}") } else { text.into_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, whole: &str, line: &str) {
        assert_eq!((&*shown(text), &*on_one_line(text)), (whole, line), "{text:?}");
        assert_eq!(shown(&shown(text)), shown(text), "{text:?}");
    }

    #[test]
    fn nothing_that_steers_or_hides_gets_out() {
        check("plain & <words>, é漢", "plain & <words>, é漢", "plain & <words>, é漢");
        check("two\nlines\tapart", "two\nlines\tapart", "two lines apart");
        check("a\r\nb\rc", "a\r\nb c", "a  b c");
        check("\u{1b}[31mred\u{1b}[0m\u{7}", " [31mred [0m ", " [31mred [0m ");
        check("\u{9b}2Jgone\u{85}\u{7f}\0", " 2Jgone   ", " 2Jgone   ");
        check("\u{202e}evil\u{202c} \u{2066}x\u{2069}", "evil x", "evil x");
        check("pi\u{200b}ts\u{feff}\u{ad}\u{e0041}", "pits", "pits");
        check("one\u{2028}two", "one two", "one two");
        check("no\u{ffff}ne\u{fffe}", "no\u{fffd}ne\u{fffd}", "no\u{fffd}ne\u{fffd}");
    }

    #[test]
    fn every_letter_that_gets_out_can_be_seen_or_parts_words() {
        let all: String = (0..=0x10_ffff).filter_map(char::from_u32).collect();
        for letter in shown(&all).chars() {
            assert!(!letter.is_control() || matches!(letter, '\n' | '\t'), "{letter:?}");
            assert!(get_general_category(letter) != GeneralCategory::Format, "{letter:?}");
        }
        assert!(!on_one_line(&all).contains(char::is_control));
    }

    #[test]
    fn no_cell_is_a_formula() {
        for (words, harmless) in [
            ("=1+1", "'=1+1"),
            ("+44 1", "'+44 1"),
            ("-cmd", "'-cmd"),
            ("@SUM(A1)", "'@SUM(A1)"),
            ("\t=1", "' =1"),
            ("\r=1", "' =1"),
            ("\u{200b}=1", "'=1"),
            ("\u{ff1d}1", "'\u{ff1d}1"),
            ("pits = cars", "pits = cars"),
            ("", ""),
        ] {
            assert_eq!(cell(words), harmless, "{words:?}");
        }
    }
}
