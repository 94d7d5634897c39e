//! How many of a crop any layout can hold beside wider ones laid out before it.
//!
//! A plant that keeps the wider distance w could be replaced by several that keep the closer one, s,
//! if these stand within (w - s) / 2 of its place: from plants of the closer crop, from each other's
//! replacements and from what stays they are then at least as far as they need be. So all
//! replacements and the closer crop together are no more than the closer crop alone (derived). How
//! many fit so near to a place is counted on a triangular lattice; beside a side of the bed half of
//! it is left, and in each corner, where there is room for one wider plant at most, a quarter. Unlike
//! neighbours are forgiven the tolerance, so all distances are taken that much shorter.
//!
//! Along lines there is a second bound: neighbours keep the mean of their spacings, so each plant takes
//! up its own, less a half at each end of its line (derived).

use super::{Run, at_most};
use crate::bed::TOLERANCE;
use crate::layout::geometry::Field;
use crate::layout::request::{Aim, EdgeMargin, Request, SiteChoice, Want};
use crate::quantity::Micrometres;
use crate::turns::Pace;

impl Run {
    /// No layout that serves the aim as well for the crops laid out has more of this one; and the
    /// work done.
    pub(super) async fn at_most_beside(
        &self,
        request: &Request<'_>,
        want: &Want,
        pace: &Pace,
    ) -> (u32, u64) {
        let before = || {
            let wants = self.order.iter().filter_map(|&at| request.wants().get(at));
            wants.zip(&self.laid)
        };
        // The replacements may stand wherever the wider plants may.
        let margins = before().map(|(before, _)| before.edge_margin.at(before.spacing));
        let margin = margins.fold(want.edge_margin.at(want.spacing), Micrometres::min);
        let alone = Want {
            spacing: want.spacing - TOLERANCE * 2,
            on_hand: None,
            edge_margin: EdgeMargin::Of(margin),
            ..*want
        };
        let (alone, steps) = at_most(request, &alone, pace).await;
        let field = Field::loosely_within(request.bed(), margin);
        let (mut most, more) = at_most(request, want, pace).await;
        if let (Some(field), Aim::InOrder) = (field, request.aim()) {
            let lines = request.bed().drip().map_or(0, |drip| drip.lines().len()) as u32;
            let crops: Vec<(&Want, u32)> =
                before().map(|(before, laid)| (before, laid.plants.len() as u32)).collect();
            let replaced =
                |&(before, count): &(&Want, u32)| replacements(before, want, &field, lines, count);
            most = most.min(alone.saturating_sub(crops.iter().map(replaced).sum()));
            if want.sites == SiteChoice::AlongLine {
                most = most.min(left_on_lines(&crops, want, &field, lines));
            }
        }
        (most, steps + more)
    }
}

/// How many more the lines could take if each plant took up its spacing and no more, and on each
/// line the widest hung over by half of its own at both ends.
fn left_on_lines(crops: &[(&Want, u32)], want: &Want, field: &Field, lines: u32) -> u32 {
    let wide = |want: &Want| (want.spacing - TOLERANCE * 2).get().max(1);
    let on_lines = || {
        let crops = crops.iter();
        crops.filter(|(before, _)| before.sites != SiteChoice::Anywhere)
    };
    let widest = on_lines().map(|(before, _)| wide(before)).max();
    let over = widest.unwrap_or(0).max(wide(want));
    let taken: i64 = on_lines().map(|(before, count)| wide(before) * i64::from(*count)).sum();
    let left = i64::from(lines) * (field.length.get() + over) - taken;
    u32::try_from(left.div_euclid(wide(want))).unwrap_or(0)
}

/// How many plants of the closer crop could stand in place of so many of the wider one, wherever in
/// the field these are.
fn replacements(wider: &Want, closer: &Want, field: &Field, lines: u32, count: u32) -> u32 {
    let reach = (wider.spacing - closer.spacing).get() / 2;
    if wider.spacing < closer.spacing {
        return 0;
    }
    // In a field too small for that, as where the spacings are alike, one for one.
    let roomy = field.length.get() >= 2 * reach
        && (closer.sites == SiteChoice::AlongLine || field.width.get() >= 2 * reach);
    let reach = if roomy { reach.max(0) as f64 } else { 0.0 };
    let step = (closer.spacing - TOLERANCE * 2).get().max(1) as f64;
    let (each, fewer, of) = match (closer.sites, wider.sites) {
        (SiteChoice::Anywhere, _) => (half_round(reach / step), quarter_round(reach / step), 4),
        // Both stand on the lines, and each line has two ends.
        (SiteChoice::AlongLine, SiteChoice::AlongLine | SiteChoice::Emitters) => {
            (whole(2.0 * reach / step) + 1, whole(reach / step) + 1, 2 * lines)
        }
        _ => return 0,
    };
    count * each - count.min(of) * each.saturating_sub(fewer)
}

/// How many points a step from each other lie in half a circle of this radius, in steps.
fn half_round(radius: f64) -> u32 {
    let on_row = |half: f64, between: bool| match between {
        false => 2 * whole(half) + 1,
        true => 2 * whole(half + 0.5),
    };
    on_lattice(radius, &on_row)
}

/// The same in a quarter of it.
fn quarter_round(radius: f64) -> u32 {
    let on_row = |half: f64, between: bool| match between {
        false => whole(half) + 1,
        true => whole(half + 0.5),
    };
    on_lattice(radius, &on_row)
}

/// The better of two triangular lattices: with a point in the middle, and with the middle between two.
fn on_lattice(radius: f64, on_row: &dyn Fn(f64, bool) -> u32) -> u32 {
    let height = 3_f64.sqrt() / 2.0;
    let count = |first_between: bool| {
        let mut count = 0;
        for row in 0..=whole(radius / height) {
            let up = f64::from(row) * height;
            let half = (radius * radius - up * up).max(0.0).sqrt();
            count += on_row(half, (row % 2 == 1) != first_between);
        }
        count
    };
    count(false).max(count(true))
}

/// The whole part, a hair to the safe side.
fn whole(steps: f64) -> u32 {
    // OK because the cast saturates, and no bed is a thousand steps long.
    (steps - 1e-9).floor().max(0.0) as u32
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::fill;
    use crate::layout::fixture::{drip_bed, known_bed, open_bed, want};

    /// The densest ways known to put points a step from each other into a circle need these radii
    /// for 2, 3, 7 and 19 of them: 1/2, 1/sqrt 3, 1, 1.9319 (R. L. Graham, B. D. Lubachevsky,
    /// K. J. Nurmela, P. R. J. Östergård, "Congruent circles packed in a circle", Discrete
    /// Mathematics 181, 1998, from memory). Half a circle holds no more.
    #[test]
    fn half_a_circle_holds_no_more_than_is_known_of_the_whole() {
        for (radius, most) in [(0.49, 1), (0.57, 2), (0.99, 5), (1.93, 18)] {
            assert!(half_round(radius) <= most, "{radius}");
        }
        assert_eq!([0.0, 0.51, 1.01].map(half_round), [1, 2, 5]);
        assert_eq!([0.0, 0.51, 1.01].map(quarter_round), [1, 1, 3]);
    }

    #[test]
    fn close_plants_beside_wide_ones_are_bounded_by_what_these_replace() {
        let bed = open_bed(96, 48);
        let cabbages = Want { on_hand: Some(6), ..want(18, SiteChoice::Anywhere, 3) };
        let onions = want(6, SiteChoice::Anywhere, 3);
        let request = Request::new(&bed, &[cabbages, onions], &[], Aim::InOrder).unwrap();
        let layout = fill(&request);
        // 148 alone with the tolerance; of six cabbages four may stand in corners, for three plants
        // each, and two at sides, for five.
        assert_eq!(layout.bound, 6 + 148 - 4 * 3 - 2 * 5);
        assert!(layout.counts[1] + 6 <= layout.bound);
    }

    #[test]
    fn along_lines_a_wide_plant_counts_for_a_row_of_close_ones() {
        let bed = known_bed();
        let cabbages = Want { on_hand: Some(12), ..want(18, SiteChoice::Emitters, 3) };
        let close = want(4, SiteChoice::AlongLine, 3);
        let request = Request::new(&bed, &[cabbages, close], &[], Aim::InOrder).unwrap();
        let layout = fill(&request);
        // Four lines of 23 less what replaces the cabbages, eight of them at ends, would be 60. Fewer
        // are left when each takes up its 18 in: 4 * (90 + 18) - 12 * 18 = 216 in, and a hair.
        assert_eq!(layout.bound, 12 + 216 / 4 + 1);
        assert!(layout.counts[1] + 12 <= layout.bound);
    }

    /// On one line each plant takes up its spacing, the two at the ends half of it: with wide plants
    /// at both ends the close ones have all that is left between.
    #[test]
    fn on_one_line_the_bound_is_what_fits_or_one_more() {
        for length in [30, 41, 64, 96] {
            for (wide, close) in [(8, 3), (9, 9), (12, 5), (18, 4), (24, 7)] {
                for count in 2..=(length / wide) {
                    let bed = drip_bed(length + 6, 12, 1, 9);
                    let first = Want {
                        on_hand: Some(count as u32),
                        ..want(wide, SiteChoice::AlongLine, 3)
                    };
                    let second = want(close, SiteChoice::AlongLine, 3);
                    let request = Request::new(&bed, &[first, second], &[], Aim::InOrder);
                    let layout = fill(&request.unwrap());
                    let fits = (length - (count - 1) * wide) / close;
                    let bound = i64::from(layout.bound) - count;
                    assert!(fits <= bound, "{length} {wide} {close} {count}: {fits} {bound}");
                    assert!(bound <= fits + 1, "{length} {wide} {close} {count}: {fits} {bound}");
                }
            }
        }
    }
}
