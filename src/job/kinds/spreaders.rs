//! Machines that carry and spread: fertiliser or lime spreader, slurry tanker.

use super::shape::{Drawing, Shape::*, boxed, disc, left, mid, pair, rect, right, tread, tyres, whole};
use super::{Kind, Row, area, hazards::*, loose_panels};

pub(super) const SPREADER: Row = Row {
    kind: Kind {
        id: "spreader",
        name: "Fertiliser or lime spreader",
        length_m: 5.5,
        width_m: 2.4,
        height_m: 2.3,
        hazards: &[NITRATE, QUICKLIME, PESTICIDE, HOPPER, SHAFT, BRAKES],
        areas: &[],
    },
    areas: &[
        area(
            "drawbar",
            "Drawbar and jack",
            &["Jack leg", "Chain", "Hose holder"],
            &["Towing eye and its bolts", "Jack thread"],
            &[
                Poly(&[(4.0, 154.0), (26.0, 142.0), (104.0, 138.0), (104.0, 156.0), (30.0, 160.0), (4.0, 164.0)]),
                rect(46.0, 159.0, 12.0, 39.0),
            ],
        )
        .on(1)
        .seen_from_above(0, &[Poly(&whole::<4, 8>([(4.0, 6.0), (22.0, 8.0), (62.0, 36.0), (110.0, 36.0)]))]),
        area(
            "drive-shaft",
            "Drive shaft and hose rack",
            &["Drive shaft", "Shaft guard", "Hose rack"],
            &["Splines", "Mating faces of couplings", "Grease nipples"],
            &[Poly(&[(70.0, 96.0), (92.0, 96.0), (112.0, 124.0), (112.0, 138.0), (70.0, 140.0)])],
        )
        .on(1)
        .seen_from_above(1, &[mid(30.0, 60.0, 7.0)]),
        area(
            "cover",
            "Cover sheet and hoops",
            &["Cover sheet", "Hoops", "Crank"],
            &["Rubber straps", "Crank handle"],
            &[Poly(&[(62.0, 48.0), (84.0, 24.0), (308.0, 24.0), (328.0, 48.0)])],
        )
        .seen_from_above(3, &[mid(62.0, 122.0, 60.0)]),
        area(
            "hopper-outside",
            "Hopper outside",
            &["Ladder", "Sight window", "Number plate holder"],
            &["Decals", "Identity plate", "Ladder rungs", "Sight window"],
            &[Poly(&[(62.0, 48.0), (328.0, 48.0), (288.0, 126.0), (112.0, 126.0)])],
        )
        .seen_from_above(2, &[mid(62.0, 266.0, 60.0)]),
        area(
            "frame",
            "Frame and underside",
            &["Side guards", "Mudguards"],
            &["Weighing cells", "Brake parts", "Identity plate"],
            &[rect(104.0, 126.0, 184.0, 26.0)],
        ),
        area(
            "axle",
            "Axle, hubs and brakes",
            &["Hub caps", "Brake lever guards"],
            &["Tyres", "Brake drums and shoes", "Brake adjuster threads", "Wheel nut seats and threads"],
            &[disc(192.0, 158.0, 41.0)],
        )
        .on(2)
        .seen_from_above(1, &tyres(151.0, 82.0, 52.0, 79.0)),
        area(
            "gate",
            "Gate and floor drive",
            &["Gate plate", "Chain cover", "Floor drive guard"],
            &["Gate slide faces", "Chain", "Gearbox breather"],
            &[Poly(&[(288.0, 126.0), (300.0, 102.0), (324.0, 102.0), (324.0, 156.0), (288.0, 156.0)])],
        )
        .on(1)
        .seen_from_above(1, &[mid(318.0, 28.0, 10.0)]),
        area(
            "discs",
            "Discs and vanes",
            &["Vanes", "Discs", "Fasteners of the vanes"],
            &["Vane pivot faces", "Disc shaft seats", "Gearbox breather"],
            &[rect(266.0, 172.0, 88.0, 9.0), rect(302.0, 156.0, 16.0, 16.0), rect(296.0, 181.0, 28.0, 5.0)],
        )
        .on(3)
        .seen_from_above(0, &[disc(330.0, 72.0, 26.0), disc(330.0, 128.0, 26.0)]),
        area(
            "tail",
            "Tail lamps and guard",
            &["Tail lamps", "Reflectors", "Spreading guard"],
            &["Lamp lenses", "Reflectors", "Decals"],
            &[Poly(&[(324.0, 106.0), (356.0, 106.0), (356.0, 148.0), (324.0, 148.0)])],
        )
        .on(1)
        .seen_from_above(1, &pair(322.0, 14.0, 50.0, 74.0)),
        area(
            "hopper-inside",
            "Hopper inside (from outside)",
            &["Grid", "Agitator", "Deflector plates"],
            &["Agitator bearing", "Floor belt", "Outlet slide faces"],
            &[boxed(6.0, 110.0)],
        )
        .seen_from_above(3, &[mid(194.0, 122.0, 48.0)]),
        area(
            "electrics",
            "Wiring and controls",
            &["Control box", "Sensor", "Cable to the tractor"],
            &["Mating faces of open plugs", "Sensors", "Control box"],
            &[boxed(125.0, 110.0)],
        )
        .seen_from_above(2, &[right(34.0, 26.0, 26.0, 50.0)]),
        loose_panels(&[boxed(244.0, 110.0)]),
    ],
    drawing: Drawing::new(
        &[
            Line(&[(124.0, 48.0), (146.0, 126.0)]),
            Line(&[(195.0, 48.0), (195.0, 117.0)]),
            Line(&[(266.0, 48.0), (246.0, 126.0)]),
            Line(&[(130.0, 48.0), (138.0, 24.0)]),
            Line(&[(195.0, 48.0), (195.0, 24.0)]),
            Line(&[(260.0, 48.0), (252.0, 24.0)]),
            disc(192.0, 158.0, 15.0),
            rect(332.0, 114.0, 16.0, 9.0),
            Line(&[(274.0, 172.0), (274.0, 163.0), (292.0, 163.0), (292.0, 172.0)]),
            Line(&[(328.0, 172.0), (328.0, 163.0), (346.0, 163.0), (346.0, 172.0)]),
        ],
        &[
            Line(&tread::<9>(160.0, 8.0, 25.0, 35.0)),
            Line(&tread::<9>(160.0, 8.0, 165.0, 175.0)),
            Line(&[(94.0, 40.0), (94.0, 160.0)]),
            Line(&[(124.0, 40.0), (124.0, 160.0)]),
            Line(&[(154.0, 40.0), (154.0, 160.0)]),
            rect(222.0, 86.0, 66.0, 28.0),
            Line(&[(194.0, 52.0), (222.0, 86.0)]),
            Line(&[(194.0, 148.0), (222.0, 114.0)]),
            Line(&[(316.0, 52.0), (288.0, 86.0)]),
            Line(&[(316.0, 148.0), (288.0, 114.0)]),
            Line(&[(38.0, 100.0), (56.0, 100.0)]),
            disc(342.0, 72.0, 4.0),
            disc(342.0, 128.0, 4.0),
        ],
    ),
};

pub(super) const SLURRY_TANKER: Row = Row {
    kind: Kind {
        id: "slurry-tanker",
        name: "Slurry tanker",
        length_m: 6.5,
        width_m: 2.5,
        height_m: 3.0,
        hazards: &[SLURRY_GAS, SLURRY_FIRE, MUCK, SHAFT, BRAKES],
        areas: &[],
    },
    areas: &[
        area(
            "drawbar",
            "Drawbar and jack",
            &["Jack leg", "Chain", "Hose holder"],
            &["Towing eye and its bolts", "Jack thread", "Spring faces"],
            &[
                Poly(&[(4.0, 154.0), (26.0, 144.0), (92.0, 140.0), (92.0, 158.0), (30.0, 162.0), (4.0, 164.0)]),
                rect(40.0, 160.0, 12.0, 38.0),
            ],
        )
        .on(1)
        .seen_from_above(0, &[Poly(&whole::<4, 8>([(4.0, 6.0), (22.0, 8.0), (66.0, 30.0), (96.0, 30.0)]))]),
        area(
            "pump",
            "Pump and drive shaft",
            &["Drive shaft", "Shaft guard", "Pump cover"],
            &["Splines", "Pump breather and oil cap", "Silencer", "Grease nipples"],
            &[Poly(&[(40.0, 98.0), (84.0, 98.0), (84.0, 142.0), (40.0, 145.0)])],
        )
        .on(1)
        .seen_from_above(1, &[mid(44.0, 42.0, 20.0), mid(18.0, 26.0, 5.0)]),
        area(
            "filling",
            "Filling pipe and slide valve",
            &["Quick coupling", "Valve cylinder", "Hose rack"],
            &["Valve slide faces", "Rubber seals", "Cylinder rod"],
            &[Poly(&[(96.0, 98.0), (138.0, 98.0), (138.0, 134.0), (96.0, 134.0)])],
        )
        .on(3)
        .seen_from_above(1, &[left(98.0, 42.0, 40.0, 66.0)]),
        area(
            "hatch",
            "Top hatch and overflow",
            &["Hatch lid", "Overflow ball housing", "Catwalk rail"],
            &["Seals", "Relief valve", "Catwalk treads", "Gauge"],
            &[Poly(&[(148.0, 52.0), (154.0, 28.0), (214.0, 28.0), (220.0, 52.0)])],
        )
        .seen_from_above(3, &[mid(150.0, 70.0, 22.0)]),
        area(
            "barrel",
            "Barrel outside",
            &["Ladder", "Level glass", "Hose carriers"],
            &["Level glass", "Decals", "Identity plate", "Ladder rungs"],
            &[Rect { x: 76.0, y: 48.0, w: 246.0, h: 94.0, r: 36.0 }],
        )
        .on(1)
        .seen_from_above(2, &[Rect { x: 76.0, y: 53.0, w: 246.0, h: 94.0, r: 36.0 }]),
        area(
            "frame",
            "Frame and underside",
            &["Side guards", "Mudguards"],
            &["Brake parts", "Air tank drain", "Identity plate"],
            &[rect(92.0, 134.0, 224.0, 26.0)],
        )
        .on(2),
        area(
            "axles",
            "Axles, hubs and brakes",
            &["Hub caps", "Brake lever guards"],
            &["Tyres", "Brake drums and shoes", "Brake adjuster threads", "Wheel nut seats and threads"],
            &[disc(188.0, 168.0, 31.0), disc(258.0, 168.0, 31.0)],
        )
        .on(3)
        .seen_from_above(
            0,
            &[
                tyres(157.0, 62.0, 42.0, 70.0)[0],
                tyres(157.0, 62.0, 42.0, 70.0)[1],
                tyres(227.0, 62.0, 42.0, 70.0)[0],
                tyres(227.0, 62.0, 42.0, 70.0)[1],
            ],
        ),
        area(
            "rear-door",
            "Rear door and outlet",
            &["Door bolts", "Outlet valve", "Sight glass"],
            &["Door seal", "Valve slide faces", "Sight glass", "Cylinder rod"],
            &[Rect { x: 306.0, y: 68.0, w: 32.0, h: 54.0, r: 4.0 }],
        )
        .on(2)
        .seen_from_above(3, &[Rect { x: 308.0, y: 72.0, w: 28.0, h: 56.0, r: 4.0 }]),
        area(
            "plate",
            "Spreading plate and tail lamps",
            &["Spreading plate", "Tail lamps", "Reflectors"],
            &["Lamp lenses", "Reflectors", "Bearing faces of pins"],
            &[Poly(&[
                (316.0, 122.0),
                (334.0, 122.0),
                (336.0, 138.0),
                (358.0, 128.0),
                (354.0, 160.0),
                (344.0, 160.0),
                (316.0, 154.0),
            ])],
        )
        .on(3)
        .seen_from_above(
            1,
            &[
                Poly(&whole::<3, 6>([(318.0, 12.0), (336.0, 12.0), (356.0, 34.0)])),
                right(310.0, 16.0, 42.0, 66.0),
                left(310.0, 16.0, 42.0, 66.0),
                mid(314.0, 8.0, 42.0),
            ],
        ),
        area(
            "hoses",
            "Hoses and couplings",
            &["Suction hoses", "Hose ends", "Hydraulic hoses"],
            &["Rubber hoses where the sheet says no", "Mating faces of couplings", "Seals"],
            &[boxed(6.0, 110.0)],
        )
        .seen_from_above(1, &[right(92.0, 56.0, 40.0, 66.0)]),
        area(
            "electrics",
            "Wiring and controls",
            &["Control box", "Cable to the tractor"],
            &["Mating faces of open plugs", "Control box"],
            &[boxed(125.0, 110.0)],
        )
        .seen_from_above(1, &[right(46.0, 28.0, 26.0, 50.0)]),
        loose_panels(&[boxed(244.0, 110.0)]),
    ],
    drawing: Drawing::new(
        &[
            Line(&[(128.0, 50.0), (128.0, 96.0)]),
            Line(&[(195.0, 54.0), (195.0, 132.0)]),
            Line(&[(284.0, 50.0), (284.0, 132.0)]),
            Line(&[(262.0, 50.0), (262.0, 132.0)]),
            Line(&[(262.0, 68.0), (284.0, 68.0)]),
            Line(&[(262.0, 84.0), (284.0, 84.0)]),
            Line(&[(262.0, 100.0), (284.0, 100.0)]),
            Line(&[(262.0, 116.0), (284.0, 116.0)]),
            Line(&[(314.0, 76.0), (314.0, 114.0)]),
            Line(&[(154.0, 38.0), (214.0, 38.0)]),
            disc(188.0, 168.0, 12.0),
            disc(258.0, 168.0, 12.0),
            disc(117.0, 116.0, 11.0),
            disc(62.0, 121.0, 12.0),
        ],
        &[
            Line(&tread::<7>(164.0, 8.0, 35.0, 46.0)),
            Line(&tread::<7>(164.0, 8.0, 154.0, 165.0)),
            Line(&tread::<7>(234.0, 8.0, 35.0, 46.0)),
            Line(&tread::<7>(234.0, 8.0, 154.0, 165.0)),
            Line(&[(128.0, 54.0), (128.0, 146.0)]),
            Line(&[(284.0, 54.0), (284.0, 146.0)]),
            disc(185.0, 100.0, 14.0),
            disc(62.0, 100.0, 9.0),
            disc(119.0, 154.0, 7.0),
            Line(&[(96.0, 43.0), (144.0, 43.0)]),
            Line(&[(96.0, 50.0), (144.0, 50.0)]),
        ],
    ),
};
