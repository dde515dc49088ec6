//! job/mod
