//! Formulas as they are printed, worked out again: by their own rules and none of the product's.

use std::collections::HashMap;

/// From a least to a greatest: what a printed number may stand for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Span {
    pub(crate) low: f64,
    pub(crate) high: f64,
}

impl Span {
    pub(crate) fn exactly(value: f64) -> Span {
        Span { low: value, high: value }
    }

    fn of(ends: impl IntoIterator<Item = f64>) -> Span {
        let none = Span { low: f64::INFINITY, high: f64::NEG_INFINITY };
        ends.into_iter().fold(none, |span, end| Span { low: span.low.min(end), high: span.high.max(end) })
    }

    fn with(self, other: Span, by: fn(f64, f64) -> f64) -> Span {
        Span::of([
            by(self.low, other.low),
            by(self.low, other.high),
            by(self.high, other.low),
            by(self.high, other.high),
        ])
    }

    fn each(self, by: fn(f64) -> f64) -> Span {
        Span::of([by(self.low), by(self.high)])
    }

    fn squared(self) -> Span {
        let ends = self.each(|x| x * x);
        if self.low < 0.0 && self.high > 0.0 { Span { low: 0.0, ..ends } } else { ends }
    }
}

/// What a symbol stands for: one number, or one for each rivet.
#[derive(Clone, Debug)]
pub(crate) enum Put {
    One(Span),
    List(Vec<Span>),
}

/// A formula being read.
struct Reader<'f> {
    rest: &'f str,
    put: &'f HashMap<String, Put>,
    /// The figures in their order, for `…`.
    all: &'f [Span],
    /// Which of a list is meant.
    index: Option<usize>,
}

/// What a formula comes to.
pub(crate) fn worked(formula: &str, put: &HashMap<String, Put>, all: &[Span]) -> Span {
    let mut reader = Reader { rest: formula, put, all, index: None };
    let value = reader.sum();
    assert!(reader.rest.trim().is_empty(), "{formula}: what is {:?}?", reader.rest);
    value
}

impl Reader<'_> {
    fn blank(&mut self) {
        self.rest = self.rest.trim_start();
    }

    fn takes(&mut self, sign: &str) -> bool {
        self.blank();
        match self.rest.strip_prefix(sign) {
            Some(rest) => {
                self.rest = rest;
                true
            }
            None => false,
        }
    }

    fn sum(&mut self) -> Span {
        let mut value = self.product();
        loop {
            if self.takes("+") {
                value = value.with(self.product(), |a, b| a + b);
            } else if self.takes("-") {
                value = value.with(self.product(), |a, b| a - b);
            } else {
                return value;
            }
        }
    }

    fn product(&mut self) -> Span {
        let mut value = self.power();
        loop {
            if self.takes("×") {
                value = value.with(self.power(), |a, b| a * b);
            } else if self.takes("/") {
                value = value.with(self.power(), |a, b| a / b);
            } else {
                return value;
            }
        }
    }

    fn power(&mut self) -> Span {
        let value = self.atom();
        if self.takes("²") {
            value.squared()
        } else if self.takes("^") {
            let power = self.atom();
            value.with(power, f64::powf)
        } else {
            value
        }
    }

    fn inside(&mut self) -> Span {
        assert!(self.takes("("), "a bracket before {:?}", self.rest);
        let value = self.sum();
        assert!(self.takes(")"), "a bracket before {:?}", self.rest);
        value
    }

    /// What stands between the brackets of min and max.
    fn several(&mut self) -> Vec<Span> {
        assert!(self.takes("("));
        let mut values = Vec::new();
        loop {
            if self.takes("…") {
                values.extend(self.all);
            } else {
                values.push(self.sum());
            }
            if self.takes(")") {
                return values;
            }
            assert!(self.takes(","), "a comma before {:?}", self.rest);
        }
    }

    fn atom(&mut self) -> Span {
        self.blank();
        if self.rest.starts_with('(') {
            return self.inside();
        }
        if self.takes("-") {
            return self.atom().each(|x| -x);
        }
        if self.takes("√") {
            return self.inside().each(f64::sqrt);
        }
        if self.takes("Σ") {
            return self.summed();
        }
        if self.takes("π") {
            return Span::exactly(std::f64::consts::PI);
        }
        let digits = self.rest.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(self.rest.len());
        if digits > 0 {
            let mut end = digits;
            // 1.5e-7, but not a symbol e.
            let bytes = self.rest.as_bytes();
            if bytes.get(end) == Some(&b'e')
                && bytes.get(end + 1).is_some_and(|next| next.is_ascii_digit() || *next == b'-')
            {
                let after = &self.rest[end + 2..];
                end += 2 + after.find(|c: char| !c.is_ascii_digit()).unwrap_or(after.len());
            }
            let (number, rest) = self.rest.split_at(end);
            self.rest = rest;
            return Span::exactly(number.parse().expect(number));
        }
        let word = self.rest.find(|c: char| !c.is_alphabetic() && !c.is_ascii_digit()).unwrap_or(self.rest.len());
        let (name, rest) = self.rest.split_at(word);
        assert!(!name.is_empty(), "what is {:?}?", self.rest);
        self.rest = rest;
        match name {
            "min" => self
                .several()
                .into_iter()
                .reduce(|a, b| Span { low: a.low.min(b.low), high: a.high.min(b.high) })
                .unwrap(),
            "max" => self
                .several()
                .into_iter()
                .reduce(|a, b| Span { low: a.low.max(b.low), high: a.high.max(b.high) })
                .unwrap(),
            "sum" => self.several().into_iter().fold(Span::exactly(0.0), |a, b| a.with(b, |a, b| a + b)),
            "abs" => self.inside().each(f64::abs),
            // A hair over a whole number is that number.
            "up" => self.inside().each(|x| (x - x.abs().max(1.0) * 1e-9).ceil()),
            "down" => self.inside().each(|x| (x + x.abs().max(1.0) * 1e-9).floor()),
            "near" => self.inside().each(f64::round),
            "ln" => self.inside().each(f64::ln),
            "sinh" => self.inside().each(f64::sinh),
            "asinh" => self.inside().each(f64::asinh),
            "cosh" => {
                let inside = self.inside();
                let ends = inside.each(f64::cosh);
                if inside.low < 0.0 && inside.high > 0.0 { Span { low: 1.0, ..ends } } else { ends }
            }
            "tan" => self.inside().each(|degrees| degrees.to_radians().tan()),
            _ => match (self.put.get(name), self.index) {
                (Some(Put::One(value)), _) => *value,
                (Some(Put::List(values)), Some(index)) => values[index],
                (Some(Put::List(_)), None) => panic!("{name} is a list outside a sum"),
                (None, _) => panic!("{name} is not put in"),
            },
        }
    }

    /// A sum over the lists inside.
    fn summed(&mut self) -> Span {
        let lists = self.put.values().filter_map(|put| match put {
            Put::List(values) => Some(values.len()),
            Put::One(_) => None,
        });
        let count = lists.max().expect("a sum has a list");
        let start = self.rest;
        let mut sum = Span::exactly(0.0);
        for index in 0..count {
            self.rest = start;
            self.index = Some(index);
            sum = sum.with(self.inside(), |a, b| a + b);
        }
        self.index = None;
        sum
    }
}

#[test]
fn the_reader_reckons_as_people_do() {
    let put = |name: &str, value| (name.to_owned(), Put::One(Span::exactly(value)));
    let list =
        |name: &str, values: &[f64]| (name.to_owned(), Put::List(values.iter().map(|x| Span::exactly(*x)).collect()));
    let put: HashMap<String, Put> =
        [put("a", 2.0), put("F15", 3.0), list("x", &[1.0, 2.0, 3.0]), list("w", &[1.0, 1.0, 2.0])].into();
    let all = [Span::exactly(5.0), Span::exactly(4.0)];
    for (formula, comes_to) in [
        ("1 + 2 × 3", 7.0),
        ("(1 + 2) × 3 - a", 7.0),
        ("12 / 2 / 3", 2.0),
        ("a² × F15", 12.0),
        ("min(…)", 4.0),
        ("max(1, min(…), F15)", 4.0),
        ("√(16) + abs(-1)", 5.0),
        ("sum(…)", 9.0),
        ("up(2.1) + down(2.9) + near(2.5)", 8.0),
        ("Σ(w × x) / Σ(w)", 2.25),
        ("tan(90 / 2)", 1.0),
        ("(-3) × 2e-1", -0.6),
        ("a^(F15 - 1) × 2", 8.0),
        ("2^((a)^1)", 4.0),
        ("cosh(0) + sinh(0) + asinh(0) + ln(1)", 1.0),
        ("cosh(1)² - sinh(1)²", 1.0),
    ] {
        let found = worked(formula, &put, &all);
        assert!((found.low - comes_to).abs() < 1e-12 && (found.high - comes_to).abs() < 1e-12, "{formula}: {found:?}");
    }
    // A number that is only known to lie between two.
    let between = HashMap::from([("x".to_owned(), Put::One(Span { low: -1.0, high: 2.0 }))]);
    assert_eq!(worked("x² - x", &between, &[]), Span { low: -2.0, high: 5.0 });
}
