//! What belongs together is said together.

/// Things by what they have in common, in the order in which each group begins.
///
/// ```
/// use shophead_job::grouped::grouped;
/// let rows = [("#30", "K1"), ("#27", "K2"), ("#30", "C1")];
/// assert_eq!(grouped(rows), [("#30", vec!["K1", "C1"]), ("#27", vec!["K2"])]);
/// ```
pub fn grouped<K: PartialEq, V>(things: impl IntoIterator<Item = (K, V)>) -> Vec<(K, Vec<V>)> {
    let mut groups: Vec<(K, Vec<V>)> = Vec::new();
    for (key, thing) in things {
        match groups.iter_mut().find(|(known, _)| *known == key) {
            Some((_, things)) => things.push(thing),
            None => groups.push((key, vec![thing])),
        }
    }
    groups
}
