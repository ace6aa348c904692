//! Rows to answer: the same for the same number everywhere.
//!
//! `rows 100000 length` prints the holes of a fleet: aircraft of one type, whose rows of rivets are the same and whose holes differ by what
//! was measured. `rows 100000 length distinct` prints rows of which hardly two ask the same. Both go with `shophead batch length`; there
//! are also `head`, `joint` and `hole`.

use std::io::{self, BufWriter, Write};

/// SplitMix64: a counter stepped by an odd constant, its bits mixed.
struct Generator(u64);

impl Generator {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut bits = self.0;
        bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        bits ^ (bits >> 31)
    }

    /// From 0 to one less than `bound`.
    fn below(&mut self, bound: usize) -> usize {
        (self.next() % bound as u64) as usize
    }

    fn pick<T: Copy>(&mut self, list: &[T]) -> T {
        list[self.below(list.len())]
    }
}

/// Standard sheet, in thousandths of an inch.
const SHEETS: &[usize] = &[16, 20, 25, 32, 40, 50, 63, 71, 80, 90, 100, 125];
/// Diameters with the shank in ten-thousandths.
const DIAMETERS: &[(&str, usize)] = &[("3/32", 938), ("1/8", 1250), ("5/32", 1562), ("3/16", 1875), ("1/4", 2500)];
/// Of the skin of one row.
const MATERIALS: &[&str] = &["2024-T3", "clad 2024-T3", "7075-T6", "6061-T6"];
const REMARKS: &[&str] = &["", "", "", "", "", "burr", "sealant", "\"tool mark, light\""];
/// Rows of rivets in one aircraft, and holes in one of them.
const ROWS: usize = 240;
const HOLES: usize = 40;

/// A row of rivets as the drawing has it.
struct Row {
    layers: String,
    sheets: String,
    /// By its place in [`DIAMETERS`], so that the dash number is three more; 1/4 is 8.
    diameter: usize,
    edge: usize,
    pitch: usize,
    load: usize,
}

impl Row {
    fn of(generator: &mut Generator, is_distinct: bool) -> Row {
        let layers: Vec<String> = if is_distinct {
            (0..3).map(|_| format!("{:04}", 160 + generator.below(1000))).collect()
        } else {
            (0..2 + generator.below(2)).map(|_| format!("{:03}", generator.pick(SHEETS))).collect()
        };
        let diameter = generator.below(DIAMETERS.len());
        let material = generator.pick(MATERIALS);
        let step = if is_distinct { 1 } else { 50 };
        let mut about = |nominal: usize, spread: usize| (nominal + generator.below(spread)) / step * step;
        let shank = DIAMETERS[diameter].1;
        Row {
            sheets: layers.iter().map(|layer| format!("{material}:.{layer}")).collect::<Vec<_>>().join(","),
            layers: layers.iter().map(|layer| format!(".{layer}")).collect::<Vec<_>>().join(","),
            diameter,
            edge: about(shank * 2, shank),
            pitch: about(shank * 3, shank * 3),
            load: about(50, 400),
        }
    }

    fn dash(&self) -> usize {
        if self.diameter == 4 { 8 } else { self.diameter + 3 }
    }
}

fn main() -> io::Result<()> {
    let mut words = std::env::args().skip(1);
    let count: usize = words.next().and_then(|word| word.parse().ok()).expect("how many rows");
    let question = words.next().expect("length, head, joint or hole");
    let is_distinct = words.next().is_some_and(|word| word == "distinct");
    let mut generator = Generator(15);
    let rows: Vec<_> = (0..ROWS).map(|_| Row::of(&mut generator, false)).collect();
    let mut out = BufWriter::with_capacity(1 << 20, io::stdout().lock());
    let columns = match &*question {
        "length" => "layers,diameter,hole,tolerance",
        "head" => "diameter,measured_diameter,measured_height",
        "joint" => "rivet,sheets,hole,edge,pitch,load",
        "hole" => "rivet,major,minor,edge,pitch,layers",
        other => panic!("there is no {other}"),
    };
    writeln!(out, "ship,row,number,{columns},remark")?;
    for at in 0..count {
        let (ship, line, number) = (at / (ROWS * HOLES) + 1, at / HOLES % ROWS, at % HOLES + 1);
        let remark = generator.pick(REMARKS);
        let drawn;
        let row = if is_distinct {
            drawn = Row::of(&mut generator, true);
            &drawn
        } else {
            &rows[line]
        };
        let (diameter, shank) = DIAMETERS[row.diameter];
        // In a fleet gauged in steps of half a thousandth.
        let step = if is_distinct { 1 } else { 5 };
        let mut gauged = |from: usize, spread: usize| (from + generator.below(spread)) / step * step;
        write!(out, "S{ship},R{line},{number},")?;
        match &*question {
            "length" => {
                let (hole, tolerance) = (gauged(shank + 20, 100), if is_distinct { gauged(0, 40) } else { 20 });
                write!(out, "\"{}\",{diameter},.{hole:04},.{tolerance:04}", row.layers)?;
            }
            "head" => {
                let (wide, high) = (gauged(shank + shank / 4, shank / 2), gauged(shank / 4, shank / 2));
                write!(out, "{diameter},.{wide:04},.{high:04}")?;
            }
            "joint" => {
                let Row { sheets, edge, pitch, load, .. } = row;
                let hole = gauged(shank + 20, 100);
                write!(out, "MS20470AD{},\"{sheets}\",.{hole:04},", row.dash())?;
                write!(out, "{}.{:04},{}.{:04},{load}", edge / 10_000, edge % 10_000, pitch / 10_000, pitch % 10_000)?;
            }
            _ => {
                let Row { sheets, edge, pitch, .. } = row;
                let minor = gauged(shank + 20, 160);
                let major = minor + gauged(0, 60);
                write!(out, "MS20470AD{},.{major:04},.{minor:04},", row.dash())?;
                write!(out, "{}.{:04},{}.{:04},", edge / 10_000, edge % 10_000, pitch / 10_000, pitch % 10_000)?;
                write!(out, "\"{sheets}\"")?;
            }
        }
        writeln!(out, ",{remark}")?;
    }
    out.flush()
}
