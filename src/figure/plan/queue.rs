//! What finds no place goes to the front of the queue.

/// Places things one after another with `attempt`, which is given their order and gives the place
/// of each by its number. While some find none, they go to the front and all are placed anew, at
/// most `rounds` times; the attempt that placed the most is kept.
pub fn place_in_turn<T>(
    mut order: Vec<usize>,
    rounds: usize,
    mut attempt: impl FnMut(&[usize]) -> Vec<Option<T>>,
) -> Vec<Option<T>> {
    let mut best = attempt(&order);
    for _ in 1..rounds {
        let lost = |i: &usize| best.get(*i).is_some_and(Option::is_none);
        let (front, rest): (Vec<usize>, Vec<usize>) = order.iter().partition(|i| lost(i));
        if front.is_empty() {
            break;
        }
        let next = [front, rest].concat();
        if next == order {
            // The same order finds the same places again.
            break;
        }
        order = next;
        let next = attempt(&order);
        if next.iter().flatten().count() > best.iter().flatten().count() {
            best = next;
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_finds_no_place_comes_first_the_next_time() {
        // Only the first in the queue and number 2 find a place.
        let attempt = |order: &[usize]| {
            (0..3).map(|i| (order[0] == i || i == 2).then_some(order.to_vec())).collect::<Vec<_>>()
        };
        let placed = place_in_turn(vec![2, 1, 0], 2, attempt);
        assert_eq!(placed, [None, Some(vec![1, 0, 2]), Some(vec![1, 0, 2])]);
    }
}
