//! Eyes that see colours otherwise, by the model of Machado, Oliveira and Fernandes, "A Physiologically-based Model for
//! Simulation of Color Vision Deficiency", IEEE TVCG 15 (6), 2009: its matrices for a severity of 1.0, applied to linear
//! light. About one man in twelve sees red and green in one of the first two ways, mostly less severely.

use palette::LinSrgb;
use palette::Srgb;

/// Whose eyes look.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Eyes {
    Usual,
    Protan,
    Deutan,
    Tritan,
}

impl Eyes {
    pub(crate) const ALL: [Self; 4] = [Self::Usual, Self::Protan, Self::Deutan, Self::Tritan];

    const fn matrix(self) -> [[f32; 3]; 3] {
        match self {
            Self::Usual => [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
            Self::Protan => [
                [0.152_286, 1.052_583, -0.204_868],
                [0.114_503, 0.786_281, 0.099_216],
                [-0.003_882, -0.048_116, 1.051_998],
            ],
            Self::Deutan => [
                [0.367_322, 0.860_646, -0.227_968],
                [0.280_085, 0.672_501, 0.047_413],
                [-0.011_820, 0.042_940, 0.968_881],
            ],
            Self::Tritan => [
                [1.255_528, -0.076_749, -0.178_779],
                [-0.078_411, 0.930_809, 0.147_602],
                [0.004_733, 0.691_367, 0.303_900],
            ],
        }
    }

    /// A colour as these eyes see it.
    pub(crate) fn see(self, rgb: [u8; 3]) -> [u8; 3] {
        let light: LinSrgb<f32> = Srgb::from(rgb).into_linear();
        let seen = self.matrix().map(|[red, green, blue]| {
            (red * light.red + green * light.green + blue * light.blue).clamp(0.0, 1.0)
        });
        Srgb::<u8>::from_linear(LinSrgb::from(seen)).into()
    }
}

/// Greys are grey to everybody, and who lacks a cone takes colours for the same that others tell apart.
#[test]
fn eyes_see_what_the_model_says() {
    for eyes in Eyes::ALL {
        for grey in [0_u8, 90, 200, 255] {
            for channel in eyes.see([grey; 3]) {
                assert!(channel.abs_diff(grey) <= 1, "{eyes:?} sees {grey} as {channel}");
            }
        }
    }
    // By hand, from the matrix: pure red leaves a protan 0.152 of red light and 0.115 of green.
    assert_eq!(Eyes::Protan.see([255, 0, 0]), [109, 95, 0]);
    let apart = |one: [u8; 3], other: [u8; 3]| -> u32 {
        one.iter()
            .zip(other)
            .map(|(one, other)| u32::from(one.abs_diff(other)))
            .sum()
    };
    let (red, green) = ([0xb0, 0x40, 0x30], [0x6c, 0x60, 0x30]);
    assert!(apart(red, green) > 90);
    assert!(apart(Eyes::Deutan.see(red), Eyes::Deutan.see(green)) < 45);
}
