//! What comes of multiplying and dividing quantities.

use core::ops::{Div, Mul};

use super::{Area, Density, Length, LinearDensity, Mass, Volume};

/// A length of something with a mass per length has a mass.
impl Mul<LinearDensity> for Length {
    type Output = Mass;
    fn mul(self, per_length: LinearDensity) -> Mass {
        Mass(self.0 * per_length.0)
    }
}

/// Two lengths span an area.
impl Mul for Length {
    type Output = Area;
    fn mul(self, other: Self) -> Area {
        Area(self.0 * other.0)
    }
}

/// A length over an area is a volume.
impl Mul<Area> for Length {
    type Output = Volume;
    fn mul(self, area: Area) -> Volume {
        Volume(self.0 * area.0)
    }
}

/// A cross-section of a material has a mass per length.
impl Mul<Density> for Area {
    type Output = LinearDensity;
    fn mul(self, density: Density) -> LinearDensity {
        LinearDensity(self.0 * density.0)
    }
}

/// A mass of a material takes up a volume.
impl Div<Density> for Mass {
    type Output = Volume;
    fn div(self, density: Density) -> Volume {
        Volume(self.0 / density.0)
    }
}

/// A volume of a material has a mass.
impl Mul<Density> for Volume {
    type Output = Mass;
    fn mul(self, density: Density) -> Mass {
        Mass(self.0 * density.0)
    }
}

/// A mass per length of a material fills a cross-section.
impl Div<Density> for LinearDensity {
    type Output = Area;
    fn div(self, density: Density) -> Area {
        Area(self.0 / density.0)
    }
}

/// A mass per length spread over a cross-section is a mass per volume.
impl Div<Area> for LinearDensity {
    type Output = Density;
    fn div(self, section: Area) -> Density {
        Density(self.0 / section.0)
    }
}

/// A mass in a volume has a mass per volume.
impl Div<Volume> for Mass {
    type Output = Density;
    fn div(self, volume: Volume) -> Density {
        Density(self.0 / volume.0)
    }
}
