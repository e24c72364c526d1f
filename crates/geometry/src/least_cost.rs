//! What must stock cost at least, if only its size counted?

/// A kind of stock.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stock {
    /// How much one piece of it holds.
    pub holds: i128,
    /// How many there are.
    pub count: usize,
    /// What one costs.
    pub cost: i128,
}

/// The cost of stock that holds an amount, if parts of it could be bought, rounded up to a whole number; the cost of all of
/// it where it does not suffice.
pub(crate) fn least_cost(mut amount: i128, mut stock: Vec<Stock>) -> i128 {
    stock.retain(|kind| kind.count > 0 && kind.holds > 0);
    // The cheapest by what it holds first.
    stock.sort_by(|one, other| (one.cost * other.holds).cmp(&(other.cost * one.holds)));
    let mut least = 0;
    for kind in stock {
        let held = kind.holds * kind.count as i128;
        if held >= amount {
            return least + (kind.cost * amount + kind.holds - 1) / kind.holds;
        }
        amount -= held;
        least += kind.cost * kind.count as i128;
    }
    least
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_cheapest_by_size_is_filled_first() {
        let stock = vec![
            Stock { holds: 10, count: 5, cost: 10 },
            Stock { holds: 20, count: 1, cost: 10 },
            Stock { holds: 3, count: 2, cost: 0 },
        ];
        assert_eq!(least_cost(0, stock.clone()), 0, "nothing costs nothing");
        assert_eq!(least_cost(6, stock.clone()), 0, "what costs nothing suffices");
        assert_eq!(least_cost(27, stock.clone()), 11, "twenty for 10, and one tenth of another");
        assert_eq!(least_cost(1000, stock), 60, "all of it");
    }
}
