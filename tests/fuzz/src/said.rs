//! What a finding says can be shown.

use shophead::finding::Finding;
use shophead::words::Units;

pub fn said(finding: &Finding, is_unseen: impl Fn(char) -> bool) {
    for units in [Units::Inches, Units::Millimetres] {
        let sentence = finding.sentence(units).to_string();
        assert!(!sentence.is_empty() && !sentence.chars().any(&is_unseen), "{sentence:?}");
        assert!(!finding.short(units).to_string().is_empty());
    }
}
