use crate::low::*;

pub fn named<T>() -> Pebble {
    Pebble
}
