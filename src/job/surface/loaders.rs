//! Compact wheel loader, skid steer, farm tractor, telehandler.

use super::Material::*;
use super::{AreaSurface, KindSurface, boxed, rail, rim, row, sheet, tube};
use crate::sums::area::Lies::*;

/// Loose panels of a machine with an engine bay: covers and mudguards, both faces.
const PANELS: AreaSurface =
    row("loose-panels", Side, &[Painted, Galvanised], &[sheet(0.9, 0.6, 2, 2.0, 1.1), sheet(0.5, 0.4, 3, 2.0, 1.1)]);
const ELECTRICS: AreaSurface =
    row("electrics", Round, &[Painted, Galvanised, Plastic], &[boxed(0.4, 0.3, 0.3, 1, 1.3)]);

pub(super) static WHEEL_LOADER: KindSurface = KindSurface {
    kind: "compact-wheel-loader",
    glass_m2: 4.2,
    rods: 5,
    lamps: 8,
    openings: 12,
    steel_kg: 3600.0,
    areas: &[
        row(
            "bucket",
            Across,
            &[Painted, BareSteel],
            &[sheet(1.75, 1.5, 1, 2.0, 1.1), sheet(0.7, 0.6, 2, 2.0, 1.0), boxed(0.7, 0.3, 0.3, 1, 0.8)],
        ),
        row(
            "arms",
            Side,
            &[Painted, Galvanised],
            &[boxed(2.0, 0.08, 0.3, 2, 1.3), tube(0.09, 0.8, 3, 1.0), tube(0.15, 0.9, 1, 1.0)],
        ),
        row("front-frame", Side, &[Painted], &[boxed(1.0, 0.6, 0.7, 1, 1.6)]),
        row("front-axle", Across, &[Painted, Galvanised], &[tube(0.25, 1.3, 1, 1.5), rim(0.5, 0.25, 2)]),
        row("joint", Round, &[Painted, Galvanised, Rubber], &[boxed(0.4, 0.5, 0.5, 1, 1.8)]),
        row("underside", Flat, &[Painted], &[sheet(2.2, 0.7, 1, 1.0, 1.8), tube(0.1, 1.5, 1, 1.0)]),
        row(
            "cab-outside",
            Round,
            &[Painted, Plastic, Rubber],
            &[sheet(1.2, 1.1, 1, 1.0, 1.0), tube(0.1, 1.5, 6, 1.0), sheet(0.8, 0.5, 4, 1.0, 1.1)],
        ),
        row("rear-axle", Across, &[Painted, Galvanised], &[tube(0.25, 1.3, 1, 1.5), rim(0.5, 0.25, 2)]),
        row("engine", Side, &[Painted, Aluminium, Galvanised], &[boxed(0.9, 0.9, 0.8, 1, 1.1)]),
        row("radiator", Across, &[Painted, Aluminium], &[sheet(0.7, 0.6, 1, 2.0, 1.3)]),
        row("counterweight", Across, &[Painted], &[boxed(0.4, 1.4, 0.6, 1, 1.1)]),
        row("cab-inside", Flat, &[Painted, Plastic], &[sheet(1.1, 1.1, 1, 1.0, 1.2)]),
        ELECTRICS,
        PANELS,
    ],
};

pub(super) static SKID_STEER: KindSurface = KindSurface {
    kind: "skid-steer",
    glass_m2: 1.6,
    rods: 6,
    lamps: 6,
    openings: 10,
    steel_kg: 2500.0,
    areas: &[
        row("bucket", Across, &[Painted, BareSteel], &[sheet(1.7, 1.3, 1, 2.0, 1.1), sheet(0.6, 0.5, 2, 2.0, 1.0)]),
        row("coupler", Across, &[Painted, Galvanised], &[boxed(1.0, 0.2, 0.4, 1, 1.3), tube(0.08, 0.5, 2, 1.0)]),
        row("arms", Side, &[Painted], &[boxed(1.9, 0.1, 0.2, 2, 1.3), tube(0.08, 0.7, 2, 1.0)]),
        row("cab-outside", Round, &[Painted, Rubber], &[boxed(0.8, 0.9, 1.2, 1, 0.8)]),
        row("frame", Side, &[Painted], &[boxed(1.7, 0.9, 0.5, 1, 1.3)]),
        row("front-axle", Across, &[Painted], &[rim(0.42, 0.22, 2), boxed(0.3, 0.3, 0.2, 2, 1.2)]),
        row("rear-axle", Across, &[Painted], &[rim(0.42, 0.22, 2), boxed(0.3, 0.3, 0.2, 2, 1.2)]),
        row("tower", Side, &[Painted], &[boxed(0.4, 0.15, 1.0, 2, 1.4)]),
        row("engine", Across, &[Painted, Aluminium], &[boxed(0.7, 0.9, 0.7, 1, 1.3)]),
        row("cab-inside", Flat, &[Painted, Plastic], &[sheet(0.9, 0.8, 1, 1.0, 1.3)]),
        row("under-cab", Flat, &[Painted, Aluminium, Rubber], &[boxed(0.6, 0.5, 0.3, 1, 1.8)]),
        ELECTRICS,
        PANELS,
    ],
};

pub(super) static TRACTOR: KindSurface = KindSurface {
    kind: "farm-tractor",
    glass_m2: 5.5,
    rods: 4,
    lamps: 12,
    openings: 12,
    steel_kg: 4200.0,
    areas: &[
        row("front-weights", Across, &[Painted], &[boxed(0.4, 0.9, 0.4, 1, 1.5)]),
        row("front-axle", Across, &[Painted, Galvanised], &[boxed(0.25, 1.7, 0.25, 1, 1.5), rim(0.7, 0.3, 2)]),
        row("radiator", Across, &[Painted, Aluminium], &[boxed(0.3, 0.7, 0.8, 1, 1.4)]),
        row("engine", Side, &[Painted, Aluminium], &[boxed(1.5, 0.7, 0.9, 1, 1.5)]),
        row("underside", Flat, &[Painted], &[boxed(1.6, 0.5, 0.5, 1, 1.5)]),
        row("steps-tank", Side, &[Painted, Plastic], &[boxed(0.8, 0.4, 0.5, 2, 1.1)]),
        row(
            "cab-outside",
            Round,
            &[Painted, Plastic, Rubber],
            &[sheet(1.6, 1.4, 1, 1.0, 1.0), tube(0.12, 1.7, 6, 1.0)],
        ),
        row("rear-mudguards", Side, &[Painted, Plastic], &[sheet(1.6, 0.6, 2, 2.0, 1.1)]),
        row("rear-axle", Across, &[Painted], &[boxed(0.5, 1.7, 0.5, 1, 1.4), rim(1.0, 0.4, 2)]),
        row(
            "linkage",
            Across,
            &[Painted, Galvanised, BareSteel],
            &[tube(0.08, 0.9, 6, 1.3), boxed(0.3, 0.7, 0.6, 1, 1.5)],
        ),
        row("cab-inside", Flat, &[Painted, Plastic], &[sheet(1.4, 1.4, 1, 1.0, 1.2)]),
        ELECTRICS,
        PANELS,
    ],
};

pub(super) static TELEHANDLER: KindSurface = KindSurface {
    kind: "telehandler",
    glass_m2: 4.0,
    rods: 7,
    lamps: 9,
    openings: 12,
    steel_kg: 5500.0,
    areas: &[
        row("forks", Across, &[Painted, BareSteel], &[boxed(1.2, 0.12, 0.05, 2, 1.1), sheet(1.2, 0.5, 1, 2.0, 1.4)]),
        row("boom-head", Side, &[Painted, Galvanised], &[boxed(0.6, 0.4, 0.6, 1, 1.5), tube(0.1, 0.6, 1, 1.0)]),
        row("boom", Side, &[Painted], &[boxed(3.4, 0.3, 0.35, 1, 1.2), boxed(2.6, 0.24, 0.28, 1, 1.0)]),
        row("front-frame", Side, &[Painted], &[rail(1.6, 0.5, 0.1, 2, 1.3)]),
        row("front-axle", Across, &[Painted, Galvanised], &[tube(0.28, 1.5, 1, 1.5), rim(0.6, 0.3, 2)]),
        row(
            "cab-outside",
            Round,
            &[Painted, Plastic, Rubber],
            &[sheet(1.3, 0.9, 1, 1.0, 1.0), tube(0.1, 1.6, 5, 1.0), sheet(0.9, 0.7, 2, 1.0, 1.1)],
        ),
        row("underside", Flat, &[Painted], &[sheet(3.0, 0.8, 1, 1.0, 1.8)]),
        row("engine", Side, &[Painted, Aluminium], &[boxed(1.3, 0.8, 0.8, 1, 1.3)]),
        row("rear-axle", Across, &[Painted, Galvanised], &[tube(0.28, 1.5, 1, 1.5), rim(0.6, 0.3, 2)]),
        row("tail", Across, &[Painted], &[boxed(0.6, 1.0, 1.0, 1, 1.3)]),
        row("cab-inside", Flat, &[Painted, Plastic], &[sheet(1.2, 0.9, 1, 1.0, 1.2)]),
        ELECTRICS,
        PANELS,
    ],
};
