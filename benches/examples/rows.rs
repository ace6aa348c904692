//! Rows to answer: the same for the same number everywhere.
//!
//! `rows 100000` prints the holes of a fleet: aircraft of one type, whose rows of rivets are the same and whose holes differ by what was
//! measured. `rows 100000 distinct` prints rows of which hardly two ask the same. Both go with `shophead batch length`.

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
const REMARKS: &[&str] = &["", "", "", "", "", "burr", "sealant", "\"tool mark, light\""];
/// Rows of rivets in one aircraft, and holes in one of them.
const ROWS: usize = 240;
const HOLES: usize = 40;

/// A row as the drawing has it: layers, diameter, shank.
fn row(generator: &mut Generator) -> (String, &'static str, usize) {
    let layers = 2 + generator.below(2);
    let layers: Vec<String> = (0..layers).map(|_| format!(".{:03}", generator.pick(SHEETS))).collect();
    let (diameter, shank) = generator.pick(DIAMETERS);
    (layers.join(","), diameter, shank)
}

fn main() -> io::Result<()> {
    let mut words = std::env::args().skip(1);
    let count: usize = words.next().and_then(|word| word.parse().ok()).expect("how many rows");
    let is_distinct = words.next().is_some_and(|word| word == "distinct");
    let mut generator = Generator(15);
    let rows: Vec<_> = (0..ROWS).map(|_| row(&mut generator)).collect();
    let mut out = BufWriter::with_capacity(1 << 20, io::stdout().lock());
    writeln!(out, "ship,row,number,layers,diameter,hole,tolerance,remark")?;
    for at in 0..count {
        let (ship, line, number) = (at / (ROWS * HOLES) + 1, at / HOLES % ROWS, at % HOLES + 1);
        let remark = generator.pick(REMARKS);
        if is_distinct {
            let layers = [(); 3].map(|()| 160 + generator.below(1000));
            let [top, middle, last] = layers.map(|thickness| format!(".{thickness:04}"));
            let (diameter, shank) = generator.pick(DIAMETERS);
            let (hole, tolerance) = (shank + 20 + generator.below(100), generator.below(40));
            writeln!(
                out,
                "S{ship},R{line},{number},\"{top},{middle},{last}\",{diameter},.{hole:04},.{tolerance:04},{remark}"
            )?;
        } else {
            let (layers, diameter, shank) = &rows[line];
            // Gauged in steps of half a thousandth.
            let hole = (shank + 20 + generator.below(100)) / 5 * 5;
            writeln!(out, "S{ship},R{line},{number},\"{layers}\",{diameter},.{hole:04},.002,{remark}")?;
        }
    }
    out.flush()
}
