//! The few flat shapes a side view and a top view are made of.

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

/// Where one stands to look at the machine.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum View {
    /// From its left side.
    Side,
    /// From above: its right side is at the top of the sheet, its left side at the bottom.
    Top,
}

/// What both views share, and what is drawn over the areas without being one.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Drawing {
    pub width: f32,
    /// Of the sheet in either view: changing the view moves nothing else on the screen.
    pub height: f32,
    /// Height of the ground line. Boxes for unseen areas lie under it. Drawn in the side view only.
    pub ground: f32,
    /// Lines over the areas that make the machine plain (windows, hubs); nothing to tap.
    pub detail: &'static [Shape],
    /// The same for the top view.
    pub top_detail: &'static [Shape],
}

/// The machine's centre line in the top view.
pub(super) const MIDDLE: f32 = 100.0;

impl Drawing {
    /// The common sheet: 360 wide, 250 high, ground at 200.
    pub(super) const fn new(detail: &'static [Shape], top_detail: &'static [Shape]) -> Drawing {
        Drawing { width: 360.0, height: 250.0, ground: 200.0, detail, top_detail }
    }

    /// The lines over the areas in this view.
    pub fn detail_in(&self, view: View) -> &'static [Shape] {
        match view {
            View::Side => self.detail,
            View::Top => self.top_detail,
        }
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

/// The box round all of them: left, top, right, bottom.
pub fn bounds(shapes: &[Shape]) -> (f32, f32, f32, f32) {
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

// Short forms for the top views: distances are measured from the centre line, so both sides are alike.

/// A box across the centre line, `half` to each side.
pub(super) const fn mid(x: f32, w: f32, half: f32) -> Shape {
    rect(x, MIDDLE - half, w, 2.0 * half)
}

/// A box on the machine's right side, `from` the centre line `to` further out.
pub(super) const fn right(x: f32, w: f32, from: f32, to: f32) -> Shape {
    rect(x, MIDDLE - to, w, to - from)
}

/// The same on its left side.
pub(super) const fn left(x: f32, w: f32, from: f32, to: f32) -> Shape {
    rect(x, MIDDLE + from, w, to - from)
}

/// The same on both sides.
pub(super) const fn pair(x: f32, w: f32, from: f32, to: f32) -> [Shape; 2] {
    [right(x, w, from, to), left(x, w, from, to)]
}

/// A tyre from above on both sides.
pub(super) const fn tyres(x: f32, w: f32, from: f32, to: f32) -> [Shape; 2] {
    let (h, r) = (to - from, 5.0);
    [Shape::Rect { x, y: MIDDLE - to, w, h, r }, Shape::Rect { x, y: MIDDLE + from, w, h, r }]
}

/// An outline from its right half, front to rear, each corner with its distance from the centre line. `M` is twice `N`.
pub(super) const fn whole<const N: usize, const M: usize>(half: [(f32, f32); N]) -> [(f32, f32); M] {
    assert!(M == 2 * N);
    let mut all = [(0.0, 0.0); M];
    let mut i = 0;
    while i < N {
        let (x, out) = half[i];
        all[i] = (x, MIDDLE - out);
        all[M - 1 - i] = (x, MIDDLE + out);
        i += 1;
    }
    all
}

/// The tread of a tyre: a line to and fro from `x` on, `step` at a time, between the heights `a` and `b`.
pub(super) const fn tread<const N: usize>(x: f32, step: f32, a: f32, b: f32) -> [(f32, f32); N] {
    let mut all = [(0.0, 0.0); N];
    let mut i = 0;
    while i < N {
        all[i] = (x + step * i as f32, if i % 2 == 0 { a } else { b });
        i += 1;
    }
    all
}
