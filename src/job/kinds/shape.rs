//! The few flat shapes a side view is made of.

/// A flat shape, in units of the drawing.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Shape {
    /// A box with corner radius `r`.
    Rect { x: f32, y: f32, w: f32, h: f32, r: f32 },
    /// A closed outline.
    Poly(&'static [(f32, f32)]),
    /// A disc.
    Circle { cx: f32, cy: f32, r: f32 },
    /// An open line, stroked and not filled.
    Line(&'static [(f32, f32)]),
}

/// What all side views share, and what is drawn over the areas without being one.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Drawing {
    pub width: f32,
    pub height: f32,
    /// Height of the ground line. Boxes for unseen areas lie under it.
    pub ground: f32,
    /// Lines over the areas that make the machine plain (windows, hubs); nothing to tap.
    pub detail: &'static [Shape],
}

impl Drawing {
    /// The common sheet: 360 wide, 250 high, ground at 200.
    pub(super) const fn new(detail: &'static [Shape]) -> Drawing {
        Drawing { width: 360.0, height: 250.0, ground: 200.0, detail }
    }
}

impl Shape {
    /// The box round it: left, top, right, bottom.
    pub fn bounds(&self) -> (f32, f32, f32, f32) {
        match *self {
            Shape::Rect { x, y, w, h, .. } => (x, y, x + w, y + h),
            Shape::Circle { cx, cy, r } => (cx - r, cy - r, cx + r, cy + r),
            Shape::Poly(points) | Shape::Line(points) => {
                points.iter().fold(EMPTY, |b, &(x, y)| join(b, (x, y, x, y)))
            }
        }
    }

    /// Is this point on the filled shape? A line holds no point.
    ///
    /// ```
    /// use coatwalk::job::kinds::Shape;
    /// let wheel = Shape::Circle { cx: 10.0, cy: 10.0, r: 5.0 };
    /// assert!(wheel.holds(12.0, 12.0) && !wheel.holds(14.0, 14.0));
    /// ```
    pub fn holds(&self, px: f32, py: f32) -> bool {
        match *self {
            Shape::Rect { x, y, w, h, .. } => (x..=x + w).contains(&px) && (y..=y + h).contains(&py),
            Shape::Circle { cx, cy, r } => (px - cx).powi(2) + (py - cy).powi(2) <= r * r,
            Shape::Line(_) => false,
            Shape::Poly(points) => {
                // Even-odd rule: count the edges a ray to the right crosses.
                let edges = points.iter().zip(points.iter().cycle().skip(1));
                edges.filter(|&(&a, &b)| crosses(a, b, px, py)).count() % 2 == 1
            }
        }
    }
}

const EMPTY: (f32, f32, f32, f32) = (f32::INFINITY, f32::INFINITY, f32::NEG_INFINITY, f32::NEG_INFINITY);

fn join(a: (f32, f32, f32, f32), b: (f32, f32, f32, f32)) -> (f32, f32, f32, f32) {
    (a.0.min(b.0), a.1.min(b.1), a.2.max(b.2), a.3.max(b.3))
}

fn crosses((ax, ay): (f32, f32), (bx, by): (f32, f32), px: f32, py: f32) -> bool {
    (ay > py) != (by > py) && px < ax + (py - ay) / (by - ay) * (bx - ax)
}

/// The box round all of them.
pub(super) fn bounds(shapes: &[Shape]) -> (f32, f32, f32, f32) {
    shapes.iter().fold(EMPTY, |b, s| join(b, s.bounds()))
}

// Short forms for the tables.
pub(super) const fn rect(x: f32, y: f32, w: f32, h: f32) -> Shape {
    Shape::Rect { x, y, w, h, r: 0.0 }
}

pub(super) const fn disc(cx: f32, cy: f32, r: f32) -> Shape {
    Shape::Circle { cx, cy, r }
}

/// A box under the ground line for an area that cannot be seen from the side.
pub(super) const fn boxed(x: f32, w: f32) -> Shape {
    rect(x, 208.0, w, 36.0)
}
