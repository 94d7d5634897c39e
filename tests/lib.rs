//! Checks against outside sources.
