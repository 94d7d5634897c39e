pub struct Stone;
pub struct Pebble;

pub fn upward() -> crate::high::Roof {
    crate::high::Roof
}

macro_rules! build {
    () => {
        $crate::high::inner::beam()
    };
}

#[cfg(test)]
mod tests {
    use crate::high::{Roof, other};
}
