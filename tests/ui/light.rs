//! Light: how bright a colour is and how far two stand from each other, as WCAG 2.2 defines both.

use std::sync::LazyLock;

use palette::Srgb;

/// The linear light of each value of a channel, from 0 to 1.
static LINEAR: LazyLock<[f32; 256]> = LazyLock::new(|| {
    std::array::from_fn(|value| {
        let value = u8::try_from(value).expect("a byte");
        Srgb::new(value, value, value).into_linear::<f32>().red
    })
});

/// Red, green and blue as linear light.
pub(crate) fn linear(rgb: [u8; 3]) -> [f32; 3] {
    rgb.map(|channel| LINEAR[usize::from(channel)])
}

/// "Relative luminance".
pub(crate) fn luminance([red, green, blue]: [f32; 3]) -> f32 {
    0.2126 * red + 0.7152 * green + 0.0722 * blue
}

/// "Contrast ratio" of two luminances.
pub(crate) fn ratio(one: f32, other: f32) -> f32 {
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

/// "Contrast ratio" of two colours.
pub(crate) fn contrast(one: [u8; 3], other: [u8; 3]) -> f32 {
    ratio(luminance(linear(one)), luminance(linear(other)))
}

/// WCAG's own formula agrees with its published neighbours: #767676 on white passes 4.5:1, #777777 fails.
#[test]
fn the_contrast_formula_is_the_published_one() {
    let white = [255, 255, 255];
    for (grey, ratio) in [
        (0x76, 4.5422),
        (0x77, 4.4781),
        (0x59, 7.0047),
        (0x94, 3.03),
        (0x00, 21.0),
    ] {
        let got = contrast([grey, grey, grey], white);
        assert!(
            (got - ratio).abs() < 0.004,
            "#{grey:02x}: {got:.4}, published {ratio}"
        );
    }
}
