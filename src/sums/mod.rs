//! sums/mod
