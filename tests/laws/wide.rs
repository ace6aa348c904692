//! Equations solved with ninety digits, so that what differs is the product's own rounding.

use num_bigint::{BigInt, BigUint, Sign};

/// Binary places behind the point: ninety decimal ones.
const PLACES: u64 = 300;

/// A number as whole parts of 2^-300. Sums and products of doubles of any usual size are exact but for the last of its places.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Wide(BigInt);

impl Wide {
    pub(crate) fn zero() -> Wide {
        Wide(BigInt::ZERO)
    }

    /// The double itself, to the last bit, if that is above 2^-300.
    pub(crate) fn of(value: f64) -> Wide {
        assert!(value.is_finite());
        let (mantissa, exponent) = (value.to_bits() & ((1 << 52) - 1), (value.to_bits() >> 52) & 0x7ff);
        let mantissa = BigInt::from(if exponent == 0 { mantissa } else { mantissa | 1 << 52 });
        let shift = PLACES as i64 + exponent.max(1) as i64 - 1_075;
        let size = if shift >= 0 { mantissa << shift } else { mantissa >> -shift };
        Wide(if value < 0.0 { -size } else { size })
    }

    pub(crate) fn plus(&self, other: &Wide) -> Wide {
        Wide(&self.0 + &other.0)
    }

    pub(crate) fn minus(&self, other: &Wide) -> Wide {
        Wide(&self.0 - &other.0)
    }

    pub(crate) fn times(&self, other: &Wide) -> Wide {
        Wide((&self.0 * &other.0) >> PLACES)
    }

    pub(crate) fn over(&self, other: &Wide) -> Wide {
        Wide((&self.0 << PLACES) / &other.0)
    }

    /// The double next to it, as near as sixty bits say.
    pub(crate) fn to_f64(&self) -> f64 {
        let bits = self.0.bits();
        let shift = bits.saturating_sub(60);
        let (sign, digits) = (&self.0 >> shift).to_u64_digits();
        let size = digits.first().copied().unwrap_or(0) as f64 * 2_f64.powi(shift as i32 - PLACES as i32);
        if sign == Sign::Minus { -size } else { size }
    }

    fn is_zero(&self) -> bool {
        self.0 == BigInt::ZERO
    }

    fn size(&self) -> &BigUint {
        self.0.magnitude()
    }
}

/// As many equations as unknowns.
pub(crate) struct Equations {
    rows: Vec<Vec<Wide>>,
    right: Vec<Wide>,
}

impl Equations {
    pub(crate) fn of(unknowns: usize) -> Equations {
        Equations { rows: vec![vec![Wide::zero(); unknowns]; unknowns], right: vec![Wide::zero(); unknowns] }
    }

    /// Adds to one coefficient.
    pub(crate) fn add(&mut self, row: usize, column: usize, value: &Wide) {
        self.rows[row][column] = self.rows[row][column].plus(value);
    }

    /// Adds to one right side.
    pub(crate) fn add_right(&mut self, row: usize, value: &Wide) {
        self.right[row] = self.right[row].plus(value);
    }

    /// Puts `unknown = 0` in the place of an equation.
    pub(crate) fn hold(&mut self, row: usize) {
        self.rows[row].fill(Wide::zero());
        self.rows[row][row] = Wide::of(1.0);
        self.right[row] = Wide::zero();
    }

    /// The unknowns, or `None` where the equations do not settle them.
    pub(crate) fn solve(mut self) -> Option<Vec<Wide>> {
        let count = self.right.len();
        for column in 0..count {
            let pivot =
                (column..count).max_by(|a, b| self.rows[*a][column].size().cmp(self.rows[*b][column].size()))?;
            self.rows.swap(column, pivot);
            self.right.swap(column, pivot);
            if self.rows[column][column].is_zero() {
                return None;
            }
            for row in column + 1..count {
                if self.rows[row][column].is_zero() {
                    continue;
                }
                let factor = self.rows[row][column].over(&self.rows[column][column]);
                let (above, below) = self.rows.split_at_mut(row);
                for (value, above) in below[0].iter_mut().zip(&above[column]).skip(column) {
                    if !above.is_zero() {
                        *value = value.minus(&above.times(&factor));
                    }
                }
                self.rows[row][column] = Wide::zero();
                self.right[row] = self.right[row].minus(&self.right[column].times(&factor));
            }
        }
        let mut found = vec![Wide::zero(); count];
        for row in (0..count).rev() {
            let known = (row + 1..count).filter(|column| !self.rows[row][*column].is_zero());
            let known = known.fold(Wide::zero(), |sum, column| sum.plus(&self.rows[row][column].times(&found[column])));
            found[row] = self.right[row].minus(&known).over(&self.rows[row][row]);
        }
        Some(found)
    }
}

#[test]
fn what_is_known_is_found() {
    // x + 2 y = 5, 3 x - y = 1: a third of nothing is lost.
    let mut equations = Equations::of(2);
    for (row, column, value) in [(0, 0, 1.0), (0, 1, 2.0), (1, 0, 3.0), (1, 1, -1.0)] {
        equations.add(row, column, &Wide::of(value));
    }
    equations.add_right(0, &Wide::of(5.0));
    equations.add_right(1, &Wide::of(1.0));
    let found = equations.solve().expect("settled");
    assert!((found[0].to_f64() - 1.0).abs() < 1e-15 && (found[1].to_f64() - 2.0).abs() < 1e-15);
    for value in [0.1, -3.5e-9, 7e12, 0.0, 1.0] {
        assert_eq!(Wide::of(value).to_f64(), value);
    }
}
