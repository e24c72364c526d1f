//! How is a set of equations solved whose matrix is a sum of squares?

/// The lower triangle whose square is a symmetric matrix with only positive directions.
///
/// **Source**: A.-L. Cholesky's method, from memory.
pub(super) struct Cholesky(Vec<Vec<f64>>);

impl Cholesky {
    /// Of a matrix of which the lower triangle is given; each of its diagonal entries is at least 1 beside sums of squares.
    pub(super) fn of(mut matrix: Vec<Vec<f64>>) -> Self {
        for row in 0..matrix.len() {
            let (above, rest) = matrix.split_at_mut(row);
            let current = &mut rest[0];
            for (column, done) in above.iter().enumerate() {
                let product: f64 = current[..column].iter().zip(&done[..column]).map(|(a, b)| a * b).sum();
                current[column] = (current[column] - product) / done[column];
            }
            let squares: f64 = current[..row].iter().map(|entry| entry * entry).sum();
            current[row] = (current[row] - squares).sqrt();
        }
        Self(matrix)
    }

    /// What the matrix takes to this right side.
    pub(super) fn solve(&self, right: &[f64]) -> Vec<f64> {
        let mut found = right.to_vec();
        for (row, entries) in self.0.iter().enumerate() {
            let product: f64 = entries[..row].iter().zip(&found).map(|(a, b)| a * b).sum();
            found[row] = (found[row] - product) / entries[row];
        }
        for row in (0..found.len()).rev() {
            let product: f64 = (row + 1..found.len()).map(|below| self.0[below][row] * found[below]).sum();
            found[row] = (found[row] - product) / self.0[row][row];
        }
        found
    }

    /// The matrix's inverse, whole.
    pub(super) fn inverse(&self) -> Vec<Vec<f64>> {
        let size = self.0.len();
        let unit = |column| (0..size).map(|row| f64::from(u8::from(row == column))).collect::<Vec<f64>>();
        (0..size).map(|column| self.solve(&unit(column))).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_inverse_undoes_the_matrix() {
        let matrix = [[4.0, 0.0, 0.0], [2.0, 5.0, 0.0], [1.0, 3.0, 6.0]];
        let whole = |row: usize, column: usize| matrix[row.max(column)][row.min(column)];
        let inverse = Cholesky::of(matrix.iter().map(|row| row.to_vec()).collect()).inverse();
        for row in 0..3 {
            for (column, solved) in inverse.iter().enumerate() {
                // The inverse is symmetric, so that its rows are its columns.
                let found: f64 =
                    solved.iter().enumerate().map(|(middle, entry)| whole(row, middle) * entry).sum();
                let expected = f64::from(u8::from(row == column));
                assert!((found - expected).abs() < 1e-12, "{row}, {column}: {found}");
            }
        }
    }
}
