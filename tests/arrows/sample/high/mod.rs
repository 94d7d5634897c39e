mod inner;
mod other;

pub use inner::Roof;
pub(crate) use super::low::Stone as Brick;
