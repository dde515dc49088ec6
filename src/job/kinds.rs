//! kinds
