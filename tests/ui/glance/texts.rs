//! Every text that stands on a window, as the painter has it: its words, its box, its size. Asked of Slint's own items,
//! since most texts are no part of the accessible tree: what holds them carries the name.

use std::rc::Rc;

use i_slint_core::accessibility::AccessibleStringProperty;
use i_slint_core::item_rendering::{PlainOrStyledText, RenderText};
use i_slint_core::item_tree::{ItemRc, ParentItemTraversalMode};
use i_slint_core::items::{Clip, ComplexText, Flickable, ImageItem, Path, SimpleText, TextWrap, TouchArea};
use i_slint_core::lengths::{LogicalLength, LogicalPoint, LogicalRect};
use i_slint_core::window::{WindowAdapter, WindowInner};

/// A text and where it stands.
#[derive(Debug, Clone)]
pub(crate) struct Text {
    pub(crate) words: String,
    pub(crate) area: Area,
    /// In pixels of the window.
    pub(crate) font_size: f32,
    pub(crate) is_bold: bool,
    /// The room that its words take when nothing is cut: across, which is that of the longest word where lines may break,
    /// and down.
    pub(crate) needs: (f32, f32),
    /// Nothing around it cuts it: no edge of a page that is scrolled.
    pub(crate) is_in_sight: bool,
}

impl Text {
    /// Whether its box is too small for its words, so that they are elided, or their last line is cut.
    pub(crate) fn is_cut(&self) -> bool {
        self.needs.0 > self.area.width() + 0.5 || self.needs.1 > self.area.height() + 0.5
    }
}

/// A box of a window, in pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Area {
    pub(crate) left: f32,
    pub(crate) top: f32,
    pub(crate) right: f32,
    pub(crate) bottom: f32,
}

/// A sign is a drawing between these, in pixels.
const SIGN_LEAST: f32 = 12.0;
const SIGN_MOST: f32 = 60.0;

impl Area {
    /// Whether another box lies in this one, give or take a pixel.
    pub(crate) fn holds(self, other: Self) -> bool {
        self.left <= other.left + 1.0
            && self.top <= other.top + 1.0
            && self.right >= other.right - 1.0
            && self.bottom >= other.bottom - 1.0
    }

    pub(crate) const ALL: Self = Self {
        left: f32::MIN,
        top: f32::MIN,
        right: f32::MAX,
        bottom: f32::MAX,
    };

    pub(crate) fn width(self) -> f32 {
        self.right - self.left
    }

    pub(crate) fn height(self) -> f32 {
        self.bottom - self.top
    }

    /// What both have; turned inside out where they have nothing.
    const fn cut_to(self, other: Self) -> Self {
        Self {
            left: self.left.max(other.left),
            top: self.top.max(other.top),
            right: self.right.min(other.right),
            bottom: self.bottom.min(other.bottom),
        }
    }

    const fn is_empty(self) -> bool {
        self.left >= self.right || self.top >= self.bottom
    }
}

/// What stands on a window.
#[derive(Default)]
struct Found {
    texts: Vec<Text>,
    signs: Vec<Area>,
    /// With what each is called.
    pictures: Vec<(String, Area)>,
}

/// Every text in sight, or out of it only because a page is scrolled.
pub(crate) fn shown(window: &slint::Window) -> Vec<Text> {
    found(window).texts
}

/// The boxes of small drawings in sight, such as the signs on what is pressed and the tags of pots.
pub(crate) fn signs(window: &slint::Window) -> Vec<Area> {
    found(window).signs
}

/// The boxes of large pictures, such as a pot and a curve, with what each is called.
pub(crate) fn pictures(window: &slint::Window) -> Vec<(String, Area)> {
    found(window).pictures
}

fn found(window: &slint::Window) -> Found {
    let inner = WindowInner::from_pub(window);
    let adapter = inner.window_adapter();
    let mut found = Found::default();
    let root = ItemRc::new_root(inner.component());
    walk(&root, &adapter, Area::ALL, &mut found);
    found
}

/// `clip` is the box around this item that cuts it.
fn walk(item: &ItemRc, adapter: &Rc<dyn WindowAdapter>, mut clip: Area, found: &mut Found) {
    let place = place_of(item);
    if item
        .downcast::<Clip>()
        .is_some_and(|item| item.as_pin_ref().clip())
    {
        clip = clip.cut_to(place);
        // What isn't visible is clipped to nothing.
        if clip.is_empty() {
            return;
        }
    }
    if item.downcast::<Flickable>().is_some() {
        clip = clip.cut_to(place);
    }
    let is_in_sight = place.cut_to(clip) == place;
    found
        .texts
        .extend(read(item, adapter, place).map(|text| Text { is_in_sight, ..text }));
    let is_small =
        place.width().max(place.height()) <= SIGN_MOST && place.width().min(place.height()) >= SIGN_LEAST;
    let is_picture = item.downcast::<ImageItem>().is_some();
    if is_picture && let Some(text) = drawn_digit(item, adapter, place) {
        found.texts.push(Text { is_in_sight, ..text });
    } else if is_in_sight && is_small && (is_picture || item.downcast::<Path>().is_some()) {
        found.signs.push(place);
    } else if is_picture {
        found.signs.extend(tags_of_rail(item));
        let called = item
            .parent_item(ParentItemTraversalMode::StopAtPopups)
            .and_then(|holder| holder.accessible_string_property(AccessibleStringProperty::Label));
        found.pictures.extend(called.map(|called| (called.into(), place)));
    }
    let mut child = item.first_child();
    while let Some(next) = child {
        walk(&next, adapter, clip, found);
        child = next.next_sibling();
    }
}

/// The rail is one picture beneath its cells, which are pressed: the tags on it, where `pot_rail.slint` has them.
fn tags_of_rail(picture: &ItemRc) -> Vec<Area> {
    let mut tags = Vec::new();
    let mut next = picture.next_sibling();
    while let Some(cell) = next {
        if cell.downcast::<TouchArea>().is_some() {
            let place = place_of(&cell);
            let is_narrow = place.width() < 120.0;
            let side = if is_narrow { 30.0 } else { 46.0 };
            let top = if is_narrow {
                6.0
            } else {
                (place.height() - side) / 2.0
            };
            tags.push(Area {
                left: place.left + 11.0,
                top: place.top + top,
                right: place.left + 11.0 + side,
                bottom: place.top + top + side,
            });
        }
        next = cell.next_sibling();
    }
    tags
}

/// The last digit of a running time, which is a picture beside its text: what holds both is called by both.
fn drawn_digit(picture: &ItemRc, adapter: &Rc<dyn WindowAdapter>, area: Area) -> Option<Text> {
    let holder = picture.parent_item(ParentItemTraversalMode::StopAtPopups)?;
    let before = holder.first_child()?;
    let before = read(&before, adapter, place_of(&before))?;
    let called = holder.accessible_string_property(AccessibleStringProperty::Label)?;
    let digit = called.strip_prefix(&before.words)?;
    (!digit.is_empty() && area.width() > 0.0).then(|| Text {
        words: digit.to_owned(),
        area,
        // As it is drawn, it is cut close.
        needs: (area.width(), area.height()),
        ..before
    })
}

fn place_of(item: &ItemRc) -> Area {
    let LogicalRect { origin, size } = item.geometry();
    let LogicalPoint { x, y, .. } = item
        .parent_item(ParentItemTraversalMode::StopAtPopups)
        .map_or(origin, |_| item.map_to_window(origin));
    Area {
        left: x,
        top: y,
        right: x + size.width,
        bottom: y + size.height,
    }
}

fn read(item: &ItemRc, adapter: &Rc<dyn WindowAdapter>, area: Area) -> Option<Text> {
    if let Some(text) = item.downcast::<ComplexText>() {
        read_item(item, adapter, area, text.as_pin_ref())
    } else if let Some(text) = item.downcast::<SimpleText>() {
        read_item(item, adapter, area, text.as_pin_ref())
    } else {
        None
    }
}

fn read_item<T: RenderText>(
    item: &ItemRc,
    adapter: &Rc<dyn WindowAdapter>,
    area: Area,
    text: std::pin::Pin<&T>,
) -> Option<Text> {
    let PlainOrStyledText::Plain(words) = text.text() else {
        panic!("no screen has styled text")
    };
    if words.trim().is_empty() {
        return None;
    }
    let font = text.font_request(item);
    let renderer = adapter.renderer();
    let needs = match text.wrap() {
        TextWrap::NoWrap => {
            let size = renderer.text_size(text, item, None, TextWrap::NoWrap);
            (size.width, size.height)
        }
        wrap @ (TextWrap::WordWrap | TextWrap::CharWrap) => {
            let across = LogicalLength::new(area.width());
            let longest_word = renderer
                .text_content_widths(text, item)
                .expect("it shapes text")
                .min;
            (
                longest_word.get(),
                renderer.text_size(text, item, Some(across), wrap).height,
            )
        }
        _ => panic!("a way to wrap that this doesn't know"),
    };
    Some(Text {
        // A no-break space is a space to who looks for the words.
        words: words.replace('\u{a0}', " "),
        area,
        font_size: font.pixel_size.expect("a size").get(),
        is_bold: font.weight.is_some_and(|weight| weight >= 600),
        needs,
        is_in_sight: true,
    })
}
