//! Files that can only be understood together: each uses the others, by whatever way round.

/// The strongly connected components of a graph, by R. Tarjan, "Depth-first search and linear graph
/// algorithms", SIAM Journal on Computing 1, 1972. Each is in order; single nodes are among them.
pub(crate) fn circles(uses: &[Vec<usize>]) -> Vec<Vec<usize>> {
    let mut walk = Walk { uses, seen: vec![None; uses.len()], ..Walk::default() };
    for node in 0..uses.len() {
        if walk.seen[node].is_none() {
            walk.visit(node);
        }
    }
    walk.found
}

#[derive(Default)]
struct Walk<'a> {
    uses: &'a [Vec<usize>],
    /// When a node was come to.
    seen: Vec<Option<usize>>,
    time: usize,
    /// Nodes whose circle isn't known yet.
    open: Vec<usize>,
    found: Vec<Vec<usize>>,
}

impl Walk<'_> {
    /// The earliest open node that can be reached from this one.
    fn visit(&mut self, node: usize) -> usize {
        let now = self.time;
        self.time += 1;
        self.seen[node] = Some(now);
        self.open.push(node);
        let mut earliest = now;
        for &next in &self.uses[node] {
            match self.seen[next] {
                None => earliest = earliest.min(self.visit(next)),
                Some(time) if self.open.contains(&next) => earliest = earliest.min(time),
                Some(_) => {}
            }
        }
        if earliest == now {
            let place = self.open.iter().position(|&open| open == node).unwrap();
            let mut circle = self.open.split_off(place);
            circle.sort_unstable();
            self.found.push(circle);
        }
        earliest
    }
}

#[test]
fn a_circle_is_found_and_what_hangs_on_it_is_none() {
    let mut found = circles(&[vec![1], vec![2, 3], vec![0], vec![4], vec![], vec![0]]);
    found.sort();
    assert_eq!(found, [vec![0, 1, 2], vec![3], vec![4], vec![5]]);
}
