//! `sources` lists every place in a document that the core names.

use std::collections::BTreeSet;

use ::shophead::basis::{Basis, RULES, Status};

use crate::shophead;

/// Document, place and status as `sources` lists them under every practice.
fn listed() -> BTreeSet<[String; 3]> {
    let mut listed = BTreeSet::new();
    for practice in ["handbook", "process"] {
        let value = shophead(&format!("sources --practice {practice} --format json")).json(0);
        for source in value["result"]["sources"].as_array().unwrap() {
            listed.insert(["document", "place", "status"].map(|key| source[key].as_str().unwrap().to_owned()));
        }
    }
    listed
}

#[test]
fn every_basis_that_the_core_names_is_listed() {
    let listed = listed();
    // What a question brings itself stands in no document of the product.
    let (brought, named): (Vec<&Basis>, Vec<&Basis>) =
        Basis::ALL.iter().partition(|basis| basis.status() == Status::Shop);
    let mut missing = Vec::new();
    for basis in named {
        let cited = basis.citation().expect("a built-in basis");
        if !listed.contains(&[cited.document, cited.place, cited.status.as_str()].map(str::to_owned)) {
            missing.push(cited.to_string());
        }
    }
    assert!(
        missing.is_empty(),
        "give these a rule in the table of bases, or list the table that cites them: {missing:#?}"
    );
    assert!(listed.len() > 200, "the core names far more places, found {}", listed.len());
    assert_eq!(brought.len(), 4);
}

#[test]
fn every_rule_of_the_table_is_listed_by_its_subject() {
    let value = shophead("sources --format json").json(0);
    let sources = value["result"]["sources"].as_array().unwrap();
    for rule in RULES {
        let same = |source: &&serde_json::Value| {
            source["group"] == rule.topic.as_str() && source["what"] == rule.subject && source["value"] == "a rule"
        };
        assert_eq!(sources.iter().filter(same).count(), 1, "{}", rule.subject);
    }
}
