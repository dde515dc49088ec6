//! The walk in real browsers, driven through W3C WebDriver.
fn main() {}
