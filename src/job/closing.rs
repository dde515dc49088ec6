//! What is still open when a job is to be closed.
//!
//! May use: the job. Must not: decide that something may stay open; the user does, with a reason each.

use super::entry::Covering;
use super::fold::Job;
use super::stage::Stage;

/// Everything still open, in words, one line each. Aftercare goes on after the close and is not asked for.
pub fn open_points(job: &Job) -> Vec<String> {
    let stages = Stage::ALL.into_iter().filter(|s| *s != Stage::Aftercare).filter_map(|s| {
        let n = job.count(s).open;
        (n > 0).then(|| format!("{} on {n} {}", s.title(), if n == 1 { "area" } else { "areas" }))
    });
    let bags = job.bags_to_go_back().into_iter().map(|b| format!("bag {} ({}) still full", b.number, b.part));
    let covers = Covering::ALL.into_iter().filter_map(|c| {
        let n = job.covers_on(c);
        (n > 0).then(|| format!("{} still on: {n}", c.title().to_ascii_lowercase()))
    });
    stages.chain(bags).chain(covers).collect()
}
