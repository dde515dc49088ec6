//! Pictures for the tests of labels and of their reader: the codes of a printed page as grey pixels.
#![allow(dead_code)] // each test file uses its own part

use roxmltree::{Document, Node};

/// A grey picture, row by row.
#[derive(Clone)]
pub struct Grey {
    pub w: usize,
    pub h: usize,
    pub px: Vec<u8>,
}

/// A rectangle in mm.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Rect {
    pub x: f64,
    pub y: f64,
    pub w: f64,
    pub h: f64,
}

pub fn number(node: Node, name: &str) -> f64 {
    let value = node.attribute(name).unwrap_or_else(|| panic!("no {name} on {node:?}"));
    value.trim_end_matches("mm").parse().unwrap_or_else(|_| panic!("{name} is {value}"))
}

pub fn rect(node: Node) -> Rect {
    Rect { x: number(node, "x"), y: number(node, "y"), w: number(node, "width"), h: number(node, "height") }
}

/// The `svg` elements straight inside one: the labels of a page, or the code and the words of a label.
pub fn windows<'a, 'i>(of: Node<'a, 'i>) -> Vec<Node<'a, 'i>> {
    of.children().filter(|n| n.tag_name().name() == "svg").collect()
}

/// A code of a label: its window, and the modules of its path.
pub fn code<'a, 'i>(label: Node<'a, 'i>) -> (Node<'a, 'i>, Vec<Rect>) {
    let window = windows(label).into_iter().find(|w| w.children().any(|c| c.tag_name().name() == "path")).unwrap();
    let path = window.children().find(|c| c.tag_name().name() == "path").unwrap();
    (window, runs(path.attribute("d").unwrap()))
}

/// "M4 4h7v1h-7z" and so on: runs of dark modules.
fn runs(path: &str) -> Vec<Rect> {
    let run = |part: &str| {
        let (at, rest) = part.split_once('h').unwrap();
        let (x, y) = at.split_once(' ').unwrap();
        let (w, rest) = rest.split_once('v').unwrap();
        assert_eq!(rest, format!("1h-{w}z"), "not a closed run");
        Rect { x: x.parse().unwrap(), y: y.parse().unwrap(), w: w.parse().unwrap(), h: 1.0 }
    };
    path.split('M').skip(1).map(run).collect()
}

/// Every code of a page as it would be printed, at a resolution; words are left out.
pub fn print(svg: &str, dots_per_inch: f64) -> Grey {
    let page = Document::parse(svg).unwrap();
    let root = page.root_element();
    let dots = dots_per_inch / 25.4;
    let size = |name| (number(root, name) * dots).round() as usize;
    let mut grey = Grey { w: size("width"), h: size("height"), px: vec![] };
    grey.px = vec![255; grey.w * grey.h];
    for label in windows(root) {
        let at = rect(label);
        let (window, runs) = code(label);
        let (inner, view) = (rect(window), view_width(window));
        let module = inner.w / view;
        for run in runs {
            let mm = [at.x + inner.x + run.x * module, at.y + inner.y + run.y * module];
            grey.fill(mm[0] * dots, mm[1] * dots, run.w * module * dots, module * dots);
        }
    }
    grey
}

pub fn view_width(window: Node) -> f64 {
    window.attribute("viewBox").unwrap().split(' ').nth(2).unwrap().parse().unwrap()
}

impl Grey {
    /// Dark where a pixel's middle lies inside.
    fn fill(&mut self, x: f64, y: f64, w: f64, h: f64) {
        let pixel = |v: f64| (v - 0.5).ceil().max(0.0) as usize;
        for row in pixel(y)..pixel(y + h).min(self.h) {
            self.px[row * self.w..][pixel(x)..pixel(x + w).min(self.w)].fill(0);
        }
    }

    pub fn cut(&self, x: usize, y: usize, w: usize, h: usize) -> Grey {
        let (w, h) = (w.min(self.w - x), h.min(self.h - y));
        let px = (y..y + h).flat_map(|row| self.px[row * self.w + x..][..w].to_vec()).collect();
        Grey { w, h, px }
    }

    /// The grey at a place between pixels; paper outside.
    fn at(&self, x: f64, y: f64) -> f64 {
        let pixel = |x: f64, y: f64| {
            let inside = x >= 0.0 && y >= 0.0 && x < self.w as f64 && y < self.h as f64;
            if inside { f64::from(self.px[y as usize * self.w + x as usize]) } else { 255.0 }
        };
        let (x0, y0) = (x.floor(), y.floor());
        let (dx, dy) = (x - x0, y - y0);
        let row = |y| pixel(x0, y) * (1.0 - dx) + pixel(x0 + 1.0, y) * dx;
        row(y0) * (1.0 - dy) + row(y0 + 1.0) * dy
    }

    /// A new picture, each pixel fetched from where `from` says.
    fn drawn(&self, w: usize, h: usize, from: impl Fn(f64, f64) -> (f64, f64)) -> Grey {
        let px = (0..w * h).map(|i| {
            let (x, y) = from((i % w) as f64, (i / w) as f64);
            self.at(x, y).round() as u8
        });
        Grey { w, h, px: px.collect() }
    }

    /// Turned in its plane, with room round it.
    pub fn turned(&self, degrees: f64) -> Grey {
        let (sin, cos) = degrees.to_radians().sin_cos();
        let side = (self.w as f64).hypot(self.h as f64).ceil();
        let (cx, cy) = (self.w as f64 / 2.0, self.h as f64 / 2.0);
        self.drawn(side as usize, side as usize, |x, y| {
            let (x, y) = (x - side / 2.0, y - side / 2.0);
            (cx + x * cos + y * sin, cy - x * sin + y * cos)
        })
    }

    /// Seen from a side: the right edge is further off by `depth` of the picture's width.
    pub fn leaning(&self, depth: f64) -> Grey {
        let (w, h) = (self.w as f64, self.h as f64);
        self.drawn(self.w, self.h, |x, y| {
            let far = 1.0 / (1.0 - depth * x / w);
            (x * far * (1.0 - depth), h / 2.0 + (y - h / 2.0) * far)
        })
    }

    /// Each pixel the mean of those round it.
    pub fn blurred(&self, radius: usize) -> Grey {
        let r = radius as i64;
        let px = (0..self.px.len()).map(|i| {
            let (x, y) = ((i % self.w) as i64, (i / self.w) as i64);
            let near = (y - r..=y + r).flat_map(|y| (x - r..=x + r).map(move |x| (x, y)));
            let (sum, n) = near.fold((0.0, 0.0), |(s, n), (x, y)| (s + self.at(x as f64, y as f64), n + 1.0));
            (sum / n) as u8
        });
        Grey { px: px.collect(), ..*self }
    }

    /// In a dim shed: less contrast, darker to one side, grain of ± `grain`.
    pub fn dim(&self, grain: i64) -> Grey {
        let mut dice = Dice(7);
        let px = self.px.iter().enumerate().map(|(i, p)| {
            let light = 0.35 + 0.3 * (i % self.w) as f64 / self.w as f64;
            let grain = dice.roll() as i64 % (2 * grain + 1) - grain;
            ((40.0 + f64::from(*p) * light) as i64 + grain).clamp(0, 255) as u8
        });
        Grey { px: px.collect(), ..*self }
    }

    pub fn noise(w: usize, h: usize, seed: u64) -> Grey {
        let mut dice = Dice(seed);
        Grey { w, h, px: (0..w * h).map(|_| dice.roll() as u8).collect() }
    }
}

/// The same numbers in every run (xorshift).
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0 >> 16
    }
}
