//! Places in a row, no nearer to each other than allowed, and as near as may be to where they are
//! wanted.

use crate::documents::features::of_count;

/// The places, in the order of `wanted` (which must ascend), inside `low` … `high`, each at least
/// `pitch` from the next; `None` when there are too many.
///
/// # Source
/// Pool adjacent violators: least squares under an order, Barlow et al., Statistical Inference under
/// Order Restrictions (1972), 1.2.
pub(super) fn spread(wanted: &[f64], low: f64, high: f64, pitch: f64) -> Option<Vec<f64>> {
    let needed = of_count(wanted.len().saturating_sub(1)) * pitch;
    if high < low || needed > high - low {
        return None;
    }
    // in the coordinate place − index × pitch the places only have to ascend
    let mut runs: Vec<(f64, usize)> = Vec::new();
    for (index, &place) in wanted.iter().enumerate() {
        let slack_end = high - needed;
        let free = place - of_count(index) * pitch;
        let mut run = (free.min(slack_end).max(low), 1);
        while let Some(&(before, count)) = runs.last() {
            if before <= run.0 {
                break;
            }
            let total = of_count(count) * before + of_count(run.1) * run.0;
            run = (total / of_count(count + run.1), count + run.1);
            runs.pop();
        }
        runs.push(run);
    }
    let places = runs
        .into_iter()
        .flat_map(|(place, count)| std::iter::repeat_n(place, count));
    Some(
        places
            .enumerate()
            .map(|(index, place)| place + of_count(index) * pitch)
            .collect(),
    )
}

#[cfg(test)]
mod tests {
    use super::spread;

    #[test]
    fn places_stay_where_they_have_room() {
        assert_eq!(
            spread(&[1.0, 9.0, 20.0], 0.0, 30.0, 4.0),
            Some(vec![1.0, 9.0, 20.0]),
            "all apart already"
        );
    }

    #[test]
    fn a_cluster_spreads_about_its_middle() {
        let found = spread(&[10.0, 10.0, 10.0], 0.0, 30.0, 4.0);
        assert_eq!(found, Some(vec![6.0, 10.0, 14.0]), "three at one place");
        let found = spread(&[0.0, 0.0, 0.0], 0.0, 30.0, 4.0);
        assert_eq!(found, Some(vec![0.0, 4.0, 8.0]), "at the lower end");
        let found = spread(&[40.0, 41.0], 0.0, 30.0, 4.0);
        assert_eq!(found, Some(vec![26.0, 30.0]), "beyond the upper end");
    }

    #[test]
    fn too_many_are_refused() {
        assert_eq!(spread(&[1.0, 2.0, 3.0], 0.0, 7.0, 4.0), None, "8 in 7");
        assert_eq!(spread(&[], 0.0, 7.0, 4.0), Some(vec![]), "none at all");
    }
}
