//! The pot in section, as it should look now: one look compares it with the real one. Drawn in a box of 1000 by 1180.

use super::canvas::{Area, Canvas, Ink, Place};
use super::tag;
use crate::view::screen::{Heat, Lid, Place as Where, PotPicture, Steam};

/// The colours of a pot.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PotInks {
    /// What the picture lies on.
    pub around: Ink,
    /// What the pot lies on: the same, or a card where the ground is coloured.
    pub card: Ink,
    /// Its wall, its lid, the burner.
    pub wood: Ink,
    /// The face of the lid.
    pub thread: Ink,
    /// What is off.
    pub line: Ink,
    /// Goods and bag.
    pub fibre: Ink,
    /// Their edge.
    pub fibre_edge: Ink,
    /// The flame.
    pub flame: Ink,
    /// Its core.
    pub flame_core: Ink,
    /// The steam.
    pub steam: Ink,
    /// The liquor.
    pub liquor: Ink,
    /// Its surface.
    pub surface: Ink,
    /// The tag.
    pub tag: Ink,
    /// The number on it.
    pub number: Ink,
}

/// How large the picture is and how the pot stands in it, in pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PotFrame {
    /// How wide.
    pub width: u16,
    /// How high.
    pub height: u16,
    /// Pixels to a unit of the screens' design.
    pub unit: f32,
    /// On a card of its own.
    pub on_card: bool,
    /// In the middle, and not at the foot.
    pub is_centred: bool,
}

const WIDE: f32 = 1_000.0;
const HIGH: f32 = 1_180.0;
/// Inside of the pot.
const BRIM: f32 = 350.0;
const FLOOR: f32 = 900.0;
const LEFT: f32 = 172.0;
const INSIDE: f32 = 656.0;

/// The picture.
#[must_use]
pub fn draw(pot: &PotPicture, inks: &PotInks, frame: PotFrame) -> Canvas {
    let mut canvas = Canvas::new(frame.width, frame.height, inks.around);
    let (width, height) = (f32::from(frame.width), f32::from(frame.height));
    let pad = if frame.on_card { 12.0 * frame.unit } else { 0.0 };
    // The drawing keeps its shape inside whatever room there is.
    let wide = (width - 2.0 * pad)
        .min((height - 2.0 * pad) * WIDE / HIGH)
        .max(0.0);
    let k = wide / WIDE;
    let left = (width - wide) / 2.0;
    let spare = height - HIGH * k;
    let is_centred = frame.on_card || frame.is_centred;
    let top = if is_centred { spare / 2.0 } else { spare };
    if frame.on_card {
        let card = Area {
            x: 0.0,
            y: 0.0,
            width,
            height,
        };
        canvas.rounded(card, 10.0 * frame.unit, inks.card);
    }
    let mut drawing = Drawing {
        canvas: &mut canvas,
        inks,
        k,
        left,
        top,
    };
    drawing.steam(pot.steam);
    drawing.outside(pot);
    let surface = FLOOR - (FLOOR - BRIM) * pot.level.clamp(0.0, 1.0);
    drawing.liquor(surface);
    drawing.inside(pot, surface);
    drawing.wall();
    drawing.lid(pot.lid);
    drawing.heat(pot.heat);
    if pot.pot > 0 {
        let side = (190.0 * k).max(30.0 * frame.unit);
        // In a small picture it is larger than the room beside the burner.
        let corner = (
            (left + 790.0 * k).min(width - side),
            (top + 980.0 * k).min(height - side),
        );
        tag::put(&mut canvas, pot.pot, corner, side, (inks.tag, inks.number));
    }
    canvas
}

struct Drawing<'a> {
    canvas: &'a mut Canvas,
    inks: &'a PotInks,
    /// Pixels to a unit of the drawing.
    k: f32,
    left: f32,
    top: f32,
}

impl Drawing<'_> {
    fn at(&self, x: f32, y: f32, unit: f32) -> Place {
        let k = self.k;
        Place::even(self.left + x * k, self.top + y * k, unit * k)
    }

    fn stroke(&mut self, path: &str, pen: f32, ink: Ink) {
        self.canvas
            .stroke(path, self.at(0.0, 0.0, 1.0), pen * self.k, ink);
    }

    fn fill(&mut self, path: &str, ink: Ink) {
        self.canvas.fill(path, self.at(0.0, 0.0, 1.0), ink);
    }

    /// Behind everything.
    fn steam(&mut self, steam: Steam) {
        let path = match steam {
            Steam::None => return,
            Steam::Some => "M400 290C350 240 450 200 400 140M600 290C550 240 650 200 600 140",
            Steam::Much => {
                "M300 290C240 220 360 160 300 80M500 290C440 210 560 140 500 40M700 290C640 220 760 160 700 80"
            }
        };
        self.stroke(path, 17.0, self.inks.steam);
    }

    /// Goods and bag that wait outside, hung above the pot.
    fn outside(&mut self, pot: &PotPicture) {
        if pot.goods == Where::Out {
            self.stroke("M90 14L660 14", 14.0, self.inks.wood);
            self.skeins((110.0, 10.0), (150.0, 290.0), 175.0);
        }
        if pot.bag == Where::Out {
            self.bag((700.0, 40.0), 1.7);
        }
    }

    /// Cut off by the floor of the pot, whose wall covers its corners.
    fn liquor(&mut self, surface: f32) {
        let deep = FLOOR - surface;
        let r = deep.min(20.0);
        let (down, along) = (deep - r, INSIDE - 2.0 * r);
        let path = format!(
            "M{LEFT} {surface}h{INSIDE}v{down}a{r} {r} 0 0 1 -{r} {r}h-{along}a{r} {r} 0 0 1 -{r} -{r}z"
        );
        if deep > 0.0 {
            self.fill(&path, self.inks.liquor);
            let line = format!("M{LEFT} {}h{INSIDE}v10h-{INSIDE}z", surface - 5.0);
            self.fill(&line, self.inks.surface);
        }
    }

    /// Goods and bag in the bath, hanging just under the surface.
    fn inside(&mut self, pot: &PotPicture, surface: f32) {
        let beside_bag = pot.bag == Where::Within;
        if pot.goods == Where::Within {
            let down = (FLOOR - surface - 60.0).clamp(120.0, 300.0);
            let (x, across, pitch) = if beside_bag {
                (205.0, 122.0, 138.0)
            } else {
                (240.0, 140.0, 190.0)
            };
            self.skeins((x, FLOOR - 34.0 - down), (across, down), pitch);
        }
        if beside_bag {
            self.bag((630.0, FLOOR - 215.0), 1.667);
        }
    }

    /// Three twisted skeins, drawn upright in a box for each, one from the next by a pitch.
    fn skeins(&mut self, (x, y): (f32, f32), (across, down): (f32, f32), pitch: f32) {
        // A skein has 100 by 220.
        let unit = (across / 100.0).min(down / 220.0);
        let apart = pitch / unit;
        let (left, top) = (x + (across - 100.0 * unit) / 2.0, y + (down - 220.0 * unit) / 2.0);
        let place = self.at(left, top, unit);
        let line = (across * 0.045 * self.k).max(1.5);
        let body = "c24 0 34 20 34 42c0 22 8 36 8 64c0 28 -8 38 -8 60c0 28 -14 42 -34 42c-20 0 -34 -14 -34 -42c0 -22 -8 -32 -8 -60c0 -28 8 -42 8 -64c0 -22 10 -42 34 -42z";
        let strands = "c14 20 34 34 52 38m-67 -12c17 26 45 44 72 52m-77 -12c20 26 50 44 80 48m-82 -6c22 24 50 38 74 42m-67 0c17 18 35 32 51 44";
        let thrice = |x: f32, y: f32, each: &str| {
            let (second, third) = (x + apart, x + 2.0 * apart);
            format!("M{x} {y}{each}M{second} {y}{each}M{third} {y}{each}")
        };
        let bodies = thrice(50.0, 6.0, body);
        self.canvas.fill(&bodies, place, self.inks.fibre);
        self.canvas.stroke(&bodies, place, line, self.inks.fibre_edge);
        let strands = thrice(32.0, 14.0, strands);
        self.canvas
            .stroke(&strands, place, line * 0.8, self.inks.fibre_edge);
    }

    /// A tied bag of dyestuff, 100 by 120 of its own units.
    fn bag(&mut self, (x, y): (f32, f32), unit: f32) {
        let place = self.at(x, y, unit);
        let line = (100.0 * unit * 0.045 * self.k).max(1.5);
        let bag = "M30 8L70 8L58 30C92 42 98 70 92 92C86 116 14 116 8 92C2 70 8 42 42 30Z";
        let tie_and_chips = "M36 32L64 32M30 70L30.1 70M48 84L48.1 84M66 68L66.1 68M50 58L50.1 58M36 96L36.1 96M70 92L70.1 92";
        self.canvas.fill(bag, place, self.inks.fibre);
        self.canvas.stroke(bag, place, line, self.inks.fibre_edge);
        self.canvas
            .stroke(tie_and_chips, place, line, self.inks.fibre_edge);
    }

    /// Wall, lip and handles, thick enough to see across a kitchen; measure marks as a dyer scratches them.
    fn wall(&mut self) {
        let wood = self.inks.wood;
        let wall = "M112 340L155 340L155 850C155 900 175 917 225 917L775 917C825 917 845 900 845 850L845 340L888 340";
        self.stroke(wall, 34.0, wood);
        let handles = "M155 450C60 440 60 570 155 560M845 450C940 440 940 570 845 560";
        self.stroke(handles, 26.0, wood);
        let marks = "M172 460L205 460M172 570L225 570M172 680L205 680M172 790L225 790";
        self.stroke(marks, 10.0, wood);
    }

    /// Closed, set askew with a gap, or not there.
    fn lid(&mut self, lid: Lid) {
        let path = match lid {
            Lid::Off => return,
            Lid::Loose => {
                "M150 316L872 196C850 110 640 126 500 150C360 174 148 232 150 316ZM452 146L446 108L524 94L532 132"
            }
            Lid::Tight => {
                "M130 318L870 318C860 230 640 218 500 218C360 218 140 230 130 318ZM460 206L460 168L540 168L540 206"
            }
        };
        self.fill(path, self.inks.thread);
        self.stroke(path, 26.0, self.inks.wood);
    }

    /// The burner, and what burns under the pot.
    fn heat(&mut self, heat: Heat) {
        let burner = "M220 1150L780 1150";
        let (flame, core) = match heat {
            Heat::Off => {
                let flame_crossed_out = "M500 970C540 1022 578 1050 562 1100C545 1144 455 1144 438 1100C422 1050 470 1032 500 970ZM390 1128L610 1000";
                self.stroke(burner, 22.0, self.inks.line);
                self.stroke(flame_crossed_out, 16.0, self.inks.line);
                return;
            }
            Heat::Low => (
                "M500 985C540 1030 575 1055 560 1100C545 1140 455 1140 440 1100C425 1055 475 1040 500 985Z",
                "M505 1060C530 1085 535 1125 500 1128C465 1125 475 1090 505 1060Z",
            ),
            Heat::High => (
                "M500 950C555 1010 590 1050 570 1100C550 1142 450 1142 430 1100C410 1050 475 1025 500 950ZM310 965C360 1020 392 1055 375 1100C357 1140 262 1140 245 1100C228 1055 290 1030 310 965ZM690 965C740 1020 772 1055 755 1100C737 1140 642 1140 625 1100C608 1055 670 1030 690 965Z",
                "M505 1050C535 1080 540 1126 500 1130C460 1126 472 1085 505 1050ZM315 1055C343 1085 345 1126 310 1129C272 1126 285 1088 315 1055ZM695 1055C723 1085 725 1126 690 1129C652 1126 665 1088 695 1055Z",
            ),
        };
        self.stroke(burner, 22.0, self.inks.wood);
        self.fill(flame, self.inks.flame);
        self.stroke(flame, 6.0, self.inks.flame);
        self.fill(core, self.inks.flame_core);
    }
}
