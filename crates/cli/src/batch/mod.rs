//! `shophead batch`: a question asked of every row.
//!
//! Rows come in pieces ([`chunks`]), each piece is answered by itself ([`rows`]), and the answers go out in the order of the input. A
//! short input is answered where it is read; a long one by as many workers as there are processors, which get the pieces in turn and
//! have a few waiting, so that what is held does not grow with the input.
//!
//! | file | what |
//! |---|---|
//! | `question` | which columns each command reads |
//! | `header` | which cell of a row is which column |
//! | `rows` | a worker: rows in, answers out |
//! | `answer`, `text`, `json` | how they are written |
//! | `cache` | answers given before |

pub(crate) mod answer;
mod cache;
mod chunks;
mod header;
mod json;
mod question;
mod rows;
#[cfg(test)]
mod tests;
pub(crate) mod text;

use std::fs::File;
use std::io::{self, Read, Write};
use std::path::Path;
use std::sync::mpsc::{Receiver, SyncSender, sync_channel};
use std::thread;

use shophead::length::Bare;
use shophead::practice::HANDBOOK;
use shophead_job::diagnostic::escaped;

use crate::args::{BatchArgs, Common, Format, FromWord};
use crate::context::{Chosen, Context, Given};
use crate::exit::{self, Exit, Stop};
use crate::files::{Inputs, is_standard};
use crate::output::{Output, is_reader_gone, not_written};
use crate::progress::Progress;
use chunks::{Form, Piece, Pieces};
use header::Header;
use question::{Rules, asking};
use rows::{Layout, Tally, Worker};

/// Pieces that wait for a worker or from one.
const WAITING: usize = 4;

pub(crate) fn run(args: &BatchArgs, common: &Common) -> Result<Exit, Stop> {
    let inputs = Inputs::default();
    if args.file.as_deref().is_none_or(is_standard) {
        inputs.take_standard("the rows")?;
    }
    let chosen = Chosen::of(common, None, Given::of(common, None, &inputs)?, &inputs)?;
    let (limits, documents) = chosen.own.lists();
    let practice = chosen.practice.with_own(&limits, &documents).with_entered(&chosen.own.entered);
    exit::note_settled(&chosen.settled);
    let to = match common.format {
        Format::Text | Format::Csv => Form::Csv,
        Format::Json => Form::Lines,
        Format::Svg => return Err(Stop::wrong("--format svg: a batch has no drawing; right would be csv or json")),
        Format::Xlsx => {
            return Err(Stop::wrong("--format xlsx: a batch makes no workbook; right would be csv or json"));
        }
        Format::Html => {
            return Err(Stop::wrong("--format html: a batch shows no working; right would be csv or json"));
        }
    };
    let context = Context {
        practice: &practice,
        units: chosen.units,
        bare: chosen.bare,
        prompts: chosen.prompts,
        settled: &chosen.settled,
        own_title: &chosen.own.title,
        job_file: None,
        // As the single command prints it.
        format: if to == Form::Lines { Format::Json } else { Format::Csv },
        working: false,
        // Beside the file that has the rows.
        rows_in: Some(args.file.as_deref().and_then(Path::parent).unwrap_or(Path::new(""))),
        inputs: &inputs,
    };
    let from = match (args.from, args.file.as_deref()) {
        (Some(FromWord::Csv), _) => Form::Csv,
        (Some(FromWord::Json), _) => Form::Lines,
        (None, Some(file)) if is_json_lines(file) => Form::Lines,
        (None, _) => Form::Csv,
    };
    if args.header.is_some() && from == Form::Lines {
        return Err(Stop::wrong("--header: a row of JSON names its columns itself"));
    }
    if args.prefix.as_deref().is_some_and(|prefix| prefix.is_empty() || prefix.contains(['"', ',', '\n', '\r'])) {
        return Err(Stop::wrong("--prefix: this makes no name of a column; right would be new_"));
    }
    if args.prefix.is_some() && to == Form::Lines {
        return Err(Stop::wrong("--prefix: a row of JSON keeps the input by itself, so nothing is called twice"));
    }
    let input: Box<dyn Read> = match args.file.as_deref().filter(|file| !is_standard(file)) {
        Some(file) => {
            let opened = File::open(file).map_err(|error| not_read(Some(file), &error))?;
            inputs.note(file);
            Box::new(opened)
        }
        None => Box::new(io::stdin().lock()),
    };
    if let Some(output) = &common.output {
        inputs.refuse_as_output(output, to == Form::Csv)?;
    }
    let read_failed = |error: io::Error| not_read(args.file.as_deref(), &error);
    let write_failed = |error: io::Error| not_written(common.output.as_deref(), &error);
    let failed = Failed { read: &read_failed, write: &write_failed };
    let mut pieces = Pieces::new(input, from);
    let mut first = pieces.next().map_err(failed.read)?;

    let asked = asking(args.question);
    let rules = Rules::of(asked.columns());
    let answer_columns = {
        // The names of the columns do not depend on the limits: an answer under the handbook has them too.
        let example =
            Context { practice: &HANDBOOK, format: Format::Csv, own_title: "", bare: Bare::Inches, ..context };
        asked.answer_columns(&example)?
    };
    let header = match (from, to) {
        (Form::Csv, _) => Some(csv_header(args, first.as_mut(), &rules)?),
        (Form::Lines, Form::Csv) => json_header(first.as_ref(), &rules)?,
        (Form::Lines, Form::Lines) => None,
    };
    let mut head = Vec::new();
    if let Some(header) = &header {
        let notes: Vec<String> = header.almost(&rules);
        exit::note(&notes);
        if to == Form::Csv && args.header.is_none() {
            let mut names = answer_columns.clone();
            names.push("error".to_owned());
            if let Some(prefix) = &args.prefix {
                names.iter_mut().for_each(|name| name.insert_str(0, prefix));
                header.refuse_prefix(prefix, &names)?;
            }
            let carried = header.carried(&names);
            header::line(&mut head, carried.iter().chain(&names));
        }
        let twice = header.names.iter().enumerate().find(|(at, name)| header.names[..*at].contains(name));
        if let Some((_, name)) = twice.filter(|_| to == Form::Lines) {
            return Err(Stop::wrong(format_args!("there are two columns {name}; an object of JSON keeps one")));
        }
    }
    let layout = Layout { rules: &rules, header, answer_columns: answer_columns.len(), from, to };
    let worker = || Worker::new(&layout, &context, asking(args.question));

    let output = Output::open(common.output.as_deref())?;
    let is_seen = output.is_terminal();
    let progress = Progress::rows(is_seen);
    let mut out = Out { to: output, is_seen, written: Ok(()), progress, tally: Tally::default() };
    out.write(&head).map_err(failed.write)?;
    if let Some(first) = first {
        let workers = match args.threads {
            Some(threads) => usize::from(threads),
            None => thread::available_parallelism().map_or(1, usize::from),
        };
        if pieces.is_at_end() || workers == 1 {
            answer_here(first, &mut pieces, worker(), &mut out, &failed)?;
        } else {
            answer_in_turn(first, &mut pieces, workers, &worker, &mut out, &failed)?;
        }
    }
    let Out { to: output, written, tally: Tally { rows, wrong, refers, first_wrong }, progress, .. } = out;
    drop(progress);
    if let Some(named) = &common.output {
        // Rows can name files, too.
        inputs.refuse_as_output(named, to == Form::Csv)?;
    }
    output.finish(written)?;
    if let Some(first) = first_wrong {
        let which = if wrong == 1 { format!("row {first}") } else { format!("the first is row {first}") };
        exit::tell(&[format!("{wrong} of {rows} rows cannot be answered, {which}; their error says why")]);
        return Ok(Exit::Wrong);
    }
    Ok(if refers { Exit::Refer } else { Exit::Done })
}

fn is_json_lines(file: &Path) -> bool {
    file.extension().is_some_and(|end| ["jsonl", "ndjson"].iter().any(|known| end.eq_ignore_ascii_case(known)))
}

fn not_read(file: Option<&Path>, error: &io::Error) -> Stop {
    let file = file.filter(|file| !is_standard(file));
    let what =
        file.map_or_else(|| "the standard input".into(), |file| escaped(&file.display().to_string()).into_owned());
    Stop::Failed(format!("cannot read {what}: {error}"))
}

/// The header: that of the command line, or the first record, which is then taken out of its piece.
fn csv_header(args: &BatchArgs, first: Option<&mut Piece>, rules: &Rules) -> Result<Header, Stop> {
    if let Some(names) = &args.header {
        let (record, _) = first_record(names.as_bytes());
        let cells: Option<Vec<&str>> = record.iter().map(|cell| str::from_utf8(cell).ok()).collect();
        return Header::of(&cells.unwrap_or_default(), rules);
    }
    let needed = || {
        let needed = rules.columns().iter().filter(|column| column.needed.is_some()).map(|column| column.name);
        needed.collect::<Vec<_>>().join(",")
    };
    let Some(first) = first else {
        return Err(Stop::wrong(format_args!("the input is empty; right would be a first line {}", needed())));
    };
    if first.bytes.starts_with(b"\xff\xfe") || first.bytes.starts_with(b"\xfe\xff") {
        return Err(Stop::wrong("the input is UTF-16; save it as CSV in UTF-8"));
    }
    if let Some(broken) = first.broken {
        return Err(Stop::wrong(format_args!("the first line: {broken}")));
    }
    let (record, end) = first_record(&first.bytes);
    let cells: Option<Vec<&str>> = record.iter().map(|cell| str::from_utf8(cell).ok()).collect();
    let cells = cells.ok_or_else(|| Stop::wrong("the first line is not UTF-8; save the file as CSV in UTF-8"))?;
    let header = Header::of(&cells, rules)?;
    first.bytes.drain(..end);
    Ok(header)
}

/// The first record that says anything, and where it ends.
fn first_record(bytes: &[u8]) -> (csv::ByteRecord, usize) {
    let mut reader = csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(bytes);
    let mut record = csv::ByteRecord::new();
    // Bytes in memory can always be read.
    while reader.read_byte_record(&mut record).unwrap_or(false)
        && record.iter().all(|cell| cell.trim_ascii().is_empty())
    {}
    let end = usize::try_from(reader.position().byte()).unwrap_or(bytes.len());
    (record, end.min(bytes.len()))
}

/// The keys of the first object, as columns of CSV.
fn json_header(first: Option<&Piece>, rules: &Rules) -> Result<Option<Header>, Stop> {
    let mut lines = first.iter().flat_map(|piece| piece.bytes.split(|byte| *byte == b'\n')).map(<[u8]>::trim_ascii);
    let Some(line) = lines.find(|line| !line.is_empty()) else { return Ok(None) };
    let object = str::from_utf8(line).map_err(|error| error.to_string()).and_then(json::Object::read);
    let object = object.map_err(|told| Stop::wrong(format_args!("the first row names the columns: {told}")))?;
    let names: Vec<&str> = object.0.iter().map(|(key, _)| key.as_ref()).collect();
    Header::of(&names, rules).map(Some)
}

/// What is said of a failure of either side.
struct Failed<'f> {
    read: &'f dyn Fn(io::Error) -> Stop,
    write: &'f dyn Fn(io::Error) -> Stop,
}

/// Where the answers go.
struct Out {
    to: Output,
    /// Somebody reads it on a terminal, which carried cells must not steer. In a pipe bytes stay bytes.
    is_seen: bool,
    /// Once the reader has left nothing more is written, but all is answered: the status is that of every row.
    written: io::Result<()>,
    progress: Progress,
    tally: Tally,
}

impl Out {
    /// Stops at the first failure but that nobody reads any more.
    fn write(&mut self, bytes: &[u8]) -> io::Result<()> {
        if self.written.is_err() {
            return Ok(());
        }
        let written = if self.is_seen {
            self.to.write_all(text::on_terminal(bytes).as_bytes())
        } else {
            self.to.write_all(bytes)
        };
        // Whoever feeds the rows one by one waits for each answer.
        match written.and_then(|()| self.to.flush()) {
            Err(error) if is_reader_gone(&error) => {
                self.written = Err(error);
                Ok(())
            }
            written => written,
        }
    }

    fn answers(&mut self, bytes: &[u8], tally: Tally) -> io::Result<()> {
        self.write(bytes)?;
        self.tally.add(tally);
        self.progress.at(u32::try_from(self.tally.rows).unwrap_or(u32::MAX));
        Ok(())
    }
}

/// One piece after the other, in this thread.
fn answer_here<R: Read>(
    first: Piece,
    pieces: &mut Pieces<R>,
    mut worker: Worker<'_>,
    out: &mut Out,
    failed: &Failed<'_>,
) -> Result<(), Stop> {
    let mut answers = Vec::new();
    let mut next = Some(first);
    while let Some(piece) = next {
        answers.clear();
        let tally = worker.work(&piece, &mut answers);
        out.answers(&answers, tally).map_err(failed.write)?;
        pieces.reuse(piece.bytes);
        next = pieces.next().map_err(failed.read)?;
    }
    Ok(())
}

/// A piece that was answered. The buffers go back and forth.
struct Done {
    piece: Piece,
    answers: Vec<u8>,
    tally: Tally,
}

/// The way to a worker and back: pieces with room for their answers, and those that are done.
struct Lane {
    give: SyncSender<(Piece, Vec<u8>)>,
    take: Receiver<Done>,
}

/// The pieces to the workers in turn, the answers from them in the same turn: so they come out in the order of the input.
fn answer_in_turn<'l, R: Read>(
    first: Piece,
    pieces: &mut Pieces<R>,
    workers: usize,
    worker: &(impl Fn() -> Worker<'l> + Sync),
    out: &mut Out,
    failed: &Failed<'_>,
) -> Result<(), Stop> {
    thread::scope(|scope| {
        let lanes: Vec<Lane> = (0..workers)
            .map(|_| {
                let (give, asked) = sync_channel::<(Piece, Vec<u8>)>(WAITING);
                let (answer, take) = sync_channel(WAITING);
                scope.spawn(move || {
                    let mut worker = worker();
                    for (piece, mut answers) in asked {
                        answers.clear();
                        let tally = worker.work(&piece, &mut answers);
                        if answer.send(Done { piece, answers, tally }).is_err() {
                            return;
                        }
                    }
                });
                Lane { give, take }
            })
            .collect();
        let (mut given, mut taken) = (0, 0);
        let mut spare = Vec::new();
        let mut next = Some(first);
        while next.is_some() || taken < given {
            // No lane is given more than it can hold, so that giving never waits.
            if next.is_none() || given - taken == workers * WAITING {
                // A worker that is gone has panicked, and the scope passes that on.
                let Ok(done) = lanes[taken % workers].take.recv() else { return Ok(()) };
                taken += 1;
                out.answers(&done.answers, done.tally).map_err(failed.write)?;
                pieces.reuse(done.piece.bytes);
                spare.push(done.answers);
            } else if let Some(piece) = next.take() {
                let Ok(()) = lanes[given % workers].give.send((piece, spare.pop().unwrap_or_default())) else {
                    return Ok(());
                };
                given += 1;
                next = pieces.next().map_err(failed.read)?;
            }
        }
        Ok(())
    })
}
