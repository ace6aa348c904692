//! What one thread has to do that feeds workers with records of the csv crate: read them, and hand over some at a time.
//!
//! `records FILE` reads the file so; nobody takes the records. Beside the scanner of the batch it tells what the one thread would cost that no
//! worker shares.

use std::fs::File;
use std::hint::black_box;

use csv::ByteRecord;

/// Records that are handed over together.
const TOGETHER: usize = 1_000;

fn main() -> Result<(), csv::Error> {
    let path = std::env::args_os().nth(1).expect("a file");
    let mut reader = csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(File::open(path)?);
    let mut records = vec![ByteRecord::new(); TOGETHER];
    let mut read = 0;
    while reader.read_byte_record(&mut records[read])? {
        read += 1;
        if read == TOGETHER {
            black_box(&mut records);
            read = 0;
        }
    }
    Ok(())
}
