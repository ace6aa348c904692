//! Sorting in place. The standard library's sorts keep a panic in the program for an order that contradicts itself.

/// Sorts by a key: what has equal keys may change places. As many steps as a heap takes, n log n; what is in order already takes one look.
pub(crate) fn sort_by_key<T, K: Ord>(list: &mut [T], key: impl Fn(&T) -> K) {
    if list.is_sorted_by_key(&key) {
        return;
    }
    // A heap with the greatest first ...
    for root in (0..list.len() >> 1).rev() {
        sink(list, root, &key);
    }
    // ... whose greatest goes to the end of what is left of it.
    let mut heap = list;
    while let [first, .., last] = heap {
        core::mem::swap(first, last);
        let [rest @ .., _] = heap else { return };
        heap = rest;
        sink(heap, 0, &key);
    }
}

/// Sinks what stands at the root until nothing below it is greater.
fn sink<T, K: Ord>(heap: &mut [T], mut root: usize, key: &impl Fn(&T) -> K) {
    loop {
        let left = root.saturating_mul(2).saturating_add(1);
        let right = left.saturating_add(1);
        let is_less = |one: usize, other: usize| {
            heap.get(one).zip(heap.get(other)).is_some_and(|(one, other)| key(one) < key(other))
        };
        let greater = if is_less(left, right) { right } else { left };
        if !is_less(root, greater) {
            return;
        }
        let Ok([above, below]) = heap.get_disjoint_mut([root, greater]) else { return };
        core::mem::swap(above, below);
        root = greater;
    }
}

#[cfg(test)]
mod tests {
    extern crate std;
    use super::*;
    use std::vec::Vec;

    #[test]
    fn every_short_list_is_in_order_and_nothing_is_lost() {
        for length in 0..=7 {
            for number in 0..4_u32.pow(length) {
                let mut ours: Vec<(u32, u32)> = (0..length).map(|at| (number / 4_u32.pow(at) % 4, at)).collect();
                let mut std = ours.clone();
                sort_by_key(&mut ours, |(key, _)| *key);
                assert!(ours.is_sorted_by_key(|(key, _)| *key), "{ours:?}");
                ours.sort_unstable();
                std.sort_unstable();
                assert_eq!(ours, std);
            }
        }
    }

    #[test]
    fn a_long_list_is_in_order() {
        let mut list: Vec<u32> = (0..5_000).map(|at| at * 7_919 % 5_003).collect();
        sort_by_key(&mut list, |number| *number);
        assert!(list.is_sorted());
    }
}
