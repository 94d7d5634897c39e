//! What can be asked, a folder each.
//!
//! | file | what it has |
//! |---|---|
//! | `mod` | what is answered and on which model, and `answer` |
//! | `question` | the fields, and how they are read |
//! | `answer` | the typed numbers |
//! | `words` | what is told |
//! | the others | the topic's own models |

pub mod plants_per_bed;
pub mod spacing_for_count;
