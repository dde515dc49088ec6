//! Joints that get no figure from here.

/// What a bolt or nut holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs)] // the names say it
pub enum Joint {
    Panel,
    WheelNut,
    Rops,
    Brake,
    Steering,
    Driveline,
    SeatBelt,
    Towing,
    Threadlocked,
    PrevailingTorque,
    FrictionGrip,
    SplitPin,
    TabWasher,
    OneUseNut,
}

/// Why a joint gets no figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// Lives hang on it: the machine's manual only.
    ManualOnly(Joint),
    /// Film changes how it holds: the machine's manual only, threads clean and dry.
    FilmSpoilsIt(Joint),
    /// It is used once: a new one goes in.
    Replace(Joint),
}

impl Joint {
    /// Every kind, as a list shows them.
    pub const ALL: [Joint; 14] = [
        Joint::Panel,
        Joint::WheelNut,
        Joint::Rops,
        Joint::Brake,
        Joint::Steering,
        Joint::Driveline,
        Joint::SeatBelt,
        Joint::Towing,
        Joint::Threadlocked,
        Joint::PrevailingTorque,
        Joint::FrictionGrip,
        Joint::SplitPin,
        Joint::TabWasher,
        Joint::OneUseNut,
    ];

    /// What a list calls it.
    pub fn name(self) -> &'static str {
        match self {
            Joint::Panel => "plain panel fixing",
            Joint::WheelNut => "wheel nuts",
            Joint::Rops => "roll-over frame",
            Joint::Brake => "brake",
            Joint::Steering => "steering",
            Joint::Driveline => "driveline",
            Joint::SeatBelt => "seat belt",
            Joint::Towing => "towing and hitch",
            Joint::Threadlocked => "threadlocked",
            Joint::PrevailingTorque => "self-locking nut",
            Joint::FrictionGrip => "friction-grip bolt",
            Joint::SplitPin => "split pin",
            Joint::TabWasher => "tab washer",
            Joint::OneUseNut => "one-use nut",
        }
    }

    /// Why it gets no figure; none for plain panel fixings.
    ///
    /// ```
    /// use coatwalk::sums::thread::{Joint, Refusal};
    /// assert_eq!(Joint::Panel.refusal(), None);
    /// assert_eq!(Joint::SplitPin.refusal(), Some(Refusal::Replace(Joint::SplitPin)));
    /// ```
    pub fn refusal(self) -> Option<Refusal> {
        match self {
            Joint::Panel => None,
            Joint::WheelNut
            | Joint::Rops
            | Joint::Brake
            | Joint::Steering
            | Joint::Driveline
            | Joint::SeatBelt
            | Joint::Towing => Some(Refusal::ManualOnly(self)),
            Joint::Threadlocked | Joint::PrevailingTorque | Joint::FrictionGrip => Some(Refusal::FilmSpoilsIt(self)),
            Joint::SplitPin | Joint::TabWasher | Joint::OneUseNut => Some(Refusal::Replace(self)),
        }
    }
}

impl Refusal {
    /// The joint.
    pub fn joint(self) -> Joint {
        match self {
            Refusal::ManualOnly(j) | Refusal::FilmSpoilsIt(j) | Refusal::Replace(j) => j,
        }
    }

    /// The reason, in words for the screen.
    pub fn words(self) -> &'static str {
        match self.joint() {
            Joint::Panel => "a plain panel fixing",
            Joint::WheelNut => "wheel nuts: threads and seats stay bare; the machine's manual only",
            Joint::Rops => "roll-over frame: the machine's manual only",
            Joint::Brake => "brakes: the machine's manual only",
            Joint::Steering => "steering: the machine's manual only",
            Joint::Driveline => "driveline: the machine's manual only",
            Joint::SeatBelt => "seat belts: the machine's manual only",
            Joint::Towing => "towing and hitch: the machine's manual only",
            Joint::Threadlocked => "threadlocker needs clean dry threads: the machine's manual only",
            Joint::PrevailingTorque => "self-locking nut: film changes its drag; the machine's manual only",
            Joint::FrictionGrip => "friction-grip bolt: film lets it slip; the machine's manual only",
            Joint::SplitPin => "a split pin is used once: fit a new one",
            Joint::TabWasher => "a tab washer is used once: fit a new one",
            Joint::OneUseNut => "this nut is used once: fit a new one",
        }
    }
}
