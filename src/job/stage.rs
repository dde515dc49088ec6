//! The fifteen stages of the job, in order, and how each is worked.
//!
//! May use: nothing. Must not: know a job, a screen or a clock. What to do in a stage stands in [`super::guide`].

/// One stage of the job. The order of the variants is the order of the work.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Stage {
    /// Walk round, photograph, note what is found.
    Survey,
    /// Parts come off, fasteners into bags.
    TakeOff,
    /// Battery isolated, openings bagged and taped before any water.
    Cover,
    /// Coarse rinse, surplus grease out with rags.
    Wipe,
    /// Shipping wax off with hot water.
    Dewax,
    /// Degreaser on, brushed and rinsed, stretch by stretch.
    Degrease,
    /// Neutralising rinse over everything.
    Neutralise,
    /// Blown out, warmed, left, looked at.
    Dry,
    /// Loose rust off, primed, nipples greased, sparks ended.
    Mend,
    /// Glass, rods and the keep-bare list covered against the film.
    Mask,
    /// Film into fasteners, fittings, seams.
    FirstPass,
    /// Film over everything.
    SecondPass,
    /// Solvent leaves; paper off at touch-dry; the wait before refit.
    AirOut,
    /// Parts back without tearing the film, then the function check.
    Refit,
    /// What to do in the weeks and months after.
    Aftercare,
}

/// How a stage is worked: over the whole machine at once, or area by area.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Scope {
    /// One tap for all, with exceptions.
    Whole,
    /// Each area on its own.
    ByArea,
}

impl Stage {
    /// All stages in the order of the work.
    pub const ALL: [Stage; 15] = [
        Stage::Survey,
        Stage::TakeOff,
        Stage::Cover,
        Stage::Wipe,
        Stage::Dewax,
        Stage::Degrease,
        Stage::Neutralise,
        Stage::Dry,
        Stage::Mend,
        Stage::Mask,
        Stage::FirstPass,
        Stage::SecondPass,
        Stage::AirOut,
        Stage::Refit,
        Stage::Aftercare,
    ];

    /// Its place in the order, from 1.
    pub fn number(self) -> u8 {
        self as u8 + 1
    }

    /// Its place in [`Stage::ALL`], from 0.
    pub fn index(self) -> usize {
        self as usize
    }

    /// The stage after this one, if there is one.
    pub fn next(self) -> Option<Stage> {
        Stage::ALL.get(self.index() + 1).copied()
    }

    /// Whole machine at once, or area by area (trade practice; common practice, no source).
    pub fn scope(self) -> Scope {
        use Stage::*;
        match self {
            Cover | Wipe | Neutralise | Dry | AirOut => Scope::Whole,
            Survey | TakeOff | Dewax | Degrease | Mend | Mask | FirstPass | SecondPass | Refit | Aftercare => {
                Scope::ByArea
            }
        }
    }

    /// One entry for many areas: the whole-machine stages, and the passes, which are read outside the spray zone and
    /// logged once, outside, afterwards.
    pub fn one_entry(self) -> bool {
        self.scope() == Scope::Whole || matches!(self, Stage::FirstPass | Stage::SecondPass)
    }

    /// The name on the screen.
    pub fn title(self) -> &'static str {
        use Stage::*;
        match self {
            Survey => "Survey",
            TakeOff => "Take off",
            Cover => "Cover",
            Wipe => "Wipe",
            Dewax => "Dewax",
            Degrease => "Degrease",
            Neutralise => "Neutralise",
            Dry => "Dry",
            Mend => "Mend",
            Mask => "Mask",
            FirstPass => "First pass",
            SecondPass => "Second pass",
            AirOut => "Air out",
            Refit => "Refit",
            Aftercare => "Aftercare",
        }
    }

    /// The name in an address (`#/stage/take-off`).
    pub fn slug(self) -> &'static str {
        use Stage::*;
        match self {
            Survey => "survey",
            TakeOff => "take-off",
            Cover => "cover",
            Wipe => "wipe",
            Dewax => "dewax",
            Degrease => "degrease",
            Neutralise => "neutralise",
            Dry => "dry",
            Mend => "mend",
            Mask => "mask",
            FirstPass => "first-pass",
            SecondPass => "second-pass",
            AirOut => "air-out",
            Refit => "refit",
            Aftercare => "aftercare",
        }
    }

    /// The stage with this [`slug`](Stage::slug).
    pub fn from_slug(slug: &str) -> Option<Stage> {
        Stage::ALL.into_iter().find(|s| s.slug() == slug)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_stage_is_in_its_place_and_its_slug_leads_back() {
        for (i, s) in Stage::ALL.into_iter().enumerate() {
            assert_eq!(s.index(), i);
            assert_eq!(Stage::from_slug(s.slug()), Some(s));
        }
        assert_eq!(Stage::Aftercare.next(), None);
    }
}
