//! Puts changes into the sources of a tree, each behind a switch that the environment variable `SHOPHEAD_CHANGE` throws when the program runs.
//!
//! Reads from standard input a list of changes as JSON, rewrites the files of the tree that the first argument names, and prints where each change
//! stands now. A change that cannot stand behind a switch is left out of what is printed: it has to be built by itself.

use std::collections::BTreeMap;
use std::ops::Range;
use std::path::Path;
use std::{env, fs, io};

use serde::{Deserialize, Serialize};
use syn::spanned::Spanned as _;
use syn::visit::{self, Visit};

type Failure = Box<dyn std::error::Error>;

#[derive(Deserialize)]
struct Change {
    number: u32,
    file: String,
    genre: String,
    /// Lines and columns count from 1; the end is not part of it.
    span: Span,
    replacement: String,
}

#[derive(Deserialize)]
struct Span {
    start: Place,
    end: Place,
}

#[derive(Deserialize)]
struct Place {
    line: usize,
    column: usize,
}

#[derive(Serialize)]
struct Placed {
    number: u32,
    file: String,
    /// Bytes of the rewritten file within which the compiler may complain of the change.
    start: usize,
    end: usize,
}

/// What a crate asks, compiled into each that is changed. Where `SHOPHEAD_REACHED` names a file, the numbers of the changes that are come by are written
/// there, each once.
const SWITCH: &str = r#"
#[doc(hidden)]
pub mod switched {
    extern crate std;
    use std::io::Write as _;
    use std::sync::OnceLock;
    use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};

    const MOST: usize = 1 << 14;

    static CHOSEN: AtomicU32 = AtomicU32::new(u32::MAX);
    static RECORDED: AtomicBool = AtomicBool::new(true);
    static REACHED: [AtomicBool; MOST] = [const { AtomicBool::new(false) }; MOST];
    static RECORD: OnceLock<Option<std::fs::File>> = OnceLock::new();

    #[inline]
    pub fn is(number: u32) -> bool {
        if RECORDED.load(Ordering::Relaxed) {
            record(number);
        }
        let mut chosen = CHOSEN.load(Ordering::Relaxed);
        if chosen == u32::MAX {
            chosen = std::env::var("SHOPHEAD_CHANGE").ok().and_then(|text| text.parse().ok()).unwrap_or(0);
            CHOSEN.store(chosen, Ordering::Relaxed);
        }
        chosen == number
    }

    #[inline(never)]
    fn record(number: u32) {
        let file = RECORD.get_or_init(|| {
            let path = std::env::var_os("SHOPHEAD_REACHED")?;
            Some(std::fs::OpenOptions::new().append(true).create(true).open(path).expect("a record"))
        });
        match file {
            None => RECORDED.store(false, Ordering::Relaxed),
            Some(file) => {
                let mut file = file;
                if !REACHED[number as usize].swap(true, Ordering::Relaxed) {
                    file.write_all(&number.to_le_bytes()).expect("a record");
                }
            }
        }
    }
}
"#;

/// What the tree of a file has at each place where something can be changed, by the byte where it starts.
#[derive(Default)]
struct Found {
    binary: BTreeMap<usize, (Range<usize>, Range<usize>)>,
    unary: BTreeMap<usize, Range<usize>>,
    arms: BTreeMap<usize, (usize, Option<Range<usize>>)>,
    /// Of a structure's field: its value, its name and what the other fields are taken from.
    fields: BTreeMap<usize, (Range<usize>, String, Range<usize>)>,
}

impl Visit<'_> for Found {
    fn visit_expr_binary(&mut self, node: &syn::ExprBinary) {
        // A chain with a `let` in it cannot stand in brackets.
        if !matches!(*node.right, syn::Expr::Let(_)) && !matches!(*node.left, syn::Expr::Let(_)) {
            self.binary.insert(node.op.span().byte_range().start, (node.span().byte_range(), node.op.span().byte_range()));
        }
        visit::visit_expr_binary(self, node);
    }

    fn visit_expr_unary(&mut self, node: &syn::ExprUnary) {
        self.unary.insert(node.op.span().byte_range().start, node.span().byte_range());
        visit::visit_expr_unary(self, node);
    }

    fn visit_expr_struct(&mut self, node: &syn::ExprStruct) {
        if let Some(base) = &node.rest {
            for field in node.fields.iter().filter(|field| field.colon_token.is_some()) {
                let name = match &field.member {
                    syn::Member::Named(name) => name.to_string(),
                    syn::Member::Unnamed(place) => place.index.to_string(),
                };
                let value = (field.expr.span().byte_range(), name, base.span().byte_range());
                self.fields.insert(field.span().byte_range().start, value);
            }
        }
        visit::visit_expr_struct(self, node);
    }

    fn visit_arm(&mut self, node: &syn::Arm) {
        let guard = node.guard.as_ref().map(|(_, guard)| guard.span().byte_range());
        self.arms.insert(node.span().byte_range().start, (node.pat.span().byte_range().end, guard));
        visit::visit_arm(self, node);
    }
}

/// What stands in place of a stretch of the source with each change on. Only one is on at a time, so that none has to stand within another.
type Edit = Vec<(u32, String)>;

struct Writer<'s> {
    source: &'s str,
    /// By where they start and how long they are, the longest first; what is only put in comes before what starts there.
    edits: Vec<(Range<usize>, Edit)>,
    out: String,
    placed: Vec<(u32, Range<usize>)>,
}

impl Writer<'_> {
    /// Writes a stretch with all that is changed in it, from the edit with that index on.
    fn write(&mut self, stretch: &Range<usize>, mut next: usize) {
        let mut at = stretch.start;
        while let Some((range, _)) = self.edits.get(next) {
            let range = range.clone();
            if range.start >= stretch.end && stretch.end < self.source.len() {
                break;
            }
            if range.start < at || range.end > stretch.end {
                next += 1;
                continue;
            }
            self.out.push_str(&self.source[at..range.start]);
            let edit = std::mem::take(&mut self.edits[next].1);
            let start = self.out.len();
            let is_put_in = range.is_empty();
            if !is_put_in {
                self.out.push('(');
            }
            for (number, instead) in &edit {
                if !is_put_in {
                    self.out.push_str(&format!("if crate::switched::is({number}) {{ "));
                }
                let from = self.out.len();
                self.out.push_str(instead);
                self.placed.push((*number, from..self.out.len()));
                if !is_put_in {
                    self.out.push_str(" } else ");
                }
            }
            if !is_put_in {
                self.out.push_str("{ ");
                self.write(&range, next + 1);
                self.out.push_str(" })");
                // The compiler may complain of the whole as well.
                for (number, _) in &edit {
                    self.placed.push((*number, start..self.out.len()));
                }
            }
            at = range.end;
            next += 1;
        }
        self.out.push_str(&self.source[at..stretch.end]);
    }
}

fn byte(source: &str, place: &Place) -> usize {
    let line: usize = source.split_inclusive('\n').take(place.line - 1).map(str::len).sum();
    line + source[line..].char_indices().nth(place.column - 1).map_or(source.len() - line, |(at, _)| at)
}

fn rewrite(file: &str, source: &str, changes: &[&Change]) -> Result<(String, Vec<Placed>), Failure> {
    let mut found = Found::default();
    found.visit_file(&syn::parse_file(source)?);
    let mut edits: BTreeMap<(usize, std::cmp::Reverse<usize>), Edit> = BTreeMap::new();
    for change in changes {
        let (start, end) = (byte(source, &change.span.start), byte(source, &change.span.end));
        let mut replace = |stretch: &Range<usize>, instead: String| {
            edits.entry((stretch.start, std::cmp::Reverse(stretch.len()))).or_default().push((change.number, instead));
        };
        let number = change.number;
        match change.genre.as_str() {
            // Put in before the body of a function.
            "FnValue" => replace(&(start..start), format!("if crate::switched::is({number}) {{ return {}; }} ", change.replacement)),
            "Statement" => replace(&(start..end), change.replacement.clone()),
            "BinaryOperator" => {
                if let Some((whole, operator)) = found.binary.get(&start) {
                    let (left, right) = (whole.start..operator.start, operator.end..whole.end);
                    replace(whole, format!("{}{}{}", &source[left], change.replacement, &source[right]));
                }
            }
            "UnaryOperator" => {
                if let Some(whole) = found.unary.get(&start) {
                    replace(whole, source[end..whole.end].to_owned());
                }
            }
            "MatchArmGuard" => replace(&(start..end), change.replacement.clone()),
            "MatchArm" => match found.arms.get(&start) {
                Some((pattern, None)) => replace(&(*pattern..*pattern), format!(" if !crate::switched::is({number})")),
                Some((_, Some(guard))) => replace(&(guard.start..guard.start), format!("!crate::switched::is({number}) && ")),
                None => {}
            },
            "StructField" => {
                if let Some((value, name, base)) = found.fields.get(&start) {
                    replace(value, format!("({}).{name}", &source[base.clone()]));
                }
            }
            _ => {}
        }
    }
    // What is put in comes before what starts there.
    let mut edits: Vec<_> = edits.into_iter().map(|((start, length), edit)| (start..start + length.0, edit)).collect();
    edits.sort_by_key(|(range, _)| (range.start, !range.is_empty(), std::cmp::Reverse(range.len())));
    let mut writer = Writer { source, edits, out: String::with_capacity(source.len() * 2), placed: Vec::new() };
    writer.write(&(0..source.len()), 0);
    let placed = writer.placed.into_iter().map(|(number, at)| Placed { number, file: file.to_owned(), start: at.start, end: at.end }).collect();
    Ok((writer.out, placed))
}

fn main() -> Result<(), Failure> {
    let tree = env::args().nth(1).ok_or("say which tree")?;
    let changes: Vec<Change> = serde_json::from_reader(io::stdin())?;
    let mut by_file: BTreeMap<&str, Vec<&Change>> = BTreeMap::new();
    for change in &changes {
        by_file.entry(&change.file).or_default().push(change);
    }
    let mut placed = Vec::new();
    let mut packages = std::collections::BTreeSet::new();
    for (file, changes) in by_file {
        let path = Path::new(&tree).join(file);
        let (text, some) = rewrite(file, &fs::read_to_string(&path)?, &changes)?;
        fs::write(path, text)?;
        placed.extend(some);
        packages.extend(file.split_once("/src/").map(|(package, _)| package));
    }
    for package in packages {
        let source = Path::new(&tree).join(package).join("src");
        for root in ["lib.rs", "main.rs"].map(|name| source.join(name)) {
            if root.exists() {
                fs::write(&root, fs::read_to_string(&root)? + SWITCH)?;
            }
        }
    }
    serde_json::to_writer(io::stdout(), &placed)?;
    Ok(())
}
