//! KML and GPX alike: from text to elements, with their lines, and without anything from outside the text.

use roxmltree::{Document, Error, Node, ParsingOptions};

use super::found::At;
use crate::error::Fault;

/// Most elements, texts and comments of a file.
const MOST_NODES: u32 = 4_000_000;

/// Reads the elements and where each line of the text starts.
pub(crate) fn parse(text: &str) -> Result<(Document<'_>, Lines), Fault> {
    let options = ParsingOptions { allow_dtd: false, nodes_limit: MOST_NODES, ..ParsingOptions::default() };
    let document = Document::parse_with_options(text, options).map_err(|error| refused(&error))?;
    let lines = Lines(std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect());
    Ok((document, lines))
}

fn refused(error: &Error) -> Fault {
    let fault = match error {
        Error::DtdDetected => {
            let problem = "the file declares entities of its own (DOCTYPE), which are not read";
            Fault::error("", problem, "Delete the DOCTYPE, or export the file again")
        }
        Error::NoRootNode | Error::UnclosedRootNode | Error::UnexpectedEndOfStream => {
            return Fault::error("", "the file breaks off before its end", "Export or download it again");
        }
        Error::NodesLimitReached => {
            let problem = format!("the file has more than {MOST_NODES} elements");
            return Fault::error("", problem, "Export only the shapes of the field");
        }
        other => Fault::error("", format!("this is not XML: {other}"), "Fix it there, or export it again"),
    };
    let line = usize::try_from(error.pos().row).ok().filter(|_| !matches!(error, Error::DtdDetected));
    Fault { line, ..fault }
}

/// Where each line of the text starts.
pub(crate) struct Lines(Vec<usize>);

impl Lines {
    /// The line on which an element begins, from 1.
    pub(crate) fn line(&self, node: Node<'_, '_>) -> usize {
        self.0.partition_point(|&start| start <= node.range().start)
    }

    /// An element with the name inside it, such as `Placemark "Wood"`.
    pub(super) fn at(&self, node: Node<'_, '_>, what: &str, number: usize) -> At {
        let name = child(node, "name").map(text);
        let name = super::found::name_or(name.as_deref(), String::new);
        let line = Some(self.line(node));
        let (name, place) = if name.is_empty() {
            (format!("{what} {number}"), format!("{what} {number}"))
        } else {
            (name.clone(), format!("{what} \"{name}\""))
        };
        At { name, place, line }
    }
}

/// The elements inside one, by name, whatever their namespace.
pub(crate) fn children<'a, 'i>(node: Node<'a, 'i>, name: &'static str) -> impl Iterator<Item = Node<'a, 'i>> {
    node.children().filter(move |child| is(*child, name))
}

pub(crate) fn child<'a, 'i>(node: Node<'a, 'i>, name: &'static str) -> Option<Node<'a, 'i>> {
    children(node, name).next()
}

pub(crate) fn is(node: Node<'_, '_>, name: &str) -> bool {
    node.is_element() && node.tag_name().name() == name
}

/// Everything written straight inside an element; a comment may stand in between.
pub(crate) fn text(node: Node<'_, '_>) -> String {
    node.children().filter(Node::is_text).filter_map(|part| part.text()).collect()
}
