//! Taking rivets out: drill, depth, punch.

use shophead::drill::Drill;
use shophead::length::{Length, Toleranced};
use shophead::practice::{BUILT_IN, Practice};
use shophead::removal::{Removal, Risk, removal};
use shophead::rivet::MS20470;
use shophead::rivet::part::Part;
use shophead::stack::{Layer, Role, Stack};
use shophead_tests::fixture;
use shophead_tests::prelude::length;

fn stack(layers: &[&str]) -> Stack {
    let mut stack = Stack::new();
    for thickness in layers {
        stack.push(Layer::of(Toleranced::parse(thickness).expect("a thickness"))).expect("room");
    }
    stack
}

fn take_out(dash: u8, layers: &[&str], edge: Option<Length>, practice: &Practice<'static>) -> Removal {
    let size = MS20470.size(dash).expect("a size");
    let installed = Part::new(&MS20470, "AD", size).expect("a part");
    removal(&installed, &stack(layers), edge, practice)
}

/// RM-02: one size smaller than the shank, to the base of the head (HOLE-06). Every shank is itself a fraction drill, so the next
/// smaller in the whole list of drills is meant.
#[test]
fn the_drill_is_one_size_under_the_shank_and_goes_to_the_base_of_the_head() {
    let rows = fixture("practice-limits");
    let row = rows.iter().find(|row| row.text("id") == "RM-02").expect("the row");
    assert!(row.is_read() && row.text("says") == "one size smaller than the shank");
    let rules = fixture("ac43-rules");
    let base = rules.iter().find(|row| row.text("rule_id") == "HOLE-06").expect("the row");
    assert!(base.is_read() && base.text("value").ends_with("to base of head only"));
    for practice in BUILT_IN {
        for size in MS20470.sizes {
            let taken = take_out(size.dash, &[".040", ".050"], None, practice);
            let drill = taken.drill.expect("a drill");
            let below: Vec<Length> =
                Drill::all().map(Drill::diameter).filter(|drill| *drill < size.shank_nominal).collect();
            assert_eq!(Some(drill.value.diameter()), below.into_iter().max(), "-{}", size.dash);
            assert!(
                row.text("source").contains("question bank")
                    && drill.basis.citation().expect("built in").document.contains("question bank")
            );
            let depth = taken.depth.expect("a known head");
            assert_eq!(Some(depth.value), size.head_height_nominal());
            assert_eq!(depth.basis.citation().expect("built in").document, "AC 43.13-1B");
            // The punch passes the hole, so it is thinner than the shank that filled it.
            assert_eq!(taken.punch_under, size.shank_nominal);
        }
    }
}

/// The risks are common practice; they begin where the practice says, inclusive or not as its meaning says.
#[test]
fn risks_begin_where_the_practice_says() {
    for practice in BUILT_IN {
        let risks = |layers: &[&str], edge: Option<&str>| -> Vec<Risk> {
            let taken = take_out(4, layers, edge.map(length), practice);
            let risks: Vec<Risk> = taken.risks.iter().map(|risk| risk.value).collect();
            assert_eq!(taken.support, risks.contains(&Risk::ThinFarSide), "thin metal wants a block");
            risks
        };
        assert_eq!(risks(&[".040", ".050"], Some("1/2")), []);
        assert_eq!(risks(&[".125", ".250"], None), [Risk::ThickPack], "three diameters");
        assert_eq!(risks(&[".125", ".249"], None), []);
        assert_eq!(risks(&[".032"; 4], None), [Risk::ManyLayers]);
        assert_eq!(risks(&[".032"; 3], None), []);
        assert_eq!(risks(&[".040", ".0319"], None), [Risk::ThinFarSide]);
        assert_eq!(risks(&[".0319", ".040"], None), [], "the near side is held by the head's own sheet");
        assert_eq!(risks(&[".040", ".050"], Some("1/4")), [Risk::CloseToEdge]);
        assert_eq!(risks(&[".040", ".050"], Some(".2501")), []);
    }
}

/// What stays behind the skin, and what hangs under the driven head, whatever the pack measures.
#[test]
fn a_cap_anywhere_and_a_tab_on_the_far_side_are_risks() {
    let pack = |roles: &[Role]| {
        let mut stack = Stack::new();
        for role in roles {
            let layer = Layer::of(Toleranced::parse(".040").expect("a thickness")).role(*role);
            stack.push(layer).expect("room");
        }
        stack
    };
    let installed = Part::new(&MS20470, "AD", MS20470.size(4).expect("a size")).expect("a part");
    for practice in BUILT_IN {
        let risks = |roles: &[Role]| -> Vec<Risk> {
            removal(&installed, &pack(roles), None, practice).risks.iter().map(|risk| risk.value).collect()
        };
        assert_eq!(risks(&[Role::Skin, Role::Doubler]), []);
        assert_eq!(risks(&[Role::Skin, Role::Cap]), [Risk::ThickMember]);
        assert_eq!(risks(&[Role::Skin, Role::Cap, Role::Doubler]), [Risk::ThickMember]);
        assert_eq!(risks(&[Role::Skin, Role::Tab]), [Risk::Tab]);
        assert_eq!(risks(&[Role::Tab, Role::Skin]), [], "only what is under the driven head");
    }
}
