//! Machines with an arm and a bucket in front: compact wheel loader, skid steer, telehandler.

use super::shape::{Drawing, Shape, Shape::*, boxed, disc, rect};
use super::{Kind, area, loose_panels};
use crate::job::guide::{Basis::*, Caution};

const MUCK: Caution = Caution {
    words: "Muck and feed pack in and hold salts and gas. Brush out in the open air, mask on; wash hands before you eat.",
    basis: CommonPractice,
};
const LOCK: Caution = Caution {
    words: "The joint or the arms can close on you. Fit the steering and arm locks before you reach in.",
    basis: CommonPractice,
};

pub(super) const WHEEL_LOADER: Kind = Kind {
    id: "compact-wheel-loader",
    name: "Compact wheel loader",
    length_m: 5.0,
    width_m: 1.75,
    height_m: 2.5,
    hazards: &[LOCK, MUCK],
    areas: &[
        area(
            "bucket",
            "Bucket and coupler",
            &["Bucket", "Cutting edge", "Coupler hose guards"],
            &["Coupler pins' working faces", "Mating faces of quick couplings"],
            &[Poly(&[(10.0, 197.0), (76.0, 197.0), (84.0, 184.0), (80.0, 146.0), (64.0, 138.0), (54.0, 168.0)])],
        )
        .on(3),
        area(
            "arms",
            "Loader arms and cylinders",
            &["Hose guards", "Work lamps on the arms"],
            &["Cylinder rods", "Grease nipples", "Pins' bearing faces"],
            &[Poly(&[
                (72.0, 152.0),
                (92.0, 112.0),
                (150.0, 70.0),
                (168.0, 82.0),
                (108.0, 130.0),
                (92.0, 166.0),
                (78.0, 168.0),
            ])],
        )
        .on(2),
        area(
            "front-frame",
            "Front frame",
            &["Front mudguards", "Valve cover plate", "Front lamps"],
            &["Identity plate", "Mating faces of open plugs"],
            &[Poly(&[(112.0, 150.0), (146.0, 66.0), (172.0, 66.0), (176.0, 150.0)])],
        )
        .on(1),
        area(
            "front-axle",
            "Front axle and hubs",
            &["Hub caps"],
            &["Tyres", "Brake parts", "Wheel nut seats and threads"],
            &[disc(122.0, 163.0, 36.0)],
        )
        .on(4),
        area(
            "joint",
            "Centre joint and hoses",
            &["Hose clamps", "Joint cover"],
            &["Soft hoses where the sheet says no", "Steering cylinder rod", "Grease nipples"],
            &[rect(162.0, 122.0, 34.0, 38.0)],
        )
        .on(2),
        area(
            "underside",
            "Underside and driveline",
            &["Belly plates"],
            &["Parking brake parts", "Driveline bolts", "Breathers"],
            &[rect(168.0, 162.0, 56.0, 24.0)],
        ),
        area(
            "cab-outside",
            "Cab outside",
            &["Mirrors", "Lamps", "Wipers", "Door", "Plastic mudguards", "Rubber strips"],
            &["Glass", "Camera covers", "Steps and handholds", "ROPS bolts", "Decals"],
            &[Poly(&[(184.0, 118.0), (190.0, 36.0), (250.0, 36.0), (258.0, 118.0)])],
        )
        .on(2),
        area(
            "rear-axle",
            "Rear axle and hubs",
            &["Rear mudguards", "Hub caps"],
            &["Tyres", "Brake parts", "Wheel nut seats and threads"],
            &[disc(262.0, 163.0, 36.0)],
        )
        .on(4),
        area(
            "engine",
            "Engine bay and covers",
            &["Side covers", "Bonnet"],
            &["Exhaust and turbo", "Belts", "Air filter", "Breathers", "Particle filter"],
            &[Poly(&[(258.0, 92.0), (306.0, 96.0), (306.0, 150.0), (196.0, 150.0), (196.0, 118.0), (258.0, 118.0)])],
        )
        .on(1),
        area(
            "radiator",
            "Radiator and fan",
            &["Grille", "Fan guard"],
            &["Radiator fins unless the sheet says yes", "Fan belt"],
            &[Poly(&[(306.0, 96.0), (338.0, 104.0), (338.0, 132.0), (306.0, 132.0)])],
        )
        .on(1),
        area(
            "counterweight",
            "Counterweight and tail",
            &["Tail lamps", "Plate holder"],
            &["Towing pin and its hole", "Lamp lenses", "Decals"],
            &[Poly(&[(300.0, 132.0), (348.0, 132.0), (348.0, 160.0), (338.0, 174.0), (300.0, 174.0)])],
        )
        .on(2),
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
        ),
        loose_panels(&[boxed(244.0, 110.0)]),
    ],
    drawing: Drawing::new(WHEEL_LOADER_DETAIL),
};

const WHEEL_LOADER_DETAIL: &[Shape] = &[
    Poly(&[(193.0, 80.0), (196.0, 44.0), (218.0, 44.0), (218.0, 80.0)]),
    Poly(&[(224.0, 80.0), (224.0, 44.0), (246.0, 44.0), (249.0, 80.0)]),
    disc(122.0, 163.0, 13.0),
    disc(262.0, 163.0, 13.0),
    Line(&[(312.0, 106.0), (332.0, 110.0)]),
    Line(&[(312.0, 115.0), (332.0, 117.0)]),
    Line(&[(312.0, 124.0), (332.0, 124.0)]),
    Line(&[(134.0, 122.0), (100.0, 140.0)]),
];
