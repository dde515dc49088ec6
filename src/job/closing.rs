//! What is still open when a job is to be closed.
//!
//! May use: the job. Must not: decide that something may stay open; the user does, with a reason each.

use super::entry::Covering;
use super::fold::Job;
use super::stage::Stage;
use super::stretch;

/// The points of Refit that make up the function check.
pub const FUNCTION_CHECK: [&str; 3] = ["refit-brakes", "refit-lamps", "refit-leaks"];

/// How many points of the function check are not ticked.
pub fn function_check_open(job: &Job) -> usize {
    FUNCTION_CHECK.iter().filter(|id| !job.ticks.contains(&(Stage::Refit, (**id).to_owned()))).count()
}

/// Everything still open, in words, one line each. Aftercare goes on after the close and is not asked for.
pub fn open_points(job: &Job) -> Vec<String> {
    let stages = Stage::ALL.into_iter().filter(|s| *s != Stage::Aftercare).filter_map(|s| {
        let n = job.count(s).open;
        (n > 0).then(|| format!("{} on {n} {}", s.title(), if n == 1 { "area" } else { "areas" }))
    });
    let bags = job.bags_to_go_back().into_iter().map(|b| format!("{} not back", b.words()));
    let covers = Covering::ALL.into_iter().filter_map(|c| {
        let n = job.covers_on(c);
        (n > 0).then(|| format!("{} still on: {n}", c.title().to_ascii_lowercase()))
    });
    let plugs = job.bags.iter().filter_map(|b| match b.plugs_open() {
        0 => None,
        n => Some(format!("plugs still open at {}: {n}", b.part)),
    });
    let soap = stretch::open(job).map(|s| format!("soap still on: {}", s.words(job)));
    let found = job.found.iter().filter(|f| f.dealt.is_none());
    let found = found.map(|f| format!("not dealt with: {} on {}", f.words(), job.area_name(f.area)));
    let check = match function_check_open(job) {
        0 => None,
        n => Some(format!("function check: {n} of {} points not ticked", FUNCTION_CHECK.len())),
    };
    stages.chain(bags).chain(covers).chain(plugs).chain(soap).chain(found).chain(check).collect()
}
