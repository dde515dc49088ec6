//! Machines with lift arms and a bucket: compact wheel loader, skid steer.

use super::shape::{Drawing, Shape::*, boxed, disc, left, mid, pair, rect, right, tread, tyres, whole};
use super::{Kind, Row, area, hazards::*, loose_panels};

pub(super) const WHEEL_LOADER: Row = Row {
    kind: Kind {
        id: "compact-wheel-loader",
        name: "Compact wheel loader",
        length_m: 5.0,
        width_m: 1.75,
        height_m: 2.5,
        hazards: &[JOINT, ARMS, MUCK, BRAKES, LOAD],
        areas: &[],
    },
    areas: &[
        area(
            "bucket",
            "Bucket and coupler",
            &["Bucket", "Cutting edge", "Coupler hose guards"],
            &["Working faces of coupler pins", "Mating faces of quick couplings"],
            &[Poly(&[(8.0, 198.0), (74.0, 198.0), (84.0, 184.0), (80.0, 144.0), (64.0, 136.0), (54.0, 168.0)])],
        )
        .on(3)
        .seen_from_above(3, &[Poly(&whole::<3, 6>([(8.0, 63.0), (72.0, 63.0), (84.0, 48.0)]))]),
        area(
            "arms",
            "Loader arms and cylinders",
            &["Hose guards", "Work lamps on the arms"],
            &["Cylinder rods", "Grease nipples", "Bearing faces of pins"],
            &[Poly(&[
                (72.0, 152.0),
                (92.0, 112.0),
                (150.0, 68.0),
                (168.0, 82.0),
                (108.0, 130.0),
                (92.0, 166.0),
                (78.0, 168.0),
            ])],
        )
        .on(2)
        .seen_from_above(4, &[mid(76.0, 52.0, 8.0), right(70.0, 100.0, 20.0, 34.0), left(70.0, 100.0, 20.0, 34.0)]),
        area(
            "front-frame",
            "Front frame",
            &["Front mudguards", "Valve cover plate", "Front lamps"],
            &["Identity plate", "Mating faces of open plugs"],
            &[Poly(&[(108.0, 150.0), (146.0, 62.0), (172.0, 62.0), (174.0, 150.0)])],
        )
        .on(1)
        .seen_from_above(1, &[mid(104.0, 70.0, 26.0)]),
        area(
            "front-axle",
            "Front axle and hubs",
            &["Hub caps"],
            &["Tyres", "Brake parts", "Wheel nut seats and threads"],
            &[disc(122.0, 163.0, 36.0)],
        )
        .on(4)
        .seen_from_above(0, &tyres(86.0, 72.0, 36.0, 61.0)),
        area(
            "joint",
            "Centre joint and hoses",
            &["Hose clamps", "Joint cover"],
            &["Soft hoses where the sheet says no", "Steering cylinder rod", "Grease nipples"],
            &[rect(162.0, 122.0, 34.0, 38.0)],
        )
        .on(2)
        .seen_from_above(2, &[mid(162.0, 34.0, 14.0)]),
        area(
            "underside",
            "Underside and driveline",
            &["Belly plates"],
            &["Parking brake parts", "Driveline bolts", "Breathers"],
            &[rect(158.0, 162.0, 68.0, 24.0)],
        ),
        area(
            "cab-outside",
            "Cab outside",
            &["Mirrors", "Lamps", "Wipers", "Door", "Plastic mudguards", "Rubber strips"],
            &["Glass", "Camera covers", "Steps and handholds", "ROPS bolts", "Decals"],
            &[Poly(&[(182.0, 118.0), (190.0, 34.0), (250.0, 34.0), (260.0, 118.0)])],
        )
        .on(2)
        .seen_from_above(4, &[mid(184.0, 72.0, 38.0), left(188.0, 32.0, 38.0, 58.0)]),
        area(
            "rear-axle",
            "Rear axle and hubs",
            &["Rear mudguards", "Hub caps"],
            &["Tyres", "Brake parts", "Wheel nut seats and threads"],
            &[disc(262.0, 163.0, 36.0)],
        )
        .on(4)
        .seen_from_above(0, &tyres(226.0, 72.0, 36.0, 61.0)),
        area(
            "engine",
            "Engine bay and covers",
            &["Side covers", "Bonnet"],
            &["Exhaust and turbo", "Belts", "Air filter", "Breathers", "Particle filter"],
            &[Poly(&[(256.0, 90.0), (306.0, 94.0), (306.0, 152.0), (196.0, 152.0), (196.0, 118.0), (256.0, 118.0)])],
        )
        .on(1)
        .seen_from_above(2, &[mid(250.0, 56.0, 32.0)]),
        area(
            "radiator",
            "Radiator and fan",
            &["Grille", "Fan guard"],
            &["Radiator fins unless the sheet says yes", "Fan belt"],
            &[Poly(&[(306.0, 94.0), (340.0, 102.0), (340.0, 132.0), (306.0, 132.0)])],
        )
        .on(1)
        .seen_from_above(2, &[mid(306.0, 32.0, 32.0)]),
        area(
            "counterweight",
            "Counterweight and tail",
            &["Tail lamps", "Plate holder"],
            &["Towing pin and its hole", "Lamp lenses", "Decals"],
            &[Poly(&[(300.0, 132.0), (350.0, 132.0), (350.0, 160.0), (340.0, 174.0), (296.0, 174.0)])],
        )
        .on(2)
        .seen_from_above(1, &[Poly(&whole::<3, 6>([(300.0, 52.0), (338.0, 52.0), (350.0, 40.0)]))]),
        area(
            "cab-inside",
            "Cab inside",
            &["Floor mat", "Seat", "Floor plate"],
            &["Seat, wheel, controls, seat belt", "Pedals", "Glass"],
            &[boxed(6.0, 110.0)],
        ),
        area(
            "electrics",
            "Battery and electrics",
            &["Battery", "Battery box lid", "Fuse box lid"],
            &["Open relays and switches", "Mating faces of open plugs", "Battery poles"],
            &[boxed(125.0, 110.0)],
        )
        .seen_from_above(1, &[right(186.0, 36.0, 34.0, 60.0)]),
        loose_panels(&[boxed(244.0, 110.0)]),
    ],
    drawing: Drawing::new(
        &[
            Poly(&[(193.0, 82.0), (197.0, 42.0), (218.0, 42.0), (218.0, 82.0)]),
            Poly(&[(225.0, 82.0), (225.0, 42.0), (244.0, 42.0), (249.0, 82.0)]),
            disc(122.0, 163.0, 13.0),
            disc(262.0, 163.0, 13.0),
            Line(&[(313.0, 105.0), (333.0, 109.0)]),
            Line(&[(313.0, 114.0), (333.0, 116.0)]),
            Line(&[(313.0, 123.0), (333.0, 123.0)]),
        ],
        &[
            Line(&[(18.0, 37.0), (18.0, 163.0)]),
            Line(&[(66.0, 37.0), (66.0, 163.0)]),
            Line(&tread::<9>(93.0, 7.0, 45.0, 58.0)),
            Line(&tread::<9>(93.0, 7.0, 142.0, 155.0)),
            Line(&tread::<9>(233.0, 7.0, 45.0, 56.0)),
            Line(&tread::<9>(233.0, 7.0, 144.0, 155.0)),
            Line(&[(192.0, 62.0), (192.0, 138.0)]),
            Line(&[(202.0, 72.0), (246.0, 72.0), (246.0, 128.0), (202.0, 128.0), (202.0, 72.0)]),
            Line(&[(194.0, 148.0), (214.0, 148.0)]),
            disc(274.0, 82.0, 6.0),
            Line(&[(290.0, 68.0), (290.0, 132.0)]),
            Line(&[(316.0, 78.0), (316.0, 122.0)]),
            Line(&[(324.0, 78.0), (324.0, 122.0)]),
            Line(&[(332.0, 78.0), (332.0, 122.0)]),
            disc(198.0, 53.0, 3.5),
            disc(211.0, 53.0, 3.5),
        ],
    ),
};

pub(super) const SKID_STEER: Row = Row {
    kind: Kind {
        id: "skid-steer",
        name: "Skid steer",
        length_m: 3.5,
        width_m: 1.75,
        height_m: 2.0,
        hazards: &[ARMS, MUCK, LOAD],
        areas: &[],
    },
    areas: &[
        area(
            "bucket",
            "Bucket or tool",
            &["Bucket", "Cutting edge"],
            &["Working faces of coupler pins"],
            &[Poly(&[(8.0, 198.0), (74.0, 198.0), (84.0, 184.0), (80.0, 144.0), (62.0, 136.0), (52.0, 168.0)])],
        )
        .on(3)
        .seen_from_above(3, &[Poly(&whole::<3, 6>([(8.0, 86.0), (72.0, 86.0), (84.0, 74.0)]))]),
        area(
            "coupler",
            "Coupler and tilt cylinders",
            &["Hose guards", "Coupler levers"],
            &["Cylinder rods", "Mating faces of quick couplings", "Grease nipples"],
            &[Poly(&[(78.0, 142.0), (104.0, 136.0), (110.0, 150.0), (108.0, 190.0), (84.0, 190.0), (86.0, 176.0)])],
        )
        .on(4)
        .seen_from_above(2, &[mid(80.0, 30.0, 40.0)]),
        area(
            "arms",
            "Lift arms",
            &["Hose clamps", "Work lamps"],
            &["Cylinder rods", "Bearing faces of pins", "Arm lock pins"],
            &[Poly(&[
                (296.0, 54.0),
                (126.0, 84.0),
                (100.0, 108.0),
                (84.0, 146.0),
                (102.0, 154.0),
                (116.0, 120.0),
                (134.0, 104.0),
                (302.0, 78.0),
            ])],
        )
        .on(5)
        .seen_from_above(5, &[right(88.0, 214.0, 44.0, 60.0), left(88.0, 214.0, 44.0, 60.0)]),
        area(
            "cab-outside",
            "Cab outside",
            &["Door", "Lamps", "Mirrors", "Wiper", "Rear window"],
            &["Glass", "Steps and handholds", "ROPS bolts", "Decals"],
            &[Poly(&[(128.0, 124.0), (146.0, 32.0), (228.0, 32.0), (238.0, 124.0)])],
        )
        .on(1)
        .seen_from_above(4, &[mid(130.0, 106.0, 38.0)]),
        area(
            "frame",
            "Frame and drive cases",
            &["Case covers", "Belly plate"],
            &["Identity plate", "Breathers", "Chain tightener threads"],
            &[Poly(&[(112.0, 124.0), (300.0, 124.0), (300.0, 172.0), (112.0, 172.0)])],
        )
        .seen_from_above(1, &[mid(112.0, 190.0, 52.0)]),
        area(
            "front-axle",
            "Front wheels and hubs",
            &["Mudguards", "Hub covers"],
            &["Tyres", "Wheel nut seats and threads"],
            &[disc(154.0, 168.0, 31.0)],
        )
        .on(3)
        .seen_from_above(2, &tyres(123.0, 62.0, 52.0, 84.0)),
        area(
            "rear-axle",
            "Rear wheels and hubs",
            &["Mudguards", "Hub covers"],
            &["Tyres", "Wheel nut seats and threads"],
            &[disc(252.0, 168.0, 31.0)],
        )
        .on(3)
        .seen_from_above(2, &tyres(221.0, 62.0, 52.0, 84.0)),
        area(
            "tower",
            "Rear uprights and arm pivots",
            &["Covers of the uprights", "Tail lamps"],
            &["Bearing faces of pins", "Grease nipples", "Lift cylinder rods"],
            &[Poly(&[(252.0, 124.0), (270.0, 44.0), (310.0, 44.0), (316.0, 124.0)])],
        )
        .on(2)
        .seen_from_above(4, &pair(256.0, 60.0, 38.0, 68.0)),
        area(
            "engine",
            "Engine bay, rear door, radiator",
            &["Rear door", "Engine cover", "Fan guard"],
            &["Exhaust and turbo", "Belts", "Air filter", "Radiator fins unless the sheet says yes"],
            &[Poly(&[(300.0, 124.0), (340.0, 112.0), (346.0, 118.0), (340.0, 172.0), (300.0, 172.0)])],
        )
        .on(3)
        .seen_from_above(3, &[Poly(&whole::<4, 8>([(244.0, 32.0), (300.0, 32.0), (300.0, 60.0), (346.0, 60.0)]))]),
        area(
            "cab-inside",
            "Cab inside",
            &["Seat", "Floor mat", "Floor plate"],
            &["Seat, controls, seat belt, lap bar", "Pedals"],
            &[boxed(6.0, 82.0)],
        ),
        area(
            "under-cab",
            "Pumps under the cab",
            &["Cab tilted up on its lock", "Hose clamps"],
            &["Soft hoses where the sheet says no", "Mating faces of open plugs"],
            &[boxed(95.0, 82.0)],
        ),
        area(
            "electrics",
            "Battery and electrics",
            &["Battery", "Fuse box lid"],
            &["Open relays and switches", "Mating faces of open plugs", "Battery poles"],
            &[boxed(184.0, 82.0)],
        ),
        loose_panels(&[boxed(273.0, 82.0)]),
    ],
    drawing: Drawing::new(
        &[
            Poly(&[(152.0, 78.0), (159.0, 42.0), (218.0, 42.0), (220.0, 67.0)]),
            disc(154.0, 168.0, 12.0),
            disc(252.0, 168.0, 12.0),
            disc(288.0, 67.0, 5.0),
            Line(&[(312.0, 136.0), (336.0, 132.0)]),
            Line(&[(312.0, 147.0), (336.0, 145.0)]),
            Line(&[(312.0, 158.0), (334.0, 158.0)]),
        ],
        &[
            Line(&[(18.0, 14.0), (18.0, 186.0)]),
            Line(&[(66.0, 14.0), (66.0, 186.0)]),
            Line(&tread::<9>(130.0, 6.0, 22.0, 34.0)),
            Line(&tread::<9>(130.0, 6.0, 166.0, 178.0)),
            Line(&tread::<4>(228.0, 7.0, 22.0, 34.0)),
            Line(&tread::<4>(228.0, 7.0, 166.0, 178.0)),
            Line(&[(140.0, 62.0), (140.0, 138.0)]),
            Line(&[(152.0, 74.0), (226.0, 74.0), (226.0, 126.0), (152.0, 126.0), (152.0, 74.0)]),
            disc(290.0, 48.0, 5.0),
            disc(290.0, 152.0, 5.0),
            Line(&[(316.0, 66.0), (316.0, 134.0)]),
            Line(&[(325.0, 66.0), (325.0, 134.0)]),
            Line(&[(334.0, 66.0), (334.0, 134.0)]),
            disc(268.0, 86.0, 6.0),
        ],
    ),
};
