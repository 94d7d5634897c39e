//! What a place in the bed is worth to each kind, where of some kinds there are only so many.
//!
//! The bound: with any worths between 0 and 1, a layout's plants count at most the worth of the
//! best layout without limits, plus, for each kind, what is missing to 1 times the number there is
//! (Lagrangian relaxation: A. M. Geoffrion, "Lagrangean relaxation for integer programming", 1974,
//! from memory). The best worths are sought by cutting planes, each a layout found with the last
//! ones: the best mixture of the known layouts is a small linear program, solved by the simplex
//! method, and its prices are the next worths.
#![expect(
    clippy::indexing_slicing,
    reason = "every index was made by this file from the lengths of the same lists"
)]

/// Worths are whole numbers of parts of this size.
pub(super) const ONE: i32 = 5_040;

/// The worths at which the mixture of known layouts is best, and how many plants it counts.
///
/// Of each kind a mixture counts no more than `caps`.
pub(super) fn of_mixture(layouts: &[Vec<u32>], caps: &[u32]) -> (Vec<i32>, f64) {
    let (kinds, columns) = (caps.len(), caps.len() + layouts.len());
    // Rows: counted plants of a kind less those in the mixture, at most 0; counted plants, at most
    // the cap; the mixture's parts, at most 1. Columns: counted plants, parts, slacks, right side.
    let rows = 2 * kinds + 1;
    let wide = columns + rows + 1;
    let mut table = vec![vec![0.0_f64; wide]; rows];
    for (row, line) in table.iter_mut().enumerate() {
        line[columns + row] = 1.0;
        if row < kinds {
            line[row] = 1.0;
            for (layout, count) in layouts.iter().zip(&mut line[kinds..]) {
                *count = -f64::from(layout[row]);
            }
        } else if row < 2 * kinds {
            line[row - kinds] = 1.0;
            line[wide - 1] = f64::from(caps[row - kinds]);
        } else {
            line[kinds..columns].fill(1.0);
            line[wide - 1] = 1.0;
        }
    }
    let mut gains = vec![0.0_f64; wide];
    gains[..kinds].fill(1.0);
    let mut basis: Vec<usize> = (columns..columns + rows).collect();

    // The first column that gains enters (R. G. Bland, 1977, from memory), so that it ends.
    const NOTHING: f64 = 1e-9;
    for _ in 0..200 {
        let Some(enters) = (0..wide - 1).find(|&column| gains[column] > NOTHING) else {
            break;
        };
        let mut leaves: Option<(usize, f64)> = None;
        for (row, line) in table.iter().enumerate() {
            if line[enters] > NOTHING {
                let ratio = line[wide - 1] / line[enters];
                let first = leaves.is_none_or(|(other, least)| {
                    ratio < least - NOTHING || ratio < least + NOTHING && basis[row] < basis[other]
                });
                if first {
                    leaves = Some((row, ratio));
                }
            }
        }
        let Some((row, _)) = leaves else { break };
        let by = table[row][enters];
        for entry in &mut table[row] {
            *entry /= by;
        }
        let pivot = table[row].clone();
        let clear = |line: &mut [f64]| {
            let times = line[enters];
            for (entry, own) in line.iter_mut().zip(&pivot) {
                *entry -= times * own;
            }
        };
        for (_, line) in table.iter_mut().enumerate().filter(|(other, _)| *other != row) {
            clear(line);
        }
        clear(&mut gains);
        basis[row] = enters;
    }
    let worths = gains[columns..columns + kinds]
        .iter()
        // OK because the cast saturates.
        .map(|gain| ((-gain * f64::from(ONE)).round() as i32).clamp(0, ONE))
        .collect();
    (worths, -gains[wide - 1])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_layout_counts_up_to_its_caps() {
        let (_, value) = of_mixture(&[vec![5, 2]], &[3, 9]);
        assert!((value - 5.0).abs() < 1e-6, "{value}");
    }

    #[test]
    fn two_layouts_mixed_count_more_than_either() {
        // Ten of one kind or ten of the other; of each there are five.
        let (worths, value) = of_mixture(&[vec![10, 0], vec![0, 10]], &[5, 5]);
        assert!((value - 10.0).abs() < 1e-6, "{value}");
        assert_eq!(worths.len(), 2);
        let (worths, value) = of_mixture(&[vec![10, 0], vec![0, 6]], &[5, 9]);
        assert!((value - 8.0).abs() < 1e-6, "{value}");
        // The scarce kind's place is worth less than that of the other: 6 places hold 10 or 6.
        assert!(f64::from(worths[0]) / f64::from(worths[1]) - 0.6 < 1e-3);
    }
}
