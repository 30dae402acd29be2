//! What a preview asks of the shell, answered as the shell answers it for the window: sizes of letters, and pictures.

use potside::view::fit::{self, Weight};
use potside::view::picture::canvas::{Canvas, Ink, pixels};
use potside::view::picture::curve::{self, CurveFrame, CurveInks};
use potside::view::picture::digit;
use potside::view::picture::pot::{self, PotFrame, PotInks};
use potside::view::picture::rail::{self, RailFrame, RailInks};
use potside::view::picture::tag::{self, TagInks};
use potside::view::screen::{
    BathCurve, CurveLists, CurveMark, CurveRule, Heat, Lid, MarkKind, Place, PotPicture, RailFace, Steam,
};
use slint::{Image, Model, Rgb8Pixel, SharedPixelBuffer};
use slint_interpreter::{ComponentInstance, Struct, Value};

/// Answers what a preview asks of its letters, of letters.
pub(super) fn of_letters(case: &ComponentInstance) {
    type Answer = fn(&str, Weight, &[f32]) -> f32;
    let answers: [(&str, Answer); 4] = [
        ("width", |text, weight, _| fit::width(text, weight)),
        ("widest-word", |text, weight, _| fit::widest_word(text, weight)),
        ("lines", |text, weight, room| match room {
            [room] => fit::lines(text, weight, *room).into(),
            _ => panic!("the room of lines is one width"),
        }),
        ("largest", |text, weight, room| match room {
            [width, height, least] => fit::largest(text, weight, *width, *height, *least),
            _ => panic!("a box and a least size"),
        }),
    ];
    for (asked, answer) in answers {
        let answers = move |of: &[Value]| match of {
            [Value::String(text), Value::Number(weight), room @ ..] => {
                let weight = if *weight < 600.0 {
                    Weight::Regular
                } else {
                    Weight::Bold
                };
                let room: Vec<f32> = room.iter().map(number).collect();
                Value::Number(answer(text, weight, &room).into())
            }
            _ => panic!("{asked} is asked of a text and a weight"),
        };
        case.set_global_callback("LettersBridge", asked, answers)
            .expect("it has been added to the preview");
    }
}

#[expect(clippy::as_conversions, reason = "markup has its lengths in single floats")]
fn number(value: &Value) -> f32 {
    let Value::Number(number) = value else {
        panic!("a room is told in numbers");
    };
    *number as f32
}

/// Answers what a preview asks to have drawn.
pub(super) fn of_pictures(case: &ComponentInstance) {
    type Answer = fn(&[Value]) -> Value;
    let answers: [(&str, Answer); 6] = [
        ("pot", |of| match of {
            [picture, inks, frame] => {
                let frame = PotFrame {
                    width: whole(&field(frame, "width")),
                    height: whole(&field(frame, "height")),
                    unit: number(&field(frame, "unit")),
                    on_card: is(&field(frame, "on-card")),
                    is_centred: is(&field(frame, "is-centred")),
                };
                image(&pot::draw(&pot_picture(picture), &pot_inks(inks), frame))
            }
            _ => panic!("a pot, its colours and its frame"),
        }),
        ("curve", |of| match of {
            [curve, marks, temperatures, times, inks, frame] => {
                let lists = CurveLists {
                    marks: rows(marks).iter().map(curve_mark).collect(),
                    temperatures: rows(temperatures).iter().map(curve_rule).collect(),
                    times: rows(times).iter().map(curve_rule).collect(),
                };
                let frame = CurveFrame {
                    width: whole(&field(frame, "width")),
                    height: whole(&field(frame, "height")),
                    unit: number(&field(frame, "unit")),
                    letter: number(&field(frame, "letter")),
                };
                image(&curve::draw(&bath_curve(curve), &lists, &curve_inks(inks), frame))
            }
            _ => panic!("a curve with its three lists, its colours and its frame"),
        }),
        ("tag", |of| match of {
            [pot, side, inks] => {
                let inks = TagInks {
                    face: ink(inks, "face"),
                    letters: ink(inks, "letters"),
                    ground: ink(inks, "ground"),
                };
                image(&tag::draw(whole(pot).into(), whole(side), inks))
            }
            _ => panic!("a pot, a side and colours"),
        }),
        ("rail", |of| match of {
            [faces, held, inks, frame] => {
                let faces: Vec<RailFace> = rows(faces).iter().map(rail_face).collect();
                let held = (number(held) >= 0.0).then(|| usize::from(whole(held)));
                image(&rail::draw(&faces, held, &rail_inks(inks), rail_frame(frame)))
            }
            _ => panic!("cells, the one that is held, colours and a frame"),
        }),
        ("digit", |of| match of {
            [digit, _, _, _] if text(digit).is_empty() => Value::Image(Image::default()),
            [digit, size, face, ground] => image(&digit::draw(
                &text(digit),
                number(size),
                color(face),
                color(ground),
            )),
            _ => panic!("a digit, a size and two colours"),
        }),
        ("above", |of| match of {
            [size] => Value::Number(digit::above(number(size)).into()),
            _ => panic!("a size"),
        }),
    ];
    for (asked, answer) in answers {
        case.set_global_callback("PictureBridge", asked, answer)
            .expect("it has been added to the preview");
    }
}

fn image(canvas: &Canvas) -> Value {
    let (width, height) = (canvas.width().into(), canvas.height().into());
    let bytes = canvas.pixels().as_flattened();
    Value::Image(Image::from_rgb8(
        SharedPixelBuffer::<Rgb8Pixel>::clone_from_slice(bytes, width, height),
    ))
}

fn field(of: &Value, name: &str) -> Value {
    let Value::Struct(parts) = of else {
        panic!("{name} is a part of a struct");
    };
    Struct::get_field(parts, name).expect("a field of it").clone()
}

fn whole(value: &Value) -> u16 {
    pixels(number(value))
}

fn is(value: &Value) -> bool {
    matches!(value, Value::Bool(true))
}

fn text(value: &Value) -> String {
    let Value::String(text) = value else {
        panic!("a text");
    };
    text.to_string()
}

fn color(value: &Value) -> Ink {
    let Value::Brush(brush) = value else {
        panic!("a colour");
    };
    [brush.color().red(), brush.color().green(), brush.color().blue()]
}

fn ink(of: &Value, name: &str) -> Ink {
    color(&field(of, name))
}

fn rows(list: &Value) -> Vec<Value> {
    let Value::Model(list) = list else {
        panic!("a list");
    };
    list.iter().collect()
}

/// The variant of that name.
fn variant<T: Copy>(of: &Value, name: &str, variants: &[(&str, T)]) -> T {
    let Value::EnumerationValue(_, here) = field(of, name) else {
        panic!("{name} is one of several");
    };
    let found = variants.iter().find(|(variant, _)| *variant == here);
    found.expect("a variant of the view").1
}

fn pot_picture(of: &Value) -> PotPicture {
    let place = [
        ("absent", Place::Absent),
        ("out", Place::Out),
        ("within", Place::Within),
    ];
    PotPicture {
        pot: whole(&field(of, "pot")).into(),
        level: number(&field(of, "level")),
        lid: variant(
            of,
            "lid",
            &[("off", Lid::Off), ("loose", Lid::Loose), ("tight", Lid::Tight)],
        ),
        heat: variant(
            of,
            "heat",
            &[("off", Heat::Off), ("low", Heat::Low), ("high", Heat::High)],
        ),
        steam: variant(
            of,
            "steam",
            &[
                ("none", Steam::None),
                ("some", Steam::Some),
                ("much", Steam::Much),
            ],
        ),
        goods: variant(of, "goods", &place),
        bag: variant(of, "bag", &place),
        // The colour of its liquor comes with the others.
        ..PotPicture::default()
    }
}

fn pot_inks(of: &Value) -> PotInks {
    PotInks {
        around: ink(of, "around"),
        card: ink(of, "card"),
        wood: ink(of, "wood"),
        thread: ink(of, "thread"),
        line: ink(of, "line"),
        fibre: ink(of, "fibre"),
        fibre_edge: ink(of, "fibre-edge"),
        flame: ink(of, "flame"),
        flame_core: ink(of, "flame-core"),
        steam: ink(of, "steam"),
        liquor: ink(of, "liquor"),
        surface: ink(of, "surface"),
        tag: ink(of, "tag"),
        number: ink(of, "number"),
    }
}

fn bath_curve(of: &Value) -> BathCurve {
    BathCurve {
        band: text(&field(of, "band")),
        plan: text(&field(of, "plan")),
        done: text(&field(of, "done")),
        now: number(&field(of, "now")),
        said: String::new(),
    }
}

fn curve_mark(of: &Value) -> CurveMark {
    let kinds = [
        ("addition", MarkKind::Addition),
        ("turn", MarkKind::Turn),
        ("reading", MarkKind::Reading),
        ("tap", MarkKind::Tap),
    ];
    CurveMark {
        x: number(&field(of, "x")),
        y: number(&field(of, "y")),
        label: text(&field(of, "label")),
        kind: variant(of, "kind", &kinds),
    }
}

fn curve_rule(of: &Value) -> CurveRule {
    CurveRule {
        at: number(&field(of, "at")),
        label: text(&field(of, "label")),
    }
}

fn curve_inks(of: &Value) -> CurveInks {
    CurveInks {
        around: ink(of, "around"),
        sunk: ink(of, "sunk"),
        grid: ink(of, "grid"),
        band: ink(of, "band"),
        edge: ink(of, "edge"),
        done: ink(of, "done"),
        ink: ink(of, "ink"),
        soft: ink(of, "soft"),
        raised: ink(of, "raised"),
    }
}

fn rail_face(of: &Value) -> RailFace {
    RailFace {
        pot: whole(&field(of, "pot")).into(),
        forward: is(&field(of, "forward")),
        calling: is(&field(of, "calling")),
    }
}

fn rail_inks(of: &Value) -> RailInks {
    RailInks {
        around: ink(of, "around"),
        raised: ink(of, "raised"),
        caution: ink(of, "caution"),
        thread: ink(of, "thread"),
        line: ink(of, "line"),
        ink: ink(of, "ink"),
        on_caution: ink(of, "on-caution"),
    }
}

fn rail_frame(of: &Value) -> RailFrame {
    RailFrame {
        width: whole(&field(of, "width")),
        height: whole(&field(of, "height")),
        unit: number(&field(of, "unit")),
        columns: whole(&field(of, "columns")),
        each: number(&field(of, "each")),
        each_high: number(&field(of, "each-high")),
        gap: number(&field(of, "gap")),
        tag: number(&field(of, "tag")),
        is_narrow: is(&field(of, "is-narrow")),
    }
}
