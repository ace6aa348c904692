//! Damage that was found beside the holes: cracks, corrosion, soft spots in skin or substructure.
//!
//! How much of it may be dealt with without asking is in the type's own documents and in no public one. Both built-in practices are
//! silent, so damage is referred unless the shop's limits say how much is within them.

use crate::basis::Basis;
use crate::finding::{Code, Figure, Finding, Findings, Severity};
use crate::length::Length;
use crate::practice::{Case, Given, Key, Name, Practice, Value};
use crate::setters::setters;

crate::words::words! {
    /// What kind of damage.
    #[non_exhaustive]
    DamageKind, "damage" {
        Crack = 1, "crack", "A crack.";
        Corrosion = 2, "corrosion", "Corrosion.";
        Softness = 3, "softness", "A soft spot: metal that was overheated, or a core or bond that is crushed.";
    }
}

/// Damage as it was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[non_exhaustive]
pub struct Damaged {
    /// What it is.
    pub kind: DamageKind,
    /// How long it is, where measured.
    pub length: Option<Length>,
    /// How deep it is, where measured.
    pub depth: Option<Length>,
    /// The thickness of the layer that it is in, at its least, where known.
    pub thickness: Option<Length>,
}

impl Damaged {
    /// Damage of which nothing is measured yet.
    #[must_use]
    pub const fn new(kind: DamageKind) -> Damaged {
        Damaged { kind, length: None, depth: None, thickness: None }
    }

    setters! {
        /// How long it is.
        length: Option<Length>;
        /// How deep it is.
        depth: Option<Length>;
        /// The thickness of the layer that it is in, at its least.
        thickness: Option<Length>;
    }
}

/// Each document with the two diameters that it prints: fractions, and #40 and #30.
const STOP_DRILLS: [(Basis, Length, Length); 2] = [
    (Basis::AC43_STOP_DRILL, Length::from_64ths(6), Length::from_64ths(8)),
    (Basis::NAVY_14018_STOP_DRILL, Length::from_ten_thousandths(980), Length::from_ten_thousandths(1285)),
];

/// Checks damage against the shop's limits.
///
/// `case` is that of the row that it lies beside; without one only limits for every rivet count. All limits that are given for a kind of
/// damage must be kept: what is limited but was not measured is referred. No limit at all means refer.
///
/// ```
/// use shophead::damage::{Damaged, DamageKind, judge};
/// use shophead::finding::Code;
/// use shophead::length::Length;
/// use shophead::practice::HANDBOOK;
/// let crack = Damaged::new(DamageKind::Crack).length(Length::parse("3/4")?);
/// let findings = judge(&crack, None, &HANDBOOK);
/// assert!(findings.has(Code::DamageNotLimited) && findings.must_refer());
/// assert!(findings.has(Code::StopDrill));
/// # Ok::<(), shophead::length::ParseLengthError>(())
/// ```
#[must_use]
pub fn judge(damaged: &Damaged, case: Option<&Case>, practice: &Practice<'_>) -> Findings {
    let mut findings = Findings::new();
    let longest = match damaged.kind {
        DamageKind::Crack => Name::CrackLengthGreatest,
        DamageKind::Corrosion => Name::CorrosionLengthGreatest,
        DamageKind::Softness => Name::SoftSpotLengthGreatest,
    };
    let mut is_limited = false;
    if let Some(limit) = length_limit(longest, case, practice) {
        is_limited = true;
        hold(&mut findings, damaged.length, limit);
    }
    if damaged.kind == DamageKind::Corrosion
        && let Some(Given { value: (num, den), basis }) = share_limit(Name::CorrosionDepthShare, case, practice)
    {
        is_limited = true;
        match damaged.thickness {
            Some(thickness) => hold(&mut findings, damaged.depth, Given { value: thickness.times(num, den), basis }),
            None => findings.push(Finding::new(Code::DamageNotMeasured, Severity::Refer, basis)),
        }
    }
    if !is_limited {
        let (code, basis) = (Code::DamageNotLimited, Basis::DAMAGE_NOT_LIMITED);
        let finding = Finding::unknown(code, Severity::Refer, basis, Some(Key::of_limit(longest)));
        let measured = damaged.length.or(damaged.depth).map(Figure::Length);
        findings.push(measured.map_or(finding, |measured| finding.with_measured(measured)));
    }
    if damaged.kind == DamageKind::Crack {
        for (basis, least, greatest) in STOP_DRILLS {
            let finding = Finding::new(Code::StopDrill, Severity::Note, basis);
            findings.push(finding.with_measured(Figure::Length(least)).with_limit(Figure::Length(greatest)));
        }
    }
    findings
}

fn hold(findings: &mut Findings, measured: Option<Length>, limit: Given<Length>) {
    let finding = match measured {
        None => Finding::new(Code::DamageNotMeasured, Severity::Refer, limit.basis),
        Some(measured) if measured > limit.value => {
            Finding::new(Code::DamageOverLimit, Severity::Refer, limit.basis).with_measured(Figure::Length(measured))
        }
        Some(measured) => Finding::new(Code::DamageWithinLimit, Severity::Caution, limit.basis)
            .with_measured(Figure::Length(measured)),
    };
    findings.push(finding.with_limit(Figure::Length(limit.value)));
}

fn length_limit(name: Name, case: Option<&Case>, practice: &Practice<'_>) -> Option<Given<Length>> {
    match case {
        Some(case) => practice.length(name, case),
        None => match practice.for_every_rivet(name)? {
            Given { value: Value::Length(value), basis } => Some(Given { value, basis }),
            _ => None,
        },
    }
}

fn share_limit(name: Name, case: Option<&Case>, practice: &Practice<'_>) -> Option<Given<(u32, u32)>> {
    match case {
        Some(case) => practice.fraction(name, case),
        None => match practice.for_every_rivet(name)? {
            Given { value: Value::Fraction { num, den }, basis } => Some(Given { value: (num, den), basis }),
            _ => None,
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::practice::Scope;
    use crate::practice::{BUILT_IN, HANDBOOK, Limit};
    use crate::prelude::length;

    fn own(name: Name, value: &str) -> Limit {
        let value = Value::parse(name, value).expect(value);
        Limit { name, scope: Scope::ANY, value, basis: Basis::own(0) }
    }

    #[test]
    fn without_limits_every_kind_is_referred() {
        for kind in DamageKind::ALL {
            for practice in BUILT_IN {
                let damaged = Damaged { kind: *kind, length: Some(length("1/8")), depth: None, thickness: None };
                let findings = judge(&damaged, None, practice);
                assert!(findings.has(Code::DamageNotLimited) && findings.must_refer(), "{kind}");
                assert_eq!(findings.has(Code::StopDrill), *kind == DamageKind::Crack, "{kind}");
            }
        }
    }

    #[test]
    fn corrosion_must_keep_both_of_its_limits() {
        let limits = [own(Name::CorrosionDepthShare, "10 %"), own(Name::CorrosionLengthGreatest, "1")];
        let practice = HANDBOOK.with_own(&limits, &[]);
        let of = |long: Option<&str>, deep: Option<&str>, thickness: Option<&str>| {
            let [length, depth, thickness] = [long, deep, thickness].map(|text| text.map(length));
            judge(&Damaged { kind: DamageKind::Corrosion, length, depth, thickness }, None, &practice)
        };
        // A tenth of .050 is .005, and exactly at a limit is within it.
        assert!(!of(Some("1"), Some(".005"), Some(".050")).must_refer());
        assert!(of(Some("1"), Some(".00501"), Some(".050")).has(Code::DamageOverLimit));
        assert!(of(Some("1.001"), Some(".005"), Some(".050")).has(Code::DamageOverLimit));
        for unknown in
            [of(None, Some(".005"), Some(".05")), of(Some("1"), None, Some(".05")), of(Some("1"), Some(".005"), None)]
        {
            assert!(unknown.has(Code::DamageNotMeasured) && unknown.must_refer());
        }
    }
}
