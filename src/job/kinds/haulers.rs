//! Trailer, and pickup or truck chassis.

use super::shape::{Drawing, Shape::*, boxed, disc, left, mid, pair, rect, right, tyres, whole};
use super::{Kind, Row, area, hazards::*, loose_panels};

pub(super) const TRAILER: Row = Row {
    kind: Kind {
        id: "trailer",
        name: "Trailer",
        length_m: 6.0,
        width_m: 2.3,
        height_m: 1.6,
        hazards: &[LOAD, TIPPED, BRAKES, MUCK],
        areas: &[],
    },
    areas: &[
        area(
            "drawbar",
            "Drawbar and jack",
            &["Jack wheel", "Chain", "Breakaway cable"],
            &["Towing eye or coupling and its bolts", "Jack thread", "Overrun brake slide"],
            &[
                Poly(&[
                    (4.0, 146.0),
                    (26.0, 140.0),
                    (64.0, 128.0),
                    (96.0, 128.0),
                    (96.0, 146.0),
                    (30.0, 158.0),
                    (4.0, 158.0),
                ]),
                rect(42.0, 154.0, 12.0, 44.0),
            ],
        )
        .on(1)
        .seen_from_above(0, &[Poly(&whole::<3, 6>([(4.0, 7.0), (22.0, 9.0), (84.0, 48.0)]))]),
        area(
            "headboard",
            "Headboard",
            &["Headboard", "Winch or rope hooks"],
            &["Latch faces", "Winch drum"],
            &[Poly(&[(60.0, 46.0), (72.0, 46.0), (76.0, 80.0), (104.0, 80.0), (104.0, 114.0), (60.0, 114.0)])],
        )
        .on(1)
        .seen_from_above(3, &[mid(62.0, 24.0, 58.0)]),
        area(
            "sides",
            "Side boards and posts",
            &["Side boards", "Posts", "Side markers"],
            &["Latch faces", "Decals", "Reflectors"],
            &[rect(104.0, 84.0, 206.0, 30.0)],
        )
        .seen_from_above(2, &pair(86.0, 244.0, 46.0, 58.0)),
        area(
            "deck",
            "Deck and rave",
            &["Deck boards", "Lashing rings"],
            &["Wood and rubber of the deck", "Identity plate"],
            &[rect(60.0, 114.0, 292.0, 25.0)],
        )
        .seen_from_above(1, &[mid(80.0, 264.0, 52.0)]),
        area(
            "frame",
            "Frame and cross members",
            &["Side guards", "Spare wheel", "Toolbox"],
            &["Identity plate", "Tipping cylinder rod"],
            &[Poly(&[(96.0, 139.0), (344.0, 139.0), (344.0, 150.0), (326.0, 164.0), (120.0, 164.0)])],
        ),
        area(
            "mudguards",
            "Mudguards",
            &["Mudguards", "Mud flaps", "Side markers"],
            &["Reflectors", "Plastic mudguards"],
            &[Poly(&[
                (156.0, 160.0),
                (170.0, 122.0),
                (308.0, 122.0),
                (322.0, 160.0),
                (307.0, 160.0),
                (298.0, 139.0),
                (180.0, 139.0),
                (171.0, 160.0),
            ])],
        )
        .on(3)
        .seen_from_above(0, &pair(160.0, 158.0, 56.0, 73.0)),
        area(
            "front-axle",
            "Front axle, springs and brakes",
            &["Hub caps"],
            &["Tyres", "Brake drums and shoes", "Brake adjuster threads", "Wheel nut seats and threads"],
            &[disc(206.0, 171.0, 28.0)],
        )
        .on(2),
        area(
            "rear-axle",
            "Rear axle, springs and brakes",
            &["Hub caps"],
            &["Tyres", "Brake drums and shoes", "Brake adjuster threads", "Wheel nut seats and threads"],
            &[disc(272.0, 171.0, 28.0)],
        )
        .on(2),
        area(
            "tailboard",
            "Tailboard and ramps",
            &["Tailboard", "Ramps", "Ramp springs"],
            &["Latch faces", "Hinge pins' bearing faces", "Ramp treads"],
            &[Poly(&[(310.0, 84.0), (342.0, 80.0), (352.0, 84.0), (352.0, 114.0), (310.0, 114.0)])],
        )
        .on(1)
        .seen_from_above(3, &[mid(328.0, 24.0, 58.0)]),
        area(
            "tail-lamps",
            "Tail lamps and lamp bar",
            &["Tail lamps", "Plate lamp", "Reflectors"],
            &["Lamp lenses", "Reflectors", "Mating faces of open plugs"],
            &[rect(324.0, 139.0, 32.0, 28.0)],
        )
        .on(2)
        .seen_from_above(0, &pair(332.0, 24.0, 48.0, 70.0)),
        area(
            "underside",
            "Underside of the deck",
            &["Splash plates"],
            &["Wood of the deck", "Tipping cylinder rod", "Grease nipples"],
            &[boxed(6.0, 110.0)],
        ),
        area(
            "lines",
            "Brake lines and wiring",
            &["Cable clips", "Plug holder"],
            &["Brake hoses", "Air tank drain", "Mating faces of couplings and plugs"],
            &[boxed(125.0, 110.0)],
        )
        .seen_from_above(1, &[mid(28.0, 34.0, 12.0)]),
        loose_panels(&[boxed(244.0, 110.0)]),
    ],
    drawing: Drawing::new(
        &[
            disc(206.0, 171.0, 10.0),
            disc(272.0, 171.0, 10.0),
            Line(&[(155.0, 84.0), (155.0, 114.0)]),
            Line(&[(207.0, 84.0), (207.0, 114.0)]),
            Line(&[(259.0, 84.0), (259.0, 114.0)]),
            rect(336.0, 147.0, 14.0, 11.0),
        ],
        &[
            Line(&[(86.0, 72.0), (328.0, 72.0)]),
            Line(&[(86.0, 86.0), (328.0, 86.0)]),
            Line(&[(86.0, 100.0), (328.0, 100.0)]),
            Line(&[(86.0, 114.0), (328.0, 114.0)]),
            Line(&[(86.0, 128.0), (328.0, 128.0)]),
            Line(&[(206.0, 29.0), (206.0, 42.0)]),
            Line(&[(272.0, 29.0), (272.0, 42.0)]),
            Line(&[(206.0, 158.0), (206.0, 171.0)]),
            Line(&[(272.0, 158.0), (272.0, 171.0)]),
            Line(&[(36.0, 94.0), (54.0, 94.0)]),
            Line(&[(36.0, 106.0), (54.0, 106.0)]),
        ],
    ),
};

pub(super) const PICKUP: Row = Row {
    kind: Kind {
        id: "pickup-chassis",
        name: "Pickup or truck chassis",
        length_m: 5.3,
        width_m: 1.9,
        height_m: 1.9,
        hazards: &[FUEL, AIRBAG, SPRINGS, BRAKES, LOAD],
        areas: &[],
    },
    areas: &[
        area(
            "front",
            "Bumper and grille",
            &["Bumper", "Grille", "Front lamps", "Plate holder"],
            &["Lamp lenses", "Camera and radar covers", "Radiator fins unless the sheet says yes"],
            &[Poly(&[(6.0, 124.0), (14.0, 110.0), (38.0, 106.0), (38.0, 162.0), (12.0, 162.0), (6.0, 154.0)])],
        )
        .on(1)
        .seen_from_above(1, &[Poly(&whole::<3, 6>([(6.0, 44.0), (16.0, 58.0), (38.0, 58.0)]))]),
        area(
            "engine",
            "Engine bay",
            &["Bonnet", "Splash guards", "Engine cover"],
            &["Exhaust and turbo", "Belts", "Air filter", "Brake fluid tank", "Breathers"],
            &[Poly(&[(38.0, 106.0), (112.0, 98.0), (112.0, 150.0), (38.0, 150.0)])],
        )
        .seen_from_above(1, &[mid(38.0, 76.0, 56.0)]),
        area(
            "front-axle",
            "Front axle, springs and brakes",
            &["Wheel arch liners", "Hub caps"],
            &["Tyres", "Brake discs and pads", "Steering joints", "Wheel nut seats and threads"],
            &[disc(76.0, 165.0, 34.0)],
        )
        .on(2)
        .seen_from_above(0, &tyres(44.0, 66.0, 44.0, 64.0)),
        area(
            "cab-outside",
            "Cab outside and sills",
            &["Mirrors", "Wipers", "Step bars", "Door rubbers", "Trim"],
            &["Glass", "Steps and handholds", "Decals", "Locks"],
            &[Poly(&[(112.0, 150.0), (112.0, 98.0), (138.0, 58.0), (202.0, 58.0), (208.0, 98.0), (208.0, 150.0)])],
        )
        .seen_from_above(2, &[mid(112.0, 96.0, 58.0), right(124.0, 10.0, 58.0, 68.0), left(124.0, 10.0, 58.0, 68.0)]),
        area(
            "frame-front",
            "Frame, front and middle",
            &["Guard plates", "Body mount covers"],
            &["Identity plate", "Brake lines' unions", "Breathers"],
            &[rect(104.0, 150.0, 104.0, 25.0)],
        ),
        area(
            "bed",
            "Load bed or body",
            &["Tailgate", "Bed liner", "Stake posts"],
            &["Latch faces", "Decals", "Lashing rings"],
            &[Poly(&[(212.0, 92.0), (352.0, 92.0), (352.0, 128.0), (212.0, 128.0)])],
        )
        .seen_from_above(1, &[mid(212.0, 132.0, 58.0)]),
        area(
            "frame-rear",
            "Frame, rear",
            &["Spare wheel", "Cable clips", "Bed bolts"],
            &["Brake lines' unions", "Load sensing valve", "Towing fixings"],
            &[Poly(&[
                (208.0, 128.0),
                (346.0, 128.0),
                (346.0, 152.0),
                (244.0, 152.0),
                (232.0, 160.0),
                (208.0, 160.0),
            ])],
        ),
        area(
            "tank",
            "Fuel tank and guards",
            &["Tank guard", "Filler guard"],
            &["Fuel cap and vent", "Fuel lines", "Straps' rubber"],
            &[Rect { x: 208.0, y: 154.0, w: 40.0, h: 28.0, r: 5.0 }],
        )
        .on(1),
        area(
            "rear-axle",
            "Rear axle, springs and brakes",
            &["Mudguards", "Hub caps"],
            &["Tyres", "Brake discs, drums, pads", "Driveline bolts", "Wheel nut seats and threads"],
            &[disc(284.0, 165.0, 34.0)],
        )
        .on(2)
        .seen_from_above(0, &tyres(250.0, 68.0, 44.0, 64.0)),
        area(
            "hitch",
            "Hitch and tail lamps",
            &["Tail lamps", "Rear bumper", "Trailer socket"],
            &["Towing ball and its fixings", "Lamp lenses", "Mating faces of open plugs"],
            &[Poly(&[(322.0, 128.0), (356.0, 128.0), (356.0, 162.0), (322.0, 162.0)])],
        )
        .on(1)
        .seen_from_above(0, &[mid(330.0, 27.0, 54.0)]),
        area(
            "driveline",
            "Driveline and exhaust",
            &["Heat shields", "Guard plate"],
            &["Exhaust and particle filter", "Driveline bolts", "Sensors"],
            &[boxed(6.0, 82.0)],
        ),
        area(
            "cab-inside",
            "Cab inside",
            &["Floor mats", "Sill trims"],
            &["Seats, wheel, controls, seat belts", "Pedals", "Airbags"],
            &[boxed(95.0, 82.0)],
        ),
        area(
            "electrics",
            "Battery and electrics",
            &["Battery", "Battery tray", "Fuse box lid"],
            &["Open relays and switches", "Mating faces of open plugs", "Battery poles"],
            &[boxed(184.0, 82.0)],
        )
        .seen_from_above(2, &[right(76.0, 30.0, 24.0, 50.0)]),
        loose_panels(&[boxed(273.0, 82.0)]),
    ],
    drawing: Drawing::new(
        &[
            Poly(&[(126.0, 98.0), (144.0, 67.0), (166.0, 67.0), (166.0, 98.0)]),
            Poly(&[(174.0, 98.0), (174.0, 67.0), (195.0, 67.0), (200.0, 98.0)]),
            Line(&[(170.0, 98.0), (170.0, 150.0)]),
            Line(&[(176.0, 110.0), (186.0, 110.0)]),
            disc(76.0, 165.0, 14.0),
            disc(284.0, 165.0, 14.0),
            disc(24.0, 122.0, 7.0),
            Line(&[(258.0, 92.0), (258.0, 128.0)]),
            Line(&[(305.0, 92.0), (305.0, 128.0)]),
        ],
        &[
            Line(&[(22.0, 66.0), (22.0, 134.0)]),
            Line(&[(30.0, 66.0), (30.0, 134.0)]),
            Poly(&whole::<2, 4>([(118.0, 52.0), (140.0, 44.0)])),
            Line(&[(140.0, 56.0), (196.0, 56.0), (196.0, 144.0), (140.0, 144.0)]),
            Line(&[(222.0, 52.0), (334.0, 52.0), (334.0, 148.0), (222.0, 148.0), (222.0, 52.0)]),
            Line(&[(222.0, 76.0), (334.0, 76.0)]),
            Line(&[(222.0, 100.0), (334.0, 100.0)]),
            Line(&[(222.0, 124.0), (334.0, 124.0)]),
            disc(85.0, 63.0, 3.0),
            disc(97.0, 63.0, 3.0),
            Line(&[(46.0, 116.0), (104.0, 116.0)]),
            Line(&[(46.0, 84.0), (104.0, 84.0)]),
            disc(350.5, 53.0, 3.0),
            disc(350.5, 147.0, 3.0),
        ],
    ),
};
