//! What a line may be made of, by its mass per volume.

use super::spread::Spread;
use crate::base::units::Density;

/// How many spreads either way a range shown reaches: 95 of 100.
const REACH: f64 = 2.0;

/// What a line may be made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Material {
    /// Braided silk without oil and varnish.
    BareSilk,
    /// A coat lighter than water, which floats by itself.
    FloatingCoat,
    /// Braided silk filled with oil and varnish.
    DressedSilk,
    /// A coat made heavy so that it sinks.
    SinkingCoat,
}

impl Material {
    const ALL: [Self; 4] = [
        Self::BareSilk,
        Self::FloatingCoat,
        Self::DressedSilk,
        Self::SinkingCoat,
    ];

    /// From which to which mass per volume, in g/cm³.
    ///
    /// Silk has 1.34 g/cm³ (Morton and Hearle, Physical Properties of Textile Fibres, 4th ed. 2008, table 5.1) and fills 45 to 63 of
    /// 100 parts of a braid's section: analytic, 0.60 to 0.84 bare. With three quarters to all of the voids filled by oil of 0.93 that
    /// gains a tenth in drying, 1.05 to 1.25: analytic. What floats by itself is lighter than water: analytic; that coats for it are not
    /// lighter than 0.75, and that what is heavier than 1.25 has a heavy coat, is from memory.
    const fn range(self) -> (f64, f64) {
        match self {
            Self::BareSilk => (0.60, 0.84),
            Self::FloatingCoat => (0.75, 1.00),
            Self::DressedSilk => (1.05, 1.25),
            Self::SinkingCoat => (1.25, 4.0),
        }
    }

    /// All that such a density may be.
    pub(super) fn all_of(density: Spread<Density>) -> Vec<Self> {
        let value = density.value.grams_per_cubic_centimetre();
        let reach = REACH * density.spread.grams_per_cubic_centimetre();
        let fits = |material: &Self| {
            let (low, high) = material.range();
            value + reach >= low && value - reach <= high
        };
        Self::ALL.into_iter().filter(fits).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source of the two rows: finished and undressed bulk densities of silk at fibre fractions of 0.50 to 0.60, analytic.
    #[test]
    fn a_material_is_known_by_its_density() {
        let of = |value: f64| {
            let density = Density::from_grams_per_cubic_centimetre;
            Material::all_of(Spread {
                value: density(value),
                spread: density(0.005),
            })
        };
        for dressed in [1.165, 1.182, 1.200] {
            assert_eq!(of(dressed), [Material::DressedSilk]);
        }
        for bare in [0.670, 0.737] {
            assert_eq!(of(bare), [Material::BareSilk]);
        }
        assert_eq!(of(0.93), [Material::FloatingCoat]);
        assert_eq!(of(0.80), [Material::BareSilk, Material::FloatingCoat]);
        assert_eq!(of(1.6), [Material::SinkingCoat]);
        assert_eq!(of(1.03), []);
    }
}
