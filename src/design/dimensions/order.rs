//! In which order dimensions are evaluated, and which of them depend on each other in a ring.

use std::collections::BTreeSet;

/// The order, and the rings.
pub(super) struct Order {
    /// Indices in an order in which every dimension comes after those it is made of; those in or
    /// behind a ring are left out.
    pub(super) sequence: Vec<usize>,
    /// The rings, each from its first dimension in the file, in order of dependence.
    pub(super) rings: Vec<Vec<usize>>,
}

/// Orders dimensions, given for each the indices of those that it is made of.
pub(super) fn order(made_of: &[Vec<usize>]) -> Order {
    let mut waiting: Vec<usize> = made_of.iter().map(Vec::len).collect();
    let mut used_by: Vec<Vec<usize>> = vec![Vec::new(); made_of.len()];
    for (index, parts) in made_of.iter().enumerate() {
        for &part in parts {
            if let Some(users) = used_by.get_mut(part) {
                users.push(index);
            }
        }
    }
    let mut ready: BTreeSet<usize> = (0..made_of.len())
        .filter(|&index| waiting.get(index) == Some(&0))
        .collect();
    let mut sequence = Vec::with_capacity(made_of.len());
    while let Some(index) = ready.pop_first() {
        sequence.push(index);
        for &user in used_by.get(index).into_iter().flatten() {
            if let Some(count) = waiting.get_mut(user) {
                *count -= 1;
                if *count == 0 {
                    ready.insert(user);
                }
            }
        }
    }
    let rings = rings(made_of, &waiting);
    Order { sequence, rings }
}

/// The rings among the dimensions that still wait.
fn rings(made_of: &[Vec<usize>], waiting: &[usize]) -> Vec<Vec<usize>> {
    let waits = |index: usize| waiting.get(index).is_some_and(|&count| count > 0);
    let mut rings = Vec::new();
    let mut visited = vec![false; made_of.len()];
    for start in (0..made_of.len()).filter(|&index| waits(index)) {
        let mut path: Vec<usize> = Vec::new();
        let mut at = Some(start);
        // every waiting dimension is made of another waiting one, so this walk ends in a ring
        while let Some(index) = at {
            match visited.get_mut(index) {
                Some(seen) if !*seen => *seen = true,
                _ => break,
            }
            path.push(index);
            at = made_of
                .get(index)
                .and_then(|parts| parts.iter().copied().find(|&part| waits(part)));
        }
        let ring_start = at.and_then(|index| path.iter().position(|&other| other == index));
        if let Some(ring_start) = ring_start {
            let mut ring = path.split_off(ring_start);
            let first = ring
                .iter()
                .enumerate()
                .min_by_key(|(_, index)| **index)
                .map_or(0, |(at, _)| at);
            ring.rotate_left(first);
            rings.push(ring);
        }
    }
    rings
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_others_are_made_of_comes_first() {
        let order = order(&[vec![2], vec![0], vec![]]);
        assert_eq!(order.sequence, [2, 0, 1], "2, then 0 made of it, then 1");
        assert!(order.rings.is_empty(), "no ring: {:?}", order.rings);
    }

    #[test]
    fn every_ring_is_named_once() {
        // 0 → 1 → 2 → 1, 3 → 3, 4 alone
        let order = order(&[vec![1], vec![2], vec![1], vec![3], vec![]]);
        assert_eq!(order.sequence, [4], "only 4 can be evaluated");
        assert_eq!(order.rings, [vec![1, 2], vec![3]], "two rings");
    }
}
