//! Farm tractor and telehandler.

use super::shape::{Drawing, Shape::*, boxed, disc, left, mid, pair, rect, right, tread, tyres, whole};
use super::{Kind, Row, area, hazards::*, loose_panels};

pub(super) const TRACTOR: Row = Row {
    kind: Kind {
        id: "farm-tractor",
        name: "Farm tractor",
        length_m: 4.6,
        width_m: 2.3,
        height_m: 2.8,
        hazards: &[SHAFT, PESTICIDE, BRAKES, MUCK],
        areas: &[],
    },
    areas: &[
        area(
            "front-weights",
            "Front weights and hitch",
            &["Weights", "Front lamps"],
            &["Towing pin and its hole", "Cylinder rods of a front hitch"],
            &[Poly(&[(12.0, 116.0), (44.0, 116.0), (44.0, 156.0), (20.0, 156.0), (12.0, 146.0)])],
        )
        .on(1)
        .seen_from_above(1, &[mid(12.0, 32.0, 25.0)]),
        area(
            "front-axle",
            "Front axle and hubs",
            &["Mudguards", "Hub caps"],
            &["Tyres", "Steering cylinder rod", "Wheel nut seats and threads", "Grease nipples"],
            &[disc(88.0, 165.0, 34.0)],
        )
        .on(3)
        .seen_from_above(
            0,
            &[mid(78.0, 20.0, 46.0), tyres(54.0, 68.0, 44.0, 72.0)[0], tyres(54.0, 68.0, 44.0, 72.0)[1]],
        ),
        area(
            "radiator",
            "Radiator and fan",
            &["Grille", "Fan guard", "Front lamps"],
            &["Radiator fins unless the sheet says yes", "Fan belt", "Lamp lenses"],
            &[Poly(&[(44.0, 98.0), (54.0, 86.0), (82.0, 83.0), (82.0, 144.0), (44.0, 144.0)])],
        )
        .on(1)
        .seen_from_above(1, &[Poly(&whole::<3, 6>([(44.0, 20.0), (52.0, 26.0), (82.0, 26.0)]))]),
        area(
            "engine",
            "Engine and bonnet",
            &["Bonnet", "Side panels", "Exhaust shield"],
            &["Exhaust and turbo", "Belts", "Air filter", "Breathers", "Decals"],
            &[Poly(&[
                (82.0, 83.0),
                (146.0, 78.0),
                (146.0, 34.0),
                (157.0, 34.0),
                (157.0, 77.0),
                (174.0, 76.0),
                (174.0, 144.0),
                (82.0, 144.0),
            ])],
        )
        .seen_from_above(1, &[mid(82.0, 94.0, 26.0)]),
        area(
            "underside",
            "Gearbox and underside",
            &["Belly plate", "Front shaft guard"],
            &["Driveline bolts", "Breathers", "Identity plate"],
            &[rect(116.0, 144.0, 48.0, 28.0)],
        ),
        area(
            "steps-tank",
            "Steps and fuel tank",
            &["Steps", "Toolbox", "Tank guard"],
            &["Step treads", "Fuel cap and vent", "Handholds"],
            &[Poly(&[(164.0, 120.0), (214.0, 120.0), (214.0, 182.0), (176.0, 182.0), (164.0, 172.0)])],
        )
        .on(1)
        .seen_from_above(1, &pair(164.0, 40.0, 26.0, 58.0)),
        area(
            "cab-outside",
            "Cab outside",
            &["Mirrors", "Lamps", "Wipers", "Doors", "Rubber strips"],
            &["Glass", "Handholds", "ROPS bolts", "Decals", "Camera covers"],
            &[Poly(&[(174.0, 120.0), (182.0, 24.0), (272.0, 20.0), (286.0, 66.0), (284.0, 120.0)])],
        )
        .on(1)
        .seen_from_above(4, &[mid(176.0, 104.0, 44.0)]),
        area(
            "rear-mudguards",
            "Rear mudguards",
            &["Plastic mudguards", "Tail lamps", "Outside levers and buttons"],
            &["Lamp lenses", "Decals"],
            &[Poly(&[
                (194.0, 120.0),
                (206.0, 94.0),
                (228.0, 78.0),
                (258.0, 71.0),
                (290.0, 78.0),
                (312.0, 94.0),
                (326.0, 122.0),
                (308.0, 122.0),
                (292.0, 108.0),
                (258.0, 97.0),
                (226.0, 107.0),
                (210.0, 122.0),
            ])],
        )
        .on(2)
        .seen_from_above(3, &pair(204.0, 104.0, 40.0, 66.0)),
        area(
            "rear-axle",
            "Rear axle and hubs",
            &["Wheel weights"],
            &["Tyres", "Brake parts", "Wheel nut seats and threads"],
            &[disc(258.0, 146.0, 53.0)],
        )
        .on(3)
        .seen_from_above(2, &tyres(205.0, 106.0, 52.0, 87.0)),
        area(
            "linkage",
            "Rear linkage and drive shaft stub",
            &["Lower links", "Stub guard", "Hose coupling block"],
            &["Cylinder rods", "Splines", "Mating faces of couplings", "Towing fixings"],
            &[
                rect(296.0, 120.0, 34.0, 54.0),
                Poly(&[(326.0, 126.0), (348.0, 120.0), (348.0, 129.0), (326.0, 136.0)]),
                Poly(&[(320.0, 152.0), (354.0, 160.0), (354.0, 171.0), (320.0, 165.0)]),
            ],
        )
        .on(1)
        .seen_from_above(
            1,
            &[
                mid(280.0, 34.0, 24.0),
                mid(314.0, 32.0, 4.0),
                right(306.0, 48.0, 16.0, 24.0),
                left(306.0, 48.0, 16.0, 24.0),
            ],
        ),
        area(
            "cab-inside",
            "Cab inside",
            &["Seat", "Floor mat", "Side panels"],
            &["Seat, wheel, controls, seat belt", "Pedals", "Glass"],
            &[boxed(6.0, 110.0)],
        ),
        area(
            "electrics",
            "Battery and electrics",
            &["Battery", "Fuse box lid", "Trailer socket"],
            &["Open relays and switches", "Mating faces of open plugs", "Battery poles"],
            &[boxed(125.0, 110.0)],
        ),
        loose_panels(&[boxed(244.0, 110.0)]),
    ],
    drawing: Drawing::new(
        &[
            Poly(&[(184.0, 80.0), (189.0, 33.0), (228.0, 31.0), (228.0, 69.0)]),
            Poly(&[(236.0, 66.0), (236.0, 31.0), (266.0, 30.0), (276.0, 66.0)]),
            disc(88.0, 165.0, 13.0),
            disc(258.0, 146.0, 22.0),
            Line(&[(52.0, 102.0), (74.0, 101.0)]),
            Line(&[(52.0, 112.0), (74.0, 111.0)]),
            Line(&[(52.0, 122.0), (74.0, 121.0)]),
        ],
        &[
            Line(&[(20.0, 75.0), (20.0, 125.0)]),
            Line(&[(28.0, 75.0), (28.0, 125.0)]),
            Line(&[(36.0, 75.0), (36.0, 125.0)]),
            Line(&[(60.0, 84.0), (60.0, 116.0)]),
            Line(&[(68.0, 84.0), (68.0, 116.0)]),
            Line(&tread::<7>(61.0, 9.0, 34.0, 50.0)),
            Line(&tread::<7>(61.0, 9.0, 150.0, 166.0)),
            Line(&tread::<10>(213.0, 10.0, 18.0, 29.0)),
            Line(&tread::<10>(213.0, 10.0, 171.0, 182.0)),
            Line(&[(90.0, 100.0), (166.0, 100.0)]),
            disc(152.0, 82.0, 6.0),
            Line(&[(186.0, 56.0), (186.0, 144.0)]),
            Line(&[(200.0, 70.0), (266.0, 70.0), (266.0, 130.0), (200.0, 130.0), (200.0, 70.0)]),
        ],
    ),
};

pub(super) const TELEHANDLER: Row = Row {
    kind: Kind {
        id: "telehandler",
        name: "Telehandler",
        length_m: 4.9,
        width_m: 2.1,
        height_m: 2.3,
        hazards: &[BOOM, ARMS, MUCK, BRAKES, LOAD],
        areas: &[],
    },
    areas: &[
        area(
            "forks",
            "Forks and carriage",
            &["Forks", "Carriage guard"],
            &["Working faces of coupler pins", "Mating faces of quick couplings"],
            &[Poly(&[(36.0, 116.0), (50.0, 116.0), (54.0, 197.0), (2.0, 197.0), (2.0, 190.0), (38.0, 188.0)])],
        )
        .on(3)
        .seen_from_above(4, &[mid(38.0, 14.0, 52.0), right(2.0, 36.0, 26.0, 38.0), left(2.0, 36.0, 26.0, 38.0)]),
        area(
            "boom-head",
            "Boom head and tilt cylinder",
            &["Hose guards", "Work lamp"],
            &["Cylinder rod", "Bearing faces of pins", "Grease nipples"],
            &[Poly(&[(50.0, 124.0), (62.0, 98.0), (88.0, 92.0), (92.0, 116.0), (72.0, 144.0), (50.0, 152.0)])],
        )
        .on(2)
        .seen_from_above(5, &[right(50.0, 42.0, 6.0, 46.0)]),
        area(
            "boom",
            "Boom, outside and in",
            &["Boom end cover", "Hose chain cover"],
            &["Slide pads and the faces they run on", "Extension cylinder rod", "Angle sensor"],
            &[Poly(&[(84.0, 88.0), (318.0, 46.0), (340.0, 52.0), (340.0, 78.0), (92.0, 118.0)])],
        )
        .on(1)
        .seen_from_above(4, &[right(84.0, 50.0, 14.0, 38.0), right(124.0, 216.0, 10.0, 42.0)]),
        area(
            "front-frame",
            "Front frame",
            &["Front lamps", "Mudguards"],
            &["Identity plate", "Levelling cylinder rod"],
            &[Poly(&[
                (70.0, 120.0),
                (158.0, 107.0),
                (158.0, 152.0),
                (144.0, 152.0),
                (136.0, 146.0),
                (126.0, 135.0),
                (110.0, 131.0),
                (94.0, 135.0),
                (84.0, 146.0),
                (80.0, 150.0),
                (70.0, 150.0),
            ])],
        )
        .seen_from_above(1, &[mid(70.0, 92.0, 46.0)]),
        area(
            "front-axle",
            "Front axle and hubs",
            &["Hub caps"],
            &["Tyres", "Brake parts", "Steering rods", "Wheel nut seats and threads"],
            &[disc(110.0, 163.0, 36.0)],
        )
        .on(4)
        .seen_from_above(0, &tyres(74.0, 72.0, 44.0, 74.0)),
        area(
            "cab-outside",
            "Cab outside",
            &["Mirrors", "Lamps", "Wipers", "Door", "Rubber strips"],
            &["Glass", "Steps and handholds", "ROPS bolts", "Decals", "Camera covers"],
            &[Poly(&[(156.0, 152.0), (160.0, 96.0), (172.0, 40.0), (228.0, 40.0), (234.0, 152.0)])],
        )
        .on(3)
        .seen_from_above(3, &[left(158.0, 76.0, -2.0, 68.0)]),
        area(
            "underside",
            "Underside and driveline",
            &["Belly plates"],
            &["Driveline bolts", "Parking brake parts", "Breathers"],
            &[rect(148.0, 152.0, 90.0, 26.0)],
        )
        .seen_from_above(0, &[rect(156.0, 84.0, 148.0, 20.0)]),
        area(
            "engine",
            "Engine bay and radiator",
            &["Engine cover", "Grille", "Fan guard"],
            &["Exhaust and turbo", "Belts", "Air filter", "Radiator fins unless the sheet says yes"],
            &[Poly(&[(234.0, 100.0), (312.0, 90.0), (312.0, 152.0), (234.0, 152.0)])],
        )
        .on(2)
        .seen_from_above(2, &[left(234.0, 78.0, -2.0, 46.0)]),
        area(
            "rear-axle",
            "Rear axle and hubs",
            &["Mudguards", "Hub caps"],
            &["Tyres", "Brake parts", "Steering rods", "Wheel nut seats and threads"],
            &[disc(276.0, 163.0, 36.0)],
        )
        .on(4)
        .seen_from_above(0, &tyres(240.0, 72.0, 44.0, 74.0)),
        area(
            "tail",
            "Boom pivot and tail",
            &["Tail lamps", "Rear cover", "Plate holder"],
            &["Bearing faces of pins", "Lift cylinder rod", "Towing pin and its hole"],
            &[Poly(&[(306.0, 60.0), (346.0, 60.0), (352.0, 150.0), (340.0, 162.0), (300.0, 162.0)])],
        )
        .seen_from_above(1, &[Poly(&whole::<3, 6>([(300.0, 50.0), (340.0, 50.0), (352.0, 38.0)]))]),
        area(
            "cab-inside",
            "Cab inside",
            &["Seat", "Floor mat"],
            &["Seat, wheel, controls, seat belt", "Pedals", "Glass"],
            &[boxed(6.0, 110.0)],
        ),
        area(
            "electrics",
            "Battery and electrics",
            &["Battery", "Fuse box lid"],
            &["Open relays and switches", "Mating faces of open plugs", "Battery poles"],
            &[boxed(125.0, 110.0)],
        )
        .seen_from_above(1, &[right(164.0, 60.0, 40.0, 66.0)]),
        loose_panels(&[boxed(244.0, 110.0)]),
    ],
    drawing: Drawing::new(
        &[
            Poly(&[(168.0, 94.0), (179.0, 48.0), (220.0, 48.0), (224.0, 94.0)]),
            disc(110.0, 163.0, 13.0),
            disc(276.0, 163.0, 13.0),
            disc(328.0, 64.0, 5.0),
            Line(&[(246.0, 112.0), (300.0, 106.0)]),
            Line(&[(246.0, 122.0), (300.0, 117.0)]),
        ],
        &[
            Line(&tread::<9>(81.0, 7.0, 33.0, 50.0)),
            Line(&tread::<9>(81.0, 7.0, 150.0, 167.0)),
            Line(&tread::<9>(247.0, 7.0, 33.0, 50.0)),
            Line(&tread::<9>(247.0, 7.0, 150.0, 167.0)),
            Line(&[(168.0, 106.0), (168.0, 160.0)]),
            Line(&[(180.0, 112.0), (222.0, 112.0), (222.0, 154.0), (180.0, 154.0), (180.0, 112.0)]),
            disc(182.0, 47.0, 3.5),
            disc(206.0, 47.0, 3.5),
            disc(328.0, 74.0, 5.0),
            Line(&[(270.0, 106.0), (270.0, 138.0)]),
            Line(&[(280.0, 106.0), (280.0, 138.0)]),
            Line(&[(290.0, 106.0), (290.0, 138.0)]),
            disc(250.0, 110.0, 6.0),
        ],
    ),
};
