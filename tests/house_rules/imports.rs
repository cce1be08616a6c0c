//! Which file of the library imports which. A name is followed through re-exports to the file that defines it; what only
//! tests use doesn't count.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// A module by the names that lead to it from the crate; every one is a file.
pub(super) type Module = Vec<String>;

/// A file: its code, the names that it imports, and the modules below it.
#[derive(Default)]
struct File {
    code: String,
    names: BTreeMap<String, Vec<String>>,
    below: BTreeSet<String>,
}

/// The files of the library.
pub(super) struct Library(BTreeMap<Module, File>);

impl Library {
    /// Reads files given by their path below the package and their code, comments and strings blanked out.
    pub(super) fn read(files: impl IntoIterator<Item = (PathBuf, String)>) -> Self {
        let mut library: BTreeMap<Module, File> = BTreeMap::new();
        let mut for_tests = Vec::new();
        for (path, code) in files {
            let Some(module) = module(&path) else { continue };
            let (code, tests) = without_tests(&code);
            for_tests.extend(tests.into_iter().map(|name| [module.clone(), vec![name]].concat()));
            let below = after(&code, "mod ").filter_map(|rest| rest.split_once(';')).map(|(name, _)| name.to_owned());
            let below = below.filter(|name| name.chars().all(is_word)).collect();
            library.insert(module, File { code, below, ..File::default() });
        }
        library.retain(|module, _| !for_tests.iter().any(|tests| module.starts_with(tests)));
        for (module, file) in &mut library {
            let trees = after(&file.code, "use ").filter_map(|rest| Some(rest.split_once(';')?.0));
            let paths: Vec<_> = trees.flat_map(|tree| leaves(tree, &[])).collect();
            // A path may begin with a name that another one brings in.
            for _ in 0..2 {
                for (called, path) in &paths {
                    if let Some(path) = absolute(module, file, path) {
                        file.names.insert(called.clone(), path);
                    }
                }
            }
        }
        Self(library)
    }

    /// Every import: from which file, to which, and of what.
    pub(super) fn imports(&self) -> BTreeMap<(Module, Module), String> {
        let mut found = BTreeMap::new();
        for (module, file) in &self.0 {
            let imported = file.names.values().cloned();
            let inline = paths(&file.code).into_iter().filter_map(|path| absolute(module, file, &path));
            for path in imported.chain(inline) {
                if let Some(defines) = self.defines(&path, 0).filter(|defines| defines != module) {
                    found.entry((module.clone(), defines)).or_insert_with(|| path.join("::"));
                }
            }
        }
        found
    }

    /// The file that defines what a path names; none where the path names no more than the crate or a room of others.
    fn defines(&self, path: &[String], depth: u32) -> Option<Module> {
        let length = (1..=path.len()).rev().find(|length| self.0.contains_key(&path[..*length]))?;
        let Some(name) = path.get(length) else { return Some(path.to_vec()) };
        match self.0[&path[..length]].names.get(name).filter(|_| depth < 8) {
            Some(elsewhere) => self.defines(&[elsewhere, &path[length + 1..]].concat(), depth + 1),
            None => Some(path[..length].to_vec()),
        }
    }
}

/// Whether one of two modules is above the other: a module declares and hands on what is below it, which in turn may use
/// what the module has. That is one thing in several files, and no circle.
pub(super) fn are_one(a: &Module, b: &Module) -> bool {
    a.starts_with(b) || b.starts_with(a)
}

/// The imports that lie on circles or between them: files that import nothing else, or that nothing else imports, are put
/// aside until there are none.
pub(super) fn circles(imports: impl IntoIterator<Item = (Module, Module)>) -> Vec<(Module, Module)> {
    let mut left: Vec<_> = imports.into_iter().filter(|(from, to)| !are_one(from, to)).collect();
    loop {
        let (from, to): (BTreeSet<_>, BTreeSet<_>) = left.iter().cloned().unzip();
        let before = left.len();
        left.retain(|(a, b)| to.contains(a) && from.contains(b));
        if left.len() == before {
            return left;
        }
    }
}

/// The module of a file of the library.
fn module(path: &Path) -> Option<Module> {
    let names: Option<Module> = path.strip_prefix("src").ok()?.iter().map(|name| Some(name.to_str()?.into())).collect();
    let mut names = names?;
    let last = names.pop()?;
    let last = last.strip_suffix(".rs")?;
    if last != "mod" {
        names.push(last.into());
    }
    (names != ["lib"] && names != ["main"]).then_some(names)
}

/// Code without the modules that only tests have, and the names of those of them that are files of their own.
fn without_tests(code: &str) -> (String, Vec<String>) {
    let (mut kept, mut left, mut files) = (String::new(), code, Vec::new());
    while let Some(at) = left.find("#[cfg(test)]") {
        kept.push_str(&left[..at]);
        left = &left[at + "#[cfg(test)]".len()..];
        let ends = left.find(['{', ';']).unwrap_or(left.len());
        let head = left[..ends].trim();
        if left[ends..].starts_with('{') {
            left = &left[ends + closing(&left[ends..])..];
        } else {
            files.extend(head.rsplit(' ').next().filter(|_| head.contains("mod ")).map(str::to_owned));
            left = left.get(ends + 1..).unwrap_or_default();
        }
    }
    kept.push_str(left);
    (kept, files)
}

/// How long a text is up to the bracket that closes its first one.
fn closing(text: &str) -> usize {
    let mut depth = 0;
    for (at, c) in text.char_indices() {
        depth += match c {
            '{' => 1,
            '}' => -1,
            _ => 0,
        };
        if depth == 0 {
            return at + 1;
        }
    }
    text.len()
}

fn is_word(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

/// What follows a word at the beginning of a line or after a visibility.
fn after<'a>(code: &'a str, word: &'a str) -> impl Iterator<Item = &'a str> {
    code.match_indices(word).filter_map(move |(at, _)| {
        let line = code[..at].rsplit('\n').next().unwrap_or_default().trim();
        (line.is_empty() || line.starts_with("pub") && !line.contains([';', '{', '=']))
            .then(|| &code[at + word.len()..])
    })
}

/// The names that a tree of a use brings in, each with its path.
fn leaves(tree: &str, before: &[String]) -> Vec<(String, Vec<String>)> {
    let tree = tree.trim();
    if let Some(group) = tree.strip_prefix('{') {
        let group = group.strip_suffix('}').unwrap_or(group);
        let (mut depth, mut parts, mut begins) = (0, Vec::new(), 0);
        for (at, c) in group.char_indices() {
            match c {
                '{' => depth += 1,
                '}' => depth -= 1,
                ',' if depth == 0 => {
                    parts.push(&group[begins..at]);
                    begins = at + 1;
                }
                _ => {}
            }
        }
        parts.push(&group[begins..]);
        return parts
            .into_iter()
            .filter(|part| !part.trim().is_empty())
            .flat_map(|part| leaves(part, before))
            .collect();
    }
    if let Some((name, rest)) = tree.split_once("::") {
        return leaves(rest, &[before, &[name.trim().to_owned()]].concat());
    }
    let (name, called) = tree.split_once(" as ").unwrap_or((tree, tree));
    match name.trim() {
        // A whole module, or everything in it.
        "self" | "*" => {
            let called =
                if called == name { before.last().cloned().unwrap_or_default() } else { called.trim().to_owned() };
            vec![(called, before.to_vec())]
        }
        name => vec![(called.trim().to_owned(), [before, &[name.to_owned()]].concat())],
    }
}

/// Paths of two or more names anywhere in code.
fn paths(code: &str) -> Vec<Vec<String>> {
    let mut found = Vec::new();
    for word in code.split(|c: char| !is_word(c) && c != ':') {
        let names: Vec<String> = word.trim_end_matches(':').split("::").map(str::to_owned).collect();
        if names.len() > 1 && names.iter().all(|name| !name.is_empty() && name.chars().all(is_word)) {
            found.push(names);
        }
    }
    found
}

/// A path as it reads from the crate; none where it leads out of the library, or names the room alone for whom something
/// is visible.
fn absolute(module: &Module, file: &File, path: &[String]) -> Option<Vec<String>> {
    let ups = path.iter().take_while(|name| *name == "super").count();
    let (base, rest) = match path.first()?.as_str() {
        "crate" => (&[][..], &path[1..]),
        "self" => (&module[..], &path[1..]),
        "super" => (&module[..module.len().checked_sub(ups)?], &path[ups..]),
        name if file.below.contains(name) => (&module[..], path),
        name => (&file.names.get(name)?[..], &path[1..]),
    };
    let whole = [base, rest].concat();
    (whole.len() > 1).then_some(whole)
}
