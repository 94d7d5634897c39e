//! The best counts by a general solver: HiGHS (Q. Huangfu and J. A. J. Hall, "Parallelizing the
//! dual revised simplex method", Mathematical Programming Computation 10, 2018).

use std::time::{Duration, Instant};

use highs::{HighsModelStatus, HighsSolutionStatus, RowProblem, Sense};
use pegline_bench::{Aim, Bed, Cliques, Model};

/// What the solver came to.
pub(crate) struct Optimum {
    /// How many of each crop for the aim `in-order`, as far as it came; how many in all for `most`.
    pub(crate) counts: Vec<u32>,
    /// Whether there is no better one.
    pub(crate) proved: bool,
    /// The time it took, without that for stating the problem.
    pub(crate) time: Duration,
}

impl Optimum {
    /// The counts that it proves.
    pub(crate) fn sure(&self) -> &[u32] {
        let open = usize::from(!self.proved);
        let sure = self.counts.len().saturating_sub(open);
        self.counts.get(..sure).unwrap_or_default()
    }
}

/// The best counts by a bed's aim: one problem in all for `most`, else one for each crop in turn,
/// with those before it held at their best.
pub(crate) fn best(bed: &Bed, model: &Model, limit: Duration) -> Result<Optimum, String> {
    let mut optimum = Optimum { counts: Vec::new(), proved: true, time: Duration::ZERO };
    let crops = bed.crops.len();
    let steps = match bed.aim {
        Aim::Most => crops - 1..crops,
        Aim::InOrder => 0..crops,
    };
    let mut chosen: Vec<usize> = Vec::new();
    for last in steps {
        let left = limit.saturating_sub(optimum.time);
        // Later crops only matter later; choices are in order of crops.
        let size = model.choices.partition_point(|choice| choice.crop <= last);
        let step = Step { bed, model, size, fixed: &optimum.counts, start: &chosen };
        let (picked, proved, time) = match step.solve(left)? {
            (Some(picked), proved, time) => (picked, proved, time),
            // Begun anew, from nothing.
            (None, _, lost) => {
                let step = Step { start: &[], ..step };
                let (picked, proved, time) = step.solve(left.saturating_sub(lost))?;
                let picked = picked.ok_or("HiGHS gives other choices than it counts")?;
                (picked, proved, lost + time)
            }
        };
        optimum.time += time;
        optimum.proved &= proved;
        let wished = |at: &&usize| {
            bed.aim == Aim::Most
                || model.choices.get(**at).is_some_and(|choice| choice.crop == last)
        };
        let count = picked.iter().filter(wished).count();
        optimum.counts.push(u32::try_from(count).unwrap_or(u32::MAX));
        if !proved {
            break;
        }
        chosen = picked;
    }
    Ok(optimum)
}

/// One problem of whole numbers.
#[derive(Clone, Copy)]
struct Step<'a> {
    bed: &'a Bed,
    model: &'a Model,
    /// How many of the model's choices take part.
    size: usize,
    /// The counts of the crops that are settled.
    fixed: &'a [u32],
    /// Choices that can all be made, to begin from.
    start: &'a [usize],
}

impl Step<'_> {
    /// The choices made, whether there are no better ones, and the time it took.
    ///
    /// HiGHS 1.16 sometimes counts the choices of a better solution and hands out those that it was
    /// given to begin from; then there are none here.
    fn solve(&self, limit: Duration) -> Result<(Option<Vec<usize>>, bool, Duration), String> {
        let choices = self.model.choices.get(..self.size).unwrap_or_default();
        let settled = match self.bed.aim {
            Aim::Most => 0,
            Aim::InOrder => self.fixed.len(),
        };
        let mut problem = RowProblem::new();
        let columns: Vec<_> = choices
            .iter()
            .map(|choice| {
                let worth = if choice.crop >= settled { 1.0 } else { 0.0 };
                problem.add_integer_column(worth, 0..=1)
            })
            .collect();
        let entries = |picked: &mut dyn Iterator<Item = usize>| {
            picked.filter_map(|at| columns.get(at).map(|column| (*column, 1.0))).collect::<Vec<_>>()
        };
        for set in Cliques::cover(self.model, self.size).0 {
            problem.add_row(..=1, entries(&mut set.into_iter()));
        }
        for (at, crop) in self.bed.crops.iter().enumerate() {
            let of_it = entries(
                &mut (0..self.size)
                    .filter(|&choice| choices.get(choice).is_some_and(|choice| choice.crop == at)),
            );
            match (self.fixed.get(at), crop.on_hand) {
                _ if of_it.is_empty() => {}
                (Some(&count), _) if self.bed.aim == Aim::InOrder => {
                    problem.add_row(count..=count, of_it);
                }
                (_, Some(most)) => problem.add_row(..=most, of_it),
                _ => {}
            }
        }
        if choices.is_empty() {
            return Ok((Some(Vec::new()), true, Duration::ZERO));
        }
        let mut solver = problem.optimise(Sense::Maximise);
        solver.make_quiet();
        solver.set_option("threads", 1);
        solver.set_option("time_limit", limit.as_secs_f64());
        solver.set_option("mip_rel_gap", 0.0);
        // Counts are whole, so that less than one plant more is none.
        solver.set_option("mip_abs_gap", 0.99);
        if !self.start.is_empty() {
            let mut from = vec![0.0; self.size];
            for &at in self.start {
                if let Some(value) = from.get_mut(at) {
                    *value = 1.0;
                }
            }
            solver.set_solution(Some(&from), None, None, None);
        }
        let begin = Instant::now();
        let solved = solver.try_solve().map_err(|status| format!("HiGHS failed: {status:?}"))?;
        let time = begin.elapsed();
        let proved = match solved.status() {
            HighsModelStatus::Optimal => true,
            HighsModelStatus::ReachedTimeLimit => false,
            other => return Err(format!("HiGHS ended as {other:?}")),
        };
        if solved.primal_solution_status() != HighsSolutionStatus::Feasible {
            if proved {
                return Err("HiGHS proves a solution that it does not have".to_owned());
            }
            // No time for any; what it was to begin from is always one.
            return Ok((Some(self.start.to_vec()), false, time));
        }
        let values = solved.get_solution();
        let picked: Vec<usize> = (0..)
            .zip(values.columns())
            .filter(|(_, value)| **value > 0.5)
            .map(|(at, _)| at)
            .collect();
        let counted = picked
            .iter()
            .filter_map(|&at| choices.get(at))
            .filter(|choice| choice.crop >= settled)
            .count();
        #[expect(clippy::cast_precision_loss, reason = "hundreds of plants")]
        let agrees = (solved.objective_value() - counted as f64).abs() < 0.5;
        Ok((agrees.then_some(picked), proved, time))
    }
}
