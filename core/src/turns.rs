//! Long reckonings in turns, so that a page can breathe between them.
//!
//! What may take long is an `async fn` that says to its [`Pace`] how much it has done; once the work
//! of one turn is done it waits there until the next. However the work is cut into turns, what comes
//! out is the same. No clock and no thread: whoever wants the result asks for turn after turn.

use std::{
    cell::Cell,
    fmt,
    future::Future,
    pin::{Pin, pin},
    rc::Rc,
    task::{Context, Poll, Waker},
};

/// How much may still be done in this turn.
#[derive(Debug, Default)]
pub struct Pace {
    left: Cell<u64>,
}

impl Pace {
    /// Says that so many steps were done, and waits for the next turn when those of this one are.
    ///
    /// A step is some nanoseconds on a desk computer: a state made or compared by a search.
    pub(crate) fn did(&self, steps: u64) -> Breath<'_> {
        self.left.set(self.left.get().saturating_sub(steps));
        Breath { pace: self, taken: false }
    }
}

/// Ready at once while there are steps left, else in the next turn.
pub(crate) struct Breath<'a> {
    pace: &'a Pace,
    taken: bool,
}

impl Future for Breath<'_> {
    type Output = ();

    fn poll(mut self: Pin<&mut Self>, _: &mut Context<'_>) -> Poll<()> {
        if self.taken || self.pace.left.get() > 0 {
            return Poll::Ready(());
        }
        self.taken = true;
        Poll::Pending
    }
}

/// A reckoning that is not at its end yet.
pub struct Turns<T> {
    pace: Rc<Pace>,
    work: Pin<Box<dyn Future<Output = T>>>,
}

impl<T> Turns<T> {
    /// Work that has not begun.
    pub fn new(work: impl AsyncFnOnce(&Pace) -> T + 'static) -> Self {
        let pace = Rc::new(Pace::default());
        let own = Rc::clone(&pace);
        Self { work: Box::pin(async move { work(&own).await }), pace }
    }

    /// Works on for about so many steps; what came out, if that is the end of it.
    ///
    /// Must not be called again after the end.
    pub fn turn(&mut self, steps: u64) -> Option<T> {
        self.pace.left.set(steps.max(1));
        poll(self.work.as_mut())
    }
}

impl<T> fmt::Debug for Turns<T> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("Turns")
    }
}

/// All of the work in one turn.
pub(crate) fn at_once<T>(work: impl AsyncFnOnce(&Pace) -> T) -> T {
    let pace = Pace::default();
    let mut work = pin!(work(&pace));
    loop {
        pace.left.set(u64::MAX);
        if let Some(done) = poll(work.as_mut()) {
            return done;
        }
    }
}

fn poll<T>(work: Pin<&mut dyn Future<Output = T>>) -> Option<T> {
    // Nothing here waits for anything but its turn, so that nobody needs to be woken.
    match work.poll(&mut Context::from_waker(Waker::noop())) {
        Poll::Ready(done) => Some(done),
        Poll::Pending => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    async fn count(to: u64, pace: &Pace) -> u64 {
        let mut counted = 0;
        while counted < to {
            counted += 1;
            pace.did(1).await;
        }
        counted
    }

    #[test]
    fn work_is_cut_where_a_turn_ends() {
        let mut turns = Turns::new(async |pace: &Pace| count(10, pace).await);
        assert_eq!([4, 4].map(|steps| turns.turn(steps)), [None, None]);
        assert_eq!(turns.turn(4), Some(10));
        assert_eq!(at_once(async |pace: &Pace| count(10, pace).await), 10);
    }

    #[test]
    fn a_turn_of_no_steps_still_gets_on() {
        let mut turns = Turns::new(async |pace: &Pace| count(3, pace).await);
        let waits = (0..9).take_while(|_| turns.turn(0).is_none()).count();
        assert_eq!(waits, 3);
    }
}
