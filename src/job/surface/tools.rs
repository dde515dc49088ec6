//! Spreader, slurry tanker, trailer, pickup or truck chassis.

use super::Material::*;
use super::{AreaSurface, KindSurface, boxed, rail, rim, row, sheet, tube};
use crate::sums::area::Lies::*;

/// Wiring of a towed machine: clips, brackets, boxes.
const WIRING: AreaSurface = row("electrics", Side, &[Galvanised, Plastic], &[boxed(0.3, 0.2, 0.2, 2, 1.2)]);

pub(super) static SPREADER: KindSurface = KindSurface {
    kind: "spreader",
    glass_m2: 0.0,
    rods: 1,
    lamps: 4,
    openings: 3,
    steel_kg: 1500.0,
    areas: &[
        row("drawbar", Side, &[Painted, Galvanised], &[boxed(1.4, 0.15, 0.2, 1, 1.4)]),
        row("drive-shaft", Side, &[Painted, Plastic, Rubber], &[tube(0.12, 1.2, 1, 1.2)]),
        row("cover", Flat, &[Galvanised, Plastic], &[tube(0.04, 2.0, 5, 1.2)]),
        row("hopper-outside", Side, &[Painted], &[sheet(2.6, 1.1, 2, 1.0, 1.2), sheet(1.9, 1.1, 2, 1.0, 1.2)]),
        row("frame", Flat, &[Painted], &[rail(3.2, 0.2, 0.08, 2, 1.6)]),
        row("axle", Across, &[Painted, Galvanised], &[boxed(0.12, 1.8, 0.12, 1, 1.5), rim(0.7, 0.3, 2)]),
        row("gate", Across, &[Painted, BareSteel], &[sheet(0.9, 0.7, 1, 2.0, 1.5)]),
        row("discs", Flat, &[BareSteel, Galvanised], &[rim(0.6, 0.05, 2), sheet(0.3, 0.08, 8, 2.0, 1.0)]),
        row("tail", Across, &[Painted, Galvanised, Plastic], &[sheet(1.9, 0.3, 1, 2.0, 1.2)]),
        row(
            "hopper-inside",
            Side,
            &[Painted, BareSteel],
            &[sheet(2.6, 1.1, 2, 1.0, 1.1), sheet(1.9, 1.1, 2, 1.0, 1.1)],
        ),
        WIRING,
        row("loose-panels", Side, &[Painted, Galvanised], &[sheet(0.8, 0.5, 3, 2.0, 1.1)]),
    ],
};

pub(super) static SLURRY_TANKER: KindSurface = KindSurface {
    kind: "slurry-tanker",
    glass_m2: 0.0,
    rods: 2,
    lamps: 6,
    openings: 4,
    steel_kg: 3500.0,
    areas: &[
        row("drawbar", Side, &[Galvanised, Painted], &[boxed(1.8, 0.2, 0.25, 1, 1.4)]),
        row("pump", Across, &[Painted, Aluminium], &[boxed(0.6, 0.5, 0.5, 1, 1.8)]),
        row("filling", Side, &[Galvanised, Rubber], &[tube(0.2, 1.5, 2, 1.3)]),
        row("hatch", Flat, &[Galvanised], &[rim(0.6, 0.2, 1), tube(0.15, 0.6, 1, 1.0)]),
        row("barrel", Side, &[Galvanised], &[tube(1.6, 3.8, 1, 1.05), sheet(1.5, 1.4, 2, 1.0, 1.0)]),
        row("frame", Flat, &[Galvanised, Painted], &[rail(4.2, 0.25, 0.1, 2, 1.5)]),
        row("axles", Across, &[Painted, Galvanised], &[boxed(0.15, 1.9, 0.15, 2, 1.5), rim(0.8, 0.4, 4)]),
        row("rear-door", Across, &[Galvanised], &[sheet(1.2, 1.1, 1, 1.0, 1.5), tube(0.2, 0.6, 1, 1.3)]),
        row(
            "plate",
            Across,
            &[Galvanised, BareSteel, Plastic],
            &[sheet(0.8, 0.5, 1, 2.0, 1.2), sheet(1.9, 0.2, 1, 2.0, 1.2)],
        ),
        row("hoses", Side, &[Galvanised, Rubber], &[tube(0.15, 0.5, 4, 1.2)]),
        WIRING,
        row("loose-panels", Side, &[Galvanised, Painted], &[sheet(0.8, 0.5, 3, 2.0, 1.1)]),
    ],
};

pub(super) static TRAILER: KindSurface = KindSurface {
    kind: "trailer",
    glass_m2: 0.0,
    rods: 1,
    lamps: 6,
    openings: 2,
    steel_kg: 1400.0,
    areas: &[
        row("drawbar", Side, &[Galvanised, Painted], &[boxed(1.4, 0.12, 0.12, 2, 1.3)]),
        row("headboard", Across, &[Painted, Galvanised], &[sheet(2.2, 0.6, 1, 2.0, 1.2)]),
        row("sides", Side, &[Painted, Aluminium], &[sheet(4.4, 0.5, 2, 2.0, 1.1)]),
        row("deck", Flat, &[Galvanised, Painted], &[rail(4.4, 0.15, 0.05, 2, 1.2)]),
        row("frame", Flat, &[Galvanised, Painted], &[rail(4.4, 0.15, 0.06, 2, 1.5), rail(2.1, 0.1, 0.05, 6, 1.1)]),
        row("mudguards", Side, &[Galvanised, Plastic], &[sheet(1.8, 0.3, 2, 2.0, 1.0)]),
        row("front-axle", Across, &[Galvanised, Painted], &[boxed(0.1, 1.7, 0.1, 1, 1.5), rim(0.4, 0.2, 2)]),
        row("rear-axle", Across, &[Galvanised, Painted], &[boxed(0.1, 1.7, 0.1, 1, 1.5), rim(0.4, 0.2, 2)]),
        row("tailboard", Across, &[Painted, Galvanised], &[sheet(2.2, 0.6, 1, 2.0, 1.2)]),
        row("tail-lamps", Across, &[Galvanised, Plastic], &[rail(2.2, 0.12, 0.05, 1, 1.3)]),
        row("underside", Flat, &[Galvanised, Painted], &[sheet(4.4, 2.1, 1, 1.0, 0.8)]),
        row("lines", Side, &[Galvanised, Rubber], &[tube(0.02, 6.0, 4, 1.2)]),
        row("loose-panels", Side, &[Painted, Galvanised], &[sheet(0.8, 0.5, 2, 2.0, 1.1)]),
    ],
};

pub(super) static PICKUP: KindSurface = KindSurface {
    kind: "pickup-chassis",
    glass_m2: 3.5,
    rods: 0,
    lamps: 8,
    openings: 12,
    steel_kg: 1300.0,
    areas: &[
        row("front", Across, &[Painted, Plastic], &[sheet(1.8, 0.4, 1, 2.0, 1.3)]),
        row("engine", Side, &[Painted, Aluminium], &[boxed(0.9, 1.2, 0.6, 1, 1.2)]),
        row("front-axle", Across, &[Painted, BareSteel], &[tube(0.1, 1.5, 2, 1.6), rim(0.4, 0.2, 2)]),
        row(
            "cab-outside",
            Side,
            &[Painted, Plastic, Rubber],
            &[sheet(1.7, 0.5, 2, 1.0, 1.3), sheet(1.5, 1.2, 1, 1.0, 1.0)],
        ),
        row("frame-front", Flat, &[Painted], &[rail(2.4, 0.18, 0.07, 2, 1.4)]),
        row("bed", Flat, &[Painted, Galvanised], &[sheet(2.0, 1.5, 1, 2.0, 1.1), sheet(2.0, 0.5, 2, 2.0, 1.1)]),
        row("frame-rear", Flat, &[Painted], &[rail(2.4, 0.18, 0.07, 2, 1.4)]),
        row("tank", Side, &[Painted, Plastic], &[boxed(0.9, 0.4, 0.3, 1, 1.0)]),
        row("rear-axle", Across, &[Painted, BareSteel], &[tube(0.15, 1.5, 1, 1.8), rim(0.4, 0.2, 2)]),
        row("hitch", Across, &[Painted, Galvanised], &[rail(1.6, 0.15, 0.08, 1, 1.4)]),
        row("driveline", Side, &[BareSteel, Galvanised], &[tube(0.1, 1.6, 1, 1.2), tube(0.06, 3.0, 1, 1.3)]),
        row("cab-inside", Flat, &[Painted, Plastic], &[sheet(1.4, 1.4, 1, 1.0, 1.2)]),
        row("electrics", Round, &[Painted, Plastic], &[boxed(0.4, 0.3, 0.3, 1, 1.2)]),
        row("loose-panels", Side, &[Painted], &[sheet(0.9, 0.5, 3, 2.0, 1.1)]),
    ],
};
