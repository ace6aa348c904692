//! The answers, every figure of them, as bytes.

use core::fmt::{self, Write as _};

use heapless::Vec;
use shophead::basis::Basis;
use shophead::finding::{Figure, Findings};
use shophead::installation::Step;
use shophead::joint::margin::margin;
use shophead::joint::strength::{Allowable, JointStrength};
use shophead::layout::closest;
use shophead::length::{Interval, Length};
use shophead::pattern::{PatternLimits, tally};
use shophead::practice::Given;
use shophead::rivet::mass::mass_each;
use shophead::rivet::part::Part;
use shophead::select::LengthAnswer;
use shophead::upset::{Fit, PredictedHead, Window, Within, judge};

use crate::case::{Case, Kind};

/// Room for the longest answer: a hole's four steps with all of their findings.
pub const MAX_ANSWER: usize = 6_144;

/// The bytes of one answer.
pub type Bytes = Vec<u8, MAX_ANSWER>;

/// One case's answer on its way from target to host: kind, number, how many bytes, the bytes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Record {
    /// The answer.
    pub bytes: Bytes,
    kind: Kind,
    number: u32,
}

impl Record {
    /// Bytes before the answer itself.
    pub const HEADER: usize = 7;

    /// Answers a case.
    #[must_use]
    pub fn of(case: &Case) -> Record {
        let mut out = Out(Vec::new());
        match case.kind {
            Kind::Length => length(case, &mut out),
            Kind::Upset => upset(case, &mut out),
            Kind::Hole => hole(case, &mut out),
            Kind::Joint => joint(case, &mut out),
        }
        Record { bytes: out.0, kind: case.kind, number: case.number }
    }

    /// What goes before the answer.
    #[must_use]
    pub fn header(&self) -> [u8; Record::HEADER] {
        let [a, b, c, d] = self.number.to_le_bytes();
        let [e, f] = (self.bytes.len() as u16).to_le_bytes();
        [self.kind as u8, a, b, c, d, e, f]
    }
}

struct Out(Bytes);

impl Out {
    fn bytes(&mut self, bytes: &[u8]) {
        self.0.extend_from_slice(bytes).expect("MAX_ANSWER is too small");
    }

    fn byte(&mut self, byte: u8) {
        self.bytes(&[byte]);
    }

    /// Whether there is one, then what it is.
    fn option<T>(&mut self, value: Option<T>, write: impl FnOnce(&mut Out, T)) {
        self.byte(u8::from(value.is_some()));
        if let Some(value) = value {
            write(self, value);
        }
    }

    fn length(&mut self, length: Length) {
        self.bytes(&length.nanometres().to_le_bytes());
    }

    fn interval(&mut self, interval: Interval) {
        self.length(interval.min());
        self.length(interval.max());
    }

    fn float(&mut self, value: f64) {
        self.bytes(&value.to_bits().to_le_bytes());
    }

    /// Its number: both sides are made from the same table.
    fn basis(&mut self, basis: Basis) {
        self.bytes(&basis.number().to_le_bytes());
    }

    fn window(&mut self, window: Window) {
        self.interval(window.height);
        self.length(window.diameter_least);
        self.option(window.diameter_greatest, Out::length);
    }

    fn within(&mut self, within: Within) {
        self.option(within.hole_greatest, Out::length);
        self.option(within.shank_least, Out::length);
    }

    fn head(&mut self, head: PredictedHead) {
        for length in [head.diameter.min, head.diameter.nominal, head.diameter.max, head.height] {
            self.length(length);
        }
    }

    fn given(&mut self, given: Given<Length>) {
        self.length(given.value);
        self.basis(given.basis);
    }

    fn findings<const N: usize>(&mut self, findings: &Findings<N>) {
        self.byte(u8::from(findings.is_complete()));
        for finding in findings {
            self.byte(finding.code() as u8 + 1);
            self.byte(finding.severity() as u8);
            self.byte(finding.layer().unwrap_or(0));
            self.option(finding.measured(), Out::figure);
            self.option(finding.limit(), Out::figure);
            self.basis(finding.basis());
        }
        self.byte(0);
    }

    fn figure(&mut self, figure: Figure) {
        match figure {
            Figure::Length(length) => self.length(length),
            Figure::Force(force) => self.float(force.lbf()),
            Figure::Stress(stress) => self.float(stress.psi()),
            Figure::Ratio(ratio) => self.float(ratio),
            Figure::Count(count) => self.bytes(&count.to_le_bytes()),
            Figure::Facts(facts) => self.byte(facts.bits()),
            Figure::Key(key) => self.bytes(&key.number().to_le_bytes()),
            other => self.text(&format_args!("{other:?}")),
        }
    }

    fn allowable(&mut self, allowable: Allowable) {
        self.float(allowable.force.lbf());
        self.basis(allowable.basis);
    }

    fn text(&mut self, text: &dyn fmt::Display) {
        let _ = write!(self, "{text}");
        self.byte(0);
    }
}

impl fmt::Write for Out {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        self.bytes(text.as_bytes());
        Ok(())
    }
}

fn length(case: &Case, out: &mut Out) {
    let question = case.question();
    match question.length() {
        Ok(choice) => {
            write_choice(&choice, out);
            out.option(choice.part, |out, part: Part<'_>| {
                out.text(&part);
                out.text(&part.in_words());
                let density = part.alloy().density_lb_in3().map_or(0.1, |(density, _)| density);
                out.option(mass_each(&part, density), |out, mass| out.float(mass.lb()));
            });
        }
        Err(error) => out.text(&error),
    }
    match question.assess(case.length) {
        Ok(assessed) => {
            out.byte(u8::from(assessed.serves));
            out.option(assessed.window, Out::window);
            out.option(assessed.within, Out::within);
            out.findings(&assessed.findings);
        }
        Err(error) => out.text(&error),
    }
}

fn write_choice(choice: &LengthAnswer<'_>, out: &mut Out) {
    out.option(choice.length, Out::length);
    out.option(choice.usable, |out, usable| {
        out.given(usable.shortest);
        out.given(usable.longest);
        out.byte(usable.longest_by as u8);
    });
    out.length(choice.rule_of_thumb);
    out.length(choice.rule_of_thumb_length);
    out.option(choice.difference, |out, difference| out.byte(difference as u8));
    out.option(choice.protrusion, Out::interval);
    out.option(choice.window, Out::window);
    out.option(choice.head, Out::head);
    out.option(choice.fill, Out::length);
    for other in choice.serves() {
        out.length(other.length);
        out.option(other.window, Out::window);
        out.option(other.head, Out::head);
    }
    for range in choice.by_hole() {
        out.interval(range.hole);
        out.option(range.length, Out::length);
        out.option(range.cut, Out::interval);
        out.option(range.window, Out::window);
    }
    out.option(choice.nearest(), |out, nearest| {
        out.length(nearest.length);
        out.within(nearest.within);
    });
    out.findings(&choice.findings);
}

fn upset(case: &Case, out: &mut Out) {
    match Fit::new(case.rivet.series(), case.rivet.size(), case.hole, case.stack.grip()) {
        Ok(fit) => {
            let (diameter, height) = (case.head.diameter.min(), case.head.height.min());
            let head = fit.predict(case.length, height);
            for length in [
                head.diameter.min,
                head.diameter.nominal,
                head.diameter.max,
                fit.shortest_for(diameter, height),
                fit.longest_for(diameter, height),
                fit.longest_for_tail(height),
                fit.tail_taken_by_fill(),
            ] {
                out.length(length);
            }
            out.interval(fit.protrusion(case.length));
        }
        Err(error) => out.text(&error),
    }
    let judged = judge(case.head, &case.defects, case.practice, &case.practice_case());
    out.byte(u8::from(judged.accepted));
    out.findings(&judged.findings);
}

fn hole(case: &Case, out: &mut Out) {
    let (steps, run) = tally((0..case.rows).map(|row| (0, u32::from(row) * u32::from(case.rows))));
    out.findings(&PatternLimits::of(case.number % 50, case.practice, [case.practice_case()]).check(steps, run));
    out.option(case.found, |out, found| {
        let answer = case.question().hole_step_by_step(found, &mut |step| write_step(step, out));
        out.byte(answer.disposition as u8);
        out.findings(&answer.findings);
    });
}

fn write_step(step: &Step<'_>, out: &mut Out) {
    out.byte(step.kind as u8);
    out.option(step.rivet, |out, rivet| out.text(&rivet));
    out.option(step.cut, |out, cut| out.text(&cut));
    out.option(step.hole, Out::interval);
    out.findings(&step.findings);
}

fn joint(case: &Case, out: &mut Out) {
    let question = case.question();
    out.findings(&question.findings());
    let found = closest(&case.points, &[case.edge]);
    out.option(found.pair, |out, (_, _, distance)| out.length(distance));
    out.option(found.to_edge, |out, (_, distance)| out.length(distance));
    match question.strength() {
        Ok(found) => write_strength(&found, case, out),
        Err(error) => out.text(&error),
    }
    if let Ok(compared) = question.in_place_of(case.rivet).compare() {
        out.option(compared, |out, compared| out.findings(&compared.findings));
    }
}

fn write_strength(found: &JointStrength, case: &Case, out: &mut Out) {
    out.length(found.diameter.0);
    out.option(found.thin_sheet_factor, Out::float);
    out.option(found.shear, Out::allowable);
    for sheet in &found.sheets {
        out.float(sheet.edge_margin());
        out.option(sheet.bearing(), |out, bearing| {
            out.byte(bearing.kind as u8);
            out.allowable(bearing.ultimate);
            out.option(bearing.yield_load, Out::allowable);
        });
        out.option(sheet.tear_out(), Out::allowable);
        out.option(sheet.tear_out_with_relief(), Out::allowable);
        out.option(sheet.net_section(), Out::allowable);
    }
    out.option(found.allowable, Out::allowable);
    out.option(found.indication, Out::allowable);
    out.option(found.governing, |out, governing| {
        out.byte(governing.mode as u8);
        out.byte(governing.layer.unwrap_or(0));
        out.allowable(governing.load);
    });
    out.option(found.net_section, |out, (net, layer)| {
        out.allowable(net);
        out.byte(layer);
    });
    out.basis(found.basis);
    out.findings(&found.findings);
    out.option(found.allowable, |out, allowable| match margin(allowable.force, case.load.0, case.load.1) {
        Ok(margin) => {
            out.float(margin.value);
            out.float(margin.factored_load.lbf());
        }
        Err(error) => out.text(&error),
    });
}
