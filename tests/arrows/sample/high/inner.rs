use super::{Brick, other};

pub struct Roof;

pub fn beam() -> String {
    format!("{}", other::named::<Brick>())
}
